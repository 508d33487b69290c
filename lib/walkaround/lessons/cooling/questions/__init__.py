"""The exercise on cooling: heat, air, time, and what the gauges mean; a file for each group."""

from walkaround import aircraft
from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.cooling.questions import air, judgement, sums, time
from walkaround.lessons.cooling.questions.givens import facts, givens

NAME = "cooling"
TITLE = "Cooling"
_UNSEEN = ("demo", "a plug on the side the gauge can't see")
_SPRING = ("demo", "the winter kit left on in spring")
SHOWN_BY = {
    "settles": ("demo", "both intakes clear"),
    "share": _UNSEEN,
    "reduced": ("demo", "the same, and a shallow climb after 2 minutes"),
    "plugs": ("demo", "both plugs left in"),
    "gap": ("demo", "a plug on the gauge's side"),
    "kit": _SPRING,
    "warmest": _SPRING,
    "run-up": ("demo", "only the gauges, after the run-up"),
    "which": _UNSEEN,
    "statements": _UNSEEN,
}


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    craft = aircraft.demo(v.pick("aircraft", aircraft.demo_names()))
    g = givens(v, craft)
    scene = (
        f"{v.pick('pilot', PILOTS)} takes the {craft.name} out at Quillmoor. The aircraft, its engine and all their "
        "numbers are invented; on the ramp and in the air the aircraft's own handbook comes first."
    )
    questions = (*sums.questions(v, g), *air.questions(v, g), *time.questions(v, g), *judgement.questions(v, g))
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, facts(craft), g)


def quick(variant):
    """Questions asked on the spot in the lesson: a tuple of `Question`."""
    paper = write(variant)
    return tuple(paper.question(key) for key in ("settles", "plugs", "run-up", "kit"))
