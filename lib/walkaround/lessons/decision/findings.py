"""What the round may find before a flight: what has to be put right, what needs a mechanic, and what is all right.

Limits are the aircraft file's own.
"""

from walkaround import aircraft, measures
from walkaround.lessons.decision.flight import Finding, craft

NOTHING = Finding("nothing: everything is as it should be", False, False, "There is nothing to put right.")
REMOVED = (
    Finding(
        "the pitot cover is still on",
        True,
        True,
        "With the cover on, the airspeed indicator stays at 0. Take it off, and look at the inlet.",
    ),
    Finding("tape over the static port", True, True, "Altimeter and airspeed indicator would be wrong. Take it off."),
    Finding("the tow bar is still on the nose wheel", True, True, "It goes into the propeller. Take it off."),
    Finding("a rope is still on the left wing", True, True, "The aircraft turns about it as soon as it rolls."),
)


def harmless(v, outside_c):
    """Draw a finding that looks bad and is fine."""
    four = craft()
    options = [
        _travel(four.control_surfaces.elevator.up_deg - 0.5),
        _turned(four.towing.turning_limit_deg - v.number("turn", 2, 6)),
        pulled(20 * v.number("pull", 20, 35)),
        Finding(
            "water in the first fuel sample; the next two from every drain were clear",
            False,
            False,
            "That is what samples are for: the water is out, and clear samples show it (common practice).",
        ),
    ]
    if outside_c <= four.cooling.kit.off_above_c - 2:
        options.append(kit(outside_c))
    return v.pick("harmless", options)


def kit(outside_c):
    """The winter kit, on at a temperature outside."""
    off = craft().cooling.kit.off_above_c
    hot = outside_c > off
    says = f"It comes off above {off:g} °C, and it is {outside_c:g} °C".replace("-", "−")
    return Finding("the winter kit is on", hot, True, f"{says}: {'take it off' if hot else 'it may stay on'}.")


def on_the_spot(v, outside_c):
    """Draw a finding that the pilot puts right in a minute."""
    cold = craft().cooling.kit.off_above_c
    return v.pick("on the spot", (*REMOVED, *([kit(outside_c)] if outside_c >= cold + 4 else [])))


def for_a_mechanic(v):
    """Draw a finding that nobody but a mechanic can judge or mend."""
    four = craft()
    up, turning, leg = four.control_surfaces.elevator.up_deg, four.towing.turning_limit_deg, nose_leg_limit_lb()
    return v.pick(
        "mechanic",
        (
            _travel(up - v.number("short", 2, 5, 0.5)),
            _turned(turning + v.number("past", 3, 9)),
            pulled(20 * round((leg + v.number("pulled", 60, 300)) / 20)),
        ),
    )


def _travel(moved):
    surfaces = craft().control_surfaces
    up, within = surfaces.elevator.up_deg, surfaces.tolerance_deg
    short = up - moved > within
    why = f"Its limit is {up:g}° ± {within:g}°, and it is {up - moved:g}° less. "
    return Finding(
        f"the elevator goes up by {moved:g}°",
        short,
        False,
        why + ("A mechanic has to find out why." if short else "That is within it."),
    )


def _turned(turned):
    limit = craft().towing.turning_limit_deg
    past = turned > limit
    return Finding(
        f"the nose wheel was turned to {turned:g}° on the tow",
        past,
        False,
        f"The marks are at {limit:g}°. " + ("A mechanic looks at the stops first." if past else "That is inside them."),
    )


def nose_leg_limit_lb():
    """The pull that the nose leg is good for, in lb."""
    return aircraft.demo("morrowlark_four").towing.nose_leg_limit


def pull_words(pull_lb):
    """Write a pull, to 10 lb or 10 N."""
    return f"{round(measures.value(pull_lb, 'lbf'), -1):,.0f} {measures.unit('lbf')}"


def pulled(pull_lb):
    """A pull on the nose leg, in the units shown; `pull_lb` in lb."""
    limit = nose_leg_limit_lb()
    over = pull_lb > limit
    return Finding(
        f"the tractor pulled the nose leg with {pull_words(pull_lb)}",
        over,
        False,
        f"It is good for {pull_words(limit)}. " + ("A mechanic looks at it first." if over else "That is less."),
        pull_lb,
    )
