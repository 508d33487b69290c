"""A whole preheat: some time with the heater on, some time waiting, and whether the engine may then be started.

`engine.warming` is the physics of one stretch; here two stretches follow each other, and with them comes what the
heater used and what that cost.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from walkaround import checks
from walkaround.physics.preheat.energy import Heat, heat_balance
from walkaround.physics.preheat.engine import warming
from walkaround.physics.preheat.history import History, ready_by_part, warm_enough
from walkaround.units import KWH_J

MJ_J = 1e6


@dataclass(frozen=True)
class Plan:
    """A preheat and the wait after it, as `plan` returns it; times in minutes, temperatures in °C by part.

    `heat_minutes` and `wait_minutes`, how long each lasts; `cover` and `cover_while_waiting`, whether it is on;
    `warming`, the `History` with the heater on, and `waiting`, the one after it. `ready_minutes`, when all parts are
    ready at once if the heater runs for long enough, infinite if never (`History.ready_minutes`); `reached_minutes`,
    when each part first is, by itself. `stays_minutes`, how long after the heater goes off every part stays ready (0
    where one is not ready then); `with_cover` and `without_cover`, the same for either state of the cover. `heat`,
    where the heat went.

    >>> from walkaround.physics.preheat.engine import Engine, Part, SumpPad
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> one = plan(engine, {"oil": 10.0, "metal": 5.0}, -10.0, 120.0, pad=SumpPad(power_w=250.0), wait_minutes=10.0)
    >>> round(float(one.ready_minutes)), bool(one.ready_at_end_of_heating), bool(one.ready_at_start)
    (118, True, False)
    >>> one.temperatures_c([60.0, 125.0]).round(1)[:, 0].tolist()  # of the metal
    [-1.6, 5.3]
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

    @cached_property
    def at_end_of_heating(self):
        """Temperatures in °C by part when the heater goes off."""
        return self.warming.at(self.heat_minutes)

    @cached_property
    def at_start(self):
        """Temperatures in °C by part when the engine is to be started, after the wait."""
        return self.waiting.at(self.wait_minutes)

    @cached_property
    def ready_at_end_of_heating(self):
        """Whether every part is at or above its temperature when the heater goes off."""
        return self._ready(self.at_end_of_heating)

    @cached_property
    def ready_at_start(self):
        """Whether every part is at or above its temperature when the engine is to be started."""
        return self._ready(self.at_start)

    def _ready(self, temperatures_c):
        return np.all([warm_enough(temperatures_c[part], c) for part, c in self.ready_c.items()], axis=0)

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
    """Compute a preheat plan: a `Plan`.

    Parameters (numbers and arrays broadcast): `engine`, `outside_c`, `heater`, `pad`, `cover`, `wind_kt` and `start_c`
    as in `engine.warming`; `ready_c`, a dict of the temperature each part needs; `heat_minutes`, how long heater and
    pad run; `wait_minutes`, how long they have been off when the engine is started; `cover_while_waiting`, left out: as
    while heating. Raises ValueError for anything out of range.

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
    cooling = warming(engine, outside_c, cover=both, wind_kt=wind_kt, start_c=warm)
    with_cover, without_cover = cooling.stays_minutes(wanted)
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
        ready_minutes=heating.ready_minutes(wanted, reached),
        stays_minutes=np.where(left_on, with_cover, without_cover),
        with_cover=with_cover,
        without_cover=without_cover,
        heat=heat_balance(heating, heat_minutes),
    )


@dataclass(frozen=True)
class Fuel:
    """What a burner burns: its net heat of combustion, `mj_per_l`, and `efficiency`, the share that reaches the air.

    >>> Fuel(mj_per_l=34.2, efficiency=0.82)
    Fuel(mj_per_l=34.2, efficiency=0.82)
    """

    mj_per_l: float
    efficiency: float = 1.0

    def __post_init__(self):
        checks.numbers("mj_per_l", self.mj_per_l, above=0, unit="MJ/L")
        checks.numbers("efficiency", self.efficiency, high=1, above=0)


@dataclass(frozen=True)
class Spent:
    """What a preheat used: electricity in kWh and fuel in L.

    >>> round(float(Spent(electricity_kwh=0.1, fuel_l=1.0).cost(per_kwh=0.32, per_l=1.90)), 3)
    1.932
    """

    electricity_kwh: np.ndarray
    fuel_l: np.ndarray

    def cost(self, per_kwh, per_l=0.0):
        """What it cost, from the price of a kWh of electricity and that of a litre of fuel."""
        per_kwh = checks.numbers("per_kwh", per_kwh, low=0)
        return self.electricity_kwh * per_kwh + self.fuel_l * checks.numbers("per_l", per_l, low=0)


def spent(heat, fuel=None):
    """Electricity and fuel that a preheat used: a `Spent`.

    Parameters: `heat`, a `Heat`; `fuel`, what the heater burns, left out for an electric one. Fan and pad are electric
    in either case. kWh = J/3.6·10⁶; L = J/(efficiency · heat of combustion).

    >>> an_hour = Heat(heater=5.4e6, fan=3.6e5, pad=0.0, stored={}, lost={}, blown_away=0.0, core=0.0)
    >>> round(float(spent(an_hour).electricity_kwh), 3)
    1.6
    """
    electric, burnt = heat.fan + heat.pad, heat.heater
    if fuel is None:
        return Spent((electric + burnt) / KWH_J, np.zeros_like(burnt))
    return Spent(electric / KWH_J, burnt / (fuel.efficiency * fuel.mj_per_l * MJ_J))
