"""Engine oil: what the dipstick says, what to add, what a flight needs, and how much an engine may burn.

Quantities are in whatever unit the dipstick has (US quarts or litres), the same throughout.
"""

import numpy as np

from walkaround import checks
from walkaround.units import POUND_KG, US_GALLON_L

LB_PER_US_GALLON = 7.5  # engine oil: FAA-H-8083-1, Aircraft Weight and Balance Handbook (recalled)
DENSITY_KG_PER_L = LB_PER_US_GALLON * POUND_KG / US_GALLON_L


def from_dipstick(reading, marks, quantities):
    """Oil quantity from where the film ends on the dipstick, by a straight line between marks.

    Parameters: `reading`, how far up the stick is wet, in the unit of `marks` (any shape); `marks`, rising, and the
    quantity at each. Valid on level ground and after the oil has run back into the sump. Raises ValueError for a
    reading below the lowest mark, which shows only that there is too little, or above the highest, and for marks and
    quantities that do not rise together.

    >>> float(from_dipstick(50.0, marks=[20.0, 80.0], quantities=[4.0, 8.0]))
    6.0
    """
    marks, quantities = _scale(marks, quantities)
    return np.interp(checks.numbers("reading", reading, marks[0], marks[-1]), marks, quantities)


def on_dipstick(quantity, marks, quantities):
    """How far up the dipstick a quantity wets it: `from_dipstick` turned round, which see.

    >>> float(on_dipstick(6.0, marks=[20.0, 80.0], quantities=[4.0, 8.0]))
    50.0
    """
    marks, quantities = _scale(marks, quantities)
    return np.interp(checks.numbers("quantity", quantity, quantities[0], quantities[-1]), quantities, marks)


def _scale(marks, quantities):
    marks, quantities = checks.numbers("marks", marks), checks.numbers("quantities", quantities, low=0)
    if marks.ndim != 1 or marks.shape != quantities.shape or marks.size < 2:
        raise ValueError(
            f"marks has {marks.size} and quantities {quantities.size}; allowed: one quantity for each mark, two or more"
        )
    if np.any(np.diff(marks) <= 0) or np.any(np.diff(quantities) <= 0):
        raise ValueError("marks and quantities do not rise together; allowed: each above the one before")
    return marks, quantities


def to_add(quantity, wanted, full):
    """Oil to add to a quantity to reach the one wanted, 0 if there is enough already (all shapes broadcast).

    Raises ValueError where more than `full` is wanted: the engine throws the surplus out of the breather.

    >>> float(to_add(5.5, wanted=7.0, full=8.0))
    1.5
    """
    quantity = checks.numbers("quantity", quantity, low=0)
    wanted, full = checks.numbers("wanted", wanted, low=0), checks.numbers("full", full, above=0)
    quantity, wanted, full = checks.same_shape(quantity=quantity, wanted=wanted, full=full)
    if (over := ~checks.at_most(wanted, full)).any():
        raise ValueError(f"wanted is {wanted[over][0]:g}, more than full, {full[over][0]:g}; allowed: up to full")
    return np.maximum(wanted - quantity, 0.0)


def least_for_flight(minimum, per_hour, hours, margin):
    """Least oil to take off with: the engine's minimum, what the flight burns, and a margin (shapes broadcast).

    minimum + per_hour · hours + margin. Raises ValueError for anything below 0.

    >>> float(least_for_flight(minimum=4.0, per_hour=0.2, hours=3.0, margin=1.0))
    5.6
    """
    given = {"minimum": minimum, "per_hour": per_hour, "hours": hours, "margin": margin}
    minimum, per_hour, hours, margin = _at_least_zero(**given)
    return minimum + per_hour * hours + margin


def hours_until(quantity, minimum, per_hour):
    """Hours of running until the oil is down to a minimum, 0 if it is that low already (shapes broadcast).

    (quantity − minimum)/per_hour. Infinite for an engine that burns none and has more. Raises ValueError for anything
    below 0.

    >>> float(hours_until(6.0, minimum=4.0, per_hour=0.25))
    8.0
    """
    quantity, minimum, per_hour = _at_least_zero(quantity=quantity, minimum=minimum, per_hour=per_hour)
    burns = per_hour > 0
    hours = np.where(burns, (quantity - minimum) / np.where(burns, per_hour, 1.0), np.inf)
    return np.where(checks.at_most(quantity, minimum), 0.0, hours)


def consumption_per_hour(added, hours):
    """Oil burnt in an hour, from what was added over a number of hours to keep the level (shapes broadcast).

    added/hours. Raises ValueError for hours that are not above 0.

    >>> float(consumption_per_hour(added=3.0, hours=25.0))
    0.12
    """
    hours = checks.numbers("hours", hours, above=0, unit="h")
    added, hours = _at_least_zero(added=added, hours=hours)
    return added / hours


def greatest_consumption_qt_per_h(horsepower):
    """Greatest oil consumption usually accepted for an engine of this rated power, in US quarts an hour (any shape).

    0.006 lb of oil for each horsepower and hour, at 7.5 lb to the gallon: 0.006 · hp · 4/7.5. Common practice, no
    source; the engine maker's own limit comes first. Raises ValueError for a power that is not above 0.

    >>> round(float(greatest_consumption_qt_per_h(180.0)), 3)
    0.576
    """
    return 0.006 * checks.numbers("horsepower", horsepower, above=0, unit="hp") * 4 / LB_PER_US_GALLON


def _at_least_zero(**values):
    return checks.same_shape(**{name: checks.numbers(name, value, low=0) for name, value in values.items()})
