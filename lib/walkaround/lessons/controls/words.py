"""What is said of hands, surfaces and faults."""

from walkaround.physics.controls import linkage

NAMES = {
    **{f"{side}_{what}": f"{side} {what}" for what in ("aileron", "flap") for side in ("left", "right")},
    **{name: name for name in ("elevator", "rudder")},
    "tab": "trim tab",
}
CAUTION = (
    "A training aid with invented aircraft; the aircraft's own handbook comes first. Make sure nobody is near a "
    "surface before you move it: a hinge gap crushes fingers. Never force a control. If one is not free, right and "
    "full, don't fly: only a mechanic adjusts it."
)


def written(name, degrees):
    """Write the angle of a surface with its direction; `degrees` as in `physics.controls.Surfaces`.

    >>> written("left_aileron", -15.2), written("rudder", 17.9), written("tab", 0.2), written("left_flap", 10.0)
    ('15° down', '18° right', 'neutral', '10° down')
    """
    whole = round(float(degrees))
    if name.endswith("flap"):
        return f"{whole}° down" if whole else "up"
    more, less = ("right", "left") if name == "rudder" else ("up", "down")
    return f"{abs(whole)}° {more if whole > 0 else less}" if whole else "neutral"


def held_words(values, held):
    """What hands and feet do, in words; shares of travel in percent, by name.

    >>> held_words({"roll": 100, "pitch": -40, "yaw": 0, "trim": 0}, "wheel")
    'wheel right and forward'
    >>> held_words({"roll": 0, "pitch": 0, "yaw": -100, "trim": 50}, "stick")
    'left pedal, trim to nose up'
    """
    moved = [
        words
        for name, less, more in (("roll", "left", "right"), ("pitch", "forward", "back"))
        if (words := _way(values[name], less, more))
    ]
    found = [f"{held} {' and '.join(moved)}"] if moved else []
    if values["yaw"]:
        found.append(_way(values["yaw"], "left pedal", "right pedal"))
    if values["trim"]:
        found.append(_way(values["trim"], "trim to nose down", "trim to nose up"))
    return ", ".join(found) or "hands and feet still"


def _way(value, less, more):
    return more if value > 0 else less if value < 0 else ""


def surface_words(surfaces):
    """Where every surface stands, in one sentence."""
    at = {name: written(name, getattr(surfaces, name)) for name in NAMES}
    if {*at.values()} == {"neutral", "up"}:
        return "Every surface is in neutral, and the flaps are up."
    left, right = at["left_flap"], at["right_flap"]
    flaps = left if left == right else f"left {left}, right {right}"
    return (
        f"Left aileron {at['left_aileron']}, right {at['right_aileron']}; elevator {at['elevator']}, "
        f"tab {at['tab']}; rudder {at['rudder']}; flaps {flaps}."
    )


def fault_words(fault, held):
    """The fault and what it would do, in one sentence."""
    side, missing = ("left" if fault.on_left else "right"), f"{fault.missing_deg:.0f}°"
    return {
        linkage.NOTHING: "Nothing is wrong: free, the right way, and to every limit.",
        linkage.AILERONS_CROSSED: f"Ailerons crossed: {held} right, and the aircraft rolls left.",
        linkage.AILERON_LOOSE: f"The {side} aileron is not connected: it stays where it is while the other one moves.",
        linkage.ELEVATOR_REVERSED: f"Elevator reversed: {held} back, and the nose goes down.",
        linkage.ELEVATOR_SHORT: f"The elevator stops {missing} short of its up travel; half back, nothing shows it.",
        linkage.RUDDER_REVERSED: "Rudder reversed: right pedal, and the nose swings left.",
        linkage.TAB_REVERSED: "Trim tab reversed: trim to nose up, and the nose goes down.",
        linkage.FLAP_LAGS: f"The {side} flap lags {missing} behind the other: the aircraft rolls to that side.",
        linkage.LOCKED: f"A lock is in: {held}, ailerons and elevator don't move; pedals, trim and flaps do.",
    }[fault.kind]


HOW_SEEN = {
    linkage.NOTHING: "To be sure: every control to both stops, with your eyes on the surface.",
    linkage.AILERONS_CROSSED: "A gust lifts a wing, you turn against it, and that wing rises further. Seen by looking "
    "out: the aileron on the side you turn to must go up.",
    linkage.AILERON_LOOSE: "Seen by looking at both wings, and not only at the one on your side.",
    linkage.ELEVATOR_REVERSED: "At lift-off you pull, and it dives. Seen by looking back, or by someone outside.",
    linkage.ELEVATOR_SHORT: "Seen only at the stop, and measured with a tape.",
    linkage.RUDDER_REVERSED: "Nose-wheel steering hides it on the ground. Seen by looking back, or by someone outside.",
    linkage.TAB_REVERSED: "The more you trim, the heavier it gets. The tab must go the other way than the elevator "
    "that it moves.",
    linkage.FLAP_LAGS: "Seen from behind, with your eye along both trailing edges.",
    linkage.LOCKED: "Full and free before every take-off is what finds a lock that was forgotten.",
}


def cost_words(cost, tail):
    """What missing up-elevator costs, in two sentences; `tail` is `lessons.controls.tail.Tail`."""
    cg = f"{cost.cg:.{1 if tail.in_pounds else 0}f} {tail.cg_unit}"
    return (
        f"At {tail.speed_kt:.0f} kt and the forward limit, {cost.force:.0f} {tail.force_unit} are missing at the tail, "
        f"as if the CG stood {cg} further forward. Full back then holds the nose up only above {cost.slowest_kt:.0f} "
        "kt (thin-aerofoil theory)."
    )
