"""Instruments over whole flights: against scipy's solver, against single moments, and their properties."""

from math import inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from walkaround.physics.air import atmosphere
from walkaround.physics.air.flight import Flight, climb, descent, from_calibrated, join, level
from walkaround.physics.pitot_static.instruments import EVERY_COMBINATION, Openings, feet_per_hpa, indications, read
from walkaround.physics.pitot_static.over_flight import Blockage, blockage, indications_over

WHOLE = join(climb(1000.0, 4000.0, 75.0, 700.0), level(4000.0, 105.0, 2.0), descent(4000.0, 1500.0, 90.0, 600.0))
COMBINATIONS = st.sampled_from(EVERY_COMBINATION)


@st.composite
def flights(draw):
    """Any flight of up to twelve samples within what a light aircraft does."""
    count = draw(st.integers(2, 12))
    several = {"min_size": count, "max_size": count}
    times = np.cumsum(draw(st.lists(st.floats(0.5, 100.0), **several)))
    altitudes = draw(st.lists(st.floats(0.0, 9000.0), **several))
    speeds = draw(st.lists(st.floats(0.0, 180.0), **several))
    return from_calibrated(times, altitudes, speeds, draw(st.floats(-20.0, 20.0)))


def halved(flight):
    """The same flight with a sample in the middle of each step, the pressures there the mean of both ends."""
    times = np.sort(np.concatenate([flight.time_s, (flight.time_s[1:] + flight.time_s[:-1]) / 2]))
    static = np.interp(times, flight.time_s, flight.static_hpa)
    total = np.interp(times, flight.time_s, flight.total_hpa)
    speed_kt, altitude_ft, _ = read(total, static)
    return from_calibrated(times, altitude_ft, speed_kt, flight.isa_deviation_c)


@given(flights())
def test_all_clear_shows_calibrated_airspeed_and_altitude_for_any_flight(flight):
    seen = indications_over(flight)
    assert np.array_equal(seen.airspeed_kt, flight.cas_kt)
    assert np.allclose(seen.altitude_ft, flight.altitude_ft, atol=1e-6)
    assert not np.any(seen.on_stop)


@pytest.mark.parametrize("openings", EVERY_COMBINATION, ids=str)
def test_agrees_with_single_moments(openings):
    at = 150
    seen = indications_over(WHOLE, blockage(openings, at_s=WHOLE.time_s[at]))
    then = indications(WHOLE.altitude_ft[at:], WHOLE.cas_kt[at:], openings, WHOLE.altitude_ft[at], WHOLE.cas_kt[at])
    assert np.allclose(seen.airspeed_kt[at:], then.airspeed_kt, atol=1e-4)
    assert np.allclose(seen.altitude_ft[at:], then.altitude_ft, atol=1e-6)
    assert np.array_equal(seen.on_stop[at:], then.on_stop)
    assert np.array_equal(seen.airspeed_kt[:at], WHOLE.cas_kt[:at])


def by_scipy(flight, now, vsi_lag_s):
    """The three pressures by scipy: pitot line, static line, case of the vertical speed indicator."""
    slope = (flight.static_hpa[1] - flight.static_hpa[0]) / (flight.time_s[1] - flight.time_s[0])
    held = [flight.total_hpa[0], flight.static_hpa[0], flight.static_hpa[0] - vsi_lag_s * slope]
    rows = [held]
    for begin, end in zip(flight.time_s, flight.time_s[1:], strict=False):

        def rates(t, p):
            total = np.interp(t, flight.time_s, flight.total_hpa)
            static = np.interp(t, flight.time_s, flight.static_hpa)
            return [
                (total - p[0]) / now.pitot_lag_s + (static - p[0]) / now.drain_lag_s,
                (static - p[1]) / now.static_lag_s,
                (p[1] - p[2]) / vsi_lag_s,
            ]

        held = solve_ivp(rates, (begin, end), held, method="DOP853", rtol=1e-11, atol=1e-11).y[:, -1]
        rows.append(held)
    return np.array(rows).T


@pytest.mark.parametrize("lags", [(3.0, inf, 8.0), (12.0, 30.0, inf), (40.0, 2.0, 2.5), (1.0, 1.0, 0.7)])
def test_half_blocked_openings_agree_with_scipy(lags):
    times = np.array([0.0, 6.0, 15.0, 20.0, 33.0, 60.0, 71.0])
    altitudes = np.array([800.0, 880.0, 950.0, 1100.0, 1500.0, 900.0, 500.0])
    flight = from_calibrated(times, altitudes, np.array([60.0, 75.0, 70.0, 90.0, 110.0, 100.0, 65.0]), 10.0)
    now = Blockage(0.0, *lags)
    seen = indications_over(flight, now, vertical_speed_lag_s=2.5)
    pitot, static, case = by_scipy(flight, now, 2.5)
    assert np.allclose(seen.pitot_line_hpa, pitot, atol=1e-7)
    assert np.allclose(seen.static_line_hpa, static, atol=1e-7)
    expected_fpm = 60.0 * (case - static) / 2.5 * feet_per_hpa(static)
    assert np.allclose(seen.vertical_speed_fpm, expected_fpm, atol=0.1)


@settings(max_examples=60)
@given(flights(), st.floats(0.01, 300.0), st.floats(0.01, 300.0), st.floats(0.01, 300.0))
def test_halving_the_time_step_changes_nothing(flight, pitot_s, drain_s, static_s):
    now = Blockage(float(flight.time_s[0]), pitot_s, drain_s, static_s)
    coarse, fine = indications_over(flight, now), indications_over(halved(flight), now)
    assert np.allclose(fine.pitot_line_hpa[::2], coarse.pitot_line_hpa, atol=1e-8)
    assert np.allclose(fine.static_line_hpa[::2], coarse.static_line_hpa, atol=1e-8)
    assert np.allclose(fine.vertical_speed_fpm[::2], coarse.vertical_speed_fpm, atol=0.01)


@settings(max_examples=60)
@given(flights(), COMBINATIONS, st.floats(0.0, 1.0))
def test_very_large_holes_are_clear_and_no_holes_are_blocked(flight, openings, share):
    at_s = flight.time_s[0] + share * (flight.time_s[-1] - flight.time_s[0])
    sharp = blockage(openings, at_s)
    almost = Blockage(
        at_s,
        *(lag or 1e-9 for lag in (min(lag, 1e15) for lag in (sharp.pitot_lag_s, sharp.drain_lag_s))),
        min(sharp.static_lag_s, 1e15) or 1e-9,
    )
    if openings.pitot_clear and openings.drain_clear:
        almost = Blockage(at_s, 1e-12, 1e3, almost.static_lag_s)  # an inlet much larger than the drain
    one, other = indications_over(flight, sharp), indications_over(flight, almost)
    # A hair after the change: at the very moment a line behind any hole still holds what it held.
    after = flight.time_s > at_s + 1e-6
    assert np.allclose(one.pitot_line_hpa[after], other.pitot_line_hpa[after], atol=1e-5)
    assert np.allclose(one.static_line_hpa[after], other.static_line_hpa[after], atol=1e-5)


@given(flights(), st.floats(0.0, 1.0), st.floats(0.0, 180.0))
def test_inlet_and_drain_blocked_is_independent_of_later_speed(flight, share, other_kt):
    at_s = flight.time_s[0] + share * (flight.time_s[-1] - flight.time_s[0])
    later = flight.time_s > at_s
    # The step in which the blockage falls must be the same in both flights.
    later[min(np.flatnonzero(later), default=0)] = False
    other = from_calibrated(
        flight.time_s, flight.altitude_ft, np.where(later, other_kt, flight.cas_kt), flight.isa_deviation_c
    )
    shut = Blockage(at_s, pitot_lag_s=inf, drain_lag_s=inf)
    mine, theirs = indications_over(flight, shut), indications_over(other, shut)
    assert np.allclose(mine.pitot_line_hpa[later], theirs.pitot_line_hpa[later], atol=1e-9)
    assert np.allclose(mine.airspeed_kt[later], theirs.airspeed_kt[later], atol=1e-2)


def test_blocked_between_two_samples_traps_the_pressure_of_that_moment():
    flight = from_calibrated([0.0, 10.0, 20.0], [1000.0, 2000.0, 3000.0], [80.0, 80.0, 80.0])
    seen = indications_over(flight, Blockage(5.0, static_lag_s=inf))
    assert seen.static_line_hpa[1] == pytest.approx((flight.static_hpa[0] + flight.static_hpa[1]) / 2)
    assert seen.static_line_hpa[2] == seen.static_line_hpa[1]


@settings(max_examples=40)
@given(flights(), st.floats(0.01, 100.0), st.floats(0.01, 100.0), st.floats(0.1, 0.9))
def test_saying_again_what_is_so_changes_nothing(flight, pitot_s, static_s, share):
    begin, end = float(flight.time_s[0]), float(flight.time_s[-1])
    lags = {"pitot_lag_s": pitot_s, "drain_lag_s": 9.0, "static_lag_s": static_s}
    once = indications_over(flight, Blockage(begin, **lags))
    twice = indications_over(flight, [Blockage(begin, **lags), Blockage(begin + share * (end - begin), **lags)])
    assert np.allclose(once.pitot_line_hpa, twice.pitot_line_hpa, atol=1e-8)
    assert np.allclose(once.static_line_hpa, twice.static_line_hpa, atol=1e-8)
    assert np.allclose(once.vertical_speed_fpm, twice.vertical_speed_fpm, atol=0.05)


def test_alternate_source_from_a_moment_on_agrees_with_single_moments():
    opened = Blockage(100.0, pitot_lag_s=inf, drain_lag_s=inf, static_lag_s=inf, alternate_open=True)
    seen = indications_over(WHOLE, opened, cabin_below_hpa=1.5)
    after = WHOLE.time_s > 100.0
    right = indications(WHOLE.altitude_ft, 0.0, EVERY_COMBINATION[0], alternate_open=True, cabin_below_hpa=1.5)
    assert np.allclose(seen.altitude_ft[after], right.altitude_ft[after], atol=1e-6)


def test_pitot_heat_brings_the_reading_back():
    seen = indications_over(WHOLE, [Blockage(100.0, inf, inf), Blockage(220.0)])
    wrong = np.abs(seen.airspeed_kt - WHOLE.cas_kt) > 1.0
    assert np.all(wrong[(WHOLE.time_s > 105.0) & (WHOLE.time_s < 219.0)])
    assert not np.any(wrong[(WHOLE.time_s <= 100.0) | (WHOLE.time_s >= 220.0)])


def test_two_blockages_one_after_the_other_keep_two_pressures():
    seen = indications_over(WHOLE, [Blockage(60.0, inf, inf), Blockage(200.0, inf, inf, inf)])
    assert seen.pitot_line_hpa[-1] == np.interp(60.0, WHOLE.time_s, WHOLE.total_hpa)
    assert seen.static_line_hpa[-1] == np.interp(200.0, WHOLE.time_s, WHOLE.static_hpa)


def test_porous_cover_lags_and_an_open_drain_spoils_it():
    rolling = from_calibrated(np.arange(0.0, 31.0), 0.0, np.minimum(np.arange(0.0, 31.0) * 3.0, 60.0))
    sealed_drain = indications_over(rolling, Blockage(0.0, pitot_lag_s=4.0, drain_lag_s=inf)).airspeed_kt
    leaky_drain = indications_over(rolling, Blockage(0.0, pitot_lag_s=4.0, drain_lag_s=4.0)).airspeed_kt
    open_drain = indications_over(rolling, Blockage(0.0, pitot_lag_s=4.0)).airspeed_kt
    assert np.all(sealed_drain[1:] < rolling.cas_kt[1:])
    assert sealed_drain[-1] == pytest.approx(60.0, abs=3.5)
    # Equal holes: half the impact pressure, so about 0.7 of the speed.
    assert leaky_drain[-1] == pytest.approx(60.0 * np.sqrt(0.5), abs=0.5)
    assert np.all(open_drain == 0.0)


def test_vertical_speed_settles_at_the_rate_of_climb():
    seen = indications_over(WHOLE).vertical_speed_fpm
    steady = (WHOLE.time_s > 20.0) & (WHOLE.time_s < 250.0)
    # The case lags 2.5 s behind, where the air is 0.1 % denser.
    assert np.allclose(seen[steady], 700.0, rtol=3e-3)
    assert abs(seen[np.searchsorted(WHOLE.time_s, 390.0)]) < 1.0


def test_flight_may_start_at_any_time_and_setting_moves_the_altimeter():
    later = Flight(WHOLE.time_s + 1000.0, WHOLE.altitude_ft, WHOLE.tas_kt)
    seen = indications_over(later, Blockage(1100.0, static_lag_s=6.0), setting_hpa=1000.0)
    same = indications_over(WHOLE, Blockage(100.0, static_lag_s=6.0))
    assert np.allclose(seen.airspeed_kt, same.airspeed_kt, atol=1e-5)
    lower = atmosphere.pressure_altitude_ft(1000.0)
    assert np.allclose(seen.altitude_ft, same.altitude_ft - lower, atol=1e-4)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: indications_over(WHOLE, Blockage(9999.0)), "at_s is 9,999 s; allowed: 0 to"),
        (lambda: indications_over(WHOLE, [Blockage(9.0), Blockage(9.0)]), "at_s is 9 s, after 9 s"),
        (lambda: indications_over(WHOLE, vertical_speed_lag_s=0.0), "vertical_speed_lag_s is 0 s"),
        (lambda: indications_over(WHOLE, cabin_below_hpa=200.0), "cabin_below_hpa is 200 hPa"),
        (lambda: indications_over(WHOLE, setting_hpa=29.92), r"setting_hpa is 29\.92 hPa"),
        (lambda: Blockage(static_lag_s=-1.0), "static_lag_s is -1 s"),
        (lambda: Blockage(alternate_open="no"), "alternate_open is 'no'; allowed: True or False"),
        (lambda: Blockage(at_s=float("nan")), "at_s is not a number"),
        (lambda: Blockage(pitot_lag_s=[1.0, 2.0]), r"pitot_lag_s has shape \(2,\); allowed: a single value"),
        (lambda: Blockage(alternate_open=[True, False]), r"alternate_open has shape \(2,\); allowed: a single value"),
        (lambda: blockage(Openings(), alternate_open="no"), "alternate_open is 'no'"),
        (lambda: Blockage(pitot_lag_s=float("nan")), "pitot_lag_s is not a number"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()


@pytest.mark.parametrize("at", [0.0, 77.0, float(WHOLE.time_s[-1])])
def test_a_blockage_at_a_sample_to_the_last_digit(beside, at):
    # At either end of the flight, too, and wherever rounding puts it beside a sample.
    right = indications_over(WHOLE, Blockage(at, pitot_lag_s=inf, drain_lag_s=inf))
    for at_s in beside(at):
        seen = indications_over(WHOLE, Blockage(at_s, pitot_lag_s=inf, drain_lag_s=inf))
        assert seen.airspeed_kt == pytest.approx(right.airspeed_kt, abs=1e-6)
        assert seen.vertical_speed_fpm == pytest.approx(right.vertical_speed_fpm, abs=1e-6)
