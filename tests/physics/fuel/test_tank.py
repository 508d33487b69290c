"""A tank as a solid: volumes and places against scipy's hull of the same corners, and water that is conserved."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.spatial import ConvexHull, HalfspaceIntersection
from scipy.spatial.transform import Rotation
from walkaround import aircraft
from walkaround.physics import fuel

TANK = fuel.Tank(62.0, 115.0, 13.8, dihedral_deg=1.7, floor_falls_aft_deg=1.0)
FLAT = fuel.Tank(60.0, 100.0, 15.0)
TILTS = [(0.0, 0.0), (3.0, -2.0), (-4.0, 5.0), (8.0, 1.7), (-1.0, 1.7), (-1.0, 9.0), (20.0, -25.0), (-1.0005, 1.7005)]
TILT = st.floats(-30.0, 30.0)
SIDE = st.floats(1.0, 300.0)
TANKS = st.builds(fuel.Tank, SIDE, SIDE, SIDE, st.floats(0.0, 15.0), st.floats(0.0, 15.0))
SHARE = st.floats(0.0, 1.0)


def turned(tank, nose_up, wing_low):
    """The way up, in the tank's own axes (aft, outboard, up), by scipy."""
    roll = Rotation.from_euler("x", wing_low - tank.dihedral_deg, degrees=True)
    pitch = Rotation.from_euler("y", nose_up + tank.floor_falls_aft_deg, degrees=True)
    # scipy turns right-handed axes, and these, with aft and outboard on the left wing, are left-handed.
    return roll.inv().apply(pitch.inv().apply([0.0, 0.0, 1.0])) * (1.0, -1.0, 1.0)


def corner_heights(tank, nose_up, wing_low):
    corners = np.array(list(product((0, tank.length_cm), (0, tank.width_cm), (0, tank.depth_cm))), dtype=float)
    return corners, corners @ turned(tank, nose_up, wing_low)


def by_the_hull(tank, level, nose_up, wing_low):
    """Litres below a level: the box's six faces and the level plane, intersected by scipy."""
    corners, heights = corner_heights(tank, nose_up, wing_low)
    up, lowest = turned(tank, nose_up, wing_low), heights.min()
    sides = np.array([tank.length_cm, tank.width_cm, tank.depth_cm])
    planes = [*np.hstack([-np.eye(3), np.zeros((3, 1))]), *np.hstack([np.eye(3), -sides[:, None]])]
    planes.append([*up, -(level + lowest)])
    # A point inside: from the lowest corner a little way towards the middle.
    start = corners[heights.argmin()]
    inside = start + (sides / 2 - start) * 0.9 * min(1.0, level / (heights.max() - lowest))
    return ConvexHull(HalfspaceIntersection(np.array(planes), inside).intersections).volume / 1000


@pytest.mark.parametrize(("nose_up", "wing_low"), TILTS)
@pytest.mark.parametrize("share", [0.03, 0.2, 0.5, 0.8, 0.97])
def test_volume_below_a_level_is_the_hulls(nose_up, wing_low, share):
    _, heights = corner_heights(TANK, nose_up, wing_low)
    level = share * np.ptp(heights)
    found = float(fuel.below_l(TANK, level, nose_up, wing_low))
    assert found == pytest.approx(by_the_hull(TANK, level, nose_up, wing_low), rel=1e-6, abs=1e-6)


@pytest.mark.parametrize(("nose_up", "wing_low"), TILTS)
def test_the_level_is_the_root_that_scipy_finds(nose_up, wing_low):
    _, heights = corner_heights(TANK, nose_up, wing_low)
    top = float(np.ptp(heights))
    for volume in (0.05, 1.0, 40.0, 97.0):
        root = brentq(lambda h: float(fuel.below_l(TANK, h, nose_up, wing_low)) - volume, 0.0, top, xtol=1e-12)  # noqa: B023
        assert float(fuel.level_cm(TANK, volume, nose_up, wing_low)) == pytest.approx(root, abs=1e-8)


@pytest.mark.parametrize(("nose_up", "wing_low"), TILTS)
def test_heights_are_those_of_a_turned_box(nose_up, wing_low):
    corners, heights = corner_heights(TANK, nose_up, wing_low)
    places = corners / (TANK.length_cm, TANK.width_cm, 1.0)
    found = fuel.height_cm(TANK, *places.T, nose_up, wing_low)
    assert found == pytest.approx(heights - heights.min(), abs=1e-12)


def test_a_wedge_by_hand():
    # Dihedral 2° and nothing else: 1 L lies as a wedge, ½ · 60 cm · s · (s tan 2°) cm³, so s = 30.897 cm, and it is
    # s sin 2° = 1.0783 cm deep where the floor is lowest.
    tank = fuel.Tank(60.0, 100.0, 15.0, dihedral_deg=2.0)
    s = np.sqrt(2 * 1000 / (60 * np.tan(np.radians(2))))
    assert float(fuel.level_cm(tank, 1.0)) == pytest.approx(s * np.sin(np.radians(2)))
    # A drain a fifth of the way out leaves the wedge below it: ½ · 60 · 20² tan 2° = 419.05 cm³.
    assert float(fuel.drain_gives_l(tank, 1.0, 0.5, 0.2)) == pytest.approx(
        1.0 - 0.5 * 60 * 400 * np.tan(np.radians(2)) / 1000
    )


def test_water_that_just_reaches_a_drain_does_not_run_from_it(beside):
    for aft, out, nose_up, wing_low in [(0.9, 0.2, 0.0, 0.0), (0.5, 0.5, 3.0, -2.0), (0.05, 0.97, -4.0, 5.0)]:
        reaches = fuel.below_l(TANK, fuel.height_cm(TANK, aft, out, 0.0, nose_up, wing_low), nose_up, wing_low)
        for water in beside(float(reaches)):
            assert float(fuel.drain_gives_l(TANK, water, aft, out, nose_up, wing_low)) == 0.0
        assert float(fuel.drain_gives_l(TANK, reaches + 1e-6, aft, out, nose_up, wing_low)) == pytest.approx(1e-6)


def test_a_full_and_an_empty_tank():
    assert float(fuel.level_cm(FLAT, 0.0)) == 0.0
    assert float(fuel.level_cm(FLAT, 90.0)) == pytest.approx(15.0)
    assert float(fuel.below_l(FLAT, 99.0)) == 90.0
    assert float(fuel.below_l(TANK, 0.0, 3.0, 2.0)) == 0.0


@given(TANKS, SHARE, TILT, TILT, TILT, TILT)
def test_water_is_conserved_when_the_tank_tilts(tank, share, nose_up, wing_low, then_up, then_low):
    volume = share * fuel.capacity_l(tank)
    level = fuel.level_cm(tank, volume, nose_up, wing_low)
    assert float(fuel.below_l(tank, level, nose_up, wing_low)) == pytest.approx(
        volume, rel=1e-6, abs=1e-9 * fuel.capacity_l(tank)
    )
    there = fuel.below_l(tank, fuel.level_cm(tank, volume, then_up, then_low), then_up, then_low)
    assert float(there) == pytest.approx(volume, rel=1e-6, abs=1e-9 * fuel.capacity_l(tank))


@given(TANKS, SHARE, SHARE, SHARE, TILT, TILT)
def test_what_a_drain_gives_and_what_stays_make_the_whole(tank, share, aft, out, nose_up, wing_low):
    water = share * fuel.capacity_l(tank)
    gives = float(fuel.drain_gives_l(tank, water, aft, out, nose_up, wing_low))
    assert 0.0 <= gives <= water
    floor = fuel.height_cm(tank, aft, out, 0.0, nose_up, wing_low)
    # Once it has given that, the water is down to the drain, or the drain was dry from the first.
    level = float(fuel.level_cm(tank, water - gives, nose_up, wing_low))
    assert level <= floor + 1e-4 * (1.0 + floor)


@given(TANKS, SHARE, SHARE, SHARE, TILT, TILT)
def test_the_lowest_drain_gives_most(tank, share, aft, out, nose_up, wing_low):
    water = share * fuel.capacity_l(tank)
    afts, outs = np.array([aft, 0.0, 0.0, 1.0, 1.0]), np.array([out, 0.0, 1.0, 0.0, 1.0])
    gives = fuel.drain_gives_l(tank, water, afts, outs, nose_up, wing_low)
    lowest = np.argmin(fuel.height_cm(tank, afts, outs, 0.0, nose_up, wing_low))
    assert gives[lowest] == pytest.approx(gives.max())
    assert gives.max() == pytest.approx(water, rel=1e-6)  # the lowest corner's drain leaves nothing


@given(TANKS, SHARE, SHARE, SHARE, TILT, TILT)
def test_the_stick_gives_back_what_is_in_the_tank(tank, share, aft, out, nose_up, wing_low):
    volume = share * fuel.capacity_l(tank)
    depth = float(fuel.depth_on_stick_cm(tank, volume, aft, out, nose_up, wing_low))
    assert 0.0 <= depth <= tank.depth_cm
    if 0.0 < depth < tank.depth_cm:
        back = float(fuel.from_stick_l(tank, depth, aft, out, nose_up, wing_low))
        assert back == pytest.approx(volume, rel=1e-5, abs=1e-7 * fuel.capacity_l(tank))


def test_everything_broadcasts():
    tilts, waters = np.array([[0.0], [3.0]]), np.array([0.1, 0.5, 2.0])
    levels = fuel.level_cm(TANK, waters, tilts, -1.0)
    assert levels.shape == (2, 3)
    one = [[float(fuel.level_cm(TANK, w, t, -1.0)) for w in waters] for t in (0.0, 3.0)]
    assert levels == pytest.approx(np.array(one), rel=1e-12)
    assert fuel.drain_gives_l(TANK, 0.5, [0.1, 0.9], 0.1, tilts).shape == (2, 2)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: fuel.Tank(0.0, 1.0, 1.0), "length_cm is 0 cm; allowed: more than 0 cm"),
        (lambda: fuel.Tank(1.0, 1.0, 1.0, dihedral_deg=16.0), "dihedral_deg is 16 °; allowed: 0 to 15 °"),
        (lambda: fuel.level_cm(TANK, [1.0, 99.0]), r"volume_l\[1\] is 99 L"),
        (lambda: fuel.level_cm(TANK, np.nan), "volume_l is not a number"),
        (lambda: fuel.level_cm(TANK, 1.0, nose_up_deg=31.0), "nose_up_deg is 31 °; allowed: -30 to 30 °"),
        (lambda: fuel.below_l(TANK, -1.0), "level_cm is -1 cm"),
        (lambda: fuel.below_l(TANK, [1.0, 2.0], [1.0, 2.0, 3.0]), "level_cm has shape"),
        (lambda: fuel.level_cm(TANK, [1.0, 2.0], [1.0, 2.0, 3.0]), "volume_l has shape"),
        (lambda: fuel.height_cm(TANK, 1.1, 0.0), "aft is 1.1; allowed: 0 to 1"),
        (lambda: fuel.height_cm(TANK, 0.0, 0.0, 14.0), "up_cm is 14 cm; allowed: 0 to 13.8 cm"),
        (lambda: fuel.drain_gives_l(TANK, [1.0, 2.0], [0.1, 0.2, 0.3], 0.0), "do not fit together"),
        (lambda: fuel.depth_on_stick_cm(TANK, [1.0, 2.0], [0.1, 0.2, 0.3], 0.0), "do not fit together: volume_l"),
        (lambda: fuel.from_stick_l(TANK, 14.0, 0.5, 0.5), "depth_cm is 14 cm; allowed: 0 to 13.8 cm"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_demo_aircrafts_dipsticks_are_those_of_their_tanks(name):
    craft = aircraft.demo(name)
    litres = 3.785411784 if craft.units.volume == "US gal" else 1.0
    for tank in craft.fuel_system.tanks:
        stick = tank.dipstick
        read = fuel.from_stick_l(tank.solid, stick.marks_cm, stick.aft, stick.out) / litres
        # The marks are written to a millimetre: half of one over the whole floor.
        half_mm = 0.05 * tank.length_cm * tank.width_cm / 1000 / litres
        assert read == pytest.approx(np.array(stick.quantities), abs=half_mm)
