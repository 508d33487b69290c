"""The exercise on towing: the pull, the turn, what is near, and who does what; a file for each."""

from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.towing.questions import crew, near, pull, turn
from walkaround.lessons.towing.questions.scenario import facts, givens

NAME = "towing"
TITLE = "Towing"
SHOWN_BY = {
    "slope": ("force", "up a slope of 4 %"),
    "brake": ("force", "level tarmac, brake on"),
    "away": ("force", "down a slope of 4 %"),
    "radius": ("demo", "a good tow"),
    "swing": ("demo", "turned at once"),
    "inner": ("demo", "a wide turn"),
    "limit": ("demo", "past the marks"),
    "door": ("demo", "the turn begun too late"),
}


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    g = givens(v)
    scene = (
        f"The Morrowlark Four has to go into the hangar at Quillmoor. {v.pick('pilot', PILOTS)} has the tow bar. "
        "Aircraft, ramp and all their numbers are invented; on the ramp the aircraft's handbook, the marks on its nose "
        "leg and local rules come first."
    )
    questions = (*pull.questions(v, g), *turn.questions(v, g), *near.questions(v, g), *crew.questions(v))
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, facts(g), g)


def quick(variant):
    """Questions asked on the spot in the lesson: a tuple of `Question`."""
    paper = write(variant)
    return tuple(paper.question(key) for key in ("slope", "brake", "radius", "door"))
