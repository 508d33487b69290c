"""Questions on the take-off roll with a dead needle: where it should come alive, and what to decide when it does not."""

from walkaround.assessment.questions import CHOICE, NUMBER, Question, WrongTurn
from walkaround.lessons.pitot_static.standard_air import DENSITY_KG_M3, air_table
from walkaround.physics.air import atmosphere
from walkaround.physics.air import takeoff as takeoff_roll
from walkaround.units import FOOT_M, KNOT_M_S

FT_S_PER_KT = KNOT_M_S / FOOT_M

CASES = {  # where on the roll, as a share of the distance to the first mark or of the roll; the runway in ft
    "go on": ("mark", 0.4, 0.6, 1600, 2400), "reject": ("mark", 1.15, 1.4, 2000, 2600), "late": ("roll", 0.88, 0.96, 1350, 1500),
}  # fmt: skip


def questions(v, g):
    """Return the four questions (a tuple of `Question`) for a student's draws and `pitot_static.Givens`."""
    # The same roll at sea level twice, for two moments at which it may be rejected, and once in thinner air.
    rolls = takeoff_roll.takeoff_roll(g.roll_ft, g.lift_off_kt, [0.0, 0.0, g.hot_field_ft])
    rate, mark = float(rolls.acceleration_kt_s[0]), g.first_mark_kt
    alive_s = takeoff_roll.alive_s(rolls, mark)
    call_s = float(alive_s[0])
    call_ft = float(takeoff_roll.distance_at_ft(rolls, alive_s)[0])
    case = v.pick("decide", tuple(CASES))
    of, low, high, least, most = CASES[case]
    here_ft = 10 * round((call_ft if of == "mark" else g.roll_ft) * v.number("decide share", low, high, 0.02) / 10)
    runway_ft = v.number("decide runway", least, most, 50)
    here_s = (2 * here_ft / (rate * FT_S_PER_KT)) ** 0.5
    stops = takeoff_roll.rejected(rolls, [call_s, here_s, call_s], runway_ft, g.deceleration_kt_s, g.reaction_s)
    return (
        _alive(g, call_ft), _thin_air(g, float(rolls.ground_roll_ft[2])), _stop(g, rate, float(stops.stop_ft[0])),
        _decide(v, g, case, here_ft, runway_ft, call_ft, float(stops.stop_ft[1])),
    )  # fmt: skip


def _alive(g, answer):
    share = g.first_mark_kt / g.lift_off_kt
    return Question(
        key="alive", kind=NUMBER, title="Where the needle comes alive", points=3, unit="ft", tolerance=15,
        text=(
            f"At sea level on a standard day in still air the aircraft lifts off at {g.lift_off_kt:.0f} kt after {g.roll_ft:,.0f} ft, gaining speed evenly. "
            f"The indicator's first mark is {g.first_mark_kt:.0f} kt. After how many feet should “airspeed alive” be called?"
        ),
        answer=answer,
        hint="Distance grows with the square of the speed.",
        worked=(f"({g.first_mark_kt:.0f} ÷ {g.lift_off_kt:.0f})² × {g.roll_ft:,.0f} ft = {answer:.0f} ft",),
        wrong_turns=(
            WrongTurn(share * g.roll_ft, "distance taken to grow with speed", "You took distance in proportion to speed. It goes with the square of the speed."),
            WrongTurn(share**0.5 * g.roll_ft, "square root for the square", "You took the square root; it is the square of the speeds' ratio."),
            WrongTurn(g.roll_ft, "lift-off for the first mark", "That is where the aircraft lifts off. A dead needle must be found long before."),
        ),
    )  # fmt: skip


def _thin_air(g, answer):
    ratio = DENSITY_KG_M3[int(g.hot_field_ft)] / atmosphere.SEA_LEVEL_DENSITY_KG_M3
    return Question(
        key="thin air", kind=NUMBER, title="The roll in thinner air", points=3, unit="ft", tolerance=20,
        text=(
            f"The same aircraft takes off from a field at {g.hot_field_ft:,.0f} ft. In thinner air it must reach a higher true airspeed, and its engine pulls less: in "
            "the lesson's simple model the roll grows as one over the square of the density ratio. How long is the roll, in feet, before it lifts off?"
        ),
        answer=answer, table=air_table(0, g.hot_field_ft),
        hint="Density ratio: density there over density at sea level. Divide by it twice.",
        worked=(f"density ratio {ratio:.3f}", f"{g.roll_ft:,.0f} ÷ {ratio:.3f}² = {answer:,.0f} ft"),
        wrong_turns=(
            WrongTurn(g.roll_ft, "forgot the density", "That is the roll at sea level. Thinner air makes it longer."),
            WrongTurn(g.roll_ft / ratio, "density counted once", "You divided once. Higher true airspeed and weaker pull both count: divide twice."),
            WrongTurn(g.roll_ft * ratio**2, "turned round", "You made the roll shorter. In thinner air it is longer."),
        ),
    )  # fmt: skip


def _stop(g, rate, answer):
    mark, b, wait = g.first_mark_kt, g.deceleration_kt_s, g.reaction_s
    top = mark + rate * wait
    rolled, braked = FT_S_PER_KT * top**2 / (2 * rate), FT_S_PER_KT * top**2 / (2 * b)
    at_once = FT_S_PER_KT * mark**2 / 2 * (1 / rate + 1 / b)
    return Question(
        key="stop", kind=NUMBER, title="Rejected at the call", points=4, unit="ft", tolerance=25,
        text=(
            f"On the roll at sea level the aircraft gains {rate:.2f} kt each second. When the needle should show {mark:.0f} kt it stands at zero, and the pilot rejects "
            f"the take-off. For {wait:.0f} s the aircraft still gains speed; then the brakes take off {b:.0f} kt each second. How far from brakes off does it stop?"
        ),
        answer=answer,
        hint="Greatest speed first. Then two distances of the form speed² ÷ (2 × change of speed a second), in ft by 1.688 ft/s to the knot.",
        worked=(
            f"greatest speed {mark:.0f} + {wait:.0f} × {rate:.2f} = {top:.1f} kt",
            f"gaining it: 1.688 × {top:.1f}² ÷ (2 × {rate:.2f}) = {rolled:.0f} ft",
            f"losing it: 1.688 × {top:.1f}² ÷ (2 × {b:.0f}) = {braked:.0f} ft",
            f"together {answer:,.0f} ft",
        ),
        wrong_turns=(
            WrongTurn(at_once, "forgot the reaction", f"You braked at once. For {wait:.0f} s the aircraft goes on gaining speed."),
            WrongTurn(braked, "braking alone", "That is the braking alone; the aircraft has rolled before."),
            WrongTurn(rolled, "forgot the braking", "That is where the brakes bite; the aircraft still has to stop."),
            WrongTurn(answer / FT_S_PER_KT, "knots taken for ft/s", "A knot is 1.688 ft/s: the factor is missing."),
        ),
    )  # fmt: skip


def _decide(v, g, case, here_ft, runway_ft, call_ft, stop_ft):
    answer = "go on" if here_ft < call_ft else "reject" if stop_ft <= runway_ft else "late"
    if abs(here_ft - call_ft) < 60 or abs(stop_ft - runway_ft) < 100 or g.roll_ft > runway_ft or answer != case:
        answer = "unclear"  # a question of rounding: drawn again
    options = (
        ("go on", "Go on for now: the needle is not due yet"),
        ("reject", "Reject: the needle is overdue, and the runway is long enough to stop"),
        ("late", "Too late to stop on the runway: go on by attitude and power, as the handbook says"),
    )
    return Question(
        key="decide", kind=CHOICE, title="Decide on the roll", points=3, answer=answer, options=tuple(v.shuffled("decide options", options)),
        text=(
            f"Sea level again, lift-off at {g.lift_off_kt:.0f} kt after {g.roll_ft:,.0f} ft, the first mark at {g.first_mark_kt:.0f} kt. {here_ft:,.0f} ft of {runway_ft:,.0f} ft of runway "
            f"lie behind you, engine and acceleration are as always, and the needle is on zero. From here the aircraft would need {stop_ft - here_ft:,.0f} ft more to stop, "
            "your reaction included. What now?"
        ),
        hint="Should the needle be alive by here? If so: does what is left of the runway do?",
        worked=(
            f"the first mark is due after {call_ft:,.0f} ft, and {here_ft:,.0f} ft are behind you",
            f"stopping from here ends at {stop_ft:,.0f} ft of {runway_ft:,.0f} ft",
            dict(options)[case],
        ),
        wrong_turns=tuple(WrongTurn(k, slip, says) for k, slip, says in (
            ("go on", "dead needle accepted", "The needle is overdue by here: work out where the first mark falls."),
            ("reject", "rejected before the needle was due" if case == "go on" else "runway misjudged",
             "Compare where you are with where the needle is due, and what it takes to stop with what is left."),
            ("late", "runway misjudged", "What it takes to stop from here still fits on the runway."),
        ) if k != answer),
    )  # fmt: skip
