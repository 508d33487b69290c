"""Questions on how much fuel there is: two dipsticks, a slope, and what the cold does to its weight."""

from functools import cache

from walkaround import aircraft, measures
from walkaround.assessment.builders import choice, number
from walkaround.physics import fuel
from walkaround.units import POUND_KG, US_GALLON_L

MORROWLARK = aircraft.demo("morrowlark_four")
TANK = MORROWLARK.fuel_system.tanks[0]
TABLE_C = (-20, -10, 0, 15, 30, 35)
AVGAS_KG_L = 0.72  # at 15 °C, usual for aviation gasoline: 6 lb/US gal of FAA-H-8083-25


def questions(v):
    """Questions on quantity and weight for a student's draws `v`."""
    return _dipstick(v), _slope(v), _weight(v)


def _dipstick(v):
    craft, unit = aircraft.shown(MORROWLARK), measures.unit("US gal")
    stick, unusable = craft.fuel_system.tanks[0].dipstick, craft.fuel.tanks[0].unusable
    marks, quantities = stick.marks_cm, stick.quantities
    read = {side: v.number(f"{side} stick", 3.0, 12.6, 0.1) for side in ("left", "right")}
    held = {side: round(float(fuel.from_dipstick(cm, marks, quantities)), 2) for side, cm in read.items()}
    both = sum(held.values())
    uneven = f"{marks[-1]:g} cm stand for {quantities[-1]:g} {unit}, but the marks are not evenly spaced."
    nearest = sum(min(zip(marks, quantities, strict=True), key=lambda row: abs(row[0] - cm))[1] for cm in read.values())
    lines = []
    for side, cm in read.items():
        i = next(i for i, mark in enumerate(marks) if mark >= cm)
        (low, high), (less, more) = marks[i - 1 : i + 1], quantities[i - 1 : i + 1]
        sum_of = f"{less:g} + ({cm:g} − {low:g}) ÷ ({high:g} − {low:g}) × {more - less:g}"
        lines.append(f"{side} tank: {sum_of} = {held[side]:.2f} {unit}")
    return number(
        "dipstick",
        "Two dipsticks",
        f"On level ground the stick is wet to {read['left']:.1f} cm in the left tank and to {read['right']:.1f} cm in "
        f"the right one. {unusable:g} {unit} in each tank can't be used. How much usable fuel is there? Between two "
        "marks, take a straight line.",
        answer=both - 2 * unusable,
        unit=unit,
        tolerance=measures.given(0.3, "US gal", 1),
        points=3,
        table=(
            ("wet to", "in the tank"),
            *((f"{cm:g} cm", f"{q:g} {unit}") for cm, q in zip(marks, quantities, strict=True)),
        ),
        hint="Read each tank by itself. What the engine can't draw from a tank is in its reading too.",
        worked=(
            *lines,
            f"{held['left']:.2f} + {held['right']:.2f} − 2 × {unusable:g} = {both - 2 * unusable:.2f} {unit}",
        ),
        wrong=[
            (both, "unusable fuel counted", "That is all the fuel. What can't be used has to come off, in each tank."),
            (both - unusable, "unusable fuel of one tank", "Each of the two tanks has fuel that can't be used."),
            (
                nearest - 2 * unusable,
                "nearest mark taken",
                "You took the nearest marks. Take a straight line between two of them.",
            ),
            (sum(read.values()) * quantities[-1] / marks[-1] - 2 * unusable, "stick taken as even", uneven),
            (held["left"] - unusable, "one tank only", "That is the left tank. There are two."),
            (held["right"] - unusable, "one tank only", "That is the right tank. There are two."),
        ],
    )


def _slope(v):
    stands = {
        "with its left wing 2° low": (0.0, 2.0),
        "with its left wing 2° high": (0.0, -2.0),
        "with its nose 3° high": (3.0, 0.0),
        "with its nose 3° low": (-3.0, 0.0),
    }
    how = v.pick("slope", tuple(stands))
    gallons = v.number("on a slope", 11, 15)
    more = stick_gal(gallons, *stands[how]) > stick_gal(gallons, 0.0, 0.0)
    options = {"much": "More than there is", "little": "Less than there is", "same": "The same as on level ground"}
    answer = "much" if more else "little"
    shows = measures.figures(stick_gal(gallons, *stands[how]), "US gal", 1)
    off_level = "Fuel stays level and the tank does not: at the stick it gets deeper or shallower."
    turned = "Turned round: which way does the fuel run, and on which side of the tank's middle is the stick?"
    return choice(
        "slope",
        "Dipped on a slope",
        f"The Morrowlark stands {how}. You dip the left tank through its filler, which is ahead of the tank's middle "
        "and outboard of it. What does the stick show, read with the table for level ground?",
        answer=answer,
        options=v.shuffled("slope options", list(options.items())),
        points=2,
        hint="Fuel runs to the lower side. Is the filler on that side or on the other?",
        worked=(
            f"of {measures.words(gallons, 'US gal', metric=1)} the stick shows {shows} as the aircraft stands",
            f"{options[answer].lower()}: fuel runs {'towards' if more else 'away from'} the stick",
        ),
        wrong=[("same", "slope left out", off_level), ("little" if more else "much", "slope turned round", turned)],
    )


@cache
def stick_gal(gallons, nose_up_deg, wing_low_deg):
    """Gallons that the left tank's stick shows on a slope, read as on level ground.

    >>> round(stick_gal(12.0, 0.0, 0.0), 6)
    12.0
    """
    place, solid = (TANK.dipstick.aft, TANK.dipstick.out), TANK.solid
    wet = fuel.depth_on_stick_cm(solid, gallons * US_GALLON_L, *place, nose_up_deg, wing_low_deg)
    return float(fuel.from_stick_l(solid, wet, *place)) / US_GALLON_L


@cache
def _pounds():
    """Pounds in a US gallon by temperature in °C, to the digits of the table that is shown."""
    per_gallon = fuel.lb_per_us_gal(fuel.density_kg_l(AVGAS_KG_L, TABLE_C))
    return {c: round(float(lb), 2) for c, lb in zip(TABLE_C, per_gallon, strict=True)}


def _weight(v):
    cold, warm, gallons = v.pick("cold", (-20, -10)), v.pick("warm", (30, 35)), v.number("gallons", 30, 49)
    pounds = {c: measures.given(lb, "lb/US gal", 2) for c, lb in _pounds().items()}
    much, unit, of = measures.given(gallons, "US gal", metric=1), measures.unit("lb"), measures.unit("US gal")
    digits, per = measures.places("lb/US gal", 2), measures.name("US gal").removesuffix("s")
    one = per.removeprefix("US ")
    less, more = pounds[warm], pounds[cold]
    answer = much * (more - less)
    rows = ((f"{c} °C".replace("-", "−"), f"{lb:.{digits}f} {unit}") for c, lb in pounds.items())
    metric = measures.chosen() == measures.METRIC
    in_other = answer / POUND_KG if metric else answer * POUND_KG
    other = "pounds" if metric else "kilograms"
    return number(
        "weight",
        "Cold fuel is heavier",
        f"The table gives the weight of a {per} of this gasoline. By how many {measures.name('lb')} are "
        f"{much:.{measures.places('US gal', 0, 1)}f} {of} heavier at −{-cold} °C than at {warm} °C?",
        answer=answer,
        unit=unit,
        tolerance=measures.given(0.6, "lb", metric=2),
        points=2,
        table=(("at", f"a {per} weighs"), *rows),
        hint=f"What is the difference for one {one}?",
        worked=f"{much:g} × ({more:.{digits}f} − {less:.{digits}f}) = {answer:.1f} {unit}",
        wrong=[
            (more - less, f"one {one} only", f"That is the difference for one {one}."),
            (much * more, "weight for difference", "That is what the cold fuel weighs. By how much is it heavier?"),
            (
                much * less,
                "weight for difference",
                "That is what the warm fuel weighs. By how much is the cold heavier?",
            ),
            (in_other, f"{other} for {measures.name('lb')}", f"That is in {other}."),
            (much * (more - pounds[0]), "wrong line of the table", f"You compared with 0 °C, not with {warm} °C."),
        ],
    )
