"""The numbers drawn for one student."""

from types import SimpleNamespace

from walkaround import aircraft
from walkaround.units import FOOT_M, KNOT_M_S

FT_S_PER_KT = KNOT_M_S / FOOT_M

# What a student is told (pressure altitudes in ft, speeds in kt, the roll in ft): label of the draw, from, to, step.
DRAWS = {
    "cruise_ft": ("cruise at", 5000, 8000, 1000),
    "cruise_kt": ("cruise speed", 85, 115, 5),
    "high_ft": ("high", 6000, 9000, 500),
    "field_ft": ("field", 1000, 3000, 500),
    "true_kt": ("true speed", 90, 125, 5),
    "iced_ft": ("iced at", 2000, 5000, 1000),
    "iced_kt": ("iced speed", 65, 75, 1),
    "later_kt": ("later speed", 92, 106, 1),
    "port_ft": ("port at", 6000, 8500, 500),
    "below_true_kt": ("true speed below", 110, 124, 2),
    "cabin_ft": ("cabin at", 3000, 8000, 500),
    "cabin_hpa": ("cabin", 1.5, 4.0, 0.5),
    "roll_ft": ("roll", 850, 1100, 10),
    "lift_off_kt": ("lift-off", 52, 58, 1),
    "hot_field_ft": ("thin air", 3000, 6000, 500),
}


def draw(v):
    """Draw a student's numbers, by the names in DRAWS, with `first_mark_kt`, `deceleration_kt_s` and `reaction_s`.

    >>> from walkaround.assessment.variant import Variant
    >>> draw(Variant("home", "Ines Okafor", "pitot_static")).first_mark_kt
    40.0
    """
    craft = aircraft.demo("morrowlark_four")
    braking = {name: getattr(craft.take_off, name) for name in ("deceleration_kt_s", "reaction_s")}
    drawn = {name: v.number(*row) for name, row in DRAWS.items()}
    return SimpleNamespace(**drawn, **braking, first_mark_kt=craft.speeds.first_mark)
