"""The exercise on the decision: the numbers of one flight, each reason by itself, the decision, and what mends it."""

from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.decision import told
from walkaround.lessons.decision.drawn import draw
from walkaround.lessons.decision.questions import decide, numbers, reasons
from walkaround.lessons.decision.words import day

NAME = "decision"
TITLE = "Go or no-go"
SHOWN_BY = {
    "take-off": ("demo", "too heavy, and a bag stays behind"),
    "runway": ("demo", "wind from behind"),
    "decide": ("demo", "it looks bad"),
    "mend": ("demo", "too heavy, and a bag stays behind"),
}


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    drawn = told.drawn(draw(v))
    scene = (
        f"{v.pick('pilot', PILOTS)} stands at Quillmoor with the Morrowlark Four. The round is done, and this is what "
        "is known. May this flight go? Aircraft, airfield and all numbers are invented; before a real flight the "
        "aircraft's own handbook, the local rules and licensed people come first."
    )
    f = drawn.flight
    questions = (*numbers.questions(f), *reasons.questions(f), *decide.questions(v, drawn))
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, day(f), drawn)


def quick(variant):
    """Questions asked on the spot in the lesson, each with the flight that it is about: a tuple of `Question`."""
    paper = write(variant)
    asked = (paper.question(key) for key in ("fuel", "oil", "runway", "decide"))
    return tuple(q._replace(table=(*paper.scene_table, *q.table)) for q in asked)
