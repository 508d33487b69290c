"""An aircraft from above, drawn from its file's [dimensions], and the path on which a pilot walks round it.

Places on the aircraft are (along, out): the share of its length from the nose, and the share of its half span from the
middle, left negative. On the drawing the nose is up, and places are shares of the drawing's width.
"""

import math
from itertools import accumulate, pairwise
from typing import NamedTuple

from walkaround.live.colours import INK

HALF_BODY, HALF_CONE = 0.056, 0.016  # of the span: a file has no width of the fuselage, so this is how it is drawn
MARGIN, EDGE = 0.085, 0.065  # of the span: from the aircraft to the path, and from the path to the drawing's edge
APART = 0.0905  # of the drawing's width: so far from one stop to the next, at the least
SAMPLES = 900


class Spot(NamedTuple):
    """Where a stop is: the place of the pilot on the path (`x`, `y`) and what is looked at there (`at_x`, `at_y`)."""

    x: float
    y: float
    at_x: float
    at_y: float


class PlanView:
    """The drawing of `dimensions` with stops at places (along, out), in the order in which they are walked.

    `spots` has a `Spot` for each, `height` is the drawing's as a share of its width, `svg` the drawing without the
    stops' numbers: whoever shows it puts them there. The path runs clockwise from stop to stop.
    """

    def __init__(self, dimensions, places):
        self._here = here = dimensions
        self._margin = MARGIN * here.span
        around = self._margin + EDGE * here.span
        self._left, self._top = here.span / 2 + around, around
        self._width = here.span + 2 * around
        self.height = (here.tail - here.nose + 2 * around) / self._width
        self._ring = _even(_rounded(self._corners()), SAMPLES)
        looked_at = [(out * here.span / 2, along * (here.tail - here.nose)) for along, out in places]
        found = _spread(self._ring, [self._nearest(place) for place in looked_at], APART * self._width)
        self.spots = [Spot(*self._on(self._ring[s]), *self._on(p)) for s, p in zip(found, looked_at, strict=True)]
        self._walked = sum((later - earlier) % SAMPLES for earlier, later in pairwise(found))
        self._start = found[0] if found else 0

    def _nearest(self, place):
        return min(range(SAMPLES), key=lambda i: math.dist(self._ring[i], place))

    def _on(self, point):
        """A point as shares of the drawing's width."""
        return (point[0] + self._left) / self._width, (point[1] + self._top) / self._width

    def _outline(self):
        """Right half of wing and tailplane as (out, aft of the nose): leading and trailing edge, root and tip."""
        d, tip = self._here, self._here.span / 2
        quarter = d.wing_leading_edge + d.wing_root_chord / 4 - d.nose
        wing = quarter - d.wing_tip_chord / 4, quarter + 0.75 * d.wing_tip_chord
        root = d.wing_leading_edge - d.nose, d.wing_leading_edge + d.wing_root_chord - d.nose
        at, chord = d.tailplane_arm - d.nose, d.tailplane_chord
        return tip, wing, root, d.tailplane_span / 2, (at - chord / 4, at + 0.75 * chord)

    def _corners(self):
        """Corners of the path, clockwise from behind the left wing's root."""
        m, length = self._margin, self._here.tail - self._here.nose
        tip, (ahead, behind), root, half_tail, (tail_ahead, _) = self._outline()
        body = HALF_BODY * self._here.span + m
        right = [
            (body, -m),
            (body, root[0] - m),
            (tip + m, ahead - m),
            (tip + m, behind + m),
            (body, root[1] + m),
            (body, tail_ahead - 1.2 * m),
            (half_tail + m, tail_ahead - m),
            (half_tail + m, length + m),
        ]
        left = [(-x, y) for x, y in right[::-1]]
        return [*left[3:], *right, *left[:3]]

    @property
    def svg(self):
        """The drawing, in the colour of the text around it."""
        return self._svg(self._inside(), "")

    def still(self, numbers):
        """Return the drawing on white, with numbers at its stops."""
        marks = "".join(
            f'<circle cx="{1000 * s.x:.0f}" cy="{1000 * s.y:.0f}" r="36" fill="#fff" stroke="{INK}" stroke-width="5"/>'
            f'<text x="{1000 * s.x:.0f}" y="{1000 * s.y + 14:.0f}" text-anchor="middle" font-size="40" '
            f'font-weight="bold" fill="{INK}" stroke="none">{number}</text>'
            for s, number in zip(self.spots, numbers, strict=True)
        )
        ground = f'<rect width="1000" height="{1000 * self.height:.0f}" fill="#fff" stroke="none"/>'
        return self._svg(f"{ground}{self._inside()}{marks}", f' style="color:{INK}" font-family="Verdana,sans-serif"')

    def _svg(self, inside, more):
        size = f'width="1000" height="{1000 * self.height:.0f}"'
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1000 {1000 * self.height:.0f}" {size} fill="none" '
            'stroke="currentColor" stroke-width="4" stroke-linejoin="round" stroke-linecap="round" aria-hidden="true"'
            f"{more}>{inside}</svg>"
        )

    def _inside(self):
        return self._aircraft() + self._path() + "".join(map(self._leader, self.spots))

    def _d(self, points, closed=True):
        on = (self._on(p) for p in points)
        return "M" + "L".join(f"{1000 * x:.0f} {1000 * y:.0f}" for x, y in on) + "Z" * closed

    def _aircraft(self):
        d, length = self._here, self._here.tail - self._here.nose
        tip, (ahead, behind), root, half_tail, tailplane = self._outline()
        body, cone = HALF_BODY * d.span, HALF_CONE * d.span
        cabin_end = root[1] + 0.35 * (tailplane[0] - root[1])
        wing = [(0, root[0]), (tip, ahead), (tip, behind), (0, root[1])]
        tail = [(cone, tailplane[0]), (half_tail, tailplane[0]), (half_tail, tailplane[1]), (cone, tailplane[1])]
        cowl = 0.35 * root[0]
        side = [(0.45 * body, 0.012 * length), (0.95 * body, cowl), (body, root[0]), (body, root[1])]
        side += [(0.85 * body, cabin_end), (cone, tailplane[1]), (0.4 * cone, length)]
        glass = [(0.8 * body, root[0] - 0.02 * length), (0.95 * body, root[0] + 0.035 * length)]
        blade, hinge, half = d.propeller_diameter / 2, ahead + 0.78 * (behind - ahead), 0.55 * tip
        wheels = [(x * d.track / 2, d.main_wheels - d.nose, d.main_wheel_radius) for x in (-1, 1)]
        wheels.append((0.0, d.nose_wheel - d.nose, d.nose_wheel_radius))
        parts = [(_both(side), 0.1), (_both(wing), 0.1), (_both(tail), 0.1), (_both(glass), 0.25)]
        lines = [[(-blade, 0), (blade, 0)], [(0, tailplane[0]), (0, length)]]
        for sign in (-1, 1):
            lines.append([(sign * half, behind), (sign * half, hinge), (sign * tip, hinge)])
            lines.append([(sign * cone, _between(tailplane, 0.6)), (sign * half_tail, _between(tailplane, 0.6))])
        drawn = "".join(f'<path d="{self._d(p)}" fill="currentColor" fill-opacity="{f}"/>' for p, f in parts)
        drawn += f'<path d="{"".join(self._d(line, closed=False) for line in lines)}"/>'
        tyres = "".join(self._d([(x, at - radius), (x, at + radius)], closed=False) for x, at, radius in wheels)
        return f'{drawn}<path d="{tyres}" stroke-width="12" opacity="0.6"/>'

    def _path(self):
        steps = min(self._walked, SAMPLES)
        line = [self._ring[(self._start + i) % SAMPLES] for i in range(0, steps + 1, 4)]
        heads = "".join(map(self._head, range(self._start + SAMPLES // 36, self._start + steps, SAMPLES // 18)))
        return (
            f'<path d="{self._d(line, closed=False)}" stroke-width="5" stroke-dasharray="2 13"/>'
            f'<path d="{heads}" stroke-width="5"/>'
        )

    def _head(self, i):
        """A small arrow head on the path, which says which way it is walked; none beneath a stop."""
        (ax, ay), (x, y) = (self._on(self._ring[j % SAMPLES]) for j in (i - 2, i))
        if any(math.dist((x, y), (s.x, s.y)) < 0.065 for s in self.spots):
            return ""
        turn, long = math.atan2(y - ay, x - ax), 14
        ends = [(1000 * x - long * math.cos(turn + a), 1000 * y - long * math.sin(turn + a)) for a in (-0.6, 0.6)]
        return f"M{ends[0][0]:.0f} {ends[0][1]:.0f}L{1000 * x:.0f} {1000 * y:.0f}L{ends[1][0]:.0f} {ends[1][1]:.0f}"

    def _leader(self, s):
        x, y = 1000 * s.at_x, 1000 * s.at_y
        return (
            f'<path d="M{1000 * s.x:.0f} {1000 * s.y:.0f}L{x:.0f} {y:.0f}" stroke-width="3"/>'
            f'<circle cx="{x:.0f}" cy="{y:.0f}" r="8" fill="currentColor"/>'
        )


def _both(right):
    """A closed outline from its right half."""
    return [*right, *((-x, y) for x, y in right[::-1])]


def _between(ends, share):
    return ends[0] + share * (ends[1] - ends[0])


def _rounded(corners, times=3):
    """A closed line with its corners cut off, again and again (G. Chaikin, 1974, recalled)."""
    for _ in range(times):
        closed = pairwise([*corners, corners[0]])
        corners = [(a + t * (b - a), c + t * (d - c)) for (a, c), (b, d) in closed for t in (0.25, 0.75)]
    return corners


def _even(corners, n):
    """The points that divide a closed line into equal lengths."""
    closed = [*corners, corners[0]]
    ends = [0.0, *accumulate(math.dist(a, b) for a, b in pairwise(closed))]
    points, side = [], 0
    for i in range(n):
        at = ends[-1] * i / n
        while ends[side + 1] < at:
            side += 1
        share = (at - ends[side]) / (ends[side + 1] - ends[side])
        points.append(tuple(_between(pair, share) for pair in zip(closed[side], closed[side + 1], strict=True)))
    return points


def _spread(ring, found, apart):
    """Places on a closed line of points, moved along it until all are so far apart; their order stays."""
    order = sorted(range(len(found)), key=lambda i: (found[i], i))
    at = [float(found[i]) for i in order]
    step = math.dist(ring[0], ring[1])
    apart = min(apart, 0.8 * step * len(ring) / max(len(found), 1))
    for _ in range(400 if len(at) > 1 else 0):
        for i in range(len(at)):
            following = (i + 1) % len(at)
            # Across a bend of the line two places are nearer than along it; what has passed another is behind it.
            here, there = (ring[round(at[j]) % len(ring)] for j in (i, following))
            ahead = at[following] - at[i] + len(ring) * (following == 0)
            push = max(apart - math.copysign(math.dist(here, there), ahead), 0.0) / step / 2
            at[i] -= push
            at[following] += push
    moved = dict(zip(order, at, strict=True))
    return [round(moved[i]) % len(ring) for i in range(len(found))]
