"""Questions on cranking: where the speed settles, what reaches the propeller, and what three tries leave."""

import numpy as np

from walkaround import aircraft
from walkaround.assessment.builders import number
from walkaround.lessons.ground_power.questions.scenario import RPM, celsius_text, facts
from walkaround.physics.electrical import capacity_share, cranking_torque_nm, share_used
from walkaround.physics.oil import viscosity_mm2_s

TRIES = 3


def questions(v, g):
    """Questions on cranking for a student's draws `v` and `Givens` `g`."""
    return _turns(g), _power(g), _left(v, g)


def _torques(g):
    """Whole N·m at the speeds of RPM: what the starter gives, and what the engine asks with cold and warm oil."""
    craft = aircraft.demo("morrowlark_four")
    section, oil = craft.starting, craft.engine.oil
    whole_ohm = (g.inner_mohm + g.cable_mohm) / 1e3 + section.starter_ohm
    k = section.starter_nm_per_a
    gives = k * (g.source_v - k * RPM * np.pi / 30) / whole_ohm
    at = (oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s)
    asks = [cranking_torque_nm(RPM, viscosity_mm2_s(c, *at), section.drag) for c in (g.outside_c, 10.0)]
    shown = gives > 0
    return [np.round(column[shown]) for column in (RPM, gives, *asks)]


def _crossing(rpm, gives, asks):
    """Where the starter's torque falls below the engine's: the line before it, the gaps on either side, the speed."""
    i = int(np.argmax(gives < asks)) - 1
    before, after = gives[i] - asks[i], asks[i + 1] - gives[i + 1]
    return rpm[i], before, after, rpm[i] + (rpm[i + 1] - rpm[i]) * before / (before + after)


def _turns(g):
    rpm, gives, cold, warmed = _torques(g)
    line, before, after, read = _crossing(rpm, gives, cold)
    *_, read_warm = _crossing(rpm, gives, warmed)
    head = ("rpm", "starter gives", f"engine needs, oil at {celsius_text(g.outside_c)}", "engine needs, oil at 10 °C")
    rows = zip(rpm, gives, cold, warmed, strict=True)
    return number(
        "turns",
        "How fast it turns",
        f"The table has torques in N·m at the crankshaft. How fast does the starter turn the engine with its oil at "
        f"{celsius_text(g.outside_c)}? Between two rows, take a straight line.",
        answer=float(g.cold.rpm),
        unit="rpm",
        tolerance=3,
        points=3,
        table=(head, *(tuple(f"{value:.0f}" for value in row) for row in rows)),
        hint="It speeds up while the starter gives more than the engine needs. Where are the two the same?",
        worked=(
            f"at {line:.0f} rpm the starter gives {before:.0f} N·m more than the engine needs, at {line + 20:.0f} rpm "
            f"{after:.0f} N·m less",
            f"{line:.0f} + 20 × {before:.0f} ÷ ({before:.0f} + {after:.0f}) = {read:.0f} rpm",
            f"with the oil at 10 °C it would be about {read_warm:.0f} rpm",
        ),
        wrong=[
            (float(g.warmed.rpm), "column of the warm oil", "That is with the oil at 10 °C. This oil is cold."),
            (
                float(g.cold.torque_nm),
                "torque for speed",
                "That is the torque in N·m. At what speed are they the same?",
            ),
            (float(line), "did not read between the rows", "There the starter still gives more: it turns faster.")
            if g.cold.rpm - line > 7
            else None,
        ],
    )


def _power(g):
    rpm, torque = round(float(g.cold.rpm)), round(float(g.cold.torque_nm))
    turning, whole = torque * rpm * 2 * np.pi / 60, g.source_v * g.current_a
    answer = 100 * turning / whole
    return number(
        "power",
        "What reaches the propeller",
        f"While it cranks, the engine is turned with {torque} N·m at {rpm} rpm, and the battery gives {g.current_a} A "
        f"at the {g.source_v:.1f} V that it has at rest. What share of that power turns the engine, in percent? "
        "The rest is heat.",
        answer=answer,
        unit="%",
        tolerance=1,
        points=3,
        hint="Watts are V × A, and N·m × radians per second. A turn has 2 × 3.1416 radians, a minute 60 seconds.",
        worked=(
            f"turning: {torque} × {rpm} × 2 × 3.1416 ÷ 60 = {torque * rpm * 2 * 3.1416 / 60:,.0f} W",
            f"given: {g.source_v:.1f} × {g.current_a} = {whole:,.0f} W",
            f"{turning:,.0f} ÷ {whole:,.0f} × 100 = {100 * round(turning) / round(whole):.0f} %",
        ),
        wrong=[
            (100 - answer, "heat for turning", "That is the share that becomes heat."),
            (answer * 60 / 2 / np.pi, "rpm for radians per second", "Turn rpm into radians per second: × 2π ÷ 60."),
            (answer / 2 / np.pi, "turns for radians", "A turn has 2π radians."),
            (turning, "watts for percent", "That is in watts. What share of the battery's watts is it?"),
        ],
    )


def _left(v, g):
    seconds, rated = v.number("seconds", 8, 15), aircraft.demo("morrowlark_four").starting.rated_ah
    hours = seconds / 3600
    can_give = round(g.current_a * hours / float(share_used(g.current_a, seconds, rated, g.outside_c)), 1)
    used = TRIES * g.current_a * hours
    answer = 100 * (1 - used / can_give)
    by_rating = (
        f"You took the {rated:.0f} Ah that stand on it. That is warm, and in an hour: in this cold and at this current "
        "it gives far less."
    )
    return number(
        "left",
        "What three tries leave",
        f"The battery is rated at {rated:.0f} Ah. In this cold it has {100 * capacity_share(g.outside_c):.0f} % of "
        f"that (a rule of thumb), and at {g.current_a} A it can give only {can_give:.1f} Ah (Peukert's law, another "
        f"one). After three tries of {seconds:.0f} s each, what percent of those {can_give:.1f} Ah is left?",
        answer=answer,
        unit="%",
        tolerance=1.5,
        points=3,
        table=facts(g),
        hint="Ampere-hours are amperes times hours: 3,600 seconds are an hour.",
        worked=(
            f"used: 3 × {seconds:.0f} × {g.current_a} ÷ 3,600 = {used:.2f} Ah",
            f"100 − {used:.2f} ÷ {can_give:.1f} × 100 = {100 - 100 * round(used, 2) / can_give:.0f} %",
        ),
        wrong=[
            (100 - answer, "used for left", "That is what the three tries used."),
            (100 * (1 - used / TRIES / can_give), "one try only", "That is what one try leaves. There were three."),
            (100 * (1 - used / rated), "the rated charge", by_rating),
        ],
    )
