"""What the questions on ground power share: the cold morning a student is given, and what the starter does in it.

All numbers come from the invented Morrowlark Four; they are rounded as a meter shows them before anything is computed.
"""

from dataclasses import dataclass

import numpy as np

from walkaround import aircraft
from walkaround.physics.electrical import COLDEST_C, Cranking, crank
from walkaround.physics.oil import viscosity_mm2_s

RPM = np.arange(20, 161, 20)  # lines of the table of torques


@dataclass(frozen=True)
class Givens:
    """What a student is told: temperature in °C, volts at rest, mΩ of battery and cable, and whole A while cranking."""

    outside_c: int
    source_v: float
    inner_mohm: float
    cable_mohm: float
    current_a: int
    cold: Cranking
    warmed: Cranking  # with the oil as warm as when the engine is ready


def givens(v):
    """Draw a student's cold morning: `Givens`."""
    craft = aircraft.demo("morrowlark_four")
    section, oil = craft.starting, craft.engine.oil
    outside, state = v.pick("outside", tuple(range(-16, -5))), v.number("state", 0.75, 1.0, 0.05)
    volts, inside = section.battery.at(state, max(outside, COLDEST_C))
    source_v, inner_mohm = round(float(volts), 1), round(1e3 * float(inside), 1)
    cable_mohm = round(1e3 * float(section.cable_ohm(outside)), 1)
    nu = viscosity_mm2_s([outside, craft.engine.ready_oil_c], oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s)
    cold, warmed = (
        crank(source_v, inner_mohm / 1e3, cable_mohm / 1e3, section.starter, section.drag, float(n)) for n in nu
    )
    return Givens(outside, source_v, inner_mohm, cable_mohm, round(float(cold.current_a)), cold, warmed)


def facts(g):
    """What is known of the circuit: rows of a table."""
    return (
        ("the circuit this morning", "value"),
        ("battery at rest", f"{g.source_v:.1f} V"),
        ("inside the battery", f"{g.inner_mohm:.1f} mΩ"),
        ("cable there and back, with contacts", f"{g.cable_mohm:.1f} mΩ"),
        ("current while cranking", f"{g.current_a} A"),
        ("placard at the socket", f"{aircraft.demo('morrowlark_four').starting.external_v:.0f} V"),
    )


def celsius_text(temperature):
    """Write a temperature in °C, to the whole degree.

    >>> celsius_text(-12.34), celsius_text(-0.2)
    ('−12 °C', '0 °C')
    """
    return f"{round(temperature) + 0:.0f} °C".replace("-", "−")
