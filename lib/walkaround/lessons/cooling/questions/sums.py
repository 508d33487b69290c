"""Sums on heat: how much the air has to take, where heads settle, and what a winter kit does in spring."""

from walkaround.assessment.builders import number
from walkaround.lessons.cooling.words import degrees


def questions(v, g):
    """Questions on heat, for a student's draws `v` and `Givens` `g`."""
    cold, oil_c = v.number("cold", -18, -8), v.number("kit oil", 84, 92)
    return _heat(v, g), _settles(v, g), _kit(v, cold, oil_c), _warmest(g, cold, oil_c)


def _heat(v, g):
    works, heads = v.number("works", 25, 29), v.number("to heads", 15, 18)
    answer = g.shaft_kw / works * heads
    return number(
        "heat",
        "Heat for the air to take",
        f"At take-off power the engine gives {g.shaft_kw} kW to the propeller. That is {works:.0f} % of the heat in "
        f"the fuel that it burns, and {heads:.0f} % of that heat goes into the cylinder heads. How many kW does the "
        "air have to take from the heads?",
        answer=answer,
        unit="kW",
        tolerance=0.012 * answer,
        points=2,
        hint="First all the heat of the fuel: what is 100 %, if the propeller's power is that share of it?",
        worked=(
            f"{g.shaft_kw} ÷ 0.{works:.0f} = {100 * g.shaft_kw / works:.1f} kW of heat in the fuel",
            f"{100 * g.shaft_kw / works:.1f} × 0.{heads:.0f} = {answer:.1f} kW into the heads",
        ),
        wrong=[
            (
                g.shaft_kw * heads / 100,
                "share of the power",
                "That is a share of the propeller's power. The shares are of the fuel's heat.",
            ),
            (
                100 * g.shaft_kw / works,
                "all the heat",
                "That is all the heat of the fuel. What part goes into the heads?",
            ),
            (
                g.shaft_kw * works * heads / 1e4,
                "multiplied",
                "The fuel's heat is more than the power: divide by the share.",
            ),
        ],
    )


def _settles(v, g):
    small = g.shaft_kw < 100
    heat_kw = v.number("heat in", 36, 42) if small else v.number("heat in", 66, 78)
    takes = v.number("takes", 220, 250, 10) if small else v.number("takes", 400, 450, 10)
    outside = v.number("outside", 10, 32)
    rise = 1e3 * heat_kw / takes
    return number(
        "settles",
        "Where the heads settle",
        f"In a climb {heat_kw:.0f} kW flow into the heads. The air takes {takes:.0f} W from them for each °C that they "
        f"are hotter than the outside. It is {outside:.0f} °C outside. At what temperature do the heads settle?",
        answer=outside + rise,
        unit="°C",
        tolerance=1.5,
        points=2,
        hint="They settle where as much heat goes out as comes in. How much hotter than the outside is that?",
        worked=(
            f"{1e3 * heat_kw:,.0f} ÷ {takes:.0f} = {rise:.1f} °C hotter than the outside",
            f"{outside:.0f} + {rise:.1f} = {outside + rise:.1f} °C",
        ),
        wrong=[
            (rise, "outside left out", "That is how much hotter they are than the outside. Add the outside."),
            (rise - outside, "outside taken off", "They are hotter than the outside by that much: add it."),
            (outside + heat_kw / takes, "kW for W", "A kilowatt is 1,000 W."),
        ],
    )


def _kit(v, cold, oil_c):
    spring = v.number("spring", 8, 16)
    answer = oil_c + spring - cold
    return number(
        "kit",
        "The winter kit in spring",
        f"With the winter kit on, the oil settled at {oil_c:.0f} °C in a climb at {degrees(cold)} outside. Nobody took "
        f"it off. At what temperature does the oil settle in the same climb, at {spring:.0f} °C outside?",
        answer=answer,
        unit="°C",
        tolerance=0.6,
        points=2,
        hint="The same heat, the same air: the oil is hotter than the outside by as much as before.",
        worked=(
            f"{oil_c:.0f} − ({cold:.0f}) = {oil_c - cold:.0f} °C hotter than the outside".replace("(-", "(−"),
            f"{spring:.0f} + {oil_c - cold:.0f} = {answer:.0f} °C",
        ),
        wrong=[
            (oil_c + spring, "counted from 0 °C", f"From {degrees(cold)} it got warmer by more than {spring:.0f} °C."),
            (oil_c, "unmoved", "Nothing holds the oil at one temperature: a degree outside is a degree in the oil."),
            (oil_c - spring + cold, "turned round", "It is warmer outside, so the oil is hotter."),
        ],
    )


def _warmest(g, cold, oil_c):
    limit = g.craft.engine.oil_limit_c
    answer = cold + limit - oil_c
    return number(
        "warmest",
        "The day on which it is too much",
        f"The same kit: {oil_c:.0f} °C of oil in a climb at {degrees(cold)} outside. From what temperature outside "
        f"does this climb take the oil to its limit of {limit:.0f} °C?",
        answer=answer,
        unit="°C",
        tolerance=0.6,
        points=2,
        hint="How far is the oil from its limit? The day may get warmer by just that.",
        worked=(
            f"{limit:.0f} − {oil_c:.0f} = {limit - oil_c:.0f} °C are left",
            f"{degrees(cold, '')} + {limit - oil_c:.0f} = {degrees(answer)}",
        ),
        wrong=[
            (limit - oil_c, "counted from 0 °C", f"That is how much is left. It was {degrees(cold)} outside, not 0."),
            (limit - oil_c - cold, "sign lost", f"{degrees(cold)} lies below 0: from there the day gets warmer."),
        ],
    )
