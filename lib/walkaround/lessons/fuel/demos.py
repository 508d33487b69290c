"""The live demonstration of a tank: tilt it, and watch the water run from drain to drain."""

import numpy as np

from walkaround import aircraft, checks
from walkaround.lessons.fuel.picture import Lying, TankPicture, millilitres
from walkaround.live.controls import slider
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics import fuel
from walkaround.units import US_GALLON_L

CAUTION = (
    "A training aid with an invented aircraft; the aircraft's own handbook comes first. Fuel vapour burns: no flame, "
    "no smoking, no switches; bond the aircraft before a cap comes off. Catch samples in a cup, and keep fuel off your "
    "skin."
)
CUPFUL_L = 0.25
CORNERS = {"inboard front": (0, 0), "inboard rear": (1, 0), "outboard front": (0, 1), "outboard rear": (1, 1)}


@in_chosen_units
def demo(name="morrowlark_four", tank=None):
    """Return the demonstration for a demo aircraft's name or an aircraft file's path; `tank`, or the first in the file.

    >>> made = demo()
    >>> made.set(water=250, nose=-3, wing=3)
    >>> made.verdict, made.words
    ('stop', 'No drain catches it: 250 mL of water lies at the outboard front, and all 4 samples look clean.')
    """
    craft = aircraft.with_sections(name, "fuel_system")
    system, unit = craft.fuel_system, craft.units.volume
    shape = system.tank(tank or system.tanks[0].names[0])
    solid, outlet, litres = shape.solid, shape.outlet, US_GALLON_L if unit == "US gal" else 1.0
    aft, out = (np.array([getattr(drain, way) for drain in shape.drains]) for way in ("aft", "out"))
    usable = craft.tank(shape.names[0]).usable
    controls = {
        "_tank": "What is in the tank",
        "water": slider("water", "mL", 0, 2000, 250, 10),
        "fuel": slider("fuel", unit, 0, usable, round(usable / 2), 0.5),
        "_ground": "How the aircraft stands",
        "nose": slider("nose up", "°", -6.0, 10.0, 0.0, 0.5, "nose up, degrees"),
        "wing": slider("this wing low", "°", -6.0, 6.0, 0.0, 0.5, "the wing with this tank low, degrees"),
    }
    climb = float(system.climb_nose_up_deg), 0.0

    def work(v):
        water, tilt = v["water"] / 1000, (v["nose"], v["wing"])
        # Water and surface as the aircraft stands, and water in the climb, at once: half the time of one by one.
        volumes, noses, wings = np.transpose(
            [(water, *tilt), (min(water + v["fuel"] * litres, fuel.capacity_l(solid)), *tilt), (water, *climb)]
        )
        at, surface, climbing = fuel.level_cm(solid, volumes, noses, wings).tolist()
        gives = fuel.drain_gives_l(solid, water, aft, out, *tilt)
        lets = fuel.height_cm(solid, outlet.aft, outlet.out, outlet.up_cm, noses, wings)
        covered = water > 0 and bool(checks.at_least(at, lets[0]))
        in_climb = water > 0 and bool(checks.at_least(climbing, lets[2]))
        # Less than a drop is no water.
        lying = Lying(
            water, v["fuel"] * litres, *tilt, at, surface, tuple(np.where(gives > 5e-5, gives, 0.0).tolist()), covered
        )
        return Worked(lying, (lying, in_climb))

    def say(said):
        lying, in_climb = said
        water, best = lying.water_l, int(np.argmax(lying.gives_l))
        if not water:
            return OK, "No water in this tank: every drain gives fuel at once."
        caught, lowest = sum(gives > 0 for gives in lying.gives_l), _lowest(solid, lying)
        then = (
            f"Left in, it runs to the rear in the climb, {climb[0]:g}° nose up, "
            f"{'and covers the outlet: the engine gets water' if in_climb else 'and stays below the outlet'}."
        )
        given = f"the {shape.drains[best].name} drain gives {millilitres(lying.gives_l[best])} before fuel comes"
        if lying.outlet_covered:
            also = f"{given[0].upper()}{given[1:]}." if caught else "No drain catches it as it stands."
            return STOP, f"Water covers the outlet, {millilitres(water)} of it: the engine gets water.", also
        if not caught:
            every = {1: "the sample looks", 2: "both samples look"}.get(len(aft), f"all {len(aft)} samples look")
            words = f"No drain catches it: {millilitres(water)} of water lies {lowest}, and {every} clean."
            return STOP, words, then, "Stand it level, rock the wings, wait for the water to settle, and sample again."
        others = len(aft) - caught
        clean = f"; {others} of {len(aft)} {'gives' if others == 1 else 'give'} clean fuel" if others else ""
        stays = water - lying.gives_l[best]
        full = lying.gives_l[best] >= CUPFUL_L
        cups = "A cup with nothing but water has no line in it: look at the colour." if full else ""
        below = f"{millilitres(stays)} stays below that drain, {lowest}." if stays >= 5e-5 else ""
        return NOTE, f"{given[0].upper()}{given[1:]}{clean}.", then, cups, below

    title = f"{craft.name}, {shape.names[0]}: tilt it and watch the water run"
    if len(shape.names) > 1:
        title += f" (the {shape.names[1]} is its mirror image)"
    return Stage(title, controls, TankPicture(shape, unit, litres), work, say, _presets(system, shape), CAUTION)


def _lowest(solid, lying):
    """Where the floor is lowest, in words."""
    heights = {
        name: float(fuel.height_cm(solid, *place, 0.0, lying.nose_up_deg, lying.wing_low_deg))
        for name, place in CORNERS.items()
    }
    low = [name for name, height in heights.items() if height < 0.05]
    if len(low) == 1:
        return f"at the {low[0]}"
    shared = set.intersection(*(set(name.split()) for name in low))
    return f"along the {shared.pop()} edge" if shared else "all over the floor"


def _presets(system, shape):
    """Ready-made situations: what water there is, and how the aircraft stands."""
    # A night of rain, 15 mm, past a hard seal with a gap of a fifth of a square millimetre.
    rain = 1000 * float(fuel.leaked_l(15.0, 8.0, shape.cap.catches_m2, 0.2, shape.cap.standing_mm))
    rain, climb = int(round(rain, -1)), float(system.climb_nose_up_deg)
    rows = {
        "level ground, a cupful of water": (250, 0.0, 0.0),
        "parked nose low": (250, -3.0, 0.0),
        "this wing low": (250, 0.0, 3.0),
        "nose low and wing low": (250, -3.0, 3.0),
        "after a night of rain past a cracked seal": (rain, 0.0, 0.0),
        "the same water in the climb": (rain, climb, 0.0),
    }
    return {text: {"water": water, "nose": nose, "wing": wing} for text, (water, nose, wing) in rows.items()}
