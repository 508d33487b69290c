"""A running engine that heats up: properties, steps against the exact solution, and arguments out of range."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from walkaround.physics import cooling
from walkaround.physics.cooling import CRANKCASE, LEFT, OIL, PARTS, RIGHT, Engine, Setting, Stream, run, settled_c

ENGINE = Engine(
    *(180, 0.27, 0.15, 0.035, 30e3, 46e3, 11e3, 50, 220, 4.5),
    heads_air=Stream(3000, 480),
    oil_air=Stream(2900, 300),
    at_kt=74,
    slipstream_kt=38,
    intake_ratio=1.2,
    leak=0.05,
    shared=0.75,
)
shares = st.floats(0, 1)
powers = st.floats(0.05, 1)
speeds = st.floats(0, 200)
few = settings(max_examples=40)


def flight(power=1.0, speed=74.0, left=1.0, right=1.0, kit=1.0):
    """Taxi, run-up and climb with the intakes as they are."""
    opened = (left, right, kit)
    return ((0.0, Setting(0.1, 5.0, *opened)), (6.0, Setting(0.4, 0.0, *opened)), (7.0, Setting(power, speed, *opened)))


def by_steps(stretches, outside_c, until):
    """Temperatures at the end of each stretch and at `until`, by scipy, from the equations written out once more."""
    rise, found = np.zeros(4), []
    capacities = np.array([15e3, 15e3, 11e3, 46e3])
    for (begin, s), end in zip(stretches, [*(b for b, _ in stretches[1:]), until], strict=True):
        fuel_w = 180 * 745.69987 / 0.27 * s.power**0.64
        heat = fuel_w * np.array([0.075, 0.075, 0.035, 0.0])
        driven = np.sqrt(s.speed_kt**2 + (38 * s.power ** (1 / 3)) ** 2) / 74

        def through(a):
            return 1 / np.sqrt(1 / (1.2 * a) ** 2 + 1) * np.sqrt(1 / 1.2**2 + 1)

        left, right = (0.05 + 0.95 * a for a in (s.left_open, s.right_open))
        both = through((left + right) / 2)
        flows = [*(0.25 * through(a) + 0.75 * both for a in (left, right)), both * (0.05 + 0.95 * s.oil_open)]
        taken = []
        for flow, full, ua in zip(flows, (1500, 1500, 2900), (240, 240, 300), strict=True):
            carried = cooling.engine.heat_transfer.flow_w_per_k(full * flow * driven)
            taken.append(carried * (1 - np.exp(-ua * (flow * driven) ** 0.6 / carried)))

        def slope(_, r, heat=heat, taken=taken):
            to_case = np.array([25, 25, 220]) * (r[:3] - r[3])
            return (heat - np.array([*(taken * r[:3] + to_case), 4.5 * r[3] - to_case.sum()])) / capacities

        done = solve_ivp(slope, (0, 60 * (end - begin)), rise, rtol=1e-9, atol=1e-9)
        rise = done.y[:, -1]
        found.append(rise + outside_c)
    return np.array(found)


@pytest.mark.parametrize(("left", "right", "kit"), [(1, 1, 1), (1, 0, 1), (0.4, 0.7, 0.5), (0, 0, 0)])
def test_the_exact_solution_is_what_steps_come_to(left, right, kit):
    stretches = (*flight(left=left, right=right, kit=kit), (11.0, Setting(0.75, 90.0, left, right, kit)))
    exact = run(ENGINE, stretches, 20.0).temperatures_c([6.0, 7.0, 11.0, 25.0])
    np.testing.assert_allclose(exact, by_steps(stretches, 20.0, 25.0), rtol=1e-6)


@few
@given(power=powers, speed=speeds, left=shares, right=shares, kit=shares, outside=st.floats(-30, 40))
def test_at_the_steady_state_as_much_heat_goes_out_as_comes_in(power, speed, left, right, kit, outside):
    setting = Setting(power, speed, left, right, kit)
    settled = settled_c(ENGINE, setting, outside)
    out = (ENGINE.losses_w_per_k(setting) * (settled - outside)).sum()
    assert out == pytest.approx(ENGINE.heat_w(setting).sum(), rel=1e-9)
    late = run(ENGINE, ((0.0, setting),), outside).temperatures_c(1e5)
    np.testing.assert_allclose(late, settled, rtol=1e-6)


@few
@given(power=powers, speed=speeds, left=shares, right=shares, less=shares, minutes=st.floats(0, 30))
def test_more_blocked_is_never_cooler(power, speed, left, right, less, minutes):
    for more in ((left * less, right, 1), (left, right * less, 1), (left, right, less)):
        before, after = (
            run(ENGINE, flight(power, speed, *opened), 15.0).temperatures_c(minutes)
            for opened in ((left, right, 1), more)
        )
        assert (after >= before - 1e-7).all()


@few
@given(power=powers, more=shares, speed=st.floats(30, 200), left=shares, right=shares, minutes=st.floats(7, 40))
def test_more_power_is_never_cooler(power, more, speed, left, right, minutes):
    up = power + more * (1 - power)
    low, high = (run(ENGINE, flight(p, speed, left, right), 15.0).temperatures_c(minutes) for p in (power, up))
    assert (high >= low - 1e-7).all()


@few
@given(power=powers, speed=speeds, more=st.floats(0, 150), left=shares, right=shares, minutes=st.floats(0, 40))
def test_more_speed_is_never_hotter(power, speed, more, left, right, minutes):
    slow, fast = (
        run(ENGINE, flight(power, v, left, right), 15.0).temperatures_c(minutes) for v in (speed, speed + more)
    )
    assert (fast <= slow + 1e-7).all()


@few
@given(warmer=st.floats(0, 30), minutes=st.floats(0, 40), right=shares)
def test_every_degree_outside_is_a_degree_in_the_engine(warmer, minutes, right):
    one, other = (run(ENGINE, flight(right=right), outside).temperatures_c(minutes) for outside in (5.0, 5.0 + warmer))
    np.testing.assert_allclose(other - one, warmer, atol=1e-9)


@few
@given(left=shares, right=shares)
def test_left_and_right_are_alike(left, right):
    one, other = (settled_c(ENGINE, Setting(1.0, 74.0, *opened), 15.0) for opened in ((left, right), (right, left)))
    np.testing.assert_allclose(one, other[[1, 0, 2, 3]])


@few
@given(limit=st.floats(30, 300), right=shares, part=st.sampled_from([LEFT, RIGHT, OIL]))
def test_a_limit_is_reached_at_the_moment_it_says(limit, right, part):
    climb = run(ENGINE, flight(right=right), 15.0)
    at = float(climb.reached_minutes(part, limit))
    if at < 1e4:
        assert float(climb.temperature_c(part, at)) == pytest.approx(limit, abs=1e-6)
        before = climb.temperature_c(part, np.linspace(0, at, 50)[:-1])
        assert (before < limit).all()
    else:
        assert (climb.temperature_c(part, np.linspace(0, 300, 50)) < limit).all()


def test_arrays_are_loops():
    outside, rights, minutes = np.array([[-10.0], [30.0]]), np.array([0.0, 0.5, 1.0]), 9.0
    many = run(ENGINE, flight(right=rights), outside)
    temperatures, reached = many.temperatures_c(minutes), many.reached_minutes(RIGHT, 200.0)
    steady = settled_c(ENGINE, Setting(1.0, 74.0, 1.0, rights), outside)
    for i, j in np.ndindex(2, 3):
        one = run(ENGINE, flight(right=float(rights[j])), float(outside[i, 0]))
        np.testing.assert_allclose(temperatures[i, j], one.temperatures_c(minutes))
        np.testing.assert_allclose(reached[i, j], one.reached_minutes(RIGHT, 200.0))
        at = Setting(1.0, 74.0, 1.0, float(rights[j]))
        np.testing.assert_allclose(steady[i, j], settled_c(ENGINE, at, float(outside[i, 0])))
    along = many.temperature_c(OIL, np.linspace(0, 20, 5)[:, np.newaxis, np.newaxis])
    assert along.shape == (5, 2, 3)


def test_it_goes_on_where_the_stretch_before_left_off():
    climb = run(ENGINE, flight(right=0.3), 15.0)
    for moment in (6.0, 7.0):
        before, after = climb.temperatures_c([np.nextafter(moment, 0), moment])
        np.testing.assert_allclose(before, after, rtol=1e-9)
    hot = np.array([150.0, 160.0, 70.0, 60.0])
    np.testing.assert_allclose(run(ENGINE, flight(), 15.0, hot).temperatures_c(0.0), hot)


def test_half_of_the_area_passes_more_than_half_of_the_air():
    openings = np.linspace(0, 1, 11)
    through = cooling.series_share(openings, 1.2)
    assert (np.diff(through) > 0).all()
    assert (through[1:-1] > openings[1:-1]).all()
    assert all(a >= b for a, b in pairwise(np.diff(through)))


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Setting(1.2, 74.0), "power is 1.2; allowed: 0.02 to 1"),
        (lambda: Setting(1.0, -1.0), "speed_kt is -1 kt; allowed: 0 to 400 kt"),
        (lambda: Setting(1.0, 74.0, 1.0, [0.5, 1.5]), r"right_open\[1\] is 1.5; allowed: 0 to 1"),
        (lambda: Setting([1.0, 1.0], [1.0, 2.0, 3.0]), "power has shape"),
        (lambda: Setting(float("nan"), 74.0), "power is not a number"),
        (lambda: cooling.fuel_heat_w(180, 0), "efficiency is 0; allowed: more than 0, up to 1"),
        (lambda: cooling.fuel_heat_w([180.0] * 2, [0.3] * 3), "do not fit together: horsepower"),
        (lambda: cooling.series_share(0.5, 0), "intake_ratio is 0; allowed: more than 0"),
        (lambda: cooling.series_share([0.5] * 2, [1.2] * 3), "do not fit together: open_share"),
        (lambda: cooling.cooling_speed_kt([50.0] * 2, [0.5] * 3, 40.0), "do not fit together: speed_kt"),
        (lambda: cooling.bank_shares([0.5] * 2, [0.5] * 3, 1.2, 0.05, 0.5), "do not fit together: .*left_open"),
        (lambda: Stream(3000.0, float("nan")), "w_per_k is not a number"),
        (lambda: run(ENGINE, ((1.0, Setting(1.0, 74.0)),), 15.0), "begins at 1 min; allowed: 0 min"),
        (lambda: run(ENGINE, [(0.0, Setting(1.0, 74.0))] * 2, 15.0), r"stretches\[1\] is 0 s"),
        (lambda: run(ENGINE, flight(), 99.0), "outside_c is 99 °C; allowed: -90 to 60 °C"),
        (lambda: run(ENGINE, flight(), 15.0).temperature_c("carburettor", 1.0), "allowed: left, right, oil, crankcase"),
        (lambda: run(ENGINE, flight(), 15.0, [15.0] * 3), r"start_c has shape \(3,\); allowed: 4 temperatures"),
        (lambda: run(ENGINE, flight(), 15.0).temperatures_c(-1.0), "minutes is -1 min; allowed: 0 min or more"),
        (
            lambda: Engine(180, 0.7, 0.25, 0.1, *[1] * 6, Stream(1, 1), Stream(1, 1), *[1] * 5),
            "make 1.05; allowed: up to 1",
        ),
    ],
)
def test_what_is_out_of_range_is_named(make, says):
    with pytest.raises(ValueError, match=says):
        make()


def test_the_parts_stand_in_order():
    assert PARTS == (LEFT, RIGHT, OIL, CRANKCASE)


AT_CLIMB = Setting(1.0, 74.0)


@pytest.mark.parametrize(
    ("name", "call", "low", "high"),
    [
        ("power", lambda x: Setting(x, 74.0), 0.02, 1.0),
        ("speed_kt", lambda x: Setting(1.0, x), 0.0, 400.0),
        ("left_open", lambda x: Setting(1.0, 74.0, left_open=x), 0.0, 1.0),
        ("oil_open", lambda x: Setting(1.0, 74.0, oil_open=x), 0.0, 1.0),
        ("outside_c", lambda x: settled_c(ENGINE, AT_CLIMB, x), -90.0, 60.0),
        ("outside_c", lambda x: run(ENGINE, ((0.0, AT_CLIMB),), x), -90.0, 60.0),
        ("start_c", lambda x: run(ENGINE, ((0.0, AT_CLIMB),), 15.0, [x] * 4), -90.0, 300.0),
        ("limit_c", lambda x: run(ENGINE, ((0.0, AT_CLIMB),), 15.0).reached_minutes(OIL, x), -90.0, 1000.0),
        ("shared", lambda x: cooling.bank_shares(1.0, 1.0, 1.2, 0.05, x), 0.0, 1.0),
        ("open_share", lambda x: cooling.series_share(x, 1.2), 0.0, 1.0),
    ],
)
def test_ends_are_allowed_and_what_is_beyond_them_is_not(name, call, low, high):
    for end in (low, high):
        call(end)
    for beyond in (low - 0.01, high + 0.01):
        with pytest.raises(ValueError, match=name):
            call(beyond)


def test_what_has_to_be_above_0():
    for make in (
        lambda: cooling.fuel_heat_w(0, 0.27),
        lambda: cooling.cooling_speed_kt(74.0, 1.0, 0),
        lambda: cooling.bank_shares(1.0, 1.0, 1.2, 0, 0.5),
        lambda: Stream(3000, 480).taken_w_per_k(0),
    ):
        with pytest.raises(ValueError, match="more than 0"):
            make()


def test_an_engine_has_a_speed_at_which_its_air_holds():
    with pytest.raises(ValueError, match="at_kt is 0 kt; allowed: more than 0 kt"):
        replace(ENGINE, at_kt=0)
    replace(ENGINE, at_kt=0.5)


@pytest.mark.parametrize("name", ["heads_j_per_k", "crankcase_w_per_k", "horsepower", "efficiency", "leak"])
@pytest.mark.parametrize("wrong", [0.0, float("nan"), [0.5, 0.6], "much"])
def test_an_engine_whose_numbers_are_out_of_range_is_refused(name, wrong):
    with pytest.raises(ValueError, match=f"{name} (is|has shape) "):
        replace(ENGINE, **{name: wrong})
