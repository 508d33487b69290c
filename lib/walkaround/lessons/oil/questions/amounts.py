"""Questions on what a flight needs: the mark that stops it, and how long a leak leaves."""

from walkaround import measures
from walkaround.assessment.builders import number
from walkaround.lessons.oil.questions.givens import in_units_shown, lasting, rate
from walkaround.physics import oil


def questions(v, section):
    """Questions on amounts for a student's draws `v` and an engine's section of oil."""
    return _least(v, section), _leak(v, section)


def _least(v, section):
    burns, hours = rate(v.number("at most", 0.2, 0.4, 0.05)), v.number("flight hours", 2, 5, 0.5)
    section, inch, inches = in_units_shown(section), measures.unit("tape"), measures.name("tape")
    (qt, quarts), digits = (measures.unit("qt"), measures.name("qt")), measures.places("tape", 1, 1)
    marks, quantities, least = section.dipstick_marks, section.dipstick_quantities, section.minimum
    needed = float(oil.least_for_flight(least, burns, hours, 0.0))
    answer = float(oil.on_dipstick(needed, marks, quantities))
    below = max(i for i, q in enumerate(quantities[:-1]) if q <= needed)
    low, high, between = marks[below], marks[below + 1], quantities[below + 1] - quantities[below]
    over = "" if between == 1 else f" ÷ {between:g}"
    rows = ((f"{m:.{digits}f} {inch}", f"{q:g} {qt}") for m, q in zip(marks, quantities, strict=True))
    return number(
        "least",
        "The mark that stops this flight",
        f"The flight takes {hours:g} h, and the engine burns up to {burns:g} {qt} an hour. It must not run with less "
        f"than {least:g} {qt}. Below what mark on the stick, in {inches}, do you not take off?",
        answer=answer,
        unit=inch,
        tolerance=measures.given(0.025, "tape", metric=1),
        points=3,
        table=(("mark", "oil"), *rows),
        hint=f"What is burnt on the way, and what must be left: {quarts} first, then {inches} on a straight line.",
        worked=(
            f"{least:g} + {burns:g} × {hours:g} = {needed:g} {qt}",
            f"{low:.{digits}f} + ({needed:g} − {quantities[below]:g}){over} × ({high:.{digits}f} − {low:.{digits}f}) "
            f"= {answer:.{measures.places('tape', 2, 1)}f} {inch}",
        ),
        wrong=[
            (needed, f"{quarts} for {inches}", f"That is in {quarts}. The table turns it into {inches} on the stick."),
            (
                float(oil.on_dipstick(least, marks, quantities)),
                "nothing for the way",
                "The engine burns oil on the way.",
            ),
            (float(oil.on_dipstick(least + burns, marks, quantities)), "one hour only", "You counted one hour's burn.")
            if hours > 1
            else None,
        ],
    )


def _leak(v, section):
    drawn = v.number("have before the leak", 6.2, 7.4, 0.2), v.number("leak", 1.5, 4, 0.5)
    (have, least, leak), qt = lasting(drawn[0], section.minimum, drawn[1]), measures.unit("qt")
    digits = measures.places("qt", 1, 2)
    hours = float(oil.hours_until(have, least, leak))
    return number(
        "leak",
        "How long a leak leaves you",
        f"The stick showed {have:g} {qt}. In flight a hose begins to leak, {leak:g} {qt} an hour. After how many "
        f"minutes is the engine down to its least, {least:g} {qt}?",
        answer=60 * hours,
        unit="min",
        tolerance=0.7,
        points=2,
        hint="How much may be lost? How many hours does that take? Then minutes.",
        worked=(
            f"{have:g} − {least:g} = {have - least:.{digits}f} {qt}",
            f"{have - least:.{digits}f} ÷ {leak:g} = {hours:.3f} h",
            f"{hours:.3f} × 60 = {60 * hours:.0f} min",
        ),
        wrong=[
            (hours, "hours for minutes", "That is in hours."),
            (60 * have / leak, "until it is empty", "By then the sump is dry, and the engine has long stopped."),
            (60 * leak / (have - least), "turned round", "You divided the leak by the oil: it is the other way round."),
        ],
    )
