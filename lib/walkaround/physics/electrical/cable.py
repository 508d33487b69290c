"""A copper cable of an American gauge: its cross-section, and its resistance, warm or cold."""

import numpy as np

from walkaround import checks
from walkaround.physics.electrical.lead import COPPER_OHM_MM2_PER_M

# Copper has no resistance at −234.5 °C if its line is drawn on: FAA AC 43.13-1B, section on wire sizes.
ZERO_OHM_C = -234.5


def area_mm2(gauge_awg):
    """Cross-section in mm² of a solid round wire of an American gauge (any shape); 0 (1/0) is 0, 00 (2/0) is −1.

    π/4 · (0.127 mm · 92^((36 − n)/39))² (ASTM B258, recalled). Raises ValueError outside −3 (4/0) to 40.

    >>> round(float(area_mm2(2)), 1)
    33.6
    """
    gauge = checks.numbers("gauge_awg", gauge_awg, -3, 40)
    return np.pi / 4 * (0.127 * 92 ** ((36 - gauge) / 39)) ** 2


def resistance_ohm(gauge_awg, length_m, temperature_c=20.0):
    """Resistance in Ω of a bare copper wire of an American gauge (shapes broadcast); 00 is −1, 000 is −2.

    Parameters: `gauge_awg`; `length_m` that the current runs through, there and back if both ways are cable;
    `temperature_c` of the wire. ρ L/A at 20 °C with the International Annealed Copper Standard, times (234.5 + T)/254.5
    (FAA AC 43.13-1B). Tinned strands have 11 to 27 % more (its table 11-8). Raises ValueError for a gauge outside −3 to
    40, a negative length, or a temperature outside −60 to 200 °C.

    >>> [round(float(ohm), 5) for ohm in resistance_ohm(2, [5.0, 10.0])]
    [0.00256, 0.00513]
    """
    length = checks.numbers("length_m", length_m, low=0, unit="m")
    temperature = checks.numbers("temperature_c", temperature_c, -60, 200, "°C")
    area = area_mm2(gauge_awg)
    checks.same_shape(gauge_awg=area, length_m=length, temperature_c=temperature)
    return COPPER_OHM_MM2_PER_M * length / area * (temperature - ZERO_OHM_C) / (20.0 - ZERO_OHM_C)
