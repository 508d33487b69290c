"""Questions on the pull: a slope, a brake that was left on, and an aircraft that rolls away."""

import numpy as np

from walkaround.assessment.builders import choice, number
from walkaround.lessons.towing.questions.scenario import LOCKED, ROLLING, facts
from walkaround.physics.towing import rolls_to_m_s
from walkaround.units import FOOT_M, GRAVITY_M_S2, KNOT_M_S

G_FT_S2 = round(GRAVITY_M_S2 / FOOT_M, 1)
KNOT_FT_S = round(KNOT_M_S / FOOT_M, 2)


def questions(v, g):
    """Questions on the pull for a student's draws `v` and `Givens` `g`."""
    return _slope(v, g), _brake(v, g), _breaks(v, g), _away(v)


def _slope(v, g):
    percent = v.number("slope", 2.5, 6, 0.5)
    up, rolls = g.weight * percent / 100, g.weight * ROLLING
    answer = up + rolls
    return number(
        "slope",
        "Up the slope",
        f"The ramp rises by {percent:g} % towards the hangar. Rolling wheels take {100 * ROLLING:.0f} % of the weight "
        "on tarmac (a rule of thumb). What pull keeps the aircraft rolling uphill, in lb? On so small a slope, the "
        "part of the weight that acts down it is the same share as the slope.",
        answer=answer,
        unit="lb",
        tolerance=2,
        points=2,
        table=facts(g),
        hint="Two things are pulled against: the slope takes its share of the weight, and the wheels take theirs.",
        worked=(
            f"slope: {g.weight:,} × {percent:g} ÷ 100 = {up:.0f} lb",
            f"wheels: {g.weight:,} × {ROLLING} = {rolls:.0f} lb",
            f"{g.weight:,} × ({percent:g} ÷ 100 + {ROLLING}) = {answer:.0f} lb",
        ),
        wrong=[
            (up, "forgot the wheels", "That is the slope alone. Rolling wheels take their share too."),
            (rolls, "forgot the slope", "That is what it takes on the level. The ramp rises."),
            (up - rolls, "took the wheels off", "That is what holds it on the way down. Uphill both pull back."),
        ],
    )


def _mains_lb(v, g):
    """What the main wheels carry in pounds: a round share of the weight."""
    return 10 * round(v.number("mains", 0.70, 0.80, 0.01) * g.weight / 10)


def _brake(v, g):
    mains = _mains_lb(v, g)
    answer = LOCKED * mains
    return number(
        "brake",
        "The brake is still on",
        f"Someone pulls, and the parking brake is still on. The main wheels carry {mains:,} lb and are locked; on "
        f"dry tarmac they slide only when the pull reaches {100 * LOCKED:.0f} % of that. At what pull do they slide, "
        "in lb? Leave out the nose wheel, which rolls.",
        answer=answer,
        unit="lb",
        tolerance=5,
        points=2,
        table=facts(g),
        hint="Only the wheels that are locked count, with the weight that they carry.",
        worked=(f"{mains:,} × {LOCKED} = {answer:,.0f} lb", f"the nose leg is good for {g.leg_lb} lb"),
        wrong=[
            (LOCKED * g.weight, "the whole weight", "The nose wheel has no brake. Only the main wheels are locked."),
            (LOCKED * (g.weight - mains), "the nose wheel's load", "That is on the nose wheel, which rolls."),
            (ROLLING * mains, "rolling for locked", "That is for wheels that roll. These are locked."),
        ],
    )


def _breaks(v, g):
    surface, share = v.pick("ground", (("dry tarmac", 0.7), ("wet tarmac", 0.4), ("ice", 0.1)))
    mains = _mains_lb(v, g)
    slides = share * mains
    answer = "breaks" if slides > g.leg_lb else "holds"
    other = "breaks" if answer == "holds" else "holds"
    says = {
        "breaks": f"Locked wheels slide here at {slides:,.0f} lb, which is less than {g.leg_lb} lb.",
        "holds": f"Locked wheels slide here only at {slides:,.0f} lb, which is more than {g.leg_lb} lb.",
    }[other]
    near = abs(slides / g.leg_lb - 1) < 0.05  # what the nose wheel adds would decide it: the numbers are drawn again
    no_brake = "Locked wheels don't roll. They slide, and only when the pull is large enough."
    return choice(
        "breaks",
        "What gives way first",
        f"The brake is on, the ground is {surface}, and locked wheels slide at {100 * share:.0f} % of the {mains:,} lb "
        "that they carry. A tractor pulls harder and harder at the nose wheel. What happens first?",
        answer="too near" if near else answer,
        options=v.shuffled(
            "gives way",
            [
                ("breaks", f"the pull passes {g.leg_lb} lb, what the nose leg is good for, before the wheels slide"),
                ("holds", f"the wheels slide, at less than the {g.leg_lb} lb that the nose leg is good for"),
                ("rolls", "the wheels turn against the brake, at a few per cent of the weight"),
            ],
        ),
        points=1,
        hint="Work out at what pull the wheels slide, and hold it against the nose leg's limit.",
        worked=(
            f"{mains:,} × {share} = {slides:,.0f} lb until they slide",
            f"the leg is good for {g.leg_lb} lb: " + ("it gives way first" if answer == "breaks" else "it holds"),
        ),
        wrong=[(other, "the other way round", says), ("rolls", "the brake forgotten", no_brake)],
    )


def _away(v):
    percent, feet = v.number("away slope", 3.5, 6, 0.5), v.number("away feet", 30, 80, 10)
    answer = float(rolls_to_m_s(feet * FOOT_M, percent, ROLLING)) / KNOT_M_S
    net = percent / 100 - ROLLING
    square = 2 * G_FT_S2 * feet * net
    by_slope = np.sqrt(2 * G_FT_S2 * feet * percent / 100) / KNOT_FT_S
    return number(
        "away",
        "It rolls away",
        f"Nobody is on the brakes, there are no chocks, and the ramp falls by {percent:g} %. Rolling wheels take "
        f"{100 * ROLLING:.0f} % of the weight. How fast is the aircraft after {feet:.0f} ft, in kt? Speed in ft/s is "
        f"√(2 × {G_FT_S2} × feet × share), with the share of the weight that drives it; 1 kt is {KNOT_FT_S} ft/s.",
        answer=answer,
        unit="kt",
        tolerance=0.15,
        points=3,
        hint="What drives it is the slope less what the wheels take.",
        worked=(
            f"share: {percent:g} ÷ 100 − {ROLLING} = {net:.3f}",
            f"2 × {G_FT_S2} × {feet:.0f} × {net:.3f} = {square:.1f}, and its root is {np.sqrt(square):.2f} ft/s",
            f"{np.sqrt(square):.2f} ÷ {KNOT_FT_S} = {np.sqrt(square) / KNOT_FT_S:.1f} kt",
        ),
        wrong=[
            (by_slope, "forgot the wheels", "That is without rolling resistance. Take the wheels' share off."),
            (answer * KNOT_M_S / FOOT_M, "ft/s for kt", f"That is in ft/s; 1 kt is {KNOT_FT_S} ft/s."),
            (square / KNOT_FT_S, "no root", "That is the square of the speed. Take the root first."),
        ],
    )
