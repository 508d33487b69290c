"""Questions on pitot and static: what each instrument shows when openings are blocked, and what to decide on the roll.

All numbers come from the invented Morrowlark Four in the standard atmosphere, with altitudes and speeds drawn for each
student.
"""

from walkaround import measures
from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.pitot_static.questions import airspeeds, blockages, roll, trapped
from walkaround.lessons.pitot_static.questions.givens import draw
from walkaround.physics.air import atmosphere
from walkaround.units import FOOT_M, KNOT_M_S

NAME = "pitot_static"
TITLE = "Pitot and static"
_TRAPPED_STATIC = ("dials", "static port iced up at 5,000 ft, descending")
_TRAPPED_PITOT = ("dials", "inlet and drain iced up at 3,000 ft, now at 5,000 ft")
SHOWN_BY = {
    "symptom": _TRAPPED_STATIC,
    "trapped speed": _TRAPPED_PITOT,
    "static speed": _TRAPPED_STATIC,
    "which": ("dials", "static port taped over, climbing"),
    "order": _TRAPPED_PITOT,
    "statements": _TRAPPED_PITOT,
    "cabin": ("dials", "alternate source open in cruise"),
    "alive": ("takeoff_roll", "no cover, airspeed alive"),
    "thin air": ("takeoff_roll", "a high field"),
    "stop": ("takeoff_roll", "cover on"),
    "decide": ("takeoff_roll", "cover on"),
}


def _facts():
    in_feet = "" if measures.unit("ft") == "m" else f" = {KNOT_M_S / FOOT_M:.3f} ft/s"
    return (
        ("to work with", "value"),
        ("density at sea level", f"{atmosphere.SEA_LEVEL_DENSITY_KG_M3:.3f} kg/m³"),
        ("1 kt", f"{KNOT_M_S:.4f} m/s{in_feet}"),
        ("1 hPa", "100 Pa"),
    )


def write(v):
    """Write one student's paper (`questions.Paper`) from their draws.

    >>> from walkaround.assessment.variant import Variant
    >>> write(Variant("home", "Ines Okafor", "pitot_static")).question("cabin").unit
    'ft'
    """
    g = draw(v)
    questions = (
        airspeeds.true_airspeed(g),
        airspeeds.impact_pressure(g),
        blockages.symptom(v),
        trapped.trapped_speed(g),
        trapped.static_speed(g),
        blockages.which(v),
        trapped.order_of_readings(v, g),
        blockages.statements(v),
        airspeeds.cabin(g),
        *roll.questions(v, g),
    )
    scene = (
        f"{v.pick('pilot', PILOTS)} flies the Morrowlark Four from Quillmoor; aircraft, airfield and their numbers are "
        "invented. The air is standard, altitudes are pressure altitudes, and the instruments have no error of their "
        "own. Impact pressure is ½ × density × (true airspeed)², and the indicator shows the speed that has the "
        "measured pressure at sea level's density."
    )
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, _facts(), g)


def quick(variant):
    """Return the questions that the lesson asks on the spot (a tuple of `Question`).

    >>> from walkaround.assessment.variant import Variant
    >>> [q.key for q in quick(Variant("lesson", "everyone", "pitot_static"))]
    ['symptom', 'which', 'true airspeed', 'alive']
    """
    paper = write(variant)
    return tuple(paper.question(k) for k in ("symptom", "which", "true airspeed", "alive"))
