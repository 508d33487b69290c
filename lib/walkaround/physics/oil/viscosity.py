"""How thick oil is: kinematic viscosity at a temperature, and the viscosity index.

Kinematic viscosity is in mm²/s, which the trade also calls centistokes. Near and below the temperature at which wax
forms, oil is thicker than these equations give, and at its pour point it no longer flows at all.
"""

import numpy as np

from walkaround import checks
from walkaround.units import kelvin

LEAST_MM2_S, MOST_MM2_S = 0.21, 2e7  # range of ASTM D341

# ASTM D2270, the quadratic fits to its table: viscosity at 100 °C from and to, then L = a ν² + b ν + c and
# H = d ν² + e ν + f. Recalled; every row agrees to 0.12 % with the table itself as in the chemicals package.
_D2270 = np.array(
    [
        (2.0, 3.8, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077),
        (3.8, 4.4, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183),
        (4.4, 5.0, 2.5000, -7.2143, 13.812, 0.82143, 1.5679, 0.119),
        (5.0, 6.4, 0.10100, 16.6350, -45.469, 0.04985, 9.1613, -18.557),
        (6.4, 7.0, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656),
        (7.0, 7.7, 0.01191, 21.4750, -72.870, 0.79762, -0.7321, 14.610),
        (7.7, 9.0, 0.41858, 16.1558, -56.040, 0.05794, 10.5156, -28.240),
        (9.0, 12.0, 0.88779, 7.5527, -16.600, 0.26665, 6.7015, -10.810),
        (12.0, 15.0, 0.76720, 10.7972, -38.180, 0.20073, 8.4658, -22.490),
        (15.0, 18.0, 0.97305, 5.3135, -2.200, 0.28889, 5.9741, -4.930),
        (18.0, 22.0, 0.97256, 5.2500, -0.980, 0.24504, 7.4160, -16.730),
        (22.0, 28.0, 0.91413, 7.4759, -21.820, 0.20323, 9.1267, -34.230),
        (28.0, 40.0, 0.87031, 9.7157, -50.770, 0.18411, 10.1015, -46.750),
        (40.0, 55.0, 0.84703, 12.6752, -133.310, 0.17029, 11.4866, -80.620),
        (55.0, 70.0, 0.85921, 11.1009, -83.190, 0.17130, 11.3680, -76.940),
        (70.0, np.inf, 0.83531, 14.6731, -216.246, 0.16841, 11.8493, -96.947),
    ]
)


def viscosity_mm2_s(temperature_c, at_40_mm2_s, at_100_mm2_s):
    """Kinematic viscosity in mm²/s at a temperature in °C from those at 40 and 100 °C (all shapes broadcast).

    log₁₀ log₁₀ Z = A − B log₁₀ T with Z = ν + 0.7 + exp(−1.47 − 1.84 ν − 0.51 ν²) and T in K: a straight line through
    the two points on the chart of ASTM D341 (recalled). The standard's own fit leads back from Z to ν, to 0.03 %.
    Raises ValueError for a temperature not from −60 to 200 °C, a viscosity, given or found, outside the chart's 0.21 to
    20,000,000 mm²/s, an oil that is no thinner when it is hotter, or shapes that don't fit.

    >>> [round(float(nu)) for nu in viscosity_mm2_s([-20.0, 20.0, 40.0, 100.0], 210.0, 19.4)]
    [48677, 774, 210, 19]
    """
    return _at("temperature_c", temperature_c, at_40_mm2_s, at_100_mm2_s)


def _at(name, temperature_c, at_40_mm2_s, at_100_mm2_s):
    temperature = checks.numbers(name, temperature_c, -60, 200, "°C")
    at_40 = checks.numbers("at_40_mm2_s", at_40_mm2_s, LEAST_MM2_S, MOST_MM2_S, "mm²/s")
    at_100 = checks.numbers("at_100_mm2_s", at_100_mm2_s, LEAST_MM2_S, MOST_MM2_S, "mm²/s")
    checks.same_shape(**{name: temperature}, at_40_mm2_s=at_40, at_100_mm2_s=at_100)
    _check_thinner(at_40, at_100)
    y_40, y_100 = _double_log(at_40), _double_log(at_100)
    x, x_40, x_100 = (np.log10(kelvin(c)) for c in (temperature, 40.0, 100.0))
    with np.errstate(over="ignore"):
        found = _from_double_log(y_40 + (y_100 - y_40) * (x - x_40) / (x_100 - x_40))
    # The inverse that the standard gives is not exact, so an oil at either end of the chart may come out just beyond
    # it.
    beyond = ~((found >= 0.99 * LEAST_MM2_S) & (found <= 1.01 * MOST_MM2_S))
    if beyond.any():
        place = tuple(np.argwhere(beyond)[0]) if beyond.ndim else ()
        here = checks.with_unit(np.broadcast_to(temperature, beyond.shape)[place], "°C")
        end = f"thinner than {LEAST_MM2_S}" if found[place] < 1 else f"thicker than {MOST_MM2_S:,.0f}"
        raise ValueError(f"{name} is {here}, at which this oil would be {end} mm²/s; allowed: the range of ASTM D341")
    return np.clip(found, LEAST_MM2_S, MOST_MM2_S)


def times_thicker(cold_c, warm_c, at_40_mm2_s, at_100_mm2_s):
    """How many times as thick oil is at one temperature in °C as at another (all shapes broadcast).

    The ratio of `viscosity_mm2_s` at the two.

    >>> round(float(times_thicker(-15.0, 20.0, 210.0, 19.5)))
    32
    """
    cold, warm = _at("cold_c", cold_c, at_40_mm2_s, at_100_mm2_s), _at("warm_c", warm_c, at_40_mm2_s, at_100_mm2_s)
    checks.same_shape(cold_c=cold, warm_c=warm)
    return cold / warm


def viscosity_index(at_40_mm2_s, at_100_mm2_s):
    """Viscosity index from the kinematic viscosities at 40 and 100 °C in mm²/s (shapes broadcast), unrounded.

    The higher it is, the less an oil thickens in the cold. (L − U)/(L − H) · 100 up to 100, and above that (10^N −
    1)/0.00715 + 100 with N = log(H/U)/log(Y), for U at 40 and Y at 100 °C (ASTM D2270); L and H by quadratics in Y,
    which meet the standard's table to 0.12 %. Raises ValueError below 2 mm²/s at 100 °C, where it is not
    defined, for an oil that is no thinner when it is hotter, and for shapes that don't fit.

    >>> round(float(viscosity_index(73.30, 8.86)))  # the standard's example
    92
    """
    hot = checks.numbers("at_100_mm2_s", at_100_mm2_s, low=2.0, unit="mm²/s")
    warm = checks.numbers("at_40_mm2_s", at_40_mm2_s, above=0, unit="mm²/s")
    checks.same_shape(at_40_mm2_s=warm, at_100_mm2_s=hot)
    _check_thinner(warm, hot)
    row = np.searchsorted(_D2270[:, 1], hot, side="left")
    a, b, c, d, e, f = np.moveaxis(_D2270[row, 2:], -1, 0)
    low, high = a * hot**2 + b * hot + c, d * hot**2 + e * hot + f
    up_to_100 = 100 * (low - warm) / (low - high)
    above_100 = (10 ** (np.log(high / warm) / np.log(hot)) - 1) / 0.00715 + 100
    return np.where(warm >= high, up_to_100, above_100)


def _check_thinner(at_40, at_100):
    wrong = checks.at_most(at_40, at_100)
    if wrong.any():
        place = tuple(np.argwhere(wrong)[0]) if wrong.ndim else ()
        warm, hot = (np.broadcast_to(v, wrong.shape)[place] for v in (at_40, at_100))
        raise ValueError(
            f"at_40_mm2_s is {checks.with_unit(warm, 'mm²/s')} and at_100_mm2_s {checks.with_unit(hot, 'mm²/s')}; "
            "allowed: an oil that is thinner at 100 °C than at 40 °C"
        )


def _double_log(viscosity):
    z = viscosity + 0.7 + np.exp(-1.47 - 1.84 * viscosity - 0.51 * viscosity**2)
    return np.log10(np.log10(z))


def _from_double_log(y):
    # ASTM D341 gives this fit in place of the inverse of Z, which has no closed form.
    over = 10 ** (10**y) - 0.7
    thin = np.minimum(over, 3.0)  # above 2 mm²/s the correction vanishes, and its polynomial no longer holds
    fit = np.exp(-0.7487 - 3.295 * thin + 0.6119 * thin**2 - 0.3193 * thin**3)
    return over - np.where(over < 3.0, fit, 0.0)
