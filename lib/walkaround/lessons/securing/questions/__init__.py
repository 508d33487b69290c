"""The exercise on securing: the wind's load, ropes, wheels, and what is done in which order; a file for each."""

from walkaround import measures
from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.securing.questions import ropes, steps, wheels, wind

NAME = "securing"
TITLE = "Securing"
_FREE, _SLACK = ("demo", "the storm, and the elevator free"), ("demo", "nose high, and the left rope slack")
SHOWN_BY = {
    "times": ("demo", "a storm, all as it should be"),
    "lifts": ("demo", "the storm, and chocks only"),
    "elevator": _FREE,
    "roll": ("demo", "from the left, and no left rope"),
    "weakest": ("demo", "nose high, and stakes in wet grass"),
    "jerk": _SLACK,
    "goes": ("demo", "ice, brake only, no ropes"),
}


_FORCES = "A pull or a push is given in pounds, as a weight is."
_IN_NEWTONS = "A pull, a push and a weight are forces, given in newtons (N): one kilogram weighs 9.81 N."


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    forces = _IN_NEWTONS if measures.chosen() == measures.METRIC else _FORCES
    scene = (
        f"Gusts are forecast at Quillmoor, and {v.pick('pilot', PILOTS)} looks after the Morrowlark Four on its "
        f"tie-down "
        "place. The aircraft, the place and their numbers are invented; on the ramp the aircraft's own handbook comes "
        f"first. {forces}"
    )
    questions = (*wind.questions(v), *ropes.questions(v), *wheels.questions(v), *steps.questions(v))
    return Paper(NAME, TITLE, v.student, v.course, questions, scene)


def quick(variant):
    """Questions asked on the spot in the lesson: a tuple of `Question`."""
    paper = write(variant)
    return tuple(paper.question(key) for key in ("times", "tension", "elevator", "untie"))
