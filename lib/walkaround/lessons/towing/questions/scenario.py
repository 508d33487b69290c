"""What the questions on towing share: the aircraft as a student is told of it, in pounds and feet.

All numbers come from the invented Morrowlark Four, rounded as a handbook prints them before anything is computed.
"""

from dataclasses import dataclass

from walkaround import aircraft
from walkaround.lessons.towing.airframe import Airframe

ROLLING, LOCKED = 0.02, 0.7  # dry tarmac, as `physics.towing.SURFACES` has it


@dataclass(frozen=True)
class Givens:
    """Weight and the nose leg's limit in lb, lengths in ft, the turning limit in degrees."""

    weight: int
    leg_lb: int
    limit_deg: int
    wheelbase: float
    span: float
    tail: float


def givens(v):
    """Draw a student's aircraft: `Givens`."""
    craft = aircraft.demo("morrowlark_four")
    frame = Airframe(craft)
    sizes = (round(size, 1) for size in (frame.wheelbase, frame.span, -frame.tail))
    weight = v.number("weight", 1700, 2500, 20)
    return Givens(weight, round(craft.towing.nose_leg_limit), round(frame.limit_deg), *sizes)


def facts(g):
    """What is known of the aircraft: rows of a table."""
    return (
        ("the Morrowlark Four today", "value"),
        ("weight", f"{g.weight:,} lb"),
        ("nose wheel to main wheels", f"{g.wheelbase:.1f} ft"),
        ("wing span", f"{g.span:.1f} ft"),
        ("main wheels to the end of the tail", f"{g.tail:.1f} ft"),
        ("nose wheel may be turned, each way", f"{g.limit_deg}°"),
        ("pull that the nose leg is good for", f"{g.leg_lb} lb"),
    )
