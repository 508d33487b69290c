"""Questions on heat: a difference in degrees, the joules an engine takes, and the kilowatt-hours a meter counts."""

from walkaround.assessment.builders import number
from walkaround.lessons.preheat.questions.scenario import celsius_text, facts
from walkaround.units import celsius


def questions(v, g):
    """Questions on heat for a student's draws `v` and what they are told, `g`."""
    return _difference(v), _heat(g), _energy(v, g)


def _difference(v):
    by_f = v.number("difference", 40, 72, 2)
    answer = by_f / 1.8
    as_temperature = "You took off 32 first. That is for a temperature; this is a difference between two."
    multiplied = "You multiplied. A degree Celsius is the larger step, so there are fewer of them."
    return number(
        "difference",
        "A difference in degrees",
        f"The heater's label says that it warms the air BY {by_f:.0f} °F above the outside. By how many °C is that?",
        answer=answer,
        unit="°C",
        tolerance=0.4,
        points=2,
        hint="It is a step between two temperatures, not a temperature: what does the 32 do to it?",
        worked=(
            "a step of 1.8 °F is a step of 1 °C; the 32 shifts the zero and is no part of a difference",
            f"{by_f:.0f} ÷ 1.8 = {answer:.1f} °C",
        ),
        wrong=[
            (float(celsius(by_f)), "difference converted as a temperature", as_temperature),
            (by_f * 1.8, "multiplied instead of divided", multiplied),
            (by_f, "Fahrenheit left as it was", "That is the difference in °F."),
        ],
    )


def _heat(g):
    wanted, parts = g.ready_c["oil"], g.heat_kj_per_k
    by, whole = wanted - g.outside_c, sum(parts.values())
    answer = whole * by / 1e3
    only_oil = "That is only the oil. The metal takes many times as much, and it decides."
    return number(
        "heat",
        "The heat that has to go in",
        f"How much heat does it take to warm metal, cylinders and oil from {celsius_text(g.outside_c)} to "
        f"{celsius_text(wanted)}, leaving out all losses? The table at the top says what each takes.",
        answer=answer,
        unit="MJ",
        tolerance=0.02,
        points=3,
        table=facts(g),
        hint="Heat = heat for 1 °C × degrees warmed, for all three parts. 1,000 kJ are 1 MJ.",
        worked=(
            f"warmed by {wanted:.0f} − ({celsius_text(g.outside_c)}) = {by:.0f} °C",
            f"{' + '.join(f'{heat:g}' for heat in parts.values())} = {whole:.1f} kJ for each °C, all parts together",
            f"{whole:.1f} × {by:.0f} = {1e3 * answer:,.0f} kJ = {answer:.2f} MJ",
        ),
        wrong=[
            (answer - parts["oil"] * by / 1e3, "forgot the oil", "You left out the oil: it has to be warmed too."),
            (parts["oil"] * by / 1e3, "only the oil", only_oil),
            (answer - parts["cylinders"] * by / 1e3, "forgot the cylinders", "You left out the cylinders."),
            (whole * wanted / 1e3, "warmed from 0 °C", "You warmed it from 0 °C. It starts as cold as the outside."),
            (whole * -g.outside_c / 1e3, "warmed to 0 °C", "You warmed it to 0 °C only."),
            (1e3 * answer, "kJ for MJ", "That is in kJ. 1,000 kJ are 1 MJ."),
        ],
    )


def _energy(v, g):
    power, minutes = v.number("power", 1800, 3000, 100), v.number("minutes", 35, 50, 5)
    share = v.number("on share", 60, 85, 5)
    heat_wh, fan_wh = power * share / 100 * minutes / 60, g.fan_w * minutes / 60
    answer = (heat_wh + fan_wh) / 1e3
    mean_power = "That is the mean power in kW. Energy is power times time."
    always_on = "That is with the heat on all the time. The thermostat switches it off and on."
    return number(
        "energy",
        "What the meter counts",
        f"An electric heater of {power:,.0f} W runs for {minutes:.0f} minutes; its thermostat keeps the heat on for "
        f"{share:.0f} % of that time. Its fan takes {g.fan_w:.0f} W, all the time. How many kWh does the meter count?",
        answer=answer,
        unit="kWh",
        tolerance=0.01,
        points=3,
        hint="Watt-hours are watts times hours. For how many hours is the heat on, and for how many the fan?",
        worked=(
            f"heat: {power:,.0f} × {share / 100:g} × {minutes:.0f} ÷ 60 = {heat_wh:,.1f} Wh",
            f"fan: {g.fan_w:.0f} × {minutes:.0f} ÷ 60 = {fan_wh:.1f} Wh",
            f"({heat_wh:,.1f} + {fan_wh:.1f}) ÷ 1,000 = {answer:.2f} kWh",
        ),
        wrong=[
            (heat_wh / 1e3, "forgot the fan", "You left out the fan: it runs all the time, and the meter counts it."),
            (power / 1e3, "watts for watt-hours", "That is the power in kW. Energy is power times time."),
            (power / 1e3 * share / 100, "watts for watt-hours", mean_power),
            ((power * minutes / 60 + fan_wh) / 1e3, "forgot the thermostat", always_on),
            (60 * answer, "minutes for hours", "You multiplied by minutes. A kilowatt-hour wants hours."),
            (1e3 * answer, "Wh for kWh", "That is in Wh; 1,000 Wh are 1 kWh."),
            (answer * 3.6, "MJ for kWh", "That is in MJ; 3.6 MJ are 1 kWh."),
        ],
    )
