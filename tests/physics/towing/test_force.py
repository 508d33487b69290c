"""The pull of towing: statics by scipy, in units of its own, limits of the balance, and bad input."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry
from scipy.integrate import solve_ivp
from walkaround.physics.towing import SURFACES, rolls_to_m_s, tow_loads

FOUR = dict(cg_behind_nose=48.0, wheelbase=65.0, cg_height=40.0, axle_height=7.0)
SLOPES, SHARES = st.floats(-10, 10), st.floats(0.0, 0.3)


def by_statics(weight, slope_percent, rolling, locked, cg_behind_nose, wheelbase, cg_height, axle_height):
    """Pull, nose and mains from the three equations of balance as a linear system, moments about the CG."""
    angle = np.arctan(slope_percent / 100)
    k = rolling if np.isnan(locked) else locked
    behind = wheelbase - cg_behind_nose
    equations = [
        [1.0, -rolling, -k],  # along the ground
        [0.0, 1.0, 1.0],  # across it
        # About the CG, nose up: pull and drag act below it, the nose wheel ahead, the main wheels behind.
        [cg_height - axle_height, cg_behind_nose - rolling * cg_height, -behind - k * cg_height],
    ]
    return np.linalg.solve(equations, [weight * np.sin(angle), weight * np.cos(angle), 0.0])


@given(st.floats(100, 5000), SLOPES, SHARES, st.one_of(st.just(np.nan), st.floats(0.0, 0.9)))
def test_forces_and_moments_balance(weight, slope, rolling, locked):
    loads = tow_loads(weight, slope, rolling, locked, **FOUR)
    expected = by_statics(weight, slope, rolling, locked, **FOUR)
    assert [float(v) for v in (loads.pull, loads.nose, loads.mains)] == pytest.approx(expected, rel=1e-9)
    assert float(loads.slope + loads.rolling + loads.brake) == pytest.approx(float(loads.pull), abs=1e-9 * weight)


@given(st.floats(100, 5000), SLOPES, SHARES, st.floats(0.3, 0.9))
def test_the_brake_costs_and_so_does_the_slope(weight, slope, rolling, locked):
    off, on = (float(tow_loads(weight, slope, rolling, k, **FOUR).pull) for k in (np.nan, locked))
    assert on >= off - 1e-9
    assert float(tow_loads(weight, slope + 1, rolling, np.nan, **FOUR).pull) > off
    assert float(tow_loads(2 * weight, slope, rolling, locked, **FOUR).pull) == pytest.approx(2 * on)


def test_level_ground_brake_off_is_rolling_resistance_and_nothing_else():
    loads = tow_loads(2000.0, 0.0, 0.02, np.nan, **FOUR)
    assert (float(loads.pull), float(loads.slope), float(loads.brake)) == (pytest.approx(40.0), 0.0, 0.0)


def test_where_the_pull_turns_into_holding_back():
    for surface in SURFACES:
        down, up = (
            float(tow_loads(2000.0, -100 * surface.rolling + d, surface.rolling, np.nan, **FOUR).pull)
            for d in (-0.1, 0.1)
        )
        assert down < 0 < up


def test_it_broadcasts_as_a_loop_does():
    slopes, locked = np.array([[-3.0], [0.0], [5.0]]), np.array([np.nan, 0.1, 0.7])
    whole = tow_loads(2000.0, slopes, 0.02, locked, **FOUR)
    for i, slope in enumerate(slopes[:, 0]):
        for j, k in enumerate(locked):
            one = tow_loads(2000.0, slope, 0.02, k, **FOUR)
            assert [float(np.broadcast_to(v, (3, 3))[i, j]) for v in whole] == pytest.approx([float(v) for v in one])


def test_in_units_of_its_own():
    unit = UnitRegistry()
    slope = (2300 * unit.lbf * np.sin(np.arctan(0.03))).to("newton").magnitude
    newtons = (2300 * unit.pound * unit.standard_gravity).to("newton").magnitude
    assert float(tow_loads(newtons, 3.0, 0.0, np.nan, **FOUR).pull) == pytest.approx(slope, rel=1e-9)


@pytest.mark.parametrize(("slope", "rolling", "metres"), [(4.0, 0.02, 20.0), (8.0, 0.05, 5.0), (3.0, 0.0, 40.0)])
def test_rolling_off_is_what_scipy_integrates(slope, rolling, metres):
    angle = np.arctan(slope / 100)
    pull = 9.80665 * (np.sin(angle) - rolling * np.cos(angle))

    def there(_t, now):
        return now[0] - metres

    there.terminal = True
    end = solve_ivp(lambda _t, now: (now[1], pull), (0, 1000), [0, 0], events=there, rtol=1e-9).y[1, -1]
    assert float(rolls_to_m_s(metres, slope, rolling)) == pytest.approx(end, rel=1e-6)


def test_a_centre_of_gravity_right_above_the_main_wheels_lifts_nothing():
    # 1,000 · 61.8/61.8 comes out a rounding error above 1,000, and the nose wheel's load as far below 0.
    at = 61.800000000000026
    loads = tow_loads(1000.0, 0.0, 0.0, np.nan, cg_behind_nose=at, wheelbase=at, cg_height=40.0, axle_height=7.0)
    assert abs(float(loads.nose)) < 1e-6


def test_it_stays_where_the_slope_is_less_than_its_rolling_resistance():
    assert float(rolls_to_m_s(50.0, 1.9, 0.02)) == 0.0 < float(rolls_to_m_s(50.0, 2.1, 0.02))


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: tow_loads(0.0, 0.0, 0.02, 0.7, **FOUR), "weight is 0; allowed: more than 0"),
        (lambda: tow_loads(1.0, [0.0, 31.0], 0.02, 0.7, **FOUR), r"slope_percent\[1\] is 31 %; allowed: -30 to 30 %"),
        (lambda: tow_loads(1.0, 0.0, 1.2, 0.7, **FOUR), "rolling is 1.2; allowed: 0 to 1"),
        (lambda: tow_loads(1.0, 0.0, 0.02, -0.1, **FOUR), "locked is -0.1; allowed: 0 to 1"),
        (lambda: tow_loads(1.0, 0.0, 0.02, 0.7, **{**FOUR, "cg_behind_nose": 90.0}), "nose wheel would lift"),
        (lambda: tow_loads(1.0, 0.0, 0.02, 0.7, **{**FOUR, "axle_height": 0.0}), "axle_height is 0; allowed: more"),
        (lambda: tow_loads(1.0, 0.0, 0.02, "on", **FOUR), "locked is .*on.*; allowed: 0 to 1"),
        (lambda: tow_loads(1.0, 0.0, [0.02] * 2, [0.7] * 3, **FOUR), r"rolling has shape \(2,\), locked has shape"),
        (lambda: tow_loads(1.0, 0.0, 0.02, 0.7, 48.0, [65.0] * 2, [40.0] * 3, 7.0), r"wheelbase has shape \(2,\)"),
        (lambda: tow_loads([1.0, 2.0], [0.0, 1.0, 2.0], 0.02, 0.7, **FOUR), "these do not fit together"),
        (lambda: rolls_to_m_s(-1.0, 2.0, 0.02), "distance_m is -1 m; allowed: 0 m or more"),
        (lambda: rolls_to_m_s(1.0, -2.0, 0.02), "slope_percent is -2 %; allowed: 0 to 30 %"),
        (lambda: rolls_to_m_s(1.0, 2.0, np.nan), "rolling is not a number"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
