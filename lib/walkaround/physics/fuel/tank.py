"""A tank as a solid: where water and fuel lie in it as it stands, what each drain gives, what the dipstick shows.

The tank is a box. Its floor rises outboard with the wing's dihedral and falls towards the rear; the ground tilts it
further. Places in it are shares: `aft` of its length (0 at the front, 1 at the rear) and `out` of its width (0 inboard,
1 outboard), and `up_cm` above its floor. Water lies below fuel, and the surface of either is level.
"""

from dataclasses import dataclass
from itertools import product

import numpy as np

from walkaround import checks

STEEPEST_DEG = 30.0
# A side that rises by less than this share of the longest rise counts as level: in the sum of cubes below, rounding
# would cost more than that does.
_LEVEL = 1e-4
_PLACES = np.array(list(product((0.0, 1.0), repeat=3)))  # the box's corners, the lowest first and the highest last
_SIGNS = (-1.0) ** _PLACES.sum(axis=1)


@dataclass(frozen=True)
class Tank:
    """A box: length front to rear, width inboard to outboard and depth in cm; how its floor lies, in degrees.

    `dihedral_deg` is how much the floor rises outboard, `floor_falls_aft_deg` how much it falls towards the rear, both
    with the aircraft level. Raises ValueError for a side that is not above 0 or an angle outside 0 to 15°.

    >>> Tank(length_cm=60.0, width_cm=100.0, depth_cm=15.0, dihedral_deg=2.0).dihedral_deg
    2.0
    """

    length_cm: float
    width_cm: float
    depth_cm: float
    dihedral_deg: float = 0.0
    floor_falls_aft_deg: float = 0.0

    def __post_init__(self):
        for name in ("length_cm", "width_cm", "depth_cm"):
            checks.number(name, getattr(self, name), above=0, unit="cm")
        for name in ("dihedral_deg", "floor_falls_aft_deg"):
            checks.number(name, getattr(self, name), 0, 15, "°")


def capacity_l(tank):
    """Volume of the tank in litres.

    >>> capacity_l(Tank(60.0, 100.0, 15.0))
    90.0
    """
    return tank.length_cm * tank.width_cm * tank.depth_cm / 1000.0


def height_cm(tank, aft, out, up_cm=0.0, nose_up_deg=0.0, wing_low_deg=0.0):
    """Height in cm of places in the tank above its lowest point, as the aircraft stands (all shapes broadcast).

    `wing_low_deg` is how far the wing with this tank is down. Tilts about one axis add up: the box is turned by
    wing_low − dihedral about its length and then by nose_up + floor_falls_aft about a level line across. Raises
    ValueError for a share outside 0 to 1, a height outside the tank, or a tilt of more than 30°.

    >>> tank = Tank(60.0, 100.0, 15.0, dihedral_deg=2.0)
    >>> [round(float(height), 2) for height in height_cm(tank, aft=0.5, out=[0.0, 1.0])]
    [0.0, 3.49]
    """
    aft, out = checks.numbers("aft", aft, 0, 1), checks.numbers("out", out, 0, 1)
    up = checks.numbers("up_cm", up_cm, 0, tank.depth_cm, "cm")
    rises = _rises(tank, nose_up_deg, wing_low_deg)
    checks.same_shape(aft=aft, out=out, up_cm=up, tilt=rises[0])
    lowest = sum(np.minimum(rise, 0.0) for rise in rises)
    return aft * rises[0] + out * rises[1] + up / tank.depth_cm * rises[2] - lowest


def below_l(tank, level_cm, nose_up_deg=0.0, wing_low_deg=0.0):
    """Volume in litres of the part of the tank that is below a level, in cm above its lowest point (shapes broadcast).

    The volume of a box cut by a plane: the sum over its corners of ± the cube of the level's height above each, over
    six times the product of the sides' rises; all of the tank for a level above its highest point. Raises ValueError
    for a level below 0, and as `height_cm` does.

    >>> tank = Tank(60.0, 100.0, 15.0, dihedral_deg=2.0)
    >>> round(float(below_l(tank, 1.0)), 2)  # a wedge: 1/2 · 1 cm · 1 cm/sin 2° · 60 cm, and cos 2°
    0.86
    """
    level = checks.numbers("level_cm", level_cm, low=0, unit="cm")
    rises = _rises(tank, nose_up_deg, wing_low_deg)
    checks.same_shape(level_cm=level, tilt=rises[0])
    box = _Box(rises)
    level = np.clip(level - box.half_left_out, 0.0, box.top)
    # The box looks the same from its highest corner, and below its middle the cubes are small.
    over = level > box.top / 2
    share = box.share_below(np.where(over, box.top - level, level))
    return capacity_l(tank) * np.where(over, 1.0 - share, share)


def level_cm(tank, volume_l, nose_up_deg=0.0, wing_low_deg=0.0):
    """Height in cm above the tank's lowest point of the surface of what fills it from below (shapes broadcast).

    `volume_l` may be water, whose surface is where fuel begins, or water and fuel together. The inverse of `below_l`,
    found by halving. Raises ValueError for a volume below 0 or above the tank's, and as `height_cm` does.

    >>> round(float(level_cm(Tank(60.0, 100.0, 15.0), 30.0)), 6)
    5.0
    """
    volume = checks.numbers("volume_l", volume_l, 0, capacity_l(tank), "L")
    rises = _rises(tank, nose_up_deg, wing_low_deg)
    checks.same_shape(volume_l=volume, tilt=rises[0])
    box, share = _Box(rises), volume / capacity_l(tank)
    over = share > 0.5
    wanted = np.where(over, 1.0 - share, share)
    low, high = 0.0 * (wanted + box.top), box.top / 2 + 0.0 * wanted
    for _ in range(50):
        middle = (low + high) / 2
        under = box.share_below(middle) < wanted
        low, high = np.where(under, middle, low), np.where(under, high, middle)
    return (np.where(over, box.top - high, high) + box.half_left_out) * (share > 0)


def drain_gives_l(tank, water_l, aft, out, nose_up_deg=0.0, wing_low_deg=0.0):
    """Litres of water that run from a drain in the floor before fuel comes (all shapes broadcast).

    `water_l` lies still in the tank, `aft` and `out` say where the drain is. It gives the water that lies higher than
    itself; 0 means that the first drop is fuel, whatever water there is. What is lower stays in the tank. Raises
    ValueError as `level_cm` and `height_cm` do.

    >>> tank = Tank(60.0, 100.0, 15.0, dihedral_deg=2.0)
    >>> [round(float(water), 2) for water in drain_gives_l(tank, 1.0, aft=0.9, out=[0.0, 0.2, 0.9])]
    [1.0, 0.58, 0.0]
    """
    water = checks.numbers("water_l", water_l, 0, capacity_l(tank), "L")
    drain = height_cm(tank, aft, out, 0.0, nose_up_deg, wing_low_deg)
    checks.same_shape(water_l=water, drain=drain)
    stays = below_l(tank, drain, nose_up_deg, wing_low_deg)
    return np.where(checks.at_most(water, stays), 0.0, water - stays)


def depth_on_stick_cm(tank, volume_l, aft, out, nose_up_deg=0.0, wing_low_deg=0.0):
    """How far up a dipstick is wet, in cm, that stands square on the floor at a place (all shapes broadcast).

    `volume_l` is all that is in the tank. 0 where the floor at that place is dry. Raises ValueError as `level_cm` and
    `height_cm` do.

    >>> tank = Tank(60.0, 100.0, 15.0)
    >>> [round(float(depth), 2) for depth in depth_on_stick_cm(tank, 30.0, 0.5, 0.9, wing_low_deg=[0.0, 2.0])]
    [5.0, 6.4]
    """
    level = level_cm(tank, volume_l, nose_up_deg, wing_low_deg)
    floor = height_cm(tank, aft, out, 0.0, nose_up_deg, wing_low_deg)
    checks.same_shape(volume_l=level, place=floor)
    upright = _rises(tank, nose_up_deg, wing_low_deg)[2] / tank.depth_cm
    return np.clip((level - floor) / upright, 0.0, tank.depth_cm)


def from_stick_l(tank, depth_cm, aft, out, nose_up_deg=0.0, wing_low_deg=0.0):
    """Litres in the tank from how far up a dipstick is wet: the inverse of `depth_on_stick_cm` (shapes broadcast).

    Raises ValueError for a depth outside 0 to the tank's, and as `height_cm` does.

    >>> round(float(from_stick_l(Tank(60.0, 100.0, 15.0), 5.0, 0.5, 0.9)), 6)
    30.0
    """
    depth_cm = checks.numbers("depth_cm", depth_cm, 0, tank.depth_cm, "cm")
    surface = height_cm(tank, aft, out, depth_cm, nose_up_deg, wing_low_deg)
    return below_l(tank, surface, nose_up_deg, wing_low_deg)


def _rises(tank, nose_up_deg, wing_low_deg):
    """How much the tank's length, width and depth rise, in cm, as the aircraft stands."""
    pitch = checks.numbers("nose_up_deg", nose_up_deg, -STEEPEST_DEG, STEEPEST_DEG, "°")
    roll = checks.numbers("wing_low_deg", wing_low_deg, -STEEPEST_DEG, STEEPEST_DEG, "°")
    checks.same_shape(nose_up_deg=pitch, wing_low_deg=roll)
    pitch, roll = np.radians(pitch + tank.floor_falls_aft_deg), np.radians(roll - tank.dihedral_deg)
    return (
        -tank.length_cm * np.sin(pitch) + 0.0 * roll,
        -tank.width_cm * np.cos(pitch) * np.sin(roll),
        tank.depth_cm * np.cos(pitch) * np.cos(roll),
    )


class _Box:
    """A box as it stands: heights of its corners, and how they add up to the share of it below a level.

    The share is the sum over the corners of ± the cube of the level's height above each, over six times the product of
    the sides' rises. A side that is nearly level is left out, and half of its rise taken off the level: without it the
    cubes are squares, without two they are the heights.
    """

    def __init__(self, rises):
        sides = np.sort(np.abs(np.stack(rises, axis=-1)), axis=-1)
        counts = sides >= _LEVEL * sides[..., -1:]
        self.half_left_out = np.where(counts, 0.0, sides).sum(axis=-1) / 2
        sides = np.where(counts, sides, 0.0)
        self._corners = (sides[..., None, :] * _PLACES).sum(axis=-1)
        self._signs = _SIGNS * ~(_PLACES.astype(bool) & ~counts[..., None, :]).any(axis=-1)
        self._power = counts.sum(axis=-1)[..., None]
        self._scale = np.array([1.0, 1.0, 2.0, 6.0])[self._power[..., 0]] * np.where(counts, sides, 1.0).prod(axis=-1)
        self.top = self._corners[..., -1]

    def share_below(self, level):
        """Share of the box below a level of at most half its height."""
        above = np.maximum(level[..., None] - self._corners, 0.0)
        return (above**self._power * self._signs).sum(axis=-1) / self._scale
