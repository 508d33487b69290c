"""The game: steer an aircraft into the hangar by keyboard without touching anything, and get a mark for it."""

import hashlib
import math

import numpy as np

from walkaround import aircraft, checks, measures
from walkaround.aircraft.airfield import airfield
from walkaround.lessons.towing.airframe import Airframe
from walkaround.lessons.towing.demos import CAUTION, feet, into, near_words, past_marks, too_near
from walkaround.lessons.towing.picture import FEET_HIGH, FEET_WIDE, SOUTH, WEST, RampPicture, Shown
from walkaround.lessons.towing.tow import Tow, as_told, outlines
from walkaround.live.controls import count, player, slider
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.towing import Pose

LONGEST_FT, STRAIGHT_DEG, MIDDLE_FT, NEAR_FT = 250, 5.0, 3.0, 1.0
STARTS_CLEAR_FT = 5.0


@in_chosen_units
def hangar(name="morrowlark_four"):
    """Return the game for a demo aircraft's name, or for the path of an aircraft file.

    >>> made = hangar()
    >>> made.set(towed=60)
    >>> made.verdict, made.words[:12]
    ('stop', 'It touches: ')
    """
    craft = aircraft.with_sections(name, "dimensions", "towing")
    frame, ramp = Airframe(craft), airfield().ramp
    round_number = count("round (another start)", 1, 1, 999)
    step = measures.step(1, "ft")
    moment = slider("towed", measures.unit("ft"), 0, math.ceil(measures.value(LONGEST_FT, "ft")), 0, step)
    angle = slider("nose wheel", "°", -60, 60, 0, 5, "nose wheel, degrees to the right")
    controls = {
        "round": round_number,
        "_play": player(moment, step, round(250 * measures.entered(step, "ft"))),
        "angle": angle,
        "towed": moment,
    }
    tows = _Tows(lambda n: Tow(frame, ramp, start(frame, ramp, n)), round_number, moment, angle)

    def begin_anew(_change):
        angle.value = moment.value = 0

    round_number.observe(begin_anew, "value")

    def work(values):
        tow, angle = tows.at(values["round"], values["towed"], values["angle"]), values["angle"]
        near = tow.nearest
        shown = Shown(tow.end, angle, tow.trail(), near, near_words(near), too_near(tow))
        return Worked(shown, (tow, angle))

    return Stage(f"{craft.name}: into the hangar", controls, RampPicture(frame, ramp), work, _say, caution=CAUTION)


def start(frame, ramp, round_number):
    """Where a round begins: from a hash, so that a round is the same for every class, and clear of everything."""
    for attempt in range(100):
        drawn = hashlib.sha256(f"into the hangar {round_number} {attempt}".encode()).digest()
        x, y, heading = (low + (high - low) * byte / 255 for byte, (low, high) in zip(drawn, _STARTS, strict=False))
        pose = Pose(round(x), round(y), round(heading))
        if Tow(frame, ramp, pose).nearest.feet >= STARTS_CLEAR_FT:
            return pose
    return Pose(*ramp.waits_at, 0.0)


_STARTS = ((28.0, 48.0), (17.0, 34.0), (-15.0, 30.0))


class _Tows:
    """The tow at each value that the sliders have had: what comes next depends on where they came from.

    A stage works out a step ahead before the hand takes it, or takes another. So what is steered from is what the
    controls showed before the last of them moved, and not whatever was worked out last.
    """

    def __init__(self, begin, round_number, moment, angle):
        self._begin, self._made = begin, {}
        moment.tows, carry_number = self, moment.carry_over

        def carry_over(other):
            carry_number(other)
            self._take_over(other.tows)

        moment.carry_over = carry_over
        self._shown = lambda: (round_number.value, moment.value)
        self._came_by = [self._shown()]
        for control in (round_number, moment, angle):
            control.observe(lambda _change: self._came_by.append(self._shown()), "value")

    def _take_over(self, other):
        """Go on from where the tow of the same game stands, which was shown in other units."""
        tow = other._made.get(other._shown())
        if tow is not None:
            self._made, self._came_by = {self._shown(): tow}, [self._shown()]

    def at(self, round_number, to, angle_deg):
        """The tow of a round with the nose wheel rolled so far, held at an angle on the last part of the way."""
        before = next((came for came in self._came_by[-2::-1] if came in self._made), (round_number, to))
        start = self._made.get(before) if before[0] == round_number else None
        start = start or self._begin(round_number)
        here = (round_number, to)
        tow = start.taken_to(float(measures.entered(to, "ft")), float(angle_deg))
        self._made, self._came_by = {before: start, here: tow}, [here]
        return tow


def within(tow, x, y):
    """Whether the whole aircraft is between two lines of x and two of y, each as (from, to)."""
    corners = outlines(tow.airframe, Pose(*([value] for value in tow.end)))[0]
    return bool(((corners > (x[0], y[0])) & (corners < (x[1], y[1]))).all())


def inside(tow):
    """Whether the whole aircraft is in the hangar, the door free to close."""
    west, east = tow.ramp.inside_x
    return within(tow, (west + tow.ramp.wall, east), tow.ramp.hangar_y)


def marks(tow):
    """Marks out of 10, and those for the nearest miss, for straight, and for the middle."""
    if not tow.nearest.feet or past_marks(tow) or not inside(tow):
        return 0, 0, 0, 0
    near = min(3, int(tow.nearest.feet / as_told(NEAR_FT, 1) + checks.SLACK))
    off = abs((tow.end.heading_deg - 90 + 180) % 360 - 180)
    aside = abs(tow.end.y - sum(tow.ramp.hangar_y) / 2)
    straight, middle = 2 * bool(checks.at_most(off, STRAIGHT_DEG)), int(checks.at_most(aside, as_told(MIDDLE_FT, 1)))
    return 4 + near + straight + middle, near, straight, middle


def _say(said):
    return *_verdict(*said), what_marks_are_for()


def what_marks_are_for():
    """Say what the marks are given for."""
    foot = "foot" if measures.chosen() != measures.METRIC else measures.words(NEAR_FT, "ft", metric=1)
    most, middle = (measures.figures(feet, "ft", metric=1) for feet in (3 * NEAR_FT, MIDDLE_FT))
    return (
        f"Marks: 4 for inside and untouched, 1 for each {foot} of the nearest miss up to {most}, 2 for straight within "
        f"5°, 1 for within {middle} {measures.unit('ft')} of the hangar's middle."
    )


def _verdict(tow, angle):
    """The verdict, the sentence, and what to do or what the mark is made of."""
    near, limit = tow.nearest, tow.airframe.limit_deg
    if past_marks(tow):
        words = f"Past the marks: the nose wheel was turned {tow.steepest_deg:.0f}°, and {limit:.0f}° is the limit."
        return STOP, f"{words} 0 of 10: show a mechanic.", "Push back to the start, and begin again."
    if not near.feet:
        words = f"It touches: {near.part} meets {near.obstacle}, {into(near.towed)}."
        back = measures.words(near.towed, "ft", metric=1)
        return STOP, f"{words} 0 of 10: show a mechanic.", f"Move towed back to less than {back}, and try again."
    where = f"{near.part} at {near.obstacle}"
    if inside(tow):
        total, *parts = marks(tow)
        words = f"In the hangar: {total} of 10. The nearest miss was {feet(near.feet)}, {where}."
        got = "This time 4, {} of 3, {} of 2 and {} of 1.".format(*parts)
        return OK if total >= 8 else NOTE, words, got
    if not within(tow, (WEST, WEST + FEET_WIDE), (SOUTH, SOUTH + FEET_HIGH)):
        return STOP, f"Off the ramp, {into(tow.length)}.", "Push back, and steer for the hangar."
    turned = "straight" if not angle else f"{abs(angle)}° {'right' if angle > 0 else 'left'}"
    so_far = measures.words(tow.length, "ft", metric=1)
    words = f"Towed {so_far}, nose wheel {turned}. Nearest so far {feet(near.feet)}: {where}."
    if not checks.at_most(abs(angle), limit):
        return STOP, words, f"The nose wheel stands past its marks, {limit:.0f}°: don't tow."
    heading = np.mod(tow.end.heading_deg, 360)
    return NOTE, words, f"Into the hangar, nose first, until the door can close. Heading {heading:.0f}°, hangar at 90°."
