"""The numbers drawn for one student."""

from dataclasses import dataclass

from walkaround import aircraft
from walkaround.units import FOOT_M, KNOT_M_S

FT_S_PER_KT = KNOT_M_S / FOOT_M


@dataclass(frozen=True)
class Givens:
    """What a student is told: pressure altitudes in ft, speeds in kt, the take-off roll in ft."""

    cruise_ft: float
    cruise_kt: float
    high_ft: float
    field_ft: float
    true_kt: float
    iced_ft: float
    iced_kt: float
    later_kt: float
    port_ft: float
    below_true_kt: float
    cabin_ft: float
    cabin_hpa: float
    roll_ft: float
    lift_off_kt: float
    hot_field_ft: float
    first_mark_kt: float
    deceleration_kt_s: float
    reaction_s: float


def draw(v):
    """Draw a student's numbers (`Givens`).

    >>> from walkaround.assessment.variant import Variant
    >>> draw(Variant("home", "Ines Okafor", "pitot_static")).first_mark_kt
    40.0
    """
    craft = aircraft.demo("morrowlark_four")
    return Givens(
        cruise_ft=v.number("cruise at", 5000, 8000, 1000),
        cruise_kt=v.number("cruise speed", 85, 115, 5),
        high_ft=v.number("high", 6000, 9000, 500),
        field_ft=v.number("field", 1000, 3000, 500),
        true_kt=v.number("true speed", 90, 125, 5),
        iced_ft=v.number("iced at", 2000, 5000, 1000),
        iced_kt=v.number("iced speed", 65, 75, 1),
        later_kt=v.number("later speed", 92, 106, 1),
        port_ft=v.number("port at", 6000, 8500, 500),
        below_true_kt=v.number("true speed below", 110, 124, 2),
        cabin_ft=v.number("cabin at", 3000, 8000, 500),
        cabin_hpa=v.number("cabin", 1.5, 4.0, 0.5),
        roll_ft=v.number("roll", 850, 1100, 10),
        lift_off_kt=v.number("lift-off", 52, 58, 1),
        hot_field_ft=v.number("thin air", 3000, 6000, 500),
        first_mark_kt=craft.speeds.first_mark,
        deceleration_kt_s=craft.take_off.deceleration_kt_s,
        reaction_s=craft.take_off.reaction_s,
    )
