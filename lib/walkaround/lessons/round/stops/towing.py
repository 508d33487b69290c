"""The nose wheel, and the cabin, just before the tow."""

from math import nan

from walkaround.aircraft.towing import force_unit
from walkaround.lessons.round.stops.preheat import IDLE_RPM
from walkaround.lessons.round.things import Alarm, Kind, Thing
from walkaround.physics.loading import basic_weight_and_moment
from walkaround.physics.towing import SURFACES, tow_loads

BAR_ON, BAR_STOWED = ("hooked to the axle, its handle on the ground", "on its hook in the hold")


def _nose(place, bar=BAR_STOWED, pointer=None):
    limit = place.craft.towing.turning_limit_deg
    turned = place.number("nose wheel", -0.5 * limit, 0.5 * limit, 1) if pointer is None else pointer
    return {"bar": bar, "pointer": float(round(turned)), "limit": limit}


def _past(place):
    limit = place.craft.towing.turning_limit_deg
    return _nose(place, pointer=place.pick("nose way", (-1, 1)) * (limit + place.size(18, 11, 6)))


def _bar_hit(craft, day, seen):
    return (
        f"At {IDLE_RPM:,.0f} rpm a blade comes by {2 * IDLE_RPM / 60:.0f} times a second, and the first one meets "
        "the bar."
    )


def _bent(craft, day, seen):
    past = abs(seen["pointer"]) - seen["limit"]
    return (
        f"{past:.0f}° past its mark something has been bent or broken inside the leg: a mechanic looks before it "
        "moves again."
    )


def _pulled(craft, day, seen):
    d, (unit, scale) = craft.dimensions, force_unit(craft)
    weight, moment = (float(v) for v in basic_weight_and_moment(craft))
    where = moment / weight - d.nose_wheel, d.wheelbase, d.cg_height, d.nose_wheel_radius
    off, on = (tow_loads(weight * scale, 0.0, SURFACES[0].rolling, k, *where) for k in (nan, SURFACES[0].locked))
    return (
        f"{float(on.pull):,.0f} {unit} on the nose leg to move it, empty, instead of {float(off.pull):,.0f}; it is "
        f"good for {craft.towing.nose_leg_limit * scale:,.0f} {unit}."
    )


THINGS = (
    Thing(
        "nose",
        "the nose wheel and its leg",
        _nose,
        lambda s: (
            f"The pointer on the leg stands at {abs(s['pointer']):.0f}°, the red marks at {s['limit']:.0f}° each "
            f"way. The hand tow bar: {s['bar']}."
        ),
        (
            Kind("tow bar left on", lambda p: _nose(p, BAR_ON), lambda s: "the bar is hooked to the axle", _bar_hit),
            Kind(
                "nose leg turned past its mark",
                _past,
                lambda s: f"{abs(s['pointer']):.0f}°, and the mark is at {s['limit']:.0f}°",
                _bent,
            ),
        ),
        (
            Alarm(
                lambda p: _nose(p, pointer=p.pick("nose way", (-1, 1)) * (p.craft.towing.turning_limit_deg - 2)),
                "turned far, but not past its mark",
            ),
        ),
    ),
    Thing(
        "brake",
        "the parking brake, with the tractor attached",
        lambda place: {"brake": False},
        lambda s: (
            "The handle of the parking brake is "
            f"{'pulled out, its red band to be seen' if s['brake'] else 'all the way in'}."
        ),
        (Kind("brake set before a tow", lambda p: {"brake": True}, lambda s: "the handle is pulled out", _pulled),),
    ),
)
