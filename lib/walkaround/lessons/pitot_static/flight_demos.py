"""Live demonstrations of pitot and static over a whole flight: played and scrubbed, and guess the fault with a class."""

import hashlib
from functools import lru_cache

import numpy as np

from walkaround import aircraft
from walkaround.aircraft.airfield import airfield, planned_flight
from walkaround.lessons.pitot_static.flight_picture import FlightPicture
from walkaround.live.stage import Stage, Worked, choice, count, player, slider, switch
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.pitot_static import words as symptoms
from walkaround.physics.pitot_static.instruments import Indications, Openings
from walkaround.physics.pitot_static.line_lag import time_constant_s
from walkaround.physics.pitot_static.over_flight import Blockage, indications_over

CAUTION = "A training aid with an invented aircraft and an invented flight; the aircraft's own handbook comes first."
PLATE_MM, LINE_ML = 2.0, 50.0  # how long a pinhole is, and the volume of the line behind it; invented
FASTER = 20  # a played flight runs so many times as fast as a real one
FRAMES_S = 10  # and shows so many moments a second

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
SHOWN_FIRST_S = 240  # so that there is something to see before anybody presses play
ROUND_BEGINS_S = 60  # in the climb, before anything is blocked


def flight(name="morrowlark_four"):
    """Return a whole flight to play and scrub, for a demo aircraft's name or the path of an aircraft file."""
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

    return Stage(
        f"{replay.craft.name}: a whole flight, and a blockage on the way",
        controls,
        FlightPicture(replay.plan.flight, replay.craft.speeds.arcs),
        work,
        replay.say,
        caution=CAUTION,
    )


class _Replay:
    """A planned flight, and what the instruments show on it for a fault."""

    def __init__(self, name):
        self.craft = aircraft.with_sections(name, "speeds", "take_off")
        self.plan = planned_flight(self.craft)
        self.end_s = int(self.plan.flight.time_s[-1])
        self.right = indications_over(self.plan.flight)
        self.over = lru_cache(maxsize=64)(self._over)

    def moment_slider(self, start_s):
        return slider("moment", "s", 0, self.end_s, start_s, FASTER // FRAMES_S, "moment of the flight, s")

    def _over(self, blockages):
        return indications_over(self.plan.flight, blockages, cabin_below_hpa=airfield().plan.cabin_below_hpa)

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
        changes = [b.at_s for b in blockages] if openings != Openings() else []
        return (shown, self.right, moment_s, changes), state

    def now(self, indications, moment_s):
        """The readings at one moment."""
        i = int(np.searchsorted(self.plan.flight.time_s, moment_s, side="right")) - 1
        rows = (indications.airspeed_kt, indications.altitude_ft, indications.vertical_speed_fpm, indications.on_stop)
        return Indications(*(row[i] for row in rows))

    def say(self, state):
        """Verdict and sentence for a moment: symptom, cause, action."""
        moment_s, openings, pinhole_mm, alternate, over = state
        shown, right = self.now(over, moment_s), self.now(self.right, moment_s)
        truth = right.altitude_ft, right.airspeed_kt, right.vertical_speed_fpm
        symptom = symptoms.symptom_words(shown, *truth)
        # A clear opening beside a pinhole empties or fills the line at once: the hole does not count.
        cause = symptoms.cause_words(openings, alternate, self.hole_s(pinhole_mm))
        action = symptoms.action_words(openings, moment_s < self.plan.airborne_s, alternate)
        all_clear, all_right = cause == symptoms.ALL_CLEAR, symptom == symptoms.ALL_RIGHT
        link = ", and " if all_clear and all_right else " for now, but " if all_right else ", because "
        if all_clear and not all_right:
            cause = "the vertical speed indicator is still settling"
        verdict = STOP if not all_right and not all_clear else OK if all_clear else NOTE
        return verdict, f"{clock(moment_s)}, {self.plan.part(moment_s)}. {symptom}{link}{cause}: {action}."

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
    """The cause and its moment in a round of guessing: from a hash, so that a round is the same for every class.

    Source of the hash: NIST FIPS 180-4, SHA-256.
    """
    drawn = hashlib.sha256(f"guess the fault {round_number}".encode()).digest()
    cause = tuple(CAUSES)[drawn[0] % len(CAUSES)]
    # In the climb or the first level part, so that the descent follows and tells.
    first, last = plan.airborne_s + 60.0, plan.begins_s[4] - 30.0
    return cause, float(round(first + (last - first) * drawn[1] / 255))


def guess(name="morrowlark_four"):
    """Return guess-the-fault for a class: the instruments move, the class votes, then the cause is shown."""
    replay = _Replay(name)
    moment = replay.moment_slider(ROUND_BEGINS_S)
    votes = {cause: count(cause) for cause in CAUSES}
    round_number = count("round (each hides a fault)", 1, 1, 999)
    reveal = switch("show the cause")
    made = None

    def begin_anew(_change):
        # The next fault must not be seen, so the last one's answer goes away before anything is drawn.
        if made is not None:
            made.set(reveal=False, moment=ROUND_BEGINS_S, **dict.fromkeys(votes, 0))

    round_number.observe(begin_anew, "value")
    controls = {
        "round": round_number, "_play": player(moment, FASTER // FRAMES_S, 1000 // FRAMES_S), "moment": moment,
        "_votes": "Votes of the class", **votes, "reveal": reveal,
    }  # fmt: skip

    def work(v):
        cause, at_s = secret(v["round"], replay.plan)
        blocked, pinhole_mm = CAUSES[cause]
        (*picture, changes), state = replay.at(v["moment"], blocked, at_s, pinhole_mm)
        revealed = v["reveal"]
        cast = {c: v[c] for c in CAUSES}
        return Worked(
            (*picture, changes if revealed else [], revealed), (v["round"], cause, at_s, cast, state, revealed)
        )

    def say(said):
        number, cause, at_s, cast, state, revealed = said
        moment_s, *_, over = state
        if not revealed:
            now = replay.now(over, moment_s)
            speed = "on its stop at zero" if now.on_stop else f"{now.airspeed_kt:.0f} kt"
            return NOTE, (
                f"Round {number}, {clock(moment_s)}; the plan says {replay.plan.part(moment_s)}. The instruments show: airspeed "
                f"{speed}, altitude {now.altitude_ft:,.0f} ft, vertical speed {say_rate(now.vertical_speed_fpm)}. "
                f"What is blocked? Votes so far: {_votes(cast)}."
            )
        when = "" if cause == "nothing is blocked" else f", from {clock(at_s)} on"
        return NOTE, (f"Round {number}: {cause}{when}. {_right(cast, cause)}. {replay.say(state)[1]}")

    made = Stage(
        f"{replay.craft.name}: guess the fault", controls, FlightPicture(replay.plan.flight, replay.craft.speeds.arcs),
        work, say, caution=CAUTION,
    )  # fmt: skip
    return made


def _right(cast, cause):
    voted = sum(cast.values())
    return f"{cast[cause]} of {voted} votes were right" if voted else "Nobody has voted"


def _votes(cast):
    return ", ".join(f"{cause} {n}" for cause, n in cast.items() if n) or "none"


def say_rate(fpm):
    """Say a vertical speed.

    >>> say_rate(-480.2), say_rate(3.0)
    ('480 ft/min down', '0 ft/min')
    """
    rounded = 10 * round(float(fpm) / 10)
    return f"{abs(rounded):,} ft/min" + (" up" if rounded > 0 else " down" if rounded < 0 else "")


def clock(at_s):
    """Say a moment of a flight.

    >>> clock(200)
    '3 min 20 s'
    """
    minutes, seconds = divmod(round(at_s), 60)
    return f"{minutes} min {seconds:02d} s"
