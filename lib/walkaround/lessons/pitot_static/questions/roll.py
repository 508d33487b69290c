"""Questions on the take-off roll with a dead needle: where it should come alive, and what to decide if it doesn't."""

from walkaround import measures
from walkaround.assessment.builders import choice, number
from walkaround.lessons.pitot_static.questions import by_hand
from walkaround.lessons.pitot_static.questions.givens import FT_S_PER_KT
from walkaround.physics.air import takeoff

# Where on the roll, as a share of the distance to the first mark or of the whole roll; the runway in ft.
_CASES = {
    "go on": ("mark", 0.4, 0.6, 1600, 2400),
    "reject": ("mark", 1.15, 1.4, 2000, 2600),
    "late": ("roll", 0.88, 0.96, 1350, 1500),
}


def questions(v, g):
    """Return the four questions (a tuple of `Question`) for a student's draws and `givens.draw`.

    Distances are given and asked for in the unit that is shown, feet or metres.
    """
    roll = takeoff.takeoff_roll(g.roll_ft, g.lift_off_kt)
    return _alive(g), _thin_air(g), _stop(g, roll, takeoff.alive_s(roll, g.first_mark_kt)), _decide(v, g, roll)


def _shown(distance_ft):
    return measures.value(float(distance_ft), "ft")


def _given_roll(g, *altitude_ft):
    """The roll as a student is told it, and a `TakeoffRoll` of that length."""
    told = measures.given(g.roll_ft, "ft")
    return told, takeoff.takeoff_roll(measures.entered(told, "ft"), g.lift_off_kt, *altitude_ft)


def _call(g, roll):
    return float(takeoff.distance_at_ft(roll, takeoff.alive_s(roll, g.first_mark_kt)))


def _tolerance(feet):
    return round(measures.value(feet, "ft"))


def _alive(g):
    rolls, roll = _given_roll(g)
    answer, unit = _shown(_call(g, roll)), measures.unit("ft")
    share = g.first_mark_kt / g.lift_off_kt
    in_proportion = "You took distance in proportion to speed. It goes with the square of the speed."
    took_the_root = "You took the square root; it is the square of the speeds' ratio."
    lifts_off = "That is where the aircraft lifts off. A dead needle has to be noticed long before that."
    wrong = [
        (share * rolls, "distance taken to grow with speed", in_proportion),
        (share**0.5 * rolls, "square root for the square", took_the_root),
        (rolls, "lift-off for the first mark", lifts_off),
    ]
    return number(
        "alive",
        "Where the needle comes alive",
        f"At sea level on a standard day in still air the aircraft lifts off at {g.lift_off_kt:.0f} kt after "
        f"{rolls:,.0f} {unit}, gaining speed evenly. The indicator's first mark is {g.first_mark_kt:.0f} kt. After how "
        f"many {measures.name('ft')} should “airspeed alive” be called?",
        answer=answer,
        unit=unit,
        tolerance=_tolerance(15),
        points=3,
        hint="Distance grows with the square of the speed.",
        worked=f"({g.first_mark_kt:.0f} ÷ {g.lift_off_kt:.0f})² × {rolls:,.0f} {unit} = {answer:.0f} {unit}",
        wrong=wrong,
    )


def _thin_air(g):
    rolls, in_thin_air = _given_roll(g, g.hot_field_ft)
    answer, unit = _shown(in_thin_air.ground_roll_ft), measures.unit("ft")
    ratio_line, ratio = by_hand.density_ratio(g.hot_field_ft)
    divide_twice = "You divided once. Higher true airspeed and weaker pull both count: divide twice."
    wrong = [
        (rolls, "forgot the density", "That is the roll at sea level. Thinner air makes it longer."),
        (rolls / ratio, "density counted once", divide_twice),
        (rolls * ratio**2, "turned round", "You made the roll shorter. In thinner air it is longer."),
    ]
    return number(
        "thin air",
        "The roll in thinner air",
        f"The same aircraft takes off from a field at {g.hot_field_ft:,.0f} ft. In thinner air it must reach a higher "
        "true airspeed, and its engine pulls less: in the lesson's simple model the roll grows as one over the square "
        "of the density ratio. That is the least; the table in the aircraft's handbook may ask for more. How long is "
        f"the roll in this model, in {measures.name('ft')}, before it lifts off?",
        answer=answer,
        unit=unit,
        tolerance=_tolerance(20),
        points=3,
        table=by_hand.air_table(0, g.hot_field_ft),
        hint="Density ratio: density there over density at sea level. Divide by it twice.",
        worked=(
            ratio_line,
            f"{rolls:,.0f} ÷ {ratio:.3f}² = {rolls / ratio**2:,.0f} {unit}",
            *by_hand.last_digit(rolls / ratio**2, answer, unit),
        ),
        wrong=wrong,
    )


def _stop(g, roll, call_s):
    mark, braking, wait, rate = g.first_mark_kt, g.deceleration_kt_s, g.reaction_s, float(roll.acceleration_kt_s)
    answer = _shown(takeoff.rejected(roll, call_s, 1.0, braking, wait).stop_ft)  # however short the runway
    per_kt, unit = _shown(FT_S_PER_KT), measures.unit("ft")
    factor = f"{per_kt:.{measures.places('ft', 3, 4)}f}"
    printed_rate = round(rate, 2)
    top = round(mark + printed_rate * wait, 1)
    rolled, braked = (round(float(factor) * top**2 / (2 * by)) for by in (printed_rate, braking))
    at_once = per_kt * mark**2 / 2 * (1 / rate + 1 / braking)
    wrong = [
        (at_once, "forgot the reaction", f"You braked at once. For {wait:.0f} s the aircraft goes on gaining speed."),
        (braked, "braking alone", "That is only the braking; the aircraft has rolled a long way before that."),
        (rolled, "forgot the braking", "That is where the brakes bite; the aircraft still has to stop."),
        (answer / per_kt, f"knots taken for {unit}/s", f"A knot is {factor} {unit}/s: the factor is missing."),
    ]
    return number(
        "stop",
        "Rejected at the call",
        f"On the roll at sea level the aircraft gains {rate:.2f} kt each second. When the needle should show "
        f"{mark:.0f} kt it stands at zero, and the pilot rejects the take-off. For {wait:.0f} s the aircraft still "
        f"gains speed; then the brakes take off {braking:.0f} kt each second. How far from brakes off does it stop?",
        answer=answer,
        unit=unit,
        tolerance=_tolerance(25),
        points=4,
        hint="Greatest speed first. Then two distances of the form speed² ÷ (2 × change of speed a second), "
        f"in {unit} by {factor} {unit}/s to the knot.",
        worked=(
            f"greatest speed {mark:.0f} + {wait:.0f} × {rate:.2f} = {top:.1f} kt",
            f"gaining it: {factor} × {top:.1f}² ÷ (2 × {rate:.2f}) = {rolled:,} {unit}",
            f"losing it: {factor} × {top:.1f}² ÷ (2 × {braking:.0f}) = {braked:,} {unit}",
            f"together {rolled:,} + {braked:,} = {rolled + braked:,} {unit}",
            *by_hand.last_digit(rolled + braked, answer, unit),
        ),
        wrong=wrong,
    )


def _decide(v, g, roll):
    call_ft = _call(g, roll)
    case = v.pick("decide", tuple(_CASES))
    of, low, high, least, most = _CASES[case]
    here_ft = 10 * round((call_ft if of == "mark" else g.roll_ft) * v.number("decide share", low, high, 0.02) / 10)
    runway_ft = v.number("decide runway", least, most, 50)
    here_s = (2 * here_ft / (float(roll.acceleration_kt_s) * FT_S_PER_KT)) ** 0.5
    stop_ft = float(takeoff.rejected(roll, here_s, runway_ft, g.deceleration_kt_s, g.reaction_s).stop_ft)
    answer = "go on" if here_ft < call_ft else "reject" if stop_ft <= runway_ft else "late"
    if abs(here_ft - call_ft) < 60 or abs(stop_ft - runway_ft) < 100 or g.roll_ft > runway_ft or answer != case:
        answer = "unclear"  # a question of rounding: drawn again
    rolls, told_roll = _given_roll(g)
    here, runway = (round(measures.given(feet, "ft")) for feet in (here_ft, runway_ft))
    more, call, unit = round(_shown(stop_ft) - here), _shown(_call(g, told_roll)), measures.unit("ft")
    options = (
        ("go on", "Go on for now: the needle is not due yet"),
        ("reject", "Reject: the needle is overdue, and the runway is long enough to stop"),
        ("late", "Too late to stop on the runway: go on by attitude and power, as the aircraft's handbook says"),
    )
    compare = "Compare where you are with where the needle is due, and what it takes to stop with what is left."
    wrong = (
        ("go on", "dead needle accepted", "The needle is overdue by here: work out where the first mark falls."),
        ("reject", "rejected before the needle was due" if case == "go on" else "runway misjudged", compare),
        ("late", "runway misjudged", "What it takes to stop from here still fits on the runway."),
    )
    return choice(
        "decide",
        "Decide on the roll",
        f"Sea level again, lift-off at {g.lift_off_kt:.0f} kt after {rolls:,.0f} {unit}, the first mark at "
        f"{g.first_mark_kt:.0f} kt. {here:,} {unit} of {runway:,} {unit} of runway lie behind you, engine and "
        "acceleration are as usual, and the needle is on zero. From here the aircraft would need "
        f"{more:,} {unit} more to stop, your reaction included. What now?",
        answer=answer,
        options=v.shuffled("decide options", options),
        points=3,
        hint="Should the needle be alive by here? If so, is what is left of the runway enough to stop on?",
        worked=(
            f"the first mark is due after {call:,.0f} {unit}, and {here:,} {unit} are behind you",
            f"stopping from here ends at {here:,} + {more:,} = {here + more:,} {unit} of {runway:,} {unit}",
            dict(options)[case],
        ),
        wrong=[row for row in wrong if row[0] != answer],
    )
