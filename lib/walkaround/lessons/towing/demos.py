"""Live demonstration of a tow into the hangar: where the turn begins, how tight it is, and what comes near."""

import math

import numpy as np

from walkaround import aircraft, checks, measures
from walkaround.aircraft.airfield import airfield
from walkaround.lessons.towing.airframe import Airframe
from walkaround.lessons.towing.picture import RampPicture, Shown
from walkaround.lessons.towing.tow import as_told, into_hangar
from walkaround.live.controls import player, slider
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.units import FOOT_M

CAUTION = (
    "Ignition off, key out, and treat the propeller as live: never push or pull on it. Nobody behind the tail or under "
    "the wings; a wing walker at each tip and someone on the brakes. Never past the marks on the nose leg. Tow bar off "
    "before anyone thinks of starting. The aircraft's own handbook and local rules come first; this is a training aid "
    "with invented numbers."
)
LONGEST_FT, FARTHEST_FT = 160, 40


@in_chosen_units
def demo(name="morrowlark_four"):
    """Return the live demonstration for a demo aircraft's name, or for the path of an aircraft file.

    >>> made = demo()
    >>> made.set(begin=26)
    >>> made.verdict, made.words
    ('stop', 'It touches: the left wing meets the north post of the door, 98 ft into the tow.')
    """
    craft = aircraft.with_sections(name, "dimensions", "towing")
    frame, ramp = Airframe(craft), airfield().ramp
    unit, step = measures.unit("ft"), measures.step(1, "ft")
    longest, farthest = math.ceil(measures.value(LONGEST_FT, "ft")), round(measures.value(FARTHEST_FT, "ft"))
    moment = slider("towed so far", unit, 0, longest, 0, step)
    controls = {
        "_steer": "Steer",
        "begin": slider("straight on first", unit, 0, farthest, at_step(20), step),
        "angle": slider(
            "nose wheel turned", "°", 10, 60, 28, 1, "how far the nose wheel is turned to the right, degrees"
        ),
        "_tow": "Tow",
        "_play": player(moment, step, round(100 * measures.entered(step, "ft"))),
        "moment": moment,
    }
    kept = {}

    def work(values):
        steering = measures.entered(values["begin"], "ft"), values["angle"]
        if kept.get("steering") != steering:
            tow = into_hangar(frame, ramp, *steering)
            kept.update(steering=steering, tow=tow, trail=tow.trail())
        tow = kept["tow"]
        # An aircraft that touches something goes no further.
        ends = tow.length if tow.nearest.feet else tow.nearest.towed
        pose, angle = tow.pose(min(measures.entered(values["moment"], "ft"), ends))
        shown = Shown(pose, angle, kept["trail"], tow.nearest, near_words(tow.nearest), too_near(tow))
        return Worked(shown, (values, tow))

    def say(said):
        return *_verdict(*said), *_more(craft, *said)

    title = f"{craft.name}: towed into the hangar"
    return Stage(title, controls, RampPicture(frame, ramp), work, say, presets(frame, ramp), CAUTION)


def at_step(feet):
    """A distance in feet as a slider has it: in the unit shown, at one of its steps."""
    step = measures.step(1, "ft")
    return round(round(measures.value(feet, "ft") / step) * step, 1)


def presets(frame, ramp):
    """Ready-made tows by name; what is right depends on the aircraft's wheelbase and limit."""
    limit = int(frame.limit_deg)
    side = ramp.door_middle - ramp.waits_at[1]

    def begin(angle):
        return round(side - frame.wheelbase / np.tan(np.radians(angle)))

    rows = {
        "a good tow": (begin(limit - 2), limit - 2),
        "a wide turn": (begin(13), 13),
        "the turn begun too early": (begin(limit - 2) - 10, limit - 2),
        "the turn begun too late": (begin(limit - 2) + 6, limit - 2),
        "past the marks": (begin(50), 50),
        "turned at once": (0, limit),
    }
    return {
        text: {"begin": at_step(max(first, 0)), "angle": angle, "moment": 0} for text, (first, angle) in rows.items()
    }


def feet(distance):
    """Write a distance that is in feet as it is shown, to the tenth below 10.

    >>> feet(4.166), feet(97.4)
    ('4.2 ft', '97 ft')
    """
    return measures.words(distance, "ft", int(measures.value(distance, "ft") < 9.95))


def near_words(near):
    """Say in a few words how near."""
    return feet(near.feet) if near.feet else "touches"


def into(towed):
    """Say how far into the tow something is, by the feet that the nose wheel has rolled."""
    return f"{measures.words(towed, 'ft', metric=1)} into the tow"


def too_near(tow):
    """Whether the aircraft passes nearer to something than the airfield's rule has it."""
    return not checks.at_least(tow.nearest.feet, as_told(tow.ramp.keep_clear, 1), size=100.0)


def past_marks(tow):
    """Whether the nose wheel was turned beyond its limit."""
    return not checks.at_most(tow.steepest_deg, tow.airframe.limit_deg)


def _verdict(values, tow):
    near, limit = tow.nearest, tow.airframe.limit_deg
    if past_marks(tow):
        words = f"Past the marks: the nose wheel is turned {values['angle']}°, and {limit:.0f}° is the limit."
        return STOP, f"{words} The stops bend or break."
    if not near.feet:
        return STOP, f"It touches: {near.part} meets {near.obstacle}, {into(near.towed)}."
    passes = f"{near.part} passes {near.obstacle} at {feet(near.feet)}, {into(near.towed)}"
    if too_near(tow):
        return NOTE, f"Too near: {passes}. The rule here is {measures.words(tow.ramp.keep_clear, 'ft', metric=1)}."
    return OK, f"It fits: the nearest is {near.part}, which passes {near.obstacle} at {feet(near.feet)}."


def _more(craft, values, tow):
    frame, near = tow.airframe, tow.nearest
    middle, tip, tail = tow.radii(values["angle"])
    on, out, swings = (measures.words(radius, "ft", 1) for radius in (middle, tip, tail - middle))
    parts = []
    if past_marks(tow):
        where = f"{near.part} {'passes' if near.feet else 'meets'} {near.obstacle}"
        parts.append(f"And {where}{f' at {feet(near.feet)}' if near.feet else ''}.")
    if craft.units.arm == "m" and near.feet and measures.chosen() is None:
        parts.append(f"The nearest miss is {near.feet * FOOT_M:.1f} m.")
    parts.append(
        f"In the turn the middle between the main wheels runs on {on}, the outer wing tip on {out}, and the tail "
        f"swings out by {swings}."
    )
    if middle < frame.span / 2:
        parts.append("The inner wing tip runs backwards.")
    times = tow.swept / frame.wing_sq_ft
    swept = measures.words(tow.swept, "sq ft", metric=0)
    parts.append(f"The wing sweeps {swept} of ramp, {times:.0f} times what it covers standing still.")
    parts.append("Seen from above: never count on a wing that passes over something.")
    return parts
