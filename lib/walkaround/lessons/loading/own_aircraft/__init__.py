"""Questions on weight and balance for any aircraft file: the school's own aircraft, with loads drawn for each student.

The aircraft's numbers are the file's; people, baggage and fuel are drawn within its stations and tanks.
"""

from walkaround.assessment.questions import Paper
from walkaround.lessons.loading.own_aircraft import flight, sums
from walkaround.lessons.loading.own_aircraft.givens import drawn
from walkaround.lessons.loading.own_aircraft.verdict import go


class OwnAircraft:
    """An exercise on one aircraft: `NAME`, `TITLE` and `write(variant)` as every exercise has.

    >>> from walkaround import aircraft
    >>> from walkaround.assessment.questions import paper
    >>> paper(OwnAircraft(aircraft.demo("tansy_two"), "ours"), "Ines Okafor").title
    'Weight and balance of the Tansy Two'
    """

    def __init__(self, aircraft, name):
        self.aircraft, self.NAME = aircraft, name
        self.TITLE = f"Weight and balance of the {aircraft.name}"

    def write(self, variant):
        """Write one student's paper (`questions.Paper`) from their draws."""
        v, g = variant, drawn(variant, self.aircraft)
        a = g.aircraft
        questions = [sums.moment(v, g), sums.fuel_weight(g), sums.take_off_weight(g), sums.take_off_cg(g)]
        questions += [flight.landing_weight(g), flight.burn(g)]
        if len(a.stations) > 1:
            questions.append(flight.shift(v, g))
        questions.append(go(v, g))
        scene = (
            f"You are to fly the {a.name}. Its empty weight, with oil and the fuel that can't be used, and today's "
            f"load are in the table. Fuel weighs {a.fuel.density:g} {a.units.weight} per {a.units.volume}. "
            "Taxi fuel is left out. For a real flight take the numbers from the aircraft's own papers."
        )
        return Paper(self.NAME, self.TITLE, v.student, v.course, tuple(questions), scene, g.table, g)
