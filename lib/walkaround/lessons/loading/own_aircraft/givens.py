"""What is drawn for a student within one aircraft's stations and tanks, and how fine the numbers are.

It is drawn in the units of the aircraft's file, and told in the units that things are shown in.
"""

from dataclasses import dataclass, replace
from functools import cached_property

from walkaround import aircraft, measures
from walkaround.aircraft.schema import Aircraft
from walkaround.assessment.questions import Table
from walkaround.physics.loading import LoadSheet, basic_weight_and_moment, load_sheet


@dataclass(frozen=True)
class Fineness:
    """Steps of the draws, and tolerances that a person with a pocket calculator can meet, in one set of units."""

    weight_step: float
    volume_step: float
    item_moment: float
    fuel: float
    weight: float
    cg: float
    shift: float
    decimals: int


FINENESS = {
    "lb": Fineness(5, 1, item_moment=20, fuel=2, weight=3, cg=0.15, shift=0.05, decimals=1),
    "kg": Fineness(2, 2, item_moment=0.3, fuel=1, weight=1.5, cg=0.005, shift=0.002, decimals=3),
}


@dataclass(frozen=True)
class Givens:
    """An aircraft and a student's load: weights by station, volumes by tank, the volume used in flight.

    `own` is the same as it was drawn, where that was in other units.
    """

    aircraft: Aircraft
    stations: dict[str, float]
    tanks: dict[str, float]
    trip: float
    own: "Givens | None" = None

    @property
    def drawn(self) -> "Givens":
        """The same as it was drawn, in the units of the aircraft's file."""
        return self.own or self

    @cached_property
    def fine(self) -> Fineness:
        """How fine the numbers are in the aircraft's units; tolerances are those of the units that it was drawn in."""
        fine = FINENESS[self.drawn.aircraft.units.weight]
        if not self.own:
            return fine
        was, now = self.own.aircraft.units, self.aircraft.units
        weights = {name: measures.converted(getattr(fine, name), was.weight, now.weight) for name in ("fuel", "weight")}
        arms = {name: measures.converted(getattr(fine, name), was.arm, now.arm) for name in ("cg", "shift")}
        moment = measures.converted(fine.item_moment, was.moment, now.moment)
        decimals = FINENESS[now.weight].decimals
        return replace(fine, item_moment=moment, decimals=decimals, **weights, **arms)

    def weight(self, drawn: float, decimals: int = 1) -> float:
        """A weight that was drawn, as it is told."""
        units = self.drawn.aircraft.units
        converted = measures.converted(drawn, units.weight, self.aircraft.units.weight)
        return round(converted, decimals) if self.own else drawn

    def fuel(self, drawn: float) -> float:
        """A volume that was drawn, as it is told."""
        units = self.drawn.aircraft.units
        converted = measures.converted(drawn, units.volume, self.aircraft.units.volume)
        return round(converted, 1) if self.own else drawn

    def figures(self, weight: float) -> str:
        """Write a weight that is told."""
        return f"{weight:,.{1 if self.own else 0}f}"

    @cached_property
    def sheet(self) -> LoadSheet:
        """The load sheet, without taxi fuel."""
        return load_sheet(self.aircraft, self.stations, self.tanks, 0.0, self.trip)

    @property
    def volume(self) -> float:
        """Fuel in all tanks."""
        return sum(self.tanks.values())

    @property
    def table(self) -> Table:
        """Rows of the table that a student is given."""
        a, u = self.aircraft, self.aircraft.units
        weight, moment = basic_weight_and_moment(a)
        loads = {name: f"{self.figures(load)} {u.weight}" for name, load in self.stations.items()}
        stations = [(s.name, loads[s.name], self.arm_text(s.arm)) for s in a.stations]
        tanks = [(f"{t.name}, {self.tanks[t.name]:g} {u.volume}", t.arm) for t in a.fuel.tanks]
        return (
            ("item", "weight", "arm"),
            ("empty aircraft", f"{weight:,.1f} {u.weight}", self.arm_text(moment / weight)),
            *stations,
            *((text, "to work out", self.arm_text(arm)) for text, arm in tanks),
            (f"used in flight, {self.trip:g} {u.volume}", "to work out", ""),
        )

    def arm_text(self, arm: float) -> str:
        """Write an arm with its unit."""
        return f"{arm:.{self.fine.decimals}f} {self.aircraft.units.arm}"


def drawn(v, a):
    """Return the `Givens` of a student's draws for an aircraft, in the units shown."""
    fine, stations, tanks = FINENESS[a.units.weight], {}, {}
    for i, s in enumerate(a.stations):
        low, high = (0.45, 0.85) if s.kind == "seat" and i == 0 else (0.2, 0.6)
        stations[s.name] = _between(v, s.name, low * s.maximum, high * s.maximum, fine.weight_step, s.maximum)
    share = v.pick("fuel", (0.5, 0.6, 0.7, 0.8, 0.9))
    for t in a.fuel.tanks:
        tanks[t.name] = min(t.usable, max(fine.volume_step, down(share * t.usable, fine.volume_step)))
    total = sum(tanks.values())
    trip = _between(v, "trip", 0.3 * total, 0.7 * total, fine.volume_step, total)
    own = Givens(a, stations, tanks, trip)
    if aircraft.shown(a) is a:
        return own
    told = Givens(aircraft.shown(a), {}, {}, 0.0, own)
    stations = {name: told.weight(load) for name, load in stations.items()}
    return replace(told, stations=stations, tanks={n: told.fuel(x) for n, x in tanks.items()}, trip=told.fuel(trip))


def _between(v, label, low, high, step, most):
    # Whole steps, at least one of them, never above the most there may be.
    low = max(step, down(low, step))
    return min(v.number(label, low, max(low, down(high, step)), step), most)


def down(value, step):
    """Return a value cut off to whole steps."""
    return step * (value // step)


def apart(answer, tolerance, rows):
    """Return those wrong turns that this aircraft does not make too small to tell from the answer."""
    return [row for row in rows if abs(row[0] - answer) > 2 * tolerance]
