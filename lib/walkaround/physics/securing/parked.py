"""A parked aircraft in the wind: what wheels and ropes carry, and the wind at which each thing goes.

Ropes that lift has tightened pull along the ground too, and that counts; that they tighten as the aircraft shifts is
left out as long as a wheel holds it. Left out as well is the lift that a nose adds when it rises on stretching ropes,
as a free elevator makes it do: the ropes then break in less wind than is found here. While both wing ropes hold, an
aircraft that slides or rolls is caught by them: it shifts, and that is no failure yet.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from walkaround import checks
from walkaround.physics.securing.chocks import chock_force
from walkaround.physics.securing.ropes import Rope
from walkaround.physics.securing.supports import Supports, carried
from walkaround.physics.securing.wind import HALF_WING, MOST_KT, Airframe, WindLoads, wind_loads

ROLLING = 0.02  # of the weight, tyres on a hard surface: a rule of thumb (recalled)
STRONGEST_KT = 150.0
# What can happen, in the order of the ropes' and wheels' names.
FAILURES = ("left rope", "right rope", "tail rope", "tips", "moves", "wheel lifts")


@dataclass(frozen=True)
class Parked:
    """An aircraft as it stands: newtons, metres, degrees; places are (aft, right).

    `cg_m` aft, `cg_height_m` above the ground; `wheels_m` nose, left and right; `ropes` left, right and tail, None for
    one that is missing; `chock_m`, the height of the main wheels' chocks, 0 for none; `braked`; `friction`, pull along
    the ground at which a wheel slides over its load; `slope_deg`, uphill to the nose; `from_deg` the wind's side;
    `elevators_deg`, where the elevator may stand: one place if it is locked, both stops if it is free.

    >>> from walkaround import aircraft
    >>> from walkaround.aircraft import tie_down
    >>> round(tie_down.parked(aircraft.demo("morrowlark_four"), fuel_share=1.0).weight_n)
    8158
    """

    airframe: Airframe
    weight_n: float
    cg_m: float
    cg_height_m: float
    wheels_m: tuple
    wheel_radius_m: float
    ropes: tuple = (None, None, None)
    chock_m: float = 0.0
    braked: bool = False
    friction: float = 0.7
    nose_up_deg: float = 0.0
    slope_deg: float = 0.0
    from_deg: float = 0.0
    elevators_deg: tuple = (0.0,)

    def __post_init__(self):
        for name, bounds in {
            "weight_n": {"above": 0},
            "cg_m": {},
            "cg_height_m": {"above": 0},
            "wheel_radius_m": {"above": 0},
            "chock_m": {"low": 0},
            "friction": {"low": 0, "high": 2},
            "nose_up_deg": {"low": -10, "high": 20},
            "slope_deg": {"low": -10, "high": 10},
            "from_deg": {"low": -90, "high": 90},
        }.items():
            checks.number(name, getattr(self, name), **bounds)
        checks.true_or_false("braked", self.braked)
        if len(self.ropes) != 3 or not all(rope is None or isinstance(rope, Rope) for rope in self.ropes):
            raise ValueError(f"ropes has {len(self.ropes)} entries; allowed: three, each a Rope or None")

    @property
    def supports(self):
        """Wheels and ropes as `Supports`."""
        return _supports(self.wheels_m, self.ropes)

    @property
    def caught(self):
        """Whether both wing ropes are there to catch it when its wheels move."""
        return None not in self.ropes[:2]


class Standing(NamedTuple):
    """What holds a parked aircraft in a wind; N, on the last axis three wheels (nose, left, right) or ropes.

    `wind` is `WindLoads`; `wheels_n` their loads; `ropes_n` the ropes' tension; `used` the same as a share of what the
    rope holds; `aft_n` and `side_n`, what the wheels must hold along the ground: drag, side force, the weight's share
    down the slope, and the ropes' pull. `holds_n`, how much they can, whichever way it goes: braked, `friction` times
    the main wheels' load; on chocks that or `chock_force`, whichever is less; with neither, 0.02 of all loads, as if an
    aircraft free to turn always rolled, a simplification to the safe side. `held` false if it tips or lifts; `moved_m`
    as `Carried`; `elevator_deg`, where the elevator stands.

    >>> from walkaround import aircraft
    >>> from walkaround.aircraft import tie_down
    >>> bool(standing(tie_down.parked(aircraft.demo("morrowlark_four")), 80.0).held)
    False
    """

    wind: WindLoads
    wheels_n: np.ndarray
    ropes_n: np.ndarray
    used: np.ndarray
    aft_n: np.ndarray
    side_n: np.ndarray
    holds_n: np.ndarray
    held: np.ndarray
    moved_m: np.ndarray
    elevator_deg: np.ndarray

    @property
    def moves(self):
        """Whether the wheels roll, slide or climb their chocks."""
        return ~checks.at_most(self.pushed_n, self.holds_n, size=np.maximum(self.wheels_n.sum(axis=-1), 1.0))

    @property
    def broken(self):
        """Whether each rope, or its anchor, gives."""
        return checks.at_least(self.used, 1.0) & self.held[..., None]

    @property
    def pushed_n(self):
        """Push along the ground that the wheels must hold."""
        return np.hypot(self.aft_n, self.side_n)


@lru_cache(maxsize=64)
def _supports(wheels_m, ropes):
    tied = [
        (rope.anchor_m, rope.upward_stiffness_n_m, rope.slack_m / rope.sine) if rope else ((0.0, 0.0), 0.0, 0.0)
        for rope in ropes
    ]
    return Supports(wheels_m, *zip(*tied, strict=True))


def load(parked, wind):
    """Upward force, and its moments about datum and middle line, of `WindLoads` and weight, N and N·m on the last axis.

    Each half of the wing lifts at 4/(3π) of the half span, the middle of an elliptical lift; drag, side force and the
    weight's part along a slope act at their heights and turn the aircraft about the ground: nose up, or over sideways.

    >>> from walkaround import aircraft
    >>> from walkaround.aircraft import tie_down
    >>> asked = tie_down.parked(aircraft.demo("morrowlark_four"))
    >>> load(asked, wind_loads(asked.airframe, 0.0)).round().tolist()
    [-6850.0, -17608.0, 0.0]
    """
    air, arm = parked.airframe, HALF_WING * parked.airframe.span_m / 2
    slope = np.radians(parked.slope_deg)
    down, back = parked.weight_n * np.cos(slope), parked.weight_n * np.sin(slope)
    lift = wind.left_n + wind.right_n
    return np.stack(
        [
            lift + wind.tail_n - down,
            # A push aft above the ground raises the nose.
            lift * air.wing_arm_m + wind.tail_n * air.tail_arm_m - down * parked.cg_m
            - wind.drag_n * air.drag_height_m - back * parked.cg_height_m,
            (wind.right_n - wind.left_n) * arm - wind.side_n * air.side_height_m,
        ],
        axis=-1,
    )  # fmt: skip


def _every_elevator(parked, wind_kt):
    """`Standing` with one more axis at the end of each value, before wheels and ropes: where the elevator stands."""
    wind_kt = checks.numbers("wind_kt", wind_kt, 0, MOST_KT, "kt")
    wind_kt, elevator = np.broadcast_arrays(np.asarray(wind_kt)[..., None], np.array(parked.elevators_deg))
    wind = wind_loads(parked.airframe, wind_kt, parked.from_deg, parked.nose_up_deg, elevator)
    found = carried(parked.supports, load(parked, wind))
    sines = np.array([rope.sine if rope else 1.0 for rope in parked.ropes])
    most = np.array([rope.holds_n if rope else np.inf for rope in parked.ropes])
    tension = found.ropes_n / sines
    level = [(r.level_share * r.leads[0], r.level_share * r.leads[1]) if r else (0.0, 0.0) for r in parked.ropes]
    downward = np.where(np.isfinite(found.ropes_n), found.ropes_n, 0.0)
    aft, side = np.moveaxis(downward @ np.array(level), -1, 0)
    aft = aft + wind.drag_n + parked.weight_n * np.sin(np.radians(parked.slope_deg))
    mains = found.wheels_n[..., 1:].sum(axis=-1)
    grip = parked.friction * mains
    if parked.chock_m and not parked.braked:
        grip = np.minimum(grip, chock_force(mains, parked.wheel_radius_m, parked.chock_m))
    elif not parked.braked:
        grip = np.minimum(grip, ROLLING * found.wheels_n.sum(axis=-1))
    used = np.where(found.held[..., None], tension / most, np.where(np.isfinite(most), np.inf, 0.0))
    return Standing(
        wind, found.wheels_n, tension, used, aft, side + wind.side_n, grip, found.held, found.moved_m, elevator
    )


def standing(parked, wind_kt):
    """What wheels and ropes carry in a wind in kt (any shape): `Standing`, with the elevator where it does most harm.

    Raises ValueError for a wind outside 0 to 200 kt.

    >>> from walkaround import aircraft
    >>> from walkaround.aircraft import tie_down
    >>> craft = aircraft.demo("morrowlark_four")
    >>> tied = tie_down.parked(craft, tie_down.ropes(craft, "nylon 3/8 in"), nose_up_deg=6.0)
    >>> standing(tied, [40.0, 60.0]).ropes_n.round().tolist()
    [[0.0, 0.0, 0.0], [695.0, 695.0, 416.0]]
    """
    every = _every_elevator(parked, wind_kt)
    # The worse place: not held, then the rope that is used most, then the wheel that carries least.
    light = -every.wheels_n.min(axis=-1) / parked.weight_n
    worst = np.where(every.held, np.minimum(every.used.max(axis=-1), 1e6) * 1e3 + light, 1e12).argmax(axis=-1)

    def chosen(values):
        if isinstance(values, WindLoads):
            return WindLoads(*map(chosen, values))
        at = worst[..., None] if values.ndim == worst.ndim + 1 else worst[..., None, None]
        return np.take_along_axis(values, at, worst.ndim)[(slice(None),) * worst.ndim + (0,)]

    return Standing(*(chosen(values) for values in every))


@lru_cache(maxsize=64)
def fails_at_kt(parked):
    """The least wind in kt at which each thing happens, by the names in `FAILURES`; infinite if not up to 150 kt.

    "tips" is where no way to carry the load is left, ropes or none; "moves", where the wheels roll, slide or climb
    their chocks; "wheel lifts", where one of them carries nothing. To within 0.15 kt for the aircraft as it
    stands: the lift that a rising nose adds is left out, and with it ropes break in less wind.

    >>> from walkaround import aircraft
    >>> from walkaround.aircraft import tie_down
    >>> round(fails_at_kt(tie_down.parked(aircraft.demo("morrowlark_four"), chock_m=0.1))["tips"])
    61
    """
    winds = np.linspace(0.0, STRONGEST_KT, 31)
    low, step = {}, winds[1]
    there = _happens(parked, winds)
    for name, happens in zip(FAILURES, there, strict=True):
        if happens.any():
            low[name] = float(winds[max(int(happens.argmax()) - 1, 0)]) if not happens[0] else 0.0
    zero = {name for name, happens in zip(FAILURES, there, strict=True) if happens[0]}
    names = [name for name in low if name not in zero]
    if names:
        finer = np.array([np.linspace(low[name], low[name] + step, 21) for name in names])
        there, step = _happens(parked, finer), step / 20
        for row, name in enumerate(names):
            happens = there[FAILURES.index(name), row]
            low[name] = float(finer[row, max(int(happens.argmax()) - 1, 0)]) if happens.any() else finer[row, -1]
    return {name: (0.0 if name in zero else low[name] + step / 2 if name in low else np.inf) for name in FAILURES}


def elevator_at_deg(parked, name):
    """Where the elevator stands as a thing of `FAILURES` first happens, in degrees; the first of its places if never.

    Raises ValueError for any other name.

    >>> from walkaround import aircraft
    >>> from walkaround.aircraft import tie_down
    >>> elevator_at_deg(tie_down.parked(aircraft.demo("morrowlark_four"), elevators_deg=(0.0, -28.0)), "tips")
    -28.0
    """
    if name not in FAILURES:
        raise ValueError(f"name is {name!r}; allowed: {', '.join(FAILURES)}")
    kt = fails_at_kt(parked)[name]
    if not np.isfinite(kt):
        return parked.elevators_deg[0]
    return parked.elevators_deg[int(_happens_each(parked, kt + 0.15)[FAILURES.index(name)].argmax())]


def _happens(parked, wind_kt):
    """Whether each of `FAILURES` has happened in a wind, on the first axis, wherever the elevator stands."""
    return _happens_each(parked, wind_kt).any(axis=-1)


def _happens_each(parked, wind_kt):
    """The same for each place of the elevator, on the last axis."""
    every = _every_elevator(parked, wind_kt)
    lifted = checks.at_most(every.wheels_n.min(axis=-1), 0.0, size=parked.weight_n)
    return np.stack([*np.moveaxis(every.broken, -1, 0), ~every.held, every.moves | ~every.held, lifted])
