"""The standard atmosphere from below sea level to the tropopause.

Source: U.S. Standard Atmosphere, 1976 (NOAA/NASA/USAF), equal to ICAO Doc 7488 in this range. Altitudes are
geopotential feet, as altimeters show them.
"""

import numpy as np

from walkaround import checks
from walkaround.units import FOOT_M, GRAVITY_M_S2, INHG_HPA, KELVIN_AT_0C, kelvin

SEA_LEVEL_PRESSURE_HPA = 1013.25
SEA_LEVEL_TEMPERATURE_C = 15.0
SEA_LEVEL_DENSITY_KG_M3 = 1.225
LAPSE_K_PER_M = 0.0065
GAS_CONSTANT_J_PER_KG_K = 8314.32 / 28.9644  # R* / M0 of the 1976 standard
HEAT_RATIO = 1.4
SPEED_OF_SOUND_0_M_S = float(np.sqrt(HEAT_RATIO * GAS_CONSTANT_J_PER_KG_K * kelvin(SEA_LEVEL_TEMPERATURE_C)))

LOWEST_FT = -5000 / FOOT_M  # the 1976 standard's tables begin at −5 km
TROPOPAUSE_FT = 11000 / FOOT_M  # 36,089 ft: above it the temperature no longer falls
_EXPONENT = GRAVITY_M_S2 / (GAS_CONSTANT_J_PER_KG_K * LAPSE_K_PER_M)  # 5.2559


def _altitude(altitude_ft, name="altitude_ft"):
    return checks.numbers(name, altitude_ft, LOWEST_FT, TROPOPAUSE_FT, "ft")


def temperature_c(altitude_ft):
    """Standard temperature in °C at a pressure altitude in ft (any shape).

    T = 15 °C − 6.5 K/km · h (U.S. Standard Atmosphere 1976, eq. 23). Raises ValueError outside −16,404 to
    36,089 ft (the tropopause).

    >>> round(float(temperature_c(10000.0)), 2)
    -4.81
    """
    return SEA_LEVEL_TEMPERATURE_C - LAPSE_K_PER_M * FOOT_M * _altitude(altitude_ft)


def pressure_hpa(altitude_ft):
    """Standard pressure in hPa at a pressure altitude in ft (any shape).

    p = 1013.25 hPa · (T/T0)^5.2559 (U.S. Standard Atmosphere 1976, eq. 33a). Raises ValueError outside
    −16,404 to 36,089 ft.

    >>> round(float(pressure_hpa(0.0)), 2)
    1013.25
    """
    ratio = kelvin(temperature_c(altitude_ft)) / (SEA_LEVEL_TEMPERATURE_C + KELVIN_AT_0C)
    return SEA_LEVEL_PRESSURE_HPA * ratio**_EXPONENT


def pressure_altitude_ft(pressure_hpa):
    """Pressure altitude in ft from static pressure in hPa (any shape): the exact inverse of `pressure_hpa`.

    Raises ValueError outside the pressures from −16,404 ft to 36,089 ft.

    >>> round(float(pressure_altitude_ft(1013.25)), 6)
    0.0
    """
    pressure = checks.numbers("pressure_hpa", pressure_hpa, _LEAST_HPA, _MOST_HPA, "hPa")
    ratio = (pressure / SEA_LEVEL_PRESSURE_HPA) ** (1 / _EXPONENT)
    return (1 - ratio) * (SEA_LEVEL_TEMPERATURE_C + KELVIN_AT_0C) / (LAPSE_K_PER_M * FOOT_M)


def density_kg_m3(altitude_ft, temperature_c=None):
    """Air density in kg/m³ at a pressure altitude in ft and a temperature in °C (shapes broadcast).

    ρ = p / (R T), the perfect gas; without a temperature the standard one. Raises ValueError for an altitude
    outside the range or a temperature not from −90 to 60 °C.

    >>> round(float(density_kg_m3(0.0)), 4)
    1.225
    """
    pressure_pa = 100 * pressure_hpa(altitude_ft)
    return pressure_pa / (GAS_CONSTANT_J_PER_KG_K * kelvin(_outside(altitude_ft, temperature_c)))


def _outside(altitude_ft, outside_c):
    if outside_c is None:
        return temperature_c(altitude_ft)
    return checks.numbers("temperature_c", outside_c, -90, 60, "°C")


def density_altitude_ft(altitude_ft, outside_c=None):
    """Altitude in ft in the standard atmosphere that has the air density found here (shapes broadcast).

    Up to the tropopause ρ/ρ0 = (T/T0)^4.2559 solved for the altitude; above it, where the standard temperature is the
    same throughout, h = h_T + (R T_T/g) ln(ρ_T/ρ) (U.S. Standard Atmosphere 1976, eqs. 23, 33a, 33b, 42).

    >>> round(float(density_altitude_ft(5000.0)), 6), round(float(density_altitude_ft(36089.0, -20.0)))
    (5000.0, 39328)
    """
    density = density_kg_m3(altitude_ft, outside_c)
    ratio, at_tropopause = density / density_kg_m3(0.0), density_kg_m3(TROPOPAUSE_FT)
    below = (1 - ratio ** (1 / (_EXPONENT - 1))) * (SEA_LEVEL_TEMPERATURE_C + KELVIN_AT_0C) / (LAPSE_K_PER_M * FOOT_M)
    scale_m = GAS_CONSTANT_J_PER_KG_K * kelvin(temperature_c(TROPOPAUSE_FT)) / GRAVITY_M_S2
    above = TROPOPAUSE_FT + scale_m / FOOT_M * np.log(at_tropopause / density)
    return np.where(density < at_tropopause, above, below)[()]


def altimeter_difference_ft(setting_inhg):
    """How far in ft a barometric setting in inHg moves the altimeter's reading from the one at 29.92 (any shape).

    The pressure altitude of the setting with its sign reversed: a higher setting reads higher
    (14 CFR Part 43 Appendix E, Table IV).

    >>> round(float(altimeter_difference_ft(30.50)))
    531
    """
    setting = checks.numbers("setting_inhg", setting_inhg, 25.0, 33.0, "inHg")
    return -pressure_altitude_ft(setting * INHG_HPA)


def speed_of_sound_m_s(temperature_c):
    """Speed of sound in m/s at a temperature in °C (any shape): a = √(γ R T) (U.S. Standard Atmosphere 1976, eq. 50).

    >>> round(float(speed_of_sound_m_s(15.0)), 2)
    340.29
    """
    outside = checks.numbers("temperature_c", temperature_c, -90, 60, "°C")
    return np.sqrt(HEAT_RATIO * GAS_CONSTANT_J_PER_KG_K * kelvin(outside))


_LEAST_HPA = float(pressure_hpa(TROPOPAUSE_FT))
_MOST_HPA = float(pressure_hpa(LOWEST_FT))
