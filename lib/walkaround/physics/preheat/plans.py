"""A whole preheat: so long with the heater on, so long waiting, and whether the engine may then be started.

`preheat.warming` gives the physics of one stretch; here two stretches follow each other, with what the
heater used and what it cost.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from walkaround import checks
from walkaround.numerics.broadcasting import pick, pick_each
from walkaround.physics.preheat.energy import Heat, heat_balance
from walkaround.physics.preheat.engine import warming
from walkaround.physics.preheat.history import History, ready_by_part
from walkaround.units import KWH_J

MJ_J = 1e6


@dataclass(frozen=True)
class Plan:
    """A preheat and the wait after it. Made by `plan`; times in minutes, temperatures in °C by part.

    `heat_minutes` and `wait_minutes`, how long each lasts; `cover` and `cover_while_waiting`, whether it is on; `warming`, the `History` with the heater on;
    `waiting`, the one after it, with the cover that is chosen for the wait; `ready_minutes`, when every part is
    ready, infinite if never, however long the heater runs; `reached_minutes`, the same for each part by itself;
    `stays_minutes`, how long after the heater goes off every part stays ready (0 where one is not ready then),
    also `with_cover` and `without_cover`; `heat`, where the heat went.
    """

    ready_c: dict
    heat_minutes: np.ndarray
    wait_minutes: np.ndarray
    cover: bool
    cover_while_waiting: bool
    warming: History
    waiting: History
    reached_minutes: dict
    ready_minutes: np.ndarray
    stays_minutes: np.ndarray
    with_cover: np.ndarray
    without_cover: np.ndarray
    heat: Heat

    def setting(self, index):
        """The plan of one of several settings, if they have shape (n,).

        >>> from walkaround.physics.preheat.engine import Engine, Part, SumpPad
        >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
        >>> row = plan(engine, {"oil": 10.0, "metal": 5.0}, np.array([-20.0, -10.0]), 60.0, pad=SumpPad(power_w=250.0))
        >>> round(float(row.setting(1).ready_minutes))
        118
        """
        one = {
            name: pick(getattr(self, name), index)
            for name in (
                "heat_minutes", "wait_minutes", "cover", "cover_while_waiting", "ready_minutes", "stays_minutes",
                "with_cover", "without_cover",
            )
        }  # fmt: skip
        return replace(
            self,
            **one,
            ready_c=pick_each(self.ready_c, index),
            reached_minutes=pick_each(self.reached_minutes, index),
            warming=self.warming.setting(index),
            waiting=self.waiting.setting(index),
            heat=self.heat.setting(index),
        )

    @cached_property
    def at_end_of_heating(self):
        """Temperatures when the heater goes off."""
        return self.warming.at(self.heat_minutes)

    @cached_property
    def at_start(self):
        """Temperatures when the engine is to be started, after the wait."""
        return self.waiting.at(self.wait_minutes)

    @cached_property
    def ready_at_start(self):
        """Whether every part is at or above its temperature then."""
        return np.all([self.at_start[part] >= c - 1e-6 for part, c in self.ready_c.items()], axis=0)

    def temperatures_c(self, minutes):
        """Temperatures in °C of all parts and of the air, on a new last axis, through heating and wait."""
        minutes = checks.numbers("minutes", minutes, low=0, unit="min")
        heating = self.warming.temperatures_c(np.minimum(minutes, self.heat_minutes))
        waiting = self.waiting.temperatures_c(np.maximum(minutes - self.heat_minutes, 0.0))
        return np.where((minutes <= self.heat_minutes)[..., np.newaxis], heating, waiting)


def plan(
    engine,
    ready_c,
    outside_c,
    heat_minutes,
    heater=None,
    pad=None,
    cover=False,
    wind_kt=0.0,
    wait_minutes=0.0,
    cover_while_waiting=None,
    start_c=None,
):
    """Work a preheat out: a `Plan`.

    Parameters (numbers and arrays broadcast): `engine`, `outside_c`, `heater`, `pad`, `cover`, `wind_kt` and `start_c` as
    in `preheat.warming`; `ready_c`, a dict of the temperature each part needs; `heat_minutes`, how long heater
    and pad run; `wait_minutes`, how long they have been off when the engine is started; `cover_while_waiting`,
    left out: as while heating. Raises ValueError for anything out of range.

    >>> from walkaround.physics.preheat.engine import Engine, Part, SumpPad
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> pad = SumpPad(power_w=250.0)
    >>> slow = plan(engine, {"oil": 10.0, "metal": 5.0}, outside_c=-10.0, heat_minutes=60.0, pad=pad)
    >>> {part: round(float(minutes)) for part, minutes in slow.reached_minutes.items()}
    {'metal': 118, 'oil': 74}
    """
    heat_minutes = checks.numbers("heat_minutes", heat_minutes, low=0, unit="min")
    wait_minutes = checks.numbers("wait_minutes", wait_minutes, low=0, unit="min")
    wanted = ready_by_part(engine.parts, ready_c)
    heating = warming(engine, outside_c, heater, pad, cover, wind_kt, start_c)
    warm = heating.at(heat_minutes)
    left_on = cover if cover_while_waiting is None else cover_while_waiting
    waiting = warming(engine, outside_c, cover=left_on, wind_kt=wind_kt, start_c=warm)
    both = np.array([True, False]).reshape(2, *(1 for _ in waiting.shape))
    with_cover, without_cover = warming(engine, outside_c, cover=both, wind_kt=wind_kt, start_c=warm).stays_minutes(
        wanted
    )
    reached = heating.reached_by_part(wanted)
    return Plan(
        ready_c=wanted,
        heat_minutes=heat_minutes,
        wait_minutes=wait_minutes,
        cover=cover,
        cover_while_waiting=left_on,
        warming=heating,
        waiting=waiting,
        reached_minutes=reached,
        ready_minutes=np.max(list(reached.values()), axis=0),
        stays_minutes=np.where(left_on, with_cover, without_cover),
        with_cover=with_cover,
        without_cover=without_cover,
        heat=heat_balance(heating, heat_minutes),
    )


@dataclass(frozen=True)
class Fuel:
    """What a burner burns: `mj_per_l`, its net heat of combustion, and the share `efficiency` that reaches the air."""

    mj_per_l: float
    efficiency: float = 1.0

    def __post_init__(self):
        """Check both numbers."""
        checks.numbers("mj_per_l", self.mj_per_l, above=0, unit="MJ/L")
        checks.numbers("efficiency", self.efficiency, high=1, above=0)


@dataclass(frozen=True)
class Spent:
    """What a preheat used: electricity in kWh and fuel in L."""

    electricity_kwh: np.ndarray
    fuel_l: np.ndarray

    def cost(self, per_kwh, per_l=0.0):
        """What it cost at a price for each kWh of electricity and each litre of fuel."""
        per_kwh = checks.numbers("per_kwh", per_kwh, low=0)
        return self.electricity_kwh * per_kwh + self.fuel_l * checks.numbers("per_l", per_l, low=0)


def spent(heat, fuel=None):
    """What the heat of a preheat took in electricity and fuel: a `Spent`.

    Parameters: `heat`, a `Heat`; `fuel`, what the heater burns, left out for an electric one. Fan and pad are
    electric in both. kWh = J/3.6·10⁶; L = J/(efficiency · heat of combustion).

    >>> an_hour = Heat(heater=5.4e6, fan=3.6e5, pad=0.0, stored={}, lost={}, blown_away=0.0, core=0.0)
    >>> round(float(spent(an_hour).electricity_kwh), 3)
    1.6
    """
    electric, burnt = heat.fan + heat.pad, heat.heater
    if fuel is None:
        return Spent((electric + burnt) / KWH_J, np.zeros_like(burnt))
    return Spent(electric / KWH_J, burnt / (fuel.efficiency * fuel.mj_per_l * MJ_J))
