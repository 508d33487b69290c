"""Questions on weight and balance: from the moment of one item to a load that must be rearranged.

All numbers come from the invented Morrowlark Four, weighed anew for each student, with people and baggage drawn for
them.
"""

from walkaround import measures
from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.loading.questions import flights, reasoning, sums, verdicts
from walkaround.lessons.loading.questions.givens import drawn, four

NAME = "loading"
TITLE = "Weight and balance"
_WEEKEND, _TAIL_HEAVY = ("demo", "two up, weekend bags"), ("demo", "camping, tail-heavy")
SHOWN_BY = {
    "moment": _WEEKEND,
    "fuel weight": ("demo", "full to the brim"),
    "take-off weight": ("demo", "four up and a picnic"),
    "take-off cg": ("demo", "four up and a picnic"),
    "landing moment": _WEEKEND,
    "moves": _TAIL_HEAVY,
    "shift": _TAIL_HEAVY,
    "go": ("demo", "full to the brim"),
    "rearrange": _TAIL_HEAVY,
}


def write(variant):
    """Write one student's paper (`questions.Paper`) from their draws."""
    v, g = variant, drawn(variant)
    questions = (
        sums.moment(g),
        sums.fuel_weight(g),
        sums.take_off_weight(g),
        sums.take_off_cg(g),
        flights.landing_moment(v),
        flights.scales(v),
        reasoning.steps(v),
        reasoning.moves(v),
        flights.shift(v),
        verdicts.go(v, g),
        verdicts.rearrange(v, g),
    )
    scene = (
        f"{v.pick('pilot', PILOTS)} will fly your Morrowlark Four out of Quillmoor. It has been weighed, and these are "
        "its numbers and today's load; every one of them is invented. Taxi fuel is left out. "
        f"Fuel weighs {four().fuel.density:g} {measures.unit('lb')} per {measures.name('US gal', one=True)}."
    )
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, g.table, g)


def quick(variant):
    """Return the questions asked on the spot in the lesson (a tuple of `Question`), about the demo aircraft.

    >>> from walkaround.assessment.variant import Variant
    >>> [q.key for q in quick(Variant("lesson", "everyone", NAME))]
    ['moment', 'fuel weight', 'moves', 'shift']
    """
    paper = write(variant)
    return tuple(paper.question(key) for key in ("moment", "fuel weight", "moves", "shift"))
