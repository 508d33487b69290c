"""Airspeeds up to the speed of sound: impact pressure, calibrated, equivalent and true airspeed, and back.

The airspeed indicator is a pressure gauge: it shows the speed that would give this impact pressure (total less static)
in the standard atmosphere at sea level. That reading, free of instrument and position error, is the calibrated
airspeed. True airspeed follows from it by way of the Mach number, which needs no density: calibrated airspeed → impact
pressure → Mach number → true airspeed.

Source: W. Gracey, Measurement of Aircraft Speed and Altitude, NASA Reference Publication 1046 (1980), the
chapters on airspeed and Mach number: isentropic flow brought to rest, with the ratio of specific heats 1.4.
"""

import numpy as np

from walkaround import checks
from walkaround.physics.air import atmosphere
from walkaround.units import KNOT_M_S

SPEED_OF_SOUND_0_KT = atmosphere.SPEED_OF_SOUND_0_M_S / KNOT_M_S  # 661.48 kt
GREATEST_CAS_KT = 661.479  # the same rounded up: beyond the speed of sound another relation holds
_NOTHING = 1e-300  # a square or ratio below this loses digits, and so counts as 0


def impact_pressure_hpa(cas_kt):
    """Impact pressure in hPa, total less static, from calibrated airspeed in kt (any shape).

    qc = p0·[(1 + 0.2 (V/a0)²)^3.5 − 1], sea level's p0 and a0 (NASA RP 1046). Raises ValueError for a
    negative speed or one above 661.479 kt, the speed of sound at sea level.

    >>> round(float(impact_pressure_hpa(100.0)), 2)
    16.3
    """
    cas = checks.numbers("cas_kt", cas_kt, 0, GREATEST_CAS_KT, "kt")
    return atmosphere.SEA_LEVEL_PRESSURE_HPA * impact_ratio(cas / SPEED_OF_SOUND_0_KT)


def calibrated_airspeed_kt(impact_pressure_hpa):
    """Calibrated airspeed in kt from impact pressure in hPa (any shape).

    V = a0·√(5 [(qc/p0 + 1)^(2/7) − 1]) (NASA RP 1046), the exact inverse of `impact_pressure_hpa`. Raises
    ValueError for a negative pressure (the needle then rests on its stop: see `pitot_static`) or one above
    904.762 hPa, that of the speed of sound.

    >>> round(float(calibrated_airspeed_kt(16.303)), 1)
    100.0
    """
    impact = checks.numbers("impact_pressure_hpa", impact_pressure_hpa, 0, 904.762, "hPa")
    return SPEED_OF_SOUND_0_KT * mach_from_ratio(impact / atmosphere.SEA_LEVEL_PRESSURE_HPA)


def mach_number(cas_kt, altitude_ft):
    """Mach number from calibrated airspeed in kt at a pressure altitude in ft (shapes broadcast).

    M = √(5 [(qc/p + 1)^(2/7) − 1]): the same impact pressure as at sea level, over the static pressure here.
    Temperature plays no part. Raises ValueError where the Mach number is above 1.

    >>> round(float(mach_number(200.0, 30000.0)), 3)
    0.541
    """
    checks.same_shape(cas_kt=cas_kt, altitude_ft=altitude_ft)
    ratio = impact_pressure_hpa(cas_kt) / atmosphere.pressure_hpa(altitude_ft)
    return _subsonic("Mach number at this cas_kt and altitude_ft", mach_from_ratio(ratio))


def calibrated_from_mach_kt(mach, altitude_ft):
    """Calibrated airspeed in kt from the Mach number at a pressure altitude in ft (shapes broadcast).

    The exact inverse of `mach_number`.

    >>> round(float(calibrated_from_mach_kt(0.541, 30000.0)))
    200
    """
    checks.same_shape(mach=mach, altitude_ft=altitude_ft)
    impact = atmosphere.pressure_hpa(altitude_ft) * impact_ratio(_subsonic("mach", mach))
    return SPEED_OF_SOUND_0_KT * mach_from_ratio(impact / atmosphere.SEA_LEVEL_PRESSURE_HPA)


def true_airspeed_kt(cas_kt, altitude_ft, temperature_c=None):
    """True airspeed in kt from calibrated airspeed in kt at a pressure altitude in ft (shapes broadcast).

    Mach number times the speed of sound at the outside temperature in °C; without one, at the standard
    temperature. Raises ValueError for a negative speed, one above Mach 1, an altitude outside −16,404 to
    36,089 ft, or a temperature not from −90 to 60 °C.

    >>> round(float(true_airspeed_kt(100.0, 10000.0)), 1)
    116.2
    """
    return mach_number(cas_kt, altitude_ft) * sound_speed_kt(altitude_ft, temperature_c)


def calibrated_from_true_kt(tas_kt, altitude_ft, temperature_c=None):
    """Calibrated airspeed in kt from true airspeed in kt at a pressure altitude in ft (shapes broadcast).

    The exact inverse of `true_airspeed_kt`.

    >>> round(float(calibrated_from_true_kt(116.2, 10000.0)), 1)
    100.0
    """
    return calibrated_from_mach_kt(mach_from_true(tas_kt, altitude_ft, temperature_c), altitude_ft)


def mach_from_true(tas_kt, altitude_ft, temperature_c=None):
    """Mach number from true airspeed in kt, at the temperature in °C or the standard one (shapes broadcast).

    >>> round(float(mach_from_true(330.74, 0.0)), 2)
    0.5
    """
    checks.same_shape(tas_kt=tas_kt, altitude_ft=altitude_ft)
    tas = checks.numbers("tas_kt", tas_kt, low=0, unit="kt")
    return _subsonic("Mach number at this tas_kt", tas / sound_speed_kt(altitude_ft, temperature_c))


def equivalent_airspeed_kt(cas_kt, altitude_ft):
    """Equivalent airspeed in kt from calibrated airspeed in kt at a pressure altitude in ft.

    The speed that has the same ½ρV² at sea level: a0·M·√(p/p0), which is true airspeed times √(ρ/ρ0) at any temperature
    (NASA RP 1046). Shapes broadcast. Up to 200 kt and 10,000 ft it is within 1 kt of the calibrated airspeed.

    >>> round(float(equivalent_airspeed_kt(250.0, 30000.0)), 1)
    240.8
    """
    mach = mach_number(cas_kt, altitude_ft)
    return SPEED_OF_SOUND_0_KT * mach * np.sqrt(_pressure_ratio(altitude_ft))


def calibrated_from_equivalent_kt(eas_kt, altitude_ft):
    """Calibrated airspeed in kt from equivalent airspeed in kt at a pressure altitude in ft.

    The exact inverse of `equivalent_airspeed_kt`.

    >>> round(float(calibrated_from_equivalent_kt(240.8, 30000.0)))
    250
    """
    checks.same_shape(eas_kt=eas_kt, altitude_ft=altitude_ft)
    eas = checks.numbers("eas_kt", eas_kt, low=0, unit="kt")
    mach = eas / (SPEED_OF_SOUND_0_KT * np.sqrt(_pressure_ratio(altitude_ft)))
    return calibrated_from_mach_kt(_subsonic("Mach number at this eas_kt", mach), altitude_ft)


def sound_speed_kt(altitude_ft, temperature_c=None):
    """Speed of sound in kt at a temperature in °C, or without one at the standard temperature here.

    >>> round(float(sound_speed_kt(0.0)), 1)
    661.5
    """
    if temperature_c is None:
        temperature_c = atmosphere.temperature_c(altitude_ft)
    checks.same_shape(altitude_ft=altitude_ft, temperature_c=temperature_c)
    return atmosphere.speed_of_sound_m_s(temperature_c) / KNOT_M_S


def impact_ratio(mach):
    """Impact pressure over static pressure from the Mach number: (1 + 0.2 M²)^3.5 − 1; unchecked.

    A Mach number below 1e-150 counts as 0.

    >>> round(float(impact_ratio(1.0)), 4)
    0.8929
    """
    # expm1 and log1p keep all digits at low speed, where 1 + a little − 1 would lose them.
    square = np.square(mach)
    return np.expm1(3.5 * np.log1p(np.where(square < _NOTHING, 0.0, 0.2 * square)))[()]


def mach_from_ratio(impact_over_static):
    """Mach number from impact pressure over static pressure: the exact inverse of `impact_ratio`; unchecked.

    >>> round(float(mach_from_ratio(0.8929)), 3)
    1.0
    """
    ratio = np.where(np.less(impact_over_static, _NOTHING), 0.0, impact_over_static)
    return np.sqrt(5.0 * np.expm1(np.log1p(ratio) / 3.5))[()]


def _pressure_ratio(altitude_ft):
    return atmosphere.pressure_hpa(altitude_ft) / atmosphere.SEA_LEVEL_PRESSURE_HPA


def _subsonic(name, mach):
    return checks.numbers(name, mach, 0, 1)
