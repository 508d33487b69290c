"""What the questions on preheating share: the frosty morning a student is given, and what the engine does in it.

All numbers come from the invented engine of the Morrowlark Four and the invented heaters. What the engine does in a
frost is computed once for every temperature that may be drawn, so that a paper takes no time.
"""

from dataclasses import dataclass
from functools import cache
from types import SimpleNamespace

import numpy as np

from walkaround import aircraft, measures
from walkaround.aircraft.heaters import demo_heaters
from walkaround.physics.preheat.engine import warming

OUTSIDE_C = tuple(range(-16, -7))
PAD_MINUTES = tuple(range(0, 161, 20))
WAIT_MINUTES = tuple(range(0, 241, 20))
POWERS_W = (700, 800, 900, 1000, 2400, 2600, 2800, 3000)
WARM_C = {"metal": 26.0, "oil": 30.0, "cylinders": 27.0}
THERMOSTAT_C = 52.0


def givens(v):
    """Draw a student's frosty morning, as it is told: temperatures in °C, powers in W, flows in W for each °C."""
    section, heaters = aircraft.demo("morrowlark_four").engine, demo_heaters()
    oil_kj_per_k = round(section.oil.heat_j_per_k(section.oil.usual) / 1e3, 1)
    metal, cylinders = section.metal.heat_kj_per_k, section.cylinders.heat_kj_per_k
    low, high = (round(float(f), 1) for f in in_frost().fan_flow_w_per_k)
    return SimpleNamespace(
        outside_c=v.pick("outside", OUTSIDE_C),
        ready_c=section.ready_c,
        oil_qt=section.oil.usual,
        heat_kj_per_k={"metal": metal, "cylinders": cylinders, "oil": oil_kj_per_k},
        flow_w_per_k={"low": low, "high": high},
        fan_w=heaters.air_heaters[0].high.fan_w,
        pad_w=heaters.pads[0].power_w,
    )


@dataclass(frozen=True)
class InFrost:
    """What the engine does at every temperature of OUTSIDE_C, in its order on the axis named outside."""

    pad_c: np.ndarray  # (outside, moments of PAD_MINUTES, parts)
    pad_ready: dict  # by part, (outside,)
    wait_c: np.ndarray  # (cover off and on, outside, moments of WAIT_MINUTES, parts)
    wait_minutes: np.ndarray  # (cover off and on, outside)
    fan_minutes: np.ndarray  # (outside, powers, low and high)
    fan_flow_w_per_k: np.ndarray  # low and high


@cache
def in_frost():
    """Compute what pad, wait and fans do at every temperature of OUTSIDE_C: `InFrost`.

    >>> in_frost().fan_minutes.shape == (len(OUTSIDE_C), len(POWERS_W), 2)
    True
    """
    section, heaters = aircraft.demo("morrowlark_four").engine, demo_heaters()
    engine, outside = section.engine(), np.array(OUTSIDE_C, dtype=float)
    pad = warming(engine, outside, pad=heaters.pads[0].set_to(), cover=True)
    wait = warming(engine, outside, cover=np.array([[False], [True]]), start_c=WARM_C)
    powers = np.array(POWERS_W, dtype=float)[:, np.newaxis]
    blower = heaters.air_heaters[0].set_to(("low", "high"), THERMOSTAT_C, powers)
    fans = warming(engine, outside[:, np.newaxis, np.newaxis], blower, cover=True)
    return InFrost(
        pad_c=np.stack([pad.temperatures_c(float(m))[..., :-1] for m in PAD_MINUTES], axis=1),
        pad_ready=pad.reached_by_part(section.ready_c),
        wait_c=np.stack([wait.temperatures_c(float(m))[..., :-1] for m in WAIT_MINUTES], axis=2),
        wait_minutes=wait.stays_minutes(section.ready_c),
        fan_minutes=fans.ready_minutes(section.ready_c),
        fan_flow_w_per_k=np.ravel(blower.flow_w_per_k),
    )


def facts(g):
    """What each part takes to be warmed by 1 °C, and when it is ready: rows of a table."""
    head = ("the engine", "heat to warm it by 1 °C", "ready at")
    rows = (
        (
            part + (f", {measures.words(g.oil_qt, 'qt', metric=1)}" if part == "oil" else ""),
            f"{heat:g} kJ",
            f"{g.ready_c[part]:.0f} °C",
        )
        for part, heat in g.heat_kj_per_k.items()
    )
    return (head, *rows)


def celsius_text(temperature, decimals=0):
    """Write a temperature in °C.

    >>> celsius_text(-12.34, 1), celsius_text(-0.2)
    ('−12.3 °C', '0 °C')
    """
    return f"{round(temperature, decimals) + 0.0:.{decimals}f} °C".replace("-", "−")
