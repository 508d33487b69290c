"""Live demonstration of weight and balance: seats, holds and tanks against the envelope."""

from walkaround import aircraft
from walkaround.lessons.loading.picture import LoadingPicture
from walkaround.lessons.loading.two_holds_picture import TwoHoldsPicture
from walkaround.live.stage import Stage, Worked, choice, slider
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.loading.loadsheet import load_sheet
from walkaround.physics.loading.planning import filled, most_fuel, most_in_station
from walkaround.physics.loading.two_holds import loads_inside
from walkaround.physics.loading.words import say as say_amount
from walkaround.physics.loading.words import sentence, smallest_fix

CAUTION = (
    "A training aid with an invented aircraft. It looks at weight and balance alone, not at the fuel reserve. For a real "
    "flight use the weighing report and the handbook of that aircraft, restrain every bag and keep it clear of the controls, "
    "and have a load you are unsure of checked by a licensed person."
)

# Ready-made loads, as shares of each station's maximum, so that they fit any aircraft file.
PRESETS = {
    "pilot alone, half fuel": ({"seat": (0.36, 0.0), "hold": (0.0, 0.0)}, 0.5, 0.3),
    "two up, weekend bags": ({"seat": (0.681, 0.0), "hold": (0.462, 0.0)}, 0.613, 0.409),
    "four up and a picnic": ({"seat": (0.66, 0.75), "hold": (0.15, 0.0)}, 0.5, 0.35),
    "camping, tail-heavy": ({"seat": (0.4, 0.9), "hold": (0.9, 0.5)}, 0.45, 0.35),
    "full to the brim": ({"seat": (0.8, 0.8), "hold": (0.8, 0.6)}, 1.0, 0.6),
}


def demo(name="morrowlark_four", category=None):
    """Return the live demonstration for a demo aircraft's name, or for the path of an aircraft file."""
    craft = aircraft.demo(name) if name in aircraft.demo_names() else aircraft.read(name)
    unit = craft.units
    step, volume_step = _steps(craft)
    start = _preset(craft, *PRESETS["two up, weekend bags"], step, volume_step)
    controls = {"_load": "Load"}
    for s in craft.stations:
        controls[s.name] = slider(s.name, unit.weight, 0, s.maximum, start[s.name], step)
    controls["_fuel"] = "Fuel at start-up"
    for t in craft.fuel.tanks:
        controls[t.name] = slider(t.name, unit.volume, 0, t.usable, start[t.name], volume_step)
    total = sum(t.usable for t in craft.fuel.tanks)
    controls["trip fuel"] = slider("used in flight", unit.volume, 0, total, start["trip fuel"], volume_step)
    if len(craft.envelopes) > 1:
        controls["category"] = choice("limits", [e.name for e in craft.envelopes], category)
    picture = LoadingPicture(craft)
    seats = [s.name for s in craft.stations if s.kind == "seat"] or [craft.stations[0].name]

    def work(values):
        stations = {s.name: values[s.name] for s in craft.stations}
        fuel = {t.name: values[t.name] for t in craft.fuel.tanks}
        flight = (0.0, values["trip fuel"], values.get("category"))
        sheet = load_sheet(craft, stations, fuel, *flight)
        fix = None if sheet.loadable else smallest_fix(craft, stations, fuel, *flight)
        return Worked((sheet, stations, fuel), (sheet, stations, fix))

    def say(said):
        sheet, stations, fix = said
        text = sentence(sheet, fix)
        if not stations[seats[0]]:
            return (NOTE if sheet.loadable else STOP), f"Nobody sits at the controls yet. {text}"
        return (OK if sheet.loadable else STOP), text

    presets = {name: _preset(craft, *parts, step, volume_step) for name, parts in PRESETS.items()}
    return Stage(f"{craft.name}: load it and watch the balance", controls, picture, work, say, presets, CAUTION)


def holds(name="morrowlark_four"):
    """Return the live demonstration of what may still go into the two holds, the rest of the load being given."""
    craft = aircraft.demo(name) if name in aircraft.demo_names() else aircraft.read(name)
    first, second = (h.name for h in craft.holds[:2])
    unit, step, volume_step = craft.units, *_steps(craft)
    start = _preset(craft, *PRESETS["four up and a picnic"], step, volume_step)
    controls = {s.name: slider(s.name, unit.weight, 0, s.maximum, start[s.name], step) for s in craft.stations}
    total = sum(t.usable for t in craft.fuel.tanks)
    controls["fuel"] = slider("fuel at start", unit.volume, 0, total, sum(start[t.name] for t in craft.fuel.tanks), 1)
    controls["trip fuel"] = slider("used in flight", unit.volume, 0, total, start["trip fuel"], volume_step)

    def work(values):
        stations = {s.name: values[s.name] for s in craft.stations}
        loads = stations[first], stations[second]
        flight = filled(craft, values["fuel"]), 0.0, values["trip fuel"]
        found, sheet = (loads_inside(craft, first, second, stations, *flight), load_sheet(craft, stations, *flight))
        if not sheet.loadable:
            return Worked((found, *loads), (*loads, sheet, None, None))
        most = most_in_station(craft, first, stations, *flight)
        fuel = most_fuel(craft, stations, 0.0, values["trip fuel"])
        return Worked((found, *loads), (*loads, sheet, most, fuel))

    def say(said):
        one, two, sheet, most, fuel = said
        if not sheet.loadable:
            return STOP, sentence(sheet)
        return OK, (
            f"{weight(one)} in {first} and {weight(two)} in {second} are inside all the way. With the rest as it is, {first} "
            f"could hold {weight(most)} at most, and the most fuel that this cabin could take is {say_amount(fuel, unit.volume)}."
        )

    def weight(value):
        # Cut off, not rounded: what is named as the most has to fit.
        return say_amount(value // 1 if unit.weight == "lb" else value * 10 // 1 / 10, unit.weight)

    title = f"{craft.name}: what may still go into the holds?"
    return Stage(title, controls, TwoHoldsPicture(craft, first, second), work, say, caution=CAUTION)


def _steps(craft):
    return {"lb": 5, "kg": 1}[craft.units.weight], {"US gal": 0.5, "L": 1}[craft.units.volume]


def _preset(craft, shares, fuel_share, trip_share, step, volume_step):
    values = {}
    for kind in ("seat", "hold"):
        here = [s for s in craft.stations if s.kind == kind]
        for station, share in zip(here, shares[kind], strict=False):
            values[station.name] = _rounded(share * station.maximum, step)
    for s in craft.stations:
        values.setdefault(s.name, 0)
    for t in craft.fuel.tanks:
        values[t.name] = _rounded(fuel_share * t.usable, volume_step)
    total = sum(t.usable for t in craft.fuel.tanks)
    values["trip fuel"] = min(_rounded(trip_share * total, volume_step), sum(values[t.name] for t in craft.fuel.tanks))
    return values


def _rounded(value, step):
    return type(step)(value // step * step)
