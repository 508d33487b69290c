"""The standard atmosphere and the altimeter against published tables."""

import numpy as np
import pytest
from walkaround.physics.air import atmosphere
from walkaround.units import INHG_HPA

# 14 CFR Part 43 Appendix E, Table I: altitude in ft and equivalent pressure in inHg. Recalled; every row
# agrees with the 1976 U.S. Standard Atmosphere in the `fluids` package.
TABLE_I = [
    (-1000, 31.018),
    (0, 29.921),
    (500, 29.385),
    (1500, 28.335),
    (3000, 26.817),
    (6000, 23.978),
    (10000, 20.577),
    (14000, 17.577),
    (18000, 14.942),
]

# 14 CFR Part 43 Appendix E, Table IV: barometric setting in inHg and altitude difference in ft. Recalled;
# agrees with the pressure altitude of the standard atmosphere to a foot.
TABLE_IV = [(28.10, -1727), (29.00, -863), (29.92, 0), (30.50, 531)]

# U.S. Standard Atmosphere 1976, tables by geopotential altitude in ft: temperature in K, density ratio.
# Recalled; confirmed by `fluids` in tests/test_atmosphere.py.
STANDARD_1976 = [(0, 288.150, 1.0000), (5000, 278.244, 0.8617), (10000, 268.338, 0.7385), (20000, 248.526, 0.5328)]


@pytest.mark.parametrize(("altitude_ft", "inhg"), TABLE_I)
def test_pressure_of_altitude(altitude_ft, inhg):
    assert atmosphere.pressure_hpa(altitude_ft) / INHG_HPA == pytest.approx(inhg, abs=0.00051)


@pytest.mark.parametrize(("altitude_ft", "inhg"), TABLE_I)
def test_altitude_of_pressure(altitude_ft, inhg):
    # Half of the table's last digit is 0.5 ft at sea level, 0.9 ft at 18,000 ft.
    assert atmosphere.pressure_altitude_ft(inhg * INHG_HPA) == pytest.approx(altitude_ft, abs=1.0)


@pytest.mark.parametrize(("setting_inhg", "difference_ft"), TABLE_IV)
def test_setting_moves_the_altimeter(setting_inhg, difference_ft):
    assert atmosphere.altimeter_difference_ft(setting_inhg) == pytest.approx(difference_ft, abs=1.5)


@pytest.mark.parametrize(("altitude_ft", "kelvin", "density_ratio"), STANDARD_1976)
def test_temperature_and_density(altitude_ft, kelvin, density_ratio):
    assert atmosphere.temperature_c(altitude_ft) + 273.15 == pytest.approx(kelvin, abs=0.0006)
    ratio = atmosphere.density_kg_m3(altitude_ft) / atmosphere.density_kg_m3(0.0)
    assert ratio == pytest.approx(density_ratio, abs=0.00006)


def test_speed_of_sound_at_sea_level():
    # U.S. Standard Atmosphere 1976: 340.294 m/s, which is 661.48 kt. Recalled; √(γRT) gives the same.
    assert np.isclose(atmosphere.SPEED_OF_SOUND_0_M_S, 340.294, atol=0.001)
