"""Questions on reading the stick: too soon after shut-down, on a slope, and in which order."""

from math import radians, tan

from walkaround import measures
from walkaround.assessment.builders import number, order
from walkaround.lessons.oil.questions.givens import in_units_shown, quantity
from walkaround.physics import oil


def questions(v, section):
    """Questions on reading the stick for a student's draws `v` and an engine's section of oil."""
    return _soon(v), _slope(v, section), _steps(v)


def _soon(v):
    up, half, halves = v.number("still up", 0.8, 1.6, 0.2), v.number("half back", 3, 6), v.pick("halves", (2, 3))
    minutes, shown = half * halves, v.number("shown too soon", 5.2, 6.2, 0.1)
    (up, shown), qt = (quantity(up), quantity(shown)), measures.unit("qt")
    left = float(oil.still_up(up, half, minutes))
    chain = " ÷ 2" * halves
    return number(
        "soon",
        "Read too soon",
        f"At shut-down {up:g} {qt} of the oil is still up in the engine. A rule of thumb: every {half:.0f} "
        f"minutes, half of what is left there runs back. You pull the stick {minutes:.0f} minutes after shut-down, and "
        f"it shows {shown:g} {qt}. How much will it show once all has run back?",
        answer=shown + left,
        unit=qt,
        tolerance=measures.given(0.03, "qt", metric=3),
        points=2,
        hint="How much is still up? Halve it once for each of those stretches.",
        worked=(f"{up:g}{chain} = {left:.3f} {qt} still up", f"{shown:g} + {left:.3f} = {shown + left:.2f} {qt}"),
        wrong=[
            (shown, "taken at its word", "Some of the oil is still up in the engine."),
            (shown + up, "all still up", "That much hung up there at shut-down. Most has run back since."),
            (shown + up / 2, "halved once", "You halved it once. More time has gone by."),
            (shown + up - left, "what is back already", "You added what has run back: the stick shows that already."),
        ],
    )


def _slope(v, section):
    sump, degrees = section.sump, v.pick("nose up", (2, 2.5, 3, 3.5, 4, 5))
    marks, quantities = section.dipstick_marks, section.dipstick_quantities
    place = quantities.index(section.sump.refill_at)
    per_quart = (marks[place + 1] - marks[place]) / (quantities[place + 1] - quantities[place])
    sump, per_quart = in_units_shown(section).sump, measures.given(per_quart, "in/qt", 1)
    behind, rise = -sump.stick_forward, float(oil.rise_on_slope(sump.stick_forward, 0.0, degrees))
    answer = rise / per_quart
    qt, quarts, inch, inches = (f(of) for of in ("qt", "tape") for f in (measures.unit, measures.name))
    digits, more = measures.places("tape", 3, 2), measures.places("tape", 4, 5)
    quart = quarts.removesuffix("s")
    a_quart = f"{per_quart:.{measures.places('in/qt', 1)}f} {inch} of the stick are a {quart}"
    return number(
        "slope",
        "Parked nose up",
        f"The stick stands {behind:g} {inch} behind the middle of the sump, and the aircraft is parked {degrees:g}° "
        f"nose up. Oil stays level. Here {a_quart}. How much more does the stick show than there is, in {quarts}?",
        answer=answer,
        unit=qt,
        tolerance=measures.given(0.025, "qt", metric=3),
        points=3,
        hint=f"The oil stands higher at the stick by distance × tan of the angle. Then {inches} to {quarts}.",
        worked=(
            f"{behind:g} × tan {degrees:g}° = {behind:g} × {tan(radians(degrees)):.{more}f} = {rise:.{digits}f} {inch}",
            f"{rise:.{digits}f} ÷ {per_quart:g} = {answer:.2f} {qt} more than there is",
        ),
        wrong=[
            (rise, f"{inches} for {quarts}", f"That is in {inches}. Here {a_quart}."),
            (rise * per_quart, "multiplied", f"You multiplied by the {inches} for a {quart}: divide by them."),
            (
                behind * degrees / 100 / per_quart,
                "degrees for per cent",
                "A degree is not a per cent: use its tangent.",
            ),
            (-answer, "turned round", "Nose up, the oil runs to the back, where the stick is: it shows more."),
        ],
    )


def _steps(v):
    steps = (
        ("book", "Read in the aircraft's handbook how much oil, of which kind, and how its stick is read"),
        ("safe", "Parked on level ground: ignition off, key out, and keep clear of the propeller all the same"),
        ("level", "Wait until the oil has run back into the sump"),
        ("wipe", "Pull the stick, wipe it, put it in all the way and pull it again"),
        ("compare", "Compare what it shows with the least for this flight, and add what is missing"),
        ("close", "Stick in and locked, filler cap on, door of the cowl shut"),
        ("write", "Wipe your hands, and write hours, reading and what was added into the log"),
    )
    safe_late = "Hand and head are near the propeller when you reach for the stick: the ignition comes first."
    no_wipe = "You compared before you had wiped and dipped again: what splashed up the stick is not the level."
    return order(
        "steps",
        "From the book to the log",
        "Put the steps of an oil check in the order in which they are safe and make sense.",
        steps=steps,
        shown=v.shuffled("steps", steps),
        points=2,
        hint="What must you know, what must be safe, and what must have settled before you pull the stick?",
        wrong=[
            (("book", "level", "wipe", "safe", "compare", "close", "write"), "ignition after the stick", safe_late),
            (("book", "safe", "level", "compare", "wipe", "close", "write"), "not wiped", no_wipe),
        ],
    )
