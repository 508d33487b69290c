"""Questions without a sum: the order of the steps, and which changes move the CG forward."""

from functools import partial

from walkaround.assessment.builders import choices, order
from walkaround.lessons.loading.questions.givens import ARMS, TANK_ARM
from walkaround.physics.loading import cg_after_change, cg_after_shift

STEPS = (
    ("read", "Gather the numbers: this aircraft's weighing report, people, bags, fuel in the tanks"),
    ("pounds", "Turn fuel volumes into weights"),
    ("moments", "Multiply each weight by its arm"),
    ("sums", "Add up the weights, and add up the moments"),
    ("divide", "Divide the total moment by the total weight"),
    ("compare", "Compare weight and CG with the limits, at take-off and at landing"),
)


def steps(v):
    """Ask for the steps of the computation in order."""
    sums_first = "You add up before you multiply: the moments have to be there before their sum."
    return order(
        "steps",
        "The steps in order",
        "Put the steps of the computation in the order in which you can do them.",
        steps=STEPS,
        shown=v.shuffled("steps", STEPS),
        points=2,
        hint="You can't add moments before you have them, and you can't compare what you have not worked out.",
        wrong=[(("read", "pounds", "sums", "moments", "divide", "compare"), "summed before multiplying", sums_first)],
    )


def moves(v):
    """Ask which of several changes move the CG forward."""
    weight = v.number("moves weight", 2200, 2550, 10)
    # Ahead of the tanks or behind them, ahead of the front seats or behind: never so near that it can't be told.
    cg = v.pick("moves cg", (102.4, 102.9, 104.7, 105.2, 107.2, 107.9, 108.6, 109.3))
    more, fewer = v.number("more in front", 20, 60, 5), v.number("off the rear", 60, 100, 5)
    bag = v.number("bag", 15, 25, 5)
    front, rear, hold = (ARMS[name] for name in ("front seats", "rear seats", "hold A"))
    added, shifted = partial(cg_after_change, weight, cg), partial(cg_after_shift, weight, cg)
    rows = (
        ("front", f"{more:.0f} lb more on the front seats (at {front:.1f} in)", added(more, front)),
        ("rear", f"{fewer:.0f} lb fewer on the rear seats (at {rear:.1f} in)", added(-fewer, rear)),
        ("bag forward", f"a bag of {bag:.0f} lb moved from hold A to the rear seats", shifted(bag, hold, rear)),
        ("bag added", f"{bag:.0f} lb more in hold A (at {hold:.1f} in)", added(bag, hold)),
        ("fuel burnt", f"60 lb of fuel burnt from tanks at {TANK_ARM:.1f} in", added(-60, TANK_ARM)),
    )
    forward = {key for key, _, after in rows if after < cg}
    turned_round = "Those are the ones that move it aft: you have every direction turned round."
    return choices(
        "moves",
        "What moves the CG forward",
        f"Another flight, with the CG at {cg:.1f} in and {weight:,.0f} lb in all: which of these move the CG forward? "
        "Choose all that do.",
        answer=forward,
        options=v.shuffled("moves", [(key, text) for key, text, _ in rows]),
        points=3,
        hint="Adding ahead of the CG moves it forward. Taking away from behind the CG moves it forward too.",
        worked=[f"{text}: CG {cg:.2f} in, {'forward' if key in forward else 'aft'}" for key, text, cg in rows],
        wrong=[({key for key, _, _ in rows} - forward, "every direction turned round", turned_round)],
    )
