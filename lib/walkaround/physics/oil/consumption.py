"""What a log of dipstick readings tells: how fast the engine burns oil, how sure that is, and whether it has changed.

A log has, for each reading, the engine's hours, the quantity read, and what was added just after. Quantities are in
whatever unit the dipstick has. Each reading is off by chance, independently of the others and by as much on average:
the intervals are those of an ordinary straight-line fit (N. R. Draper and H. Smith, Applied Regression Analysis).
"""

from dataclasses import dataclass

import numpy as np

from walkaround import checks
from walkaround.numerics.student_t import student_t


@dataclass(frozen=True)
class Trend:
    """The straight line through a log, in terms of the oil there is now: what was added is counted all along.

    `per_hour`, what the engine burns in an hour, true to ± `per_hour_within` in a share `share` of logs; `scatter`, the
    standard deviation of a reading; `last_h`, hours at the last reading. Where the readings have more
    axes, each has one value for each log.

    >>> line = trend([0.0, 5.0, 10.0, 15.0], [7.0, 6.6, 5.9, 5.5])
    >>> line.per_hour.round(3), line.quantity(15.0).round(2), line.within(15.0).round(2)
    (np.float64(0.104), np.float64(5.47), np.float64(0.34))
    """

    per_hour: np.ndarray
    per_hour_within: np.ndarray
    scatter: np.ndarray
    last_h: np.ndarray
    share: float
    readings: int
    mean_h: np.ndarray
    mean_quantity: np.ndarray

    def quantity(self, hours):
        """Oil in the sump by the line, at these hours (broadcast with the logs)."""
        return self.mean_quantity - self.per_hour * (checks.numbers("hours", hours, unit="h") - self.mean_h)

    def within(self, hours):
        """How far the line may be off at these hours, either way: t s √(1/n + (x − x̄)²/Sxx)."""
        t, from_mean = student_t(self.readings - 2, self.share), checks.numbers("hours", hours, unit="h") - self.mean_h
        return np.hypot(t * self.scatter / np.sqrt(self.readings), self.per_hour_within * from_mean)

    def due_h(self, quantity):
        """Hours at which the oil is down to a quantity: by the line, at the earliest and at the latest.

        The ends are where the limits of the line, `quantity(hours)` ∓ `within(hours)`, come down to it: E. C. Fieller's
        interval (Journal of the Royal Statistical Society B 16, 1954). Infinite where that never happens, and minus
        infinite where the log can't exclude that it happened before it began.

        >>> line = trend([0.0, 5.0, 10.0, 15.0], [7.0, 6.6, 5.9, 5.5])
        >>> [round(float(h), 1) for h in line.due_h(5.0)]
        [19.5, 16.0, 26.5]
        """
        b, below = self.per_hour, checks.numbers("quantity", quantity, low=0) - self.mean_quantity
        slope, shift = self.per_hour_within**2, self.within(self.mean_h) ** 2
        # |below + b u| ≤ within, squared: (b² − slope) u² + 2 b below u + below² − shift ≤ 0.
        sure = b * b - slope
        root = np.sqrt(np.maximum(slope * below**2 + sure * shift, 0.0))
        with np.errstate(divide="ignore", invalid="ignore"):
            # Of the two forms of a root, the one that does not subtract like from like.
            early = np.where(below < 0, (below**2 - shift) / (root - b * below), (-b * below - root) / sure)
            late = np.where(below < 0, (root - b * below) / sure, (below**2 - shift) / (-b * below - root))
            due = np.where(b > 0, -below / b, np.inf)
        late = np.where((sure > 0) & (b > 0), late, np.inf)
        early = np.where(sure > 0, np.where(b > 0, early, np.inf), early)
        early = np.where((sure <= 0) & ((below >= 0) | (below**2 <= shift)), -np.inf, early)
        return self.mean_h + due, self.mean_h + early, self.mean_h + late


@dataclass(frozen=True)
class Change:
    """The likeliest change in what an engine burns, found or not.

    `at_h`, hours at the reading where the rate changes, and `at_quantity`, the oil there, in terms of what there is
    now; `before` and `after` it, per hour; the difference is true to ± `within`; `found`, whether that leaves out 0.
    See `change_of_rate`.

    >>> Change(at_h=20.0, at_quantity=6.0, before=0.1, after=0.3, within=0.05, found=True).after
    0.3
    """

    at_h: np.ndarray
    at_quantity: np.ndarray
    before: np.ndarray
    after: np.ndarray
    within: np.ndarray
    found: np.ndarray


def trend(hours, quantities, added=0.0, step=0.0, share=0.95):
    """Straight line through a log of dipstick readings (`Trend`).

    Parameters: `hours`, the engine's hours at each reading, in any order; `quantities`, what was read; `added`, what
    was added just after each reading; all of shape (..., readings), three readings or more. `step`, how finely the
    dipstick is read: a scatter smaller than step/√12, the standard deviation of rounding (ISO/IEC Guide 98-3, 4.3.7),
    is not believed. `share` of logs whose intervals hold the true value. Raises ValueError for anything below 0, fewer
    readings, readings all at one time, or a share that is not between 0 and 1.

    >>> line = trend([0.0, 5.0, 10.0], [6.5, 6.0, 6.6], added=[0.0, 1.0, 0.0])  # 1.5 burnt, 0.9 seen
    >>> round(float(line.per_hour), 3)
    0.09
    """
    share = _share(share)
    hours, level = _log(hours, quantities, added)
    count = hours.shape[-1]
    mean_h, _, spread, mean, per_hour, squares = _line(hours, level)
    scatter = _scatter(squares, count - 2, step)
    within = student_t(count - 2, share) * scatter / np.sqrt(spread)
    return Trend(per_hour, within, scatter, hours[..., -1], share, count, mean_h, mean)


def change_of_rate(hours, quantities, added=0.0, step=0.0, share=0.95):
    """Whether the engine burns more, or less, than it used to (`Change`; parameters as for `trend`, five readings).

    At each reading with two or more on either side, a line that bends there is fitted, with the bend times the hours
    since as a third unknown; the bend that is largest in its standard errors is the likeliest. As there are m places to
    choose from, each is held against Student's t at 1 − (1 − share)/m (Bonferroni): where nothing has changed, no more
    than 1 − share of logs give a false alarm.

    >>> found = change_of_rate([0, 4, 8, 12, 16, 20, 24], [7.0, 6.7, 6.2, 5.9, 4.8, 3.6, 2.4])
    >>> float(found.at_h), round(float(found.before), 2), round(float(found.after), 2), bool(found.found)
    (12.0, 0.09, 0.29, True)
    """
    share = _share(share)
    hours, level = _log(hours, quantities, added, least=5)
    count = hours.shape[-1]
    places = range(2, count - 2)
    t = student_t(count - 3, 1 - (1 - share) / len(places))
    mean_h, u, spread, mean, _, squares = _line(hours, level)
    fits = []
    for place in places:
        since = np.maximum(hours - hours[..., place : place + 1], 0.0)
        # What the hours since hold that a straight line does not (Frisch and Waugh), and the bend that fits it.
        _, _, _, _, minus, _ = _line(hours, since)
        rest = since - since.mean(axis=-1, keepdims=True) + minus[..., np.newaxis] * u
        size = (rest**2).sum(axis=-1)
        # Readings at one and the same hour may leave nothing to tell a bend by.
        tells = size > checks.SLACK * spread
        size = np.where(tells, size, 1.0)
        bend = np.where(tells, -(rest * level).sum(axis=-1) / size, 0.0)
        error = _scatter(squares - bend**2 * size, count - 3, step) / np.sqrt(size)
        before = _line(hours, level + bend[..., np.newaxis] * since)[4]
        quantity = mean + before * (mean_h - hours[..., place]) + bend * since.mean(axis=-1)
        fits.append(np.stack(np.broadcast_arrays(hours[..., place], quantity, before, bend, t * error)))
    at, quantity, before, more, within = np.moveaxis(np.stack(fits), 1, 0)
    # Where there is no scatter at all, any bend is one.
    size = np.abs(more) / np.maximum(within, np.finfo(float).tiny)
    best = np.argmax(size, axis=0)[np.newaxis]
    at, quantity, before, more, within = (
        np.take_along_axis(each, best, axis=0)[0] for each in (at, quantity, before, more, within)
    )
    found = (np.abs(more) > within) & ~checks.at_most(np.abs(more), 0.0, size=1.0)
    return Change(at, quantity, before, before + more, within, found)


def _share(share):
    share = checks.number("share", share, above=0)
    if share >= 1:
        raise ValueError(f"share is {share:g}; allowed: more than 0, less than 1")
    return share


def _log(hours, quantities, added, least=3):
    """Hours in rising order, and at each the oil that would have been there with all that was added since."""
    given = {"hours": (hours, "h"), "quantities": (quantities, ""), "added": (added, "")}
    hours, quantities, added = checks.same_shape(
        **{name: checks.numbers(name, values, low=0, unit=unit) for name, (values, unit) in given.items()}
    )
    if hours.ndim == 0 or hours.shape[-1] < least:
        count = hours.shape[-1] if hours.ndim else 1
        raise ValueError(f"hours has {count} reading{'s' * (count != 1)}; allowed: {least} or more")
    if np.any(np.ptp(hours, axis=-1) == 0):
        raise ValueError("hours are all the same; allowed: readings at two or more times")
    order = np.argsort(hours, axis=-1, kind="stable")
    hours, quantities, added = (np.take_along_axis(each, order, axis=-1) for each in (hours, quantities, added))
    return hours, quantities + np.cumsum(added[..., ::-1], axis=-1)[..., ::-1]


def _line(hours, level):
    """The straight line: mean hours, hours from there, their sum of squares, mean level, its fall, what is left."""
    mean_h, mean = hours.mean(axis=-1), level.mean(axis=-1)
    u, v = hours - mean_h[..., np.newaxis], level - mean[..., np.newaxis]
    spread = (u * u).sum(axis=-1)
    fall = -(u * v).sum(axis=-1) / spread
    return mean_h, u, spread, mean, fall, ((v + fall[..., np.newaxis] * u) ** 2).sum(axis=-1)


def _scatter(squares, freedom, step):
    least = checks.number("step", step, low=0) / np.sqrt(12)
    return np.maximum(np.sqrt(np.maximum(squares, 0.0) / freedom), least)
