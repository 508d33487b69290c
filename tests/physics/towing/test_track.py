"""Where a towed aircraft goes: against scipy's integration, in closed circles, in units of its own, and bad input."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pint import UnitRegistry
from scipy.integrate import solve_ivp
from walkaround.physics.towing import Pose, angle_for_turn_deg, place, radius_of, swept_by_wing, towed, turn_radius

ANGLES = st.floats(-80, 80).filter(lambda a: abs(a) > 0.5)
LENGTHS = st.floats(1, 30)
START = Pose(12.0, -7.0, 33.0)


def integrated(pose, wheelbase, angle_deg, distance):
    """The same by integrating how the pose changes with each bit of way of the nose wheel."""
    angle = np.radians(angle_deg)

    def change(_s, now):
        heading = now[2]
        along = np.cos(angle)
        return along * np.sin(heading), along * np.cos(heading), np.sin(angle) / wheelbase

    sign = np.sign(distance)
    end = solve_ivp(
        lambda s, now: [sign * c for c in change(s, now)],
        (0, abs(distance)),
        [pose.x, pose.y, np.radians(pose.heading_deg)],
        rtol=1e-10,
        atol=1e-10,
    ).y[:, -1]
    return Pose(end[0], end[1], np.degrees(end[2]))


@settings(max_examples=25, deadline=None)
@given(st.floats(-85, 85), LENGTHS, st.floats(-60, 60).filter(lambda s: abs(s) > 0.01))
def test_the_track_is_what_scipy_integrates(angle, wheelbase, distance):
    assert towed(START, wheelbase, angle, distance) == pytest.approx(
        integrated(START, wheelbase, angle, distance), abs=1e-6
    )


def test_a_steering_that_changes_all_the_way_is_what_scipy_integrates():
    def angle_deg(s):
        return 30 * np.sin(s / 5)

    def change(s, now):
        angle = np.radians(angle_deg(s))
        return np.cos(angle) * np.sin(now[2]), np.cos(angle) * np.cos(now[2]), np.sin(angle) / 5.4

    end = solve_ivp(change, (0, 40), [0, 0, 0], rtol=1e-10, atol=1e-10).y[:, -1]
    pose, step = Pose(0.0, 0.0, 0.0), 0.01
    for s in np.arange(step / 2, 40, step):
        pose = towed(pose, 5.4, angle_deg(s), step)
    assert pose[:2] == pytest.approx(end[:2], abs=1e-4)
    assert pose.heading_deg == pytest.approx(np.degrees(end[2]), abs=1e-3)


@given(ANGLES, LENGTHS)
def test_a_towed_circle_closes(angle, wheelbase):
    round_once = 2 * np.pi * wheelbase / np.sin(np.radians(abs(angle)))
    end = towed(START, wheelbase, angle, round_once)
    # The nose wheel's circle has the radius L/sin δ.
    assert end[:2] == pytest.approx(START[:2], abs=1e-7 * round_once)
    assert end.heading_deg - START.heading_deg == pytest.approx(np.copysign(360, angle))


@given(ANGLES, LENGTHS, st.floats(-40, 40), st.floats(-40, 40))
def test_each_point_keeps_its_distance_from_the_centre(angle, wheelbase, ahead, right):
    centre = np.array(place(START, 0.0, turn_radius(wheelbase, angle)))
    poses = towed(START, wheelbase, angle, np.linspace(-20, 20, 9))
    ways = np.hypot(*(np.array(place(poses, ahead, right)) - centre[:, None]))
    assert ways == pytest.approx(float(radius_of(wheelbase, angle, ahead, right)), rel=1e-6, abs=1e-6)


@given(st.floats(-90, 90), LENGTHS, st.floats(-50, 50), st.floats(-50, 50))
def test_two_tows_on_end_are_one_and_back_again_is_none(angle, wheelbase, one, other):
    both = towed(towed(START, wheelbase, angle, one), wheelbase, angle, other)
    assert both == pytest.approx(towed(START, wheelbase, angle, one + other), abs=1e-6)
    assert towed(both, wheelbase, angle, -one - other) == pytest.approx(START, abs=1e-6)


@given(st.floats(-90, 90), LENGTHS, st.floats(-50, 50))
def test_right_and_left_mirror_each_other(angle, wheelbase, distance):
    north = Pose(0.0, 0.0, 0.0)
    one, other = towed(north, wheelbase, angle, distance), towed(north, wheelbase, -angle, distance)
    assert (one.x, one.y, one.heading_deg) == pytest.approx((-other.x, other.y, -other.heading_deg), abs=1e-9)


def test_a_straight_tow_and_a_turn_on_the_spot():
    assert towed(Pose(1.0, 2.0, 90.0), 5.0, 0.0, 7.0) == pytest.approx((8.0, 2.0, 90.0))
    on_the_spot = towed(Pose(1.0, 2.0, 0.0), 5.0, 90.0, 5.0 * np.pi)
    assert on_the_spot == pytest.approx((1.0, 2.0, 180.0), abs=1e-9)
    # A hair's breadth off straight is straight.
    assert towed(Pose(0.0, 0.0, 0.0), 5.0, 1e-9, 40.0)[:2] == pytest.approx((0.0, 40.0), abs=1e-6)


@given(st.floats(-500, 500).filter(lambda r: abs(r) > 0.01), LENGTHS)
def test_the_angle_for_a_radius_gives_that_radius(radius, wheelbase):
    assert float(turn_radius(wheelbase, angle_for_turn_deg(wheelbase, radius))) == pytest.approx(radius, rel=1e-9)


def sampled_sweep(span, wheelbase, angle, distance, cells=2000):
    """Area swept by bits of the wing, each as wide as the way that it makes across itself."""
    y = (np.arange(cells) + 0.5) / cells * span - span / 2
    turned, way = (abs(distance) * f for f in (np.sin(np.radians(angle)) / wheelbase, np.cos(np.radians(angle))))
    return float(np.abs(way - y * turned).mean() * span)


@given(st.floats(-85, 85), LENGTHS, st.floats(-50, 50), LENGTHS)
def test_what_the_wing_sweeps_is_the_sum_of_its_bits(angle, wheelbase, distance, span):
    expected = sampled_sweep(span, wheelbase, angle, distance)
    assert float(swept_by_wing(span, wheelbase, angle, distance)) == pytest.approx(expected, rel=1e-4, abs=1e-6)


def test_it_broadcasts_as_a_loop_does():
    angles, distances = np.array([[-30.0], [0.0], [45.0]]), np.array([0.0, 3.0, -8.0])
    whole, areas = towed(START, 5.0, angles, distances), swept_by_wing(30.0, 5.0, angles, distances)
    for i, angle in enumerate(angles[:, 0]):
        for j, distance in enumerate(distances):
            one = towed(START, 5.0, angle, distance)
            assert [float(np.broadcast_to(v, (3, 3))[i, j]) for v in whole] == pytest.approx([float(v) for v in one])
            assert areas[i, j] == pytest.approx(float(swept_by_wing(30.0, 5.0, angle, distance)))


def test_in_units_of_its_own():
    unit = UnitRegistry()
    inches, feet = 65.0 * unit.inch, (65.0 * unit.inch).to("foot").magnitude
    by_inch = (float(turn_radius(inches.magnitude, 30.0)) * unit.inch).to("foot").magnitude
    assert float(turn_radius(feet, 30.0)) == pytest.approx(by_inch, rel=1e-12)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: turn_radius(0.0, 30.0), "wheelbase is 0; allowed: more than 0"),
        (lambda: turn_radius(5.0, [30.0, 95.0]), r"angle_deg\[1\] is 95 °; allowed: -90 to 90 °"),
        (lambda: towed(START, 5.0, 30.0, np.nan), "distance is not a number"),
        (lambda: towed(Pose(np.inf, 0.0, 0.0), 5.0, 30.0, 1.0), r"pose.x is inf"),
        (lambda: radius_of([5.0, 6.0], 30.0, [1.0, 2.0, 3.0], 0.0), "these do not fit together"),
        (lambda: swept_by_wing(-1.0, 5.0, 30.0, 1.0), "span is -1; allowed: more than 0"),
        (lambda: angle_for_turn_deg(5.0, np.nan), "radius is not a number"),
        (lambda: place(START, np.nan, 0.0), "ahead is not a number"),
        (lambda: place(Pose(0.0, 0.0, np.inf), 1.0, 0.0), "pose.heading_deg is infinite"),
        (lambda: place(START, [1.0, 2.0], [1.0, 2.0, 3.0]), "these do not fit together"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
