"""The exercise on the round: an aircraft stop by stop, what looks wrong and is right, and being sure."""

from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import Paper
from walkaround.lessons.round.questions import at_stops, sums, sure
from walkaround.lessons.round.rounds import RESERVE, draw_round, stops
from walkaround.lessons.round.things import number_of

NAME = "round"
TITLE = "The round: find the faults"
SHOWN_BY = {"points": ("demo", "level 1, aircraft 1"), "worth": ("demo", "level 1, aircraft 1")}


def write(v):
    """Write one student's paper (`assessment.questions.Paper`) from their draws."""
    played = draw_round(v, 2, one_each=True)
    day, craft = played.day, played.craft
    scene = (
        f"{v.pick('pilot', PILOTS)} wants to fly the Morrowlark Four for {day.hours:g} h, at "
        f"{number_of(day.outside_c)} °C outside, and to land by night, so the reserve is {RESERVE:.0f} minutes. You "
        "walk round it first. A tractor is attached and holds it by the nose wheel, to pull it to the runway, where it "
        "takes off: nothing else may be left on it or under it, and the hand tow bar belongs in the hold. At a stop "
        "there is one fault at the most, and at some there is none. The aircraft and all numbers are invented; on the "
        "ramp the aircraft's own handbook comes first."
    )
    needs = (
        ("the flight needs", "at least"),
        ("fuel, reserve included", f"{day.fuel_needed:.1f} {craft.units.volume}"),
        ("oil", f"{day.oil_needed:.1f} {craft.engine.oil.unit}"),
    )
    questions = (*at_stops.questions(played), *sums.questions(v, played), *sure.questions(v, played))
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, needs, played)


def quick(variant):
    """Questions asked on the spot in the lesson: a tuple of `Question`."""
    paper = write(variant)
    stop = variant.pick("quick stop", stops())
    return tuple(paper.question(key) for key in (stop.name, "alarms", "points", "worth"))
