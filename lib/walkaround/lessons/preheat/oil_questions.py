"""The questions of the exercise on preheating that are about oil: the dipstick, what to add, what a flight needs, how thick it is."""

from functools import cache

from walkaround.assessment.questions import NUMBER, Question, WrongTurn
from walkaround.physics.oil import quantity as oil
from walkaround.physics.oil.viscosity import viscosity_mm2_s
from walkaround.units import US_QUART_L

TABLE_C = (-20, -16, -14, -12, -10, -8, 0, 10, 40, 100)


def oil_questions(v, section, outside_c):
    """Questions for the oil of an engine (`aircraft.engine.EngineSection`), its dipstick in quarts."""
    return (_dipstick(v, section.oil), _litres(v, section.oil), _least(v, section.oil), _greatest(v), _thicker(v, section))  # fmt: skip


def _dipstick(v, engine_oil):
    marks, quantities = engine_oil.dipstick_marks, engine_oil.dipstick_quantities
    lower = v.pick("dipstick between", (1, 2))
    part = v.pick("dipstick part", (0.25, 0.5, 0.75))
    reading = round(marks[lower] + part * (marks[lower + 1] - marks[lower]), 3)
    answer = float(oil.from_dipstick(reading, marks, quantities))
    rows = tuple((f"{m:.1f} in", f"{q:.0f} qt") for m, q in zip(marks, quantities, strict=True))
    return Question(
        key="dipstick", kind=NUMBER, title="Read the dipstick", points=2, unit="qt", tolerance=0.06,
        text=f"The dipstick, wiped and dipped again on level ground, is wet up to {reading:g} in. The table says what its marks stand for. How much oil is in the sump?",
        answer=answer, table=(("mark", "oil"), *rows),
        hint="Between two marks go straight: how far is the film from the lower mark to the upper one?",
        worked=(
            f"({reading:g} − {marks[lower]:.1f}) ÷ ({marks[lower + 1]:.1f} − {marks[lower]:.1f}) = {part:g} of the way",
            f"{quantities[lower]:.0f} + {part:g} = {answer:.2f} qt",
        ),
        wrong_turns=(
            WrongTurn(reading, "inches for quarts", "That is how far up the stick is wet. The table turns it into quarts."),
            WrongTurn(quantities[lower] + 1 - part, "counted from the upper mark", "You counted down from the upper mark. Begin at the lower one."),
            WrongTurn(float(quantities[lower]), "lower mark taken", "That is the lower mark; the film is above it."),
            WrongTurn(float(quantities[lower + 1]), "upper mark taken", "That is the upper mark; the film does not reach it."),
        ) if part != 0.5 else (
            WrongTurn(reading, "inches for quarts", "That is how far up the stick is wet. The table turns it into quarts."),
            WrongTurn(float(quantities[lower]), "lower mark taken", "That is the lower mark; the film is above it."),
            WrongTurn(float(quantities[lower + 1]), "upper mark taken", "That is the upper mark; the film does not reach it."),
        ),
    )  # fmt: skip


def _litres(v, engine_oil):
    have, wanted = v.number("have", 5.0, 5.75, 0.25), engine_oil.usual
    quarts = float(oil.to_add(have, wanted, engine_oil.full))
    answer = quarts * US_QUART_L
    return Question(
        key="litres", kind=NUMBER, title="Oil to add, from litre bottles", points=2, unit="L", tolerance=0.02,
        text=f"There are {have:g} US quarts in the sump, and you want {wanted:g}. The shelf holds bottles marked in litres. How many litres do you add? A US quart is {US_QUART_L:.3f} L.",
        answer=answer,
        hint="How many quarts are missing? Then quarts to litres.",
        worked=(f"{wanted:g} − {have:g} = {quarts:g} qt", f"{quarts:g} × {US_QUART_L:.3f} = {answer:.2f} L"),
        wrong_turns=(
            WrongTurn(quarts, "quart for litre", "That is in quarts. A US quart is a little less than a litre."),
            WrongTurn(quarts / US_QUART_L, "turned the quart round", "You divided. A quart is less than a litre, so there are fewer litres than quarts."),
            WrongTurn(wanted * US_QUART_L, "forgot what is in the sump", "That would be all of it. Some is in the sump already."),
            WrongTurn(float(wanted - have * US_QUART_L), "quarts less litres", "You took litres from quarts. Turn the difference into litres, or both first."),
        ),
    )  # fmt: skip


def _least(v, engine_oil):
    rate, margin = v.number("rate", 0.2, 0.45, 0.05), v.pick("margin", (0.5, 1.0))
    hours, minutes = v.number("hours", 2, 4), v.pick("minutes aloft", (15, 30, 45))
    minimum, aloft = engine_oil.minimum, hours + minutes / 60
    answer = float(oil.least_for_flight(minimum, rate, aloft, margin))
    return Question(
        key="least", kind=NUMBER, title="The least oil for this flight", points=3, unit="qt", tolerance=0.02,
        text=(
            f"The engine may not run with less than {minimum:g} qt. It burns {rate:g} qt an hour. The flight takes {hours:.0f} h {minutes} min, and you keep a margin of "
            f"{margin:g} qt. What is the least to take off with?"
        ),
        answer=answer,
        hint="Minimum, and what is burnt on the way, and the margin. Minutes are sixtieths of an hour.",
        worked=(f"burnt: {rate:g} × {aloft:g} h = {rate * aloft:.2f} qt", f"{minimum:g} + {rate * aloft:.2f} + {margin:g} = {answer:.2f} qt"),
        wrong_turns=(
            WrongTurn(answer - margin, "forgot the margin", "You left out the margin."),
            WrongTurn(answer - minimum, "forgot the minimum", "You left out what has to be in the sump when you land."),
            WrongTurn(minimum + margin, "forgot what is burnt", "You left out what the engine burns on the way."),
            WrongTurn(float(minimum + rate + margin), "burnt in one hour only", "You counted one hour's burn. The flight is longer."),
        ),
    )  # fmt: skip


def _greatest(v):
    horsepower = v.number("horsepower", 100, 260, 20)
    answer = float(oil.greatest_consumption_qt_per_h(horsepower))
    return Question(
        key="greatest", kind=NUMBER, title="How much it may burn", points=3, unit="qt/h", tolerance=0.015,
        text=(
            f"A rule of thumb among mechanics: an engine may burn up to 0.006 lb of oil an hour for each horsepower. How many US quarts an hour is that for {horsepower:.0f} hp? "
            "Oil weighs 7.4 lb to the US gallon, and a gallon is 4 quarts."
        ),
        answer=answer,
        hint="Pounds an hour first, then gallons, then quarts.",
        worked=(f"0.006 × {horsepower:.0f} = {0.006 * horsepower:.2f} lb/h", f"÷ 7.4 × 4 = {answer:.2f} qt/h (the engine maker's own limit comes first)"),
        wrong_turns=(
            WrongTurn(0.006 * horsepower, "pounds for quarts", "That is in pounds an hour. Turn pounds into gallons, and gallons into quarts."),
            WrongTurn(answer / 4, "gallons for quarts", "That is in gallons an hour; a gallon is 4 quarts."),
            WrongTurn(0.006 * horsepower * 7.4 / 4, "density the wrong way round", "You multiplied by the density and divided by the quarts: it is the other way round."),
        ),
    )  # fmt: skip


@cache
def _thickness(at_40_mm2_s, at_100_mm2_s):
    """Kinematic viscosities at TABLE_C, to three digits as a data sheet gives them."""
    return {c: float(f"{nu:.3g}") for c, nu in zip(TABLE_C, viscosity_mm2_s(TABLE_C, at_40_mm2_s, at_100_mm2_s).tolist(), strict=True)}  # fmt: skip


def _thicker(v, section):
    ready, cold = round(section.ready_oil_c), v.pick("thick at", (-20, -16, -14, -12, -10))
    nu = _thickness(section.oil.viscosity_40_mm2_s, section.oil.viscosity_100_mm2_s)
    answer = nu[cold] / nu[ready]
    rows = tuple((f"{c} °C".replace("-", "−"), f"{n:,.4g}" if n < 1000 else f"{n:,.0f}") for c, n in nu.items())
    return Question(
        key="thicker", kind=NUMBER, title="How many times thicker", points=2, unit="times", tolerance=0.3,
        text=f"The table gives this oil's kinematic viscosity. How many times thicker is it at {cold} °C than at {ready} °C, where it is ready?".replace(" -", " −"),
        answer=answer, table=(("oil at", "mm²/s"), *rows),
        hint="Divide one viscosity by the other.",
        worked=(f"{nu[cold]:,.0f} ÷ {nu[ready]:,.0f} = {answer:.1f} times",),
        wrong_turns=(
            WrongTurn(1 / answer, "turned round", "You divided the thin by the thick: that is how many times thinner."),
            WrongTurn(nu[cold] / nu[40], "compared with 40 °C", f"You compared with 40 °C. The oil is ready at {ready} °C."),
            WrongTurn(nu[cold] - nu[ready], "difference for ratio", "That is the difference in mm²/s. How many times is a ratio."),
        ),
    )  # fmt: skip
