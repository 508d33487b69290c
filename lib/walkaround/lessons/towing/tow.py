"""A tow on the ramp: legs with the nose wheel held, the pose at each moment, and the nearest miss of all."""

from copy import copy
from typing import NamedTuple

import numpy as np

from walkaround import measures
from walkaround.physics.towing import Pose, nearest_miss, place, swept_by_wing, towed, turn_radius

TRAIL_FT, TRAIL_DEG = 2.0, 3.0  # between two outlines of the trail, at most
STOPS_FT = 8.0  # with the nose so far from the rear wall of the hangar


def as_told(feet, decimals=0):
    """A limit in feet as it counts: as it is told, so in metric units it is a round number of metres.

    >>> with measures.shown_in(measures.METRIC):
    ...     measures.words(as_told(30.0), "ft"), measures.words(as_told(3.0, 1), "ft", 3)
    ('9 m', '0.900 m')
    """
    return measures.entered(measures.given(feet, "ft", decimals), "ft")


class Leg(NamedTuple):
    """Feet that the nose wheel rolls, with the angle in degrees at which it is held, right being positive."""

    angle_deg: float
    distance: float


class Near(NamedTuple):
    """A nearest miss in words and places: feet, the part, what it is near to, feet into the tow, and both places."""

    feet: float
    part: str
    obstacle: str
    towed: float
    ours: tuple
    theirs: tuple


class Tow:
    """An aircraft (`Airframe`) that is towed over a ramp from a pose; legs are added one after the other."""

    def __init__(self, airframe, ramp, start, legs=()):
        self.airframe, self.ramp, self.start = airframe, ramp, Pose(*start)
        self._shapes = [obstacle.corners for obstacle in ramp.everything]
        self._names = [obstacle.name for obstacle in ramp.everything]
        self.legs, self._poses, self._ends = [], [self.start], [0.0]
        self._nears = []
        self._trail = [Pose(*([value] for value in self.start))]
        for leg in legs:
            self.add(*leg)

    @property
    def length(self):
        """Feet that the nose wheel has rolled."""
        return self._ends[-1]

    @property
    def end(self):
        """Pose at the end."""
        return self._poses[-1]

    @property
    def nearest(self):
        """The nearest `Near` of the tow so far; where the aircraft touches, the first."""
        here = self._nears or [self._near(self.start, Leg(0.0, 0.0), 0.0)]
        return min(here, key=lambda near: (near.feet, near.towed))

    @property
    def steepest_deg(self):
        """The greatest angle to which the nose wheel was turned."""
        return max((abs(leg.angle_deg) for leg in self.legs if leg.distance), default=0.0)

    @property
    def swept(self):
        """Square feet that the wing has swept, what it swept twice counted twice."""
        frame = self.airframe
        return sum(float(swept_by_wing(frame.span, frame.wheelbase, *leg)) for leg in self.legs)

    def add(self, angle_deg, distance):
        """Tow on for some feet with the nose wheel held; at the same angle as before, it is the same leg."""
        if self.legs and self.legs[-1].angle_deg == angle_deg:
            distance += self._drop()
        leg = Leg(angle_deg, distance)
        self._nears.append(self._near(self.end, leg, self.length))
        self._trail.append(self._part_of_trail(self.end, leg))
        self.legs.append(leg)
        self._poses.append(Pose(*map(float, towed(self.end, self.airframe.wheelbase, *leg))))
        self._ends.append(self.length + distance)

    def taken_to(self, to, angle_deg):
        """Return the tow with the nose wheel rolled `to` feet: on, held at an angle, or back along its own track.

        An aircraft that touches something goes no further.
        """
        other = copy(self)
        for name in ("legs", "_poses", "_ends", "_nears", "_trail"):
            setattr(other, name, list(getattr(self, name)))
        if to > other.length and other.nearest.feet:
            other.add(angle_deg, to - other.length)
            to = to if other.nearest.feet else other.nearest.towed
        other._take_back(to)
        return other

    def _take_back(self, to):
        while self.legs and self.length > to:
            angle = self.legs[-1].angle_deg
            self._drop()
            if self.length < to:
                self.add(angle, to - self.length)

    def _drop(self):
        """Forget the last leg; returns how long it was."""
        for kept in (self._ends, self._poses, self._nears, self._trail):
            kept.pop()
        return self.legs.pop().distance

    def pose(self, at):
        """Pose after the nose wheel has rolled some feet, and the angle it is held at there."""
        i = min(int(np.searchsorted(self._ends, at, side="left")), len(self.legs))
        if i == 0:
            return self.start, self.legs[0].angle_deg if self.legs else 0.0
        angle, distance = self.legs[i - 1]
        rolled = min(at - self._ends[i - 1], distance)
        return Pose(*map(float, towed(self._poses[i - 1], self.airframe.wheelbase, angle, rolled))), angle

    def trail(self):
        """Poses (a `Pose` of arrays) every few feet and degrees, ends of legs included."""
        return Pose(*map(np.concatenate, zip(*self._trail, strict=True)))

    def _part_of_trail(self, pose, leg):
        angle, distance = leg
        turned_deg = np.degrees(distance * abs(np.sin(np.radians(angle))) / self.airframe.wheelbase)
        steps = int(np.ceil(max(distance / TRAIL_FT, turned_deg / TRAIL_DEG)))
        return towed(pose, self.airframe.wheelbase, angle, np.linspace(0.0, distance, steps + 1)[1:])

    def radii(self, angle_deg):
        """Radii in feet of a turn: the middle between the main wheels, the outer wing tip, the end of the tail."""
        frame = self.airframe
        middle = abs(float(turn_radius(frame.wheelbase, angle_deg)))
        ahead, right = frame.tips[1]
        return middle, float(np.hypot(ahead, middle + right)), float(np.hypot(frame.tail, middle))

    def _near(self, pose, leg, before):
        frame = self.airframe
        miss = nearest_miss(frame.outline, self._shapes, pose, frame.wheelbase, *leg)
        at = towed(pose, frame.wheelbase, leg.angle_deg, miss.towed)
        ours = tuple(map(float, place(at, miss.ahead, miss.right)))
        name = self._names[miss.obstacle]
        return Near(miss.distance, frame.part(miss), name, before + miss.towed, ours, (miss.x, miss.y))


def outlines(airframe, poses):
    """Outlines of an aircraft on the plan, shape (poses, corners, 2), for a `Pose` of arrays."""
    poses = Pose(*(np.asarray(value)[..., None] for value in poses))
    return np.stack(place(poses, *np.array(airframe.outline).T), axis=-1)


def into_hangar(airframe, ramp, begin_ft, angle_deg):
    """A tow into the hangar: straight on for some feet, a right turn with the nose wheel held, and straight in.

    It turns until the aircraft points into the hangar, and stops with the nose 8 ft from the rear wall.
    """
    tow = Tow(airframe, ramp, (*ramp.waits_at, 0.0))
    if begin_ft > 0:
        tow.add(0.0, float(begin_ft))
    tow.add(float(angle_deg), float(np.radians(90) * airframe.wheelbase / np.sin(np.radians(angle_deg))))
    tow.add(0.0, max(ramp.inside_x[1] - STOPS_FT - airframe.nose - tow.end.x, 0.0))
    return tow
