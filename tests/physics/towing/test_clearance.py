"""How near a towed aircraft comes: against dense sampling of the way, what touches first, and bad input."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walkaround.physics.towing import Pose, nearest_miss, place, towed

CROSS = [
    (9, -0.5), (9, 0.5), (3, 1), (3, 18), (-1, 18), (-1, 1), (-15, 0.5), (-15, 5), (-18, 5), (-18, -5), (-15, -5),
    (-15, -0.5), (-1, -1), (-1, -18), (3, -18), (3, -1),
]  # fmt: skip
POST, WALL = [(40, 40), (42, 40), (42, 43), (40, 43)], [(-60, -50), (60, -55)]
NORTH = Pose(0.0, 0.0, 0.0)


def sampled(outline, shapes, pose, wheelbase, angle, distance, steps=600):
    """The nearest of many poses, corners against sides both ways, by plain vectors: (distance, way of the nose wheel)."""
    ways = np.linspace(0, distance, steps)
    poses = towed(pose, wheelbase, angle, ways)
    moved = np.stack([np.stack(place(poses, *corner), axis=-1) for corner in np.asarray(outline, float)], axis=1)
    gaps = np.full(steps, np.inf)
    for shape in shapes:
        fixed = np.broadcast_to(np.asarray(shape, float), (steps, len(shape), 2))
        for points, sides in ((moved, fixed), (fixed, moved)):
            a, b = sides, np.roll(sides, -1, axis=1)
            along = (b - a)[:, None]
            to = points[:, :, None] - a[:, None]
            share = np.clip((to * along).sum(-1) / (along**2).sum(-1), 0, 1)
            gaps = np.minimum(gaps, np.linalg.norm(to - share[..., None] * along, axis=-1).min(axis=(1, 2)))
    best = int(np.argmin(gaps))
    return float(gaps[best]), ways[best]


@settings(max_examples=12, deadline=None)
@given(st.floats(-75, 75), st.floats(-40, 40).filter(lambda s: abs(s) > 1), st.floats(0, 360))
def test_the_nearest_miss_is_the_nearest_of_many_poses(angle, distance, heading):
    start = Pose(0.0, 0.0, heading)
    by_samples, _ = sampled(CROSS, [POST, WALL], start, 5.4, angle, distance)
    miss = nearest_miss(CROSS, [POST, WALL], start, 5.4, angle, distance)
    # Between two samples a corner moves 45 × 40/5.4/600 = 0.56 at most.
    assert by_samples - 0.3 <= miss.distance <= by_samples + 1e-6
    # And the places that it names are that far apart, at the moment that it names.
    here = np.array(place(towed(start, 5.4, angle, miss.towed), miss.ahead, miss.right))
    assert float(np.hypot(*(here - (miss.x, miss.y)))) == pytest.approx(miss.distance, abs=1e-6)
    assert 0 <= miss.towed / distance <= 1


@pytest.mark.parametrize("angle", [0.0, 1e-7, 1e-4, -1e-4])
def test_a_straight_tow_past_a_post(angle):
    post = [(21.0, 30.0), (22.0, 30.0), (22.0, 31.0), (21.0, 31.0)]
    miss = nearest_miss(CROSS, [post], NORTH, 5.4, angle, 50.0)
    assert miss.distance == pytest.approx(3.0, abs=1e-3)
    assert (miss.obstacle, abs(miss.right), miss.x) == (0, pytest.approx(18.0), pytest.approx(21.0))
    assert 26.0 - 1e-6 <= miss.towed <= 32.0 + 1e-6


def test_a_turn_past_a_post_by_hand():
    # R = 5.4 at 45°: the centre is at (5.4, 0), and the outer tip's front corner runs on √(3² + 23.4²) = 23.59.
    post = [(5.0, 25.0), (6.0, 25.0), (6.0, 26.0), (5.0, 26.0)]
    miss = nearest_miss(CROSS, [post], NORTH, 5.4, 45.0, 12.0)
    assert miss.distance == pytest.approx(25.0 - np.hypot(3, 23.4), abs=1e-9)
    assert (miss.corner, miss.ahead, miss.right) == (True, 3, -18)


@pytest.mark.parametrize("angle", [-60.0, 12.0, 35.0])
@pytest.mark.parametrize("share", [0.3, 0.7])
@pytest.mark.parametrize("corner", range(len(CROSS)))
def test_a_wall_in_the_way_is_touched_where_sampling_touches_it(angle, share, corner):
    """A short wall across the track of a corner: the first touch is where the sampled distance first is next to none."""
    ahead, right = CROSS[corner]
    there = towed(NORTH, 5.4, angle, [12.0 * share, 12.0 * share - 0.01])
    here = np.stack(place(there, ahead, right), axis=-1)
    along = (here[0] - here[1]) / np.linalg.norm(here[0] - here[1])
    across = np.array([-along[1], along[0]])
    # As thick as it is seen from one side only: a corner that touches it crosses one line.
    near, far = here[0] - 0.4 * across, here[0] + 0.9 * across
    wall = [near, far, far + 0.3 * along, near + 0.3 * along]
    miss = nearest_miss(CROSS, [wall], NORTH, 5.4, angle, 12.0)
    assert miss.distance == 0.0
    assert miss.towed <= 12.0 * share + 1e-6
    gap, _ = sampled(CROSS, [wall], NORTH, 5.4, angle, miss.towed or 1e-9, 400)
    assert gap < 0.2
    # Until just before, nothing is touched: the distance falls to 0 there and not earlier.
    early = nearest_miss(CROSS, [wall], NORTH, 5.4, angle, max(miss.towed - 1e-3, 0.0))
    assert early.distance > 0 or miss.towed < 1e-3


def test_the_first_that_touches_counts():
    near, far = [(10.0, 12.0), (11.0, 12.0), (11.0, 13.0)], [(-10.0, 22.0), (-11.0, 22.0), (-11.0, 23.0)]
    for shapes, first in (([near, far], 0), ([far, near], 1)):
        miss = nearest_miss(CROSS, shapes, NORTH, 5.4, 0.0, 40.0)
        # The wing's leading edge, 3 ahead, meets the corner at 12 after 9.
        assert (miss.distance, miss.obstacle, miss.towed) == (0.0, first, pytest.approx(9.0))
        assert (miss.corner, miss.ahead, miss.right) == (False, pytest.approx(3.0), pytest.approx(10.5, abs=0.51))


def test_a_corner_of_the_aircraft_that_touches_later_does_not_come_first():
    # The wing's front meets the post's corner after 9; the nose, at 9 ahead, a wall after 21.
    post, wall = [(10.0, 12.0), (11.0, 12.0), (11.0, 13.0)], [(-5.0, 30.0), (5.0, 30.0)]
    for shapes in ([post, wall], [wall, post]):
        assert nearest_miss(CROSS, shapes, NORTH, 5.4, 0.0, 40.0).towed == pytest.approx(9.0)
    # And the other way round: the nose first, after 2, then the wing.
    wall = [(-5.0, 11.0), (5.0, 11.0)]
    miss = nearest_miss(CROSS, [post, wall], NORTH, 5.4, 0.0, 40.0)
    assert (miss.corner, miss.towed, miss.obstacle) == (True, pytest.approx(2.0), 1)


@given(st.floats(-60, 60), st.floats(1, 20), st.floats(0.5, 0.95))
@settings(max_examples=15, deadline=None)
def test_half_the_way_never_comes_nearer(angle, distance, share):
    whole, part = (
        nearest_miss(CROSS, [POST, WALL], NORTH, 5.4, angle, s).distance for s in (distance, share * distance)
    )
    assert whole <= part + 1e-9


def test_standing_still_is_the_distance_there_is():
    post = [(0.0, 12.0), (1.0, 12.0)]
    for angle in (0.0, 30.0):
        assert nearest_miss(CROSS, [post], NORTH, 5.4, angle, 0.0).distance == pytest.approx(3.0)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"outline": [(1, 2, 3)]}, r"outline has shape \(1, 3\); allowed: \(n, 2\), two corners or more"),
        ({"obstacles": []}, "obstacles is empty; allowed: one polygon or more"),
        ({"obstacles": [POST, [(1, 2)]]}, r"obstacles\[1\] has shape \(1, 2\)"),
        ({"obstacles": [[(1, np.nan), (2, 2)]]}, r"obstacles\[0\]\[0, 1\] is not a number"),
        ({"angle_deg": 91.0}, "angle_deg is 91 °; allowed: -90 to 90 °"),
        ({"wheelbase": -5.0}, "wheelbase is -5; allowed: more than 0"),
        ({"distance": np.inf}, "distance is inf"),
    ],
)
def test_bad_input_is_named(change, words):
    usual = dict(outline=CROSS, obstacles=[POST], pose=NORTH, wheelbase=5.4, angle_deg=0.0, distance=1.0)
    with pytest.raises(ValueError, match=words):
        nearest_miss(**{**usual, **change})
