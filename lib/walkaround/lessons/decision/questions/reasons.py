"""Each reason by itself: does it stop the flight as it stands, or does it not?"""

from walkaround.assessment.builders import choice
from walkaround.lessons.decision.flight import (
    BALANCE,
    ENGINE,
    FUEL,
    LANDING,
    OIL,
    ROUND,
    RUNWAY,
    TAKE_OFF,
    cg_limits,
    checked,
    craft,
)
from walkaround.lessons.decision.words import beside, limits, number_of
from walkaround.physics.loading.words import say

STOPS, NOT = "stops", "does not stop"
ASKED = {
    TAKE_OFF: ("weighs off", "does its take-off weight stop it?"),
    LANDING: ("weighs down", "does its landing weight stop it?"),
    BALANCE: ("balanced", "does its balance at take-off stop it?"),
    FUEL: ("fuelled", "does the fuel aboard stop it?"),
    OIL: ("oiled", "does the oil in the engine stop it?"),
    ENGINE: ("warm", "is the engine too cold?"),
    RUNWAY: ("room", "does the runway stop it?"),
    ROUND: ("found", "does what the round found stop it?"),
}

HELD_AGAINST = {
    TAKE_OFF: ("take-off weight",),
    LANDING: ("landing weight",),
    BALANCE: ("CG",),
    FUEL: ("fuel",),
    OIL: ("oil",),
    ENGINE: ("engine",),
    RUNWAY: ("runway",),
    ROUND: ("elevator", "nose wheel", "pull", "winter kit"),
}


def questions(f):
    """Questions on the reasons, one for each check of a `Flight`."""
    return tuple(_reason(f, check) for check in checked(f))


def _reason(f, check):
    key, asks = ASKED[check.key]
    answer, other = (NOT, STOPS) if check.met else (STOPS, NOT)
    says = "It is within its limit." if check.met else "It is not within its limit."
    worked = _worked(f, check)
    return choice(
        key,
        f"A reason? {check.key[0].upper()}{check.key[1:]}",
        f"As the flight stands, {asks} You have one try.",
        answer=answer,
        options=[(STOPS, "yes, that alone is a no-go"), (NOT, "no, that is as it should be")],
        points=1,
        most_tries=1,
        table=limits(*HELD_AGAINST[check.key]),
        hint="Does anything have to be taken off first? What has a limit is compared with it."
        if check.key == ROUND
        else "Put the number and its limit side by side.",
        worked=worked,
        wrong=[
            (
                other,
                "imagined a reason" if check.met else "missed a reason",
                worked if check.key == ROUND else f"{says} {worked}",
            )
        ],
    )


def _worked(f, check):
    if check.key == ROUND:
        return f.found.why
    if check.key == BALANCE:
        cg, forward, aft = cg_limits(f)
        cg, forward, aft = (say(x, check.unit) for x in (cg, forward, aft))
        return f"CG {cg}; the limits there are {forward.split()[0]} and {aft}"
    if check.key == ENGINE:
        engine = craft().engine
        if check.limit is None:
            return f"it is not below {number_of(engine.preheat_below_c)} °C outside: no preheat is asked for"
        return (
            f"oil {number_of(f.oil_c)} °C, at least {engine.ready_oil_c:g}; "
            f"metal {number_of(f.metal_c)} °C, at least {engine.ready_metal_c:g}"
        )
    return beside(check)
