"""The load sheet: weight, moment and CG of a loaded aircraft from empty to landing, and whether they are within limits.

Every weight may be a number or an array; arrays broadcast, so a million loads are one call.
"""

from dataclasses import dataclass
from functools import cached_property, reduce

import numpy as np

from walkaround import checks
from walkaround.physics.loading.moments import cg_after_change

CONDITIONS = ("empty", "zero fuel", "ramp", "take-off", "landing")


@dataclass(frozen=True)
class Condition:
    """The aircraft at one moment: numbers or arrays of one shape; `weight_limit` is None where there is none.

    >>> from walkaround import aircraft
    >>> empty = load_sheet(aircraft.demo("morrowlark_four"), {}, {}).condition("empty")
    >>> float(empty.weight), round(float(empty.cg), 1), bool(empty.inside)
    (1540.0, 101.2, True)
    """

    name: str
    weight: np.ndarray
    moment: np.ndarray
    envelope: object
    weight_limit: float | None

    @cached_property
    def cg(self):
        """Arm of the centre of gravity."""
        return self.moment / self.weight

    @cached_property
    def inside(self):
        """Whether weight and CG are inside the envelope."""
        # Taxi fuel may take the weight above the top of the envelope, so on the ramp only the CG counts.
        top = self.envelope.greatest_weight if self.name == "ramp" else np.inf
        return self.envelope.inside(np.minimum(self.weight, top), self.cg)

    @cached_property
    def over(self):
        """Weight above this moment's limit; 0 or less is within it, minus infinity where there is no limit."""
        return self.weight - (np.inf if self.weight_limit is None else self.weight_limit)


@dataclass(frozen=True)
class LoadSheet:
    """An aircraft and its load, as `load_sheet` returns it.

    `conditions` has one `Condition` for each name in CONDITIONS. `path_weights` and `path_moments` have the nodes of
    the flight from take-off to landing along their last axis (the moment is straight between nodes). `station_over` is
    how much each station, and each set of holds with a combined limit, is over its maximum, a dict by name.

    >>> from walkaround import aircraft
    >>> sheet = load_sheet(aircraft.demo("morrowlark_four"), {"front seats": [340, 510]}, {})
    >>> sheet.condition("landing").weight, sheet.within(sheet.station_over["front seats"]), sheet.loadable
    (array([1880., 2050.]), array([ True, False]), array([ True, False]))
    """

    aircraft: object
    envelope: object
    conditions: tuple
    path_weights: np.ndarray
    path_moments: np.ndarray
    station_over: dict

    @cached_property
    def stays_inside(self):
        """Whether weight and CG stay inside the envelope over the whole flight."""
        return self.envelope.stays_inside(self.path_weights, self.path_moments)

    def condition(self, name):
        """Return the condition of that name."""
        return self.conditions[CONDITIONS.index(name)]

    @property
    def stations_within(self):
        """Whether every station, and every set of holds with a combined limit, is within its maximum."""
        return self._all_within(self.station_over.values())

    @property
    def loadable(self):
        """Whether the flight may be made: every weight within its limit and the CG inside from take-off to landing."""
        return self.stays_inside & self._all_within(c.over for c in self.conditions) & self.stations_within

    def _all_within(self, overs):
        return reduce(np.logical_and, (self.within(over) for over in overs))

    def within(self, over):
        """Whether a weight is within its limit, given how much it is over it (any shape)."""
        return checks.at_most(over, 0.0, size=self.aircraft.limits.take_off)


def load_sheet(aircraft, stations, fuel, taxi=0.0, trip=0.0, category=None):
    """Compute the load sheet of a flight: a `LoadSheet`.

    `aircraft` as read from a file; `stations`, weights by name of the station, and `fuel`, usable volumes at start-up
    by name of the tank (names left out hold nothing); `taxi` and `trip`, the volumes used before take-off and from
    take-off to landing; `category`, the name of the envelope (left out: the first in the file). All in the file's
    units; shapes broadcast. Raises ValueError for an unknown name, a weight or volume below 0, more in a tank than it
    can hold, a flight that uses more than is on board, or shapes that don't fit.

    Weight and moment are sums over the items (FAA-H-8083-25, weight and balance, computational method).

    >>> from walkaround import aircraft
    >>> four, fuel = aircraft.demo("morrowlark_four"), {"left tank": 20, "right tank": 20}
    >>> sheet = load_sheet(four, {"front seats": 340}, fuel, taxi=1, trip=15)
    >>> round(float(sheet.condition("take-off").weight)), bool(sheet.loadable)
    (2114, True)
    """
    a, unit = aircraft, aircraft.units
    # The [()] turns an array without axes into a plain number, which makes the sums several times as fast.
    loads = {s.name: np.float64(0.0) for s in a.stations}
    for name, weight in stations.items():
        loads[a.station(name).name] = checks.numbers(name, weight, 0, None, unit.weight)[()]
    tanks = {t.name: np.float64(0.0) for t in a.fuel.tanks}
    for name, volume in fuel.items():
        tank = a.tank(name)
        tanks[tank.name] = checks.numbers(name, volume, 0, tank.usable, unit.volume)[()]
    taxi = checks.numbers("taxi fuel", taxi, 0, None, unit.volume)[()]
    trip = checks.numbers("trip fuel", trip, 0, None, unit.volume)[()]

    if any(np.ndim(value) for value in (*loads.values(), *tanks.values(), taxi, trip)):
        checks.same_shape(**loads, **tanks, **{"taxi fuel": taxi, "trip fuel": trip})

    density = a.fuel.density
    base_weight, base_moment = basic_weight_and_moment(a)
    zero_weight = base_weight + sum(loads.values())
    zero_moment = base_moment + sum([loads[s.name] * s.arm for s in a.stations])
    burnt_weight, burnt_moment = _burn(a, tanks, taxi, trip)
    ramp_weight = zero_weight + sum(tanks.values()) * density
    ramp_moment = zero_moment + sum([tanks[t.name] * t.arm for t in a.fuel.tanks]) * density
    path_weights = np.asarray(ramp_weight)[..., None] - burnt_weight
    path_moments = np.asarray(ramp_moment)[..., None] - burnt_moment

    envelope, limits = a.envelope(category), a.limits
    top = envelope.greatest_weight
    at = [
        ("empty", base_weight, base_moment, None),
        ("zero fuel", zero_weight, zero_moment, limits.zero_fuel),
        ("ramp", ramp_weight, ramp_moment, limits.ramp if checks.at_least(top, limits.take_off) else None),
        ("take-off", path_weights[..., 0], path_moments[..., 0], min(limits.take_off, top)),
        ("landing", path_weights[..., -1], path_moments[..., -1], limits.landing and min(limits.landing, top)),
    ]
    conditions = tuple(
        Condition(name, np.asarray(weight, float), np.asarray(moment, float), envelope, limit)
        for name, weight, moment, limit in at
    )
    over = {s.name: loads[s.name] - s.maximum for s in a.stations}
    for c in a.combined_limits:
        over[" and ".join(c.holds) + " together"] = sum(loads[h] for h in c.holds) - c.maximum
    return LoadSheet(a, envelope, conditions, path_weights, path_moments, over)


def basic_weight_and_moment(aircraft):
    """Weight and moment of the aircraft with nothing loaded but its oil and the fuel that can't be used.

    >>> from walkaround import aircraft
    >>> basic_weight_and_moment(aircraft.demo("morrowlark_four"))
    (1540.0, 155848.0)
    """
    a = aircraft
    weight, moment = a.empty.weight, a.empty.weight * a.empty.cg
    if not a.oil.in_empty_weight:
        weight += a.oil.volume * a.oil.density
        moment += a.oil.volume * a.oil.density * a.oil.arm
    if not a.fuel.unusable_in_empty_weight:
        weight += sum(t.unusable for t in a.fuel.tanks) * a.fuel.density
        moment += sum(t.unusable * t.arm for t in a.fuel.tanks) * a.fuel.density
    return weight, moment


def _burn(a, tanks, taxi, trip):
    """Weight and moment burnt since start-up at each node from take-off to landing (last axis)."""
    volumes = [tanks[t.name] for t in a.fuel.tanks]
    total = sum(volumes)
    used = taxi + trip
    short = ~checks.at_most(used, total)
    if short.any():
        first = np.argwhere(short)[0] if short.ndim else ()
        needs, has = (np.broadcast_to(v, short.shape)[tuple(first)] for v in (used, total))
        what = "taxi and trip fuel together are" if np.any(taxi) else "fuel used in flight is"
        raise ValueError(
            f"{what} {needs:g} {a.units.volume}; allowed: up to what the tanks hold, {has:g} {a.units.volume}"
        )
    if a.fuel.drawn == "together":
        # Every tank falls in proportion to what it held, so the arm of what is drawn never changes.
        levels = [taxi, used]
        arm = sum(v * t.arm for v, t in zip(volumes, a.fuel.tanks, strict=True))
        arm = np.divide(arm, total, out=np.full(np.shape(total), a.fuel.tanks[0].arm), where=total > 0)
        moments = [level * arm for level in levels]
    else:
        emptied = np.cumsum(np.stack(np.broadcast_arrays(*volumes)), axis=0)
        levels = [taxi, *(np.clip(e, taxi, used) for e in emptied[:-1]), used]
        moments = []
        for level in levels:
            start, moment = 0.0, 0.0
            for volume, tank in zip(volumes, a.fuel.tanks, strict=True):
                moment = moment + np.clip(level - start, 0, volume) * tank.arm
                start = start + volume
            moments.append(moment)
    shape = np.broadcast_shapes(*(np.shape(node) for node in (*levels, *moments)))
    burnt = np.empty((2, *shape, len(levels)))
    for k, (level, moment) in enumerate(zip(levels, moments, strict=True)):
        burnt[0, ..., k], burnt[1, ..., k] = level, moment
    burnt *= a.fuel.density
    return burnt


def one_load(sheet):
    """Return a load sheet, or raise ValueError if it holds several loads.

    >>> from walkaround import aircraft
    >>> one_load(load_sheet(aircraft.demo("tansy_two"), {"seats": [70, 80]}, {}))
    Traceback (most recent call last):
    ...
    ValueError: the load has shape (2,); allowed: one load, every weight and volume of it a single number
    """
    if sheet.path_weights.ndim > 1:
        shape = sheet.path_weights.shape[:-1]
        raise ValueError(
            f"the load has shape {shape}; allowed: one load, every weight and volume of it a single number"
        )
    return sheet


def cg_shifts(sheet, stations, fuel):
    """How far each item of one load has moved the take-off CG: (name, weight, shift), first by station, then by tank.

    The shift is the CG with everything aboard less the CG without this item (`moments.cg_after_change`). A tank counts
    with what it holds at start-up.

    >>> from walkaround import aircraft
    >>> two, stations, fuel = aircraft.demo("tansy_two"), {"seats": 150}, {"wing tank": 40}
    >>> shifts = cg_shifts(load_sheet(two, stations, fuel), stations, fuel)
    >>> [(name, round(weight, 1), round(shift, 3)) for name, weight, shift in shifts if weight]
    [('seats', 150.0, 0.056), ('wing tank', 28.8, 0.002)]
    """
    off = one_load(sheet).condition("take-off")
    items = [(s.name, float(stations.get(s.name, 0.0)), s.arm) for s in sheet.aircraft.stations]
    density = sheet.aircraft.fuel.density
    items += [(t.name, float(fuel.get(t.name, 0.0)) * density, t.arm) for t in sheet.aircraft.fuel.tanks]
    return [
        (name, weight, float(off.cg - cg_after_change(off.weight, off.cg, -weight, arm))) for name, weight, arm in items
    ]
