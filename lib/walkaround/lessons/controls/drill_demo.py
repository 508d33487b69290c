"""The drill of sixty seconds: which way must it move? Scored, by arrow keys or by hand."""

import hashlib
from collections import Counter
from time import monotonic
from typing import NamedTuple

import numpy as np

from walkaround import aircraft
from walkaround.lessons.controls import words
from walkaround.lessons.controls.demos import SECTIONS
from walkaround.lessons.controls.picture import ControlsPicture, Shown
from walkaround.lessons.controls.words import NAMES
from walkaround.live.controls import Control, count, player, slider
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.controls import Hands, Surfaces, positions

SECONDS = 60
ENOUGH, GOOD = 12, 0.9  # answers in the minute, and which share of them right: our own mark
_TICK_S = 0.5
_HELD_S = 0.35  # a slider that the hand still holds when it goes back gives its answer again
_KEYS = "→ or ↑: right or up. ← or ↓: left or down. Space starts the clock; without it you practise."


class Item(NamedTuple):
    """A question; the fact that answers it; hands and surfaces as drawn; what is asked for; 1 for up or right, else −1.

    `asked` is empty where the surfaces are given and the aircraft's movement is asked for; `about` is what to look at
    again after a wrong answer.
    """

    question: str
    fact: str
    hands: Hands
    surfaces: Surfaces
    asked: str
    about: str
    answer: int


class Answers(Control):
    """A slider from −1 to 1 that gives an answer at either end and goes back to the middle by itself.

    `value` has all answers so far, (seconds on the clock, −1 or 1) each.
    """

    kind = "slider"

    def __init__(self, clock, now=monotonic):
        self._clock, self._now = clock, now
        super().__init__(
            label="answer: ← ↓ or → ↑", tooltip="your answer with the arrow keys", value=(), memory=(0, -1.0)
        )

    def _details(self):
        return {"min": -1, "max": 1, "step": 1, "decimals": 0}

    def shown(self):
        """The middle: an answer does not stay."""
        return 0

    def take(self, shown):
        """Take an answer, unless the time is up or the hand has not let go of the last one."""
        way, now = int(shown), self._now()
        again, self.memory = (way == self.memory[0] and now - self.memory[1] < _HELD_S), (way, now)
        if way and not again and self._clock.value < SECONDS:
            self.value = (*self.value, (self._clock.value, way))

    def carry_over(self, other):
        """Take the answers given so far."""
        self.value = other.value


# What the aircraft does, as a question and as a fact, and its two ways.
_FOLLOWS = {
    "roll": ("does the aircraft roll", ("right", "left"), "and it rolls"),
    "pitch": ("does the nose go", ("up", "down"), "and the nose goes"),
    "yaw": ("does the nose swing", ("right", "left"), "and the nose swings"),
    "trim": ("does the nose go", ("up", "down"), "and the nose goes"),
}


def items(held, rigging):
    """Every question of the drill: for a wheel or a stick, on an aircraft of that rigging."""
    moved = (
        ("roll", "right", "left", ("left_aileron", "right_aileron")), ("pitch", "back", "forward", ("elevator",)),
        ("yaw", "right", "left", ("rudder",)), ("trim", "nose up", "nose down", ("tab",)),
    )  # fmt: skip
    found, still = [], positions(rigging, Hands())
    for name, more, less, surfaces in moved:
        for share, way in ((1, more), (-1, less)):
            hands = Hands(**{name: share})
            there = positions(rigging, hands)
            does = {"yaw": f"{way} pedal", "trim": f"trim to {way}"}.get(name, f"{held} {way}")
            at_rest = Surfaces(**(vars(still) | {"roll": there.roll, "pitch": there.pitch}))
            for surface in surfaces:
                up = float(getattr(there, surface)) > 0
                ends = ("right", "left") if surface == "rudder" else ("up", "down")
                asks = f"{does[0].upper()}{does[1:]}: must the {NAMES[surface]} go {ends[0]} or {ends[1]}?"
                fact = f"{does}, {NAMES[surface]} {ends[0] if up else ends[1]}"
                found.append(Item(asks, fact, hands, at_rest, surface, NAMES[surface], 1 if up else -1))
            # The same way round for the aircraft: it follows the hands. Only the tab's way is not its own.
            then, ends, fact = _FOLLOWS[name]
            what = " and ".join(f"the {NAMES[s]} {_way(s, float(getattr(there, s)))}" for s in surfaces)
            held_still = Surfaces(**(vars(there) | {"roll": still.roll, "pitch": still.pitch}))
            asks = f"In flight, with {what}: {then} {ends[0]} or {ends[1]}?"
            about = f"what the {NAMES[surfaces[0]].split()[-1]} does"
            told = f"{what[4:]}, {fact} {ends[0] if share > 0 else ends[1]}"
            found.append(Item(asks, told, Hands(), held_still, "", about, share))
    return tuple(found)


def _way(surface, degrees):
    more, less = ("right", "left") if surface == "rudder" else ("up", "down")
    return more if degrees > 0 else less


def item_at(every, number, place):
    """The question at a place, from 0, of a round: each comes once before any comes again.

    The order is from a hash. Its source: NIST FIPS 180-4, SHA-256.
    """
    turn, place = divmod(place, len(every))
    order = sorted(range(len(every)), key=lambda i: hashlib.sha256(f"drill {number} {turn} {i}".encode()).digest())
    return every[order[place]]


@in_chosen_units
def drill(name="morrowlark_four"):
    """Return the drill for a demo aircraft's name, or for the path of an aircraft file."""
    craft = aircraft.with_sections(name, *SECTIONS)
    section = craft.control_surfaces
    every = items(section.held, section.rigging)
    clock = slider("clock", "s", 0, SECONDS, 0, _TICK_S)
    answers = Answers(clock)

    def begin_anew(change):
        if change.new < change.old:
            answers.value = ()

    clock.observe(begin_anew, "value")
    controls = {
        "_play": player(clock, _TICK_S, round(1000 * _TICK_S)),
        "clock": clock,
        "answer": answers,
        "round": count("round", 1, 1, 999),
    }

    def work(values):
        # What was answered before the clock was started is practice, and counts for nothing.
        given = [way for at, way in values["answer"] if (at > 0) == (values["clock"] > 0)]
        # Practice has an order of its own, so that it does not give the round away.
        number = values["round"] if values["clock"] else -values["round"]
        asked = [item_at(every, number, i) for i in range(len(given) + 1)]
        right = [item.answer == way for item, way in zip(asked, given, strict=False)]
        left = SECONDS - values["clock"]
        score = f"{sum(right)} of {len(right)}"
        told = f"{score}\n{np.ceil(left):.0f} s left" if values["clock"] else f"{score}\npractice"
        now = asked[-1]
        shown = Shown(now.surfaces, now.hands.yaw, now.hands.trim, now.asked, told, not now.asked)
        return Worked(shown, (asked, right, left, score))

    def say(said):
        asked, right, left, score = said
        if not left:
            return _result(asked, right, score)
        if not right:
            return NOTE, asked[-1].question, _KEYS
        # The mark is for the last answer, and stands before the next question: a word parts them.
        verdict, last = (OK, "Right.") if right[-1] else (STOP, "Wrong.")
        answer = f"The {'last' if right[-1] else 'right'} answer: {asked[-2].fact}."
        return verdict, f"{last} Next: {asked[-1].question}", f"{answer} {score} right."

    return Stage(
        f"{craft.name}: which way must it move?", controls, ControlsPicture(craft), work, say, caution=words.CAUTION
    )


def _result(asked, right, score):
    missed = Counter(item.about for item, is_right in zip(asked, right, strict=False) if not is_right)
    again = "Look again at: " + ", ".join(f"{about} ({n})" for about, n in missed.most_common()) + "." if missed else ""
    good = len(right) >= ENOUGH and sum(right) >= GOOD * len(right)
    aim = f"The mark to reach: {ENOUGH} answers, {GOOD:.0%} of them right."
    return OK if good else NOTE, f"Sixty seconds are over: {score} right.", again, aim
