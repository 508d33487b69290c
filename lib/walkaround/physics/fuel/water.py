"""Water in fuel: out of humid air, in through a cap that leaks, and the chance that a sample misses it."""

import numpy as np

from walkaround import checks
from walkaround.units import GRAVITY_M_S2, HOUR_S, kelvin

GAS_CONSTANT_J_KG_K = 461.5  # of water vapour: ASHRAE Handbook, Fundamentals (recalled)
DISCHARGE = 0.6  # of a sharp-edged opening: textbooks of fluid mechanics (recalled)
TRIPLE_POINT_C = 0.01
# ln p = a/T + b + c T + d T² + e T³ + f T⁴ + g ln T, p in Pa and T in K (ASHRAE Handbook, Fundamentals, psychrometrics,
# after R. W. Hyland and A. Wexler, 1983. Recalled; steam tables agree).
_OVER_ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
_OVER_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)


def vapour_g_m3(temperature_c, relative_humidity=1.0):
    """Grams of water vapour in a cubic metre of air (shapes broadcast); `relative_humidity` is a share, 0 to 1.

    φ p/(R T) with the saturation pressure p over water, or over ice below 0.01 °C, of Hyland and Wexler (1983), and R
    of 461.5 J/(kg K): ASHRAE Handbook, Fundamentals (recalled). Raises ValueError for a temperature outside −60 to 60
    °C, a humidity outside 0 to 1, or shapes that don't fit.

    >>> [round(float(grams), 1) for grams in vapour_g_m3([10.0, 20.0])]
    [9.4, 17.3]
    """
    temperature = checks.numbers("temperature_c", temperature_c, -60, 60, "°C")
    humidity = checks.numbers("relative_humidity", relative_humidity, 0, 1)
    checks.same_shape(temperature_c=temperature, relative_humidity=humidity)
    t = kelvin(temperature)
    ice, water = (
        a / t + b + t * (c + t * (d + t * (e + t * f))) + g * np.log(t)
        for a, b, c, d, e, f, g in (_OVER_ICE, _OVER_WATER)
    )
    pressure_pa = np.exp(np.where(temperature < TRIPLE_POINT_C, ice, water))
    return 1000.0 * humidity * pressure_pa / (GAS_CONSTANT_J_KG_K * t)


def condensed_water_g(air_space_l, from_c, relative_humidity, to_c):
    """Grams of water that the air above the fuel gives up when it cools from one temperature to another in °C.

    All shapes broadcast; `relative_humidity` is a share, 0 to 1, of the air at `from_c`. The vapour in the air less
    what saturated air holds at `to_c`, 0 if the dew point isn't reached; the volume is taken as fixed. Air that the
    vent lets in as the rest shrinks adds about a tenth to what saturated air gives up from 30 to 10 °C, and a larger
    share where that is little. Raises ValueError for a volume below 0, and as `vapour_g_m3` does.

    >>> round(float(condensed_water_g(100.0, from_c=30.0, relative_humidity=1.0, to_c=10.0)), 1)
    2.1
    """
    air = checks.numbers("air_space_l", air_space_l, low=0, unit="L")
    before = vapour_g_m3(checks.numbers("from_c", from_c, -60, 60, "°C"), relative_humidity)
    after = vapour_g_m3(checks.numbers("to_c", to_c, -60, 60, "°C"))
    checks.same_shape(air_space_l=air, from_c=before, to_c=after)
    return air / 1000.0 * np.maximum(before - after, 0.0)


def leaked_l(rain_mm, hours, catches_m2, gap_mm2, standing_mm):
    """Litres of rain that run into a tank past its cap (all shapes broadcast).

    `rain_mm` falls in `hours`; the wing leads it to the cap from `catches_m2`; the seal leaves a gap of `gap_mm2`, over
    which the water stands `standing_mm` deep. No more than falls, and no more than the gap lets through: 0.6 A √(2 g h)
    (Torricelli, with the coefficient of a sharp edge; a fine crack passes less). Raises ValueError for anything below
    0, or shapes that don't fit.

    >>> round(float(leaked_l(rain_mm=15.0, hours=6.0, catches_m2=0.1, gap_mm2=2.0, standing_mm=5.0)), 2)
    1.5
    """
    rain = checks.numbers("rain_mm", rain_mm, low=0, unit="mm")
    hours = checks.numbers("hours", hours, low=0, unit="h")
    catches = checks.numbers("catches_m2", catches_m2, low=0, unit="m²")
    gap = checks.numbers("gap_mm2", gap_mm2, low=0, unit="mm²")
    standing = checks.numbers("standing_mm", standing_mm, low=0, unit="mm")
    checks.same_shape(rain_mm=rain, hours=hours, catches_m2=catches, gap_mm2=gap, standing_mm=standing)
    lets_in_m3_s = DISCHARGE * gap * 1e-6 * np.sqrt(2.0 * GRAVITY_M_S2 * standing * 1e-3)
    return np.minimum(rain * catches, 1000.0 * lets_in_m3_s * HOUR_S * hours)


def chance_missed(low_points, sampled, wet=1):
    """Chance that all the low points sampled are dry although some are wet (all shapes broadcast, whole numbers).

    Of `low_points`, `sampled` different ones are drawn from, and water lies in `wet` of them, each as likely as any
    other: the hypergeometric distribution at 0. Real water has favourite places, so sample those first, and then the
    rest. Raises ValueError for a number that is not whole, low points outside 1 to 1,000, fewer wet ones than 1, or
    more sampled or wet ones than there are.

    >>> chance_missed(5, [0, 1, 4, 5]).tolist()
    [1.0, 0.8, 0.2, 0.0]
    """
    points = checks.numbers("low_points", low_points, 1, 1000)
    taken = checks.numbers("sampled", sampled, low=0)
    wet = checks.numbers("wet", wet, low=1)
    points, taken, wet = checks.same_shape(low_points=points, sampled=taken, wet=wet)
    for name, counted in (("low_points", points), ("sampled", taken), ("wet", wet)):
        if (broken := counted != np.round(counted)).any():
            raise ValueError(f"{name} is {counted[broken][0]:g}; allowed: whole numbers")
        if (over := counted > points).any():
            most = f"{points[over][0]:g}"
            raise ValueError(f"{name} is {counted[over][0]:g}; allowed: up to the number of low points, {most}")
    missed = np.ones(points.shape)
    for i in range(int(taken.max(initial=0))):
        # The next one drawn from is dry too, if those before it were.
        dry = np.maximum(points - wet - i, 0.0) / np.maximum(points - i, 1.0)
        missed = np.where(i < taken, missed * dry, missed)
    return missed
