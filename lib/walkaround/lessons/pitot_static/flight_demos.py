"""Live demonstrations over a whole flight: play it and drag its moment, or let a class guess the fault."""

import hashlib
from functools import lru_cache, partial

import numpy as np

from walkaround import aircraft
from walkaround.aircraft.airfield import airfield, planned_flight
from walkaround.lessons.pitot_static.flight_picture import FlightPicture
from walkaround.live.controls import choice, count, player, slider, switch
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.pitot_static import Blockage, Indications, Openings, indications_over, time_constant_s, words

CAUTION = (
    "A training aid: aircraft and flight are invented, and the aircraft's own handbook comes first. Never switch on "
    "pitot heat with the cover on."
)
PLATE_MM, LINE_ML = 2.0, 50.0  # how long a pinhole is, and the volume of the line behind it; invented
FASTER = 20  # how many times as fast as a real flight a played one runs
FRAMES_S = 10  # how many moments a second it shows

# Inlet, drain and port: which are clear.
COMBINATIONS = {
    "nothing": Openings(),
    "inlet (a cover, an insect)": Openings(False, True, True),
    "inlet and drain (ice)": Openings(False, False, True),
    "static port (tape, ice)": Openings(True, True, False),
    "inlet and static port": Openings(False, True, False),
    "all three": Openings(False, False, False),
    "drain": Openings(True, False, True),
    "drain and static port": Openings(True, False, False),
}
NOTHING_MORE, ALTERNATE, MELTS = "nothing more", "alternate source opened", "the opening comes clear"
THEN_AFTER_S = 60.0
SHOWN_FIRST_S = 240  # so that there is something to see before anyone presses play
ROUND_BEGINS_S = 60  # in the climb, before anything is blocked


@in_chosen_units
def flight(name="morrowlark_four"):
    """Return a whole flight to play and to drag through, for a demo aircraft's name or the path of an aircraft file.

    >>> made = flight()
    >>> made.set(moment=100)
    >>> made.words
    '1 min 40 s, climb at 74 kt, 650 ft/min. All three instruments are right.'
    """
    replay = _Replay(name)
    moment = replay.moment_slider(SHOWN_FIRST_S)
    controls = {
        "_play": player(moment, FASTER // FRAMES_S, 1000 // FRAMES_S),
        "moment": moment,
        "_fault": "The blockage",
        "blocked": choice("blocked", list(COMBINATIONS), "inlet and drain (ice)"),
        "at_s": slider("from", "s", 0, replay.end_s, 150, 5),
        "pinhole": slider("pinhole left in it", "mm", 0.0, 0.12, 0.0, 0.01),
        "then": choice("a minute later", [NOTHING_MORE, ALTERNATE, MELTS]),
    }

    def work(v):
        picture, state = replay.at(v["moment"], v["blocked"], v["at_s"], v["pinhole"], v["then"])
        return Worked((*picture, True), state)

    title = f"{replay.craft.name}: a whole flight, and a blockage on the way"
    return Stage(title, controls, replay.picture, work, replay.say, caution=CAUTION)


class _Replay:
    """A planned flight with its picture, and what the instruments show on it for a fault."""

    def __init__(self, name):
        self.craft = aircraft.with_sections(name, "speeds", "take_off")
        self.plan = planned_flight(self.craft)
        self.picture = FlightPicture(self.plan.flight, self.craft.speeds.arcs)
        self.end_s = int(self.plan.flight.time_s[-1])
        self.right = indications_over(self.plan.flight)
        inside = partial(indications_over, self.plan.flight, cabin_below_hpa=airfield().plan.cabin_below_hpa)
        self.over = lru_cache(maxsize=64)(inside)

    def moment_slider(self, start_s):
        return slider("moment", "s", 0, self.end_s, start_s, FASTER // FRAMES_S, "moment of the flight, s")

    def blockages(self, openings, at_s, pinhole_mm, then):
        """The fault as blockages in order of time: when it begins, and what is done about it."""
        hole_s = self.hole_s(pinhole_mm)
        clear = (openings.pitot_clear, openings.drain_clear, openings.static_clear)
        lags = [0.0 if is_clear else hole_s for is_clear in clear]
        found, later_s = [Blockage(at_s, *lags)], at_s + THEN_AFTER_S
        if then != NOTHING_MORE and later_s < self.end_s:
            found.append(Blockage(later_s, *lags, alternate_open=True) if then == ALTERNATE else Blockage(later_s))
        return tuple(found)

    def at(self, moment_s, blocked, at_s, pinhole_mm, then=NOTHING_MORE):
        """What the picture takes, and the state: moment, openings then, hole, alternate source, readings."""
        openings = COMBINATIONS[blocked]
        blockages = self.blockages(openings, float(at_s), pinhole_mm, then)
        shown = self.over(blockages)
        now = [b for b in blockages if b.at_s <= moment_s]
        alternate = bool(now) and now[-1].alternate_open
        cleared = then == MELTS and len(now) == 2
        state = moment_s, Openings() if cleared or not now else openings, pinhole_mm, alternate, shown
        fault = openings != Openings()
        changes = [b.at_s for b in blockages if fault or b.alternate_open]
        return (shown, self.right, moment_s, changes), state

    def now(self, indications, moment_s):
        """The readings at one moment."""
        i = int(np.searchsorted(self.plan.flight.time_s, moment_s, side="right")) - 1
        rows = (indications.airspeed_kt, indications.altitude_ft, indications.vertical_speed_fpm, indications.on_stop)
        return Indications(*(row[i] for row in rows))

    def say(self, state):
        """Return verdict and sentence for a moment, and what stands below it: action, cause, symptom."""
        moment_s, openings, pinhole_mm, alternate, over = state
        shown, right, scales = self.now(over, moment_s), self.now(self.right, moment_s), self.picture.instruments
        all_right = not words.wrong_instruments(shown, right, scales)
        all_clear = openings == Openings() and not alternate
        # A clear opening beside a pinhole empties or fills the line at once: the hole does not count.
        cause = words.cause_words(openings, alternate, self.hole_s(pinhole_mm))
        if all_clear and not all_right:
            cause = "the vertical speed indicator is still settling"
        action = words.action_words(openings, moment_s < self.plan.airborne_s, alternate)
        verdict = OK if all_clear and all_right else NOTE if all_clear or all_right else STOP
        errors = words.error_words(shown, right, scales)
        notes = words.notes(action, cause, shown, right, scales)
        return verdict, f"{clock(moment_s)}, {self.plan.part(moment_s)}. {errors}.", *notes

    def hole_s(self, pinhole_mm):
        """Time constant in s of an opening that is blocked but for a pinhole; infinite without one."""
        return float(time_constant_s(pinhole_mm, PLATE_MM, LINE_ML))


# What a class votes on: the openings, and the pinhole left in what is blocked.
CAUSES = {
    "nothing is blocked": ("nothing", 0.0),
    "inlet blocked, drain clear": ("inlet (a cover, an insect)", 0.0),
    "inlet and drain blocked": ("inlet and drain (ice)", 0.0),
    "static port blocked": ("static port (tape, ice)", 0.0),
    "static port all but blocked": ("static port (tape, ice)", 0.05),
    "inlet and static port blocked": ("inlet and static port", 0.0),
    "all three blocked": ("all three", 0.0),
}


def secret(round_number, plan):
    """Return the cause and its moment in a round of guessing: from a hash, so that a round is the same for every class.

    Source of the hash: NIST FIPS 180-4, SHA-256.

    >>> secret(1, planned_flight(aircraft.demo("morrowlark_four")))
    ('all three blocked', 101.0)
    """
    drawn = hashlib.sha256(f"guess the fault {round_number}".encode()).digest()
    cause = tuple(CAUSES)[drawn[0] % len(CAUSES)]
    # In the climb or the first level part, so that the descent follows and tells.
    first, last = plan.airborne_s + 60.0, plan.begins_s[4] - 30.0
    return cause, float(round(first + (last - first) * drawn[1] / 255))


@in_chosen_units
def guess(name="morrowlark_four"):
    """Return guess-the-fault for a class: the instruments move, the class votes, then the cause is shown.

    >>> made = guess()
    >>> made.set(reveal=True)
    >>> made.words[:46]
    'Round 1: all three blocked, from 1 min 41 s on'
    """
    replay = _Replay(name)
    moment = replay.moment_slider(ROUND_BEGINS_S)
    votes = {cause: count(cause) for cause in CAUSES}
    round_number = count("round (each hides a fault)", 1, 1, 999)
    reveal = switch("show the cause")

    def begin_anew(_change):
        # The next fault must not be seen, so the last one's answer goes away before anything is drawn.
        reveal.value, moment.value = False, ROUND_BEGINS_S
        for cast in votes.values():
            cast.value = 0

    round_number.observe(begin_anew, "value")
    controls = {
        "round": round_number,
        "_play": player(moment, FASTER // FRAMES_S, 1000 // FRAMES_S),
        "moment": moment,
        "_votes": "Votes of the class",
        **votes,
        "reveal": reveal,
    }

    def work(v):
        cause, at_s = secret(v["round"], replay.plan)
        blocked, pinhole_mm = CAUSES[cause]
        (*picture, changes), state = replay.at(v["moment"], blocked, at_s, pinhole_mm)
        revealed, cast = v["reveal"], {c: v[c] for c in CAUSES}
        shown = *picture, changes if revealed else [], revealed
        return Worked(shown, (v["round"], cause, at_s, cast, state, revealed))

    def say(said):
        number, cause, at_s, cast, state, revealed = said
        moment_s, *_, over = state
        if not revealed:
            now = replay.now(over, moment_s)
            speed, altitude, rate = (one.written(one.of(now)) for one in replay.picture.instruments)
            speed = "on its stop at zero" if now.on_stop else speed
            return (
                NOTE,
                f"Round {number}, {clock(moment_s)}: what is blocked? Airspeed {speed}, altitude {altitude}, "
                f"vertical speed {rate}.",
                f"The plan says {replay.plan.part(moment_s)}. Votes so far: {_votes(cast)}.",
            )
        when = "" if cause == "nothing is blocked" else f", from {clock(at_s)} on"
        voted = sum(cast.values())
        right = f"{cast[cause]} of {voted} votes were right" if voted else "Nobody has voted"
        return NOTE, f"Round {number}: {cause}{when}. {right}.", *replay.say(state)[1:]

    return Stage(f"{replay.craft.name}: guess the fault", controls, replay.picture, work, say, caution=CAUTION)


def _votes(cast):
    return ", ".join(f"{cause} {n}" for cause, n in cast.items() if n) or "none"


def clock(at_s):
    """Say a moment of a flight.

    >>> clock(200)
    '3 min 20 s'
    """
    minutes, seconds = divmod(round(at_s), 60)
    return f"{minutes} min {seconds:02d} s"
