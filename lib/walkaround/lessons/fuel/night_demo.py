"""The live demonstration of where water comes from: humid nights against a night of rain on a cap that leaks."""

from walkaround import aircraft, checks
from walkaround.lessons.fuel.demos import CAUTION
from walkaround.lessons.fuel.night_picture import NightPicture
from walkaround.lessons.fuel.picture import millilitres
from walkaround.live.controls import slider
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics import fuel


@in_chosen_units
def night(name="morrowlark_four", tank=None):
    """Return the demonstration for a demo aircraft's name or an aircraft file's path; `tank`, or the first in the file.

    >>> made = night()
    >>> made.set(full=100, gap=1.0)
    >>> made.verdict, made.words
    ('stop', 'The cap lets in 1.44 L, and it covers the outlet in the climb; there is no air above the fuel.')
    """
    craft = aircraft.with_sections(name, "fuel_system")
    system = craft.fuel_system
    shape = system.tank(tank or system.tanks[0].names[0])
    solid, outlet, cap = shape.solid, shape.outlet, shape.cap
    capacity, climb = fuel.capacity_l(solid), float(system.climb_nose_up_deg)
    # Less water than this stays below the outlet in the climb.
    lets = fuel.height_cm(solid, outlet.aft, outlet.out, outlet.up_cm, climb)
    reaches = float(fuel.below_l(solid, lets, climb))
    controls = {
        "_air": "Humid air",
        "full": slider("tank filled", "%", 0, 100, 50, 5, "how full the tank is, per cent"),
        "evening": slider("evening", "°C", 0, 40, 28, 1),
        "humid": slider("humidity", "%", 30, 100, 80, 5, "relative humidity in the evening, per cent"),
        "dawn": slider("dawn", "°C", -10, 30, 14, 1),
        "nights": slider("nights", "", 1, 30, 1, 1, "how many such nights"),
        "_rain": "Rain on the cap",
        "rain": slider("rain", "mm", 0, 40, 12, 1, "rain in one night of 8 hours, mm"),
        "gap": slider("gap in the seal", "mm²", 0.0, 2.0, 0.0, 0.05),
    }

    def work(v):
        weather = float(v["evening"]), v["humid"] / 100, float(v["dawn"])
        air_l = v["nights"] * float(fuel.condensed_water_g(capacity * (1 - v["full"] / 100), *weather)) / 1000
        leaked = min(float(fuel.leaked_l(v["rain"], 8.0, cap.catches_m2, v["gap"], cap.standing_mm)), capacity)
        return Worked((air_l, leaked), (v, air_l, leaked))

    def say(said):
        v, air_l, leaked = said
        together = air_l + leaked
        dangerous = bool(checks.at_least(together, reaches))
        ends = "and it covers the outlet in the climb" if dangerous else "too little to cover the outlet in the climb"
        per = f" in {v['nights']} nights" if v["nights"] > 1 else ""
        upper = "Air that comes in by the vent as the tank cools adds a little."
        if v["nights"] > 1:
            upper = "For the air this is an upper limit: as though all of it were new each night."
        catches = f"The wing leads the rain of {cap.catches_m2:g} m² to this cap; the gap sets how much of it gets in."
        dry = "there is no air above the fuel" if v["full"] == 100 else "the air stays above its dew point"
        if not together:
            return OK, f"No water gets in: nothing past the cap, and {dry}.", upper, catches
        if not leaked:
            words = f"The air leaves {millilitres(air_l)}{per}, {ends}; the cap lets nothing in."
        elif not air_l:
            words = f"The cap lets in {millilitres(leaked)}, {ends}; {dry}."
        else:
            larger, smaller = max(leaked, air_l), min(leaked, air_l)
            one, other = f"The cap lets in {millilitres(leaked)}", f"the air leaves {millilitres(air_l)}{per}"
            if air_l > leaked:
                one, other = f"The air leaves {millilitres(air_l)}{per}", f"the cap lets in {millilitres(leaked)}"
            times = larger / smaller
            ratio = f"about {float(f'{times:.2g}'):,.0f} times as much" if times >= 1.5 else "about as much"
            words = f"{one}, {other}: {ratio}, {ends}."
        return STOP if dangerous else NOTE, words, upper, catches

    title = f"{craft.name}, {shape.names[0]}: where the water comes from"
    return Stage(title, controls, NightPicture(reaches), work, say, PRESETS, CAUTION)


_HUMID = {"evening": 28, "humid": 80, "dawn": 14}
PRESETS = {
    "one humid night, half empty, a tight cap": {**_HUMID, "full": 50, "nights": 1, "rain": 0, "gap": 0.0},
    "a month of such nights, nearly empty": {**_HUMID, "full": 10, "nights": 30, "rain": 0, "gap": 0.0},
    "one night of rain, a cracked seal": {**_HUMID, "full": 50, "nights": 1, "rain": 12, "gap": 1.0},
    "the same rain on a full tank": {**_HUMID, "full": 100, "nights": 1, "rain": 12, "gap": 1.0},
    "the same rain on a tight cap": {**_HUMID, "full": 50, "nights": 1, "rain": 12, "gap": 0.0},
}
