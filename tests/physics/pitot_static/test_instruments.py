"""Properties of the three instruments' indications."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.physics.air import airspeed, atmosphere
from walkaround.physics.pitot_static.instruments import EVERY_COMBINATION, Openings, feet_per_hpa, indications, read
from walkaround.units import INHG_HPA

ALTITUDES, SPEEDS = st.floats(-1000.0, 18000.0), st.floats(0.0, 250.0)
COMBINATIONS = st.sampled_from(EVERY_COMBINATION)
ICED = Openings(pitot_clear=False, drain_clear=False)
STATIC_BLOCKED = Openings(static_clear=False)


@given(ALTITUDES, SPEEDS, ALTITUDES, SPEEDS, st.floats(-2000.0, 2000.0))
def test_all_clear_shows_the_truth(altitude_ft, cas_kt, then_ft, then_kt, climb_fpm):
    seen = indications(altitude_ft, cas_kt, Openings(), then_ft, then_kt, climb_fpm)
    # Near 0 kt a rounding error of the pressures, 1e-13 hPa, is 1e-5 kt: the dial is that much finer there.
    assert seen.airspeed_kt == pytest.approx(cas_kt, abs=1e-4)
    assert seen.altitude_ft == pytest.approx(altitude_ft, abs=1e-6)
    assert seen.vertical_speed_fpm == climb_fpm
    assert not seen.on_stop


@given(ALTITUDES, SPEEDS, SPEEDS, ALTITUDES, SPEEDS)
def test_inlet_and_drain_blocked_is_independent_of_speed(altitude_ft, slow_kt, fast_kt, then_ft, then_kt):
    slow = indications(altitude_ft, slow_kt, ICED, then_ft, then_kt)
    fast = indications(altitude_ft, fast_kt, ICED, then_ft, then_kt)
    assert slow.airspeed_kt == fast.airspeed_kt
    assert slow.on_stop == fast.on_stop


@given(ALTITUDES, ALTITUDES, SPEEDS, ALTITUDES)
def test_inlet_and_drain_blocked_increases_with_altitude(one_ft, other_ft, then_kt, then_ft):
    low, high = sorted((one_ft, other_ft))
    seen = indications(np.array([low, high]), 100.0, ICED, then_ft, then_kt)
    assert seen.airspeed_kt[1] >= seen.airspeed_kt[0]
    if high - low > 1.0 and seen.airspeed_kt[1] > 0:
        assert seen.airspeed_kt[1] > seen.airspeed_kt[0]


@given(SPEEDS, ALTITUDES, st.floats(1.0, 3000.0))
def test_static_blocked_equal_at_the_altitude_of_blockage_and_monotonic_around_it(cas_kt, then_ft, step_ft):
    altitudes = then_ft + step_ft * np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
    seen = indications(altitudes, cas_kt, STATIC_BLOCKED, then_ft, 60.0).airspeed_kt
    assert seen[2] == pytest.approx(cas_kt, abs=1e-4)
    assert np.all(np.diff(seen) <= 0)
    assert seen[0] > seen[2]


@given(COMBINATIONS, ALTITUDES, SPEEDS, st.floats(-3000.0, 3000.0))
def test_at_the_moment_of_blockage_only_a_drained_inlet_shows(openings, altitude_ft, cas_kt, climb_fpm):
    seen = indications(altitude_ft, cas_kt, openings, altitude_ft, cas_kt, climb_fpm)
    drained = openings.drain_clear and not openings.pitot_clear
    assert seen.airspeed_kt == pytest.approx(0.0 if drained else cas_kt, abs=1e-4)
    assert seen.altitude_ft == pytest.approx(altitude_ft, abs=1e-6)


def test_needle_on_its_stop_exactly_when_the_pitot_line_is_lower():
    altitudes = np.linspace(0.0, 10000.0, 101)
    seen = indications(altitudes, 100.0, ICED, blocked_at_ft=5000.0, blocked_at_kt=80.0)
    assert np.array_equal(seen.on_stop, seen.pitot_line_hpa < seen.static_line_hpa)
    assert np.array_equal(seen.on_stop, seen.airspeed_kt == 0.0)
    assert seen.on_stop[0]
    assert not seen.on_stop[-1]


def test_forgotten_cover_shows_nothing_on_the_roll_and_a_speed_in_the_climb_if_it_seals_the_drain():
    seen = indications([0.0, 0.0, 1000.0], [0.0, 60.0, 75.0], ICED, blocked_at_ft=0.0, blocked_at_kt=0.0)
    assert seen.airspeed_kt[:2] == pytest.approx([0.0, 0.0])
    assert 140.0 < seen.airspeed_kt[2] < 150.0


@given(ALTITUDES, st.floats(900.0, 1080.0))
def test_setting_moves_the_altimeter(altitude_ft, hpa):
    at_setting = indications(altitude_ft, 90.0, Openings(), setting_hpa=hpa).altitude_ft
    moved = float(atmosphere.altimeter_difference_ft(hpa / INHG_HPA))
    assert at_setting == pytest.approx(altitude_ft + moved, abs=1e-6)


def test_altimeter_set_right_reads_field_elevation():
    # On the ground at 500 ft with 29.50 inHg set: the pressure altitude is higher than the elevation.
    pressure_altitude_ft = 500.0 - float(atmosphere.altimeter_difference_ft(29.50))
    assert pressure_altitude_ft > 500.0
    seen = indications(pressure_altitude_ft, 0.0, Openings(), setting_hpa=29.50 * INHG_HPA)
    assert seen.altitude_ft == pytest.approx(500.0, abs=1e-6)


@given(COMBINATIONS, ALTITUDES, SPEEDS, st.floats(0.1, 5.0))
def test_alternate_source_overrides_the_port(openings, altitude_ft, cas_kt, below_hpa):
    seen = indications(
        altitude_ft, cas_kt, openings, 3000.0, 80.0, 500.0, alternate_open=True, cabin_below_hpa=below_hpa
    )
    assert altitude_ft < seen.altitude_ft < altitude_ft + 300.0
    assert seen.vertical_speed_fpm == pytest.approx(500.0, rel=0.01)
    if openings.pitot_clear:
        assert seen.airspeed_kt > cas_kt


def test_climb_through_the_alternate_source_is_the_rate_of_the_altimeter():
    altitudes = np.array([5000.0, 5001.0])
    seen = indications(altitudes, 90.0, Openings(), climb_fpm=500.0, alternate_open=True, cabin_below_hpa=3.0)
    assert seen.vertical_speed_fpm[0] / 500.0 == pytest.approx(np.diff(seen.altitude_ft)[0], rel=1e-4)


@pytest.mark.parametrize("end_ft", [atmosphere.LOWEST_FT, atmosphere.TROPOPAUSE_FT])
@pytest.mark.parametrize("openings", EVERY_COMBINATION, ids=str)
def test_both_ends_of_the_atmosphere_to_the_last_digit(beside, end_ft, openings):
    seen = indications(beside(end_ft), 200.0, openings, blocked_at_ft=end_ft, blocked_at_kt=200.0, climb_fpm=500.0)
    assert seen.altitude_ft == pytest.approx([end_ft] * 5, abs=1e-6)
    assert np.isfinite(seen.vertical_speed_fpm).all()


def test_the_greatest_speed_at_every_altitude_below_the_sea(beside):
    altitudes_ft = np.linspace(atmosphere.LOWEST_FT, -1.0, 399)
    for cas_kt in beside(airspeed.GREATEST_CAS_KT):
        seen = indications(altitudes_ft, cas_kt, Openings())
        assert seen.airspeed_kt == pytest.approx(np.full(399, airspeed.GREATEST_CAS_KT), rel=1e-9)


def test_pressures_to_the_last_digit_alike_leave_the_needle_off_its_stop(beside):
    for static_hpa in (300.0, 1013.25, 1500.0):
        _, _, on_stop = read(beside(static_hpa), static_hpa)
        assert not np.any(on_stop)
        assert read(static_hpa - 0.001, static_hpa)[2]


def test_left_out_the_openings_were_blocked_on_the_ground_at_sea_level():
    for openings in EVERY_COMBINATION:
        left_out, named = indications(3000.0, 90.0, openings), indications(3000.0, 90.0, openings, 0.0, 0.0)
        assert left_out == named
    # With all three blocked there, the instruments show what they showed there: 0 kt at 0 ft.
    held = indications(3000.0, 90.0, Openings(False, False, False))
    assert (float(held.airspeed_kt), float(held.altitude_ft)) == pytest.approx((0.0, 0.0), abs=1e-6)


@pytest.mark.parametrize("altitude_ft", [0.0, 5000.0, 30000.0])
def test_feet_per_hpa_is_the_slope_of_the_atmosphere(altitude_ft):
    drop = atmosphere.pressure_hpa(altitude_ft - 0.5) - atmosphere.pressure_hpa(altitude_ft + 0.5)
    assert feet_per_hpa(atmosphere.pressure_hpa(altitude_ft)) == pytest.approx(1.0 / drop, rel=1e-6)


def test_broadcasting_equals_looping_over_openings_too():
    clear = np.array([True, False])
    every = Openings(clear[:, None, None, None], clear[:, None, None], clear[:, None])
    altitudes = np.array([1000.0, 2500.0, 4000.0])
    table = indications(altitudes, 90.0, every, blocked_at_ft=2500.0, blocked_at_kt=70.0, climb_fpm=400.0)
    assert table.airspeed_kt.shape == table.altitude_ft.shape == table.vertical_speed_fpm.shape == (2, 2, 2, 3)
    for openings, row in zip(EVERY_COMBINATION, np.ndindex(2, 2, 2), strict=True):
        for i, altitude in enumerate(altitudes):
            one = indications(altitude, 90.0, openings, 2500.0, 70.0, 400.0)
            assert table.airspeed_kt[row][i] == one.airspeed_kt
            assert table.altitude_ft[row][i] == one.altitude_ft
            assert table.vertical_speed_fpm[row][i] == one.vertical_speed_fpm
            assert table.on_stop[row][i] == one.on_stop


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: indications(40000.0, 90.0, Openings()), "altitude_ft is 40,000 ft; allowed: .* to 36,089"),
        (lambda: indications(0.0, [90.0, -5.0], Openings()), r"cas_kt\[1\] is -5 kt"),
        (lambda: indications(0.0, 700.0, Openings()), "cas_kt is 700 kt"),
        (lambda: indications(36000.0, 450.0, Openings()), "Mach number at this cas_kt is 1"),
        (lambda: indications(0.0, 90.0, Openings(), 0.0, -1.0), "blocked_at_kt is -1 kt"),
        (lambda: indications(0.0, 90.0, STATIC_BLOCKED, 36000.0, 450.0), "Mach number at this blocked_at_kt"),
        (lambda: indications(-16000.0, 90.0, STATIC_BLOCKED, 36000.0), "would show a supersonic speed"),
        (lambda: indications([0.0, 1.0], [1.0, 2.0, 3.0], Openings()), "do not fit together"),
        (lambda: indications(0.0, 90.0, Openings(), setting_hpa=29.92), r"setting_hpa is 29\.92 hPa"),
        (lambda: indications(0.0, 90.0, Openings(), cabin_below_hpa=99.0), "cabin_below_hpa is 99 hPa"),
        (lambda: indications(0.0, 90.0, Openings(), climb_fpm=float("nan")), "climb_fpm is not a number"),
        (lambda: Openings(pitot_clear="no"), "pitot_clear is 'no'; allowed: True or False"),
        (lambda: indications(0.0, 90.0, Openings(), alternate_open=1), "alternate_open is 1; allowed: True"),
        (lambda: read(1013.0, float("nan")), "pressure_hpa is not a number"),
        (lambda: read(float("nan"), 1013.0), "impact_pressure_hpa is not a number"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
