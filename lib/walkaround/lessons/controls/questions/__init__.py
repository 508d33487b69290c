"""The exercise on controls: which way, how far by tape measure, what the tail loses, and the check itself."""

from walkaround import aircraft
from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.controls.questions import check, tail, tape, ways

NAME = "controls"
TITLE = "Controls"
_SHORT = ("demo", "elevator short of travel")
SHOWN_BY = {
    "aileron": ("demo", "ailerons crossed"),
    "tab": ("demo", "trim tab reversed"),
    "angle": _SHORT,
    "least": _SHORT,
    "force": _SHORT,
    "cg": _SHORT,
    "speed": _SHORT,
    "statements": ("demo", "elevator short of travel, half back"),
}


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    craft = aircraft.demo("morrowlark_four")
    section = craft.control_surfaces
    scene = (
        f"The Morrowlark Four is back at Quillmoor from the paint shop, where every surface was off. "
        f"{v.pick('pilot', PILOTS)} looks at its controls before the first flight. The aircraft and all numbers are "
        "invented; on the ramp the aircraft's own handbook comes first, and only a mechanic adjusts a control."
    )
    questions = (
        *ways.questions(v, section),
        *tape.questions(v, section),
        *tail.questions(v, craft),
        *check.questions(v, section),
    )
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, _facts(section))


def quick(variant):
    """Questions asked on the spot in the lesson: a tuple of `Question`."""
    paper = write(variant)
    return tuple(paper.question(key) for key in ("tab", "angle", "cg", "find"))


def _facts(section):
    """The limits of travel: rows of a table."""
    r = section.rigging
    return (
        ("surface", "limits of travel"),
        ("ailerons", f"{r.aileron_up:g}° up, {r.aileron_down:g}° down"),
        ("elevator", f"{r.elevator_up:g}° up, {r.elevator_down:g}° down"),
        ("rudder", f"{r.rudder_left:g}° left, {r.rudder_right:g}° right"),
        ("trim tab", f"{r.tab_up:g}° up, {r.tab_down:g}° down"),
        ("flaps", ", ".join(f"{s:g}°" for s in section.flap.settings_deg)),
        ("tolerance", f"{section.tolerance_deg:g}° either way"),
    )
