"""What a student of the exercise is told: the invented Morrowlark Four, weighed anew for each of them, and its load."""

from dataclasses import dataclass

from walkaround import aircraft
from walkaround.aircraft.schema import Aircraft
from walkaround.assessment.questions import Table
from walkaround.assessment.variant import Variant

MORROWLARK = aircraft.demo("morrowlark_four")
STATIONS = tuple(s.name for s in MORROWLARK.stations)
ARMS = {s.name: s.arm for s in MORROWLARK.stations}
TANK_ARM = MORROWLARK.fuel.tanks[0].arm
LB_PER_GAL = MORROWLARK.fuel.density


@dataclass(frozen=True)
class Givens:
    """The student's aircraft as weighed, the load in lb, the fuel in US gal."""

    empty_weight: float
    empty_arm: float
    front: float
    rear: float
    hold_a: float
    fuel: float
    trip: float

    @property
    def aircraft(self) -> Aircraft:
        """The student's aircraft: the demo aircraft with a weighing of its own."""
        empty = MORROWLARK.empty.model_copy(update={"weight": self.empty_weight, "arm": self.empty_arm})
        return MORROWLARK.model_copy(update={"empty": empty})

    @property
    def stations(self) -> dict[str, float]:
        """Station loads by name."""
        return {"front seats": self.front, "rear seats": self.rear, "hold A": self.hold_a}

    @property
    def weights_and_arms(self) -> list[tuple[float, float]]:
        """Weight in lb and arm in inches of everything aboard at take-off: empty aircraft, stations, fuel."""
        load = [(weight, ARMS[name]) for name, weight in self.stations.items()]
        return [(self.empty_weight, self.empty_arm), *load, (self.fuel * LB_PER_GAL, TANK_ARM)]

    @property
    def table(self) -> Table:
        """Rows of the table that a student is given."""
        return (
            ("item", "weight", "arm"),
            ("empty aircraft", f"{self.empty_weight:,.0f} lb", f"{self.empty_arm:.1f} in"),
            *((n, f"{w:,.0f} lb", f"{ARMS[n]:.1f} in") for n, w in self.stations.items()),
            (f"fuel, {self.fuel:.0f} US gal", "to work out", f"{TANK_ARM:.1f} in"),
            (f"of it used in flight, {self.trip:.0f} US gal", "to work out", f"{TANK_ARM:.1f} in"),
        )


def drawn(v: Variant) -> Givens:
    """Return what a student's draws give."""
    return Givens(
        empty_weight=v.number("empty weight", 1515, 1575, 5),
        empty_arm=v.number("empty arm", 100.8, 101.8, 0.1),
        front=v.number("front seats", 290, 380, 5),
        rear=v.number("rear seats", 110, 230, 5),
        hold_a=v.number("hold A", 30, 85, 5),
        fuel=v.number("fuel", 24, 36, 2),
        trip=v.number("trip fuel", 12, 19, 1),
    )
