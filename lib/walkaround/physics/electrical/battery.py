"""How much of a lead-acid battery's capacity is left in the cold.

Just when thick oil makes an engine hardest to turn, the battery has least to turn it with.
"""

import numpy as np

from walkaround import checks
from walkaround.units import celsius

# Down to 25 °F: the temperature correction factors by which IEEE Std 485 has a lead-acid battery made larger
# for the cold, turned over (1/1.52 = 66 %). Recalled. Below: 50, 40 and 33 % at 10, 0 and −10 °F are common
# practice, no source.
_FAHRENHEIT = (-10.0, 0.0, 10.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 77.0)
_FACTORS = (1.52, 1.43, 1.35, 1.30, 1.25, 1.19, 1.15, 1.11, 1.08, 1.04, 1.0)
_SHARES = (0.33, 0.40, 0.50, *(1 / f for f in _FACTORS))

COLDEST_C = float(celsius(_FAHRENHEIT[0]))


def capacity_share(temperature_c):
    """Share of its rated capacity that a charged lead-acid battery has at a temperature in °C (any shape).

    Straight between the points of IEEE Std 485 and, below −3.9 °C, of common practice without a source; 1 above
    25 °C, where it is rated. A guide for the lesson: what counts is the battery maker's own figure. Raises
    ValueError below −23.3 °C, where there is no figure, and above 60 °C.

    >>> [round(float(share), 2) for share in capacity_share([25.0, 10.0, -10.0, -20.0])]
    [1.0, 0.84, 0.54, 0.37]
    """
    temperature = checks.numbers("temperature_c", temperature_c, COLDEST_C, 60, "°C")
    return np.interp(temperature, celsius(_FAHRENHEIT), _SHARES)
