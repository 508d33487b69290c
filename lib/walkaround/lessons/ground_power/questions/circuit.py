"""Questions on the circuit: what is lost inside the battery and in a cable, and what is left for the starter."""

from walkaround import checks
from walkaround.assessment.builders import choice, number
from walkaround.lessons.ground_power.questions.scenario import facts
from walkaround.lessons.ground_power.wires import GAUGES, wire
from walkaround.physics.electrical import resistance_ohm

MOHM_PER_M = {gauge: round(1e3 * float(resistance_ohm(gauge, 1.0)), 3) for gauge in GAUGES}
MOST_LOST_V = 1.0


def questions(v, g):
    """Questions on the circuit for a student's draws `v` and `Givens` `g`."""
    return _inner(v), _drop(v), _gauge(v), _starter(g), _watts(v)


def _inner(v):
    rest, amperes = v.number("rest", 12.3, 12.7, 0.1), v.number("inner amperes", 160, 300, 10)
    cranking = round(rest - amperes * v.number("inner mohm", 8, 14) / 1e3, 1)
    lost = rest - cranking
    answer = 1e3 * lost / amperes
    all_volts = "You divided all the volts that were left. Only what is missing is lost inside."
    return number(
        "inner",
        "What is inside the battery",
        f"Another aircraft's battery: at rest its terminals show {rest:.1f} V; while the starter draws {amperes:.0f} A "
        f"they show {cranking:.1f} V. What is the resistance inside it, in mΩ?",
        answer=answer,
        unit="mΩ",
        tolerance=0.2,
        points=2,
        hint="How many volts go missing while the current runs? Ohm's law, and 1 Ω is 1,000 mΩ.",
        worked=(
            f"missing: {rest:.1f} − {cranking:.1f} = {lost:.1f} V",
            f"{lost:.1f} ÷ {amperes:.0f} × 1,000 = {answer:.1f} mΩ",
        ),
        wrong=[
            (1e3 * cranking / amperes, "volts left for volts lost", all_volts),
            (1e3 * rest / amperes, "volts at rest for volts lost", "You divided all the volts. How many went missing?"),
            (answer / 1e3, "Ω for mΩ", "That is in Ω; 1 Ω is 1,000 mΩ."),
        ],
    )


def _drop(v):
    gauge, metres = v.pick("drop gauge", (6, 4, 2)), v.number("drop metres", 3, 8)
    amperes, each = v.number("drop amperes", 160, 300, 10), MOHM_PER_M[gauge]
    answer = amperes * 2 * metres * each / 1e3
    return number(
        "drop",
        "What the cart's lead loses",
        f"The lead of a cart is {metres:.0f} m long, with two wires of {wire(gauge)}, one out and one back. Each has "
        f"{each} mΩ per metre. How many volts does it lose at {amperes:.0f} A?",
        answer=answer,
        unit="V",
        tolerance=0.03,
        points=2,
        hint="Through how many metres of wire does the current run, out and back?",
        worked=(
            f"2 × {metres:.0f} = {2 * metres:.0f} m of wire",
            f"{amperes:.0f} × {2 * metres:.0f} × {each} ÷ 1,000 = {answer:.2f} V",
        ),
        wrong=[
            (answer / 2, "one way only", "You counted the way out. The current comes back through as much wire."),
            (2 * metres * each, "resistance for volts", "That is the resistance in mΩ. Volts are amperes times ohms."),
            (1e3 * answer, "mV for V", "That is in mV; 1,000 mV are 1 V."),
        ],
    )


def _gauge(v):
    metres, amperes = v.number("gauge metres", 3, 6), v.number("gauge amperes", 150, 260, 10)
    lost = {gauge: amperes * 2 * metres * each / 1e3 for gauge, each in MOHM_PER_M.items()}
    within = [gauge for gauge, volts in lost.items() if checks.at_most(volts, MOST_LOST_V)]
    one_way = next((g for g, volts in lost.items() if checks.at_most(volts / 2, MOST_LOST_V)), None)
    # One that just holds or just fails would be a question of rounding: such numbers are drawn again.
    clear = within and min(abs(volts - MOST_LOST_V) for volts in lost.values()) > 0.05
    thinnest = within[0] if clear else None
    too_thin = "You counted one wire. Out and back, this one loses more than a volt."
    return choice(
        "gauge",
        "Which cable",
        f"A lead of {metres:.0f} m, out and back, may lose {MOST_LOST_V:.0f} V at {amperes:.0f} A. Which is the "
        "thinnest wire that will do?",
        answer=f"{thinnest}",
        options=[(f"{gauge}", wire(gauge)) for gauge in GAUGES],
        points=3,
        table=(("wire", "mΩ per metre"), *((wire(gauge), f"{mohm}") for gauge, mohm in MOHM_PER_M.items())),
        hint="Work out what each wire loses out and back. The smaller the number, the thicker the wire.",
        worked=[
            f"{wire(gauge)}: {amperes:.0f} × {2 * metres:.0f} × {MOHM_PER_M[gauge]} ÷ 1,000 = {volts:.2f} V"
            for gauge, volts in lost.items()
        ],
        wrong=[
            (f"{one_way}", "one way only", too_thin) if one_way not in (None, thinnest) else None,
            ("8", "numbers the wrong way round", "The larger the gauge number, the thinner the wire.")
            if thinnest != 8 and one_way != 8
            else None,
        ],
    )


def _starter(g):
    inside, cable = g.current_a * g.inner_mohm / 1e3, g.current_a * g.cable_mohm / 1e3
    answer = g.source_v - inside - cable
    return number(
        "starter",
        "What the starter gets",
        "How many volts are there at the starter while it cranks? Everything you need is in the table.",
        answer=answer,
        unit="V",
        tolerance=0.1,
        points=3,
        table=facts(g),
        hint="Start at rest, take off what is lost inside the battery, then what the cable loses.",
        worked=(
            f"inside the battery: {g.current_a} × {g.inner_mohm:.1f} ÷ 1,000 = {inside:.2f} V",
            f"in cable and contacts: {g.current_a} × {g.cable_mohm:.1f} ÷ 1,000 = {cable:.2f} V",
            f"{g.source_v:.1f} − {g.current_a} × ({g.inner_mohm:.1f} + {g.cable_mohm:.1f}) ÷ 1,000 = {answer:.1f} V",
        ),
        wrong=[
            (g.source_v - cable, "forgot what is inside the battery", "You left out the loss inside the battery."),
            (g.source_v - inside, "forgot the cable", "Those are the volts at the battery. The cable takes its share."),
            (inside + cable, "volts lost for volts left", "Those are the volts lost. How many are left?"),
        ],
    )


# What changes, and by how much the watts lost in a cable change with it: I² R.
CHANGES = {
    "half": ("runs at half the current through the same cable, as a 24 V aircraft does for the same power", "quarter"),
    "double": ("draws twice the current through the same cable", "four"),
    "long": ("draws the same current through a cable of the same gauge, twice as long", "twice"),
    "thick": ("draws the same current through a cable as long, with twice the cross-section", "halved"),
}
TIMES = (("quarter", "a quarter"), ("halved", "half"), ("same", "the same"), ("twice", "twice"), ("four", "four times"))


def _watts(v):
    case = v.pick("watts", tuple(CHANGES))
    what, answer = CHANGES[case]
    slips = {
        "half": ("halved", "not squared", "The volts lost are halved too, so the watts are halved twice."),
        "double": ("twice", "not squared", "The volts lost double too, so the watts double twice."),
        "long": (
            "four",
            "squared the resistance",
            "Only the current is squared: twice the resistance, twice the heat.",
        ),
        "thick": ("twice", "turned round", "A thicker wire has less resistance, and loses less."),
    }
    return choice(
        "watts",
        "The heat in a cable",
        f"Another starter {what}. How much heat goes into that cable, compared with before?",
        answer=answer,
        options=TIMES,
        points=1,
        hint="Watts are volts lost times amperes, and the volts lost are amperes times ohms.",
        worked="watts = A × A × Ω: the current counts twice, the resistance once",
        wrong=[slips[case]],
    )
