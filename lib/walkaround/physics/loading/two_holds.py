"""Every pair of loads in two holds that keeps the flight inside, as an exact outline.

Let s be the sum of the two loads and b the load of the second hold. The weight depends only on s, so each limit says
that b is at least, or at most, a quadratic in s, which is a straight line where the limit does not slant. The answer is
the set between the highest of these floors and the lowest of these ceilings; its corners are where two of them meet.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from walkaround import checks
from walkaround.physics.loading.envelope import quadratic_roots
from walkaround.physics.loading.loadsheet import load_sheet, one_load
from walkaround.physics.loading.planning import critical_points, room_in


@dataclass(frozen=True)
class Bound:
    """A floor or ceiling for the load of the second hold: c0 + c1 s + c2 s², from one sum of loads to another.

    >>> Bound(start=0.0, stop=150.0, coefficients=(-130.0, 1.0, 0.0), floor=True).at(140.0)
    10.0
    """

    start: float
    stop: float
    coefficients: tuple
    floor: bool

    def at(self, s):
        """Value at a sum of loads (any shape)."""
        c0, c1, c2 = self.coefficients
        return c0 + s * (c1 + s * c2)


@dataclass(frozen=True)
class TwoHolds:
    """The set of loads: `pieces` of (sum from, sum to, floor, ceiling), in order of the sum.

    Loads no farther than `slack` beyond an edge are on it, and so in the set.

    >>> from walkaround import aircraft
    >>> found = loads_inside(aircraft.demo("morrowlark_four"), "hold A", "hold B", {"front seats": 400}, {})
    >>> (130.0, 20.0) in found.outline(), found.contains([130, 130], [20, 21]).tolist()
    (True, [True, False])
    """

    holds: tuple
    pieces: tuple
    slack: float

    @property
    def corners(self):
        """Exact corners in order around the outline: (load of the first hold, load of the second)."""
        points = self.outline(points_per_curve=2)
        return [p for i, p in enumerate(points) if _turns(points[i - 1], p, points[(i + 1) % len(points)])]

    def outline(self, points_per_curve=24):
        """Points around the set as (first hold, second hold) pairs, several along the curve of a slanted limit."""
        up, down = [], []
        for start, stop, floor, ceiling in self.pieces:
            for side, bound in ((up, floor), (down, ceiling)):
                n = 2 if bound.coefficients[2] == 0 else points_per_curve
                side.extend((s - bound.at(s), bound.at(s)) for s in np.linspace(start, stop, n))
        return _without_repeats([(float(a), float(b)) for a, b in up + down[::-1]])

    def contains(self, first, second):
        """Whether loads of the first and second hold are in the set (shapes broadcast)."""
        first, second = np.broadcast_arrays(np.asarray(first, float), np.asarray(second, float))
        s, slack = first + second, self.slack
        found = np.zeros(s.shape, dtype=bool)
        for start, stop, floor, ceiling in self.pieces:
            here = (s >= start - slack) & (s <= stop + slack)
            found |= here & (second >= floor.at(s) - slack) & (second <= ceiling.at(s) + slack)
        return found


def loads_inside(aircraft, first, second, stations, fuel, taxi=0.0, trip=0.0, category=None):
    """Find every pair of loads in two holds that stays inside, the rest of the load fixed: a `TwoHolds`.

    `first` and `second` name the holds; what `stations` has for them is ignored. If no pair is possible there are no
    pieces. Raises ValueError if both names are the same, for arrays, and as `load_sheet` does.

    >>> from walkaround import aircraft
    >>> loads_inside(aircraft.demo("morrowlark_four"), "hold A", "hold B", {"front seats": 400}, {}).corners
    [(0.0, 0.0), (130.0, 0.0), (130.0, 20.0), (90.0, 60.0), (0.0, 60.0)]
    """
    one, two = aircraft.station(first), aircraft.station(second)
    if first == second:
        raise ValueError(f"second is {second!r}; allowed: a hold other than the first")
    others = {name: w for name, w in stations.items() if name not in (first, second)}
    sheet = one_load(load_sheet(aircraft, others, fuel, taxi, trip, category))
    slack = checks.SLACK * aircraft.limits.take_off
    if not sheet.stations_within:
        return TwoHolds((first, second), (), slack)
    most = one.maximum + two.maximum
    for limit in aircraft.combined_limits:
        if {first, second} <= set(limit.holds):
            most = min(most, limit.maximum - sum(others.get(h, 0.0) for h in limit.holds))
    most_one, most_two = (room_in(aircraft, name, others) for name in (first, second))
    least = max(0.0, sheet.envelope.least_weight - float(sheet.path_weights[-1]))
    for c in sheet.conditions[1:]:
        if c.weight_limit is not None:
            most = min(most, float(c.weight_limit - c.weight))
    only_one_sum = checks.equal(most, least, size=aircraft.limits.take_off)
    most = max(most, least) if only_one_sum else most
    bounds = [
        Bound(0.0, most, (0.0, 0.0, 0.0), True),
        Bound(0.0, most, (-most_one, 1.0, 0.0), True),
        Bound(0.0, most, (most_two, 0.0, 0.0), False),
        Bound(0.0, most, (0.0, 1.0, 0.0), False),
    ]
    cuts = {least, most}
    for bound in _limits(sheet, one.arm, two.arm, cuts):
        bounds.append(bound)
        cuts |= {bound.start, bound.stop}
    for i, a in enumerate(bounds):
        for b in bounds[:i]:
            cuts |= set(quadratic_roots(*(p - q for p, q in zip(a.coefficients, b.coefficients, strict=True))))
    cuts = [least, most] if only_one_sum else sorted(float(c) for c in cuts if least <= c <= most)
    pieces = []
    for start, stop in pairwise(cuts):
        s = (start + stop) / 2
        if stop - start <= slack and not only_one_sum:
            continue
        valid = [b for b in bounds if b.start - slack <= s <= b.stop + slack]
        floor = max((b for b in valid if b.floor), key=lambda b: b.at(s))
        ceiling = min((b for b in valid if not b.floor), key=lambda b: b.at(s))
        moments = sheet.path_moments + one.arm * s + (two.arm - one.arm) * floor.at(s)
        inside = sheet.envelope.stays_inside(sheet.path_weights + s, moments)
        if floor.at(s) > ceiling.at(s) + slack or not inside:
            continue
        last = pieces[-1] if pieces else None
        if last and last[2].coefficients == floor.coefficients and last[3].coefficients == ceiling.coefficients:
            pieces[-1] = (last[0], stop, floor, ceiling)
        else:
            pieces.append((start, stop, floor, ceiling))
    return TwoHolds((first, second), tuple(pieces), slack)


def _limits(sheet, arm_one, arm_two, cuts):
    """Floors and ceilings from the envelope; a limit that is the same for both holds adds its roots to `cuts`."""
    apart = arm_two - arm_one
    for band in sheet.envelope.bands:
        for sign, at_zero, slope in band.lines:
            for w, m, fixed, arm in critical_points(sheet, band):
                if fixed is None:
                    start, stop = band.low - w, band.high - w
                    c = (m - at_zero * w - slope * w * w, arm_one - at_zero - 2 * slope * w, -slope)
                else:
                    light = _light_end(sheet, w)
                    start, stop = fixed - w, fixed - light
                    c = (m + arm * (fixed - w) - (at_zero + slope * fixed) * fixed, arm_one - arm, 0.0)
                if apart == 0:
                    cuts |= set(quadratic_roots(*c))
                else:
                    # The margin c(s) + apart · b is 0 or more at a forward limit, 0 or less at an aft one.
                    bound = tuple(float(-k / apart) for k in c)
                    yield Bound(float(start), float(stop), bound, floor=sign * apart > 0)


def _light_end(sheet, heavy):
    weights = sheet.path_weights
    return min(light for h, light in pairwise(weights) if h == heavy and light < h)


def _turns(before, here, after):
    (ax, ay), (bx, by) = (np.subtract(here, before), np.subtract(after, here))
    return not checks.at_most(abs(ax * by - ay * bx), 0.0, size=(abs(ax) + abs(ay)) * (abs(bx) + abs(by)))


def _without_repeats(points):
    kept, size = [], np.max(np.abs(points), initial=0.0)
    for p in points:
        if not kept or not checks.equal(p, kept[-1], size).all():
            kept.append(p)
    if len(kept) > 1 and checks.equal(kept[0], kept[-1], size).all():
        kept.pop()
    return kept
