"""In front of the engine: the two intakes, and the kit for the winter."""

from walkaround import checks
from walkaround.lessons.cooling.climb import CLIMB_MIN, Climb, Plan
from walkaround.lessons.round.things import Alarm, Kind, Thing, number_of

OPEN, PLUG, STRAW = "open, fins behind it", "closed by a block of foam", "some straw in a lower corner"
STRAW_SHARE, FILLED_SHARE = 0.85, 1.0  # of an intake, behind what can be seen of it
OTHER = {"left": "right", "right": "left"}


def _intakes(place, what=OPEN):
    side = place.pick("intake", ("left", "right"))
    return {side: what, OTHER[side]: OPEN, "straws": place.size(14, 9, 5)}


def _in_climb(craft, day, **blocked):
    climb = Climb(craft, Plan(float(day.outside_c), 1.0, craft.speeds.climb, **blocked))
    first = climb.first
    if first is None:
        hot, clear = climb.hottest_c, climb.clear.hottest_c
        part = max(hot, key=lambda p: hot[p] - clear[p])
        named = "oil" if part == "oil" else f"{part} bank"
        return (
            f"In {CLIMB_MIN:.0f} min of climb the {named} is {hot[part] - clear[part]:.0f} °C hotter than it should be."
        )
    named = "the oil" if first.part == "oil" else f"the {first.part} bank"
    shows = climb.at(max(first.minutes, 0.0))[climb.gauge]
    return (
        f"{named[0].upper()}{named[1:]} reaches its limit {first.minutes:.0f} min into the climb; the gauge, on the "
        f"{climb.gauge} bank, then shows {shows:.0f} °C of {climb.limits_c[climb.gauge]:.0f}."
    )


def _side(seen, what):
    return next(side for side in OTHER if seen[side] == what)


def _kit(place, on):
    return {"on": on, "outside": place.day.outside_c, "off_above": place.craft.cooling.kit.off_above_c}


def too_warm(seen):
    """Whether it is too warm for the kit."""
    return not checks.at_most(seen["outside"], seen["off_above"])


def _kit_on(place):
    return _kit(place, True) if too_warm(_kit(place, True)) else None


def _kit_right(place):
    return None if too_warm(_kit(place, True)) else _kit(place, True)


THINGS = (
    Thing(
        "intakes",
        "the two cooling intakes, from ahead",
        _intakes,
        lambda seen: f"The left intake: {seen['left']}. The right one: {seen['right']}.",
        (
            Kind(
                "plug left in a cooling intake",
                lambda place: _intakes(place, PLUG),
                lambda seen: f"the {_side(seen, PLUG)} intake is closed",
                lambda craft, day, seen: _in_climb(craft, day, **{_side(seen, PLUG): FILLED_SHARE}),
            ),
            Kind(
                "nest in a cooling intake",
                lambda place: _intakes(place, STRAW),
                lambda seen: f"straw in the {_side(seen, STRAW)} intake, and more of it behind",
                lambda craft, day, seen: _in_climb(craft, day, **{_side(seen, STRAW): STRAW_SHARE}),
            ),
        ),
    ),
    Thing(
        "kit",
        "the oil cooler under the nose, and the thermometer",
        lambda place: _kit(place, False),
        lambda seen: (
            f"The thermometer shows {number_of(seen['outside'])} °C. Plate for the oil cooler, at "
            f"{number_of(seen['off_above'])} °C and colder: {'screwed on' if seen['on'] else 'not there'}."
        ),
        (
            Kind(
                "winter kit on a warm day",
                _kit_on,
                lambda seen: (
                    f"a plate for {number_of(seen['off_above'])} °C and colder, at {number_of(seen['outside'])} °C"
                ),
                lambda craft, day, seen: _in_climb(craft, day, kit=True),
            ),
        ),
        (Alarm(_kit_right, "it is cold enough for the winter kit"),),
    ),
)
