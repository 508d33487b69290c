"""The CG limits of an aircraft: a polygon of weight against CG, and whether a flight stays inside it.

A handbook gives the corners, with CG along and weight up, and straight lines between them. At each weight there is one
forward and one aft limit, so the polygon is a stack of bands with straight sides; a point exactly on a limit is inside.
Where a side is horizontal the limits make a step, and at that one weight there are two of them. Fuel burnt from a tank
moves the loaded point along a curve in this diagram (the moment falls evenly, the CG does not), so it is not enough to
check both ends of a flight.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from walkaround import checks


@dataclass(frozen=True)
class Band:
    """Part of the envelope between two weights, with straight limits: CG = at_zero + slope · weight.

    >>> band = Band(low=1000.0, high=2000.0, forward_at_zero=78.0, forward_slope=0.002, aft_at_zero=90.0, aft_slope=0.0)
    >>> band.forward(1500.0), band.aft(1500.0)
    (81.0, 90.0)
    """

    low: float
    high: float
    forward_at_zero: float
    forward_slope: float
    aft_at_zero: float
    aft_slope: float

    def forward(self, weight):
        """Forward limit at a weight within the band."""
        return self.forward_at_zero + self.forward_slope * weight

    def aft(self, weight):
        """Aft limit at a weight within the band."""
        return self.aft_at_zero + self.aft_slope * weight

    @property
    def lines(self):
        """Forward and aft limit as (sign, at_zero, slope); sign · (CG − limit) is how far inside a CG is."""
        return (1.0, self.forward_at_zero, self.forward_slope), (-1.0, self.aft_at_zero, self.aft_slope)


@dataclass(frozen=True)
class Envelope:
    """Limits of one category: corners in order around the polygon, as CG arms and weights.

    Raises ValueError that lists what is wrong with the corners.

    >>> box = Envelope("normal", (80.0, 80.0, 90.0, 90.0), (1000.0, 2000.0, 2000.0, 1000.0))
    >>> bool(box.inside(2000.0, 90.0)), [float(limit) for limit in box.limits_at(1500.0)]
    (True, [80.0, 90.0])
    >>> weights, moments = np.array([1800.0, 1500.0]), np.array([160_200.0, 135_600.0])  # 300 burnt at arm 82
    >>> bool(box.stays_inside(weights, moments)), np.round(box.outside_parts(weights, moments)).tolist()
    (False, [[1575.0, 1500.0]])
    """

    name: str
    cgs: tuple
    weights: tuple

    def __post_init__(self):
        problems = corner_problems(self.cgs, self.weights)
        if problems:
            raise ValueError(f"envelope {self.name!r}: " + "; ".join(problems))

    @cached_property
    def least_weight(self):
        """Weight at the bottom of the polygon."""
        return min(self.weights)

    @cached_property
    def greatest_weight(self):
        """Weight at the top of the polygon."""
        return max(self.weights)

    @cached_property
    def bands(self):
        """Bands from the bottom up."""
        levels = sorted(set(self.weights))
        return tuple(_band(self.cgs, self.weights, low, high) for low, high in pairwise(levels))

    @cached_property
    def _bands_and_beyond(self):
        # Below and above the polygon the CG limits of its bottom and top go on.
        first, last = self.bands[0], self.bands[-1]
        below = Band(0.0, first.low, first.forward(first.low), 0.0, first.aft(first.low), 0.0)
        above = Band(last.high, np.inf, last.forward(last.high), 0.0, last.aft(last.high), 0.0)
        return (below, *self.bands, above)

    @cached_property
    def _slack(self):
        # A point this close to a limit, in weight or in CG, is on it.
        return checks.SLACK * max(self.weights), checks.SLACK * max(abs(cg) for cg in self.cgs)

    def inside(self, weight, cg):
        """Whether a weight and CG lie inside or exactly on the limits; shapes broadcast to a boolean array."""
        weight, cg = checks.same_shape(weight=checks.numbers("weight", weight), cg=checks.numbers("cg", cg))
        by_weight, by_cg = self._slack
        found = np.zeros(weight.shape, dtype=bool)
        for band in self.bands:
            here = (weight >= band.low - by_weight) & (weight <= band.high + by_weight)
            here &= (cg >= band.forward(weight) - by_cg) & (cg <= band.aft(weight) + by_cg)
            found |= here
        return found

    def limits_at(self, weight):
        """Forward and aft limit at each weight (any shape); a weight off the polygon takes its top or bottom.

        At a step, where there are two, the wider one counts, since a point on a limit is inside; `limit_table` has
        both.
        """
        weight = np.clip(checks.numbers("weight", weight), self.least_weight, self.greatest_weight)
        forward, aft = np.full(weight.shape, np.inf), np.full(weight.shape, -np.inf)
        for band in self.bands:
            here = (weight >= band.low - self._slack[0]) & (weight <= band.high + self._slack[0])
            forward = np.where(here, np.minimum(forward, band.forward(weight)), forward)
            aft = np.where(here, np.maximum(aft, band.aft(weight)), aft)
        return forward, aft

    def limit_table(self, *weights):
        """Rows of (weight, forward limit, aft limit) from the bottom up, between which the limits run straight.

        One row for each corner's weight and each of `weights` within the polygon, and two where the limits make a step:
        first those that hold up to this weight, then those that hold above it.

        >>> stepped = Envelope("stepped", (80.0, 80.0, 95.0, 95.0, 93.0, 93.0), (1000, 2000, 2000, 1600, 1600, 1000))
        >>> stepped.limit_table(1500)
        [(1000, 80.0, 93.0), (1500, 80.0, 93.0), (1600, 80.0, 93.0), (1600, 80.0, 95.0), (2000, 80.0, 95.0)]
        """
        rows = []
        for weight in sorted({*self.weights, *weights}):
            here = [(weight, b.forward(weight), b.aft(weight)) for b in self.bands if b.low <= weight <= b.high]
            step = len(here) == 2 and np.abs(np.subtract(*here)).max() > self._slack[1]
            rows += here if step else here[:1]
        return rows

    def stays_inside(self, weights, moments):
        """Whether every point of a flight stays inside: nodes along the last axis, the moment straight between.

        `weights` fall (or stay) from node to node as fuel burns. Exact: between nodes the distance to a limit is a
        quadratic in the weight, so its ends and its turning point decide. Shapes broadcast; the result has them without
        the last axis.
        """
        given = {"weights": checks.numbers("weights", weights, above=0), "moments": checks.numbers("moments", moments)}
        weights, moments = checks.same_shape(**given)
        good = self.inside(weights, moments / weights).all(axis=-1)
        for k in range(weights.shape[-1] - 1):
            heavy, light = weights[..., k], weights[..., k + 1]
            burnt = heavy - light
            arm = np.divide(moments[..., k] - moments[..., k + 1], burnt, out=np.zeros_like(burnt), where=burnt > 0)
            for band in self.bands:
                good &= self._band_holds(band, heavy, light, moments[..., k], arm)
        return good

    def _band_holds(self, band, heavy, light, moment, arm):
        by_weight, by_cg = self._slack
        top, bottom = np.minimum(heavy, band.high), np.maximum(light, band.low)
        crossed = top - bottom > by_weight  # where the flight only touches the band, its nodes decide
        if not crossed.any():
            return ~crossed
        good = np.ones(np.shape(top), dtype=bool)
        for sign, at_zero, slope in band.lines:
            stops = [top, bottom]
            if slope * sign < 0:  # the distance is convex in the weight, so it can be least between the ends
                stops.append(np.clip((arm - at_zero) / (2 * slope), bottom, top))
            for w in stops:
                margin = sign * (moment + arm * (w - heavy) - (at_zero + slope * w) * w)
                good &= margin >= -by_cg * w
        return good | ~crossed

    def outside_parts(self, weights, moments, slack_share=1.0):
        """Parts of one flight that lie outside, as (weight from, weight to) pairs, heaviest first; exact.

        `weights` and `moments` are one-dimensional nodes as in `stays_inside`. A part ends where the flight is as far
        beyond a limit as rounding explains, or a share of that.
        """
        by_weight, by_cg = (slack_share * slack for slack in self._slack)
        parts = []
        for heavy, light, moment, arm in _stretches(weights, moments):
            cuts = {heavy, light}
            for band in self.bands:
                cuts |= {band.low - by_weight, band.high + by_weight}
                for sign, at_zero, slope in band.lines:
                    cuts |= set(quadratic_roots(arm * heavy - moment, at_zero - sign * by_cg - arm, slope))
            cuts = sorted((c for c in cuts if light <= c <= heavy), reverse=True)
            for upper, lower in pairwise(cuts):
                middle = (upper + lower) / 2
                if upper - lower > self._slack[0] and not self.inside(
                    middle, (moment + arm * (middle - heavy)) / middle
                ):
                    if parts and abs(parts[-1][1] - upper) <= self._slack[0]:
                        parts[-1] = (parts[-1][0], lower)
                    else:
                        parts.append((upper, lower))
        return [(float(a), float(b)) for a, b in parts]


def closest_approach(envelope, weights, moments):
    """Where a flight comes nearest to a CG limit: (limit, distance, weight, CG); the distance is below 0 beyond it.

    `weights` and `moments` are one-dimensional nodes as in `Envelope.stays_inside`; `limit` is "forward" or "aft".
    Exact: between nodes the CG is a + c / W and the limit a straight line, so the distance can be least at a node, at a
    corner of the envelope, or where both are parallel. A flight that passes a step comes as near to the limits above it
    as to those below. Off the polygon the CG limits of its top and bottom count.

    >>> box = Envelope("normal", (80.0, 80.0, 90.0, 90.0), (1000.0, 2000.0, 2000.0, 1000.0))
    >>> limit, distance, weight, cg = closest_approach(box, [1800.0, 1500.0], [158_400.0, 133_800.0])
    >>> limit, round(distance, 3), weight, cg
    ('aft', 0.8, 1500.0, 89.2)
    """
    by_weight, found = envelope._slack[0], []
    for heavy, light, moment, arm in _stretches(weights, moments):
        for band in envelope._bands_and_beyond:
            top, bottom = min(heavy, band.high), max(light, band.low)
            if top - bottom <= by_weight:
                continue  # the flight only touches this band, and stays in its neighbour
            for name, (sign, at_zero, slope) in zip(("forward", "aft"), band.lines, strict=True):
                parallel = (arm * heavy - moment) / slope if slope else 0.0
                stops = {top, bottom, float(np.clip(np.sqrt(max(parallel, 0.0)), bottom, top))}
                for weight in sorted(stops, reverse=True):
                    cg = (moment + arm * (weight - heavy)) / weight
                    found.append((name, float(sign * (cg - at_zero - slope * weight)), float(weight), float(cg)))
    if not found:  # no fuel is burnt, or none to speak of
        weight, cg = float(weights[0]), float(moments[0] / weights[0])
        forward, aft = (float(limit) for limit in envelope.limits_at(weight))
        found = [("forward", cg - forward, weight, cg), ("aft", aft - cg, weight, cg)]
    return min(found, key=lambda each: each[1])


def _stretches(weights, moments):
    """Stretches of one flight over which fuel is burnt, as (weight from, weight to, moment from, arm of the fuel)."""
    for (heavy, light), (moment, low_moment) in zip(pairwise(weights), pairwise(moments), strict=True):
        if heavy > light:
            yield float(heavy), float(light), float(moment), float((moment - low_moment) / (heavy - light))


def quadratic_roots(c0, c1, c2):
    """Real roots of c0 + c1 x + c2 x² as a rising list of none, one or two, without loss of digits.

    >>> quadratic_roots(2.0, -3.0, 1.0)
    [1.0, 2.0]
    """
    if c2 == 0:
        return [float(-c0 / c1)] if c1 else []
    square = c1 * c1 - 4 * c2 * c0
    if square < 0:
        return []
    q = -(c1 + np.copysign(np.sqrt(square), c1)) / 2
    roots = [q / c2] + ([c0 / q] if q else [])
    return sorted(float(r) for r in roots)


def corner_problems(cgs, weights):
    """Everything that is wrong with the corners of an envelope, a phrase for each; an empty list if they are sound.

    >>> corner_problems((80, 90, 80, 90), (1000, 2000, 2000, 1000))
    ['side 1 (80, 1000)–(90, 2000) crosses side 3 (80, 2000)–(90, 1000)']
    """
    corners = list(zip(cgs, weights, strict=True))
    if len(corners) < 3:
        return [f"has {len(corners)} corners; allowed: three or more"]
    if problems := [f"corner ({c}, {w}) is not two numbers" for c, w in corners if not np.all(np.isfinite([c, w]))]:
        return problems
    problems = [f"corner ({c:g}, {w:g}) is listed twice" for i, (c, w) in enumerate(corners) if (c, w) in corners[:i]]
    if min(weights) <= 0:
        problems.append(f"a corner has weight {min(weights):g}; allowed: more than 0")
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    for i, one in enumerate(sides):
        for j in range(i + 2, len(sides) - (i == 0)):
            if _cross(*one, *sides[j]):
                problems.append(f"side {i + 1} {_side(one)} crosses side {j + 1} {_side(sides[j])}")
    if problems:
        return problems
    levels = sorted(set(weights))
    if len(levels) < 2:
        return ["has no height: every corner has the same weight"]
    for low, high in pairwise(levels):
        middle = (low + high) / 2
        across = sum((a[1] - middle) * (b[1] - middle) < 0 for a, b in sides)
        if across != 2:
            ranges = f"{across // 2} separate ranges of CG"
            problems.append(f"at weight {middle:g} it has {ranges}; allowed: one forward and one aft limit")
    return problems


def _side(side):
    (c1, w1), (c2, w2) = side
    return f"({c1:g}, {w1:g})–({c2:g}, {w2:g})"


def _cross(a, b, c, d):
    def turn(p, q, r):
        return np.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]))

    return turn(a, b, c) * turn(a, b, d) <= 0 and turn(c, d, a) * turn(c, d, b) <= 0 and not _apart(a, b, c, d)


def _apart(a, b, c, d):
    # Two sides on one line cross only if their bounding boxes meet.
    return any(max(a[i], b[i]) < min(c[i], d[i]) or max(c[i], d[i]) < min(a[i], b[i]) for i in (0, 1))


def _band(cgs, weights, low, high):
    middle = (low + high) / 2
    lines = []
    for c1, w1, c2, w2 in zip(cgs, weights, cgs[1:] + cgs[:1], weights[1:] + weights[:1], strict=True):
        if min(w1, w2) <= low and high <= max(w1, w2):
            slope = (c2 - c1) / (w2 - w1)
            lines.append((c1 + slope * (middle - w1), c1 - slope * w1, slope))
    forward, aft = sorted(lines)
    return Band(low, high, forward[1], forward[2], aft[1], aft[2])
