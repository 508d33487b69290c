"""The exercise on oil: the log, the reading, what it all means; a file for each group."""

from walkaround import aircraft
from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.oil.questions import amounts, judgement, reading, sums
from walkaround.lessons.oil.questions.givens import facts, givens, in_units_shown

NAME = "oil"
TITLE = "Oil"
_CHANGED = ("demo", "it burns more than it did")
SHOWN_BY = {
    "rate": ("demo", "steady"),
    "due": ("demo", "steady"),
    "earliest": ("demo", "only three readings"),
    "least": ("demo", "a thirsty engine"),
    "more": _CHANGED,
    "soon": ("demo", "read too soon"),
    "slope": ("demo", "parked nose up"),
    "which": _CHANGED,
}


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    engine = aircraft.demo("morrowlark_four").engine
    g, section = givens(v, engine), in_units_shown(engine.oil)
    scene = (
        f"{v.pick('pilot', PILOTS)} keeps the oil log of the Morrowlark Four at Quillmoor. The aircraft, its engine "
        "and all their numbers are invented; on the ramp the aircraft's own handbook comes first, and a mechanic "
        "judges the engine."
    )
    questions = (
        *sums.questions(v, g, engine.oil),
        *amounts.questions(v, engine.oil),
        *reading.questions(v, engine.oil),
        *judgement.questions(v, g, engine.oil),
    )
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, facts(section), g)


def quick(variant):
    """Questions asked on the spot in the lesson: a tuple of `Question`."""
    paper = write(variant)
    return tuple(paper.question(key) for key in ("burnt", "due", "soon", "which"))
