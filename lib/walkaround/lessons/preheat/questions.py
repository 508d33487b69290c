"""Questions on preheating and oil: degrees and watt-hours, what a heater can do, when an engine is ready, and the dipstick.

All numbers come from the invented engine of the Morrowlark Four and the invented heaters. What the engine does in a
frost is worked out once for every temperature that may be drawn (`_worked_out`), so that a paper takes no time.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, Paper, Question, WrongTurn
from walkaround.lessons.preheat.oil_questions import oil_questions
from walkaround.physics.preheat.engine import warming
from walkaround.units import celsius, fahrenheit

NAME = "preheat"
TITLE = "Preheat and oil"
OUTSIDE_C = tuple(range(-16, -7))
PAD_MINUTES = tuple(range(0, 161, 20))
WAIT_MINUTES = tuple(range(0, 241, 20))
POWERS_W = (700, 800, 900, 1000, 2400, 2600, 2800, 3000)
WARM_C = {"metal": 26.0, "oil": 30.0, "cylinders": 27.0}
THERMOSTAT_C = 52.0


@dataclass(frozen=True)
class Givens:
    """What a student is told: temperatures in °C, power in W, flows of air in W for each °C."""

    outside_c: int
    ready_c: dict
    oil_qt: float
    heat_kj_per_k: dict
    flow_w_per_k: dict
    pad_w: float


@dataclass(frozen=True)
class _WorkedOut:
    """What the engine does at every temperature of OUTSIDE_C, in its order on the first axis."""

    pad_c: np.ndarray  # (outside, moments of PAD_MINUTES, parts)
    pad_ready: dict  # by part, (outside,)
    wait_c: np.ndarray  # (cover off and on, outside, moments of WAIT_MINUTES, parts)
    wait_minutes: np.ndarray  # (cover off and on, outside)
    fan_minutes: np.ndarray  # (outside, powers, low and high)
    fan_flow_w_per_k: np.ndarray  # low and high


@cache
def _worked_out():
    section, heaters = aircraft.demo("morrowlark_four").engine, demo_heaters()
    engine, outside = section.engine(), np.array(OUTSIDE_C, dtype=float)
    pad = warming(engine, outside, pad=heaters.pads[0].set_to(), cover=True)
    cover = np.array([False, True])[:, np.newaxis]
    wait = warming(engine, outside, cover=cover, start_c=WARM_C)
    kind = heaters.air_heaters[0]
    blower = kind.set_to(
        ("low", "high"), THERMOSTAT_C, np.array(POWERS_W, dtype=float)[:, np.newaxis]
    )  # fmt: skip
    fans = warming(engine, outside[:, np.newaxis, np.newaxis], blower, cover=True)
    return _WorkedOut(
        pad_c=np.stack([pad.temperatures_c(float(m))[..., :-1] for m in PAD_MINUTES], axis=1),
        pad_ready=pad.reached_by_part(section.ready_c),
        wait_c=np.stack([wait.temperatures_c(float(m))[..., :-1] for m in WAIT_MINUTES], axis=2),
        wait_minutes=wait.stays_minutes(section.ready_c),
        fan_minutes=fans.ready_minutes(section.ready_c),
        fan_flow_w_per_k=np.ravel(blower.flow_w_per_k),
    )


def write(v):
    """Write one student's paper (`questions.Paper`) from their draws."""
    section, found = aircraft.demo("morrowlark_four").engine, _worked_out()
    oil = section.oil
    g = Givens(
        outside_c=v.pick("outside", OUTSIDE_C), ready_c=section.ready_c, oil_qt=oil.usual,
        heat_kj_per_k={
            "metal": section.metal.heat_kj_per_k, "cylinders": section.cylinders.heat_kj_per_k,
            "oil": round(oil.heat_j_per_k(oil.usual) / 1e3, 1),
        },
        flow_w_per_k=dict(zip(("low", "high"), (round(float(f), 1) for f in found.fan_flow_w_per_k), strict=True)),
        pad_w=demo_heaters().pads[0].power_w,
    )  # fmt: skip
    questions = (
        _difference(v), _heat(g), _energy(v), _rise(v, g), _fan(v, g, found), _ready(g, found), _statements(v, g, found),
        _wait(v, found), _steps(v), *oil_questions(v, section, g.outside_c),
    )  # fmt: skip
    pilot = v.pick("pilot", ("Ines Okafor", "Tomas Brandvold", "Priya Lindqvist", "Samuel Oyelaran", "Marta Kovalenko"))  # fmt: skip
    scene = (
        f"A frost at Quillmoor: {g.outside_c} °C outside, and the Morrowlark Four has stood out all night, so every part of it is as "
        f"cold as that. {pilot} will fly it. Engine, heaters and all their numbers are invented; on the ramp the engine "
        "maker's limits come first."
    )
    return Paper(NAME, TITLE, v.student, v.course, questions, scene.replace(" -", " −"), _facts(g), g)


def _facts(g):
    rows = [("the engine", "heat to warm it by 1 °C", "ready at")]
    rows += [
        (part + (f", {g.oil_qt:.0f} qt" if part == "oil" else ""), f"{heat:g} kJ", f"{g.ready_c[part]:.0f} °C")
        for part, heat in g.heat_kj_per_k.items()
    ]
    return tuple(rows)


def _difference(v):
    by_f = v.number("difference", 40, 72, 2)
    answer = by_f / 1.8
    return Question(
        key="difference", kind=NUMBER, title="So many degrees warmer", points=2, unit="°C", tolerance=0.4,
        text=f"The heater's label says that it warms the air BY {by_f:.0f} °F above the outside. By how many °C is that?",
        answer=answer,
        hint="It is a step between two temperatures, not a temperature: what does the 32 do to it?",
        worked=("a step of 1.8 °F is a step of 1 °C; the 32 shifts the zero and is no part of a difference", f"{by_f:.0f} ÷ 1.8 = {answer:.1f} °C"),
        wrong_turns=(
            WrongTurn(float(celsius(by_f)), "difference converted as a temperature", "You took off 32 first. That is for a temperature; this is a difference between two."),
            WrongTurn(by_f * 1.8, "multiplied instead of divided", "You multiplied. A degree Celsius is the larger step, so there are fewer of them."),
            WrongTurn(by_f, "Fahrenheit left as it was", "That is the difference in °F."),
        ),
    )  # fmt: skip


def _heat(g):
    wanted = g.ready_c["oil"]
    by, whole = wanted - g.outside_c, sum(g.heat_kj_per_k.values())
    answer = whole * by / 1e3
    return Question(
        key="heat", kind=NUMBER, title="The heat that has to go in", points=3, unit="MJ", tolerance=0.02,
        text=(
            f"How much heat does it take to warm metal, cylinders and oil from {_c(g.outside_c)} to {_c(wanted)}, leaving out all losses? "
            "The table at the top says what each takes."
        ),
        answer=answer, table=_facts(g),
        hint="Heat = heat for 1 °C × degrees warmed, for all three parts. 1,000 kJ are 1 MJ.",
        worked=(f"warmed by {wanted:.0f} − ({_c(g.outside_c)}) = {by:.0f} °C", f"all parts together {whole:.1f} kJ for each °C", f"{whole:.1f} × {by:.0f} = {1e3 * answer:,.0f} kJ = {answer:.2f} MJ"),
        wrong_turns=(
            WrongTurn(answer - g.heat_kj_per_k["oil"] * by / 1e3, "forgot the oil", "You left out the oil: it has to be warmed too."),
            WrongTurn(g.heat_kj_per_k["oil"] * by / 1e3, "only the oil", "That is the oil alone. The metal takes many times as much, and it decides."),
            WrongTurn(answer - g.heat_kj_per_k["cylinders"] * by / 1e3, "forgot the cylinders", "You left out the cylinders."),
            WrongTurn(whole * wanted / 1e3, "warmed from 0 °C", "You warmed it from 0 °C. It starts as cold as the outside."),
            WrongTurn(whole * -g.outside_c / 1e3, "warmed to 0 °C", "You warmed it to 0 °C only."),
            WrongTurn(1e3 * answer, "kJ for MJ", "That is in kJ. 1,000 kJ are 1 MJ."),
        ),
    )  # fmt: skip


def _energy(v):
    power, minutes, share = v.number("power", 1800, 3000, 100), v.number("minutes", 35, 50, 5), v.number("on share", 60, 85, 5)  # fmt: skip
    answer = power * minutes / 60 * share / 100 / 1e3
    return Question(
        key="energy", kind=NUMBER, title="What the meter counts", points=3, unit="kWh", tolerance=0.03,
        text=f"An electric heater of {power:,.0f} W runs for {minutes:.0f} minutes; its thermostat keeps the heat on for {share:.0f} % of that time. How many kWh does the meter count?",
        answer=answer,
        hint="Watt-hours are watts times hours. For how many hours is the heat on?",
        worked=(f"{minutes:.0f} min × {share:.0f} % ÷ 60 = {minutes * share / 6000:.3f} h", f"{power:,.0f} W × {minutes * share / 6000:.3f} h ÷ 1,000 = {answer:.2f} kWh"),
        wrong_turns=(
            WrongTurn(power / 1e3, "watts for watt-hours", "That is the power in kW. Energy is power times time."),
            WrongTurn(power / 1e3 * share / 100, "watts for watt-hours", "That is the mean power in kW. Energy is power times time."),
            WrongTurn(power * minutes / 60 / 1e3, "forgot the thermostat", "That is with the heat on all the time. The thermostat switches it off and on."),
            WrongTurn(power * minutes * share / 100 / 1e3, "minutes for hours", "You multiplied by minutes. A kilowatt-hour wants hours."),
            WrongTurn(1e3 * answer, "Wh for kWh", "That is in Wh; 1,000 Wh are 1 kWh."),
            WrongTurn(answer * 3.6, "MJ for kWh", "That is in MJ; 3.6 MJ are 1 kWh."),
        ),
    )  # fmt: skip


def _rise(v, g):
    power, flow = v.number("weak power", 900, 1500, 50), g.flow_w_per_k["high"]
    by = power / flow
    answer = g.outside_c + by
    return Question(
        key="rise", kind=NUMBER, title="How warm the air gets", points=3, unit="°C", tolerance=0.6,
        text=(
            f"On a weak extension lead a heater gives only {power:,.0f} W. Its fan moves air that carries {flow:.1f} W for each °C it is warmer. "
            f"With {_c(g.outside_c)} outside and the thermostat at {THERMOSTAT_C:.0f} °C: how warm does the air leave the heater in the end?"
        ),
        answer=answer,
        hint="How many °C does the power lift this flow above the outside? Then compare with the thermostat.",
        worked=(f"{power:,.0f} ÷ {flow:.1f} = {by:.1f} °C above the outside", f"{_c(g.outside_c)} + {by:.1f} = {_c(answer, 1)}, below the thermostat's {THERMOSTAT_C:.0f} °C: the power is the limit"),
        wrong_turns=(
            WrongTurn(by, "rise for temperature", "That is how far above the outside it is. Begin from the outside temperature."),
            WrongTurn(THERMOSTAT_C, "thermostat taken for what is reached", "The thermostat only switches off. This power never gets the air so warm."),
            WrongTurn(by - g.outside_c, "wrong sign of the cold", "You added the frost as if it were warmth."),
            WrongTurn(float(fahrenheit(answer)), "Fahrenheit for Celsius", "That is in °F; °C are asked for."),
        ),
    )  # fmt: skip


def _fan(v, g, found):
    power = v.pick("fan power", POWERS_W)
    low, high = found.fan_minutes[OUTSIDE_C.index(g.outside_c), POWERS_W.index(power)].tolist()
    clear = np.isfinite([low, high]).any() and (abs(low - high) > 8 or not np.isfinite([low, high]).all())
    answer = ("low" if low < high else "high") if clear else "unclear"
    air = {fan: min(THERMOSTAT_C, g.outside_c + power / flow) for fan, flow in g.flow_w_per_k.items()}
    options = (
        ("low", "The low fan is ready sooner"), ("high", "The high fan is ready sooner"),
        ("same", "Both are ready at the same time: the power is the same"),
    )  # fmt: skip
    return Question(
        key="fan", kind=CHOICE, title="Low fan or high", points=3, answer=answer, options=tuple(v.shuffled("fan", options)),
        text=(
            f"A heater of {power:,.0f} W with its thermostat at {THERMOSTAT_C:.0f} °C, {_c(g.outside_c)} outside, cover on. On low its air carries "
            f"{g.flow_w_per_k['low']:.1f} W for each °C, on high {g.flow_w_per_k['high']:.1f} W. Oil has to reach {_c(g.ready_c['oil'])}. Which fan is ready sooner?"
        ),
        hint="How warm does the air get on each? With air held by the thermostat more of it is better; air that is hardly warmer than the oil should get helps nobody.",
        worked=(
            f"air on low: {_c(air['low'])}, on high: {_c(air['high'])}, held by the thermostat at {THERMOSTAT_C:.0f} °C at most",
            f"ready on low after {_minutes(low)}, on high after {_minutes(high)}",
            dict(options).get(answer, ""),
        ),
        wrong_turns=tuple(WrongTurn(k, slip, says) for k, slip, says in (
            ("high", "fast fan always better", "Work out how warm the air gets on high: this power is spread over too much of it."),
            ("low", "power limit seen where the thermostat holds", "Work out how warm the air gets: on high it is still warm, and there is more of it."),
            ("same", "power taken for what the engine gets", "What blows out of the cowl still warm is lost. How much that is depends on the flow."),
        ) if k != answer),
    )  # fmt: skip


def _pad_table(found, i):
    return (
        ("minutes", "metal", "oil", "cylinders"),
        *((f"{m}", *(_c(t, 1) for t in row)) for m, row in zip(PAD_MINUTES, found.pad_c[i].tolist(), strict=True)),
    )  # fmt: skip


def _ready(g, found):
    i = OUTSIDE_C.index(g.outside_c)
    by_part = {part: float(m[i]) for part, m in found.pad_ready.items()}
    answer = max(by_part.values())
    last = max(by_part, key=by_part.get)
    # A slip is read off the table, so it is what the table's straight pieces give.
    metal = _crossing(PAD_MINUTES, -found.pad_c[i, :, 0], -g.ready_c["metal"])
    oil = _crossing(PAD_MINUTES, -found.pad_c[i, :, 1], -g.ready_c["oil"])
    return Question(
        key="ready", kind=NUMBER, title="When the engine is ready", points=3, unit="min", tolerance=4,
        text=(
            f"Only the pad of {g.pad_w:.0f} W on the sump is on, with the cover. The table shows how warm each part gets. Ready means: oil at {_c(g.ready_c['oil'])}, "
            f"metal and cylinders at {_c(g.ready_c['metal'])}. After how many minutes is the engine ready? Between two lines go straight."
        ),
        answer=answer, table=_pad_table(found, i),
        hint="Every part has to be warm enough: look for the one that is last.",
        worked=(*(f"{part} ready after {m:.0f} min" for part, m in by_part.items()), f"the {last} last: {answer:.0f} min"),
        wrong_turns=(
            WrongTurn(oil, "oil ready taken for engine ready", "That is when the oil is ready. The pad warms the oil first; metal and cylinders are still cold and tight."),
            WrongTurn(metal, "cylinders forgotten", "That is when the metal is ready; the cylinders are behind it."),
            WrongTurn((metal + oil + answer) / 3, "average of the parts", "You averaged. The slowest part decides."),
        ),
    )  # fmt: skip


def _statements(v, g, found):
    i = OUTSIDE_C.index(g.outside_c)
    at = v.pick("statements at", (60, 80, 100, 120))
    metal, oil, cylinders = found.pad_c[i, PAD_MINUTES.index(at)].tolist()
    margins = {"oil": oil - g.ready_c["oil"], "metal": metal - g.ready_c["metal"], "cylinders": cylinders - g.ready_c["cylinders"]}  # fmt: skip
    is_so = {
        "oil": (f"The oil has reached its {_c(g.ready_c['oil'])}", margins["oil"] >= 0),
        "metal": (f"The metal has reached its {_c(g.ready_c['metal'])}", margins["metal"] >= 0),
        "cylinders": (f"The cylinders have reached their {_c(g.ready_c['cylinders'])}", margins["cylinders"] >= 0),
        "start": ("By these limits the engine may be started", min(margins.values()) >= 0),
        "gap": ("The oil is more than 10 °C warmer than the cylinders", oil - cylinders > 10),
    }
    right = frozenset(k for k, (_, so) in is_so.items() if so)
    # Within a whisker of a limit it would be a question of rounding, and with nothing right no question at all.
    if min(*(abs(m) for m in margins.values()), abs(oil - cylinders - 10)) < 0.15:
        right = frozenset()
    return Question(
        key="statements", kind=CHOICES, title="What is so by then", points=3, answer=right,
        options=tuple(v.shuffled("statements", [(k, text) for k, (text, _) in is_so.items()])),
        text=f"The same morning, the same pad and cover: {at} minutes have gone by. Choose all that is so.",
        table=_pad_table(found, i),
        hint="Read the line, and compare each part with its own limit.",
        worked=(f"after {at} min: metal {_c(metal, 1)}, oil {_c(oil, 1)}, cylinders {_c(cylinders, 1)}", *(f"{text}: {'yes' if so else 'no'}" for text, so in is_so.values())),
        wrong_turns=(
            *((WrongTurn(right | {"start"}, "oil ready taken for engine ready", "All right but one: the oil alone does not make an engine ready."),) if right and "start" not in right else ()),
            *((WrongTurn(right - {"start"}, "ready engine not seen", "All right, but every part has reached its limit: what follows?"),) if "start" in right else ()),
        ),
    )  # fmt: skip


def _wait(v, found):
    outside = v.pick("wait outside", OUTSIDE_C)
    i = OUTSIDE_C.index(outside)
    without, with_cover = found.wait_minutes[:, i].tolist()
    rows = zip(WAIT_MINUTES, found.wait_c[0, i].tolist(), found.wait_c[1, i].tolist(), strict=True)
    table = (
        ("minutes", "oil, no cover", "metal, no cover", "oil, cover on"),
        *((f"{m}", _c(off[1], 1), _c(off[0], 1), _c(on[1], 1)) for m, off, on in rows),
    )
    return Question(
        key="wait", kind=NUMBER, title="The longest wait", points=3, unit="min", tolerance=3,
        text=(
            f"After a long preheat the heater is off and put away, and so is the cover. It is {_c(outside)} and calm. How long may the start wait until a part is below its limit "
            "(oil 10 °C, metal 0 °C)? Between two lines go straight."
        ),
        answer=without, table=table,
        hint="Find where the oil passes 10 °C and the metal 0 °C without the cover. The earlier of the two counts.",
        worked=(f"without the cover the oil is down to 10 °C after {without:.0f} min, and the metal is still warmer than 0 °C", f"with the cover on it would have been {with_cover:.0f} min"),
        wrong_turns=(
            WrongTurn(_crossing(WAIT_MINUTES, found.wait_c[1, i, :, 1], 10.0), "column with the cover", "That is with the cover on. It has been put away."),
            WrongTurn(_crossing(WAIT_MINUTES, found.wait_c[0, i, :, 0], 0.0), "metal's limit for the oil's", "By then the oil has long been too cold: the first part that is below its limit counts."),
        ),
    )  # fmt: skip


def _crossing(minutes, falling, level):
    """Where a falling column passes a level, going straight between its lines; the last line where it does not."""
    return float(np.interp(-level, -np.round(falling, 1), minutes))


def _steps(v):
    steps = (
        ("book", "Read in the engine maker's handbook whether and how to preheat"),
        ("live", "Ignition off, and treat the propeller as live all the same"),
        ("clear", "Look for dripping fuel, and set the heater up clear of the cowl in the open air"),
        ("heat", "Heat, and stay with it, until oil and metal are both ready"),
        ("away", "Switch off, and take heater, duct and cover away"),
        ("start", "Start without a long wait, and watch the oil pressure"),
    )
    right = tuple(k for k, _ in steps)
    return Question(
        key="steps", kind=ORDER, title="From the book to the start", points=2, answer=right, options=tuple(v.shuffled("steps", steps)),
        text="Put the steps of a preheat in the order in which they are safe.",
        hint="What must you know before you touch anything, and what must be made safe before anything is hot?",
        worked=tuple(f"{n}. {text}" for n, (_, text) in enumerate(steps, 1)),
        wrong_turns=(
            WrongTurn(("book", "clear", "live", "heat", "away", "start"), "propeller last", "You work about the cowl before the ignition is off: the propeller comes first."),
            WrongTurn(("book", "live", "heat", "clear", "away", "start"), "looked for fuel after lighting the heater", "Look for fuel before anything is hot, not after."),
        ),
    )  # fmt: skip


def _c(temperature, decimals=0):
    return f"{round(temperature, decimals) + 0.0:.{decimals}f} °C".replace("-", "−")


def _minutes(minutes):
    return f"{minutes:.0f} min" if np.isfinite(minutes) else "never"


def quick(variant):
    """Questions asked on the spot in the lesson (a tuple of `Question`)."""
    base = write(variant)
    return tuple(base.question(k) for k in ("difference", "energy", "fan", "litres"))
