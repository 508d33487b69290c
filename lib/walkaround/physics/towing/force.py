"""The pull that towing takes: the slope, the rolling wheels, and a brake that was left on."""

from typing import NamedTuple

import numpy as np

from walkaround import checks
from walkaround.units import GRAVITY_M_S2


class Surface(NamedTuple):
    """A kind of ground, and the drag of a rolling wheel and of a locked one that slides, as a share of its load.

    >>> SURFACES[0]
    Surface(name='dry tarmac', rolling=0.02, locked=0.7)
    """

    name: str
    rolling: float
    locked: float


# Rolling: the usual table of textbooks on take-off (hard 0.02, firm turf 0.04, short grass 0.05, long grass 0.10, soft
# ground 0.10 to 0.30). Locked: usual figures for rubber, dry 0.7 to 0.8, wet 0.4, on ice 0.1. Both recalled.
SURFACES = (
    Surface("dry tarmac", 0.02, 0.7),
    Surface("wet tarmac", 0.02, 0.4),
    Surface("short grass", 0.05, 0.4),
    Surface("long grass", 0.10, 0.4),
    Surface("soft ground", 0.20, 0.4),
    Surface("ice", 0.02, 0.1),
)


class Loads(NamedTuple):
    """Forces in the unit of the weight: the `pull`, what it is for, and what nose wheel and main wheels carry.

    `pull` = `slope` + `rolling` + `brake`, along the ground; negative, it has to be held back.

    >>> Loads(92.0, 46.0, 46.0, 0.0, 600.0, 1700.0).brake
    0.0
    """

    pull: float
    slope: float
    rolling: float
    brake: float
    nose: float
    mains: float


def tow_loads(weight, slope_percent, rolling, locked, cg_behind_nose, wheelbase, cg_height, axle_height):
    """Return the `Loads` of an aircraft that is towed forwards by its nose wheel's axle at a steady crawl.

    Parameters (shapes broadcast): `weight`; `slope_percent`, positive where the nose points uphill; `rolling`, the
    drag of a rolling wheel as a share of its load, and `locked` that of main wheels with the brake on, NaN with the
    brake off; `cg_behind_nose` wheel, `wheelbase`, `cg_height` and `axle_height` in one unit of length.

    With forces along and across the ground and moments in balance, the main wheels carry N = (W cos θ · x +
    W sin θ · h − P r)/L, and the pull is P = W sin θ + c (W cos θ − N) + k N, where k is the main wheels' share
    (statics, any mechanics textbook). Raises ValueError for what is not above 0, a share outside 0 to 1, a slope
    outside ±30 %, or where a wheel would lift.

    >>> off = tow_loads(2300, 2.0, 0.02, np.nan, 48.0, 65.0, 40.0, 7.0)
    >>> on = tow_loads(2300, 2.0, 0.02, 0.7, 48.0, 65.0, 40.0, 7.0)
    >>> round(float(off.pull)), round(float(on.pull))
    (92, 1180)
    """
    w = checks.numbers("weight", weight, above=0)
    percent = checks.numbers("slope_percent", slope_percent, -30, 30, "%")
    c = checks.numbers("rolling", rolling, 0, 1)
    try:
        off = np.isnan(locked)
        locked = np.where(off, 0.0, locked)
    except TypeError:
        off = False  # no number: the next line says so
    locked = checks.numbers("locked", locked, 0, 1)
    given = {"cg_behind_nose": cg_behind_nose, "wheelbase": wheelbase, "cg_height": cg_height}
    lengths = {n: checks.numbers(n, v, above=0) for n, v in (*given.items(), ("axle_height", axle_height))}
    checks.same_shape(weight=w, slope_percent=percent, rolling=c, locked=locked, **lengths)
    k, (x, base, h, r) = np.where(off, c, locked), lengths.values()
    angle = np.arctan(percent / 100)
    along, across = w * np.sin(angle), w * np.cos(angle)
    mains = (across * x + along * h - r * (along + c * across)) / (base + r * (k - c))
    nose = across - mains
    down = [checks.at_least(load, 0.0, size=w).all() for load in (nose, mains)]
    if not all(down):
        wheel = "main wheels" if down[0] else "nose wheel"
        raise ValueError(f"the {wheel} would lift; allowed: a centre of gravity between the wheels, a smaller slope")
    drag = c * across
    brake = (k - c) * mains
    return Loads(along + drag + brake, along, drag, brake, nose, mains)


def rolls_to_m_s(distance_m, slope_percent, rolling):
    """Speed in m/s of an aircraft that rolls off by itself, after some metres down a slope (shapes broadcast).

    √(2 g s (sin θ − c cos θ)), from energy; 0 on a slope that it does not roll down by itself. Raises ValueError for a
    distance below 0, a slope outside 0 to 30 %, or a share outside 0 to 1.

    >>> round(float(rolls_to_m_s(20.0, 4.0, 0.02)), 1)
    2.8
    """
    distance = checks.numbers("distance_m", distance_m, low=0, unit="m")
    percent = checks.numbers("slope_percent", slope_percent, 0, 30, "%")
    c = checks.numbers("rolling", rolling, 0, 1)
    checks.same_shape(distance_m=distance, slope_percent=percent, rolling=c)
    angle = np.arctan(percent / 100)
    return np.sqrt(2 * GRAVITY_M_S2 * distance * np.maximum(np.sin(angle) - c * np.cos(angle), 0.0))
