"""Water in fuel: out of the air, past the cap, and missed by a sample."""

import numpy as np
import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import hypergeom
from walkaround.physics.fuel import chance_missed, condensed_water_g, leaked_l, vapour_g_m3

psychrolib.SetUnitSystem(psychrolib.SI)

DEGREES = st.floats(-60.0, 60.0)
HUMIDITY = st.floats(0.0, 1.0)


@given(st.floats(1.0, 300.0), HUMIDITY, HUMIDITY, DEGREES, HUMIDITY, DEGREES)
def test_a_fuller_tank_never_takes_more_water_from_the_air(capacity, one, other, from_c, humidity, to_c):
    less, more = sorted((one, other))
    by_full, by_empty = (condensed_water_g(capacity * (1 - full), from_c, humidity, to_c) for full in (more, less))
    assert by_full <= by_empty + 1e-12


@given(st.floats(0.0, 300.0), DEGREES, HUMIDITY, DEGREES)
def test_no_more_water_than_the_air_held(air, from_c, humidity, to_c):
    grams = float(condensed_water_g(air, from_c, humidity, to_c))
    assert 0.0 <= grams <= float(vapour_g_m3(from_c, humidity)) * air / 1000 + 1e-12
    if to_c >= from_c:
        assert grams == 0.0


@given(HUMIDITY, DEGREES, DEGREES)
def test_warmer_air_holds_more(humidity, one, other):
    cold, warm = sorted((one, other))
    assert vapour_g_m3(cold, humidity) <= vapour_g_m3(warm, humidity) + 1e-12


def test_over_ice_air_holds_less_than_over_water():
    # At −20 °C saturation over ice is 103.2 Pa and over supercooled water 125.4 Pa (WMO tables, recalled).
    assert float(vapour_g_m3(-20.0)) == pytest.approx(103.2e3 / (461.5 * 253.15), rel=5e-3)


@given(st.integers(1, 40), st.data())
def test_missed_as_scipys_hypergeometric_distribution_has_it(points, data):
    wet, sampled = data.draw(st.integers(1, points)), data.draw(st.integers(0, points))
    expected = hypergeom(points, wet, sampled).pmf(0)
    assert float(chance_missed(points, sampled, wet)) == pytest.approx(expected, abs=1e-12)


@given(st.integers(1, 60), st.data())
def test_more_samples_never_lower_the_chance_to_find_it(points, data):
    wet = data.draw(st.integers(1, points))
    missed = chance_missed(points, np.arange(points + 1), wet)
    assert np.all(np.diff(missed) <= 1e-15)
    assert missed[0] == 1.0
    assert missed[-1] == 0.0


def test_samples_by_hand():
    # Five low points and two drawn from: three fifths; two of them wet: 3/5 · 2/4.
    assert chance_missed([5, 5], 2, [1, 2]) == pytest.approx([0.6, 0.3])
    assert chance_missed(5, [[0], [5]], [1, 3]).shape == (2, 2)


@given(*[st.floats(0.0, 50.0)] * 5, st.floats(0.0, 50.0))
def test_a_wider_gap_never_lets_in_less_and_never_more_than_falls(rain, hours, area, gap, depth, wider):
    narrow, wide = leaked_l(rain, hours, area, [min(gap, wider), max(gap, wider)], depth)
    assert narrow <= wide <= rain * area


@pytest.mark.parametrize(("from_c", "humidity", "to_c"), [(30.0, 1.0, 10.0), (28.0, 0.8, 14.0)])
def test_the_vent_adds_about_a_tenth_to_what_the_air_gives_up(from_c, humidity, to_c):
    # Ideal gases step by step, saturation pressure by psychrolib: the tank stays at outside pressure, and what it draws
    # in is the evening's air, or saturated once it is colder. All are pressures over temperatures, in Pa/K.
    def saturated(kelvin):
        return psychrolib.GetSatVapPres(kelvin - 273.15)

    first, last, outside, given_up = from_c + 273.15, to_c + 273.15, 101325.0, 0.0
    evening = humidity * saturated(first)
    vapour, dry = evening / first, (outside - evening) / first
    for kelvin in np.linspace(first, last, 2001)[1:]:
        most = saturated(kelvin)
        drawn = max((outside - min(most, vapour * kelvin)) / kelvin - dry, 0.0)
        dry += drawn
        vapour += drawn * min(evening, most) / (outside - min(evening, most))
        given_up += max(vapour - most / kelvin, 0.0)
        vapour = min(vapour, most / kelvin)
    closed = float(condensed_water_g(1000.0, from_c, humidity, to_c)) * 461.5 / 1000
    assert 1.05 < given_up / closed < 1.15


def test_a_leak_by_hand():
    # 20 mm on 0.12 m² are 2.4 L. A gap of 0.1 mm² under 5 mm: √(2 · 9.80665 · 0.005) = 0.313156 m/s, times 0.6 · 1e-7 m²
    # is 1.87894e-8 m³/s, in 10 h 0.676417 L.
    assert leaked_l(20.0, 10.0, 0.12, [0.1, 3.0], 5.0) == pytest.approx([0.676417, 2.4], rel=1e-5)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: vapour_g_m3(61.0), "temperature_c is 61 °C; allowed: -60 to 60 °C"),
        (lambda: vapour_g_m3(20.0, 60.0), "relative_humidity is 60; allowed: 0 to 1"),
        (lambda: condensed_water_g(-1.0, 20.0, 0.5, 10.0), "air_space_l is -1 L"),
        (lambda: condensed_water_g(1.0, 70.0, 0.5, 10.0), "from_c is 70 °C"),
        (lambda: condensed_water_g(1.0, 20.0, 0.5, np.nan), "to_c is not a number"),
        (lambda: condensed_water_g([1.0, 2.0], [1.0, 2.0, 3.0], 0.5, 0.0), "do not fit together"),
        (lambda: leaked_l(1.0, 1.0, -1.0, 1.0, 1.0), "catches_m2 is -1 m²"),
        (lambda: leaked_l(1.0, 1.0, 1.0, -1.0, 1.0), "gap_mm2 is -1 mm²"),
        (lambda: leaked_l(1.0, 1.0, 1.0, 1.0, -1.0), "standing_mm is -1 mm"),
        (lambda: chance_missed(5, 6), "sampled is 6; allowed: up to the number of low points, 5"),
        (lambda: chance_missed([3, 10, 12], [2, 11, 12]), "sampled is 11; allowed: up to the number of low points, 10"),
        (lambda: chance_missed(5, 2, 6), "wet is 6; allowed: up to the number of low points, 5"),
        (lambda: chance_missed(5, 2, 0), "wet is 0; allowed: 1 or more"),
        (lambda: chance_missed(0, 0), "low_points is 0; allowed: 1 to 1,000"),
        (lambda: chance_missed(5, 1.5), r"sampled is 1.5; allowed: whole numbers"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
