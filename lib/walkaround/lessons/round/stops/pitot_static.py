"""Where the instruments get their air: the pitot tube, the static port, and what the altimeter says about both."""

from walkaround import measures
from walkaround.aircraft.airfield import airfield
from walkaround.lessons.round.things import Alarm, Kind, Thing, number_of
from walkaround.physics import pitot_static
from walkaround.physics.air import takeoff
from walkaround.physics.pitot_static import STANDARD_SETTING_HPA

COVER, INLET_FULL, CLEAR, DROP = (
    "a sleeve over its front",
    "brown in the hole",
    "an open hole",
    "an open hole, a drop below",
)
OPEN, TAPED, BARE = (
    "three small holes",
    "a smooth surface, no holes to be seen",
    "three small holes in a ring of bare metal",
)
MOST_FT = 75.0  # that an altimeter may be off on the ground: FAA Aeronautical Information Manual 7-2-3 (recalled)
HIGHER_FT = 3000.0


def _covered(craft, day, seen):
    field = airfield().elevation_ft
    roll = takeoff.takeoff_roll(craft.take_off.ground_roll_ft(craft.units), craft.speeds.lift_off, field, day.outside_c)
    mark = craft.speeds.first_mark
    alive = takeoff.alive_s(roll, mark)
    return (
        f"{float(alive):.0f} s and {measures.words(takeoff.distance_at_ft(roll, alive), 'ft')} into the roll the "
        f"aircraft does {mark:.0f} kt, and the needle still rests at 0."
    )


def _aloft(craft, **openings):
    field = airfield().elevation_ft
    shut = pitot_static.Openings(**openings)
    return pitot_static.indications(field + HIGHER_FT, craft.speeds.climb, shut, blocked_at_ft=field)


def _plugged(craft, day, seen):
    shown = _aloft(craft, pitot_clear=False, drain_clear=False)
    return (
        f"With the drain shut as well, {HIGHER_FT:,.0f} ft above the field at {craft.speeds.climb:.0f} kt, the "
        f"airspeed indicator shows {float(shown.airspeed_kt):.0f} kt; with an open drain, 0."
    )


def _taped(craft, day, seen):
    shown = _aloft(craft, static_clear=False)
    return (
        f"{HIGHER_FT:,.0f} ft above the field at {craft.speeds.climb:.0f} kt the altimeter still shows "
        f"{float(shown.altitude_ft):,.0f} ft, and the airspeed indicator {float(shown.airspeed_kt):.0f} kt."
    )


def _altimeter(place, off_ft):
    field = airfield().elevation_ft
    return {"field": field, "shows": round((field + off_ft) / 10) * 10}


def _set_wrong(place):
    return _altimeter(place, place.pick("altimeter way", (1, -1)) * place.size(420, 260, 160))


def _height_lost(craft, day, seen):
    off = seen["shows"] - seen["field"]
    says = "higher" if off > 0 else "lower"
    hpa = float(pitot_static.instruments.feet_per_hpa(STANDARD_SETTING_HPA))
    return (
        f"It shows {abs(off):.0f} ft {says} than the field is, about {abs(off) / hpa:.0f} hPa in the window: 1,000 ft "
        f"above the field on its scale are {1000 - off:,.0f}."
    )


THINGS = (
    Thing(
        "pitot",
        "the pitot tube under the left wing",
        lambda place: {"tube": CLEAR},
        lambda seen: f"The tube, from the side and from ahead: {seen['tube']}.",
        (
            Kind(
                "cover left on the pitot tube",
                lambda place: {"tube": COVER, "streamer": place.level < 3},
                lambda seen: "a sleeve sits over the front of the tube",
                _covered,
            ),
            Kind(
                "something in the pitot inlet",
                lambda place: {"tube": INLET_FULL},
                lambda seen: "the hole in front is filled",
                _plugged,
            ),
        ),
        (Alarm(lambda place: {"tube": DROP}, "a drop at the drain hole is water on its way out"),),
    ),
    Thing(
        "static",
        "the static port on the left side",
        lambda place: {"port": OPEN},
        lambda seen: f"A plate on the side of the fuselage: {seen['port']}.",
        (
            Kind(
                "static port taped over",
                lambda place: {"port": TAPED},
                lambda seen: "there are no holes to be seen",
                _taped,
            ),
        ),
        (Alarm(lambda place: {"port": BARE}, "no paint round the holes is how it is made"),),
    ),
    Thing(
        "altimeter",
        "the altimeter, set to today's pressure",
        lambda place: _altimeter(place, place.number("altimeter", -20, 20, 10)),
        lambda seen: (
            f"The altimeter shows {seen['shows']:,.0f} ft; the field is at {seen['field']:,.0f} ft, and "
            f"{MOST_FT:.0f} ft either way are allowed."
        ),
        (
            Kind(
                "altimeter off by too much",
                _set_wrong,
                lambda seen: (
                    f"{number_of(seen['shows'])} ft on a field at {number_of(seen['field'])} ft; "
                    f"{MOST_FT:.0f} either way are allowed"
                ),
                _height_lost,
            ),
        ),
        (
            Alarm(
                lambda place: _altimeter(place, place.pick("altimeter near", (-60, 60))),
                f"60 ft off, and {MOST_FT:.0f} are allowed",
            ),
        ),
    ),
)
