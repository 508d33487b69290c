"""What the demonstration says of a climb: the verdict, one sentence, and what more there is to know."""

from walkaround import checks
from walkaround.lessons.cooling.climb import CLIMB_MIN
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.cooling import LEFT, OIL, RIGHT
from walkaround.units import KELVIN_AT_0C

CAUTION = (
    "Treat the propeller as live when you reach into an intake: ignition off, key out, and stay out of its arc. A hot "
    "engine burns, hours after it has stopped. The aircraft's own handbook says what its limits are and what to do at "
    "them; this is a training aid with invented numbers."
)
RULES = (
    "Rules of thumb: how the propeller's slipstream adds to the speed, and how the banks share the air. The air stays "
    "as warm and as dense as at the field."
)
FLYING = "In flight: less power, more speed, a lower nose, mixture as the aircraft's handbook says; land and look."


def degrees(temperature_c, unit=" °C"):
    """Write a temperature."""
    return f"{temperature_c:.0f}{unit}".replace("-", "−")


def duration(minutes):
    """Write minutes, short ones in seconds; before 0 with a minus."""
    short = abs(minutes) < 0.995
    return (f"{60 * minutes:.0f} s" if short else f"{minutes:.1f} min").replace("-", "−")


def when(minutes):
    """Write a moment in minutes of climb."""
    if minutes == 0:
        return "with take-off power on"
    return f"{duration(minutes)} into the climb" if minutes > 0 else f"{duration(-minutes)} before take-off"


def part_name(part):
    """Write the name of a part."""
    return {OIL: "oil", LEFT: "left heads", RIGHT: "right heads"}[part]


def say(climb):
    """Return the verdict and the sentence."""
    first, limits, hottest = climb.first, climb.limits_c, climb.hottest_c
    if first is not None:
        there = climb.at(first.minutes)
        limit = degrees(limits[first.part])
        alike = abs(there[LEFT] - there[RIGHT]) < 0.5
        name = "heads" if alike and first.part != OIL else part_name(first.part)
        reach = "reaches its limit" if first.part == OIL else "reach their limit"
        opening = f"The {name} {reach}, {limit}, {when(first.minutes)}"
        if first.part == OIL:
            return STOP, f"{opening}; the heads' gauge shows {degrees(there[climb.gauge])}."
        if first.part == climb.gauge:
            return STOP, f"{opening}, and the gauge shows it."
        return STOP, f"{opening}. The gauge, on the {climb.gauge}, shows {degrees(there[climb.gauge])}."
    end = climb.at(CLIMB_MIN)
    if climb.blocked:
        more = {part: hottest[part] - climb.clear.hottest_c[part] for part in limits}
        part = max(more, key=lambda p: more[p])
        name = f"{part_name(part)} {'is' if part == OIL else 'are'}"
        return NOTE, (
            f"Below the limits for {CLIMB_MIN:.0f} min, but the {name} up to {degrees(more[part])} hotter than with "
            "both intakes clear: don't take off like this."
        )
    if climb.kit_too_warm:
        off = degrees(climb.section.kit.off_above_c)
        return NOTE, f"Below the limits, but the winter kit belongs off above {off}: oil up to {degrees(hottest[OIL])}."
    if not checks.at_least(end[OIL], climb.section.oil_green_c, KELVIN_AT_0C):
        green = degrees(climb.section.oil_green_c)
        return (
            NOTE,
            f"Too cold: after {CLIMB_MIN:.0f} min the oil is at {degrees(end[OIL])}, and green begins at {green}.",
        )
    heads = max(hottest[LEFT], hottest[RIGHT])
    return OK, (
        f"Below the limits all the way: heads up to {degrees(heads)} of {degrees(limits[LEFT], '')}, oil up to "
        f"{degrees(hottest[OIL])} of {degrees(limits[OIL], '')}."
    )


def notes(climb):
    """Say what more there is to know, the most important first."""
    found, p, limits = [], climb.plan, climb.limits_c
    if climb.blocked or climb.kit_too_warm:
        ready, clear = climb.at(0.0), climb.clear.at(0.0)
        green = ready[climb.gauge] < limits[climb.gauge] and ready[OIL] < limits[OIL]
        found.append(
            f"After the run-up the gauges show heads {degrees(ready[climb.gauge])} and oil {degrees(ready[OIL], '')}"
            f"{', below the red lines' if green else ''}; with all clear, {degrees(clear[climb.gauge], '')} and "
            f"{degrees(clear[OIL], '')}."
        )
    found.append(change_gains(climb))
    if climb.first is not None and climb.first.minutes < 0:
        found.append("Shut down, and look into the cowl.")
    elif climb.first is not None:
        found.append(FLYING)
    if climb.first is None and p.outside_c < 0 and not p.kit and not climb.blocked:
        warm = degrees(climb.section.kit.off_above_c)
        found.append(f"The winter kit is for days up to {warm}.")
    found.append(RULES)
    return found


def change_gains(climb):
    """Say what the change of power and speed gains or costs, or where it gains nothing, what it is; or nothing."""
    before, after, p = climb.unchanged.first, climb.first, climb.plan
    if not climb.changes:
        return ""
    if before is None:
        return f"After {duration(p.change_min)}: {100 * p.then_power:.0f} % of power at {p.then_kt:.0f} kt."
    if before.minutes <= p.change_min:
        return ""
    reached = f"Without the change, the limit comes {when(before.minutes)}; "
    if after is None:
        return f"{reached}with it, not at all."
    gained = after.minutes - before.minutes
    return f"{reached}the change {'gains' if gained >= 0 else 'costs'} {duration(abs(gained))}."


def as_the_pilot(climb, minutes):
    """Return the verdict and the sentence of one who sees the gauges and nothing else."""
    there, limits = climb.at(minutes), climb.limits_c
    over = any(checks.at_least(there[part], limits[part], KELVIN_AT_0C) for part in (climb.gauge, OIL))
    shows = (
        f"heads {degrees(there[climb.gauge])} of {degrees(limits[LEFT], '')}, oil {degrees(there[OIL])} of "
        f"{degrees(limits[OIL], '')}"
    )
    at = when(minutes).capitalize()
    return (STOP, f"{at}: {shows}. Past the red line.") if over else (NOTE, f"{at}: {shows}. Would you go on?")
