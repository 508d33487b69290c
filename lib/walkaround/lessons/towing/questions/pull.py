"""Questions on the pull: a slope, a brake that was left on, and an aircraft that rolls away."""

import numpy as np

from walkaround import measures
from walkaround.assessment.builders import choice, number
from walkaround.lessons.towing.questions.scenario import LOCKED, ROLLING, decimals, facts, force, length
from walkaround.physics.towing import rolls_to_m_s
from walkaround.units import FOOT_M, GRAVITY_M_S2, KNOT_M_S


def questions(v, g):
    """Questions on the pull for a student's draws `v` and `Givens` `g`."""
    return _slope(v, g), _brake(v, g), _breaks(v, g), _away(v)


def _slope(v, g):
    percent = v.number("slope", 2.5, 6, 0.5)
    up, rolls = g.weight * percent / 100, g.weight * ROLLING
    answer, unit = up + rolls, measures.unit("lbf")
    return number(
        "slope",
        "Up the slope",
        f"The ramp rises by {percent:g} % towards the hangar. Rolling wheels take {100 * ROLLING:.0f} % of the weight "
        f"on tarmac (a rule of thumb). What pull keeps the aircraft rolling uphill, in {unit}? On so small a slope, "
        "the part of the weight that acts down it is the same share as the slope.",
        answer=answer,
        unit=unit,
        tolerance=force(2),
        points=2,
        table=facts(g),
        hint="Two things are pulled against: the slope takes its share of the weight, and the wheels take theirs.",
        worked=(
            f"slope: {g.weight:,.0f} × {percent:g} ÷ 100 = {up:.0f} {unit}",
            f"wheels: {g.weight:,.0f} × {ROLLING} = {rolls:.0f} {unit}",
            f"{g.weight:,.0f} × ({percent:g} ÷ 100 + {ROLLING}) = {answer:.0f} {unit}",
        ),
        wrong=[
            (up, "forgot the wheels", "That is the slope alone. Rolling wheels take their share too."),
            (rolls, "forgot the slope", "That is what it takes on the level. The ramp rises."),
            (up - rolls, "took the wheels off", "That is what holds it on the way down. Uphill both pull back."),
        ],
    )


def _mains(v, g):
    """What the main wheels carry: in pounds a round share of the weight."""
    return force(10 * round(v.number("mains", 0.70, 0.80, 0.01) * g.weight_lb / 10))


def _brake(v, g):
    mains, unit = _mains(v, g), measures.unit("lbf")
    answer = LOCKED * mains
    return number(
        "brake",
        "The brake is still on",
        f"Someone pulls, and the parking brake is still on. The main wheels carry {mains:,.0f} {unit} and are locked; "
        f"on dry tarmac they slide only when the pull reaches {100 * LOCKED:.0f} % of that. At what pull do they "
        f"slide, in {unit}? Leave out the nose wheel, which rolls.",
        answer=answer,
        unit=unit,
        tolerance=force(5),
        points=2,
        table=facts(g),
        hint="Only the wheels that are locked count, with the weight that they carry.",
        worked=(f"{mains:,.0f} × {LOCKED} = {answer:,.0f} {unit}", f"the nose leg is good for {g.leg:,.0f} {unit}"),
        wrong=[
            (LOCKED * g.weight, "the whole weight", "The nose wheel has no brake. Only the main wheels are locked."),
            (LOCKED * (g.weight - mains), "the nose wheel's load", "That is on the nose wheel, which rolls."),
            (ROLLING * mains, "rolling for locked", "That is for wheels that roll. These are locked."),
        ],
    )


def _breaks(v, g):
    surface, share = v.pick("ground", (("dry tarmac", 0.7), ("wet tarmac", 0.4), ("ice", 0.1)))
    mains, unit = _mains(v, g), measures.unit("lbf")
    slides, leg = share * mains, f"{g.leg:,.0f} {unit}"
    answer = "breaks" if slides > g.leg else "holds"
    other = "breaks" if answer == "holds" else "holds"
    says = {
        "breaks": f"Locked wheels slide here at {slides:,.0f} {unit}, which is less than {leg}.",
        "holds": f"Locked wheels slide here only at {slides:,.0f} {unit}, which is more than {leg}.",
    }[other]
    # What the nose wheel adds would decide it: the numbers are drawn again, which is done in lb.
    near = not measures.chosen() and abs(slides / g.leg - 1) < 0.05
    no_brake = "Locked wheels don't roll. They slide, and only when the pull is large enough."
    return choice(
        "breaks",
        "What gives way first",
        f"The brake is on, the ground is {surface}, and locked wheels slide at {100 * share:.0f} % of the "
        f"{mains:,.0f} {unit} that they carry. A tractor pulls harder and harder at the nose wheel. What happens "
        "first?",
        answer="too near" if near else answer,
        options=v.shuffled(
            "gives way",
            [
                ("breaks", f"the pull passes {leg}, what the nose leg is good for, before the wheels slide"),
                ("holds", f"the wheels slide, at less than the {leg} that the nose leg is good for"),
                ("rolls", "the wheels turn against the brake, at a few per cent of the weight"),
            ],
        ),
        points=1,
        hint="Work out at what pull the wheels slide, and hold it against the nose leg's limit.",
        worked=(
            f"{mains:,.0f} × {share} = {slides:,.0f} {unit} until they slide",
            f"the leg is good for {leg}: " + ("it gives way first" if answer == "breaks" else "it holds"),
        ),
        wrong=[(other, "the other way round", says), ("rolls", "the brake forgotten", no_brake)],
    )


def _away(v):
    percent, way = v.number("away slope", 3.5, 6, 0.5), length(v.number("away feet", 30, 80, 10), 0)
    answer = float(rolls_to_m_s(measures.entered(way, "ft") * FOOT_M, percent, ROLLING)) / KNOT_M_S
    digits = decimals()
    g = round(measures.value(GRAVITY_M_S2 / FOOT_M, "ft"), digits)
    knot = round(measures.value(KNOT_M_S / FOOT_M, "ft"), measures.places("ft", 2, metric=3))
    net, unit, speed = percent / 100 - ROLLING, measures.unit("ft"), f"{measures.unit('ft')}/s"
    square = 2 * g * way * net
    by_slope = np.sqrt(2 * g * way * percent / 100) / knot
    return number(
        "away",
        "It rolls away",
        f"Nobody is on the brakes, there are no chocks, and the ramp falls by {percent:g} %. Rolling wheels take "
        f"{100 * ROLLING:.0f} % of the weight. How fast is the aircraft after {way:.0f} {unit}, in kt? Speed in "
        f"{speed} is √(2 × {g} × {measures.name('ft')} × share), with the share of the weight that drives it; 1 kt is "
        f"{knot} {speed}.",
        answer=answer,
        unit="kt",
        tolerance=0.15,
        points=3,
        hint="What drives it is the slope less what the wheels take.",
        worked=(
            f"share: {percent:g} ÷ 100 − {ROLLING} = {net:.3f}",
            f"2 × {g} × {way:.0f} × {net:.3f} = {square:.{digits}f}, and its root is {np.sqrt(square):.2f} {speed}",
            f"{np.sqrt(square):.2f} ÷ {knot} = {np.sqrt(square) / knot:.1f} kt",
        ),
        wrong=[
            (by_slope, "forgot the wheels", "That is without rolling resistance. Take the wheels' share off."),
            (
                measures.value(answer * KNOT_M_S / FOOT_M, "ft"),
                f"{speed} for kt",
                f"That is in {speed}; 1 kt is {knot} {speed}.",
            ),
            (square / knot, "no root", "That is the square of the speed. Take the root first."),
        ],
    )
