"""Where the heat of combustion goes: to the propeller, into cylinder heads and oil, and out of the exhaust."""

from walkaround import checks
from walkaround.units import HORSEPOWER_W

# Heat from the gas into the cylinder grows with the charge burnt to this power: B. Pinkel, NACA Report 612 (1938),
# recalled. A share of the fuel's heat that holds at full power is therefore larger at part power.
HEAT_EXPONENT = 0.64
LEAST_POWER = 0.02  # of full power: an engine that runs burns something


def fuel_heat_w(horsepower, efficiency):
    """Heat of the fuel in W that an engine burns for a shaft power (shapes broadcast).

    Shaft power over brake thermal efficiency, the share of the fuel's lower heating value that reaches the propeller
    (J. B. Heywood, Internal Combustion Engine Fundamentals, ch. 2). Raises ValueError for a power that is not above 0
    or an efficiency not above 0 and up to 1.

    >>> round(float(fuel_heat_w(180.0, 0.27)))
    497133
    """
    power = checks.numbers("horsepower", horsepower, above=0)
    efficiency = checks.numbers("efficiency", efficiency, above=0, high=1)
    checks.same_shape(horsepower=power, efficiency=efficiency)
    return power * HORSEPOWER_W / efficiency


def share_of_full(power):
    """Heat into cylinders and oil at a share of full power, as a share of what it is there: power^0.64 (any shape).

    B. Pinkel, NACA Report 612 (recalled). Raises ValueError for a power below 0.02 or above 1.

    >>> share_of_full([0.55, 0.75, 1.0]).round(2).tolist()
    [0.68, 0.83, 1.0]
    """
    return checks.numbers("power", power, LEAST_POWER, 1) ** HEAT_EXPONENT
