"""Questions on an air heater: how warm its air gets, which fan is better, and what its lead loses."""

import numpy as np

from walkaround.assessment.builders import choice, number
from walkaround.lessons.preheat.questions.scenario import OUTSIDE_C, POWERS_W, THERMOSTAT_C, celsius_text, in_frost
from walkaround.physics.electrical import lead_loss
from walkaround.units import fahrenheit


def questions(v, g):
    """Questions on an air heater for a student's draws `v` and what they are told, `g`."""
    return _rise(v, g), _fan(v, g), _lead(v)


def _rise(v, g):
    power, flow = v.number("weak power", 900, 1500, 50), g.flow_w_per_k["high"]
    by = power / flow
    answer = g.outside_c + by
    outside, setting = celsius_text(g.outside_c), f"{THERMOSTAT_C:.0f} °C"
    only_rise = "That is how far above the outside it is. Begin from the outside temperature."
    only_setting = "The thermostat only switches off. This power never gets the air so warm."
    return number(
        "rise",
        "How warm the air gets",
        f"Switched to half power, a heater gives only {power:,.0f} W. Its fan moves air that carries {flow:.1f} W for "
        f"each °C it is warmer. With {outside} outside and the thermostat at {setting}: how warm does the air leave "
        "the heater in the end?",
        answer=answer,
        unit="°C",
        tolerance=0.6,
        points=3,
        hint="How many °C does the power lift this flow above the outside? Then compare with the thermostat.",
        worked=(
            f"{power:,.0f} ÷ {flow:.1f} = {by:.1f} °C above the outside",
            f"{outside} + {by:.1f} = {celsius_text(answer, 1)}, below the thermostat's {setting}: "
            "the power is the limit",
        ),
        wrong=[
            (by, "rise for temperature", only_rise),
            (THERMOSTAT_C, "thermostat taken for what is reached", only_setting),
            (by - g.outside_c, "wrong sign of the cold", "You added the frost as if it were warmth."),
            (float(fahrenheit(answer)), "Fahrenheit for Celsius", "That is in °F; °C are asked for."),
        ],
    )


def _fan(v, g):
    power = v.pick("fan power", POWERS_W)
    low, high = in_frost().fan_minutes[OUTSIDE_C.index(g.outside_c), POWERS_W.index(power)].tolist()
    clear = np.isfinite([low, high]).any() and (abs(low - high) > 8 or not np.isfinite([low, high]).all())
    answer = ("low" if low < high else "high") if clear else "unclear"
    air = {fan: celsius_text(min(THERMOSTAT_C, g.outside_c + power / f)) for fan, f in g.flow_w_per_k.items()}
    options = {
        "low": "The low fan is ready sooner",
        "high": "The high fan is ready sooner",
        "same": "Both are ready at the same time: the power is the same",
    }
    spread = "Work out how warm the air gets on high: this power is spread over too much of it."
    still_warm = "Work out how warm the air gets: on high it is still warm, and there is more of it."
    blown_away = "What blows out of the cowl still warm is lost. How much that is depends on the flow."
    wrong = [
        ("high", "fast fan always better", spread),
        ("low", "power limit seen where the thermostat holds", still_warm),
        ("same", "power taken for what the engine gets", blown_away),
    ]
    return choice(
        "fan",
        "Low fan or high",
        f"A heater of {power:,.0f} W with its thermostat at {THERMOSTAT_C:.0f} °C, {celsius_text(g.outside_c)} "
        f"outside, cover on. On low its air carries {g.flow_w_per_k['low']:.1f} W for each °C, on high "
        f"{g.flow_w_per_k['high']:.1f} W. Oil has to reach {celsius_text(g.ready_c['oil'])}. "
        "Which fan is ready sooner?",
        answer=answer,
        options=v.shuffled("fan", list(options.items())),
        points=3,
        hint="How warm does the air get on each? Where the thermostat holds it, more air is better; air that is hardly "
        "warmer than the oil has to be does little.",
        worked=(
            f"air on low: {air['low']}, on high: {air['high']}, held by the thermostat at "
            f"{THERMOSTAT_C:.0f} °C at most",
            f"on low {_ready(low)}, on high {_ready(high)}",
            options.get(answer, ""),
        ),
        wrong=[row for row in wrong if row[0] != answer],
    )


def _ready(minutes):
    return f"ready after {minutes:.0f} min" if np.isfinite(minutes) else "never ready"


def _lead(v):
    current, length = v.number("lead current", 8, 13), v.pick("lead length", (25, 30, 40, 50))
    area = v.pick("lead area", (1.5, 2.5))
    loss = lead_loss(current, length, area)
    volts, answer = float(loss.volts), float(loss.watts)
    ohm = volts / current
    return number(
        "lead",
        "What a lead loses",
        f"A heater draws {current:.0f} A through an extension lead of {length} m, whose two copper wires have {area:g} "
        "mm² each. 58 m of copper wire of 1 mm² have 1 Ω, and the current runs out and back. How many watts of "
        "heat does the lead give off?",
        answer=answer,
        unit="W",
        tolerance=3,
        points=3,
        hint="First the resistance: a longer wire has more, a thicker one less. Volts are A × Ω, and watts are V × A.",
        worked=(
            f"2 × {length} ÷ 58 ÷ {area:g} = {ohm:.4f} Ω",
            f"{current:.0f} × {ohm:.4f} = {volts:.1f} V, which the heater lacks",
            f"{current:.0f} × {current:.0f} × {ohm:.4f} = {answer:.0f} W warm the lead; coiled, it can catch fire",
        ),
        wrong=[
            (volts, "volts for watts", "That is how many volts are lost. Times the current, it is watts."),
            (answer / 2, "forgot the way back", "The current runs out and back: twice the length."),
            (answer * area**2, "multiplied by the cross-section", "A thicker wire has less resistance: divide by it."),
            (answer * area, "forgot the cross-section", "That is for wires of 1 mm². These are thicker."),
        ],
    )
