"""Questions on oil: the dipstick, what to add, what a flight needs, what an engine may burn, and how thick oil is."""

from functools import cache

from walkaround import measures
from walkaround.assessment.builders import number
from walkaround.physics import oil
from walkaround.units import HORSEPOWER_W, POUND_KG, US_QUART_L

TABLE_C = (-20, -16, -14, -12, -10, -8, 0, 10, 40, 100)


def questions(v, section):
    """Questions on the oil of an engine (`aircraft.engine.EngineSection`) with a dipstick in quarts."""
    engine_oil = section.oil
    return (_dipstick(v, engine_oil), _litres(v, engine_oil), _least(v, engine_oil), _greatest(v), _thicker(v, section))


def _quantity(quarts):
    """A quantity as it is shown: in hundredths of a litre, or sums would come to something else than in quarts."""
    return measures.given(quarts, "qt", metric=2)


def _dipstick(v, engine_oil):
    marks = [measures.given(m, "tape", metric=1) for m in engine_oil.dipstick_marks]
    quantities = [_quantity(q) for q in engine_oil.dipstick_quantities]
    lower, part = v.pick("dipstick between", (1, 2)), v.pick("dipstick part", (0.25, 0.5, 0.75))
    low, high, less, more = *marks[lower : lower + 2], *quantities[lower : lower + 2]
    digits = measures.places("tape", 3, 1)
    reading = round(low + part * (high - low), digits)
    share = round((reading - low) / (high - low), 3)
    between = "" if more - less == 1 else f" × {more - less:g}"
    qt, quarts, inch, inches = (f(of) for of in ("qt", "tape") for f in (measures.unit, measures.name))
    answer = float(oil.from_dipstick(reading, marks, quantities))
    rows = ((f"{m:.1f} {inch}", f"{q:g} {qt}") for m, q in zip(marks, quantities, strict=True))
    how_far = f"That is how far up the stick is wet. The table turns it into {quarts}."
    from_upper = "You counted down from the upper mark. Begin at the lower one."
    return number(
        "dipstick",
        "Read the dipstick",
        f"The dipstick, wiped and dipped again on level ground, is wet up to {reading:g} {inch}. The table says what "
        "its marks stand for. How much oil is in the sump?",
        answer=answer,
        unit=qt,
        tolerance=measures.given(0.06, "qt", metric=3),
        points=2,
        table=(("mark", "oil"), *rows),
        hint="Between two marks take a straight line: how far is the film from the lower mark to the upper one?",
        worked=(
            f"({reading:g} − {low:.1f}) ÷ ({high:.1f} − {low:.1f}) = {share:g} of the way",
            f"{less:g} + {share:g}{between} = {answer:.2f} {qt}",
        ),
        wrong=[
            (reading, f"{inches} for {quarts}", how_far),
            # Half-way between the marks it makes no difference.
            None if part == 0.5 else (more - share * (more - less), "counted from the upper mark", from_upper),
            (float(less), "lower mark taken", "That is the lower mark; the film is above it."),
            (float(more), "upper mark taken", "That is the upper mark; the film does not reach it."),
        ],
    )


def _litres(v, engine_oil):
    have, wanted = v.number("have", 5.0, 5.75, 0.25), engine_oil.usual
    quarts = float(oil.to_add(have, wanted, engine_oil.full))
    answer = quarts * US_QUART_L
    divided = "You divided. A quart is less than a litre, so there are fewer litres than quarts."
    whole = "That would be all of it. Some is in the sump already."
    mixed = "You took litres from quarts. Turn the difference into litres, or both first."
    return number(
        "litres",
        "Oil to add, from litre bottles",
        f"There are {have:g} US quarts in the sump, and you want {wanted:g}. The shelf holds bottles marked in litres. "
        f"How many litres do you add? A US quart is {US_QUART_L:.3f} L.",
        answer=answer,
        unit="L",
        tolerance=0.02,
        points=2,
        hint="How many quarts are missing? Then quarts to litres.",
        worked=(f"{wanted:g} − {have:g} = {quarts:g} qt", f"{quarts:g} × {US_QUART_L:.3f} = {answer:.2f} L"),
        wrong=[
            (quarts, "quart for litre", "That is in quarts. A US quart is a little less than a litre."),
            (quarts / US_QUART_L, "turned the quart round", divided),
            (wanted * US_QUART_L, "forgot what is in the sump", whole),
            (float(wanted - have * US_QUART_L), "quarts less litres", mixed),
        ],
    )


def _least(v, engine_oil):
    rate, margin = v.number("rate", 0.2, 0.45, 0.05), v.pick("margin", (0.5, 1.0))
    hours, minutes = v.number("hours", 2, 4), v.pick("minutes aloft", (15, 30, 45))
    minimum, aloft, qt = _quantity(engine_oil.minimum), hours + minutes / 60, measures.unit("qt")
    rate, margin = measures.given(rate, "qt/h", metric=3), _quantity(margin)
    burnt, answer = rate * aloft, float(oil.least_for_flight(minimum, rate, aloft, margin))
    no_minimum = "You left out what has to be in the sump when you land."
    one_hour = "You counted one hour's burn. The flight is longer."
    return number(
        "least",
        "The least oil for this flight",
        f"The engine may not run with less than {minimum:g} {qt}. It burns {rate:g} {qt} an hour. The flight "
        f"takes {hours:.0f} h {minutes} min, and you keep a margin of {margin:g} {qt}. What is the least to take "
        "off with?",
        answer=answer,
        unit=qt,
        tolerance=measures.given(0.02, "qt", metric=3),
        points=3,
        hint="Minimum, and what is burnt on the way, and the margin. Minutes are sixtieths of an hour.",
        worked=(
            f"burnt: {rate:g} × {aloft:g} h = {burnt:g} {qt}",
            f"{minimum:g} + {burnt:g} + {margin:g} = {answer:.2f} {qt}",
        ),
        wrong=[
            (answer - margin, "forgot the margin", "You left out the margin."),
            (answer - minimum, "forgot the minimum", no_minimum),
            (minimum + margin, "forgot what is burnt", "You left out what the engine burns on the way."),
            (float(minimum + rate + margin), "burnt in one hour only", one_hour),
        ],
    )


def _greatest(v):
    horsepower = v.number("horsepower", 100, 260, 20)
    # Gallons of four quarts have no counterpart in metric units, so the steps are others.
    told = _greatest_in_litres(horsepower) if measures.chosen() == measures.METRIC else _greatest_in_quarts(horsepower)
    rule, fields = "A rule of thumb among mechanics: an engine may burn up to", {"points": 3, **told}
    return number("greatest", "How much it may burn", f"{rule} {fields.pop('rest')}", **fields)


def _greatest_in_quarts(horsepower):
    answer, pounds = float(oil.greatest_consumption_qt_per_h(horsepower)), 0.006 * horsepower
    in_pounds = "That is in pounds an hour. Turn pounds into gallons, and gallons into quarts."
    upside_down = "You multiplied by the density and divided by the quarts: it is the other way round."
    return {
        "rest": f"0.006 lb of oil an hour for each horsepower. How many US quarts an hour is that for {horsepower:.0f} "
        f"hp? Oil weighs {oil.LB_PER_US_GALLON:g} lb to the US gallon, and a gallon is 4 quarts.",
        "answer": answer,
        "unit": "qt/h",
        "tolerance": 0.015,
        "hint": "Pounds an hour first, then gallons, then quarts.",
        "worked": (
            f"0.006 × {horsepower:.0f} = {pounds:.2f} lb/h",
            f"{pounds:.2f} ÷ {oil.LB_PER_US_GALLON:g} × 4 = {answer:.2f} qt/h; the engine maker's limit comes first",
        ),
        "wrong": [
            (pounds, "pounds for quarts", in_pounds),
            (answer / 4, "gallons for quarts", "That is in gallons an hour; a gallon is 4 quarts."),
            (pounds * oil.LB_PER_US_GALLON / 4, "density the wrong way round", upside_down),
        ],
    }


def _greatest_in_litres(horsepower):
    kilowatts, grams = measures.given(horsepower, "hp"), round(0.006 * 1e6 * POUND_KG / HORSEPOWER_W, 2)
    density = measures.given(oil.LB_PER_US_GALLON, "lb/US gal", 1)
    kilograms = grams * kilowatts / 1e3
    answer = kilograms / density
    in_kilograms = "That is in kilograms an hour. A litre of oil weighs less than a kilogram."
    upside_down = "You multiplied by the density. A kilogram of oil is more than a litre: divide by it."
    return {
        "rest": f"{grams:g} g of oil an hour for each kilowatt. How many litres an hour is that for {kilowatts:.0f} "
        f"kW? Oil weighs {density:g} kg to the litre.",
        "answer": answer,
        "unit": "L/h",
        "tolerance": 0.014,
        "hint": "Grams an hour first, then kilograms, then litres.",
        "worked": (
            f"{grams:g} × {kilowatts:.0f} ÷ 1,000 = {kilograms:g} kg/h",
            f"{kilograms:g} ÷ {density:g} = {answer:.2f} L/h; the engine maker's limit comes first",
        ),
        "wrong": [
            (kilograms, "kilograms for litres", in_kilograms),
            (1e3 * kilograms, "grams for litres", "That is in grams an hour."),
            (kilograms * density, "density the wrong way round", upside_down),
        ],
    }


@cache
def _thickness(at_40_mm2_s, at_100_mm2_s):
    """Kinematic viscosities in mm²/s by temperature in °C, to three digits as a data sheet gives them."""
    thickness = oil.viscosity_mm2_s(TABLE_C, at_40_mm2_s, at_100_mm2_s).tolist()
    return {c: float(f"{nu:.3g}") for c, nu in zip(TABLE_C, thickness, strict=True)}


def _thicker(v, section):
    ready, cold = round(section.ready_oil_c), v.pick("thick at", (-20, -16, -14, -12, -10))
    nu = _thickness(section.oil.viscosity_40_mm2_s, section.oil.viscosity_100_mm2_s)
    answer = nu[cold] / nu[ready]
    rows = ((f"{c} °C".replace("-", "−"), f"{n:,.4g}" if n < 1000 else f"{n:,.0f}") for c, n in nu.items())
    text = (
        f"The table gives this oil's kinematic viscosity. How many times thicker is it at {cold} °C than at "
        f"{ready} °C, where it is ready?"
    )
    return number(
        "thicker",
        "How many times thicker",
        text.replace(" -", " −"),
        answer=answer,
        unit="times",
        tolerance=0.3,
        points=2,
        table=(("oil at", "mm²/s"), *rows),
        hint="Divide one viscosity by the other.",
        worked=f"{nu[cold]:,.0f} ÷ {nu[ready]:,.0f} = {answer:.1f} times",
        wrong=[
            (1 / answer, "turned round", "You divided the thin by the thick: that is how many times thinner."),
            (nu[cold] / nu[40], "compared with 40 °C", f"You compared with 40 °C. The oil is ready at {ready} °C."),
            (nu[cold] - nu[ready], "difference for ratio", "That is a difference in mm²/s. How many times is a ratio."),
        ],
    )
