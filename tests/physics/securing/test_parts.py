"""Wind, ropes and chocks, each by itself: properties, and statics and dynamics solved another way."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from walkaround import aircraft
from walkaround.aircraft import tie_down
from walkaround.physics.securing import (
    ROPES,
    Airframe,
    Rope,
    Supports,
    WindLoads,
    carried,
    chock_force,
    lift_off_kt,
    line_strength,
    load,
    rope_tension,
    snatch,
    standing,
    wind_loads,
    wind_pressure_pa,
)

FOUR = aircraft.demo("morrowlark_four")
AIR = tie_down.airframe(FOUR)


@given(st.floats(100, 1e4), st.floats(0.1, 0.5), st.floats(0.01, 0.95), st.floats(0, 20))
def test_moments_about_the_chocks_edge_balance(weight, radius, share, slope):
    height = share * radius
    edge = np.array([np.sqrt(radius**2 - (radius - height) ** 2), height])  # from the wheel's lowest point
    push = float(chock_force(weight, radius, height, slope))
    down, back = weight * np.cos(np.radians(slope)), weight * np.sin(np.radians(slope))
    lever = np.array([0.0, radius]) - edge
    # Along the ground push and the slope's part, and the weight's other part down, all at the axle.
    moment = lever[0] * -down - lever[1] * (push + back)
    assert moment <= 1e-6 * weight * radius or push > 0
    if push > 0:
        assert moment == pytest.approx(0, abs=1e-9 * weight)


def test_a_chock_of_no_height_holds_nothing_and_one_as_high_as_the_axle_everything():
    assert chock_force(1000.0, 8.0, 0.0) == 0
    assert chock_force(0.0, 8.0, 8.0) == 0
    assert np.isinf(chock_force(1000.0, 8.0, [8.0, 9.0])).all()
    assert chock_force(1000.0, 8.0, 0.2, 30.0) == 0


def test_chock_shapes_loop():
    heights, slopes = np.array([[1.0], [3.0]]), np.array([0.0, 5.0, 10.0])
    together = chock_force(900.0, 8.0, heights, slopes)
    for i, j in np.ndindex(together.shape):
        assert together[i, j] == chock_force(900.0, 8.0, heights[i, 0], slopes[j])


@given(st.floats(1, 1e4), st.floats(5, 90))
def test_the_upright_part_of_the_tension_is_the_pull(pull, angle):
    assert rope_tension(pull, angle) * np.sin(np.radians(angle)) == pytest.approx(pull)


@given(st.floats(5, 89), st.floats(5, 89))
def test_a_flatter_rope_carries_more(one, other):
    flat, steep = sorted((one, other))
    assert rope_tension(100.0, flat) >= rope_tension(100.0, steep)


def test_the_weakest_decides():
    assert line_strength(8000.0, 3000.0) == 3000.0
    assert line_strength(2000.0, 3000.0) == 1000.0
    assert line_strength(2000.0, 3000.0, knot_share=1.0, condition=0.25) == 500.0


@given(st.floats(100, 3000), st.floats(1e4, 2e5), st.floats(0.001, 0.3))
@settings(max_examples=10)
def test_the_jerk_is_what_the_equation_of_motion_gives(pull, stiffness, slack):
    # A mass of 300 kg, pulled from rest through the slack and then held back by the rope.
    def moves(_, y):
        return y[1], (pull - stiffness * max(y[0] - slack, 0.0)) / 300.0

    def turns(_, y):
        return y[1] - 1e-12

    turns.terminal, turns.direction = True, -1
    ended = solve_ivp(moves, (0, 100), [0.0, 1e-9], events=turns, rtol=1e-9, atol=1e-12, max_step=0.01)
    assert stiffness * (ended.y[0].max() - slack) == pytest.approx(float(snatch(pull, stiffness, slack)), rel=2e-3)


def test_a_rope_meets_the_ground_and_stretches_as_its_geometry_says():
    rope = Rope((2.0, 3.0, 1.5), (0.6, 0.8), 40.0, 9000.0, 0.15, 4000.0)
    ring, anchor = np.array(rope.ring_m), np.array([*rope.anchor_m, 0.0])
    assert np.degrees(np.arcsin((ring - anchor)[2] / np.linalg.norm(ring - anchor))) == pytest.approx(40.0)
    rise, before = 1e-6, np.linalg.norm(ring - anchor)
    stretch = np.linalg.norm(ring + np.array([0, 0, rise]) - anchor) - before
    tension = 9000.0 / 0.15 * stretch / before
    assert rope.upward_stiffness_n_m == pytest.approx(tension * rope.sine / rise, rel=1e-4)


def test_wind_from_ahead_lifts_both_halves_alike_and_pushes_nothing_aside():
    left, right, _, drag, side = wind_loads(AIR, 40.0)
    assert left == right > 0
    assert drag > 0 == side


def test_a_side_wind_lifts_the_windward_half_more():
    left, right, _, _, side = wind_loads(AIR, 40.0, 45.0)
    assert left > right
    assert side > 0
    assert wind_loads(AIR, 40.0, 90.0).side_n > side
    assert wind_loads(AIR, 40.0, -45.0).side_n == pytest.approx(-side)


def test_the_lift_stops_growing_at_the_wings_greatest():
    area = AIR.wing_area_m2
    high = wind_loads(AIR, 40.0, nose_up_deg=20.0)
    assert high.left_n + high.right_n == pytest.approx(float(wind_pressure_pa(40.0)) * area * AIR.most_lift)


def test_the_elevator_moves_the_tail_the_right_way():
    up, locked, down = (float(wind_loads(AIR, 40.0, elevator_deg=e).tail_n) for e in (-20.0, 0.0, 20.0))
    # Locked, it stands in the wing's downwash, which pushes it down.
    assert up < locked < 0 < down


@given(st.floats(0.2, 1.5))
@settings(max_examples=10)
def test_lift_off_by_a_root_finder(coefficient):
    kt = brentq(lambda v: float(wind_pressure_pa(v)) * 16.0 * coefficient - 7000.0, 1.0, 199.0)
    assert float(lift_off_kt(7000.0, 16.0, coefficient)) == pytest.approx(kt)


def test_wind_shapes_loop():
    winds, sides = np.array([[10.0], [50.0]]), np.array([-30.0, 0.0, 60.0])
    together = wind_loads(AIR, winds, sides, 4.0, 5.0)
    for i, j in np.ndindex(2, 3):
        assert [force[i, j] for force in together] == pytest.approx(
            list(wind_loads(AIR, winds[i, 0], sides[j], 4.0, 5.0))
        )


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: chock_force(-1.0, 8.0, 2.0), "weight is -1; allowed: 0 or more"),
        (lambda: chock_force(1.0, 0.0, 2.0), "wheel_radius is 0; allowed: more than 0"),
        (lambda: chock_force(1.0, [8.0, 8.0], [1.0, 2.0, 3.0]), "these do not fit together"),
        (lambda: rope_tension(10.0, 2.0), "angle_deg is 2 °; allowed: 5 to 90 °"),
        (lambda: line_strength(10.0, 5.0, knot_share=1.2), "knot_share is 1.2; allowed: 0 to 1"),
        (lambda: snatch(10.0, 0.0, 1.0), "stiffness is 0; allowed: more than 0"),
        (lambda: wind_pressure_pa(-5.0), "wind_kt is -5 kt; allowed: 0 to 200 kt"),
        (lambda: wind_loads(AIR, 10.0, 120.0), "from_deg is 120 °; allowed: -90 to 90 °"),
        (lambda: Rope((0, 0, 0), (1, 0), 45.0, 1.0, 0.1, 1.0), r"ring_m\[2\] is 0 m; allowed: more than 0"),
        (lambda: Rope((0, 0), (1, 0), 45.0, 1.0, 0.1, 1.0), r"ring_m has shape \(2,\); allowed: 3 numbers"),
        (lambda: Rope((0, 0, 1), (0, -2), 45.0, 1.0, 0.1, 1.0), "leads has length 2; allowed: 1"),
        (lambda: standing(tie_down.parked(FOUR), float("nan")), "wind_kt is not a number kt; allowed"),
    ],
)
def test_mistakes_are_named(call, says):
    with pytest.raises(ValueError, match=says):
        call()


def test_the_winds_forces_by_hand():
    # ½ ρ V² at 50 kt, and each coefficient worked out step by step from the airframe's figures.
    frame = Airframe(16.0, 11.0, 2.6, 4.0, 2.0, 1.4, 3.0, 3.3, 7.4, 0.9, 0.6, 1.0, 1.3, 6.0, 1.2)
    pressure, beta, nose, elevator = 0.5 * 1.225 * (50 * 1852 / 3600) ** 2, np.radians(30), 2.0, 5.0
    found = wind_loads(frame, 50.0, 30.0, nose, elevator, density_kg_m3=1.225)

    def helmbold(aspect):
        return 2 * np.pi * aspect / (2 + np.sqrt(aspect**2 + 4))

    aspect, c, s = 11.0**2 / 16.0, np.cos(beta), np.sin(beta)
    flat = helmbold(aspect) * c * c * np.radians(nose + 4.0)
    tilt = helmbold(aspect) * c * s * np.radians(2.0)
    tail = helmbold(3.3**2 / 3.0) * (c * c * np.radians(nose + 0.6 * elevator) - 2 * flat / (np.pi * aspect))
    # Induced drag is lift times the angle that it turns the air by, C/πA for the wind that crosses the span.
    drag = c * c + 16.0 * flat * (flat / c**2) / (np.pi * aspect)
    by_hand = [8.0 * (flat + tilt), 8.0 * (flat - tilt), 3.0 * tail, drag, 6.0 * s * s]
    assert list(found) == pytest.approx([pressure * part for part in by_hand], rel=1e-9)


def test_moments_by_hand():
    asked = tie_down.parked(FOUR, slope_deg=2.0)
    wind = WindLoads(3000.0, 2000.0, -400.0, 500.0, 600.0)
    air, slope = asked.airframe, np.radians(2.0)
    down, back = asked.weight_n * np.cos(slope), asked.weight_n * np.sin(slope)
    arm = 4 / (3 * np.pi) * air.span_m / 2
    up, aft, right = load(asked, wind)
    assert up == pytest.approx(4600.0 - down)
    assert aft == pytest.approx(
        5000.0 * air.wing_arm_m - 400.0 * air.tail_arm_m - down * asked.cg_m
        - 500.0 * 50 * 0.0254 - back * 42 * 0.0254
    )  # fmt: skip
    assert right == pytest.approx(-1000.0 * arm - 600.0 * 48 * 0.0254)


def test_supports_in_a_line_hold_nothing_beside_it():
    tied = (3, 0), (4, 0), (5, 0)
    with pytest.raises(ValueError, match="wheels_m are in one line; allowed: three places that are not"):
        Supports(((0, 0), (1, 0), (2, 0)), tied, (1e4, 1e4, 1e4))
    between = Supports(((0, 0), (2, -1), (2, 1)), tied, (1e4, 1e4, 1e4))
    assert carried(between, [-100.0, -150.0, 20.0]).held
    assert carried(between, [100.0, 400.0, 0.0]).held
    assert not carried(between, [100.0, 400.0, 200.0]).held


def test_ropes_stretch_as_their_fibres_do():
    # Rules of thumb (recalled): nylon stretches most, natural fibre least.
    stretch = {name.split()[0]: share for name, (_, share) in ROPES.items()}
    assert stretch == {"manila": 0.13, "polypropylene": 0.2, "nylon": 0.3}


@pytest.mark.parametrize(("name", "most"), [("from_deg", 90.0), ("nose_up_deg", 20.0), ("elevator_deg", 45.0)])
def test_angles_up_to_their_ends_are_taken_and_none_beyond(name, most):
    wind_loads(AIR, 30.0, **{name: most})
    with pytest.raises(ValueError, match=f"{name} is"):
        wind_loads(AIR, 30.0, **{name: most + 0.5})
