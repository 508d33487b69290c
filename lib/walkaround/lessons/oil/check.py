"""The oil check before a flight: what the log, the stick and this flight say together, and in which words."""

from math import ceil, inf
from typing import NamedTuple

import numpy as np

from walkaround import checks, measures
from walkaround.physics import oil

ENOUGH, ADD, DUE, TIGHT, AGAIN, CHANGED, TOO_MUCH, GROWS = (
    "enough", "add", "due", "tight", "again", "changed", "too much", "grows",
)  # fmt: skip
MECHANIC = (CHANGED, TOO_MUCH, GROWS)


class Log(NamedTuple):
    """Readings so far: hours, quantities and what was added after each, in the aircraft's own unit of oil."""

    hours: tuple
    quantities: tuple
    added: tuple

    def with_last(self, quantity):
        """The same log with another last reading."""
        return Log(self.hours, (*self.quantities[:-1], quantity), self.added)


class Check:
    """An oil check: `log` with readings taken properly, `flight_h` of this flight, and how the last reading was taken.

    The last quantity of the log is what is `there`. Some of it may still be `up` in the engine, which leaves `drained`
    in the sump; a slope makes that more or less by `tilt`, and the stick shows `shown`, to its own step. `needed` is
    the least to take off with at the `rate` of late, rounded up to what can be read; `needed_at_worst` the same at the
    most that the engine may burn by this log.
    """

    def __init__(self, engine, log, flight_h, minutes=60.0, nose_up_deg=0.0):
        section = engine.oil
        self.engine, self.section, self.sump, self.flight_h = engine, section, section.sump, flight_h
        self.minutes, self.nose_up_deg, self.there = minutes, nose_up_deg, log.quantities[-1]
        self.up = float(self.sump.still_up(minutes))
        lowest, highest = section.dipstick_quantities[0], section.dipstick_quantities[-1]
        self.drained = drained = min(max(self.there - self.up, lowest), highest)
        on_slope, step = self._on_slope(drained, nose_up_deg), self.sump.read_to
        self.tilt, self.shown = on_slope - drained, round(round(on_slope / step) * step, 6)
        self.log = log.with_last(self.shown)
        self.trend = self._trend(self.log)
        self.change = None
        if len(log.hours) >= 5:
            self.change = oil.change_of_rate(*self._columns(self.log), self.sump.read_to)
        rate = max(0.0, float(self.trend.per_hour))
        if self.burns_more:
            rate = float(self.change.after)
        within, most = float(self.trend.per_hour_within), engine.greatest_oil_per_hour
        self.rate, self.within, self.worst = rate, within, max(rate, min(rate + within, most))
        self.needed, self.needed_at_worst = self._needed(rate), self._needed(self.worst)
        self.due_in = self.hours_to_refill(self.trend)

    @property
    def misleads(self):
        """Whether the last reading is off by more than two steps of the stick."""
        return not checks.at_most(abs(self.there - self.shown), 2 * self.sump.read_to, size=self.there)

    @property
    def burns_more(self):
        """Whether the engine is found to burn more than it did."""
        return self.change is not None and bool(self.change.found & (self.change.after > self.change.before))

    @property
    def wait_minutes(self):
        """Minutes after shut-down until less is up in the engine than the stick is read to."""
        return ceil(oil.wait_minutes(self.sump.held_up, self.sump.half_back_minutes, self.sump.read_to))

    def hours_to_refill(self, trend):
        """Hours from the last reading until oil is due: by the line, at the earliest, at the latest; 0 if overdue."""
        return tuple(max(float(h - trend.last_h), 0.0) for h in trend.due_h(self.sump.refill_at))

    def taken_properly(self):
        """Hours until oil is due, had the last reading been right."""
        return self.hours_to_refill(self._trend(self.log.with_last(self.there)))

    @property
    def verdict(self):
        """One of ENOUGH … GROWS: what comes first."""
        rate, within = float(self.trend.per_hour), self.within
        if self.misleads:
            return AGAIN
        if rate + within < 0:
            return GROWS
        if self.burns_more:
            return CHANGED
        if rate > self.engine.greatest_oil_per_hour:
            return TOO_MUCH
        if not checks.at_least(self.shown, self.needed):
            return ADD
        if checks.at_most(self.shown, self.sump.refill_at):
            return DUE
        return ENOUGH if checks.at_least(self.shown, self.needed_at_worst) else TIGHT

    def _columns(self, log):
        return log.hours, log.quantities, log.added

    def _trend(self, log):
        return oil.trend(*self._columns(log), self.sump.read_to)

    def _needed(self, rate):
        least = float(oil.least_for_flight(self.section.minimum, rate, self.flight_h, 0.0))
        step = self.sump.read_to
        return round(ceil(least / step - checks.SLACK * least / step) * step, 6)

    def _on_slope(self, quantity, nose_up_deg):
        marks, quantities = self.section.dipstick_marks, self.section.dipstick_quantities
        mark = oil.on_dipstick(quantity, marks, quantities) + self.sump.rise(nose_up_deg)
        return float(oil.from_dipstick(np.clip(mark, marks[0], marks[-1]), marks, quantities))


def amount(quantity, unit, step=0.1):
    """Write a quantity of oil to the stick's own step.

    >>> amount(6.5, "qt"), amount(2.44, "L", 0.05)
    ('6.5 qt', '2.45 L')
    """
    rounded, digits = round(quantity / step) * step, 2 if step < 0.1 else 1
    # A check in quarts is one of the exercise: in metric units a student has hundredths of a litre.
    return measures.words(rounded, "qt", digits, 2) if unit == "qt" else f"{rounded:.{digits}f} {unit}"


def due_words(due_in):
    """Say when oil is due, from hours by the line, at the earliest and at the latest.

    >>> due_words((6.2, 4.4, 9.1)), due_words((0.0, 0.0, 1.2)), due_words((8.0, 0.2, inf))
    ('due in 6 h, between 4 and 10', 'due now', 'due in 8 h, or now, or much later')
    """
    due, early, late = due_in
    if due == 0:
        return "due now"
    if due == inf:
        return f"due some time{f' after {int(early)} h' if 1 <= early < inf else ''}: this log can't tell when"
    first = f"{int(early)}" if early >= 1 else "now"
    if late == inf:
        return f"due in {due:.0f} h, or {f'in {first}' if early >= 1 else first}, or much later"
    return f"due in {due:.0f} h, between {first} and {ceil(late)}"
