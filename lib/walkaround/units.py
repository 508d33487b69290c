"""Conversion factors, each with its source, and the few conversions that are not a factor.

Sources: [SP811] NIST Special Publication 811 (2008), Appendix B: factors in bold there are exact by
definition; [IYP] the international yard and pound agreement of 1959.
"""

import numpy as np

POUND_KG = 0.45359237  # exact, [IYP]
FOOT_M = 0.3048  # exact, [IYP]
NAUTICAL_MILE_M = 1852.0  # exact, [SP811]
KNOT_M_S = NAUTICAL_MILE_M / 3600.0  # exact, [SP811]
US_GALLON_L = 3.785411784  # exact: 231 cubic inches, [SP811]
US_QUART_L = US_GALLON_L / 4.0  # exact, [SP811]
INHG_HPA = 33.86389  # conventional inch of mercury, [SP811]
INH2O_20C_HPA = 1013.25 / 407.513  # inch of water at 20 °C, as manometer tables use it
KELVIN_AT_0C = 273.15  # exact, [SP811]
HOUR_S = 3600.0
GRAVITY_M_S2 = 9.80665  # exact, standard acceleration of free fall, [SP811]
KWH_J = 3.6e6  # exact, [SP811]
HORSEPOWER_W = 745.69987  # mechanical horsepower, 550 ft·lbf/s, [SP811]


def celsius(fahrenheit):
    """Temperature in °C from °F: (F − 32) / 1.8 [SP811]. A temperature difference takes no 32.

    >>> float(celsius(212.0))
    100.0
    """
    return (np.asarray(fahrenheit, dtype=float) - 32.0) / 1.8


def fahrenheit(celsius):
    """Temperature in °F from °C: 1.8 C + 32 [SP811].

    >>> float(fahrenheit(-40.0))
    -40.0
    """
    return 1.8 * np.asarray(celsius, dtype=float) + 32.0


def kelvin(celsius):
    """Temperature in K from °C: C + 273.15 [SP811].

    >>> float(kelvin(15.0))
    288.15
    """
    return np.asarray(celsius, dtype=float) + KELVIN_AT_0C
