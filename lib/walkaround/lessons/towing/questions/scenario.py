"""What the questions on towing share: the aircraft as a student is told of it, in the units shown.

All numbers come from the invented Morrowlark Four, rounded as a handbook prints them before anything is computed.
"""

from dataclasses import dataclass

import numpy as np

from walkaround import aircraft, measures
from walkaround.lessons.towing.airframe import Airframe

ROLLING, LOCKED = 0.02, 0.7  # dry tarmac, as `physics.towing.SURFACES` has it


@dataclass(frozen=True)
class Givens:
    """Weight and the nose leg's limit as forces, lengths, each in the unit shown; the turning limit in degrees.

    `weight_lb` is the weight as it was drawn.
    """

    weight: float
    leg: float
    limit_deg: int
    wheelbase: float
    span: float
    tail: float
    weight_lb: int


def force(pounds):
    """A force in lb as it is given to a student."""
    return measures.given(pounds, "lbf")


def length(feet, metric=2):
    """A length in ft as it is given to a student; `metric` is how many decimals it has in m."""
    return measures.given(feet, "ft", metric=metric)


def decimals():
    """How many decimals a length has that a student works out."""
    return measures.places("ft", 1, metric=2)


def tangent(angle_deg):
    """The tangent of an angle as worked answers print it."""
    return round(float(np.tan(np.radians(angle_deg))), 4)


def givens(v):
    """Draw a student's aircraft: `Givens`."""
    craft = aircraft.demo("morrowlark_four")
    frame = Airframe(craft)
    sizes = (length(round(size, 1)) for size in (frame.wheelbase, frame.span, -frame.tail))
    weight = v.number("weight", 1700, 2500, 20)
    leg = force(round(craft.towing.nose_leg_limit))
    return Givens(force(weight), leg, round(frame.limit_deg), *sizes, weight)


def facts(g):
    """What is known of the aircraft: rows of a table."""
    unit, feet, digits = measures.unit("lbf"), measures.unit("ft"), decimals()
    mass = f" ({measures.words(g.weight_lb, 'lb')})" if measures.chosen() == measures.METRIC else ""
    return (
        ("the Morrowlark Four today", "value"),
        ("weight", f"{g.weight:,.0f} {unit}{mass}"),
        ("nose wheel to main wheels", f"{g.wheelbase:.{digits}f} {feet}"),
        ("wing span", f"{g.span:.{digits}f} {feet}"),
        ("main wheels to the end of the tail", f"{g.tail:.{digits}f} {feet}"),
        ("nose wheel may be turned, each way", f"{g.limit_deg}°"),
        ("pull that the nose leg is good for", f"{g.leg:,.0f} {unit}"),
    )
