"""Airspeeds against independent relations and root finding, and their properties."""

import numpy as np
import pytest
from fluids import ATMOSPHERE_1976
from fluids.compressible import P_stagnation
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq
from walkaround.physics.air import airspeed, atmosphere
from walkaround.units import FOOT_M, KNOT_M_S

SPEEDS = st.floats(0.0, 300.0)
ALTITUDES = st.floats(-5000.0, 36000.0)
OUTSIDE = st.floats(-60.0, 45.0)

EARTH_RADIUS_M = 6356766.0  # U.S. Standard Atmosphere 1976, eq. 18
HEAT_CAPACITY = 3.5 * atmosphere.GAS_CONSTANT_J_PER_KG_K  # cp of a gas with γ = 1.4, J/(kg·K)


def impact_by_energy(tas_kt, static_hpa, outside_c):
    """Impact pressure by another road: the kinetic energy warms the air, `fluids` makes that a pressure."""
    static_k = outside_c + 273.15
    total_k = static_k + (tas_kt * KNOT_M_S) ** 2 / (2 * HEAT_CAPACITY)
    return P_stagnation(static_hpa, static_k, total_k, 1.4) - static_hpa


@pytest.mark.parametrize("cas_kt", [20.0, 75.0, 140.0, 333.0, 650.0])
def test_impact_pressure_is_that_of_air_brought_to_rest(cas_kt):
    expected = impact_by_energy(cas_kt, 1013.25, 15.0)
    assert airspeed.impact_pressure_hpa(cas_kt) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("impact_hpa", [0.1, 3.0, 27.0, 200.0, 900.0])
def test_inverse_agrees_with_root_finding(impact_hpa):
    root = brentq(lambda v: impact_by_energy(v, 1013.25, 15.0) - impact_hpa, 0.0, 700.0, xtol=1e-12)
    assert airspeed.calibrated_airspeed_kt(impact_hpa) == pytest.approx(root, abs=1e-6)


@pytest.mark.parametrize(
    ("cas_kt", "altitude_ft", "outside_c"), [(90.0, 8000.0, 20.0), (150.0, 0.0, -40.0), (250.0, 35000.0, -45.0)]
)
def test_true_airspeed_makes_the_same_impact_pressure_here(cas_kt, altitude_ft, outside_c):
    static = atmosphere.pressure_hpa(altitude_ft)
    wanted = airspeed.impact_pressure_hpa(cas_kt)
    root = brentq(lambda v: impact_by_energy(v, static, outside_c) - wanted, 0.0, 700.0, xtol=1e-12)
    assert airspeed.true_airspeed_kt(cas_kt, altitude_ft, outside_c) == pytest.approx(root, abs=1e-6)


@pytest.mark.parametrize("altitude_m", [0.0, 3000.0, 10000.0])
def test_without_a_temperature_the_speed_of_sound_is_the_standard_one_of_fluids(altitude_m):
    geopotential_ft = EARTH_RADIUS_M * altitude_m / (EARTH_RADIUS_M + altitude_m) / FOOT_M
    sound_kt = ATMOSPHERE_1976(altitude_m).v_sonic / KNOT_M_S
    mach = airspeed.mach_number(120.0, geopotential_ft)
    assert airspeed.true_airspeed_kt(120.0, geopotential_ft) == pytest.approx(mach * sound_kt, rel=1e-5)


@given(st.floats(0.0, 661.0))
def test_calibrated_inverts_impact(cas_kt):
    back = airspeed.calibrated_airspeed_kt(airspeed.impact_pressure_hpa(cas_kt))
    assert back == pytest.approx(cas_kt, rel=1e-12, abs=1e-9)


@given(SPEEDS, ALTITUDES, OUTSIDE)
def test_every_way_there_and_back(cas_kt, altitude_ft, outside_c):
    assume(cas_kt < 250.0 or altitude_ft < 30000.0)
    there_and_back = [
        airspeed.calibrated_from_mach_kt(airspeed.mach_number(cas_kt, altitude_ft), altitude_ft),
        airspeed.calibrated_from_equivalent_kt(airspeed.equivalent_airspeed_kt(cas_kt, altitude_ft), altitude_ft),
        airspeed.calibrated_from_true_kt(airspeed.true_airspeed_kt(cas_kt, altitude_ft), altitude_ft),
        airspeed.calibrated_from_true_kt(
            airspeed.true_airspeed_kt(cas_kt, altitude_ft, outside_c), altitude_ft, outside_c
        ),
    ]
    assert there_and_back == pytest.approx([cas_kt] * 4, rel=1e-10, abs=1e-8)


@given(SPEEDS, st.floats(0.0, 30000.0), OUTSIDE)
def test_equivalent_is_true_times_root_of_density_ratio(cas_kt, altitude_ft, outside_c):
    true = airspeed.true_airspeed_kt(cas_kt, altitude_ft, outside_c)
    ratio = atmosphere.density_kg_m3(altitude_ft, outside_c) / atmosphere.density_kg_m3(0.0)
    equivalent = airspeed.equivalent_airspeed_kt(cas_kt, altitude_ft)
    assert equivalent == pytest.approx(true * np.sqrt(ratio), rel=1e-9, abs=1e-9)
    assert equivalent <= cas_kt * (1 + 1e-12)


@pytest.mark.parametrize("cas_kt", [5e-324, 9e-158, 1e-150, 1e-148, 1e-146, 1e-100, 1e-9])
@pytest.mark.parametrize("altitude_ft", [0.0, 2000.0, 30000.0])
def test_next_to_no_speed_at_all(cas_kt, altitude_ft):
    # The square of 1e-158 has lost most of its digits: that is no speed, and never more than it was.
    equivalent = float(airspeed.equivalent_airspeed_kt(cas_kt, altitude_ft))
    assert 0.0 <= equivalent <= cas_kt * (1 + 1e-12)
    assert equivalent == 0.0 or equivalent == pytest.approx(cas_kt, rel=1e-9)
    back = float(airspeed.calibrated_airspeed_kt(airspeed.impact_pressure_hpa(cas_kt)))
    assert back == 0.0 or back == pytest.approx(cas_kt, rel=1e-9)


@pytest.mark.parametrize("altitude_ft", [atmosphere.LOWEST_FT, 0.0, 12345.0, atmosphere.TROPOPAUSE_FT])
def test_the_speed_of_sound_to_the_last_digit(beside, altitude_ft):
    for mach in beside(1.0):
        if altitude_ft >= 0:
            cas_kt = airspeed.calibrated_from_mach_kt(mach, altitude_ft)
            assert all(airspeed.mach_number(near, altitude_ft) <= 1.0 for near in beside(cas_kt))
            assert airspeed.mach_number(cas_kt, altitude_ft) == pytest.approx(1.0, rel=1e-12)
        sound_kt = float(airspeed.sound_speed_kt(altitude_ft))
        assert airspeed.mach_from_true(mach * sound_kt, altitude_ft) == pytest.approx(1.0, rel=1e-12)
    with pytest.raises(ValueError, match=r"Mach number at this tas_kt is 1\.0"):
        airspeed.mach_from_true(sound_kt * (1 + 1e-8), altitude_ft)


def test_the_greatest_airspeed_to_the_last_digit(beside):
    for cas_kt in beside(airspeed.GREATEST_CAS_KT):
        impact_hpa = airspeed.impact_pressure_hpa(cas_kt)
        for near in beside(impact_hpa):
            assert airspeed.calibrated_airspeed_kt(near) == pytest.approx(airspeed.GREATEST_CAS_KT, rel=1e-12)


@given(st.floats(1.0, 60.0))
def test_slow_air_obeys_bernoulli(cas_kt):
    # Below 60 kt, ½ρV² with the standard density: compressibility adds a quarter of M², 0.2 %.
    half_rho_v2_hpa = 0.5 * atmosphere.density_kg_m3(0.0) * (cas_kt * KNOT_M_S) ** 2 / 100
    assert airspeed.impact_pressure_hpa(cas_kt) == pytest.approx(half_rho_v2_hpa, rel=2.1e-3)


def test_at_sea_level_on_a_standard_day_all_speeds_are_one():
    assert airspeed.true_airspeed_kt(123.0, 0.0) == pytest.approx(123.0, abs=1e-9)
    assert airspeed.equivalent_airspeed_kt(123.0, 0.0) == pytest.approx(123.0, abs=1e-9)


def test_broadcasting_equals_looping():
    speeds, altitudes = np.array([40.0, 90.0, 150.0])[:, None], np.array([0.0, 5000.0, 12000.0, 18000.0])
    table = airspeed.true_airspeed_kt(speeds, altitudes)
    assert table.shape == (3, 4)
    looped = [[float(airspeed.true_airspeed_kt(v, h)) for h in altitudes] for v in speeds[:, 0]]
    assert np.array_equal(table, looped)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: airspeed.impact_pressure_hpa([50.0, -1.0]), r"cas_kt\[1\] is -1 kt; allowed: 0 to 661"),
        (lambda: airspeed.impact_pressure_hpa(700.0), "cas_kt is 700 kt; allowed: 0 to 661"),
        (lambda: airspeed.calibrated_airspeed_kt(-1.0), "impact_pressure_hpa is -1 hPa"),
        (lambda: airspeed.calibrated_airspeed_kt(905.0), "impact_pressure_hpa is 905 hPa"),
        (lambda: airspeed.mach_number(450.0, 36000.0), "Mach number at this cas_kt and altitude_ft is 1"),
        (lambda: airspeed.calibrated_from_true_kt(700.0, 0.0), "Mach number at this tas_kt is 1"),
        (lambda: airspeed.calibrated_from_true_kt(-5.0, 0.0), "tas_kt is -5 kt"),
        (lambda: airspeed.calibrated_from_equivalent_kt(600.0, 30000.0), "Mach number at this eas_kt"),
        (lambda: airspeed.true_airspeed_kt(100.0, 37000.0), "altitude_ft is 37,000 ft; allowed: .* to 36,089"),
        (lambda: airspeed.true_airspeed_kt(100.0, 0.0, 200.0), "temperature_c is 200 °C"),
        (lambda: airspeed.true_airspeed_kt([90.0, 95.0], [0.0, 1.0, 2.0]), "do not fit together"),
        (lambda: airspeed.true_airspeed_kt(float("nan"), 0.0), "cas_kt is not a number"),
        (lambda: airspeed.calibrated_from_mach_kt(1.1, 0.0), "mach is 1.1; allowed: 0 to 1"),
        (lambda: airspeed.calibrated_from_mach_kt(-0.1, 0.0), "mach is -0.1; allowed: 0 to 1"),
        (lambda: airspeed.mach_number(-1.0, 0.0), "cas_kt is -1 kt"),
        (lambda: airspeed.calibrated_from_equivalent_kt(-1.0, 0.0), "eas_kt is -1 kt"),
        (lambda: airspeed.mach_number([1.0, 2.0], [0.0] * 3), r"cas_kt has shape \(2,\), altitude_ft has shape \(3,\)"),
        (lambda: airspeed.calibrated_from_mach_kt([0.1, 0.2], [0.0] * 3), r"mach has shape \(2,\), altitude_ft"),
        (lambda: airspeed.mach_from_true([1.0, 2.0], [0.0] * 3), r"tas_kt has shape \(2,\), altitude_ft has shape"),
        (lambda: airspeed.calibrated_from_equivalent_kt([1.0, 2.0], [0.0] * 3), r"eas_kt has shape \(2,\)"),
        (lambda: airspeed.sound_speed_kt([0.0, 1.0], [1.0] * 3), r"altitude_ft has shape \(2,\), temperature_c has"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
