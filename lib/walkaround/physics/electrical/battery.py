"""How much of a lead-acid battery's capacity is left in the cold.

The battery is weakest just when thick oil makes the engine hardest to turn.
"""

import numpy as np

from walkaround import checks
from walkaround.units import celsius

# Down to 25 °F: the reciprocals of the temperature correction factors of IEEE Std 485, by which a lead-acid battery has
# to be larger in the cold (1/1.52 = 66 %). Recalled. Below that, 50, 40 and 33 % at 10, 0 and −10 °F: common practice,
# no source.
_FAHRENHEIT = (-10.0, 0.0, 10.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 77.0)
_FACTORS = (1.52, 1.43, 1.35, 1.30, 1.25, 1.19, 1.15, 1.11, 1.08, 1.04, 1.0)
_SHARES = (0.33, 0.40, 0.50, *(1 / f for f in _FACTORS))

COLDEST_C = float(celsius(_FAHRENHEIT[0]))


def capacity_share(temperature_c):
    """Share of its rated capacity that a charged lead-acid battery has at a temperature in °C (any shape).

    Straight lines between the points of IEEE Std 485 and, below −3.9 °C, of common practice without a source; 1 above
    25 °C, where it is rated. A guide for the lesson: for a real battery its maker's figures count. Raises ValueError
    below −23.3 °C, where there is no figure, and above 60 °C.

    >>> [round(float(share), 2) for share in capacity_share([25.0, 10.0, -10.0, -20.0])]
    [1.0, 0.84, 0.54, 0.37]
    """
    temperature = checks.numbers("temperature_c", temperature_c, COLDEST_C, 60, "°C")
    return np.interp(temperature, celsius(_FAHRENHEIT), _SHARES)
