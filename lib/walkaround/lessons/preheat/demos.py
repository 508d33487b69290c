"""Live demonstration of preheating: a cold engine, a heater, a pad, a cover, and when it may be started."""

import numpy as np

from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters, read_heaters
from walkaround.lessons.preheat.controls import NO_HEATER, Controls, presets
from walkaround.lessons.preheat.picture import PreheatPicture
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.electrical.battery import COLDEST_C, capacity_share
from walkaround.physics.oil.viscosity import times_thicker
from walkaround.physics.preheat import words
from walkaround.physics.preheat.plans import plan, spent
from walkaround.physics.preheat.words import degrees, duration


@in_chosen_units
def demo(name="morrowlark_four", heater_file=None):
    """Return the live demonstration for a demo aircraft's name, or for paths of an aircraft file and a heater file."""
    craft = aircraft.with_sections(name, "engine")
    section, heaters = craft.engine, demo_heaters() if heater_file is None else read_heaters(heater_file)
    controls = Controls(heaters)

    def work(values):
        v = controls.in_celsius(values)
        kind, made = _planned(section, heaters, v)
        return Worked((made, v["moment"], scale := controls.scale(v)), (v, kind, made, scale))

    def say(said):
        return _verdict(section, said[2]), *_words(section, heaters, *said)  # the most important first

    return Stage(
        f"{craft.name}: warm a cold engine",
        controls.by_name,
        PreheatPicture(section.engine().parts, section.ready_c, section.oil, both_scales="degrees" in controls.by_name),
        work,
        say,
        presets(heaters.air_heaters[0]),
        words.CAUTION,
        controls.fit,
        controls.as_shown,
    )


def _planned(section, heaters, v):
    """The kind of heater and the plan that the controls ask for."""
    kind = None if v["heater"] == NO_HEATER else heaters.air_heater(v["heater"])
    blower = kind and kind.set_to("high" if v["fast"] else "low", v["thermostat"], v["power"])
    pad = heaters.pads[0].set_to() if v["pad"] else None
    then = v["cover"], v["wind"], v["wait"], v["left_on"]
    return kind, plan(section.engine(), section.ready_c, v["outside"], v["heat"], blower, pad, *then)


def _asked(section, made):
    """Whether the engine is to be preheated at all, this morning."""
    return bool(made.warming.outside_c < section.preheat_below_c)


def _verdict(section, made):
    if made.at_end_of_heating["oil"] > section.oil_limit_c:
        return STOP
    return OK if made.ready_at_start else STOP if _asked(section, made) else NOTE


def _words(section, heaters, v, kind, made, scale):
    """The sentence, and what else there is to know, the most important first."""
    asked, heated = _asked(section, made), words.heats(made)
    readiness, waited = words.readiness_words(made, scale), words.wait_words(made, scale)
    hot = words.oil_words(made, section.oil_limit_c, scale) if heated else ""
    more = [readiness, words.missing_words(made, scale)]
    if made.at_end_of_heating["oil"] > section.oil_limit_c:
        said = hot
    elif not made.ready_at_start and not asked:
        below = degrees(section.preheat_below_c, scale)
        said = f"This morning it may be started cold: below {below} this engine asks for preheating."
        more.append("Warm oil reaches its bearings sooner.")
    else:
        # A wait that changes the verdict comes first.
        changed = made.ready_at_start != made.ready_at_end_of_heating
        said, *more = (waited, *more) if changed else (*more, waited)
        cold = not (made.ready_at_start or made.ready_at_end_of_heating)
        start = words.start_words(made)
        more = [start, *more, hot] if cold else [*more, start, hot]
    if heated:
        fan = _other_fan_words(section, heaters, v, kind, made)
        more += [fan, words.limit_words(made.warming, scale)]
    if asked and not made.ready_at_start:
        more.append(_cold_start_words(section, v["outside"], float(made.at_start["oil"])))
    used = spent(made.heat, heaters.fuel_of(kind))
    more.append(words.outlay_words(made, used, heaters.cost(used, kind), heaters.currency))
    # What the engine sketch shows, for anyone who can't see it.
    now = zip(made.warming.parts, made.temperatures_c(float(v["moment"])), strict=False)
    each = (f"{part} {degrees(t, scale, below=made.ready_c[part])}" for part, t in now)
    more.append(f"The engine is shown after {duration(v['moment'])}: {', '.join(each)}.")
    return said, *more


def _other_fan_words(section, heaters, v, kind, made):
    """Which fan is ready sooner, if it is the other one."""
    # A fast fan whose air the thermostat holds brings more of the same: there is nothing to compare.
    if kind is None or (v["fast"] and np.isfinite(made.warming.cycle.first_off_s)):
        return ""
    _, other = _planned(section, heaters, {**v, "fast": not v["fast"]})
    if other.ready_minutes >= made.ready_minutes - 0.5:
        return ""
    slow, fast = (other, made) if v["fast"] else (made, other)
    return words.fan_words(float(slow.ready_minutes), float(fast.ready_minutes))


def _cold_start_words(section, outside_c, oil_c):
    """What a start would ask of the starter: oil as warm as it is by then, and a battery that nobody has warmed."""
    oil = section.oil
    times = float(times_thicker(oil_c, section.ready_oil_c, oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s))
    share = float(capacity_share(outside_c)) if outside_c >= COLDEST_C else None
    thick = words.thickness_words(times).endswith("thicker than")
    return words.cold_start_words(np.inf if oil_c < oil.pour_point_c else times, share) if thick else ""
