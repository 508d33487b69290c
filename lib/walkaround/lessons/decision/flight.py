"""A flight of the Morrowlark Four from Quillmoor, and every number of it held against its limit.

Everything here is in the units that things are shown in, the flight too: `told.flight` has one that was drawn in them.
"""

from dataclasses import dataclass
from functools import cache, lru_cache, wraps
from typing import NamedTuple

from walkaround import aircraft, checks, measures
from walkaround.aircraft.airfield import airfield
from walkaround.physics.air.atmosphere import density_kg_m3
from walkaround.physics.fuel import needed
from walkaround.physics.fuel.order import RESERVE_MIN
from walkaround.physics.loading import filled, load_sheet
from walkaround.physics.loading.words import DECIMALS
from walkaround.physics.oil import from_dipstick, least_for_flight
from walkaround.units import KELVIN_AT_0C

OIL_MARGIN = 0.5  # qt; the pilot's own
RUNWAY_FACTOR = 1.5  # the roll and half as much again: a rule of thumb
SECTIONS = ("engine", "fuel_system", "speeds", "take_off", "control_surfaces", "towing", "cooling")
TAKE_OFF, LANDING, BALANCE, FUEL, OIL, ENGINE, RUNWAY, ROUND = CHECKS = (
    "take-off weight", "landing weight", "balance", "fuel", "oil", "engine", "runway", "the round",
)  # fmt: skip


class Finding(NamedTuple):
    """What the round found: in words, whether it stops the flight, whether it is put right on the spot, and why.

    `pull_lb` is how hard the nose leg was pulled, where that is what was found.
    """

    words: str
    stops: bool
    on_the_spot: bool
    why: str
    pull_lb: float = 0.0


@dataclass(frozen=True)
class Flight:
    """What is known before the flight: lb, US gal, hours, inches of oil on the stick, qt, °C, kt and ft.

    Shown in metric units: kg, L, hours, cm of oil on the stick, °C, kt, and the runway in ft all the same.
    `headwind_kt` is negative for a wind from behind.
    """

    front: int
    rear: int
    hold_a: int
    hold_b: int
    fuel: float
    hours: float
    night: bool
    stick: float
    oil_per_hour: float
    outside_c: int
    oil_c: float
    metal_c: float
    headwind_kt: int
    runway_ft: int
    found: Finding
    oil_added: float = 0.0

    @property
    def stations(self):
        """Weights by the station's name."""
        cabin = {"front seats": self.front, "rear seats": self.rear}
        return cabin | {"hold A": self.hold_a, "hold B": self.hold_b}


class Check(NamedTuple):
    """A number beside its limit: its key, both with what they are called, and whether it is met.

    `room` is how far it is from the limit on the good side, in `unit`, and `share` the same as a share of the limit;
    for the balance of the range, for the engine in hundreds of °C. `limit` is None where there is none today.
    """

    key: str
    value: float
    limit: float | None
    unit: str
    digits: int
    room: float
    share: float
    met: bool


def craft():
    """The aircraft; its oil, shown in metric units, to the digit that the dipstick's marks need."""
    return _craft(measures.chosen())


@cache
def _craft(_system):
    four = aircraft.with_sections("morrowlark_four", *SECTIONS)
    if four.engine.oil.unit == "qt":
        return four
    own = aircraft.demo("morrowlark_four").engine.oil
    lengths = [measures.given(mark, "in", metric=2) for mark in own.dipstick_marks]
    quantities = [measures.given(quarts, "qt", metric=2) for quarts in own.dipstick_quantities]
    oil = {name: measures.given(getattr(own, name), "qt", metric=2) for name in ("full", "usual", "minimum")}
    oil |= {"dipstick_marks": lengths, "dipstick_quantities": quantities}
    engine = four.engine.model_copy(update={"oil": four.engine.oil.model_copy(update=oil)})
    return four.model_copy(update={"engine": engine})


def _remembered(function):
    """Remember what a function finds of a flight, in each system of units."""
    found = lru_cache(maxsize=256)(lambda f, _system: function(f))

    @wraps(function)
    def of(f):
        return found(f, measures.chosen())

    return of


@_remembered
def sheet(f):
    """The flight's load sheet (`physics.loading.LoadSheet`)."""
    four = craft()
    volumes = {name: float(v) for name, v in filled(four, f.fuel).items()}
    taxi = min(four.fuel_system.taxi, f.fuel)
    trip = min(f.hours * four.fuel_system.per_hour, f.fuel - taxi)
    return load_sheet(four, f.stations, volumes, taxi, trip)


def most_fuel():
    """Usable fuel in full tanks."""
    return sum(tank.usable for tank in craft().fuel.tanks)


def fuel_needed(f):
    """Usable fuel that the flight needs at start-up."""
    system = craft().fuel_system
    return float(needed(system.taxi, 60 * f.hours, system.per_hour, RESERVE_MIN["night" if f.night else "day"]))


def oil_quarts(f):
    """Oil in the sump, by the dipstick and what was added after it was read."""
    oil = craft().engine.oil
    return float(from_dipstick(f.stick, oil.dipstick_marks, oil.dipstick_quantities)) + f.oil_added


def oil_needed(f):
    """Least oil to take off with."""
    return float(least_for_flight(craft().engine.oil.minimum, f.oil_per_hour, f.hours, oil_margin()))


def oil_margin():
    """The pilot's own margin of oil."""
    return measures.given(OIL_MARGIN, "qt", 1, metric=2)


def density(f):
    """Density of the air today as a share of that at sea level on a standard day, as a table would have it."""
    return round(float(density_kg_m3(airfield().elevation_ft, f.outside_c) / density_kg_m3(0.0)), 3)


def runway_needed(f):
    """Runway in ft that the flight needs: RUNWAY_FACTOR rolls, as `physics.air.takeoff_roll` has them, at `density`.

    Shown in metric units, the roll is one to a tenth of a metre, as it is printed.
    """
    four, sigma = craft(), density(f)
    lift_off = four.speeds.lift_off
    over_ground = lift_off / sigma**0.5 - f.headwind_kt
    asks = RUNWAY_FACTOR * four.take_off.ground_roll_ft(four.units) * (over_ground / lift_off) ** 2 / sigma
    if measures.chosen() != measures.METRIC:
        return asks
    return RUNWAY_FACTOR * measures.entered(measures.given(asks / RUNWAY_FACTOR, "ft", metric=1), "ft")


def cg_limits(f):
    """Take-off CG, and the forward and the aft limit at that weight."""
    there = sheet(f).condition("take-off")
    envelope = there.envelope
    forward, aft = envelope.limits_at(min(float(there.weight), envelope.greatest_weight))
    return float(there.cg), float(forward), float(aft)


@_remembered
def checked(f):
    """Hold every number of a flight against its limit: a `Check` for each of CHECKS, in their order."""
    four, loaded = craft(), sheet(f)
    engine = four.engine
    take_off, landing = (float(loaded.condition(name).weight) for name in ("take-off", "landing"))
    cg, forward, aft = cg_limits(f)
    inside = min((cg - forward, forward), (aft - cg, aft))
    heated = f.outside_c < engine.preheat_below_c
    # The part that is less warm, by what it still needs.
    part = min((f.oil_c - engine.ready_oil_c, f.oil_c), (f.metal_c - engine.ready_metal_c, f.metal_c))
    units = four.units
    weight, arm = ((unit, DECIMALS[unit]) for unit in (units.weight, units.arm))
    runway = (measures.value(x, "ft") for x in (runway_needed(f), f.runway_ft))
    return (
        _most(TAKE_OFF, take_off, four.limits.take_off, *weight),
        _most(LANDING, landing, four.limits.landing, *weight),
        _check(BALANCE, cg, inside[1], *arm, inside[0], inside[0] / (aft - forward), size=aft),
        _least(FUEL, f.fuel, fuel_needed(f), units.volume, 1),
        _least(OIL, oil_quarts(f), oil_needed(f), measures.unit("qt"), measures.places("qt", 1, metric=2)),
        _check(ENGINE, part[1], part[1] - part[0], "°C", 0, part[0], part[0] / 100, size=KELVIN_AT_0C)
        if heated
        else Check(ENGINE, part[1], None, "°C", 0, 99.0, 0.99, True),
        _most(RUNWAY, *runway, measures.unit("ft"), 0),
        Check(ROUND, 0.0, None, "", 0, *((-1.0, -1.0, False) if f.found.stops else (1.0, 1.0, True))),
    )


def reasons(f):
    """The keys of the limits that a flight does not meet, in the order of CHECKS."""
    return tuple(check.key for check in checked(f) if not check.met)


def _most(key, value, limit, unit, digits):
    return _check(key, value, limit, unit, digits, limit - value, (limit - value) / limit, limit)


def _least(key, value, limit, unit, digits):
    return _check(key, value, limit, unit, digits, value - limit, (value - limit) / limit, limit)


def _check(key, value, limit, unit, digits, room, share, size):
    return Check(key, value, limit, unit, digits, room, share, bool(checks.at_least(room, 0.0, size)))
