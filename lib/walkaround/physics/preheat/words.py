"""A preheat in plain words: when the engine is ready, what holds the heater back, what it cost, and whether to start.

Functions that name temperatures take a `scale`: CELSIUS or FAHRENHEIT, which stands first then, the other in brackets
behind it, or ONLY_CELSIUS.
"""

import numpy as np

from walkaround.checks import SLACK
from walkaround.physics.preheat.history import warm_enough
from walkaround.units import fahrenheit

CAUTION = (
    "A heater can set fire to an aircraft and fill a hangar with carbon monoxide: keep it clear of fuel and all that "
    "burns, outside or well aired, with an extinguisher at hand. Never refuel it while it runs, and never leave one "
    "alone that is not approved for it. Blow no hot air on fabric covers, hoses or wiring, and leave the air a way "
    "out. An extension lead that is thin or still coiled can catch fire. Treat the propeller as live. The engine "
    "maker's limits and the aircraft's own handbook come first; this is a training aid with invented numbers."
)
HANDBOOK_FIRST = "The aircraft's handbook comes first."
CELSIUS, FAHRENHEIT, ONLY_CELSIUS = "°C", "°F", "only °C"


def on_scale(temperature_c, scale, below=None, above=None):
    """Write a temperature in °C on one scale, to the whole degree.

    `below` and `above` are temperatures in °C to which it is not rounded: what has not reached 10 °C is never shown as
    10 °C, and what has passed 118 °C never as 118 °C.

    >>> on_scale(-20.0, FAHRENHEIT), on_scale(9.8, CELSIUS), on_scale(9.8, CELSIUS, below=10.0)
    ('−4 °F', '10 °C', '9 °C')
    """
    shown = round(_on(temperature_c, scale))
    if below is not None and not warm_enough(temperature_c, below):
        shown = min(shown, round(_on(below, scale)) - 1)
    if above is not None and temperature_c > above:
        shown = max(shown, round(_on(above, scale)) + 1)
    return f"{shown:d} {FAHRENHEIT if scale == FAHRENHEIT else CELSIUS}".replace("-", "−")


def _on(temperature_c, scale):
    return float(fahrenheit(temperature_c) if scale == FAHRENHEIT else temperature_c)


def degrees(temperature_c, scale=CELSIUS, below=None, above=None):
    """Write a temperature in °C on both scales or only in °C, to the whole degree, as `on_scale` does.

    >>> degrees(20.04), degrees(20.04, FAHRENHEIT), degrees(20.04, ONLY_CELSIUS)
    ('20 °C (68 °F)', '68 °F (20 °C)', '20 °C')
    """
    if scale == ONLY_CELSIUS:
        return on_scale(temperature_c, scale, below, above)
    other = CELSIUS if scale == FAHRENHEIT else FAHRENHEIT
    first, second = (on_scale(temperature_c, s, below, above) for s in (scale, other))
    return f"{first} ({second})"


def whole_minutes(minutes):
    """Minutes rounded up to whole ones: what is said has to be long enough.

    >>> whole_minutes(46.2)
    47
    """
    return int(np.ceil(float(minutes) - SLACK))


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


def readiness_words(plan, scale=CELSIUS):
    """Say in one sentence when every part of a `Plan` is ready and which is last, or that the heating ends too early.

    >>> from walkaround.physics.preheat import Engine, Part, SumpPad, plan
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> readiness_words(plan(engine, {"oil": 10.0, "metal": 5.0}, -10.0, 150.0, pad=SumpPad(power_w=250.0)))
    'Metal and oil are ready after 1 h 58 min, the metal last.'
    """
    names, ready, heating = _listed(plan.ready_c).capitalize(), plan.ready_minutes, plan.warming
    if ready == 0:
        return f"{names} are ready from the start."
    if np.isinf(ready) and not heats(plan):
        return "Nothing heats the engine, so it never gets ready."
    if np.isinf(ready):
        why = next(_never_words(plan, scale), "its parts are never warm enough all at once")
        return f"This never gets the engine ready, however long it runs: {why}."
    if plan.ready_at_end_of_heating:
        then = heating.at(ready)
        last = min(plan.ready_c, key=lambda part: then[part] - plan.ready_c[part])
        return f"{names} are ready after {duration(ready)}, the {last} last."
    heated = f"After {duration(plan.heat_minutes)} of heating" if plan.heat_minutes > 0 else "Without heating"
    if plan.heat_minutes >= ready:
        return f"{heated} the engine is no longer ready, as it was after {duration(ready)}."
    return f"{heated} the engine is not ready: it takes {duration(ready)}."


def heats(plan):
    """Whether a `Plan` has anything switched on that heats, an air heater or a pad.

    >>> from walkaround.physics.preheat import Engine, Part, plan
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> heats(plan(engine, {"oil": 10.0, "metal": 5.0}, -10.0, 150.0))
    False
    """
    return bool(plan.heat_minutes > 0) and (plan.warming.cycle is not None or bool(plan.warming.pad_w > 0))


def missing_words(plan, scale=CELSIUS):
    """Say which parts of a `Plan` are too cold when the heating ends, and by how much; nothing if none is.

    >>> from walkaround.physics.preheat import Engine, Part, SumpPad, plan
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> missing_words(plan(engine, {"oil": 10.0, "metal": 5.0}, -10.0, 90.0, pad=SumpPad(power_w=250.0)))
    'The oil is ready, but the metal is at 2 °C (36 °F) instead of 5 °C (41 °F).'
    """
    warm, wanted = plan.at_end_of_heating, plan.ready_c
    cold = [part for part, c in wanted.items() if not warm_enough(warm[part], c)]
    if not cold:
        return ""
    each = _listed(
        f"{_the([part])} at {degrees(warm[part], scale, below=wanted[part])} instead of {degrees(wanted[part], scale)}"
        for part in cold
    )
    ready = [part for part in wanted if part not in cold]
    said = f"{_the(ready)} ready, but {each}." if ready else f"{each}."
    return said[0].upper() + said[1:]


def _never_words(plan, scale):
    """What each part that never gets ready lacks, the one that lacks most first."""
    lacks = {part: c - plan.warming.settles_c(part) for part, c in plan.ready_c.items()}
    for part in sorted(lacks, key=lambda part: -lacks[part]):
        wanted, settles = plan.ready_c[part], plan.ready_c[part] - lacks[part]
        if not warm_enough(settles, wanted):
            need = "need" if part.endswith("s") else "needs"
            settled = degrees(settles, scale, below=wanted)
            yield f"the {part} would settle at {settled} and {need} {degrees(wanted, scale)}"


def oil_words(plan, oil_limit_c, scale=CELSIUS):
    """Warn of oil that is, or in the end would be, hotter than the engine's limit in °C; nothing otherwise.

    >>> from walkaround.physics.preheat import Engine, Part, SumpPad, plan
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> oil_words(plan(engine, {"oil": 10.0, "metal": 5.0}, -10.0, 60.0, pad=SumpPad(power_w=900.0)), 110.0)
    "Don't leave it on for good: the oil would pass the limit of 110 °C (230 °F)."
    """
    limit, warm = degrees(oil_limit_c, scale), plan.at_end_of_heating["oil"]
    if warm > oil_limit_c:
        return f"Too hot: the oil is at {degrees(warm, scale, above=oil_limit_c)}, above the limit of {limit}."
    if plan.warming.settles_c("oil") > oil_limit_c:
        return f"Don't leave it on for good: the oil would pass the limit of {limit}."
    return ""


def start_words(plan):
    """Say how long the warmth of a `Plan` lasts with and without a cover, or that the engine is not to be started.

    >>> from walkaround.physics.preheat import Engine, Part, SumpPad, plan
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0), cover_loss_left=0.4)
    >>> start_words(plan(engine, {"oil": 10.0, "metal": 5.0}, -10.0, 150.0, pad=SumpPad(power_w=250.0)))
    "Once the heat is off the warmth lasts 16 min with the cover on and 11 min without. The aircraft's handbook comes \
first."
    """
    if plan.ready_at_end_of_heating:
        return f"{_lasting(plan)} {HANDBOOK_FIRST}"
    return HANDBOOK_FIRST if plan.ready_at_start else f"Don't start it like this. {HANDBOOK_FIRST}"


def wait_words(plan, scale=CELSIUS):
    """Say what the wait after the heating of a `Plan` does; nothing without one, or if the engine is too cold anyway.

    >>> from walkaround.physics.preheat import Engine, Part, SumpPad, plan
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> wait_words(plan(engine, {"oil": 10.0, "metal": 5.0}, -10.0, 150.0, pad=SumpPad(250.0), wait_minutes=30.0))
    "Don't start it: after 30 min of waiting the oil is down to 6 °C (42 °F)."
    """
    waited, wanted = f"after {duration(plan.wait_minutes)} of waiting", plan.ready_c
    if plan.wait_minutes == 0 or not (plan.ready_at_start or plan.ready_at_end_of_heating):
        return ""
    if not plan.ready_at_start:
        cold = min(wanted, key=lambda part: plan.at_start[part] - wanted[part])
        down_to = degrees(plan.at_start[cold], scale, below=wanted[cold])
        return f"Don't start it: {waited} {_the([cold])} down to {down_to}."
    if plan.ready_at_end_of_heating:
        return f"{waited.capitalize()} it is still ready to start."
    return f"{waited.capitalize()} it is ready to start: the warmer parts have warmed the others."


def _lasting(plan):
    """How long the warmth lasts, rounded down: what is promised has to last."""
    covered, bare = (_at_least(minutes) for minutes in (plan.with_cover, plan.without_cover))
    if covered == bare:
        return f"Once the heat is off the warmth lasts {covered}, with the cover on or without."
    return f"Once the heat is off the warmth lasts {covered} with the cover on and {bare} without."


def _at_least(minutes):
    if np.isinf(minutes):
        return "as long as it stays this warm outside"
    whole = np.floor(float(minutes) + SLACK)
    return duration(whole) if whole > 0 else "less than a minute"


def limit_words(warming, scale=CELSIUS):
    """Say what holds an air heater back, its power or its thermostat, in a `History`; nothing without one.

    >>> from walkaround.physics.preheat import AirHeater, Engine, Part, warming
    >>> engine = Engine(metal=Part(60e3, 6.0, 30.0), oil=Part(12e3, 2.0, 5.0, to_metal_w_per_k=14.0))
    >>> limit_words(warming(engine, -10.0, AirHeater(power_w=3000.0, flow_m3_h=200.0, thermostat_c=50.0)))
    "The heater's power is the limit: its air gets to 34 °C (93 °F) at most, below the thermostat's 50 °C (122 °F)."
    """
    c = warming.cycle
    if c is None:
        return ""
    setting_c = c.off_at + warming.outside_c
    setting = degrees(setting_c, scale)
    if np.isinf(c.first_off_s):
        most = degrees(c.full_rise + warming.outside_c, scale, below=setting_c)
        return f"The heater's power is the limit: its air gets to {most} at most, below the thermostat's {setting}."
    cycles = np.isfinite(c.period_s)
    share = c.duty if c.held else c.on_s / c.period_s if cycles else 0.0
    held = f"between {degrees(c.on_at + warming.outside_c, scale)} and {setting}" if cycles else f"at {setting}"
    on = f"with the heat on {100 * float(share):.0f} % of the time"
    return f"The thermostat is the limit: it holds the air {held}, {on}."


def fan_words(slow_minutes, fast_minutes):
    """Say which fan is ready first, and why.

    >>> fan_words(40.0, 30.0)
    'The high fan is ready 10 min sooner: more warm air, though each litre of it gives up less.'
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
        why = "more warm air, though each litre of it gives up less"
        return f"The high fan is ready {duration(difference)} sooner: {why}."
    return (
        f"The low fan is ready {duration(-difference)} sooner: the power is the limit, and the slower, "
        "warmer air leaves more of its heat in the engine."
    )


def outlay_words(plan, spent, cost, currency=""):
    """Say what the heating of a `Plan` used, a `Spent`, and what it cost; nothing if it used nothing.

    >>> from walkaround.physics.preheat import Engine, Part, Spent, plan
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> outlay_words(plan(engine, {"oil": 10.0, "metal": 5.0}, -10.0, 45.0), Spent(0.1, 1.0), 1.93, "€")
    '45 min of heating took 0.1 kWh and 1.0 L of fuel, 1.93 €.'
    """
    used = [f"{_amount(spent.electricity_kwh)} kWh"] if spent.electricity_kwh > 0 else []
    used += [f"{_amount(spent.fuel_l)} L of fuel"] if spent.fuel_l > 0 else []
    if not used:
        return ""
    return f"{duration(plan.heat_minutes)} of heating took {' and '.join(used)}, {cost:.2f} {currency}".strip() + "."


def _amount(amount):
    return f"{amount:.1f}" if amount >= 0.095 else f"{amount:.2g}"


def thickness_words(times_thicker):
    """Say how many times thicker oil is than when it is ready.

    >>> [thickness_words(times) for times in (31.6, 1.13, 1.0, 0.4)]
    ['32 times thicker than', '1.1 times thicker than', 'about as thin as', 'thinner than']
    """
    if times_thicker >= 1.05:
        return f"{f'{times_thicker:.2g}' if times_thicker < 9.5 else f'{times_thicker:,.0f}'} times thicker than"
    return "about as thin as" if times_thicker > 0.95 else "thinner than"


def cold_start_words(times_thicker, capacity_share=None):
    """Say what a start with cold oil asks of the starter: oil that much thicker than when it is ready, and the battery.

    `times_thicker` is infinite for oil that doesn't flow; `capacity_share` is left out where it isn't known.

    >>> cold_start_words(31.6, 0.53)
    'A start now meets oil 32 times thicker than when it is ready, and a battery with 53 % of its capacity.'
    """
    oil = "that does not flow" if np.isinf(times_thicker) else f"{thickness_words(times_thicker)} when it is ready"
    battery = "" if capacity_share is None else f", and a battery with {100 * capacity_share:.0f} % of its capacity"
    return f"A start now meets oil {oil}{battery}."


def _listed(names):
    *names, last = names
    return f"{', '.join(names)} and {last}" if names else last


def _the(parts):
    """The parts with their verb: "the oil is", "the metal and the cylinders are"."""
    return f"{_listed(f'the {part}' for part in parts)} {'are' if len(parts) > 1 or parts[0].endswith('s') else 'is'}"
