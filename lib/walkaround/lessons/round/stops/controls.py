"""The controls, moved to their stops: ailerons, elevator with its tab, and flaps."""

from walkaround.lessons.controls.tail import Tail
from walkaround.lessons.round.things import Alarm, Kind, Thing
from walkaround.physics.controls import Fault, Hands, effectiveness, linkage, positions

FLAP_DEG = 20.0


def _rigging(craft):
    return craft.control_surfaces.rigging


def _ailerons(place, kind=linkage.NOTHING):
    way = place.pick("wheel", (-1, 1))
    there = positions(_rigging(place.craft), Hands(roll=way), Fault(kind, on_left=place.pick("side", (True, False))))
    return {"held": place.craft.control_surfaces.held, "asked": way, "moved": float(there.roll),
            "left": float(there.left_aileron), "right": float(there.right_aileron)}  # fmt: skip


def written(degrees):
    """Write the angle of a surface with its way.

    >>> written(-15.0), written(0.0)
    ('15° down', 'neutral')
    """
    return f"{abs(degrees):.0f}° {'up' if degrees > 0 else 'down'}" if round(degrees) else "neutral"


def _see_ailerons(seen):
    way = "right" if seen["asked"] > 0 else "left"
    moves = (
        f"{seen['held']} hard {way}"
        if seen["moved"]
        else f"the {seen['held']} does not move to the {way}, a pin through it"
    )
    return f"{moves[0].upper()}{moves[1:]}: left aileron {written(seen['left'])}, right {written(seen['right'])}."


def _crossed(craft, day, seen):
    way, other = ("right", "left") if seen["asked"] > 0 else ("left", "right")
    most = max(abs(seen["left"]), abs(seen["right"]))
    return (
        f"{seen['held'].capitalize()} {way}, and {most:.0f}° of aileron roll the aircraft {other}: into the gust, "
        "not out of it."
    )


def _loose(craft, day, seen):
    moves = sum(abs(seen[side]) for side in ("left", "right"))
    both = sum(vars(_rigging(craft))[name] for name in ("aileron_up", "aileron_down"))
    return f"{moves:.0f}° of {both:.0f}° between the two ailerons are left, and one of them may flutter."


def _locked(craft, day, seen):
    r = _rigging(craft)
    return (
        f"Of {r.aileron_up:.0f}° up and {r.aileron_down:.0f}° down nothing moves: once off the ground, a wing "
        "that drops can't be picked up."
    )


def _elevator(place, kind=linkage.NOTHING, missing=0.0, trim=1.0):
    r = _rigging(place.craft)
    there = positions(r, Hands(pitch=1.0, trim=trim), Fault(kind, missing))
    return {"held": place.craft.control_surfaces.held, "trim": trim, "elevator": float(there.elevator),
            "tab": float(there.tab), "up": r.elevator_up, "down": r.elevator_down}  # fmt: skip


def _see_elevator(seen):
    trim = "trim to nose up" if seen["trim"] > 0 else "trim to nose down" if seen["trim"] < 0 else "trim in the middle"
    return (
        f"{seen['held'].capitalize()} hard back, {trim}: elevator {written(seen['elevator'])} (travel: "
        f"{seen['up']:.0f}° up); "
        f"tab {written(seen['tab'])} from the elevator."
    )


def _reversed(craft, day, seen):
    return f"At lift-off you pull, and {abs(seen['elevator']):.0f}° of elevator push the nose down."


def _short(craft, day, seen):
    missing = seen["up"] - seen["elevator"]
    cost = Tail(craft).cost(missing)
    return (
        f"{missing:.0f}° are missing: {cost.force:.0f} {Tail(craft).force_unit} less at the tail, and full back holds "
        f"the nose up only above {cost.slowest_kt:.0f} kt at the forward limit."
    )


def _tab(craft, day, seen):
    return (
        f"Trim to nose up turns the tab {abs(seen['tab']):.0f}° the wrong way: the more you trim, the heavier it gets."
    )


def _flaps(place, lag=0.0):
    kind = linkage.FLAP_LAGS if lag else linkage.NOTHING
    there = positions(
        _rigging(place.craft), Hands(flap_deg=FLAP_DEG), Fault(kind, lag, place.pick("flap", (True, False)))
    )
    return {"selected": FLAP_DEG, "left": float(there.left_flap), "right": float(there.right_flap)}


def _lagging(craft, day, seen):
    lag = abs(seen["left"] - seen["right"])
    tau = float(effectiveness(craft.control_surfaces.flap.chord / craft.dimensions.wing_root_chord))
    side = "left" if seen["left"] < seen["right"] else "right"
    return (
        f"{lag:.0f}° between the flaps are like a wing twisted by {tau * lag:.1f}°: it rolls to the {side}, held by "
        "aileron alone."
    )


THINGS = (
    Thing(
        "ailerons",
        "both ailerons, with the controls hard over",
        _ailerons,
        _see_ailerons,
        (
            Kind(
                linkage.AILERONS_CROSSED,
                lambda p: _ailerons(p, linkage.AILERONS_CROSSED),
                lambda s: "on the side you turn to, the aileron is down",
                _crossed,
            ),
            Kind(
                linkage.AILERON_LOOSE,
                lambda p: _ailerons(p, linkage.AILERON_LOOSE),
                lambda s: "one aileron moves, the other one does not",
                _loose,
            ),
            Kind(
                "aileron lock left in",
                lambda p: _ailerons(p, linkage.LOCKED),
                lambda s: "a pin holds it, and neither aileron moves",
                _locked,
            ),
        ),
    ),
    Thing(
        "elevator",
        "the elevator and its tab, with the controls hard back",
        _elevator,
        _see_elevator,
        (
            Kind(
                linkage.ELEVATOR_REVERSED,
                lambda p: _elevator(p, linkage.ELEVATOR_REVERSED),
                lambda s: "wheel back, and the elevator is down",
                _reversed,
            ),
            Kind(
                linkage.ELEVATOR_SHORT,
                lambda p: _elevator(p, linkage.ELEVATOR_SHORT, float(p.size(12, 8, 5))),
                lambda s: f"it stops at {s['elevator']:.0f}° of {s['up']:.0f}°",
                _short,
            ),
            Kind(
                linkage.TAB_REVERSED,
                lambda p: _elevator(p, linkage.TAB_REVERSED),
                lambda s: "trim to nose up has to turn the tab down",
                _tab,
            ),
        ),
        (Alarm(lambda p: _elevator(p, trim=-1.0), "trimmed to nose down, the tab belongs up"),),
    ),
    Thing(
        "flaps",
        "both flaps, set to 20°",
        _flaps,
        lambda s: f"Flaps set to {s['selected']:.0f}°: left {s['left']:.0f}° down, right {s['right']:.0f}° down.",
        (
            Kind(
                linkage.FLAP_LAGS,
                lambda p: _flaps(p, float(p.size(12, 8, 5))),
                lambda s: f"{s['left']:.0f}° on the left, {s['right']:.0f}° on the right",
                _lagging,
            ),
        ),
    ),
)
