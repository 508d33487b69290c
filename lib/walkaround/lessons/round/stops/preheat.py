"""The cowl and the oil's temperature before the start."""

from math import pi

from walkaround import checks, measures
from walkaround.lessons.round.things import Alarm, Kind, Thing, number_of
from walkaround.physics.oil import times_thicker
from walkaround.units import FOOT_M

IDLE_RPM = 1000.0  # a usual speed just after the start: common practice, no source
HOSE, CORD_COILED, NOTHING = (
    "a hose leads in through the cowl flap",
    "a cord hangs coiled on its hook",
    "nothing leads in",
)


def _cowl(place, what=NOTHING):
    return {"what": what}


def _into_propeller(craft, day, seen):
    feet = craft.dimensions.metres(craft.units).propeller_diameter / FOOT_M
    return (
        f"At {IDLE_RPM:,.0f} rpm the blades' tips run at {measures.words(pi * feet * IDLE_RPM / 60, 'ft')}/s, a blade "
        f"every {60000 / (2 * IDLE_RPM):.0f} ms: hose and cord go through them."
    )


def _oil(place, celsius):
    return {"oil": round(celsius), "least": place.craft.engine.ready_oil_c}


def _cold(place):
    return _oil(place, place.day.outside_c + place.size(1, 4, 7)) if is_cold(place.day, place.craft) else None


def is_cold(day, craft):
    """Whether the engine has to be warmed on such a day."""
    return not checks.at_least(day.outside_c, craft.engine.preheat_below_c)


def _ready(place):
    least = place.craft.engine.ready_oil_c
    return _oil(
        place,
        least + place.number("oil c", 4, 14)
        if is_cold(place.day, place.craft)
        else max(place.day.outside_c, least) + 3,
    )


def _thick(craft, day, seen):
    oil = craft.engine.oil
    times = float(times_thicker(seen["oil"], seen["least"], oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s))
    return (
        f"The oil is {times:.0f} times as thick as at {seen['least']:.0f} °C: slow to reach the bearings, and hard "
        "to turn over."
    )


THINGS = (
    Thing(
        "cowl",
        "the cowl from the left",
        _cowl,
        lambda s: f"The cowl is shut; {s['what']}.",
        (
            Kind(
                "preheater left in",
                lambda p: _cowl(p, HOSE),
                lambda s: "a hose runs from the heater into the cowl",
                _into_propeller,
            ),
        ),
        (Alarm(lambda p: _cowl(p, CORD_COILED), "the cord is coiled and on its hook"),),
    ),
    Thing(
        "temperature",
        "the oil temperature gauge, before the start",
        _ready,
        lambda s: f"The oil is at {number_of(s['oil'])} °C; for a start it has to have {number_of(s['least'])} °C.",
        (
            Kind(
                "engine too cold to start",
                _cold,
                lambda s: f"{number_of(s['oil'])} °C, and {number_of(s['least'])} °C are needed",
                _thick,
            ),
        ),
    ),
)
