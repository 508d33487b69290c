"""The take-off roll: against integrating the motion, against `fluids` for the density, and its properties."""

from math import inf

import numpy as np
import pytest
from fluids import ATMOSPHERE_1976
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from walkaround.physics.air import airspeed, atmosphere
from walkaround.physics.air.takeoff import airspeed_at_kt, alive_s, as_flight, distance_at_ft, rejected, takeoff_roll
from walkaround.physics.pitot_static.over_flight import Blockage, indications_over
from walkaround.units import FOOT_M, KNOT_M_S

ROLLS, LIFT_OFFS = st.floats(300.0, 3000.0), st.floats(40.0, 80.0)
FIELDS, OUTSIDE, WINDS = st.floats(-500.0, 9000.0), st.floats(-25.0, 42.0), st.floats(-10.0, 25.0)


def test_standard_day_at_sea_level_is_the_roll_given():
    roll = takeoff_roll(1000.0, 60.0)
    assert roll.ground_roll_ft == pytest.approx(1000.0)
    assert roll.lift_off_tas_kt == pytest.approx(60.0)
    # Even acceleration: the mean speed is half of lift-off speed.
    assert roll.lift_off_s == pytest.approx(1000.0 * FOOT_M / (30.0 * KNOT_M_S))


@pytest.mark.parametrize(("field_m", "warmer_c"), [(0.0, 20.0), (1500.0, 0.0), (1500.0, 20.0), (2500.0, -15.0)])
def test_thin_air_lengthens_the_roll_by_the_density_ratio_of_fluids(field_m, warmer_c):
    standard = ATMOSPHERE_1976(field_m)
    geopotential_ft = 6356766.0 * field_m / (6356766.0 + field_m) / FOOT_M
    sigma = standard.rho * standard.T / (standard.T + warmer_c) / ATMOSPHERE_1976(0.0).rho
    roll = takeoff_roll(900.0, 55.0, geopotential_ft, standard.T + warmer_c - 273.15)
    assert roll.density_ratio == pytest.approx(sigma, rel=1e-5)
    # Compressibility moves the true airspeed by a thousandth at most at this speed.
    assert roll.lift_off_tas_kt == pytest.approx(55.0 / np.sqrt(sigma), rel=1e-3)
    assert roll.ground_roll_ft == pytest.approx(900.0 / sigma**2, rel=2e-3)
    same_pull = takeoff_roll(900.0, 55.0, geopotential_ft, standard.T + warmer_c - 273.15, 0.0, 0.0)
    assert same_pull.ground_roll_ft == pytest.approx(900.0 / sigma, rel=2e-3)


@given(ROLLS, LIFT_OFFS, FIELDS, OUTSIDE, WINDS)
def test_lifts_off_at_the_airspeed_given_where_the_roll_ends(roll_ft, lift_off_kt, field_ft, outside_c, wind_kt):
    roll = takeoff_roll(roll_ft, lift_off_kt, field_ft, outside_c, wind_kt)
    assert airspeed_at_kt(roll, roll.lift_off_s) == pytest.approx(lift_off_kt, abs=1e-6)
    assert distance_at_ft(roll, roll.lift_off_s) == pytest.approx(roll.ground_roll_ft)


@given(ROLLS, LIFT_OFFS, FIELDS, OUTSIDE, WINDS, st.floats(0.3, 1.0))
def test_alive_is_when_the_first_mark_is_reached(roll_ft, lift_off_kt, field_ft, outside_c, wind_kt, share):
    roll = takeoff_roll(roll_ft, lift_off_kt, field_ft, outside_c, wind_kt)
    mark_kt = share * lift_off_kt
    when = alive_s(roll, mark_kt)
    assert 0.0 <= when <= roll.lift_off_s + 1e-9
    if when > 0:
        assert airspeed_at_kt(roll, when) == pytest.approx(mark_kt, abs=1e-6)
    else:
        assert airspeed_at_kt(roll, 0.0) >= mark_kt - 1e-6


def test_a_headwind_shortens_the_roll_and_wakes_the_needle_sooner():
    calm, windy = takeoff_roll(900.0, 55.0), takeoff_roll(900.0, 55.0, headwind_kt=15.0)
    assert windy.ground_roll_ft == pytest.approx(900.0 * (40.0 / 55.0) ** 2)
    assert alive_s(windy, 40.0) < alive_s(calm, 40.0)
    tail = takeoff_roll(900.0, 55.0, headwind_kt=-10.0)
    assert airspeed_at_kt(tail, 0.0) == 0.0
    assert tail.ground_roll_ft > 900.0


@pytest.mark.parametrize(("decided_s", "reaction_s"), [(5.0, 0.0), (13.0, 2.0), (24.0, 1.0)])
def test_stopping_distance_agrees_with_integrating_the_motion(decided_s, reaction_s):
    roll = takeoff_roll(900.0, 55.0, 3000.0, 25.0)
    stop = rejected(roll, decided_s, 3000.0, deceleration_kt_s=4.0, reaction_s=reaction_s)
    faster = float(roll.acceleration_kt_s) * KNOT_M_S
    top = solve_ivp(lambda t, x: [x[1], faster], (0.0, decided_s + reaction_s), [0.0, 0.0], rtol=1e-10).y[:, -1]

    def standing(t, x):
        return x[1]

    standing.terminal, standing.direction = True, -1
    slowing = solve_ivp(lambda t, x: [x[1], -4.0 * KNOT_M_S], (0.0, 999.0), top, events=standing, rtol=1e-10)
    assert stop.top_ground_kt == pytest.approx(top[1] / KNOT_M_S)
    assert stop.stop_ft == pytest.approx(slowing.y_events[0][0][0] / FOOT_M, rel=1e-6)


@given(ROLLS, LIFT_OFFS, st.floats(0.0, 40.0), st.floats(0.0, 4.0), st.floats(500.0, 6000.0))
def test_rejecting_later_or_reacting_slower_never_stops_shorter(roll_ft, lift_off_kt, when, reaction_s, runway_ft):
    roll = takeoff_roll(roll_ft, lift_off_kt)
    stop = rejected(roll, [when, when + 1.0, when], runway_ft, 4.0, [reaction_s, reaction_s, reaction_s + 1.0])
    assert stop.stop_ft[1] > stop.stop_ft[0]
    assert stop.stop_ft[2] > stop.stop_ft[0]
    assert np.array_equal(stop.fits, stop.runway_left_ft >= 0)
    assert np.array_equal(stop.past_lift_off, np.array([when, when + 1.0, when]) >= roll.lift_off_s)


def test_ten_seconds_late_the_same_runway_is_too_short():
    roll = takeoff_roll(900.0, 55.0)
    call = alive_s(roll, 40.0)
    stop = rejected(roll, call + np.array([0.0, 10.0]), 2000.0, deceleration_kt_s=4.0, reaction_s=2.0)
    assert stop.fits.tolist() == [True, False]
    assert stop.past_lift_off.tolist() == [False, True]


def test_covered_indicator_stays_at_zero_and_a_clear_one_agrees():
    roll = takeoff_roll(900.0, 55.0, 2000.0, 30.0, headwind_kt=8.0)
    flight = as_flight(roll, until_s=30.0)
    clear = indications_over(flight).airspeed_kt
    assert np.allclose(clear, airspeed_at_kt(roll, flight.time_s), atol=1e-4)
    # A cover put on in the calm hangar traps still air; here it goes on in the wind, with the drain clear.
    covered = indications_over(flight, Blockage(0.0, pitot_lag_s=inf)).airspeed_kt
    assert np.all(covered == 0.0)


def test_flight_keeps_field_and_temperature():
    flight = as_flight(takeoff_roll(900.0, 55.0, 2000.0, 30.0))
    assert np.all(flight.altitude_ft == 2000.0)
    assert flight.outside_c[0] == pytest.approx(30.0)
    assert flight.isa_deviation_c == pytest.approx(30.0 - atmosphere.temperature_c(2000.0))


@given(ROLLS, LIFT_OFFS, FIELDS, OUTSIDE)
def test_broadcasting_equals_looping(roll_ft, lift_off_kt, field_ft, outside_c):
    assume(lift_off_kt > 41.0)
    fields, temperatures = (np.array([field_ft, field_ft + 500.0])[:, None], np.array([outside_c, outside_c + 1.0]))
    table = takeoff_roll(roll_ft, lift_off_kt, fields, temperatures)
    stops = rejected(table, alive_s(table, 40.0), 2500.0, 4.0, 2.0)
    assert table.ground_roll_ft.shape == stops.stop_ft.shape == (2, 2)
    one = takeoff_roll(roll_ft, lift_off_kt, fields[1, 0], temperatures[0])
    assert table.ground_roll_ft[1, 0] == pytest.approx(one.ground_roll_ft, rel=1e-12)
    stop_ft = rejected(one, alive_s(one, 40.0), 2500.0, 4.0, 2.0).stop_ft
    assert stops.stop_ft[1, 0] == pytest.approx(stop_ft, rel=1e-12)


ROLL = takeoff_roll(900.0, 55.0)


@pytest.mark.parametrize("field_ft", [0.0, 2741.0, 8000.0])
@pytest.mark.parametrize("lift_off_kt", [21.0, 33.3, 48.0, 51.7])
def test_a_headwind_as_fast_as_the_lift_off_speed_leaves_no_roll(beside, lift_off_kt, field_ft):
    for wind_kt in beside(airspeed.true_airspeed_kt(lift_off_kt, field_ft)):
        with pytest.raises(ValueError, match="lift-off speed less headwind_kt is 0 kt; allowed: more than 0 kt"):
            takeoff_roll(900.0, lift_off_kt, field_ft, headwind_kt=wind_kt)


def test_a_stop_at_the_very_end_of_the_runway_fits(beside):
    stop_ft = float(rejected(ROLL, 9.0, 2000.0, 4.0, 2.0).stop_ft)
    for runway_ft in beside(stop_ft):
        stop = rejected(ROLL, 9.0, runway_ft, 4.0, 2.0)
        assert stop.fits
        assert stop.runway_left_ft >= 0
    assert not rejected(ROLL, 9.0, stop_ft * (1 - 1e-8), 4.0, 2.0).fits


def test_rejected_at_lift_off_is_past_it(beside):
    assert np.all(rejected(ROLL, beside(ROLL.lift_off_s), 2000.0, 4.0).past_lift_off)


def test_a_mark_at_the_lift_off_speed_is_reached_at_lift_off(beside):
    assert alive_s(ROLL, beside(55.0)) == pytest.approx([float(ROLL.lift_off_s)] * 5, rel=1e-12)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: takeoff_roll(0.0, 55.0), "standard_roll_ft is 0 ft"),
        (lambda: takeoff_roll(900.0, -1.0), "lift_off_cas_kt is -1 kt"),
        (lambda: takeoff_roll(900.0, 55.0, 40000.0), "altitude_ft is 40,000 ft"),
        (lambda: takeoff_roll(900.0, 55.0, 0.0, 99.0), "temperature_c is 99 °C"),
        (lambda: takeoff_roll(900.0, 55.0, headwind_kt=80.0), "headwind_kt is 80 kt"),
        (lambda: takeoff_roll(900.0, 55.0, headwind_kt=55.0), "lift-off speed less headwind_kt"),
        (lambda: takeoff_roll([900.0, 950.0], [55.0, 56.0, 57.0]), "do not fit together"),
        (lambda: alive_s(ROLL, 60.0), "first_mark_kt is 60 kt; allowed: up to the lift-off speed, 55 kt"),
        (lambda: alive_s(ROLL, 0.0), "first_mark_kt is 0 kt"),
        (lambda: rejected(ROLL, -1.0, 2000.0, 4.0), "decided_s is -1 s"),
        (lambda: rejected(ROLL, 5.0, 0.0, 4.0), "runway_ft is 0 ft"),
        (lambda: rejected(ROLL, 5.0, 2000.0, 0.0), "deceleration_kt_s is 0 kt/s"),
        (lambda: rejected(ROLL, 5.0, 2000.0, 4.0, -1.0), "reaction_s is -1 s"),
        (lambda: as_flight(ROLL, until_s=0.0), "until_s is 0 s"),
        (lambda: as_flight(takeoff_roll([800.0, 900.0], 55.0)), r"an array of shape \(2,\); allowed: one roll"),
        (lambda: airspeed_at_kt(ROLL, float("nan")), "time_s is not a number"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
