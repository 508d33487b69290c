"""Questions on which way a surface must move, and on an aircraft on which something is wrong."""

from walkaround.assessment.builders import choice
from walkaround.lessons.controls.faults import fault_of
from walkaround.lessons.controls.words import NAMES, written
from walkaround.physics.controls import FAULTS, Hands, linkage, positions

_LOOK = "Compare each row with what must happen: first the way, then how far, with the limits beside it."
_SLIPS = {
    linkage.NOTHING: (linkage.ELEVATOR_SHORT, "limits not looked up", "Each surface reaches its limit: look them up."),
    linkage.ELEVATOR_SHORT: (linkage.NOTHING, "limits not looked up", "Every way is right. How far does each go?"),
    linkage.FLAP_LAGS: (linkage.NOTHING, "sides not compared", "Compare left with right in every row."),
    linkage.LOCKED: (linkage.AILERON_LOOSE, "wheel not looked at", "A loose aileron does not hold the wheel."),
    linkage.AILERON_LOOSE: (
        linkage.LOCKED,
        "only one wing looked at",
        "The other aileron moves, and so does the wheel.",
    ),
}


def questions(v, section):
    """Questions on the ways of the surfaces for a student's draws `v` and the section of the control surfaces."""
    return _aileron(v), _tab(v), _find(v, section)


def _aileron(v):
    turned, wing = v.pick("wheel", ("left", "right")), v.pick("wing", ("left", "right"))
    up = turned == wing
    right, wrong = ("up", "down") if up else ("down", "up")
    options = (("up", "It goes up"), ("down", "It goes down"), ("still", "It stays: only the other one moves"))
    return choice(
        "aileron",
        "Look out",
        f"You turn the wheel to the {turned} and look at the {wing} wing. What must its aileron's trailing edge do?",
        answer=right,
        options=v.shuffled("aileron", options),
        points=1,
        hint="Which wing has to go down, and what takes lift from it?",
        worked=f"To roll {turned}, the {turned} wing loses lift with its aileron up, and the other one gains.",
        wrong=[(wrong, "ways exchanged", "Then the aircraft would roll the other way: which wing has to go down?")],
    )


def _tab(v):
    nose = v.pick("trim to", ("up", "down"))
    options = (
        ("down", "Down: the air on it pushes the elevator's trailing edge up"),
        ("up", "Up: the air on it pushes the elevator's trailing edge down"),
        ("with up", "Up: the elevator goes up with it"),
        ("with down", "Down: the elevator goes down with it"),
    )
    right = "down" if nose == "up" else "up"
    return choice(
        "tab",
        "The small surface on the elevator",
        f"You run the trim to nose {nose} and look at the trim tab. Which way must its trailing edge go?",
        answer=right,
        options=v.shuffled("tab", options),
        points=2,
        hint="Which way has the elevator to go? The tab moves it as the elevator moves the aircraft.",
        worked=f"Nose {nose}: the elevator has to go {nose}, and the air on the tab does that with the tab {right}.",
        wrong=[
            (f"with {nose}", "tab taken for the elevator", "The tab does not go with the elevator: it moves it."),
            (nose, "reversed", "That moves the elevator the other way, and the nose too."),
            (f"with {right}", "tab taken for the elevator", "The way is right, but the elevator goes the other way."),
        ],
    )


def seen(section, fault):
    """What is seen at the stops: rows of a table."""
    r = section.rigging
    rows = []
    for does, hands, names, limits in (
        ("wheel right", Hands(roll=1), ("left_aileron", "right_aileron"), (r.aileron_up, r.aileron_down)),
        ("wheel back", Hands(pitch=1), ("elevator",), (r.elevator_up, r.elevator_down)),
        ("right pedal", Hands(yaw=1), ("rudder",), (r.rudder_left, r.rudder_right)),
        ("trim to nose up", Hands(trim=1), ("tab",), (r.tab_up, r.tab_down)),
        ("flaps full", Hands(flap_deg=r.flap), ("left_flap", "right_flap"), (r.flap,)),
    ):
        there = positions(r, hands, fault)
        told = ", ".join(f"{NAMES[n]} {written(n, getattr(there, n))}" for n in names)
        held = (hands.roll and not there.roll) or (hands.pitch and not there.pitch)
        ways = ("left", "right") if names == ("rudder",) else ("up", "down") if len(limits) > 1 else ("down",)
        limit = ", ".join(f"{degrees:g}° {way}" for degrees, way in zip(limits, ways, strict=True))
        rows.append((does, f"the wheel does not move; {told}" if held else told, limit))
    return ("what is done", "what is seen", "limits"), *rows


def _find(v, section):
    kind = v.pick("what is wrong", FAULTS)
    fault = fault_of(kind, v.number("by how much", 0, 3), v.pick("side", (True, False)))
    others = [k for k in v.shuffled("other faults", FAULTS) if k not in (kind, linkage.NOTHING)]
    slip = _SLIPS.get(kind, (linkage.NOTHING, "ways not looked up", "One row goes the wrong way. Which?"))
    shown = dict.fromkeys((kind, linkage.NOTHING, slip[0], *others))
    options = v.shuffled("find", [(k, k[0].upper() + k[1:]) for k in list(shown)[:6]])
    return choice(
        "find",
        "Name it",
        "Each control goes as far as it will, and one person reads off what the surfaces do. What is wrong?",
        answer=kind,
        options=options,
        points=3,
        table=seen(section, fault),
        hint=_LOOK,
        worked=_why(kind, fault, section),
        wrong=[slip],
    )


def _why(kind, fault, section):
    side, r = ("left" if fault.on_left else "right"), section.rigging
    up, flap, short = r.elevator_up, r.flap, fault.missing_deg
    return {
        linkage.NOTHING: "Every row goes the right way and as far as its limit.",
        linkage.AILERONS_CROSSED: "The wheel to the right must raise the right aileron, not the left one.",
        linkage.AILERON_LOOSE: f"The {side} aileron stays where it is, and the other one moves.",
        linkage.ELEVATOR_REVERSED: "The wheel back must raise the elevator.",
        linkage.ELEVATOR_SHORT: f"The elevator goes {up:g} − {short:g} = {up - short:g}° up; its limit is {up:g}°.",
        linkage.RUDDER_REVERSED: "The right pedal must move the rudder to the right.",
        linkage.TAB_REVERSED: "Trim to nose up must lower the tab.",
        linkage.FLAP_LAGS: f"The {side} flap goes {flap:g} − {short:g} = {flap - short:g}°, the other one {flap:g}°.",
        linkage.LOCKED: "Wheel, ailerons and elevator don't move, and everything else does: a lock.",
    }[kind]
