"""A parked aircraft in the wind: balance, an independent solution, and what more wind or fewer ropes do."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog, lsq_linear
from walkaround import aircraft
from walkaround.aircraft import tie_down
from walkaround.physics.securing import (
    FAILURES,
    ROPES,
    Supports,
    carried,
    elevator_at_deg,
    fails_at_kt,
    load,
    standing,
    wind_loads,
)

WINDS = st.floats(0, 120)
LOOSE = st.tuples(*[st.floats(0, 0.2)] * 3)


def parked(
    name="morrowlark_four", rope="manila 1/2 in", angle=45.0, slack=(0.0, 0.0, 0.0), missing=(), fuel=0.0, **other
):
    craft = aircraft.demo(name)
    return tie_down.parked(craft, tie_down.ropes(craft, rope, angle, slack, missing), fuel, **other)


def stands(**fixed):
    """Aircraft parked in many ways."""
    return st.builds(
        parked,
        name=st.sampled_from(aircraft.demo_names()),
        rope=st.sampled_from(sorted(ROPES)),
        angle=st.floats(20, 85),
        fuel=st.floats(0, 1),
        nose_up_deg=st.floats(-3, 12),
        from_deg=st.floats(-90, 90),
        elevators_deg=st.tuples(st.floats(-28, 23)),
        **fixed,
    )


def wind_load(asked, found):
    return load(asked, found.wind)


def left_over(asked, found):
    """What is left over of force and two moments, as a share of the weight."""
    down = found.ropes_n * [rope.sine for rope in asked.ropes]
    places = np.concatenate([asked.wheels_m, asked.supports.anchors_m])
    forces = np.concatenate([found.wheels_n, -down], axis=-1)
    return (forces @ np.column_stack([np.ones(6), places]) + wind_load(asked, found)) / asked.weight_n


@given(stands(slack=LOOSE), WINDS)
@settings(max_examples=60)
def test_forces_and_moments_balance(asked, wind):
    found = standing(asked, wind)
    if found.held:
        assert np.abs(left_over(asked, found)).max() < 1e-6
        assert found.wheels_n.min() >= 0
        assert found.ropes_n.min() >= 0


@given(stands(slack=LOOSE), WINDS)
@settings(max_examples=30)
def test_scipy_finds_the_same_loads(asked, wind):
    # Of all loads that balance, those that stretch the ropes with the least energy: non-negative least squares, in which
    # the balance weighs far more than the energy (bounded-variable least squares, in scipy).
    found = standing(asked, wind)
    supports, at = asked.supports, wind_load(asked, found) / asked.weight_n
    points = np.column_stack([np.ones(6), np.array([*asked.wheels_m, *supports.anchors_m])])
    signed = points.T * [1, 1, 1, -1, -1, -1]
    possible = linprog(np.ones(6), A_eq=signed, b_eq=-at, bounds=(0, None), method="highs")
    assert bool(found.held) == possible.success
    if not found.held:
        return
    k = np.array(supports.stiffness_n_m) / asked.weight_n
    energy = np.hstack([np.zeros((3, 3)), np.diag(1 / np.sqrt(k))])
    heavy = 1e4
    balance, stretch = np.vstack([heavy * signed, energy]), -np.sqrt(k) * np.array(supports.slack_m)
    answer = lsq_linear(balance, np.concatenate([-heavy * at, stretch]), bounds=(0, np.inf), method="bvls", tol=1e-14).x
    down = found.ropes_n * [rope.sine for rope in asked.ropes] / asked.weight_n
    assert answer[3:] == pytest.approx(down, abs=2e-3 * max(1.0, down.max()))


@given(stands())
@settings(max_examples=20)
def test_no_wind_no_load(asked):
    found = standing(asked, 0.0)
    assert found.ropes_n.max() == 0
    assert found.wheels_n.sum() == pytest.approx(asked.weight_n)
    assert all(np.max(force) == np.min(force) == 0 for force in found.wind)


@given(stands(), st.floats(1, 90), st.floats(1, 2))
@settings(max_examples=30)
def test_the_winds_load_grows_with_its_square(asked, wind, times):
    air, how = asked.airframe, (asked.from_deg, asked.nose_up_deg, asked.elevators_deg[0])
    once, more = np.array(wind_loads(air, wind, *how)), np.array(wind_loads(air, wind * times, *how))
    assert more == pytest.approx(once * times**2, rel=1e-9)
    # A rope carries what the weight does not, so its load grows faster still.
    weak, strong = standing(asked, wind), standing(asked, wind * times)
    if strong.held and weak.held:
        assert strong.ropes_n.max() >= times**2 * weak.ropes_n.max() * (1 - 1e-6) - 1e-3


@given(stands(), WINDS, st.integers(0, 2), st.one_of(st.none(), st.floats(0, 0.3)))
@settings(max_examples=60)
def test_a_slack_or_missing_rope_never_lowers_the_others_worst(asked, wind, which, slack):
    ropes = list(asked.ropes)
    ropes[which] = None if slack is None else replace(ropes[which], slack_m=slack)
    others = [i for i in range(3) if i != which]
    before = standing(asked, wind).ropes_n[others].max()
    after = standing(replace(asked, ropes=tuple(ropes)), wind).ropes_n[others].max()
    assert after >= before * (1 - 1e-6) - 1e-3 * asked.weight_n * 1e-3


def test_a_steeper_rope_carries_less_and_a_flatter_one_more():
    # Wind straight from ahead on a level aircraft: each wing rope pulls down the same at any angle but for its lever.
    asked = [parked(angle=angle, nose_up_deg=8.0) for angle in (25.0, 45.0, 65.0)]
    tension = [standing(each, 60.0).ropes_n.max() for each in asked]
    assert tension[0] > tension[1] > tension[2]


def test_shapes_loop():
    asked = parked(elevators_deg=(-28.0, 23.0), from_deg=30.0)
    winds = np.array([[0.0, 30.0], [55.0, 80.0]])
    together = standing(asked, winds)
    for place in np.ndindex(winds.shape):
        alone = standing(asked, winds[place])
        for one, other in zip(alone, together, strict=True):
            if isinstance(one, tuple):
                assert [w[place] for w in other] == pytest.approx(list(one))
            else:
                assert np.asarray(one, float) == pytest.approx(np.asarray(other[place], float))
        assert bool(alone.moves) == bool(together.moves[place])


@pytest.mark.parametrize(
    "asked",
    [
        parked(),
        parked(nose_up_deg=8.0, chock_m=0.1),
        parked(missing=(0,), from_deg=30.0, braked=True),
        parked("tansy_two", elevators_deg=(-26.0, 20.0)),
        parked("tansy_two", rope="manila 3/8 in", slack=(0.1, 0.0, 0.0), nose_up_deg=10.0),
    ],
)
def test_each_thing_happens_at_its_wind_and_not_before(asked):
    for name, kt in fails_at_kt(asked).items():
        if not np.isfinite(kt):
            continue
        for wind, happened in ((kt - 0.13, False), (kt + 0.13, True)):
            every = [standing(replace(asked, elevators_deg=(e,)), wind) for e in asked.elevators_deg]
            seen = {
                **{FAILURES[i]: any(s.held and s.used[i] >= 1 for s in every) for i in range(3)},
                "tips": any(not s.held for s in every),
                "moves": any(s.moves or not s.held for s in every),
                "wheel lifts": any(s.wheels_n.min() <= 1e-6 for s in every),
            }
            assert seen[name] == happened, (name, kt)


def test_on_a_slope_without_brake_it_moves_in_no_wind():
    assert fails_at_kt(parked(slope_deg=3.0))["moves"] == 0.0
    assert fails_at_kt(parked(slope_deg=3.0, chock_m=0.1))["moves"] > 30.0


def test_a_free_elevator_is_never_better_than_a_locked_one():
    for nose in (0.0, 6.0, 12.0):
        locked, free = parked(nose_up_deg=nose), parked(nose_up_deg=nose, elevators_deg=(-28.0, 0.0, 23.0))
        for name in FAILURES:
            assert fails_at_kt(free)[name] <= fails_at_kt(locked)[name]


def test_full_tanks_hold_it_down_and_its_nose_up_lifts_it():
    empty = parked()
    heavier = replace(empty, weight_n=empty.weight_n * 1.2)
    raised = replace(empty, nose_up_deg=6.0)
    for name in ("wheel lifts", "left rope"):
        assert fails_at_kt(raised)[name] < fails_at_kt(empty)[name] < fails_at_kt(heavier)[name]


def test_both_halves_are_mirror_images():
    one, other = standing(parked(from_deg=40.0), 80.0), standing(parked(from_deg=-40.0), 80.0)
    assert one.ropes_n == pytest.approx(other.ropes_n[[1, 0, 2]])
    assert one.wheels_n == pytest.approx(other.wheels_n[[0, 2, 1]])


def test_without_ropes_it_tips_where_a_wheel_and_its_lever_say():
    # Side wind on ropeless supports: it goes when the moments about the line of nose and right wheel meet.
    asked = parked(missing=(0, 1, 2), from_deg=90.0, braked=True, friction=2.0)
    kt = fails_at_kt(asked)["tips"]
    at = load(asked, standing(asked, kt).wind)
    (nx, ny), (rx, ry) = asked.wheels_m[0], asked.wheels_m[2]
    # Moment about that line, positive if it lifts the left side.
    along = np.array([rx - nx, ry - ny])
    lifts = (at[1] - at[0] * nx) * along[1] - (at[2] - at[0] * ny) * along[0]
    assert abs(lifts) < 0.01 * asked.weight_n * np.hypot(*along)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"weight_n": 0.0}, "weight_n is 0; allowed: more than 0"),
        ({"friction": 3.0}, "friction is 3; allowed: 0 to 2"),
        ({"chock_m": -0.1}, "chock_m is -0.1; allowed: 0 or more"),
        ({"slope_deg": 20.0}, "slope_deg is 20; allowed: -10 to 10"),
        ({"cg_m": np.nan}, "cg_m is not a number; allowed: a number"),
        ({"wheel_radius_m": 0.0}, "wheel_radius_m is 0; allowed: more than 0"),
        ({"from_deg": 91.0}, "from_deg is 91; allowed: -90 to 90"),
        ({"nose_up_deg": [1.0, 2.0]}, "nose_up_deg has shape (2,); allowed: a single number"),
        ({"braked": "off"}, "braked is 'off'; allowed: True or False"),
        ({"ropes": (None,)}, "ropes has 1 entries; allowed: three, each a Rope or None"),
    ],
)
def test_mistakes_are_named(change, says):
    with pytest.raises(ValueError, match="^" + says.replace("(", r"\(").replace(")", r"\)")):
        replace(parked(), **change)
    with pytest.raises(ValueError, match="wind_kt is 300 kt; allowed: 0 to 200 kt"):
        standing(parked(), 300.0)
    with pytest.raises(ValueError, match="name is 'flies'; allowed: left rope"):
        elevator_at_deg(parked(), "flies")


def test_no_wind_at_all_is_no_answer_and_no_mistake():
    assert standing(parked(), []).wheels_n.shape == (0, 3)


def test_supports_name_what_does_not_fit():
    with pytest.raises(ValueError, match="wheels_m has shape"):
        Supports(((0, 0),), ((0, 0),) * 3, (1, 1, 1))
    with pytest.raises(ValueError, match="stiffness_n_m has 2 values; allowed: three"):
        Supports(((0, 0), (1, 0), (1, 1)), ((0, 0),) * 3, (1, 1))
    with pytest.raises(ValueError, match="allowed: force and two moments on the last axis"):
        carried(parked().supports, [1.0, 2.0])
