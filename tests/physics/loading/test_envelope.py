"""The envelope: inside or not, at every moment, against another library and by sampling."""

import matplotlib.path
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walkaround import aircraft
from walkaround.physics.loading.envelope import Envelope, closest_approach, corner_problems, quadratic_roots

STEPPED = Envelope("stepped", (80, 80, 84, 86, 95, 95, 93, 93), (1000, 1500, 1500, 2000, 2000, 1600, 1600, 1000))
EVERY = [STEPPED, *(c.envelope for name in aircraft.demo_names() for c in aircraft.demo(name).envelopes)]


@pytest.mark.parametrize("envelope", EVERY, ids=lambda e: e.name)
def test_inside_agrees_with_matplotlibs_point_in_polygon(envelope):
    # Independent check: matplotlib's own point-in-polygon test, on random points (none falls on a line).
    rng = np.random.default_rng(7)
    span = max(envelope.cgs) - min(envelope.cgs)
    cg = rng.uniform(min(envelope.cgs) - 0.2 * span, max(envelope.cgs) + 0.2 * span, 4000)
    weight = rng.uniform(0.8 * envelope.least_weight, 1.1 * envelope.greatest_weight, 4000)
    polygon = matplotlib.path.Path(np.column_stack([envelope.cgs, envelope.weights]))
    expected = polygon.contains_points(np.column_stack([cg, weight]))
    assert 200 < expected.sum() < 3900
    np.testing.assert_array_equal(envelope.inside(weight, cg), expected)


@pytest.mark.parametrize("envelope", EVERY, ids=lambda e: e.name)
def test_a_point_on_a_line_is_inside_and_a_hair_beyond_is_not(envelope):
    corners = list(zip(envelope.cgs, envelope.weights, strict=True))
    for (c1, w1), (c2, w2) in zip(corners, corners[1:] + corners[:1], strict=True):
        for t in (0.0, 0.3, 1.0):
            assert envelope.inside(w1 + t * (w2 - w1), c1 + t * (c2 - c1))
    assert not envelope.inside(envelope.greatest_weight * (1 + 1e-6), np.mean(envelope.cgs))
    forward, aft = envelope.limits_at(envelope.least_weight)
    assert not envelope.inside(envelope.least_weight, aft + 1e-5 * abs(aft))
    assert not envelope.inside(envelope.least_weight, forward - 1e-5 * abs(forward))


@pytest.mark.parametrize("envelope", EVERY, ids=lambda e: e.name)
def test_the_last_digits_of_weight_and_cg_do_not_decide(beside, envelope):
    corners = list(zip(envelope.cgs, envelope.weights, strict=True))
    for (c1, w1), (c2, w2) in zip(corners, corners[1:] + corners[:1], strict=True):
        for t in (0.0, 0.37, 1.0):
            weights, cgs = beside(w1 + t * (w2 - w1)), np.array(beside(c1 + t * (c2 - c1)))[:, np.newaxis]
            assert envelope.inside(weights, cgs).all()
            nodes = np.stack(np.broadcast_arrays(weights, weights), axis=-1)
            assert envelope.stays_inside(nodes, nodes * cgs[..., np.newaxis]).all()


def test_both_limits_of_a_step_are_told(beside):
    weights, forward, aft = np.transpose(STEPPED.limit_table(1250)).tolist()
    assert weights == [1000, 1250, 1500, 1500, 1600, 1600, 2000]
    assert forward == pytest.approx([80, 80, 80, 84, 84.4, 84.4, 86])
    assert aft == [93, 93, 93, 93, 93, 95, 95]
    # Of a single weight, and of one in the last digit beside it, the wider limits: a point on a limit is inside.
    for weight in (*beside(1500.0), beside(1500.0)):
        assert np.all(STEPPED.limits_at(weight)[0] == pytest.approx(80.0))
    for weight in (*beside(1600.0), beside(1600.0)):
        assert np.all(STEPPED.limits_at(weight)[1] == 95.0)
    assert STEPPED.limits_at(1500.1)[0] == pytest.approx(84.0004)
    assert STEPPED.limits_at(1599.9)[1] == 93.0


@pytest.mark.parametrize("envelope", EVERY, ids=lambda e: e.name)
def test_between_the_rows_of_the_table_the_limits_run_straight(envelope):
    rows = np.array(envelope.limit_table())
    weights = np.linspace(envelope.least_weight + 0.123, envelope.greatest_weight - 0.321, 997)  # none on a step
    forward, aft = envelope.limits_at(weights)
    for column, limit in ((1, forward), (2, aft)):
        assert np.interp(weights, rows[:, 0], rows[:, column]) == pytest.approx(limit, rel=1e-9)


def flight(draw_weight, cg, burnt, arm, nodes=2):
    weights = np.linspace(draw_weight, draw_weight - burnt, nodes)
    return weights, draw_weight * cg + arm * (weights - draw_weight)


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(EVERY), st.floats(0, 1), st.floats(-0.1, 1.1), st.floats(0, 0.4), st.floats(-1.5, 2.5))
def test_stays_inside_agrees_with_sampling(envelope, height, across, share, arm_at):
    span = max(envelope.cgs) - min(envelope.cgs)
    top = envelope.least_weight + height * (envelope.greatest_weight - envelope.least_weight)
    cg, arm = min(envelope.cgs) + across * span, min(envelope.cgs) + arm_at * span
    weights, moments = flight(top, cg, share * top, arm)
    dense = np.linspace(weights[0], weights[1], 4001)
    sampled = envelope.inside(dense, (moments[0] + arm * (dense - weights[0])) / dense)
    verdict = bool(envelope.stays_inside(weights, moments))
    if verdict:
        assert sampled.all()
    elif sampled.all():
        # Only a part too short for the samples may be outside.
        parts = envelope.outside_parts(weights, moments)
        assert sum(a - b for a, b in parts) < 2 * (weights[0] - weights[1]) / 4000 + 1e-6 * top
    outside = sum(a - b for a, b in envelope.outside_parts(weights, moments))
    if weights[0] - weights[1] > 1e-3 * top:
        assert outside / (weights[0] - weights[1]) == pytest.approx(1 - sampled.mean(), abs=3e-3)


def test_a_flight_that_dips_outside_between_two_good_ends():
    # Slanted aft limit that moves aft with weight; the curve of the flight bulges over it.
    slanted = Envelope("slanted", (80, 80, 100, 90), (1000, 2000, 2000, 1000))
    ends = slanted.inside(np.array([2000.0, 1000.0]), np.array([100.0, 90.0]))
    assert ends.all()
    weights, moments = np.array([2000.0, 1000.0]), np.array([200_000.0, 90_000.0])
    assert not slanted.stays_inside(weights, moments)
    ((heavy, light),) = slanted.outside_parts(weights, moments)
    assert (heavy, light) == pytest.approx((2000.0, 1000.0))


def test_stays_inside_broadcasts():
    e = EVERY[1]
    rng = np.random.default_rng(3)
    start = rng.uniform(1600, 2700, (300, 70))
    weights = np.stack([start, start - 100], axis=-1)
    moments = weights * rng.uniform(98, 113, (300, 70, 1))
    many = e.stays_inside(weights, moments)
    assert many.shape == (300, 70)
    for i, j in rng.integers(0, 70, (40, 2)):
        assert many[i, j] == e.stays_inside(weights[i, j], moments[i, j])


def test_a_part_outside_is_outside_from_end_to_end():
    # Almost parallel to the aft limit of 95 and beyond it by twice what rounding explains, but only in the middle.
    slanted = Envelope("slanted", (80, 80, 100, 90), (1000, 2000, 2000, 1000))
    slack = 1e-9 * 100
    for beyond in (1.001, 1.3, 2.0, 50.0):
        # The aft limit is 80 + 0.01 W; with the fuel at arm 110 the CG is farthest behind it at 1,500.
        c = -0.01 * 1500**2
        arm = 80 + 0.01 * 1500 + beyond * slack - c / 1500
        weights = np.array([1800.0, 1200.0])
        ((heavy, light),) = slanted.outside_parts(weights, arm * weights + c)
        within = np.linspace(heavy, light, 1001)[1:-1]
        assert not slanted.inside(within, arm + c / within).any()
        for weight in (heavy + 1.0, light - 1.0):
            assert slanted.inside(weight, arm + c / weight)
    assert slanted.outside_parts(weights, (arm - 51 * slack) * weights + c) == []


def test_a_flight_without_burn_is_a_point():
    for weights, moments in (([1400.0], [1400.0 * 92]), ([1400.0] * 3, [1400.0 * 92] * 3)):
        assert closest_approach(STEPPED, weights, moments) == ("aft", pytest.approx(1.0), 1400.0, 92.0)
        assert STEPPED.stays_inside(weights, moments)
        assert not STEPPED.stays_inside(weights, np.multiply(moments, 1.02))
        assert STEPPED.outside_parts(weights, np.multiply(moments, 1.02)) == []
    # So is one that burns no more than a rounding error, on a step too: there the wider limit counts.
    for burnt in (1e-7, 1e-6, 2e-6, 3e-6):
        weights = 1600.0 + burnt * np.array([0.5, -0.5])
        assert closest_approach(STEPPED, weights, 92.0 * weights)[:2] == ("aft", pytest.approx(3.0))
    assert closest_approach(STEPPED, [1600.0], [1600.0 * 94.5])[1] == pytest.approx(0.5)
    assert closest_approach(STEPPED, [np.nextafter(1600.0, 0)], [1600.0 * 94.5])[1] == pytest.approx(0.5)


def test_a_flight_that_passes_a_step_comes_near_the_narrower_side_of_it():
    # From 1,700 down to 1,500 past the step at 1,600, where the aft limit goes from 95 to 93 in.
    weights = np.array([1700.0, 1550.0])
    which, distance, at, _ = closest_approach(STEPPED, weights, 92.5 * weights)
    assert (which, at) == ("aft", 1600.0)
    assert distance == pytest.approx(0.5)
    # One that begins on the step and burns from there never meets the limits above it.
    which, distance, _, _ = closest_approach(STEPPED, np.array([1500.0, 1400.0]), 83 * np.array([1500.0, 1400.0]))
    assert (which, distance) == ("forward", pytest.approx(3.0))


# Both limits slant, so that a flight can run parallel to one of them half-way.
LEANING = Envelope("leaning", (95, 90, 112, 100), (1500, 2550, 2550, 1500))


@settings(deadline=None)
@given(
    st.sampled_from([EVERY[1], LEANING, STEPPED]),
    st.floats(0, 1),
    st.floats(94, 112),
    st.floats(10, 900),
    st.floats(40, 190),
)
def test_closest_approach_agrees_with_sampling(e, height, cg, burnt, arm):
    start = e.least_weight + height * (e.greatest_weight - e.least_weight)
    weights, moments = flight(start, cg, burnt, arm)
    which, distance, at, there = closest_approach(e, weights, moments)
    dense = np.linspace(weights[0], weights[1], 30_001)
    if e is STEPPED:
        # Past a step the limits on both of its sides are met; a flight that starts on one goes down from it.
        beside = np.array([1500.0, 1600.0]) + 1e-4 * np.array([[-1.0], [1.0]])
        dense = np.append(dense[dense != weights[0]], beside[(beside < weights[0]) & (beside > weights[1])])
        dense = dense[~np.isin(dense, (1500.0, 1600.0))]
    path = (moments[0] + arm * (dense - weights[0])) / dense
    forward, aft = e.limits_at(dense)
    assert distance == pytest.approx(min((path - forward).min(), (aft - path).min()), abs=2e-3)
    limits = [row[1 if which == "forward" else 2] for row in e.limit_table(at) if row[0] == at]
    limits = limits or [e.limits_at(at)[0 if which == "forward" else 1]]  # off the polygon
    assert any(distance == pytest.approx(float(there - c if which == "forward" else c - there)) for c in limits)


def sides_meet(a, b, c, d):
    # Independent of the library: the two sides as a linear system, solved for where along each they meet.
    matrix = np.array([[b[0] - a[0], c[0] - d[0]], [b[1] - a[1], c[1] - d[1]]], float)
    if abs(np.linalg.det(matrix)) < 1e-9:
        return None
    t, u = np.linalg.solve(matrix, [c[0] - a[0], c[1] - a[1]])
    if min(abs(t), abs(t - 1), abs(u), abs(u - 1)) < 1e-9:
        return None
    return bool(0 < t < 1 and 0 < u < 1)


@given(st.lists(st.tuples(st.integers(80, 99), st.integers(1000, 1019)), min_size=4, max_size=5, unique=True))
def test_crossing_sides_are_found_and_no_others(corners):
    found = corner_problems(*zip(*corners, strict=True))
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    apart = [(i, j) for i in range(len(sides)) for j in range(i + 2, len(sides)) if (i, j) != (0, len(sides) - 1)]
    for i, j in apart:
        meet = sides_meet(*sides[i], *sides[j])
        said = any(p.startswith(f"side {i + 1} ") and f"crosses side {j + 1} " in p for p in found)
        if meet is not None:
            assert said == meet


@given(st.floats(-50, 50), st.floats(-50, 50), st.floats(0.01, 50) | st.floats(-50, -0.01))
def test_quadratic_roots_agree_with_numpy(c0, c1, c2):
    expected = np.roots([c2, c1, c0])
    if c1 * c1 - 4 * c0 * c2 > 1e-6:
        np.testing.assert_allclose(quadratic_roots(c0, c1, c2), np.sort(expected.real), rtol=1e-6, atol=1e-7)
    elif c1 * c1 - 4 * c0 * c2 < -1e-6:
        assert quadratic_roots(c0, c1, c2) == []


@pytest.mark.parametrize(
    ("cgs", "weights", "says"),
    [
        ((80, 90), (1000, 2000), "has 2 corners"),
        ((80, 90, 80, 90), (1000, 2000, 2000, 1000), "crosses side 3"),
        ((80, 80, 90, 80, 80), (1000, 2000, 2000, 2000, 1500), r"\(80, 2000\) is listed twice"),
        ((80, 85, 90), (1000, 1000, 1000), "no height"),
        ((80, 80, 85, 90, 90, 85), (1000, 2000, 1500, 2000, 1000, 1200), "2 separate ranges"),
        ((80, 80, 90), (0, 1000, 1000), "weight 0"),
        ((80, 80, np.nan, 90), (1000, 2000, 2000, 1000), r"corner \(nan, 2000\) is not two numbers"),
        ((80, 80, np.inf, 90), (1000, 2000, 2000, 1000), r"corner \(inf, 2000\) is not two numbers"),
        ((80, 80, 90, 90), (1000, np.nan, 2000, 1000), r"corner \(80, nan\) is not two numbers"),
    ],
)
def test_bad_corners_are_named(cgs, weights, says):
    with pytest.raises(ValueError, match=says):
        Envelope("bad", cgs, weights)
    assert corner_problems(cgs, weights)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda e: e.inside(1500.0, np.nan), "cg is not a number"),
        (lambda e: e.inside([1500.0, np.inf], 90.0), r"weight\[1\] is infinite"),
        (lambda e: e.inside([1.0, 2.0], [1.0, 2.0, 3.0]), "do not fit together"),
        (lambda e: e.limits_at(np.nan), "weight is not a number"),
        (lambda e: e.stays_inside([1500.0, 0.0], [1.0, 2.0]), r"weights\[1\] is 0; allowed: more than 0"),
        (lambda e: e.stays_inside([1500.0, 1400.0], [1.0, np.nan]), r"moments\[1\] is not a number"),
    ],
)
def test_bad_points_are_named(call, says):
    with pytest.raises(ValueError, match=says):
        call(STEPPED)


def test_closest_approach_half_way_along_a_leaning_limit():
    # By hand: distance to the aft limit is 100 + s (W − 1500) − 125 + c / W with s = 12/1050 and c = s · 2000², least
    # where its slope s − c / W² vanishes: at 2,000.
    slope = 12 / 1050
    c = slope * 2000**2
    weights = np.array([2500.0, 1800.0])
    which, distance, weight, _ = closest_approach(LEANING, weights, 125 * weights - c)
    assert (which, weight) == ("aft", pytest.approx(2000.0))
    assert distance == pytest.approx(100 + slope * 500 - 125 + c / 2000)
    assert distance < 3.7 < min(100 + slope * (w - 1500) - 125 + c / w for w in weights)
