"""Live demonstration of the pull: a slope, the ground, a brake left on, and what the nose leg then carries."""

from math import ceil, nan

from walkaround import aircraft, checks, measures
from walkaround.aircraft.towing import force_unit
from walkaround.lessons.towing.demos import CAUTION
from walkaround.lessons.towing.force_picture import ForcePicture, written
from walkaround.lessons.towing.tow import as_told
from walkaround.live.controls import choice, slider, switch
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.towing import SURFACES, rolls_to_m_s, tow_loads
from walkaround.units import FOOT_M, GRAVITY_M_S2, KNOT_M_S, POUND_KG

PERSON_N = 250.0  # what one person pulls for a while: common practice, no source
LETS_GO_FT = 30.0
RULE = "Rules of thumb: one person pulls about {}; shares of rolling and locked wheels."
BY_NAME = {surface.name: surface for surface in SURFACES}


@in_chosen_units
def force(name="morrowlark_four"):
    """Return the live demonstration for a demo aircraft's name, or for the path of an aircraft file.

    >>> made = force()
    >>> made.set(brake=True)
    >>> made.verdict, made.words[:57]
    ('stop', 'Brake on: the locked wheels slide only at 998 lb of pull.')
    """
    craft = aircraft.with_sections(name, "dimensions", "towing")
    unit, scale = force_unit(craft)
    step = measures.step(10, "lb")
    low, high = (10 * round(w / 10) for w in (craft.empty.weight, craft.limits.take_off))
    controls = {
        "weight": slider("weight", craft.units.weight, low, high, 10 * round((low + high) / 20), step),
        "slope": slider("slope", "%", -8.0, 8.0, 0.0, 0.5, "slope, per cent, nose uphill, or downhill (−)"),
        "surface": choice("ground", [surface.name for surface in SURFACES]),
        "brake": switch("parking brake on"),
    }
    limit = craft.towing.nose_leg_limit * scale

    def work(values):
        loads = loads_of(craft, values["weight"] * scale, values["slope"], values["surface"], values["brake"])
        return Worked((loads, values["slope"], values["brake"]), (values, loads))

    def say(said):
        return *_verdict(*said, unit, limit), *_more(craft, *said, unit)

    picture = ForcePicture(craft, unit, limit)
    return Stage(f"{craft.name}: what it takes to move it", controls, picture, work, say, PRESETS, CAUTION)


_EASY = {"slope": 0.0, "surface": "dry tarmac", "brake": False}
PRESETS = {
    "level tarmac, brake off": _EASY,
    "level tarmac, brake on": {**_EASY, "brake": True},
    "brake on, on ice": {**_EASY, "surface": "ice", "brake": True},
    "up a slope of 4 %": {**_EASY, "slope": 4.0},
    "down a slope of 4 %": {**_EASY, "slope": -4.0},
    "long grass": {**_EASY, "surface": "long grass"},
    "soft ground, uphill": {**_EASY, "slope": 8.0, "surface": "soft ground"},
}


def loads_of(craft, weight, slope_percent, surface, brake):
    """`physics.towing.Loads` of an aircraft with the CG of the empty one, on a surface by its name."""
    where, ground = craft.dimensions, BY_NAME[surface]
    locked = ground.locked if brake else nan
    cg = craft.empty.cg - where.nose_wheel
    heights = where.cg_height, where.nose_wheel_radius
    return tow_loads(weight, slope_percent, ground.rolling, locked, cg, where.wheelbase, *heights)


def _verdict(values, loads, unit, limit):
    pull, slope = float(loads.pull), values["slope"]
    if values["brake"]:
        if pull <= 0:
            return (STOP, f"Brake on, and it still slides off by itself: {written(-pull, unit)} hold it. Chocks first.")
        if not checks.at_most(pull, limit):
            return STOP, (
                f"Brake on: the locked wheels slide only at {written(pull, unit)} of pull. The nose leg is good for "
                f"{written(limit, unit)}: it breaks first."
            )
        return NOTE, (
            f"Brake on: at {written(pull, unit)} the locked wheels slide. The nose leg, good for "
            f"{written(limit, unit)}, holds; brake off all the same."
        )
    if checks.equal(pull, 0.0, size=float(loads.nose + loads.mains)):
        return NOTE, "It just stands: the slope pulls as hard as the wheels resist. A gust or a hand sets it off."
    if pull < 0:
        return STOP, (
            f"It rolls off by itself: it takes {written(-pull, unit)} to hold it. Let go, and {_goes(values)}."
        )
    if not checks.at_most(pull, limit):
        return STOP, (
            f"Too much for the nose leg: {written(pull, unit)} to move it, and the leg is good for "
            f"{written(limit, unit)}. Pull it out by its main legs, as its maintenance manual says."
        )
    people = ceil(pull / person(unit) - checks.SLACK)
    crew = "one person" if people <= 1 else f"{people} people, or a tug"
    words = (
        f"It takes {written(pull, unit)} to keep it rolling: {crew}. The nose leg is good for {written(limit, unit)}."
    )
    return NOTE if slope > 100 * BY_NAME[values["surface"]].rolling or people > 2 else OK, words


def _more(craft, values, loads, unit):
    ground = BY_NAME[values["surface"]]
    if not values["brake"] and values["slope"] > 100 * ground.rolling:
        yield f"Let go, and it rolls back; {_goes(values)}. Chocks at hand."
    if values["brake"]:
        off = loads_of(craft, float(loads.nose + loads.mains), 0.0, values["surface"], False)
        free = float(off.pull) + float(loads.slope)
        if free > 0:
            yield f"With the brake off it takes {written(free, unit)}."
    nose, mains = (written(float(load), unit) for load in (loads.nose, loads.mains))
    yield f"On the ground: {nose} under the nose wheel, {mains} under the main wheels."
    yield RULE.format(written(person(unit), unit))
    yield "To get it moving takes more than to keep it rolling. Pull smoothly; never jerk."


def _goes(values):
    """Say how fast it rolls a little after it was let go."""
    rolling, way_ft = BY_NAME[values["surface"]].rolling, as_told(LETS_GO_FT)
    kt = float(rolls_to_m_s(way_ft * FOOT_M, abs(values["slope"]), rolling)) / KNOT_M_S
    return f"after {measures.words(way_ft, 'ft')} it does {kt:.1f} kt"


def person(unit):
    """What one person pulls for a while, in a unit of force; a rule of thumb."""
    return PERSON_N if unit == "N" else 5 * round(PERSON_N / (POUND_KG * GRAVITY_M_S2) / 5)
