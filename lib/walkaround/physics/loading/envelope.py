"""The CG limits of an aircraft: a polygon of weight against CG, and whether a flight stays inside it.

A handbook gives the corners and a straight line between each two, with CG along and weight up. At each
weight there is one forward and one aft limit, so the polygon is a stack of bands with straight sides; a point
exactly on a limit is inside. Fuel burnt from a tank moves the loaded point along a curve in this diagram
(the moment falls evenly, the CG does not), which is why the flight is checked all the way and not at its ends alone.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from walkaround import checks

BLOCK = 16_384  # loads judged at a time


@dataclass(frozen=True)
class Band:
    """Part of the envelope between two weights, each limit a straight line: CG = at_zero + slope · weight."""

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


@dataclass(frozen=True)
class Envelope:
    """Limits of one category: corners in order around the polygon, as CG arms and weights.

    Raises ValueError that lists what is wrong with the corners.

    >>> box = Envelope("normal", (80.0, 80.0, 90.0, 90.0), (1000.0, 2000.0, 2000.0, 1000.0))
    >>> bool(box.inside(2000.0, 90.0))
    True
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
    def _slack(self):
        # A point this close to a limit, in weight or in CG, is on it.
        return checks.SLACK * max(self.weights), checks.SLACK * max(abs(cg) for cg in self.cgs)

    def inside(self, weight, cg):
        """Whether a weight and CG lie inside or exactly on the limits; shapes broadcast to a boolean array."""
        weight, cg = np.broadcast_arrays(np.asarray(weight, float), np.asarray(cg, float))
        return _in_blocks(self._inside, weight, cg, depth=0)

    def _inside(self, weight, cg):
        by_weight, by_cg = self._slack
        found = np.zeros(weight.shape, dtype=bool)
        for band in self.bands:
            here = (weight >= band.low - by_weight) & (weight <= band.high + by_weight)
            here &= (cg >= band.forward(weight) - by_cg) & (cg <= band.aft(weight) + by_cg)
            found |= here
        return found

    def limits_at(self, weight):
        """Forward and aft limit at each weight (any shape); a weight off the polygon takes its top or bottom.

        Where the polygon has a step, the wider of the two limits counts, since a point on a limit is inside.
        """
        weight = checks.numbers("weight", weight)
        if not weight.ndim:
            # One weight, as a question asks for: the same limits without arrays.
            weight = min(max(weight, self.least_weight), self.greatest_weight)
            here = [band for band in self.bands if band.low <= weight <= band.high]
            return np.asarray(min(b.forward(weight) for b in here)), np.asarray(max(b.aft(weight) for b in here))
        weight = np.clip(weight, self.least_weight, self.greatest_weight)
        forward, aft = np.full(weight.shape, np.inf), np.full(weight.shape, -np.inf)
        for band in self.bands:
            here = (weight >= band.low) & (weight <= band.high)
            forward = np.where(here, np.minimum(forward, band.forward(weight)), forward)
            aft = np.where(here, np.maximum(aft, band.aft(weight)), aft)
        return forward, aft

    def stays_inside(self, weights, moments):
        """Whether every point of a flight stays inside: nodes along the last axis, the moment straight between.

        `weights` fall (or stay) from node to node as fuel burns; exact: between nodes the distance to a limit
        is a quadratic in the weight, so its ends and its turning point tell all. Shapes broadcast; the result
        has them without the last axis.
        """
        weights, moments = np.broadcast_arrays(np.asarray(weights, float), np.asarray(moments, float))
        return _in_blocks(self._stays_inside, weights, moments, depth=1)

    def _stays_inside(self, weights, moments):
        cg = moments / weights
        good = self._inside(weights, cg).all(axis=-1)
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
        crossed = top - bottom > by_weight  # no more than a touch is for `inside` to judge
        if not crossed.any():
            return ~crossed
        good = np.ones(np.shape(top), dtype=bool)
        for sign, at_zero, slope in (
            (1.0, band.forward_at_zero, band.forward_slope),
            (-1.0, band.aft_at_zero, band.aft_slope),
        ):
            stops = [top, bottom]
            if slope * sign < 0:  # margin is convex in the weight: it can dip between the ends
                stops.append(np.clip((arm - at_zero) / (2 * slope), bottom, top))
            for w in stops:
                margin = sign * (moment + arm * (w - heavy) - (at_zero + slope * w) * w)
                good &= margin >= -by_cg * w
        return good | ~crossed

    def outside_parts(self, weights, moments):
        """Parts of one flight that lie outside, as (weight from, weight to) pairs, heaviest first; exact.

        `weights` and `moments` are one-dimensional nodes as in `stays_inside`.
        """
        parts = []
        for heavy, light, moment, low_moment in zip(weights, weights[1:], moments, moments[1:], strict=False):
            if heavy - light <= 0:
                continue
            arm = (moment - low_moment) / (heavy - light)
            cuts = {heavy, light}
            for band in self.bands:
                cuts |= {band.low, band.high}
                for at_zero, slope in ((band.forward_at_zero, band.forward_slope), (band.aft_at_zero, band.aft_slope)):
                    cuts |= set(quadratic_roots(arm * heavy - moment, at_zero - arm, slope))
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
    """Where a flight comes nearest to a CG limit: (limit, distance, weight, CG); the distance is below zero beyond it.

    `weights` and `moments` are one-dimensional nodes as in `Envelope.stays_inside`; `limit` is "forward" or "aft". Exact: between nodes the CG is
    a + c / W and the limit a straight line, so the distance can be least at a node, at a corner of the envelope, or where both are parallel.
    """
    candidates = [(float(w), float(m)) for w, m in zip(weights, moments, strict=True)]
    for (heavy, light), (moment, low_moment) in zip(pairwise(weights), pairwise(moments), strict=True):
        if heavy <= light:
            continue
        arm = (moment - low_moment) / (heavy - light)
        stops = {edge for band in envelope.bands for edge in (band.low, band.high)}
        for slope in {s for band in envelope.bands for s in (band.forward_slope, band.aft_slope) if s}:
            square = -(moment - arm * heavy) / slope
            if square > 0:
                stops.add(float(np.sqrt(square)))
        candidates += [(w, float(moment + arm * (w - heavy))) for w in stops if light < w < heavy]
    best = None
    for weight, moment in candidates:
        cg = moment / weight
        forward, aft = (float(limit) for limit in envelope.limits_at(weight))
        for name, distance in (("forward", cg - forward), ("aft", aft - cg)):
            if best is None or distance < best[1]:
                best = (name, distance, weight, cg)
    return best


def _in_blocks(verdict, one, other, depth):
    # A block that fits the processor's cache is several times faster than one pass over a million loads.
    shape = one.shape[: one.ndim - depth]
    if one.size <= BLOCK:
        return verdict(one, other)
    rows = int(np.prod(shape))
    one, other = (
        one.reshape(rows, *one.shape[one.ndim - depth :]),
        other.reshape(rows, *other.shape[other.ndim - depth :]),
    )
    found = np.empty(rows, dtype=bool)
    for start in range(0, rows, BLOCK):
        block = slice(start, start + BLOCK)
        found[block] = verdict(one[block], other[block])
    return found.reshape(shape)


def quadratic_roots(c0, c1, c2):
    """Real roots of c0 + c1 x + c2 x² as a list of none, one or two floats, without loss of digits.

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
    """Everything wrong with the corners of an envelope, a sentence each; an empty list when it is sound.

    >>> corner_problems((80, 90, 80, 90), (1000, 2000, 2000, 1000))
    ['side 1 (80, 1000)–(90, 2000) crosses side 3 (80, 2000)–(90, 1000)']
    """
    corners = list(zip(cgs, weights, strict=True))
    if len(corners) < 3:
        return [f"has {len(corners)} corners; allowed: three or more"]
    problems = [f"corner ({c:g}, {w:g}) stands twice" for i, (c, w) in enumerate(corners) if (c, w) in corners[:i]]
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
            problems.append(
                f"at weight {middle:g} it has {across // 2} separate ranges of CG; allowed: one forward and one aft limit"
            )
    return problems


def _side(side):
    (c1, w1), (c2, w2) = side
    return f"({c1:g}, {w1:g})–({c2:g}, {w2:g})"


def _cross(a, b, c, d):
    def turn(p, q, r):
        return np.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]))

    return turn(a, b, c) * turn(a, b, d) <= 0 and turn(c, d, a) * turn(c, d, b) <= 0 and not _apart(a, b, c, d)


def _apart(a, b, c, d):
    # Sides on one line cross only where their boxes meet.
    return any(max(a[i], b[i]) < min(c[i], d[i]) or max(c[i], d[i]) < min(a[i], b[i]) for i in (0, 1))


def _band(cgs, weights, low, high):
    middle = (low + high) / 2
    lines = []
    for c1, w1, c2, w2 in zip(cgs, weights, cgs[1:] + cgs[:1], weights[1:] + weights[:1], strict=True):
        if (w1 - middle) * (w2 - middle) < 0:
            slope = (c2 - c1) / (w2 - w1)
            lines.append((c1 + slope * (middle - w1), c1 - slope * w1, slope))
    forward, aft = sorted(lines)
    return Band(low, high, forward[1], forward[2], aft[1], aft[2])
