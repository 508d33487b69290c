"""Questions without a sum: the order of the steps, and which changes move the CG forward."""

from functools import partial

from walkaround import measures
from walkaround.assessment.builders import choices, order
from walkaround.lessons.loading.questions.givens import arms, told, told_arm, words
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
    weight = told(v.number("moves weight", 2200, 2550, 10))
    # Ahead of the tanks or behind them, ahead of the front seats or behind: never so near that it can't be told.
    cg = told_arm(v.pick("moves cg", (102.4, 102.9, 104.7, 105.2, 107.2, 107.9, 108.6, 109.3)))
    more, fewer = told(v.number("more in front", 20, 60, 5)), told(v.number("off the rear", 60, 100, 5))
    bag, burnt, at, inches = told(v.number("bag", 15, 25, 5)), told(60), arms(), measures.unit("arm")
    front, rear, hold, tanks = (at[name] for name in ("front seats", "rear seats", "hold A", "tanks"))
    decimals = measures.places("arm", 2)
    added, shifted = partial(cg_after_change, weight, cg), partial(cg_after_shift, weight, cg)
    rows = (
        ("front", f"{words(more, 'lb')} more on the front seats (at {words(front, 'arm')})", added(more, front)),
        ("rear", f"{words(fewer, 'lb')} fewer on the rear seats (at {words(rear, 'arm')})", added(-fewer, rear)),
        ("bag forward", f"a bag of {words(bag, 'lb')} moved from hold A to the rear seats", shifted(bag, hold, rear)),
        ("bag added", f"{words(bag, 'lb')} more in hold A (at {words(hold, 'arm')})", added(bag, hold)),
        ("fuel burnt", f"{words(burnt, 'lb')} of fuel burnt from tanks at {words(tanks, 'arm')}", added(-burnt, tanks)),
    )
    forward = {key for key, _, after in rows if after < cg}
    turned_round = "Those are the ones that move it aft: you have every direction turned round."
    return choices(
        "moves",
        "What moves the CG forward",
        f"Another flight, with the CG at {words(cg, 'arm')} and {words(weight, 'lb')} in all: which of these move the "
        "CG forward? Choose all that do.",
        answer=forward,
        options=v.shuffled("moves", [(key, text) for key, text, _ in rows]),
        points=3,
        hint="Adding ahead of the CG moves it forward. Taking away from behind the CG moves it forward too.",
        worked=[
            f"{text}: CG {after:.{decimals}f} {inches}, {'forward' if key in forward else 'aft'}"
            for key, text, after in rows
        ],
        wrong=[({key for key, _, _ in rows} - forward, "every direction turned round", turned_round)],
    )
