"""The envelope at its edges: within the slack and just beyond it, above and below the polygon, and in small units."""

import numpy as np
import pytest
from walkaround.checks import SLACK
from walkaround.physics.loading.envelope import Envelope, closest_approach, corner_problems

BOX = Envelope("box", (80.0, 80.0, 90.0, 90.0), (1000.0, 2000.0, 2000.0, 1000.0))
LEANING = Envelope("leaning", (80.0, 84.0, 90.0, 86.0), (1000.0, 2000.0, 2000.0, 1000.0))


def flight(weight, cg, burnt, arm):
    """Nodes of a flight that burns fuel at one arm."""
    return np.array([weight, weight - burnt]), np.array([weight * cg, weight * cg - burnt * arm])


@pytest.mark.parametrize(("slacks", "inside"), [(0.98, True), (1.02, False)])
def test_a_point_beyond_a_limit_by_no_more_than_the_slack_is_on_it(slacks, inside):
    up, out = slacks * SLACK * 2000.0, slacks * SLACK * 90.0
    for weight, cg in [(2000.0 + up, 85.0), (1000.0 - up, 85.0), (1500.0, 90.0 + out), (1500.0, 80.0 - out)]:
        assert bool(BOX.inside(weight, cg)) is inside
    for cg in (90.0 + out, 80.0 - out):
        assert bool(BOX.stays_inside(*flight(1500.0, cg, 200.0, cg))) is inside


@pytest.mark.parametrize("scale", [1e-3, 1.0, 1e3])
def test_the_unit_of_weight_makes_no_difference(scale):
    scaled = Envelope("scaled", LEANING.cgs, tuple(scale * w for w in LEANING.weights))
    for weight in (1000.0, 1200.0, 2000.0):
        assert np.array(scaled.limits_at(scale * weight)) == pytest.approx(np.array(LEANING.limits_at(weight)))
    weights, cgs = np.array([[1100.0], [1900.0], [2100.0]]), np.array([79.0, 81.0, 85.0, 89.5])
    assert np.array_equal(scaled.inside(scale * weights, cgs), LEANING.inside(weights, cgs))


@pytest.mark.parametrize(
    ("weight", "cg", "limit", "limit_in"),
    [
        (900.0, 81.0, "forward", 80.0),
        (900.0, 85.0, "aft", 86.0),
        (2300.0, 85.0, "forward", 84.0),
        (2300.0, 89.0, "aft", 90.0),
    ],
)
@pytest.mark.parametrize("burnt", [0.0, 100.0])
def test_off_the_polygon_the_limits_of_its_top_and_bottom_count(weight, cg, limit, limit_in, burnt):
    # Fuel at the CG itself leaves the CG where it is.
    found, distance, _, at_cg = closest_approach(LEANING, *flight(weight, cg, burnt, cg))
    assert found == limit
    assert distance == pytest.approx(abs(cg - limit_in))
    assert at_cg == pytest.approx(cg)


def test_the_nearer_limit_of_a_flight_without_burn():
    assert closest_approach(BOX, *flight(1500.0, 82.0, 0.0, 0.0)) == ("forward", 2.0, 1500.0, 82.0)
    assert closest_approach(BOX, *flight(1500.0, 87.0, 0.0, 0.0)) == ("aft", 3.0, 1500.0, 87.0)


def test_a_part_outside_ends_within_the_slack_of_the_limit():
    ((begin, end),) = BOX.outside_parts(*flight(1100.0, 85.0, 200.0, 85.0))
    assert 1000.0 - 1.5 * SLACK * 2000.0 < begin < 1000.0
    assert end == 900.0
    ((begin, end),) = BOX.outside_parts(*flight(2100.0, 85.0, 200.0, 85.0))
    assert begin == 2100.0
    assert 2000.0 < end < 2000.0 + 1.5 * SLACK * 2000.0


def test_two_sides_on_one_line_that_do_not_meet_are_sound():
    notched = Envelope(
        "notched",
        (80.0, 80.0, 82.0, 82.0, 80.0, 80.0, 90.0, 90.0),
        (1000.0, 1300.0, 1300.0, 1500.0, 1500.0, 2000.0, 2000.0, 1000.0),
    )
    assert [bool(notched.inside(weight, 81.0)) for weight in (1200.0, 1400.0, 1600.0)] == [True, False, True]


# Its aft limit moves aft with weight, so the curve of a flight can bulge over it between two good ends.
SLANTED = Envelope("slanted", (80.0, 80.0, 100.0, 90.0), (1000.0, 2000.0, 2000.0, 1000.0))


@pytest.mark.parametrize("scale", [1e-4, 1e-3, 1.0])
def test_a_bulge_between_good_ends_is_seen_in_any_unit(scale):
    envelope = Envelope("scaled", SLANTED.cgs, tuple(scale * w for w in SLANTED.weights))
    weights, cgs = scale * np.array([2000.0, 1000.0]), np.array([100.0, 90.0])
    assert envelope.inside(weights, cgs).all()
    assert not envelope.stays_inside(weights, weights * cgs)
    assert envelope.stays_inside(weights, weights * [95.0, 85.0])


def test_each_stretch_of_a_flight_has_an_arm_of_its_own():
    # Well inside first, then along the bulge; and the same weights with the second stretch well inside too.
    weights = np.array([1990.0, 1900.0, 1100.0])
    bulging = weights * [95.0, 98.99, 90.99]
    assert SLANTED.inside(weights, bulging / weights).all()
    assert not SLANTED.stays_inside(weights, bulging)
    assert SLANTED.outside_parts(weights, bulging)
    assert SLANTED.stays_inside(weights, weights * [95.0, 90.0, 85.0])
    # Bulging first, then inside.
    weights = np.array([1900.0, 1100.0, 1010.0])
    assert not SLANTED.stays_inside(weights, weights * [98.99, 90.99, 85.0])


@pytest.mark.parametrize("turned", range(5))
def test_a_corner_on_another_side_is_a_crossing(turned):
    corners = [(80.0, 1000.0), (80.0, 2000.0), (90.0, 2000.0), (80.0, 1500.0), (90.0, 1000.0)]
    for place in (0, 1):  # as it stands, and with weight and CG in each other's place: touching from below
        cgs, weights = zip(*(c[:: 1 - 2 * place] for c in corners[turned:] + corners[:turned]), strict=True)
        assert any("crosses" in problem for problem in corner_problems(cgs, weights))


def test_a_flight_outside_all_along_is_one_part_whatever_corners_it_passes():
    stepped = Envelope("stepped", (80.0, 80.0, 95.0, 95.0, 93.0, 93.0), (1000, 2000, 2000, 1600, 1600, 1000))
    ((begin, end),) = stepped.outside_parts(*flight(1900.0, 97.0, 700.0, 97.0))
    assert (begin, end) == (1900.0, 1200.0)
