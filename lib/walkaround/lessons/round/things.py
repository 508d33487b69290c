"""What there is to look at on a round, and what may be wrong with it; values and words, nothing drawn."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from walkaround import measures
from walkaround.units import GRAVITY_M_S2

AS_IT_SHOULD_BE = "as it should be"
EASIEST = 1


class Day(NamedTuple):
    """The flight that the aircraft is made ready for: °C outside, hours, and what it needs, in the aircraft's units."""

    outside_c: int
    hours: float
    fuel_needed: float
    oil_per_hour: float
    oil_needed: float


@dataclass(frozen=True)
class Kind:
    """Something that may be wrong: its name in the list of findings, and how it comes about.

    `draws(place)` returns what is then seen, a dict of plain values, for a `Place`; or None on a day on which it can't
    be. `would(craft, day, seen)` says in numbers what it would have done, `told(seen)` what gives it away.
    """

    name: str
    draws: Callable
    told: Callable
    would: Callable


@dataclass(frozen=True)
class Alarm:
    """Something that looks wrong and is right: how it comes about, as in `Kind`, and why it is right."""

    draws: Callable
    why: str


@dataclass(frozen=True)
class Thing:
    """Something to look at from one stop: its name, `sound(place)` as it should be, and what may be seen instead.

    `sees(seen)` says in words what is seen, and judges nothing.
    """

    name: str
    title: str
    sound: Callable
    sees: Callable
    kinds: tuple[Kind, ...]
    alarms: tuple[Alarm, ...] = ()


class Place(NamedTuple):
    """Where a thing is drawn for: the aircraft, the day, the level, and the draws (`assessment.variant.Variant`).

    Aircraft and day are in the units that things are shown in. `written` is the aircraft in its file's units, in which
    numbers are drawn, so that they are the same ones whatever is shown; without it, `craft` is.
    """

    craft: object
    day: Day
    level: int
    draws: object
    written: object = None

    @property
    def file_units(self):
        """The units that numbers are drawn in."""
        return (self.written or self.craft).units

    def size(self, *by_level):
        """The size that a fault has at this level: the easiest level's first."""
        return by_level[self.level - EASIEST]

    def number(self, label, low, high, step=1):
        """Draw a number, as `Variant.number`."""
        return self.draws.number(label, low, high, step)

    def pick(self, label, options):
        """Draw one of several, as `Variant.pick`."""
        return self.draws.pick(label, options)


def pull(force, unit):
    """Write a force that comes from weights in a unit; where things are shown in metric units, in newtons.

    >>> pull(513, "lb")
    '513 lb'
    >>> with measures.shown_in(measures.METRIC):
    ...     pull(234, "kg")
    '2,295 N'
    """
    if measures.chosen() == measures.METRIC:
        force, unit = force * GRAVITY_M_S2, "N"
    return f"{force:,.0f} {unit}"


def number_of(value, digits=0, unit=""):
    """Write a number with its unit, with the sign of mathematics.

    >>> number_of(-12.34, 1, "°C"), number_of(1234.0, 0, "ft")
    ('−12.3 °C', '1,234 ft')
    """
    return f"{value:,.{digits}f} {unit}".replace("-", "−").strip()
