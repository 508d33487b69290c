"""How near a towed aircraft comes to what stands about, and where: exact over a whole arc, nothing is sampled.

Seen from above, two outlines are nearest where a corner of one meets a side or a corner of the other. A corner of the
aircraft runs along an arc past the sides of an obstacle; seen from the aircraft, a corner of the obstacle runs along an
arc the other way. So two kinds of distance, each of an arc from a straight side, hold the nearest of all.
"""

from typing import NamedTuple

import numpy as np

from walkaround import checks
from walkaround.physics.towing.track import place, towed, turn_radius

TOUCHES = 1e-8  # of the lengths there are: nearer than this is a rounding error
STRAIGHT = 4e-8  # rad: an arc that turns less is taken for its chord, a few billionths of its length away


class Miss(NamedTuple):
    """The nearest that an aircraft comes to an obstacle.

    `distance` between them, 0 where they touch; `ahead` and `right`, the place on the aircraft (see `radius_of`); `x`
    and `y`, the place on the obstacle; `obstacle`, its number from 0; `corner`, whether a corner of the aircraft is
    nearest, and `side`, the number of that corner or of the side that begins there; `towed`, how far the nose wheel has
    rolled by then.

    >>> Miss(2.0, 1.0, 1.0, 3.0, 5.0, 0, True, 1, 4.0).distance
    2.0
    """

    distance: float
    ahead: float
    right: float
    x: float
    y: float
    obstacle: int
    corner: bool
    side: int
    towed: float


def nearest_miss(outline, obstacles, pose, wheelbase, angle_deg, distance):
    """The nearest `Miss` while the nose wheel rolls a distance with its angle held; where several touch, the first.

    Parameters: `outline`, corners of the aircraft as (ahead, right), shape (n, 2); `obstacles`, a list of polygons with
    corners (x, y), shape (m, 2) each; `pose`, where it starts, clear of all of them; the others as for `towed`, single
    numbers. Raises ValueError as `towed`, and without a polygon of two corners or more.

    >>> square, pump = [(1, -1), (1, 1), (-1, 1), (-1, -1)], [(3, 5), (4, 5), (4, 6), (3, 6)]
    >>> from walkaround.physics.towing import Pose
    >>> float(nearest_miss(square, [pump], Pose(0.0, 0.0, 0.0), 1.0, 0.0, 10.0).distance)
    2.0
    """
    outline = _polygon("outline", outline)
    if not len(obstacles):
        raise ValueError("obstacles is empty; allowed: one polygon or more")
    shapes = [_polygon(f"obstacles[{i}]", shape) for i, shape in enumerate(obstacles)]
    owner = np.repeat(np.arange(len(shapes)), [len(shape) for shape in shapes])
    corners, ends = np.concatenate(shapes), np.concatenate([np.roll(shape, -1, axis=0) for shape in shapes])
    start, after = towed(pose, wheelbase, 0.0, 0.0), towed(pose, wheelbase, angle_deg, distance)
    turned = np.radians(after.heading_deg - start.heading_deg)
    radius = turn_radius(wheelbase, angle_deg)
    curved = abs(turned) > STRAIGHT
    # Past the obstacles' sides: the aircraft's corners. A turn to the right is clockwise, against angles as counted.
    centre = np.array(place(start, 0.0, radius)) if curved else None
    here = np.column_stack(place(start, *outline.T))
    step = np.subtract(after[:2], start[:2])
    ours = _nearest(here, corners, ends, *((centre, -turned) if curved else (None, step)))
    # Past the aircraft's sides: the obstacles' corners, in the aircraft's frame with `right` first and `ahead` second.
    seen = _from_aircraft(start, corners)
    around = (np.array([radius, 0.0]), turned) if curved else (None, -_from_aircraft(start, start[:2] + step))
    sides = outline[:, ::-1]
    theirs = _nearest(seen, sides, np.roll(sides, -1, axis=0), *around)
    size = TOUCHES * max(float(np.abs(lengths).max()) for lengths in (outline, corners - start[:2]))

    def first(found):
        """What touches comes before what does not, the earlier before the later; then the nearer."""
        return (0, found[1]) if found[0] <= size else (1, found[0])

    corner = first(ours) <= first(theirs)
    gap, share, i, j, spot = ours if corner else theirs
    if corner:
        (ahead, right), (x, y), obstacle, side = outline[i], spot, owner[j], i
    else:
        (right, ahead), (x, y), obstacle, side = spot, corners[i], owner[i], j
    gap, rolled = 0.0 if gap <= size else float(gap), float(share * distance)
    return Miss(gap, float(ahead), float(right), float(x), float(y), int(obstacle), bool(corner), int(side), rolled)


def _from_aircraft(pose, points):
    """Places as seen from the aircraft: how far right of the middle between the main wheels, and how far ahead."""
    heading = np.radians(pose.heading_deg)
    dx, dy = np.moveaxis(np.asarray(points) - np.array(pose[:2]), -1, 0)
    return np.stack([dx * np.cos(heading) - dy * np.sin(heading), dx * np.sin(heading) + dy * np.cos(heading)], axis=-1)


def _polygon(name, corners):
    corners = checks.numbers(name, corners)
    if corners.ndim != 2 or corners.shape[1] != 2 or len(corners) < 2:
        raise ValueError(f"{name} has shape {corners.shape}; allowed: (n, 2), two corners or more")
    return corners


def _nearest(points, begins, ends, centre, move):
    """The nearest that moving points come to fixed sides: (distance, share of the way, point, side, place on the side).

    Around a `centre` the points turn by `move` radians, otherwise they go straight by the vector `move`. Each share of
    the way at which the distance of a point from a side can be least is tried; there are few, and they are exact.
    """
    p, a, b = points[:, None, :], begins[None, :, :], ends[None, :, :]
    along = b - a
    if centre is None:
        shares = _shares_of_line(p, a, b, move)
        x, y = (p[..., n, None] + shares * move[n] for n in (0, 1))
    else:
        shares, (x, y) = _shares_of_arc(p - centre, a - centre, b - centre, move)
        x, y = x + centre[0], y + centre[1]
    # Coordinates apart: NumPy is slow where the last axis is short.
    (ax, ay), (bx, by) = ((z[..., 0, None], z[..., 1, None]) for z in (a, along))
    long = np.maximum(bx**2 + by**2, 1e-300)
    on = np.clip(((x - ax) * bx + (y - ay) * by) / long, 0.0, 1.0)
    gap = np.hypot(x - ax - on * bx, y - ay - on * by)
    size = TOUCHES * max(float(np.abs(points).max()), float(np.abs(begins).max()))
    touching = gap <= size
    # Of all that touch the first counts.
    best = np.argmin(np.where(touching, shares, np.inf)) if touching.any() else np.argmin(gap)
    i, j, k = np.unravel_index(best, gap.shape)
    return gap[i, j, k], shares[i, j, k], int(i), int(j), begins[j] + on[i, j, k] * (ends[j] - begins[j])


def _shares_of_line(p, a, b, move):
    """Shares of a straight way, 0 to 1: both ends, beside each end of the side, and where the way crosses the side."""
    long = max(float(move @ move), 1e-300)
    beside = [((x - p) * move).sum(-1) / long for x in (a, b)]
    along = b - a
    across = move[0] * along[..., 1] - move[1] * along[..., 0]
    offset = a - p
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        crosses = (offset[..., 0] * along[..., 1] - offset[..., 1] * along[..., 0]) / across
    every = np.stack(np.broadcast_arrays(0.0, 1.0, *beside, crosses), axis=-1)
    return np.clip(np.nan_to_num(every, nan=0.0, posinf=0.0, neginf=0.0), 0.0, 1.0)


def _shares_of_arc(p, a, b, turned):
    """Shares of an arc about the origin, 0 to 1, and the places there: its ends and where the distance can be least."""
    radius, first = np.hypot(p[..., 0], p[..., 1]), np.arctan2(p[..., 1], p[..., 0])
    along = b - a
    long = np.maximum(np.hypot(along[..., 0], along[..., 1]), 1e-300)
    # The line of the side: its distance from the origin, and the direction in which that lies.
    normal = np.arctan2(-along[..., 0], along[..., 1])
    away = (a[..., 0] * along[..., 1] - a[..., 1] * along[..., 0]) / long
    with np.errstate(divide="ignore", invalid="ignore"):
        half = np.nan_to_num(np.arccos(np.clip(away / radius, -1.0, 1.0)))
    angles = [np.arctan2(x[..., 1], x[..., 0]) for x in (a, b)] + [normal, normal + np.pi, normal - half, normal + half]
    shares = [np.mod((angle - first) * np.sign(turned), 2 * np.pi) / abs(turned) for angle in angles]
    every = np.stack(np.broadcast_arrays(0.0, 1.0, *shares), axis=-1)
    every = np.where(every <= 1.0, every, 0.0)
    now = first[..., None] + every * turned
    return every, (radius[..., None] * np.cos(now), radius[..., None] * np.sin(now))
