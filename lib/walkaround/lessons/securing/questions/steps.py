"""Questions on what is done: the order of untying and unchocking, and what has to be put right before one leaves."""

from functools import cache

from walkaround import aircraft, measures
from walkaround.aircraft import tie_down
from walkaround.assessment.builders import choices, order
from walkaround.physics.securing import FAILURES, fails_at_kt

BREEZE_DEG = 30.0  # from the left of straight ahead
# Common practice, no source; which rope is let go first follows from what the others hold without it.
STEPS = (
    ("look", "Decide from wind and forecast whether it may stand untied at all"),
    ("brake", "Before anything is let go, set the parking brake"),
    ("tail", "Untie the tail"),
    ("lee", "Untie the right wing"),
    ("windward", "Untie the left wing"),
    ("chocks", "Pull the chocks, from the side, clear of the propeller"),
    ("lock", "Climb aboard, and take the control lock out with a hand on the controls"),
)
_LENGTHS = {"an_inch": "an inch", "a_foot": "A foot"}
_IN_METRES = {"an_inch": "3 cm", "a_foot": "Some 30 cm"}
# What one finds on a parked aircraft: the words, and whether it has to be put right.
FOUND = {
    "nylon": ("Nylon rope at 45° to the ground, with about {an_inch} of movement", False),
    "both sides": ("Chocks tied together, ahead of the wheels and behind them", False),
    "locked": ("The control lock in, its red flag in view", False),
    "strut": ("The left rope tied round the wing strut, not to the ring", True),
    "manila": ("Manila rope, dry and pulled as tight as it goes, before a night of rain", True),
    "slack": ("{a_foot} of slack in the tail rope, to spare the tail", True),
    "stake": ("Stakes in wet grass, and a storm in the forecast", True),
    "ahead": ("Chocks ahead of the main wheels only, and wind from ahead", True),
    "unlocked": ("No control lock in, since the ropes hold the aircraft anyway", True),
    "flat": ("Ropes that lead to anchors far away, at 15° to the ground", True),
}


def questions(v):
    """Questions on what is done for a student's draws `v`."""
    return _untie(v), _found(v)


@cache
def without(place, name="morrowlark_four"):
    """Wind in kt to which an aircraft holds without one rope (0 left, 1 right, 2 tail), the breeze ahead and left.

    >>> round(without(0)), round(without(1)), round(without(2))
    (73, 103, 131)
    """
    craft = aircraft.demo(name)
    fails = fails_at_kt(
        tie_down.parked(craft, tie_down.ropes(craft, "nylon 3/8 in", missing=(place,)), from_deg=BREEZE_DEG)
    )
    return float(min(fails[name] for name in FAILURES[:4]))


def _untie(v):
    keys = [key for key, _ in STEPS]
    rows = (("the left wing", 0), ("the right wing", 1), ("the tail", 2))

    def moved(key, before):
        rest = [k for k in keys if k != key]
        at = rest.index(before)
        return [*rest[:at], key, *rest[at:]]

    return order(
        "untie",
        "Untying",
        "A breeze from ahead and a little from the left is strong enough to rock the aircraft, and you want to fly. "
        "The table has what the other ropes would hold without one of them. Put the steps in the order in which the "
        "aircraft is held as well as it can be until someone is aboard.",
        table=(("without the rope at", "the rest holds to"), *((at, f"{without(i):.0f} kt") for at, i in rows)),
        steps=STEPS,
        shown=v.shuffled("untie", STEPS),
        points=3,
        hint="The rope that matters most is let go last. And what keeps it from rolling off once it is untied?",
        wrong=[
            (
                moved("chocks", "tail"),
                "chocks before ropes",
                "Without chocks only the brake and ropes that may be slack hold it. Chocks come out after the ropes.",
            ),
            (
                moved("windward", "lee"),
                "windward wing first",
                "The wind lifts the left wing first: its rope is let go last.",
            ),
            (
                moved("lock", "tail"),
                "lock out too soon",
                "Unlocked, the elevator swings in the wind. The lock stays in until a hand is on the controls.",
            ),
            (
                moved("brake", "lock"),
                "brake after the chocks",
                "Between chocks and brake nothing keeps it from rolling.",
            ),
        ],
    )


def _found(v):
    wrong = v.pick("how many bad", (3, 4, 5))
    good = v.shuffled("good", [key for key, (_, bad) in FOUND.items() if not bad])[: 6 - wrong]
    bad = v.shuffled("bad", [key for key, (_, bad) in FOUND.items() if bad])[:wrong]
    lengths = _IN_METRES if measures.chosen() == measures.METRIC else _LENGTHS
    shown = v.shuffled("found", [(key, FOUND[key][0].format(**lengths)) for key in (*good, *bad)])
    rain = "Rope of natural fibre shrinks when it gets wet: pulled tight, it strains the aircraft (FAA AC 20-35C)."
    return choices(
        "found",
        "Before you leave it",
        "You look over an aircraft that will stand through a windy night. What has to be put right?",
        answer=bad,
        options=shown,
        points=3,
        hint="What does each of them do when it blows, or rains, or when the wind comes from ahead?",
        worked=[f"{text}: {'put it right' if key in bad else 'fine'}" for key, text in shown],
        wrong=[
            (set(bad) - {"manila"}, "wet rope left out", rain) if "manila" in bad else None,
            (set(bad) - {"flat"}, "flat rope left out", "At 15° the tension is four times the upward pull.")
            if "flat" in bad
            else None,
            (set(bad) - {"slack"}, "slack rope left out", "A slack rope spares nothing: it comes taut with a jerk.")
            if "slack" in bad
            else None,
            (set(bad) - {"unlocked"}, "free controls left out", "A free elevator lets a gust lift nose or tail.")
            if "unlocked" in bad
            else None,
            ({key for key, _ in shown}, "sound things put right", "Not everything here is wrong."),
        ],
    )
