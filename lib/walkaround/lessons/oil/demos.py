"""Live demonstration of the oil log: drag the readings, and the day when oil is due moves with its uncertainty."""

from walkaround import aircraft
from walkaround.lessons.oil import logs, words
from walkaround.lessons.oil.check import ADD, AGAIN, DUE, ENOUGH, MECHANIC, TIGHT, Check
from walkaround.lessons.oil.picture import OilPicture
from walkaround.live.controls import slider
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units

VERDICTS = {ENOUGH: OK, ADD: STOP, **dict.fromkeys(MECHANIC, STOP), **dict.fromkeys((AGAIN, DUE, TIGHT), NOTE)}
_MOST_MINUTES = 30


@in_chosen_units
def demo(name="morrowlark_four"):
    """Return the live demonstration for a demo aircraft's name, or for the path of an aircraft file."""
    craft = aircraft.with_sections(name, "engine")
    engine, oil = craft.engine, craft.engine.oil
    if oil.sump is None:
        raise ValueError(f"the file of {craft.name} has no section [engine.oil.sump]; this needs it")
    lowest, highest, step = oil.dipstick_quantities[0], oil.dipstick_quantities[-1], oil.sump.read_to
    steady, poured = logs.STEADY
    readings = {
        f"at_{h}": slider(
            f"at {h} h", oil.unit, lowest, highest, logs.level(engine, q), step, f"oil at {h} h, {oil.unit}"
        )
        for h, q in zip(logs.HOURS, steady, strict=True)
    }
    after = f"added after {logs.HOURS[logs.POURED_AFTER]} h"
    most = logs.scaled(engine, 2.0, step)
    controls = {
        "_log": "The log",
        **readings,
        "added": slider(after, oil.unit, 0.0, most, logs.scaled(engine, poured, step), step),
        "count": slider("readings so far", "", 3, len(logs.HOURS), len(logs.HOURS), 1),
        "_last": "The last reading",
        "minutes": slider("after shut-down", "min", 0, _MOST_MINUTES, _MOST_MINUTES, 1),
        "nose_up": slider("nose up", "°", -5.0, 5.0, 0.0, 0.5),
        "_flight": "This flight",
        "flight": slider("flight", "h", 0.5, 6.0, 3.0, 0.5),
    }

    def work(values):
        there = [values[name] for name in readings]
        log = logs.log(there, values["added"], values["count"])
        check = Check(engine, log, values["flight"], values["minutes"], values["nose_up"])
        return Worked((check, there), check)

    def say(check):
        return VERDICTS[check.verdict], words.sentence(check), *words.notes(check)

    return Stage(f"{craft.name}: the oil log", controls, OilPicture(engine), work, say, _presets(engine), words.CAUTION)


def _presets(engine):
    """Ready-made logs by name."""
    step = engine.oil.sump.read_to

    def row(made, **other):
        quantities, poured = made
        at = {f"at_{h}": logs.level(engine, q) for h, q in zip(logs.HOURS, quantities, strict=True)}
        usual = {"count": len(logs.HOURS), "minutes": _MOST_MINUTES, "nose_up": 0.0, "flight": 3.0}
        return {**at, "added": logs.scaled(engine, poured, step), **usual, **other}

    return {
        "steady": row(logs.STEADY),
        "only three readings": row(logs.STEADY, count=3),
        "carelessly read": row(logs.CARELESS),
        "a thirsty engine": row(logs.THIRSTY),
        "read too soon": row(logs.STEADY, minutes=2),
        "parked nose up": row(logs.STEADY, nose_up=4.0),
        "it burns more than it did": row(logs.CHANGED),
    }
