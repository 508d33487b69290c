"""What may be done about a flight before it goes, each by itself: a change of its numbers."""

from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from walkaround import checks, measures
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
    """What may be done about a flight as it was drawn: a list of `Mend`; the amounts in lb, lb, US gal and qt."""
    system = craft().fuel_system
    may = {
        BAGS: f.hold_a >= bags,
        FORWARD: f.rear - forward >= 100 and f.front + forward <= craft().station("front seats").maximum,
        DRAIN: checks.at_least(f.fuel - gallons, system.taxi + f.hours * system.per_hour),
        REFUEL: checks.at_most(f.fuel + gallons, most_fuel()),
        HEAT: f.outside_c <= 5,
        PUT_RIGHT: f.found.on_the_spot,
    }
    return [mend for mend in every_mend(f, bags, forward, gallons, quarts) if may.get(mend.key, True)]


def every_mend(f, bags, forward, fuel, oil):
    """Each thing that may be done about some flight, with the amounts in the units shown: a list of `Mend`."""
    pounds, gallons, quarts = (measures.unit(of) for of in ("lb", "US gal", "qt"))
    change = f"two people change seats, so that {forward:g} {pounds} move from the rear seats to the front seats"
    heat = f"the heater stays on until the oil is at {WARM_OIL_C} °C and the metal at {WARM_METAL_C} °C"
    warm = {"oil_c": max(f.oil_c, WARM_OIL_C), "metal_c": max(f.metal_c, WARM_METAL_C)}
    return [
        Mend(BAGS, f"{bags:g} {pounds} of bags in hold A stay behind", _with(hold_a=f.hold_a - bags)),
        Mend(FORWARD, change, _with(rear=f.rear - forward, front=f.front + forward)),
        Mend(DRAIN, f"{fuel:g} {gallons} of fuel come out", _with(fuel=f.fuel - fuel)),
        Mend(REFUEL, f"{fuel:g} {gallons} of fuel are added", _with(fuel=min(f.fuel + fuel, float(most_fuel())))),
        Mend(ADD_OIL, f"{oil:g} {quarts} of oil {'is' if oil == 1 else 'are'} added", _with(oil_added=oil)),
        Mend(HEAT, heat, _with(**warm)),
        Mend(TURN, "it takes off in the other direction", _with(headwind_kt=-f.headwind_kt)),
        Mend(PUT_RIGHT, "what the round found is taken off", _with(found=NOTHING)),
    ]


def that_work(f, offered):
    """The keys of those mends after any one of which a flight meets every limit; NONE or MECHANIC where it is so."""
    if f.found.stops and not f.found.on_the_spot:
        return frozenset({MECHANIC})
    if not reasons(f):
        return frozenset({NONE})
    return frozenset(mend.key for mend in offered if not reasons(mend.done(f)))


def _with(**changes):
    return lambda flight: replace(flight, **changes)
