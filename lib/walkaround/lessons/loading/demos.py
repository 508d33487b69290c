"""Live demonstration of weight and balance: seats, holds and tanks against the envelope."""

from walkaround import aircraft, measures
from walkaround.lessons.loading.picture import LoadingPicture
from walkaround.lessons.loading.two_holds_picture import TwoHoldsPicture
from walkaround.live.controls import choice, slider
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.loading import filled, load_sheet, loads_inside, most_fuel, most_in_station
from walkaround.physics.loading.words import fix_words, reasons, sentence, smallest_fix
from walkaround.physics.loading.words import say as say_amount

CAUTION = (
    "A training aid with an invented aircraft. It looks only at weight and balance, not at the fuel reserve. For a "
    "real flight use the weighing report and the handbook of that aircraft; secure every bag, one on a seat too, clear "
    "of the controls; and have a load you are unsure of checked by a licensed person."
)

# Ready-made loads, as shares of each station's maximum, so that they fit any aircraft file.
PRESETS = {
    "pilot alone, half fuel": ({"seat": (0.36, 0.0), "hold": (0.0, 0.0)}, 0.5, 0.3),
    "two up, weekend bags": ({"seat": (0.681, 0.0), "hold": (0.462, 0.0)}, 0.613, 0.409),
    "four up and a picnic": ({"seat": (0.66, 0.75), "hold": (0.15, 0.0)}, 0.5, 0.35),
    "camping, tail-heavy": ({"seat": (0.4, 0.9), "hold": (0.9, 0.5)}, 0.45, 0.35),
    "full to the brim": ({"seat": (0.8, 0.8), "hold": (0.8, 0.6)}, 1.0, 0.6),
}


@in_chosen_units
def demo(name="morrowlark_four", category=None):
    """Return the live demonstration for a demo aircraft's name, or for the path of an aircraft file.

    >>> demo("tansy_two").words.split(":")[0]
    'Inside normal limits all the way'
    """
    craft = aircraft.with_sections(name)
    unit, (_, volume_step) = craft.units, _steps(craft)
    presets = _presets(name, craft)
    start = presets["two up, weekend bags"]
    controls = {"_load": "Load", **_station_sliders(craft, start), "_fuel": "Fuel at start-up"}
    for t in craft.fuel.tanks:
        controls[t.name] = slider(t.name, unit.volume, 0, _end(t.usable, volume_step), start[t.name], volume_step)
    controls["trip fuel"] = _trip_slider(craft, start)
    if len(craft.envelopes) > 1:
        controls["category"] = choice("limits", [e.name for e in craft.envelopes], category)

    def work(values):
        stations = {s.name: values[s.name] for s in craft.stations}
        fuel = {t.name: values[t.name] for t in craft.fuel.tanks}
        flight = (0.0, values["trip fuel"], values.get("category"))
        sheet = load_sheet(craft, stations, fuel, *flight)
        fix = None if sheet.loadable else smallest_fix(craft, stations, fuel, *flight)
        return Worked((sheet, stations, fuel), (sheet, stations, *_said(sheet, fix)))

    title = f"{craft.name}: load it and watch the balance"
    return Stage(title, controls, LoadingPicture(craft), work, _judged, presets, CAUTION)


@in_chosen_units
def holds(name="morrowlark_four"):
    """Return the live demonstration of what may still go into the two holds, the rest of the load being given.

    >>> holds().words
    '15 lb in hold A and 0 lb in hold B are inside all the way.'
    """
    craft = aircraft.with_sections(name)
    first, second = (h.name for h in craft.holds[:2])
    unit, start = craft.units, _presets(name, craft)["four up and a picnic"]
    controls = _station_sliders(craft, start)
    fuel_at_start = sum(start[t.name] for t in craft.fuel.tanks)
    controls["fuel"] = slider("fuel at start", unit.volume, 0, _end(_usable(craft), 1), fuel_at_start, 1)
    controls["trip fuel"] = _trip_slider(craft, start)

    def work(values):
        stations = {s.name: values[s.name] for s in craft.stations}
        loads = stations[first], stations[second]
        flight = filled(craft, values["fuel"]), 0.0, values["trip fuel"]
        sheet = load_sheet(craft, stations, *flight)
        text, more = _said(sheet)
        if sheet.loadable:
            most = most_in_station(craft, first, stations, *flight)
            fuel = say_amount(most_fuel(craft, stations, 0.0, values["trip fuel"]), unit.volume)
            text = f"{weight(loads[0])} in {first} and {weight(loads[1])} in {second} are inside all the way."
            more = (
                f"With the rest as it is, {first} could hold {weight(most)} at most, and the most fuel that this cabin "
                f"could take is {fuel}."
            )
        area = loads_inside(craft, first, second, stations, *flight)
        return Worked((area, *loads, bool(sheet.loadable)), (sheet, stations, text, more))

    def weight(value):
        # Cut off, not rounded: what is named as the most has to fit.
        return say_amount(value // 1 if unit.weight == "lb" else value * 10 // 1 / 10, unit.weight)

    title = f"{craft.name}: what may still go into the holds?"
    return Stage(title, controls, TwoHoldsPicture(craft, first, second), work, _judged, caution=CAUTION)


def _said(sheet, fix=None):
    """Return the sentence on a load, and a second line: what else is wrong, and what would help."""
    why = reasons(sheet)
    if not why:
        return sentence(sheet), ""
    more = [f"Also: {'; '.join(why[1:])}."] * (len(why) > 1)
    if fix:
        more.append(fix_words(fix, sheet.aircraft.units))
    return f"Not loadable within {sheet.envelope.name} limits: {why[0]}.", " ".join(more)


def _judged(said):
    """Return the verdict on a load sheet with what is said of it."""
    sheet, stations, text, more = said
    places = sheet.aircraft.stations
    controls = next((s for s in places if s.kind == "seat"), places[0])
    if not stations[controls.name]:
        return (NOTE if sheet.loadable else STOP), text, f"Nobody sits at the controls yet. {more}".strip()
    return (OK if sheet.loadable else STOP), text, more


def _station_sliders(craft, start):
    step, _ = _steps(craft)
    ends = {s.name: _end(s.maximum, step) for s in craft.stations}
    return {name: slider(name, craft.units.weight, 0, end, start[name], step) for name, end in ends.items()}


def _trip_slider(craft, start):
    _, step = _steps(craft)
    return slider("used in flight", craft.units.volume, 0, _end(_usable(craft), step), start["trip fuel"], step)


def _usable(craft):
    return sum(t.usable for t in craft.fuel.tanks)


def _steps(craft):
    return {"lb": 5, "kg": 1}[craft.units.weight], {"US gal": 0.5, "L": 1}[craft.units.volume]


def _end(most, step):
    # Where a slider shows whole numbers, it doesn't end between two of them.
    return most // 1 if step >= 1 else most


def _presets(name, craft):
    """The ready-made loads as the sliders take them: the same ones in the units of the file and in those shown."""
    with measures.shown_in(None):
        own = aircraft.with_sections(name)
    presets = {preset: ready_made(own, *parts) for preset, parts in PRESETS.items()}
    if own.units == craft.units:
        return presets
    weights = {s.name for s in craft.stations}
    step, volume_step = _steps(craft)

    def told(key, value):
        kind, to = ("weight", step) if key in weights else ("volume", volume_step)
        converted = measures.converted(value, getattr(own.units, kind), getattr(craft.units, kind))
        return to * round(converted / to)

    return {preset: {key: told(key, x) for key, x in values.items()} for preset, values in presets.items()}


def ready_made(craft, shares, fuel_share, trip_share):
    """Return a ready-made load as the controls have it, from a row of PRESETS."""
    step, volume_step = _steps(craft)
    values = {s.name: 0 for s in craft.stations}
    for kind in ("seat", "hold"):
        here = [s for s in craft.stations if s.kind == kind]
        for station, share in zip(here, shares[kind], strict=False):
            values[station.name] = _rounded(share * station.maximum, step)
    for t in craft.fuel.tanks:
        values[t.name] = _rounded(fuel_share * t.usable, volume_step)
    aboard = sum(values[t.name] for t in craft.fuel.tanks)
    values["trip fuel"] = min(_rounded(trip_share * _usable(craft), volume_step), aboard)
    return values


def _rounded(value, step):
    return type(step)(value // step * step)
