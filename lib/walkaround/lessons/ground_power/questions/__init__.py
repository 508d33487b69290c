"""The exercise on ground power and cold start: the circuit, cranking, the battery, ground power; a file for each."""

from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.ground_power.questions import battery, circuit, cranking, ground_power
from walkaround.lessons.ground_power.questions.scenario import celsius_text, facts, givens

NAME = "ground_power"
TITLE = "Ground power and cold start"
_COLD, _WRONG = ("demo", "−15 °C, and nobody has warmed the oil"), ("demo", "28 V into a 14 V socket")
SHOWN_BY = {
    "starter": _COLD,
    "turns": _COLD,
    "power": _COLD,
    "left": _COLD,
    "drop": ("demo", "the same cart on long, thin leads"),
    "frozen": ("demo", "left flat, then a hard frost"),
    "bus": _WRONG,
    "reverse": ("demo", "positive on negative"),
}


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    g = givens(v)
    scene = (
        f"{celsius_text(g.outside_c)} at Quillmoor, and the Morrowlark Four has stood out all night: oil, battery and "
        f"cables are as cold as that. {v.pick('pilot', PILOTS)} will start it. Aircraft, carts and all their numbers "
        "are invented; on the ramp the aircraft's handbook and its placard come first."
    )
    questions = (
        *circuit.questions(v, g),
        *cranking.questions(v, g),
        *battery.questions(v),
        *ground_power.questions(v, g),
    )
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, facts(g), g)


def quick(variant):
    """Questions asked on the spot in the lesson: a tuple of `Question`."""
    paper = write(variant)
    return tuple(paper.question(key) for key in ("inner", "starter", "freezes", "reverse"))
