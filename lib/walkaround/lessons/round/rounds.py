"""A round by its number: the day, and at every stop what is seen there and what, if anything, is wrong."""

from functools import lru_cache
from math import ceil
from typing import NamedTuple

from walkaround import aircraft, checks, measures
from walkaround.assessment.variant import Variant
from walkaround.lessons.round.stops import THINGS
from walkaround.lessons.round.things import Day, Place
from walkaround.lessons.table import LESSONS
from walkaround.physics.fuel import needed
from walkaround.physics.fuel.order import RESERVE_MIN
from walkaround.physics.oil import least_for_flight

LEVELS = {1: "1: plain to see", 2: "2: smaller", 3: "3: as small as they come"}
FAULTS = {1: (3, 5), 2: (4, 6), 3: (5, 8)}  # how many are hidden, from … to …
ALARMS = {1: 0, 2: 2, 3: 3}
SECTIONS = (
    *("dimensions", "control_surfaces", "speeds", "take_off", "engine", "fuel_system", "starting", "towing"),
    *("cooling", "tie_down"),
)
_OUTSIDE_C = (-18, -14, -9, -3, 4, 9, 15, 21, 27)
RESERVE = RESERVE_MIN["night"]  # the flight lands by night
_OIL_MARGIN = 0.5


class Found(NamedTuple):
    """A thing on this round: its stop, the `Thing`, what is seen, its `Kind` or None, its `Alarm` or None."""

    stop: object
    thing: object
    seen: dict
    kind: object
    alarm: object


class Round(NamedTuple):
    """A round: the aircraft, the day, the stops (rows of the table of lessons), and what is found, in its order.

    Aircraft and day are in the units that things are shown in; `written` is the aircraft in those of its file.
    """

    craft: object
    day: Day
    stops: tuple
    found: tuple[Found, ...]
    written: object

    @property
    def seen(self):
        """What is seen of each thing, by its name."""
        return {f.thing.name: f.seen for f in self.found}

    @property
    def faults(self):
        """What is wrong: those `found` that have a kind."""
        return tuple(f for f in self.found if f.kind)

    def at(self, stop):
        """What is there to look at from the stop at a place in `stops`."""
        return tuple(f for f in self.found if f.stop is self.stops[stop])


def stops():
    """The rows of the table of lessons at whose stops there is something to look at, in the order of the round.

    >>> stops()[0].title
    'Weight and balance'
    """
    return tuple(row for row in LESSONS if row.name in THINGS)


def places():
    """Everything there is to look at: (row of the table, `Thing`) in the order of the round."""
    return tuple((row, thing) for row in stops() for thing in THINGS[row.name])


def _up(value, step):
    """A value rounded up to a whole number of steps: what is needed is never rounded down."""
    return round(ceil(value / step - checks.SLACK) * step, 3)


def draw_day(craft, draws):
    """Draw the flight that the aircraft is made ready for: a `Day`."""
    oil, system = craft.engine.oil, craft.fuel_system
    outside, hours = draws.pick("outside", _OUTSIDE_C), draws.number("hours", 1.0, 2.5, 0.5)
    fuel = float(needed(system.taxi, 60 * hours, system.per_hour, RESERVE))
    per_hour = draws.number("oil per hour", 0.1, 0.3, 0.05)
    oil_needed = float(least_for_flight(oil.minimum, per_hour, hours, _OIL_MARGIN))
    return Day(outside, hours, _up(fuel, 0.5), per_hour, _up(oil_needed, 0.1))


def _day_shown(day, written, craft):
    """A day of the units of `written` in those of `craft`."""
    if craft is written:
        return day
    oil = written.engine.oil.unit, craft.engine.oil.unit
    fuel = measures.converted(day.fuel_needed, written.units.volume, craft.units.volume)
    per_hour = round(measures.converted(day.oil_per_hour, *oil), 2)
    return Day(day.outside_c, day.hours, _up(fuel, 0.1), per_hour, _up(measures.converted(day.oil_needed, *oil), 0.1))


def draw_round(draws, level, name="morrowlark_four", one_each=False):
    """Draw a round at a level from 1 to 3; `draws` is an `assessment.variant.Variant`, `name` a demo aircraft's.

    With `one_each` no stop has more than one fault. In other units it is the same round.
    """
    with measures.shown_in(None):
        written = aircraft.with_sections(name, *SECTIONS)
    craft = aircraft.shown(written)
    day, every = _day_shown(draw_day(written, draws), written, craft), places()
    low, high = FAULTS[level]
    count = int(draws.number("faults", low, high))
    by_name = {thing.name: (row, thing) for row, thing in every}
    place, kinds, alarms, taken = Place(craft, day, level, draws, written), {}, {}, set()
    for thing_name in draws.shuffled("which", by_name):
        row, thing = by_name[thing_name]
        if len(kinds) < count and not (one_each and row.name in taken):
            possible = [(k, seen) for k in thing.kinds if (seen := k.draws(place)) is not None]
            if possible:
                kinds[thing_name] = draws.pick(f"kind of {thing_name}", possible)
                taken.add(row.name)
        elif len(alarms) < ALARMS[level] and thing.alarms:
            alarm = draws.pick(f"alarm of {thing_name}", thing.alarms)
            if (seen := alarm.draws(place)) is not None:
                alarms[thing_name] = alarm, seen
    found = []
    for row, thing in every:
        kind, seen = kinds.get(thing.name, (None, None))
        alarm, seen_alarm = alarms.get(thing.name, (None, None))
        found.append(Found(row, thing, seen or seen_alarm or thing.sound(place), kind, alarm))
    return Round(craft, day, stops(), tuple(found), written)


def by_number(number, level=1, name="morrowlark_four"):
    """Return the round of a number: the same everywhere, so that a class can share one.

    >>> by_number(7) == by_number(7), by_number(7).faults == by_number(8).faults
    (True, False)
    """
    return _by_number(number, level, name, measures.chosen())


@lru_cache(maxsize=64)
def _by_number(number, level, name, _units):
    return draw_round(Variant("the round", str(number), f"level {level}"), level, name)
