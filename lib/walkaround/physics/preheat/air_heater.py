"""A forced-air heater with a thermostat on its outlet: when it switches, and how warm its air is.

The fan draws air from outside through the heater's core, an electric element or a burner of small heat capacity, and
the air leaves at the temperature of the core. The thermostat sits in the outlet. It switches the element off at its
setting and on again a dead band below it, while the fan keeps running. The fan's motor sits in the flow, so its heat
goes into the air, too. For the rise θ of the outlet air above the outside

    C_core dθ/dt = P·on + P_fan − ṁ c_p θ

(energy balance of a well-stirred core). The engine has no effect on the outlet. So once the air has reached the
setting, the element cycles with a fixed period, and every moment of switching is a logarithm that needs no search.
"""

from dataclasses import dataclass

import numpy as np

from walkaround import checks
from walkaround.physics.preheat.heat_transfer import flow_w_per_k
from walkaround.units import KELVIN_AT_0C

_NO_BAND_C = 1e-3


@dataclass(frozen=True)
class AirHeater:
    """A forced-air heater as it is set: numbers or arrays that broadcast.

    `power_w`, what the element or burner gives the air while it is on; `flow_m3_h`, what the fan moves, rated at 15 °C
    and 1013.25 hPa; `thermostat_c`, the temperature of the outlet air at which the element switches off; `dead_band_c`,
    how far the air then cools before the element is on again (below a thousandth, the setting is held without
    switching); `core_j_per_k`, heat capacity of the core; `fan_w`, what the fan draws. Raises ValueError for a flow,
    power or capacity that is not above 0 or a negative dead band.

    >>> round(float(AirHeater(power_w=3000.0, flow_m3_h=200.0, thermostat_c=30.0).greatest_rise_c), 1)
    43.9
    """

    power_w: float
    flow_m3_h: float
    thermostat_c: float
    dead_band_c: float = 5.0
    core_j_per_k: float = 2000.0
    fan_w: float = 0.0

    def __post_init__(self):
        checks.numbers("power_w", self.power_w, above=0, unit="W")
        if np.any(np.asarray(self.flow_m3_h) == 0):
            raise ValueError(
                "flow_m3_h is 0 m³/h: without a flow of air the heater warms only itself and can catch fire; "
                "allowed: more than 0 m³/h"
            )
        checks.numbers("flow_m3_h", self.flow_m3_h, above=0, unit="m³/h")
        checks.numbers("thermostat_c", self.thermostat_c, -60, 300, "°C")
        checks.numbers("dead_band_c", self.dead_band_c, 0, 100, "°C")
        checks.numbers("core_j_per_k", self.core_j_per_k, above=0, unit="J/K")
        checks.numbers("fan_w", self.fan_w, low=0, unit="W")

    @property
    def flow_w_per_k(self):
        """Heat that the flow carries, in W for each K."""
        return flow_w_per_k(self.flow_m3_h)

    @property
    def core_rate(self):
        """Rate at which the core follows, in 1/s: ṁ c_p / C_core."""
        return self.flow_w_per_k / self.core_j_per_k

    @property
    def greatest_rise_c(self):
        """Rise of the air above the outside if the element stays on: (P + P_fan)/(ṁ c_p)."""
        return np.add(self.power_w, self.fan_w) / self.flow_w_per_k


@dataclass(frozen=True)
class Cycle:
    """How a heater's element switches; rises above the outside in K, times in s.

    On from the first moment until `first_off_s`, then off for `off_s` and on for `on_s`, again and again; a time is
    infinite where the next switching never comes. `full_rise` and `idle_rise` are the rises at which the outlet air
    would settle with the element on and off, `off_at` and `on_at` those at which it switches. `held`: there is no dead
    band, and from `first_off_s` on the element holds the setting by being on for a share `duty` of the time.

    >>> burner = AirHeater(power_w=3000.0, flow_m3_h=200.0, thermostat_c=30.0, dead_band_c=6.0)
    >>> cycle(burner, outside_c=0.0).period_s.round(1)
    np.float64(17.0)
    """

    first_off_s: np.ndarray
    off_s: np.ndarray
    on_s: np.ndarray
    full_rise: np.ndarray
    idle_rise: np.ndarray
    off_at: np.ndarray
    on_at: np.ndarray
    held: np.ndarray
    duty: np.ndarray

    @property
    def period_s(self):
        """Time in s from one switching off to the next."""
        return self.off_s + self.on_s


def cycle(heater, outside_c, core_rate=None):
    """How a heater's element switches at an outside temperature in °C (shapes broadcast).

    Parameters: `heater`, an `AirHeater` that is cold at the first moment; `core_rate` in 1/s, if not the heater's own.
    Times are ln((θ_∞ − θ_from)/(θ_∞ − θ_to))/rate, the exponential approach solved for the time. Raises ValueError for
    a thermostat that is not set above the outside temperature.

    >>> burner = AirHeater(power_w=3000.0, flow_m3_h=200.0, thermostat_c=30.0, dead_band_c=6.0)
    >>> times = cycle(burner, outside_c=0.0)
    >>> [round(float(s), 1) for s in (times.first_off_s, times.off_s, times.on_s)]
    [33.7, 6.5, 10.5]
    """
    outside = checks.numbers("outside_c", outside_c, -90, 60, "°C")
    rate = heater.core_rate if core_rate is None else core_rate
    rises = np.divide(heater.fan_w, heater.flow_w_per_k), heater.greatest_rise_c
    given = heater.thermostat_c, outside, heater.dead_band_c, rate, *rises
    setting, outside, band, rate, idle, full = np.broadcast_arrays(*given)
    off_at = setting - outside
    never = checks.at_most(setting, outside, size=KELVIN_AT_0C)
    if np.any(never):
        place = np.unravel_index(np.argmax(never), off_at.shape)
        raise ValueError(
            f"thermostat_c is {checks.with_unit(setting[place], '°C')} with {checks.with_unit(outside[place], '°C')} "
            "outside: the heater would never switch on; allowed: a setting above the outside temperature"
        )
    on_at = off_at - band
    held = (band < _NO_BAND_C) & ~checks.at_least(idle, off_at, size=KELVIN_AT_0C)
    return Cycle(
        first_off_s=_time(full, np.zeros_like(off_at), off_at, rate),
        off_s=np.where(held, np.inf, _time(idle, off_at, on_at, rate)),
        on_s=_time(full, on_at, off_at, rate),
        full_rise=full,
        idle_rise=idle,
        off_at=off_at,
        on_at=on_at,
        held=held,
        duty=np.where(held, (off_at - idle) / (full - idle), 0.0),
    )


def _time(settles, start, end, rate):
    """Time from `start` to `end` for a rise that tends to `settles`; infinite where it never gets there."""
    there = checks.equal(settles, end, size=KELVIN_AT_0C)
    ratio = (settles - start) / np.where(there, 1.0, settles - end)
    comes = ~there & (ratio > 1)
    return np.where(comes, np.log(np.where(comes, ratio, 1.0)) / rate, np.inf)
