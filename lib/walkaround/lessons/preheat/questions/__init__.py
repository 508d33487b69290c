"""The exercise on preheating and oil: heat, heaters, when an engine is ready, oil; a file for each group."""

from walkaround import aircraft
from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.preheat.questions import heat, heater, oil, ready
from walkaround.lessons.preheat.questions.scenario import facts, givens

NAME = "preheat"
TITLE = "Preheat and oil"
_USUAL, _WEAK = ("demo", "a calm cold morning, 45 minutes"), ("demo", "a weak heater in a hard frost")
_PAD = ("demo", "only the pad: warm oil, cold cylinders")
SHOWN_BY = {
    "heat": _USUAL,
    "energy": _USUAL,
    "rise": _WEAK,
    "fan": _WEAK,
    "ready": _PAD,
    "statements": _PAD,
    "wait": ("demo", "warm, and then a long coffee"),
}


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    g = givens(v)
    scene = (
        f"A frost at Quillmoor: {g.outside_c} °C outside, and the Morrowlark Four has stood out all night, so every "
        f"part of it is as cold as that. {v.pick('pilot', PILOTS)} will fly it. Engine, heaters and all their numbers "
        "are invented; on the ramp the engine maker's limits come first."
    )
    section = aircraft.demo("morrowlark_four").engine
    questions = (*heat.questions(v, g), *heater.questions(v, g), *ready.questions(v, g), *oil.questions(v, section))
    return Paper(NAME, TITLE, v.student, v.course, questions, scene.replace(" -", " −"), facts(g), g)


def quick(variant):
    """Questions asked on the spot in the lesson: a tuple of `Question`."""
    paper = write(variant)
    return tuple(paper.question(key) for key in ("difference", "energy", "fan", "litres"))
