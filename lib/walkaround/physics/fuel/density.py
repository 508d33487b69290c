"""What a litre of fuel weighs: warm fuel takes more room, so a litre of it weighs less."""

import numpy as np

from walkaround import checks
from walkaround.units import POUND_KG, US_GALLON_L

LIGHTEST_KG_L, HEAVIEST_KG_L = 0.653, 0.8385
BASE_C = 15.0


def density_kg_l(density_15c_kg_l, temperature_c):
    """Density of gasoline or jet fuel in kg/L at a temperature in °C, from its density at 15 °C (shapes broadcast).

    ρ = ρ₁₅ exp(−α ΔT (1 + 0.8 α ΔT)) with ΔT from 15 °C, ρ₁₅ in kg/m³ and α = 346.4228/ρ₁₅² + 0.4388/ρ₁₅ for gasolines
    (up to 770.5), 594.5418/ρ₁₅² for jet fuels (from 787.5), and 2680.3206/ρ₁₅² − 0.00336312 between them (ASTM D1250,
    API MPMS chapter 11.1, table 54B. Recalled). Raises ValueError for a density at 15 °C outside 0.653 to 0.8385 kg/L,
    a temperature outside −50 to 95 °C, or shapes that don't fit.

    >>> [round(float(density), 3) for density in density_kg_l(0.72, [-20.0, 15.0, 35.0])]
    [0.752, 0.72, 0.701]
    """
    base = checks.numbers("density_15c_kg_l", density_15c_kg_l, LIGHTEST_KG_L, HEAVIEST_KG_L, "kg/L")
    temperature = checks.numbers("temperature_c", temperature_c, -50, 95, "°C")
    checks.same_shape(density_15c_kg_l=base, temperature_c=temperature)
    rho = 1000.0 * base
    jet = np.where(rho < 787.5, 2680.3206 / rho**2 - 0.00336312, 594.5418 / rho**2)
    alpha = np.where(rho < 770.5, 346.4228 / rho**2 + 0.4388 / rho, jet)
    expands = alpha * (temperature - BASE_C)
    return base * np.exp(-expands * (1.0 + 0.8 * expands))


def lb_per_us_gal(density):
    """Density in lb/US gal from one in kg/L (any shape); raises ValueError unless it is above 0.

    >>> round(float(lb_per_us_gal(0.72)), 2)
    6.01
    """
    return checks.numbers("density", density, above=0, unit="kg/L") * US_GALLON_L / POUND_KG
