"""Live demonstration of preheating: a cold engine, a heater, a pad, a cover, and when it may be started."""

import numpy as np

from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters, read_heaters
from walkaround.lessons.preheat.controls import NO_HEATER, Controls, presets
from walkaround.lessons.preheat.picture import PreheatPicture
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.electrical.battery import COLDEST_C, capacity_share
from walkaround.physics.oil.viscosity import times_thicker
from walkaround.physics.preheat import words as preheat_words
from walkaround.physics.preheat.engine import warming
from walkaround.physics.preheat.plans import plan, spent
from walkaround.physics.preheat.words import degrees, duration


def demo(name="morrowlark_four", heater_file=None):
    """Return the live demonstration for a demo aircraft's name, or for paths of an aircraft file and a heater file."""
    craft = aircraft.with_sections(name, "engine")
    section, heaters = craft.engine, demo_heaters() if heater_file is None else read_heaters(heater_file)
    controls = Controls(heaters)

    def work(values):
        setting = controls.in_celsius(values)
        moment, scale = setting.pop("moment"), setting.pop("degrees")
        made, verdict, words = _planned(section, heaters, **setting)
        return Worked((made, moment, scale), (verdict, words, made, moment))

    def say(said):
        verdict, words, made, moment = said
        return verdict, f"{words} {_moment_words(made, moment)}"

    return Stage(
        f"{craft.name}: warm a cold engine",
        controls.by_name,
        PreheatPicture(section.engine().parts, section.ready_c, section.oil),
        work,
        say,
        presets(heaters.air_heaters[0]),
        preheat_words.CAUTION,
        controls.fit,
        controls.as_shown,
    )


def _planned(section, heaters, outside, wind, heater, fast, thermostat, power, pad, cover, heat, wait, left_on):
    """The plan that the controls ask for (temperatures in °C), its verdict and its words."""
    engine, ready_c = section.engine(), section.ready_c
    kind = None if heater == NO_HEATER else heaters.air_heater(heater)
    blower = kind and kind.set_to("high" if fast else "low", thermostat, power)
    on_sump = heaters.pads[0].set_to() if pad else None
    made = plan(engine, ready_c, outside, heat, blower, on_sump, cover, wind, wait, left_on)
    parts = [preheat_words.readiness_words(made)]
    asked = outside < section.preheat_below_c
    if made.ready_at_start or asked:
        parts.append(preheat_words.start_words(made))
    else:
        parts.append(
            f"This engine asks for preheating below {degrees(section.preheat_below_c)}: this morning it may be "
            "started cold, though warm oil reaches its bearings sooner."
        )
    parts += [preheat_words.oil_words(made, section.oil_limit_c), preheat_words.limit_words(made.warming)]
    # A fast fan whose air the thermostat holds brings more of the same: there is nothing to compare.
    if kind and (not fast or np.isinf(made.warming.cycle.first_off_s)):
        other = warming(
            engine, outside, kind.set_to("low" if fast else "high", thermostat, power), on_sump, cover, wind
        )
        minutes, other_minutes = float(made.ready_minutes), float(other.ready_minutes(ready_c))
        if other_minutes < minutes - 0.5:
            parts.append(preheat_words.fan_words(*((other_minutes, minutes) if fast else (minutes, other_minutes))))
    flows = section.oil.pour_point_c <= outside < section.ready_oil_c
    if asked and flows and not made.ready_at_start:
        parts.append(_cold_start_words(section, outside))
    used = spent(made.heat, heaters.fuel_of(kind))
    parts.append(preheat_words.outlay_words(made, used, heaters.cost(used, kind), heaters.currency))
    return made, _verdict(section, made, asked), " ".join(part for part in parts if part)


def _verdict(section, made, asked):
    if made.at_end_of_heating["oil"] > section.oil_limit_c:
        return STOP
    return OK if made.ready_at_start else STOP if asked else NOTE


def _cold_start_words(section, outside_c):
    oil = section.oil
    times = times_thicker(outside_c, section.ready_oil_c, oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s)
    share = float(capacity_share(outside_c)) if outside_c >= COLDEST_C else None
    return preheat_words.cold_start_words(float(times), share)


def _moment_words(made, moment):
    """What the engine sketch shows, for anyone who can't see it."""
    now = made.temperatures_c(float(moment))
    each = [f"{part} {degrees(t)}" for part, t in zip(made.warming.parts, now, strict=False)]
    return f"The engine is shown after {duration(moment)}: {', '.join(each)}."
