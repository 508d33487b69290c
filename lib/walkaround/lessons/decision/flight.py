"""A flight of the Morrowlark Four from Quillmoor, and every number of it held against its limit."""

from dataclasses import dataclass
from functools import cache, lru_cache
from typing import NamedTuple

from walkaround import aircraft, checks
from walkaround.aircraft.airfield import airfield
from walkaround.physics.air.atmosphere import density_kg_m3
from walkaround.physics.fuel import needed
from walkaround.physics.fuel.order import RESERVE_MIN
from walkaround.physics.loading import filled, load_sheet
from walkaround.physics.oil import from_dipstick, least_for_flight
from walkaround.units import KELVIN_AT_0C

OIL_MARGIN = 0.5  # qt; the pilot's own
RUNWAY_FACTOR = 1.5  # the roll and half as much again: a rule of thumb
SECTIONS = ("engine", "fuel_system", "speeds", "take_off", "control_surfaces", "towing", "cooling")
TAKE_OFF, LANDING, BALANCE, FUEL, OIL, ENGINE, RUNWAY, ROUND = CHECKS = (
    "take-off weight", "landing weight", "balance", "fuel", "oil", "engine", "runway", "the round",
)  # fmt: skip


class Finding(NamedTuple):
    """What the round found: in words, whether it stops the flight, whether it is put right on the spot, and why."""

    words: str
    stops: bool
    on_the_spot: bool
    why: str


@dataclass(frozen=True)
class Flight:
    """What is known before the flight: lb, US gal, hours, inches of oil on the stick, qt, °C, kt and ft.

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


@cache
def craft():
    """The aircraft."""
    return aircraft.with_sections("morrowlark_four", *SECTIONS)


@lru_cache(maxsize=256)
def sheet(f):
    """The flight's load sheet (`physics.loading.LoadSheet`)."""
    four = craft()
    volumes = {name: float(v) for name, v in filled(four, f.fuel).items()}
    taxi = min(four.fuel_system.taxi, f.fuel)
    trip = min(f.hours * four.fuel_system.per_hour, f.fuel - taxi)
    return load_sheet(four, f.stations, volumes, taxi, trip)


def most_fuel():
    """Usable fuel in US gal in full tanks."""
    return sum(tank.usable for tank in craft().fuel.tanks)


def fuel_needed(f):
    """Usable fuel in US gal that the flight needs at start-up."""
    system = craft().fuel_system
    return float(needed(system.taxi, 60 * f.hours, system.per_hour, RESERVE_MIN["night" if f.night else "day"]))


def oil_quarts(f):
    """Oil in the sump in qt, by the dipstick and what was added after it was read."""
    oil = craft().engine.oil
    return float(from_dipstick(f.stick, oil.dipstick_marks, oil.dipstick_quantities)) + f.oil_added


def oil_needed(f):
    """Least oil in qt to take off with."""
    return float(least_for_flight(craft().engine.oil.minimum, f.oil_per_hour, f.hours, OIL_MARGIN))


def density(f):
    """Density of the air today as a share of that at sea level on a standard day, as a table would have it."""
    return round(float(density_kg_m3(airfield().elevation_ft, f.outside_c) / density_kg_m3(0.0)), 3)


def runway_needed(f):
    """Runway in ft that the flight needs: RUNWAY_FACTOR rolls, as `physics.air.takeoff_roll` has them, at `density`."""
    four, sigma = craft(), density(f)
    lift_off = four.speeds.lift_off
    over_ground = lift_off / sigma**0.5 - f.headwind_kt
    return RUNWAY_FACTOR * four.take_off.ground_roll_ft(four.units) * (over_ground / lift_off) ** 2 / sigma


def cg_limits(f):
    """Take-off CG, and the forward and the aft limit at that weight."""
    there = sheet(f).condition("take-off")
    envelope = there.envelope
    forward, aft = envelope.limits_at(min(float(there.weight), envelope.greatest_weight))
    return float(there.cg), float(forward), float(aft)


@lru_cache(maxsize=256)
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
    return (
        _most(TAKE_OFF, take_off, four.limits.take_off, "lb", 0),
        _most(LANDING, landing, four.limits.landing, "lb", 0),
        _check(BALANCE, cg, inside[1], "in", 1, inside[0], inside[0] / (aft - forward), size=aft),
        _least(FUEL, f.fuel, fuel_needed(f), "US gal", 1),
        _least(OIL, oil_quarts(f), oil_needed(f), "qt", 1),
        _check(ENGINE, part[1], part[1] - part[0], "°C", 0, part[0], part[0] / 100, size=KELVIN_AT_0C)
        if heated
        else Check(ENGINE, part[1], None, "°C", 0, 99.0, 0.99, True),
        _most(RUNWAY, runway_needed(f), f.runway_ft, "ft", 0),
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
