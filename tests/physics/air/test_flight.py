"""Flights as values, and their makers."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.physics.air import airspeed, atmosphere
from walkaround.physics.air.flight import (
    Flight,
    climb,
    descent,
    from_calibrated,
    join,
    level,
    roll_and_climb,
    sample_times_s,
)


@given(st.floats(0.0, 200.0), st.floats(-1000.0, 18000.0), st.floats(-30.0, 30.0))
def test_pressures_and_calibrated_airspeed_are_those_of_the_air_outside(cas_kt, altitude_ft, warmer_c):
    flight = from_calibrated([0.0, 1.0], altitude_ft, cas_kt, warmer_c)
    assert flight.cas_kt == pytest.approx([cas_kt] * 2, abs=1e-4)
    assert flight.static_hpa == pytest.approx([atmosphere.pressure_hpa(altitude_ft)] * 2)
    impact = airspeed.impact_pressure_hpa(cas_kt)
    assert flight.total_hpa - flight.static_hpa == pytest.approx([impact] * 2, abs=1e-9)


def test_warm_air_is_flown_through_faster_at_the_same_calibrated_airspeed():
    cold, warm = (level(5000.0, 100.0, 1.0, isa_deviation_c=c).tas_kt[0] for c in (-20.0, 20.0))
    # True airspeed goes with the root of the absolute temperature: 278.2 K at 5,000 ft on a standard day.
    assert warm / cold == pytest.approx(np.sqrt((278.244 + 20) / (278.244 - 20)), rel=1e-6)


def test_climb_and_descent_hold_rate_and_calibrated_airspeed():
    up, down = climb(1000.0, 4000.0, 80.0, climb_fpm=600.0), descent(4000.0, 1000.0, 80.0, descent_fpm=600.0)
    assert up.time_s[-1] == down.time_s[-1] == 300.0
    assert np.allclose(np.diff(up.altitude_ft) / np.diff(up.time_s), 10.0)
    assert np.allclose(up.altitude_ft[::-1], down.altitude_ft)
    assert np.allclose(up.cas_kt, 80.0)
    assert np.all(np.diff(up.tas_kt) > 0)


def test_roll_and_climb_stands_rolls_lifts_off_and_climbs():
    flight = roll_and_climb(500.0, 2500.0, 55.0, 75.0, climb_fpm=600.0, roll_s=20.0, standing_s=5.0)
    standing, rolling = flight.time_s <= 5.0, flight.time_s <= 25.0
    assert np.all(flight.cas_kt[standing] == 0.0)
    assert np.all(flight.altitude_ft[rolling] == 500.0)
    assert np.interp([15.0, 25.0], flight.time_s, flight.cas_kt) == pytest.approx([27.5, 55.0])
    assert np.all(np.diff(flight.altitude_ft[flight.time_s >= 25.0]) > 0)
    assert flight.cas_kt.max() == pytest.approx(75.0)
    assert flight.altitude_ft[-1] == 2500.0
    assert flight.time_s[-1] == pytest.approx(25.0 + 200.0)


@given(st.floats(0.0, 30.0), st.floats(5.0, 60.0), st.floats(0.3, 7.0))
def test_lift_off_is_always_a_sample(standing_s, roll_s, step_s):
    flight = roll_and_climb(0.0, 1000.0, 50.0, 70.0, 500.0, roll_s, standing_s, step_s)
    assert np.any(np.isclose(flight.time_s, standing_s + roll_s))
    assert np.all(np.diff(flight.time_s) <= step_s + 1e-9)


def test_join_puts_one_flight_after_the_other():
    whole = join(climb(0.0, 1000.0, 80.0, 500.0), level(1000.0, 110.0, 2.0), descent(1000.0, 0.0, 90.0, 500.0))
    assert whole.time_s[-1] == 120.0 + 20.0 + 120.0 + 20.0 + 120.0
    assert np.max(np.diff(whole.time_s)) <= 1.0 + 1e-9
    assert np.max(np.abs(np.diff(whole.cas_kt))) < 2.0  # speed changes without a jump
    assert whole.altitude_ft.max() == 1000.0


def test_sample_times_end_exactly():
    assert sample_times_s(0.3, 0.1).size == 4
    assert sample_times_s(10.0, 3.0)[-1] == 10.0


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: Flight([0.0, 1.0], [0.0], [0.0, 1.0]), "time_s has 2, altitude_ft has 1, tas_kt has 2"),
        (lambda: Flight([0.0, 1.0, 1.0], [0.0] * 3, [0.0] * 3), r"time_s\[2\] is 1 s, after time_s\[1\], 1 s"),
        (lambda: Flight([0.0], [0.0], [0.0]), "2 or more"),
        (lambda: Flight([0.0, 1.0], [0.0, 40000.0], [0.0, 0.0]), r"altitude_ft\[1\] is 40,000 ft; .* 36,089"),
        (lambda: Flight([0.0, 1.0], [0.0, 0.0], [0.0, -1.0]), r"tas_kt\[1\] is -1 kt"),
        (lambda: Flight([0.0, 1.0], [0.0, 0.0], [0.0, 800.0]), r"Mach number at this tas_kt\[1\]"),
        (lambda: Flight([0.0, np.nan], [0.0, 0.0], [0.0, 0.0]), r"time_s\[1\] is not a number"),
        (lambda: Flight([0.0, 1.0], [0.0, 0.0], [0.0, 0.0], isa_deviation_c=99.0), "isa_deviation_c is 99"),
        (lambda: climb(3000.0, np.inf, 80.0, 500.0), "to_ft is infinite ft; allowed: .* to 36,089"),
        (lambda: climb(np.nan, 3000.0, 80.0, 500.0), "from_ft is not a number ft"),
        (
            lambda: climb(1000.0, 3000.0, 80.0, 1e-9),
            "in steps of 1 s are more than 1,000,000 steps; allowed: a shorter",
        ),
        (lambda: climb([0.0, 1.0], 3000.0, 80.0, 500.0), r"from_ft has shape \(2,\); allowed: a single number"),
        (lambda: descent(-np.inf, -3000.0, 80.0, 500.0), "from_ft is infinite ft"),
        (lambda: roll_and_climb(0.0, np.inf, 50.0, 70.0, 500.0, 20.0), "to_ft is infinite ft"),
        (lambda: level(3000.0, 80.0, np.inf), "minutes is infinite"),
        (lambda: climb(3000.0, 1000.0, 80.0, 500.0), "to_ft is 1,000.0 ft; allowed in a climb"),
        (lambda: descent(1000.0, 3000.0, 80.0, 500.0), "to_ft is 3,000.0 ft; allowed in a descent"),
        (lambda: descent(3000.0, 1000.0, 80.0, -500.0), "descent_fpm is -500 ft/min"),
        (lambda: level(3000.0, 80.0, 0.0), "minutes is 0"),
        (lambda: level(3000.0, 80.0, 1.0, step_s=0.0), "step_s is 0 s"),
        (lambda: roll_and_climb(0.0, 1000.0, 60.0, 50.0, 500.0, 20.0), "climb_kt is 50 kt; allowed: 60 kt or more"),
        (lambda: join(level(0.0, 80.0, 1.0), level(0.0, 80.0, 1.0, isa_deviation_c=5.0)), "isa_deviation_c"),
        (lambda: join(), "there is nothing to join"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
