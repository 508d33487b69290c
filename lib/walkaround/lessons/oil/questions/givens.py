"""What the questions on oil share: the engine's facts, and a student's own two logs."""

from typing import NamedTuple

from walkaround import measures
from walkaround.lessons.oil import logs
from walkaround.lessons.oil.check import ADD, AGAIN, CHANGED, ENOUGH, Check

# What a log may come to: the verdict, oil burnt in an hour before and after the bend, minutes, degrees nose up.
USUAL_MINUTES = 30
KINDS = (
    (ENOUGH, 0.08, 0.08, USUAL_MINUTES, 0),
    (ADD, 0.16, 0.16, USUAL_MINUTES, 0),
    (AGAIN, 0.08, 0.08, 2, 0),
    (AGAIN, 0.08, 0.08, USUAL_MINUTES, 4),
    (CHANGED, 0.06, 0.22, USUAL_MINUTES, 0),
)
BEND_H = 9.0


class Givens(NamedTuple):
    """A student's numbers.

    `hours`, `stick` and `added`: a short log. `check`: the check of the longer log (`lessons.oil.check.Check`), and
    `expected`, the verdict it was made for.
    """

    hours: tuple
    stick: tuple
    added: float
    check: Check
    expected: str


def givens(v, engine):
    """Draw a student's two logs: `Givens`."""
    hours, stick = [v.number("hours at first", 412, 688)], [v.number("first", 7.2, 7.6, 0.1)]
    burns = v.number("burns", 0.12, 0.2, 0.02)
    for i in range(4):
        flown = v.number(f"flown {i}", 2.5, 3.5, 0.5)
        hours.append(hours[-1] + flown)
        oil = stick[-1] - burns * flown + (1.0 if i == 2 else 0.0) + v.number(f"scatter {i}", -0.1, 0.1, 0.1)
        stick.append(round(oil, 1))
    expected, before, after, minutes, nose_up_deg = v.pick("kind", KINDS)
    # High enough that no reading of the log is below the least.
    begins = v.number("begins", *((7.5, 7.9) if expected in (ADD, CHANGED) else (6.8, 7.2)), 0.1)
    there = []
    for i, h in enumerate(logs.HOURS):
        burnt = before * h + (after - before) * max(h - BEND_H, 0)
        poured = 1.0 if i > logs.POURED_AFTER else 0.0
        there.append(round(begins - burnt + poured + v.number(f"off {i}", -0.1, 0.1, 0.1), 1))
    flight_h = v.number("flight", 4, 6) if expected == ADD else v.number("flight", 2, 3, 0.5)
    check = Check(engine, logs.log(there, 1.0), flight_h, minutes, nose_up_deg)
    return Givens(tuple(hours), tuple(stick), 1.0, check, expected)


def quantity(quarts):
    """A quantity as it is shown: litres have a decimal more than quarts, or sums would come to something else."""
    return measures.given(quarts, "qt", 1, 2)


def length(inches):
    """A length on the stick or in the sump, as it is shown."""
    return measures.given(inches, "tape", 1, 1)


def rate(quarts_per_hour):
    """What is burnt in an hour, as it is shown."""
    return measures.given(quarts_per_hour, "qt/h", 2, 3)


def lasting(have, floor, per_hour):
    """How much there is, where to stop and what is lost in an hour, as they are shown.

    What there is lasts as long as it does in quarts: the hours are what the rounding of the three would change most.
    """
    if measures.chosen() != measures.METRIC:
        return have, floor, per_hour
    least, loses = quantity(floor), rate(per_hour)
    return round(least + loses * (have - floor) / per_hour, 2), least, loses


def in_units_shown(section):
    """An engine's section of oil in quarts, as it is shown."""
    sump = section.sump
    lengths = {name: length(getattr(sump, name)) for name in ("length", "width", "stick_forward", "stick_right")}
    quantities = {name: quantity(getattr(sump, name)) for name in ("held_up", "refill_at", "bottle")}
    levels = {name: quantity(getattr(section, name)) for name in ("full", "usual", "minimum")}
    stick = {"dipstick_marks": [length(m) for m in section.dipstick_marks]}
    stick |= {"dipstick_quantities": [quantity(q) for q in section.dipstick_quantities]}
    return section.model_copy(update={**levels, **stick, "sump": sump.model_copy(update=lengths | quantities)})


def facts(section):
    """What the engine's oil has to be, and how the stick is marked: rows of a table."""
    qt, inch, digits = measures.unit("qt"), measures.unit("tape"), measures.places("tape", 1, 1)
    marks = ", ".join(
        f"{q:g} {qt} at {m:.{digits}f} {inch}"
        for m, q in zip(section.dipstick_marks, section.dipstick_quantities, strict=True)
    )
    return (
        ("the engine's oil", "value"),
        ("least to run with", f"{section.minimum:g} {qt}"),
        ("refill when it is down to", f"{section.sump.refill_at:g} {qt}"),
        ("full", f"{section.full:g} {qt}"),
        ("marks on the stick", marks),
        ("a bottle", f"{section.sump.bottle:g} {qt}"),
    )
