"""What a student of the exercise is told: the invented Morrowlark Four, weighed anew for each of them, and its load.

It is drawn in pounds, inches and US gallons, and told in the units that things are shown in.
"""

from dataclasses import dataclass

from walkaround import aircraft, measures
from walkaround.aircraft.schema import Aircraft
from walkaround.assessment.questions import Table
from walkaround.assessment.variant import Variant
from walkaround.physics.loading.words import say

MORROWLARK = aircraft.demo("morrowlark_four")
STATIONS = tuple(s.name for s in MORROWLARK.stations)


def four() -> Aircraft:
    """The demo aircraft in the units shown."""
    return aircraft.shown(MORROWLARK)


def arms() -> dict[str, float]:
    """Arms of the stations by name, and of the tanks as "tanks"."""
    craft = four()
    return {s.name: s.arm for s in craft.stations} | {"tanks": craft.fuel.tanks[0].arm}


def told(pounds: float) -> float:
    """A weight as it is told."""
    return measures.given(pounds, "lb", metric=1)


def told_arm(inches: float) -> float:
    """An arm or a CG as it is told."""
    return measures.given(inches, "arm", 1)


def told_volume(gallons: float) -> float:
    """A volume of fuel as it is told."""
    return measures.given(gallons, "US gal")


def words(number: float, of: str) -> str:
    """Write a weight, arm or moment of the units shown with its unit; `of` is its US unit."""
    return say(number, measures.unit(of))


def figures(number: float, of: str) -> str:
    """The same as `words`, without the unit."""
    return words(number, of).removesuffix(f" {measures.unit(of)}")


def fuel_words(number: float) -> str:
    """Write a volume of the units shown with its unit."""
    return f"{number:.0f} {measures.unit('US gal')}"


def moment_figures(number: float) -> str:
    """Write a moment with all the decimals that a student adds up."""
    return f"{round(number, 2):,.10g}"


def cg_sum(moment: float, weight: float) -> str:
    """Write what a moment, divided by a weight, gives, computed with the printed numbers."""
    result = round(moment, 2) / round(weight, 1)
    return f"CG = {moment_figures(moment)} ÷ {figures(weight, 'lb')} = {words(result, 'arm')}"


def settled(answer: str, clear: bool) -> str:
    """The answer to a choice, or one that is unsound where the case is not clear.

    In other units than it was drawn in, a case is as clear as it was drawn: the rounding is far below what makes it so.
    """
    return answer if clear or measures.chosen() else "unclear"


@dataclass(frozen=True)
class Givens:
    """The student's aircraft as weighed, and its load, in the units shown.

    `bag` is the weight in hold A once more, to the digit that its moment needs.
    """

    empty_weight: float
    empty_arm: float
    front: float
    rear: float
    hold_a: float
    fuel: float
    trip: float
    bag: float

    @property
    def fuel_weight(self) -> float:
        """Weight of the fuel, as it is printed."""
        return round(self.fuel * four().fuel.density, 1)

    @property
    def aircraft(self) -> Aircraft:
        """The student's aircraft: the demo aircraft with a weighing of its own."""
        craft = four()
        empty = craft.empty.model_copy(update={"weight": self.empty_weight, "arm": self.empty_arm})
        return craft.model_copy(update={"empty": empty})

    @property
    def stations(self) -> dict[str, float]:
        """Station loads by name."""
        return {"front seats": self.front, "rear seats": self.rear, "hold A": self.hold_a}

    @property
    def weights_and_arms(self) -> list[tuple[float, float]]:
        """Weight and arm of everything aboard at take-off: empty aircraft, stations, fuel."""
        at = arms()
        load = [(weight, at[name]) for name, weight in self.stations.items()]
        return [(self.empty_weight, self.empty_arm), *load, (self.fuel_weight, at["tanks"])]

    @property
    def table(self) -> Table:
        """Rows of the table that a student is given."""
        at = {name: words(inches, "arm") for name, inches in arms().items()}
        return (
            ("item", "weight", "arm"),
            ("empty aircraft", words(self.empty_weight, "lb"), words(self.empty_arm, "arm")),
            *((n, words(w, "lb"), at[n]) for n, w in self.stations.items()),
            (f"fuel, {fuel_words(self.fuel)}", "to work out", at["tanks"]),
            (f"of it used in flight, {fuel_words(self.trip)}", "to work out", at["tanks"]),
        )


def drawn(v: Variant) -> Givens:
    """Return what a student's draws give."""
    hold_a = v.number("hold A", 30, 85, 5)
    return Givens(
        empty_weight=told(v.number("empty weight", 1515, 1575, 5)),
        empty_arm=told_arm(v.number("empty arm", 100.8, 101.8, 0.1)),
        front=told(v.number("front seats", 290, 380, 5)),
        rear=told(v.number("rear seats", 110, 230, 5)),
        hold_a=told(hold_a),
        fuel=told_volume(v.number("fuel", 24, 36, 2)),
        trip=told_volume(v.number("trip fuel", 12, 19, 1)),
        bag=measures.given(hold_a, "lb", metric=2),
    )
