"""The standard atmosphere against `fluids`, and its properties."""

import numpy as np
import pytest
from fluids import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st
from walkaround.physics.air import atmosphere
from walkaround.units import FOOT_M

ALTITUDES = st.floats(-16000.0, 36089.0)
EARTH_RADIUS_M = 6356766.0  # U.S. Standard Atmosphere 1976, eq. 18


def fluids_atmosphere(altitude_ft):
    """The same atmosphere in an independent library, which takes geometric metres."""
    geopotential_m = altitude_ft * FOOT_M
    return ATMOSPHERE_1976(EARTH_RADIUS_M * geopotential_m / (EARTH_RADIUS_M - geopotential_m))


@pytest.mark.parametrize("altitude_ft", [0, 731, 2500, 5280, 9999, 18000, 25000, 36089])
def test_agrees_with_fluids(altitude_ft):
    other = fluids_atmosphere(altitude_ft)
    assert atmosphere.temperature_c(altitude_ft) == pytest.approx(other.T - 273.15, abs=1e-6)
    assert atmosphere.pressure_hpa(altitude_ft) == pytest.approx(other.P / 100, rel=1e-6)
    assert atmosphere.density_kg_m3(altitude_ft) == pytest.approx(other.rho, rel=1e-5)
    assert atmosphere.speed_of_sound_m_s(other.T - 273.15) == pytest.approx(other.v_sonic, rel=1e-5)


@given(ALTITUDES)
def test_pressure_altitude_inverts_pressure(altitude_ft):
    pressure = atmosphere.pressure_hpa(altitude_ft)
    assert atmosphere.pressure_altitude_ft(pressure) == pytest.approx(altitude_ft, abs=1e-6)


@given(ALTITUDES, st.floats(-60.0, 50.0))
def test_density_altitude_has_the_density_found(altitude_ft, outside_c):
    found = atmosphere.density_kg_m3(altitude_ft, outside_c)
    if not 0.364 < found < 1.9:  # beyond these the density altitude lies outside the atmosphere's range
        return
    same = atmosphere.density_altitude_ft(altitude_ft, outside_c)
    assert atmosphere.density_kg_m3(same) == pytest.approx(found, rel=1e-9)


@pytest.mark.parametrize(
    ("altitude_ft", "outside_c"),
    [(36089.0, -20.0), (36089.0, -56.0), (34000.0, 10.0), (30000.0, 45.0), (36089.0, 60.0)],
)
def test_density_altitude_above_the_tropopause_is_that_of_fluids(altitude_ft, outside_c):
    found_ft = float(atmosphere.density_altitude_ft(altitude_ft, outside_c))
    assert found_ft > atmosphere.TROPOPAUSE_FT
    density = float(atmosphere.density_kg_m3(altitude_ft, outside_c))
    assert fluids_atmosphere(found_ft).rho == pytest.approx(density, rel=1e-5)


def test_density_altitude_passes_the_tropopause_without_a_step():
    at = atmosphere.temperature_c(atmosphere.TROPOPAUSE_FT)
    altitudes = atmosphere.density_altitude_ft(atmosphere.TROPOPAUSE_FT, at + np.array([-1e-9, 0.0, 1e-9]))
    assert altitudes == pytest.approx([atmosphere.TROPOPAUSE_FT] * 3, abs=1e-3)
    assert atmosphere.density_altitude_ft(36089.0, -20.0) == pytest.approx(39328, abs=0.5)


def test_both_ends_of_the_atmosphere_to_the_last_digit(beside):
    for end_ft in (atmosphere.LOWEST_FT, atmosphere.TROPOPAUSE_FT):
        for altitude_ft in beside(end_ft):
            pressure = atmosphere.pressure_hpa(altitude_ft)
            for near in beside(pressure):
                back_ft = atmosphere.pressure_altitude_ft(near)
                assert back_ft == pytest.approx(end_ft, abs=1e-6)
                assert np.isfinite([atmosphere.temperature_c(back_ft), atmosphere.density_kg_m3(back_ft)]).all()


def test_warmer_than_standard_is_higher():
    assert atmosphere.density_altitude_ft(2000.0, 30.0) > 2000.0 > atmosphere.density_altitude_ft(2000.0, 0.0)


def test_altitude_at_a_setting_moves_with_it():
    settings = np.array([28.0, 29.0, 29.92, 30.5, 31.0])
    assert (np.diff(atmosphere.altimeter_difference_ft(settings)) > 0).all()


def test_broadcasting_equals_looping():
    altitudes, outside = np.linspace(0, 30000, 4)[:, None], np.array([-30.0, 0.0, 30.0])
    table = atmosphere.density_kg_m3(altitudes, outside)
    assert table.shape == (4, 3)
    assert table[2, 1] == atmosphere.density_kg_m3(altitudes[2, 0], outside[1])


@pytest.mark.parametrize("altitude_ft", [40000.0, -20000.0, float("nan")])
def test_refuses_altitudes_out_of_range(altitude_ft):
    with pytest.raises(ValueError, match=r"altitude_ft\[1\] is .*36,089"):
        atmosphere.pressure_hpa([0.0, altitude_ft])


def test_refuses_pressures_and_settings_out_of_range():
    with pytest.raises(ValueError, match="pressure_hpa is 100 hPa"):
        atmosphere.pressure_altitude_ft(100.0)
    with pytest.raises(ValueError, match=r"setting_inhg is 1,013\.25 inHg"):
        atmosphere.altimeter_difference_ft(1013.25)
