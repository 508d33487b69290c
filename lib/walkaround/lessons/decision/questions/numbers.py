"""The numbers of the flight: take-off weight, balance, fuel, oil and runway."""

from walkaround.assessment.builders import number
from walkaround.lessons.decision.flight import (
    OIL_MARGIN,
    RUNWAY_FACTOR,
    cg_limits,
    craft,
    density,
    fuel_needed,
    oil_needed,
    oil_quarts,
    runway_needed,
    sheet,
)
from walkaround.lessons.decision.words import RULE, arms, number_of, stick
from walkaround.physics.fuel.order import RESERVE_MIN


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
    return _number(
        "take-off",
        "Take-off weight",
        f"What does the aircraft weigh at take-off, in lb? {taxi:g} US gal of the fuel aboard is burnt before that.",
        answer=answer,
        unit="lb",
        tolerance=2,
        points=2,
        table=arms(),
        hint="Empty, everyone and everything in the cabin and the holds, and the fuel that is left after taxi.",
        worked=f"{empty:,.0f} + {cabin} + {per_gal:g} × ({f.fuel:g} − {taxi:g}) = {answer:,.0f} lb",
        wrong=[
            (answer + per_gal * taxi, "forgot taxi", "Taxi fuel is gone at take-off."),
            (empty + cabin + f.fuel - taxi, "gallons for pounds", "A US gallon weighs 6 lb."),
            (empty + cabin, "forgot fuel", "Fuel has weight too."),
        ],
    )


def _landing(f):
    four = craft()
    answer = float(sheet(f).condition("landing").weight)
    take_off = float(sheet(f).condition("take-off").weight)
    per_hour, per_gal = four.fuel_system.per_hour, four.fuel.density
    burnt = f.hours * per_hour
    return _number(
        "landing",
        "Landing weight",
        f"And at landing, in lb? It burns {per_hour:g} US gal an hour.",
        answer=answer,
        unit="lb",
        tolerance=2,
        points=1,
        table=arms(),
        hint="What was burnt on the way is gone.",
        worked=f"{take_off:,.0f} − {f.hours:g} × {per_hour:g} × {per_gal:g} = {answer:,.0f} lb",
        wrong=[
            (take_off - burnt, "gallons for pounds", "A US gallon weighs 6 lb."),
            (take_off - per_hour * per_gal, "one hour", f"The flight lasts {f.hours:g} h."),
            (take_off, "as at take-off", "Fuel is burnt on the way."),
        ],
    )


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
    weight, moment = float(there.weight), float(there.moment)
    return _number(
        "cg",
        "Balance at take-off",
        "Where is the centre of gravity at take-off, in inches aft of the datum?",
        answer=answer,
        unit="in",
        tolerance=0.1,
        points=3,
        table=arms(),
        hint="Weight times arm for each item, all added up, and divided by the weight.",
        worked=(
            " + ".join(f"{w:,.0f} × {arm:g}" for w, arm in [*loads, (fuel, tank.arm)] if w) + f" = {moment:,.0f} lb in",
            f"{moment:,.0f} ÷ {weight:,.0f} = {answer:.1f} in; the limits are {forward:.1f} and {aft:.1f} in",
        ),
        wrong=[
            (without / weight, "forgot the fuel's moment", "The fuel has a moment too, not only a weight."),
            (moment / zero, "forgot the fuel's weight", "Divide by the whole weight, with fuel."),
            ((moment - holds) / weight, "forgot the holds' moment", "What lies in the holds has a moment too."),
            ((moment - holds) / (weight - bags), "left the holds out", "What lies in the holds counts too."),
        ],
    )


def _fuel(f):
    system, answer = craft().fuel_system, fuel_needed(f)
    mine, other = (RESERVE_MIN["night" if night else "day"] for night in (f.night, not f.night))
    return _number(
        "fuel",
        "Fuel that the flight needs",
        f"How much usable fuel does the flight need at start-up, in US gal: {system.taxi:g} to taxi, the flight at "
        f"{system.per_hour:g} an hour, and the reserve, {RESERVE_MIN['day']:g} min by day and "
        f"{RESERVE_MIN['night']:g} min by night?",
        answer=answer,
        unit="US gal",
        tolerance=0.2,
        points=2,
        hint="Minutes are a part of an hour: 30 min take half of what an hour takes.",
        worked=f"{system.taxi:g} + {f.hours:g} × {system.per_hour:g} + {mine:g} ÷ 60 × {system.per_hour:g} "
        f"= {answer:.1f} US gal; {f.fuel:.1f} are aboard",
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
    return _number(
        "oil",
        "Oil in the engine",
        f"The dipstick is wet up to {f.stick:.1f} in. How much oil is in the engine, in qt? Between two marks go by a "
        "straight line.",
        answer=answer,
        unit="qt",
        tolerance=0.08,
        points=2,
        table=stick(),
        hint="How far from the lower mark to the upper one is it?",
        worked=(
            f"{quarts[below]:g} + ({f.stick:.1f} − {low:g}) ÷ ({high:g} − {low:g}) × "
            f"{quarts[below + 1] - quarts[below]:g} = {answer:.1f} qt",
            f"the flight needs {oil.minimum:g} + {f.hours:g} × {f.oil_per_hour:g} + {OIL_MARGIN:g} = "
            f"{oil_needed(f):.1f} qt",
        ),
        wrong=[
            (f.stick, "inches for quarts", "That is how far up it is wet. The table says what that means."),
            (float(quarts[below]), "the mark below", "It is wet above that mark: there is more."),
            (float(quarts[below + 1]), "the mark above", "It does not reach that mark: there is less."),
            (oil_needed(f), "what is needed", "That is what the flight needs, not what is there."),
        ],
    )


def _runway(f):
    four, sigma, wind = craft(), density(f), f.headwind_kt
    standard, lift_off = four.take_off.ground_roll_ft(four.units), four.speeds.lift_off
    true = lift_off / sigma**0.5
    answer = runway_needed(f)
    against = RUNWAY_FACTOR * standard * ((true + wind) / lift_off) ** 2 / sigma
    calm, no_air = RUNWAY_FACTOR * standard / sigma**2, RUNWAY_FACTOR * standard * (1 - wind / lift_off) ** 2
    sign = "−" if wind > 0 else "+"
    return _number(
        "runway",
        "Runway that it needs",
        f"On a standard day at sea level the take-off roll is {standard:,.0f} ft, in still air, and it lifts off at "
        f"{lift_off:g} kt. Today its true airspeed there is {lift_off:g} ÷ √density. Take off the wind from ahead, or "
        f"add the wind from behind: that is its speed over the ground. The roll is {standard:,.0f} × (that ÷ "
        f"{lift_off:g})² ÷ density. {RULE[0].upper()}{RULE[1:]}. How many feet does it need?",
        answer=answer,
        unit="ft",
        tolerance=20,
        points=3,
        hint="Wind from ahead is a gift: the wheels run slower.",
        worked=(
            f"{lift_off:g} ÷ √{sigma:.3f} {sign} {abs(wind)} = {true - wind:.1f} kt over the ground",
            f"{standard:,.0f} × ({true - wind:.1f} ÷ {lift_off:g})² ÷ {sigma:.3f} = {answer / RUNWAY_FACTOR:,.0f} ft",
            f"{RUNWAY_FACTOR:g} × {answer / RUNWAY_FACTOR:,.0f} = {number_of(answer)} ft; {f.runway_ft:,} can be used",
        ),
        wrong=[
            (answer / RUNWAY_FACTOR, "only the roll", f"That is the roll. It takes {RUNWAY_FACTOR:g} times that."),
            (against, "wind the wrong way", "Wind from ahead makes the roll shorter, wind from behind longer."),
            (calm, "forgot the wind", "The wheels run at airspeed less the wind."),
            (no_air, "forgot the air", "The air is not as dense as on a standard day at sea level, or is denser."),
        ],
    )
