"""Heat between an engine and the air: still air and wind outside, and warm air blown through the cowl."""

import numpy as np

from walkaround import checks
from walkaround.physics.air import atmosphere
from walkaround.units import HOUR_S, KELVIN_AT_0C, KNOT_M_S

STEFAN_BOLTZMANN_W_M2_K4 = 5.670374419e-8  # exact in the SI of 2019, CODATA
EMISSIVITY = 0.9  # of painted and dirty surfaces, ISO 6946
AIR_J_PER_KG_K = 3.5 * atmosphere.GAS_CONSTANT_J_PER_KG_K  # heat capacity of air, cp = γR/(γ − 1) with γ = 1.4
FLOW_EXPONENT = 0.6  # cylinders in a cross flow of 1,000 < Re < 200,000: A. Žukauskas (1972), recalled


def surface_w_per_m2_k(wind_m_s):
    """Heat that a surface loses to the outside, in W/m² for each K, in a wind in m/s (any shape).

    h = 4 + 4 v for the air and 4 ε σ T³ for radiation, at 0 °C (ISO 6946, annex on surface resistances;
    recalled, its table of resistances agrees). Raises ValueError for a negative wind or one above 60 m/s.

    >>> round(1 / float(surface_w_per_m2_k(4.0)), 2)  # the standard's outside resistance, m² K/W
    0.04
    """
    wind = checks.numbers("wind_m_s", wind_m_s, 0, 60, "m/s")
    return 4.0 + 4.0 * wind + 4.0 * EMISSIVITY * STEFAN_BOLTZMANN_W_M2_K4 * KELVIN_AT_0C**3


def wind_growth(wind_kt):
    """How many times as much heat a surface loses in a wind in kt as in still air (any shape).

    The ratio of `surface_w_per_m2_k` to its value at 0. Raises ValueError for a wind not from 0 to 100 kt.

    >>> round(float(wind_growth(10.0)), 1)
    3.5
    """
    wind = checks.numbers("wind_kt", wind_kt, 0, 100, "kt")
    return surface_w_per_m2_k(wind * KNOT_M_S) / surface_w_per_m2_k(0.0)


def flow_w_per_k(flow_m3_h):
    """Heat that a flow of air carries, in W for each K it is warmer (any shape).

    ṁ c_p. The flow is given as fans are rated, in m³/h of air at 15 °C and 1013.25 hPa, which makes it a flow of mass.
    Raises ValueError for a flow that is not above 0.

    >>> round(float(flow_w_per_k(200.0)), 1)
    68.4
    """
    flow = checks.numbers("flow_m3_h", flow_m3_h, above=0, unit="m³/h")
    return flow / HOUR_S * atmosphere.SEA_LEVEL_DENSITY_KG_M3 * AIR_J_PER_KG_K


def transfer_units(conductance_w_per_k, at_flow_m3_h, flow_m3_h):
    """Number of transfer units between an engine and a flow of air (all shapes broadcast).

    NTU = U A / (ṁ c_p). The conductance U A was measured at `at_flow_m3_h`; at another flow it is proportional to the
    flow to the power 0.6 (`FLOW_EXPONENT`). It grows less than the flow itself, so a faster flow has fewer transfer
    units. Raises ValueError for a flow that is not above 0 or a negative conductance.

    >>> [round(float(transfer_units(45.0, 200.0, flow)), 2) for flow in (100.0, 200.0, 400.0)]
    [0.87, 0.66, 0.5]
    """
    conductance = checks.numbers("conductance_w_per_k", conductance_w_per_k, low=0, unit="W/K")
    at_flow = checks.numbers("at_flow_m3_h", at_flow_m3_h, above=0, unit="m³/h")
    ratio = checks.numbers("flow_m3_h", flow_m3_h, above=0, unit="m³/h") / at_flow
    return conductance * ratio**FLOW_EXPONENT / flow_w_per_k(flow_m3_h)


def effectiveness(ntu):
    """Share of its heat that a flow gives up to a body it flows past (any shape).

    ε = 1 − exp(−NTU), a heat exchanger with one side at a uniform temperature (W. M. Kays and A. L. London, Compact
    Heat Exchangers; Incropera and DeWitt, eq. 11.35a; recalled). Raises ValueError below 0.

    >>> round(float(effectiveness(1.0)), 3)
    0.632
    """
    return -np.expm1(-checks.numbers("ntu", ntu, low=0))
