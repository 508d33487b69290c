"""The exercise on fuel: how much there is, how much to order, water, and what is done at the pump; a file for each."""

from walkaround import measures
from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.fuel.questions import planning, pump, quantity, water

NAME = "fuel"
TITLE = "Fuel"
_HUMID, _RAIN = ("night", "one humid night, half empty, a tight cap"), ("night", "one night of rain, a cracked seal")
SHOWN_BY = {
    "drain": ("demo", "parked nose low"),
    "gives": ("demo", "level ground, a cupful of water"),
    "condensed": _HUMID,
    "leak": _RAIN,
    "nights": _RAIN,
}


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    a_gallon, per = measures.name("US gal").removesuffix("s"), measures.unit("lb")
    density = measures.figures(6, "lb/US gal", metric=3)
    scene = (
        f"{v.pick('pilot', PILOTS)} will fly the Morrowlark Four out of Quillmoor, and has a dipstick, a sampler and a "
        "pencil. The aircraft and all its numbers are invented; before a real flight the aircraft's own handbook comes "
        f"first. Aviation gasoline weighs {density} {per} per {a_gallon} unless a table says otherwise."
    )
    questions = (*quantity.questions(v), *planning.questions(v), *water.questions(v), *pump.questions(v))
    return Paper(NAME, TITLE, v.student, v.course, questions, scene)


def quick(variant):
    """Questions asked on the spot in the lesson: a tuple of `Question`."""
    paper = write(variant)
    return tuple(paper.question(key) for key in ("drain", "condensed", "nights", "chance"))
