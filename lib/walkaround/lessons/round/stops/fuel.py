"""The left tank: what its lowest drain gives, what the stick shows, and the cap."""

from walkaround import measures
from walkaround.lessons.round.things import Alarm, Kind, Thing, number_of
from walkaround.physics.fuel import density_kg_l, endurance_h, leaked_l
from walkaround.units import POUND_KG, US_GALLON_L

JAR_ML = 50.0
BLUE, STRAW, NO_COLOUR = "clear, pale blue", "clear, straw-coloured", "clear, no colour"
GONE, RING = "dried away", "left a greasy ring"
AVGAS_KG_L, JET_KG_L = 0.715, 0.80  # at 15 °C, usual figures (recalled)
RAIN_MM, RAIN_H, GAP_MM2 = 12.0, 6.0, 60.0  # a night's rain on a cap that does not press on its seal; our own example
SHUT, STANDING = 0.0, 90.0


def _litres(craft, volume):
    return volume * (US_GALLON_L if craft.units.volume == "US gal" else 1.0)


def _jar(place, **seen):
    return {"fuel": BLUE, "water_ml": 0.0, "paper": GONE, "dew": False} | seen


def _water(place):
    if place.level > 2 and place.pick("all water", (True, False)):
        return _jar(place, fuel=NO_COLOUR, water_ml=JAR_ML)
    return _jar(place, water_ml=place.size(24.0, 10.0, 4.0))


def _see_jar(seen):
    inside = f"{JAR_ML:.0f} mL, {seen['fuel']}"
    if 0 < seen["water_ml"] < JAR_ML:
        inside += f", over {seen['water_ml']:.0f} mL without colour at the bottom, with a sharp line between them"
    paper = "beaded on paper" if seen["fuel"] == NO_COLOUR else f"a drop on paper {seen['paper']}"
    return f"In the jar: {inside}; {paper}. " + (
        "The outside of the jar is wet." if seen["dew"] else "The jar is dry outside."
    )


def _engine_stops(craft, day, seen):
    per_s = _litres(craft, craft.fuel_system.per_hour) / 3600.0
    return (
        f"The engine burns {1000 * per_s:.0f} mL each second of cruise: {seen['water_ml']:.0f} mL of water are "
        f"{seen['water_ml'] / 1000 / per_s:.1f} s without power, and nobody knows how much more there is."
    )


def _heavier(craft, day, seen):
    tank = craft.fuel.tanks[0]
    avgas, jet = (float(density_kg_l(d, day.outside_c)) for d in (AVGAS_KG_L, JET_KG_L))
    litres = _litres(craft, tank.usable)
    more = litres * (jet - avgas) / (POUND_KG if craft.units.weight == "lb" else 1.0)
    return (
        f"Jet fuel knocks as soon as the engine gives power. A full tank of it is {more:.0f} {craft.units.weight} "
        "heavier than one of avgas."
    )


def _stick(place, spare):
    """What the sticks show, which is all there is in a tank: what can't be used as well. `spare` is in file's units."""
    unusable = max(tank.unusable for tank in place.craft.fuel.tanks)
    spare = measures.converted(spare, place.file_units.volume, place.craft.units.volume)
    each = place.day.fuel_needed / 2 + spare / 2 + unusable
    return {"each": round(2 * each) / 2, "unusable": unusable, "needed": place.day.fuel_needed,
            "unit": place.craft.units.volume}  # fmt: skip


def usable(seen):
    """What can be used of the fuel in both tanks.

    >>> usable({"each": 12.0, "unusable": 1.5})
    21.0
    """
    return 2 * (seen["each"] - seen["unusable"])


def _per_gallon(place, *gallons):
    scale = 1.0 if place.file_units.volume == "US gal" else US_GALLON_L
    return tuple(scale * g for g in gallons)


def _dry(craft, day, seen):
    there = usable(seen)
    taxi = min(craft.fuel_system.taxi, there)
    left = float(endurance_h(there - taxi, craft.fuel_system.per_hour))
    wanted = float(endurance_h(seen["needed"] - craft.fuel_system.taxi, craft.fuel_system.per_hour))
    return (
        f"It lasts {left:.1f} h where {wanted:.1f} h with the reserve were planned: {60 * (wanted - left):.0f} min "
        "short."
    )


def _cap(place, degrees, lever=False):
    return {"turned": degrees, "lever": lever}


def _rain(craft, day, seen):
    cap = craft.fuel_system.tanks[0].cap
    litres = float(leaked_l(RAIN_MM, RAIN_H, cap.catches_m2, GAP_MM2, cap.standing_mm))
    return (
        f"A night with {RAIN_MM:.0f} mm of rain lets {litres:.1f} L of water in; in flight the low pressure above "
        "draws fuel out."
    )


THINGS = (
    Thing(
        "jar",
        "a sample from the lowest drain of the left tank",
        lambda place: _jar(place),
        _see_jar,
        (
            Kind(
                "water in the fuel",
                _water,
                lambda s: (
                    "all of it has no colour, and beads on paper"
                    if s["fuel"] == NO_COLOUR
                    else f"{s['water_ml']:.0f} mL lie under the fuel"
                ),
                _engine_stops,
            ),
            Kind(
                "wrong fuel in the tank",
                lambda p: _jar(p, fuel=STRAW, paper=RING),
                lambda s: "no blue, and a ring on the paper that stays",
                _heavier,
            ),
        ),
        (Alarm(lambda p: _jar(p, dew=True), "the water is on the outside of the jar, which is dew"),),
    ),
    Thing(
        "tanks",
        "the stick in the left tank, then in the right one",
        lambda place: _stick(place, place.number("spare fuel", *_per_gallon(place, 4, 10))),
        lambda s: (
            f"The stick shows {number_of(s['each'], 1)} {s['unit']} in each tank; "
            f"{s['unusable']:g} {s['unit']} in each can't be used. "
            f"The flight needs {number_of(s['needed'], 1)}, reserve included."
        ),
        (
            Kind(
                "not enough fuel for the flight",
                lambda p: _stick(p, -_per_gallon(p, p.size(9, 5, 2))[0]),
                lambda s: f"{usable(s):.1f} {s['unit']} can be used, {s['needed']:.1f} are needed",
                _dry,
            ),
        ),
        (
            Alarm(
                lambda p: _stick(p, _per_gallon(p, 1)[0]),
                "what can be used of both tanks is just enough, reserve included",
            ),
        ),
    ),
    Thing(
        "cap",
        "the cap of the left tank",
        lambda place: _cap(place, SHUT),
        lambda s: (
            "The cap's arrow stands "
            f"{'on its mark' if not s['turned'] else format(s['turned'], '.0f') + '° past its mark'}; "
            f"its lever {'stands up' if s['lever'] else 'lies flat'}."
        ),
        (
            Kind(
                "fuel cap not closed",
                lambda p: _cap(p, float(p.size(90, 60, 30)), lever=p.level == 1),
                lambda s: "the arrow is not on its mark",
                _rain,
            ),
        ),
    ),
)
