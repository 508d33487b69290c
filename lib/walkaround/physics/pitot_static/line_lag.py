"""A pressure line behind a small hole: how slowly it follows the outside, and its pressure at each moment.

Ice, an insect, tape with a pinhole or a porous cover leaves an opening neither clear nor blocked. Air seeps through the
hole, and the pressure in the line follows the one outside as a first-order lag:

    dp/dt = (p_outside − p) / τ

Source of the time constant: Poiseuille's law for laminar flow through a round hole, filling a rigid volume at constant
temperature. For differences in pressure that are small compared with the pressure itself this gives τ = 128 µ L V / (π
d⁴ p), as in W. Gracey, Measurement of Aircraft Speed and Altitude, NASA Reference Publication 1046 (1980), the chapter
on lag (recalled). One τ is used for a whole flight, although it grows as the pressure falls: by 20 % from sea level to
5,000 ft.
"""

import numpy as np

from walkaround import checks
from walkaround.physics.air import atmosphere
from walkaround.units import kelvin


def air_viscosity_pa_s(temperature_c=atmosphere.SEA_LEVEL_TEMPERATURE_C):
    """Dynamic viscosity of air in Pa·s at a temperature in °C (any shape).

    Sutherland's law, µ = β T^1.5 / (T + S) with β = 1.458·10⁻⁶ kg/(s·m·√K) and S = 110.4 K (U.S. Standard
    Atmosphere 1976, eq. 51). Raises ValueError for a temperature not from −90 to 60 °C.

    >>> f"{float(air_viscosity_pa_s(15.0)):.4e}"
    '1.7894e-05'
    """
    temperature_k = kelvin(checks.numbers("temperature_c", temperature_c, -90, 60, "°C"))
    return 1.458e-6 * temperature_k**1.5 / (temperature_k + 110.4)


def time_constant_s(bore_mm, length_mm, line_volume_ml, holes=1, pressure_hpa=1013.25, temperature_c=15.0):
    """Time constant in s of a pressure line behind a small hole (all shapes broadcast).

    Parameters: `bore_mm` (the diameter) and `length_mm` of the hole; `line_volume_ml`, the volume of the line and of
    the instruments on it; `holes`, how many such holes lie side by side, as in a porous cover; pressure and temperature
    of the air in the line. τ = 128 µ L V / (π d⁴ p) divided by the number of holes.

    A bore of 0 is a blocked opening with an infinite time constant. For a hole as wide as the line it is microseconds,
    so the line is clear. After one τ the line has followed 63 % of a sudden change, after three 95 %. Raises ValueError
    for a negative bore, or a length, volume, number or pressure that is not above 0.

    >>> round(float(time_constant_s(bore_mm=0.1, length_mm=2.0, line_volume_ml=50.0)), 1)
    7.2
    """
    given = {
        "bore_mm": checks.numbers("bore_mm", bore_mm, low=0, unit="mm"),
        "length_mm": checks.numbers("length_mm", length_mm, above=0, unit="mm"),
        "line_volume_ml": checks.numbers("line_volume_ml", line_volume_ml, above=0, unit="mL"),
        "holes": checks.numbers("holes", holes, above=0),
        "pressure_hpa": checks.numbers("pressure_hpa", pressure_hpa, above=0, unit="hPa"),
        "temperature_c": air_viscosity_pa_s(temperature_c),
    }
    bore_mm, length_mm, volume_ml, holes, pressure_hpa, viscosity = checks.same_shape(**given)
    bore_m, length_m, volume_m3, pressure_pa = (bore_mm / 1e3, length_mm / 1e3, volume_ml / 1e6, 100 * pressure_hpa)
    with np.errstate(divide="ignore"):
        return 128 * viscosity * length_m * volume_m3 / (np.pi * bore_m**4 * pressure_pa * holes)


def follow(time_s, outside, time_constant_s, start=None):
    """Pressure at each moment in a line behind a small hole, while the one outside changes evenly between samples.

    Parameters: `time_s`, increasing, shape (n,); `outside`, the pressure outside at these times in any unit, time on
    its last axis; `time_constant_s` from 0 (clear: the line is always at the pressure outside) to infinity (blocked: it
    keeps its first pressure), broadcast against the axes before time; `start`, the pressure in the line at the first
    moment (left out: the one outside). Returns the pressures in the line, time on the last axis.

    Exact for steps of any length: in a step of z = dt/τ, over which the outside changes by Δ, the difference e between
    line and outside becomes e·exp(−z) − Δ·(1 − exp(−z))/z. Raises ValueError for times that don't increase, arrays of
    unequal length, or a negative time constant.

    >>> follow([0.0, 1.0, 2.0], [0.0, 1.0, 1.0], 1.0).round(4)
    array([0.    , 0.3679, 0.7675])
    """
    time_s = checks.increasing("time_s", time_s)
    outside = checks.numbers("outside", outside)
    if outside.shape[-1:] != time_s.shape:
        raise ValueError(
            f"outside has shape {outside.shape}, time_s has shape {time_s.shape}; allowed: last axes of equal length"
        )
    tau = checks.zero_to_infinity("time_constant_s", time_constant_s, "s")[..., np.newaxis]
    start = outside[..., 0] if start is None else checks.numbers("start", start)
    outside, first, tau = np.broadcast_arrays(outside, start[..., np.newaxis], tau)
    with np.errstate(divide="ignore"):
        steps = np.diff(time_s) / tau[..., :-1]  # τ = 0 gives infinity, τ = ∞ gives 0
    safe = np.where(steps > 0, steps, 1.0)
    kept = np.exp(-steps)
    gained = -np.diff(outside) * np.where(steps > 0, -np.expm1(-safe) / safe, 1.0)
    # A clear line never differs from the outside, not even at the first moment.
    first = np.where(tau[..., 0] > 0, first[..., 0] - outside[..., 0], 0.0)
    gained = np.concatenate([first[..., np.newaxis], gained], axis=-1)
    kept = np.concatenate([np.zeros_like(first)[..., np.newaxis], kept], axis=-1)
    return outside + _chain(kept, gained)


def _chain(kept, gained):
    """Run e[k] = kept[k]·e[k−1] + gained[k] along the last axis without a Python loop over the samples.

    Two such steps make another one, so steps are combined in pairs, then in fours, then in eights (W. D. Hillis and
    G. L. Steele, Data parallel algorithms, 1986). No factor is above 1, so nothing overflows. Changes the arrays given.
    """
    reach = 1
    # What is left of a difference after a factor of 1e-20 is below the last digit of any pressure.
    while reach < kept.shape[-1] and np.any(kept[..., reach:] > 1e-20):
        gained[..., reach:] = gained[..., reach:] + kept[..., reach:] * gained[..., :-reach]
        kept[..., reach:] = kept[..., reach:] * kept[..., :-reach]
        reach *= 2
    return gained
