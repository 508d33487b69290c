"""The numbers of the flight: take-off weight, balance, fuel, oil and runway."""

from walkaround import measures
from walkaround.assessment.builders import number
from walkaround.lessons.decision.flight import (
    RUNWAY_FACTOR,
    cg_limits,
    craft,
    density,
    fuel_needed,
    oil_margin,
    oil_needed,
    oil_quarts,
    runway_needed,
    sheet,
)
from walkaround.lessons.decision.words import RULE, arms, length, number_of, stick, weight
from walkaround.physics.fuel.order import RESERVE_MIN
from walkaround.physics.loading.words import say


def questions(f):
    """Questions on the numbers of a `Flight`."""
    return _take_off(f), _landing(f), _cg(f), _fuel(f), _oil(f), _runway(f)


def _number(key, title, text, answer, tolerance, wrong, **more):
    """A question with those wrong turns that differ enough from the answer and from each other."""
    apart = []
    for row in wrong:
        if all(abs(row[0] - other) > 2.1 * tolerance for other in (answer, *(turn[0] for turn in apart))):
            apart.append(row)
    return number(key, title, text, answer=answer, tolerance=tolerance, wrong=apart, **more)


def _take_off(f):
    four = craft()
    empty, per_gal, taxi = four.empty.weight, four.fuel.density, four.fuel_system.taxi
    answer = float(sheet(f).condition("take-off").weight)
    cabin = sum(f.stations.values())
    pounds, gallons = four.units.weight, four.units.volume
    return _number(
        "take-off",
        "Take-off weight",
        f"What does the aircraft weigh at take-off, in {pounds}? {taxi:g} {gallons} of the fuel aboard is burnt before "
        "that.",
        answer=answer,
        unit=pounds,
        tolerance=measures.value(2, "lb"),
        points=2,
        table=arms(),
        hint="Empty, everyone and everything in the cabin and the holds, and the fuel that is left after taxi.",
        worked=f"{weight(empty)} + {cabin:.10g} + {per_gal:g} × ({f.fuel:g} − {taxi:g}) = {weight(answer)} {pounds}",
        wrong=[
            (answer + per_gal * taxi, "forgot taxi", "Taxi fuel is gone at take-off."),
            (empty + cabin + f.fuel - taxi, *_taken_as(four)),
            (empty + cabin, "forgot fuel", "Fuel has weight too."),
        ],
    )


def _landing(f):
    four = craft()
    answer = float(sheet(f).condition("landing").weight)
    take_off = float(sheet(f).condition("take-off").weight)
    per_hour, per_gal = four.fuel_system.per_hour, four.fuel.density
    burnt = f.hours * per_hour
    pounds, gallons = four.units.weight, four.units.volume
    # In metric units it is computed with the take-off weight as it is printed.
    printed = answer if pounds == "lb" else round(take_off, 1) - burnt * per_gal
    return _number(
        "landing",
        "Landing weight",
        f"And at landing, in {pounds}? It burns {per_hour:g} {gallons} an hour.",
        answer=answer,
        unit=pounds,
        tolerance=measures.value(2, "lb"),
        points=1,
        table=arms(),
        hint="What was burnt on the way is gone.",
        worked=f"{weight(take_off)} − {f.hours:g} × {per_hour:g} × {per_gal:g} = {weight(printed)} {pounds}",
        wrong=[
            (take_off - burnt, *_taken_as(four)),
            (take_off - per_hour * per_gal, "one hour", f"The flight lasts {f.hours:g} h."),
            (take_off, "as at take-off", "Fuel is burnt on the way."),
        ],
    )


def _taken_as(four):
    """The slip of a volume that was taken for a weight, and what is said to it."""
    gallons, pounds = measures.name("US gal").removeprefix("US "), measures.name("lb")
    weighs = f"{four.fuel.density:g} {four.units.weight}"
    return f"{gallons} for {pounds}", f"A {measures.name('US gal', one=True)} weighs {weighs}."


def _cg(f):
    four, there = craft(), sheet(f).condition("take-off")
    answer, forward, aft = cg_limits(f)
    tank, per_gal = four.fuel.tanks[0], four.fuel.density
    fuel = per_gal * (f.fuel - four.fuel_system.taxi)
    loads = [(four.empty.weight, four.empty.arm), *((w, four.station(n).arm) for n, w in f.stations.items())]
    without = sum(w * arm for w, arm in loads)
    zero = sum(w for w, _ in loads)
    holds = sum(f.stations[n] * four.station(n).arm for n in ("hold A", "hold B"))
    bags = f.hold_a + f.hold_b
    whole, moment = float(there.weight), float(there.moment)
    items = [(w, arm) for w, arm in [*loads, (fuel, tank.arm)] if w]
    unit, printed_cg = four.units.arm, answer
    # Where weights have decimals, it is computed with them as they are printed.
    printed = moment if unit == "in" else round(sum(round(w, 1) * arm for w, arm in items), 1)
    if unit != "in":
        printed_cg = printed / round(whole, 1)
    moments = f"{printed:,.{measures.places('lb', 0, metric=1)}f}"
    in_unit, forward, aft = (say(x, unit) for x in (printed_cg, forward, aft))
    return _number(
        "cg",
        "Balance at take-off",
        f"Where is the centre of gravity at take-off, in {measures.name('arm')} aft of the datum?",
        answer=answer,
        unit=unit,
        tolerance=measures.value(0.1, "arm"),
        points=3,
        table=arms(),
        hint="Weight times arm for each item, all added up, and divided by the weight.",
        worked=(
            " + ".join(f"{weight(w)} × {arm:g}" for w, arm in items)
            + f" = {moments} {four.units.moment.replace('-', ' ')}",
            f"{moments} ÷ {weight(whole)} = {in_unit}; the limits are {forward.split()[0]} and {aft}",
        ),
        wrong=[
            (without / whole, "forgot the fuel's moment", "The fuel has a moment too, not only a weight."),
            (moment / zero, "forgot the fuel's weight", "Divide by the whole weight, with fuel."),
            ((moment - holds) / whole, "forgot the holds' moment", "What lies in the holds has a moment too."),
            ((moment - holds) / (whole - bags), "left the holds out", "What lies in the holds counts too."),
        ],
    )


def _fuel(f):
    system, answer = craft().fuel_system, fuel_needed(f)
    mine, other = (RESERVE_MIN["night" if night else "day"] for night in (f.night, not f.night))
    gallons = craft().units.volume
    return _number(
        "fuel",
        "Fuel that the flight needs",
        f"How much usable fuel does the flight need at start-up, in {gallons}: {system.taxi:g} to taxi, the flight at "
        f"{system.per_hour:g} an hour, and the reserve, {RESERVE_MIN['day']:g} min by day and "
        f"{RESERVE_MIN['night']:g} min by night?",
        answer=answer,
        unit=gallons,
        tolerance=measures.value(0.2, "US gal"),
        points=2,
        hint="Minutes are a part of an hour: 30 min take half of what an hour takes.",
        worked=f"{system.taxi:g} + {f.hours:g} × {system.per_hour:g} + {mine:g} ÷ 60 × {system.per_hour:g} "
        f"= {answer:.1f} {gallons}; {f.fuel:.1f} are aboard",
        wrong=[
            (answer - mine / 60 * system.per_hour, "forgot the reserve", "The reserve is not for the flight."),
            (answer - system.taxi, "forgot taxi", "Taxi takes fuel too."),
            (answer + (other - mine) / 60 * system.per_hour, "the other reserve", "Is it day or night?"),
        ],
    )


def _oil(f):
    oil, answer = craft().engine.oil, oil_quarts(f)
    marks, quarts = oil.dipstick_marks, oil.dipstick_quantities
    below = max(i for i, mark in enumerate(marks[:-1]) if mark <= f.stick)
    low, high = marks[below], marks[below + 1]
    inches, quart = measures.unit("in"), measures.unit("qt")
    decimals, as_oil = measures.places("qt", 1, metric=2), f"{measures.name('in')} for {measures.name('qt')}"
    return _number(
        "oil",
        "Oil in the engine",
        f"The dipstick is wet up to {length(f.stick)} {inches}. How much oil is in the engine, in {quart}? Between two "
        "marks go by a straight line.",
        answer=answer,
        unit=quart,
        tolerance=measures.value(0.08, "qt"),
        points=2,
        table=stick(),
        hint="How far from the lower mark to the upper one is it?",
        worked=(
            f"{quarts[below]:g} + ({length(f.stick)} − {low:g}) ÷ ({high:g} − {low:g}) × "
            f"{quarts[below + 1] - quarts[below]:g} = {answer:.{decimals}f} {quart}",
            f"the flight needs {oil.minimum:g} + {f.hours:g} × {f.oil_per_hour:g} + {oil_margin():g} = "
            f"{oil_needed(f):.{decimals}f} {quart}",
        ),
        wrong=[
            (f.stick, as_oil, "That is how far up it is wet. The table says what that means."),
            (float(quarts[below]), "the mark below", "It is wet above that mark: there is more."),
            (float(quarts[below + 1]), "the mark above", "It does not reach that mark: there is less."),
            (oil_needed(f), "what is needed", "That is what the flight needs, not what is there."),
        ],
    )


def _runway(f):
    four, sigma, wind = craft(), density(f), f.headwind_kt
    standard, lift_off = measures.value(four.take_off.ground_roll_ft(four.units), "ft"), four.speeds.lift_off
    true = lift_off / sigma**0.5
    answer, feet = measures.value(runway_needed(f), "ft"), measures.unit("ft")
    roll = answer / RUNWAY_FACTOR
    there = measures.figures(f.runway_ft, "ft")
    told_roll = f"{roll:,.{measures.places('ft', 0, metric=1)}f}"
    against = RUNWAY_FACTOR * standard * ((true + wind) / lift_off) ** 2 / sigma
    calm, no_air = RUNWAY_FACTOR * standard / sigma**2, RUNWAY_FACTOR * standard * (1 - wind / lift_off) ** 2
    sign = "−" if wind > 0 else "+"
    return _number(
        "runway",
        "Runway that it needs",
        f"On a standard day at sea level the take-off roll is {standard:,.0f} {feet}, in still air, and it lifts off "
        f"at {lift_off:g} kt. Today its true airspeed there is {lift_off:g} ÷ √density. Take off the wind from ahead, "
        f"or add the wind from behind: that is its speed over the ground. The roll is {standard:,.0f} × (that ÷ "
        f"{lift_off:g})² ÷ density. {RULE[0].upper()}{RULE[1:]}. How many {measures.name('ft')} does it need?",
        answer=answer,
        unit=feet,
        tolerance=measures.value(20, "ft"),
        points=3,
        hint="Wind from ahead is a gift: the wheels run slower.",
        worked=(
            f"{lift_off:g} ÷ √{sigma:.3f} {sign} {abs(wind)} = {true - wind:.1f} kt over the ground",
            f"{standard:,.0f} × ({true - wind:.1f} ÷ {lift_off:g})² ÷ {sigma:.3f} = {told_roll} {feet}",
            f"{RUNWAY_FACTOR:g} × {told_roll} = {number_of(answer)} {feet}; {there} can be used",
        ),
        wrong=[
            (roll, "only the roll", f"That is the roll. It takes {RUNWAY_FACTOR:g} times that."),
            (against, "wind the wrong way", "Wind from ahead makes the roll shorter, wind from behind longer."),
            (calm, "forgot the wind", "The wheels run at airspeed less the wind."),
            (no_air, "forgot the air", "The air is not as dense as on a standard day at sea level, or is denser."),
        ],
    )
