"""A preheat in plain words: when the engine is ready, what holds the heater back, what it cost, and whether to start."""

import numpy as np

from walkaround.units import fahrenheit

CAUTION = (
    "A heater can set fire to an aircraft and fill a hangar with carbon monoxide: keep it clear of fuel and of anything that "
    "burns, outside or well aired, and never leave one alone that is not approved for it. Treat the propeller as live. "
    "The engine maker's limits and the aircraft's own handbook come first; this is a training aid with invented numbers."
)


CELSIUS, FAHRENHEIT = "°C", "°F"


def on_scale(temperature_c, scale):
    """Write a temperature in °C on one scale, to the whole degree.

    >>> on_scale(-20.0, FAHRENHEIT)
    '−4 °F'
    """
    temperature = fahrenheit(temperature_c) if scale == FAHRENHEIT else temperature_c
    return f"{round(float(temperature)):d} {scale}".replace("-", "−")


def degrees(temperature_c):
    """Write a temperature on both scales, to the whole degree.

    >>> degrees(20.04)
    '20 °C (68 °F)'
    """
    return f"{on_scale(temperature_c, CELSIUS)} ({on_scale(temperature_c, FAHRENHEIT)})"


def whole_minutes(minutes):
    """Minutes rounded up to whole ones: what is said has to be long enough."""
    return int(np.ceil(float(minutes) - 1e-9))


def duration(minutes):
    """Write a length of time in minutes as a person says it; rounded up, so that what is said is long enough.

    >>> duration(46.2), duration(125.0), duration(np.inf)
    ('47 min', '2 h 5 min', 'for ever')
    """
    if not np.isfinite(minutes):
        return "for ever"
    whole = whole_minutes(minutes)
    hours = whole // 60
    if hours >= 48:
        return f"{hours} h"
    return f"{hours} h {whole % 60} min" if hours else f"{whole} min"


def sentence(plan, outlay=None, currency="", oil_limit_c=None):
    """Say what a plan of one setting comes to: readiness, what limits the heater, the wait, and what it used.

    Parameters: `plan`, a `preheat_plan.Plan`; `outlay`, its `Spent` and the cost as a pair, if they are to be said;
    `oil_limit_c`, the engine's highest oil temperature, if it is to be watched.
    """
    parts = [readiness_words(plan), limit_words(plan.warming), start_words(plan), oil_words(plan, oil_limit_c)]
    if outlay is not None:
        parts.append(outlay_words(plan, *outlay, currency))
    return " ".join(part for part in parts if part)


def readiness_words(plan):
    """Say when every part is ready, which is last, and what is missing if the heating ends too early."""
    names = _together(plan.reached_minutes)
    last = max(plan.reached_minutes, key=lambda part: plan.reached_minutes[part])
    if np.isinf(plan.ready_minutes):
        never = [part for part, minutes in plan.reached_minutes.items() if np.isinf(minutes)]
        each = [_never_words(part, plan.warming.settles_c(part), plan.ready_c[part]) for part in never]
        return f"This never gets the engine ready, however long it runs: {'; '.join(each)}."
    if plan.ready_minutes == 0:
        return f"{names} are ready from the start."
    when = duration(plan.ready_minutes)
    if plan.heat_minutes >= plan.ready_minutes:
        return f"{names} are ready after {when}, the {last} last."
    cold = [part for part, minutes in plan.reached_minutes.items() if minutes > plan.heat_minutes]
    warm = [part for part in plan.reached_minutes if part not in cold]
    each = " and ".join(
        f"the {part} at {degrees(plan.at_end_of_heating[part])} of {degrees(plan.ready_c[part])}" for part in cold
    )
    though = f", though the {' and the '.join(warm)} {_is(warm)}" if warm else ""
    return f"After {duration(plan.heat_minutes)} of heating the engine is not ready{though}: {each}; it takes {when}."


def _never_words(part, settles_c, wanted_c):
    if round(float(settles_c)) == round(float(wanted_c)):
        return f"the {part} would settle just below {degrees(wanted_c)}"
    return f"the {part} would settle at {degrees(settles_c)} and {'need' if part.endswith('s') else 'needs'} {degrees(wanted_c)}"


def oil_words(plan, oil_limit_c):
    """Warn of oil that is, or in the end would be, hotter than the engine's limit; nothing otherwise."""
    if oil_limit_c is None:
        return ""
    if plan.at_end_of_heating["oil"] > oil_limit_c:
        return f"Too hot: the oil is at {degrees(plan.at_end_of_heating['oil'])}, above the limit of {degrees(oil_limit_c)}."
    if plan.warming.settles_c("oil") > oil_limit_c:
        return f"Never left on for good: the oil would pass the limit of {degrees(oil_limit_c)}."
    return ""


def start_words(plan):
    """Say whether the engine may be started after the wait, and how long the warmth lasts with and without a cover."""
    lasts = f"Once the heat is off the warmth lasts {_whole(plan.with_cover)} with the cover on and {_whole(plan.without_cover)} without."
    handbook = "The engine maker's handbook comes first."
    ready_when_off = np.all([plan.at_end_of_heating[p] >= c - 1e-6 for p, c in plan.ready_c.items()])
    if plan.ready_at_start and not ready_when_off:
        waited = duration(plan.wait_minutes)
        return f"After {waited} of waiting it is ready to start: the warmer parts have warmed the others. {handbook}"
    if not ready_when_off:
        return f"Don't start it like this. {handbook}"
    if not plan.ready_at_start:
        cold = min(plan.ready_c, key=lambda p: plan.at_start[p] - plan.ready_c[p])
        return (
            f"Don't start it: after {duration(plan.wait_minutes)} of waiting the {cold} "
            f"{_is([cold], 'down')} to {degrees(plan.at_start[cold])}. {lasts}"
        )
    waited = (
        f" After {duration(plan.wait_minutes)} of waiting it is still ready to start." if plan.wait_minutes > 0 else ""
    )
    return f"{lasts}{waited} {handbook}"


def limit_words(warming):
    """Say what holds an air heater back, its power or its thermostat; nothing without one."""
    c = warming.cycle
    if c is None:
        return ""
    setting = degrees(c.off_at + warming.outside_c)
    if np.isinf(c.first_off_s):
        return (
            f"The heater's power is the limit: its air gets to {degrees(c.full_rise + warming.outside_c)} at most, "
            f"below the thermostat's {setting}."
        )
    share = c.duty if c.held else 0.0 if np.isinf(c.period_s) else c.on_s / c.period_s
    return f"The thermostat is the limit: it holds the air at {setting}, with the heat on {100 * float(share):.0f} % of the time."


def fan_words(slow_minutes, fast_minutes):
    """Say which fan is ready first, and why.

    >>> fan_words(40.0, 30.0)
    'The high fan is ready 10 min sooner: more warm air, though each part of it gives up less.'
    """
    difference = slow_minutes - fast_minutes if np.isfinite([slow_minutes, fast_minutes]).any() else np.nan
    if np.isnan(difference):
        return "Neither fan gets the engine ready."
    if abs(difference) < 0.5:
        return "Low and high fan are ready at the same time."
    if np.isinf(difference):
        only, other = ("high", "low") if difference > 0 else ("low", "high")
        return f"Only the {only} fan gets the engine ready; the {other} one never does."
    if difference > 0:
        return (
            f"The high fan is ready {duration(difference)} sooner: more warm air, though each part of it gives up less."
        )
    return (
        f"The low fan is ready {duration(-difference)} sooner: the power is the limit, and the slower, "
        "warmer air leaves more of its heat in the engine."
    )


def outlay_words(plan, spent, cost, currency=""):
    """Say what the heating used and cost."""
    used = [f"{spent.electricity_kwh:.1f} kWh"] if spent.electricity_kwh > 0 else []
    used += [f"{spent.fuel_l:.1f} L of fuel"] if spent.fuel_l > 0 else []
    if not used:
        return ""
    return f"{duration(plan.heat_minutes)} of heating took {' and '.join(used)}, {cost:.2f} {currency}".strip() + "."


def cold_start_words(times_thicker, capacity_share=None):
    """Say what a start without preheating asks of starter, oil and battery.

    >>> cold_start_words(31.6, 0.53)
    'Started cold, the oil is 32 times thicker than when it is ready, and the battery has 53 % of its capacity to turn the engine.'
    """
    text = f"Started cold, the oil is {times_thicker:,.0f} times thicker than when it is ready"
    if capacity_share is None:
        return f"{text}."
    return f"{text}, and the battery has {100 * capacity_share:.0f} % of its capacity to turn the engine."


def _together(parts):
    names = list(parts)
    return f"{', '.join(names[:-1])} and {names[-1]}".capitalize()


def _is(parts, then="ready"):
    verb = "are" if len(parts) > 1 or parts[0].endswith("s") else "is"
    return f"{verb} {then}"


def _whole(minutes):
    """Rounded down: what is promised has to last."""
    if np.isfinite(minutes):
        return duration(np.floor(float(minutes) + 1e-9))
    return "as long as it stays this warm outside"
