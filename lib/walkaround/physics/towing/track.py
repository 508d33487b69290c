"""Where an aircraft goes when its nose wheel is towed along: exact arcs for a nose wheel held at an angle.

The main wheels roll and don't slip sideways, so the nose wheel's angle sets the centre of the turn, which lies on the
line through the main wheels (the "bicycle" of any textbook on vehicle dynamics). Lengths are in any one unit. A pose is
where the middle between the main wheels stands, and the heading, clockwise from y as on a compass.
"""

from typing import NamedTuple

import numpy as np

from walkaround import checks

STEEPEST_DEG = 90.0


class Pose(NamedTuple):
    """Where the middle between the main wheels stands, x to the right and y up the plan, and the heading in degrees.

    >>> Pose(10.0, 20.0, 90.0).heading_deg
    90.0
    """

    x: float
    y: float
    heading_deg: float


def turn_radius(wheelbase, angle_deg):
    """Radius of the turn at the middle between the main wheels (shapes broadcast); infinite for a straight tow.

    L/tan δ, negative with the centre on the left, for a nose wheel turned by δ from −90 to 90°, right being positive.
    Raises ValueError outside that, or for a wheelbase that is not above 0.

    >>> float(turn_radius(5.0, 45.0).round(3)), float(turn_radius(5.0, 0.0))
    (5.0, inf)
    """
    length, angle = _checked(wheelbase, angle_deg)
    with np.errstate(divide="ignore", over="ignore"):
        return length * np.cos(angle) / np.sin(angle)


def angle_for_turn_deg(wheelbase, radius):
    """Angle in degrees of the nose wheel at which the middle between the main wheels turns on a radius (broadcasts).

    The inverse of `turn_radius`, 90° for a radius of 0. Raises ValueError for a wheelbase that is not above 0, or a
    radius that is no number or infinite.

    >>> float(angle_for_turn_deg(5.0, -5.0).round(3))
    -45.0
    """
    length = checks.numbers("wheelbase", wheelbase, above=0)
    radius = checks.numbers("radius", radius)
    checks.same_shape(wheelbase=length, radius=radius)
    angle = np.degrees(np.arctan2(length, np.abs(radius)))
    return np.where(radius < 0, -angle, angle)


def radius_of(wheelbase, angle_deg, ahead, right):
    """Radius on which a point of the airframe turns: `ahead` of the main wheels' line and `right` of the middle.

    √(ahead² + (R − right)²) by Pythagoras (shapes broadcast); infinite for a straight tow. Raises ValueError as
    `turn_radius`, or for a place that is no number.

    >>> float(radius_of(5.0, 45.0, ahead=0.0, right=-18.0).round(3))  # the outer wing tip in a turn to the right
    23.0
    """
    radius = turn_radius(wheelbase, angle_deg)
    ahead, right = checks.numbers("ahead", ahead), checks.numbers("right", right)
    checks.same_shape(wheelbase_and_angle=radius, ahead=ahead, right=right)
    return np.hypot(ahead, radius - right)


def towed(pose, wheelbase, angle_deg, distance):
    """Pose after the nose wheel has rolled a distance with its angle held (shapes broadcast); negative is pushed back.

    The heading changes by s·sin δ/L, and the middle between the main wheels runs along an arc as long as s·cos δ.
    Raises ValueError as `turn_radius`, or for a distance that is no number.

    >>> [round(float(value), 2) for value in towed(Pose(0.0, 0.0, 0.0), 5.0, 45.0, 2.5 * np.pi * 2**0.5)]
    [5.0, 5.0, 90.0]
    """
    length, angle = _checked(wheelbase, angle_deg)
    distance = checks.numbers("distance", distance)
    x, y, heading = (checks.numbers(f"pose.{name}", value) for name, value in zip(Pose._fields, pose, strict=True))
    checks.same_shape(wheelbase_and_angle=length + angle, distance=distance, pose=x + y + heading)
    turned = distance * np.sin(angle) / length
    # sin(u)/u, and not a division by the angle turned, which is 0 on a straight line.
    chord = distance * np.cos(angle) * np.sinc(turned / 2 / np.pi)
    along = np.radians(heading) + turned / 2
    return Pose(x + chord * np.sin(along), y + chord * np.cos(along), heading + np.degrees(turned))


def place(pose, ahead, right):
    """Place (x, y) on the plan of a point of the airframe, `ahead` and `right` as for `radius_of` (shapes broadcast).

    Raises ValueError for a pose or a place that is no number.

    >>> [round(float(value), 2) for value in place(Pose(10.0, 20.0, 90.0), ahead=5.0, right=2.0)]
    [15.0, 18.0]
    """
    given = {f"pose.{name}": value for name, value in zip(Pose._fields, pose, strict=True)}
    given |= {"ahead": ahead, "right": right}
    given = {name: checks.numbers(name, value) for name, value in given.items()}
    checks.same_shape(**given)
    *start, heading, ahead, right = given.values()
    heading = np.radians(heading)
    forward, aside = (np.sin(heading), np.cos(heading)), (np.cos(heading), -np.sin(heading))
    return tuple(at + ahead * f + right * a for at, f, a in zip(start, forward, aside, strict=True))


def swept_by_wing(span, wheelbase, angle_deg, distance):
    """Area that a straight wing above the main wheels sweeps while the nose wheel rolls a distance (shapes broadcast).

    The span times the way of its middle (Guldin's rule); where the centre of the turn lies under the wing, its inner
    part runs backwards, and the area is (R² + b²/4) times the angle turned. What is swept twice counts twice. Raises
    ValueError as `towed`, or for a span that is not above 0.

    >>> float(swept_by_wing(30.0, 5.0, 0.0, 10.0))
    300.0
    """
    span = checks.numbers("span", span, above=0)
    length, angle = _checked(wheelbase, angle_deg)
    distance = checks.numbers("distance", distance)
    checks.same_shape(span=span, wheelbase_and_angle=length + angle, distance=distance)
    way, turned = np.abs(distance) * np.cos(angle), np.abs(distance * np.sin(angle)) / length
    radius = np.abs(turn_radius(length, angle_deg))
    inside = checks.at_least(radius, span / 2)
    return np.where(inside, span * way, (np.where(inside, 0.0, radius) ** 2 + span**2 / 4) * turned)


def _checked(wheelbase, angle_deg):
    length = checks.numbers("wheelbase", wheelbase, above=0)
    angle = checks.numbers("angle_deg", angle_deg, -STEEPEST_DEG, STEEPEST_DEG, "°")
    checks.same_shape(wheelbase=length, angle_deg=angle)
    return length, np.radians(angle)
