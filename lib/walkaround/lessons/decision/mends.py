"""What may be done about a flight before it goes, each by itself: a change of its numbers."""

from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from walkaround import checks
from walkaround.lessons.decision.findings import NOTHING
from walkaround.lessons.decision.flight import craft, most_fuel, reasons

NONE, MECHANIC = "none", "mechanic"
BAGS, FORWARD, DRAIN, REFUEL, ADD_OIL, HEAT, TURN, PUT_RIGHT = (
    "bags", "forward", "drain", "refuel", "oil", "heat", "turn", "put right",
)  # fmt: skip
WARM_OIL_C, WARM_METAL_C = 20, 10


class Mend(NamedTuple):
    """One thing to do: its key, what is done in words, and `done(flight)`, the flight after it."""

    key: str
    words: str
    done: Callable


def mends(f, bags, forward, gallons, quarts):
    """What may be done about a flight: a list of `Mend`; the amounts in lb, lb, US gal and qt."""
    found = []
    if f.hold_a >= bags:
        found.append(Mend(BAGS, f"{bags:g} lb of bags in hold A stay behind", _with(hold_a=f.hold_a - bags)))
    if f.rear - forward >= 100 and f.front + forward <= craft().station("front seats").maximum:
        words = f"two people change seats, so that {forward:g} lb move from the rear seats to the front seats"
        found.append(Mend(FORWARD, words, _with(rear=f.rear - forward, front=f.front + forward)))
    system = craft().fuel_system
    if checks.at_least(f.fuel - gallons, system.taxi + f.hours * system.per_hour):
        found.append(Mend(DRAIN, f"{gallons:g} US gal of fuel come out", _with(fuel=f.fuel - gallons)))
    if checks.at_most(f.fuel + gallons, most_fuel()):
        found.append(Mend(REFUEL, f"{gallons:g} US gal of fuel are added", _with(fuel=f.fuel + gallons)))
    found.append(Mend(ADD_OIL, f"{quarts:g} qt of oil {'is' if quarts == 1 else 'are'} added", _with(oil_added=quarts)))
    if f.outside_c <= 5:
        words = f"the heater stays on until the oil is at {WARM_OIL_C} °C and the metal at {WARM_METAL_C} °C"
        warm = {"oil_c": max(f.oil_c, WARM_OIL_C), "metal_c": max(f.metal_c, WARM_METAL_C)}
        found.append(Mend(HEAT, words, _with(**warm)))
    found.append(Mend(TURN, "it takes off in the other direction", _with(headwind_kt=-f.headwind_kt)))
    if f.found.on_the_spot:
        found.append(Mend(PUT_RIGHT, "what the round found is taken off", _with(found=NOTHING)))
    return found


def that_work(f, offered):
    """The keys of those mends after any one of which a flight meets every limit; NONE or MECHANIC where it is so."""
    if f.found.stops and not f.found.on_the_spot:
        return frozenset({MECHANIC})
    if not reasons(f):
        return frozenset({NONE})
    return frozenset(mend.key for mend in offered if not reasons(mend.done(f)))


def _with(**changes):
    return lambda flight: replace(flight, **changes)
