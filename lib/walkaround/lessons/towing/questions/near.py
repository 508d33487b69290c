"""Questions on what is near: a door, an obstacle outside a turn, and where to begin the turn."""

import numpy as np

from walkaround.aircraft.airfield import airfield
from walkaround.assessment.builders import choice, number
from walkaround.lessons.towing.questions.scenario import facts
from walkaround.lessons.towing.questions.turn import outer_tip
from walkaround.physics.towing import turn_radius


def questions(v, g):
    """Questions on what is near, for a student's draws `v` and `Givens` `g`."""
    return _door(v, g), _pump(v, g), _begin(v, g)


def _door(v, g):
    door, off = v.number("door", 40, 46), v.number("off", 0.6, 1.6, 0.2)
    each = (door - g.span) / 2
    answer = each - off
    return number(
        "door",
        "Through the door",
        f"The door is {door} ft wide, and the aircraft comes in straight, but {off:g} ft to one side of its middle. "
        "How far is the nearer wing tip from its post, in ft?",
        answer=answer,
        unit="ft",
        tolerance=0.15,
        points=2,
        table=facts(g),
        hint="What is left of the door is shared between two tips; then one of them gets less.",
        worked=(
            f"left on each side: ({door} − {g.span:.1f}) ÷ 2 = {each:.2f} ft",
            f"({door} − {g.span:.1f}) ÷ 2 − {off:g} = {answer:.2f} ft",
        ),
        wrong=[
            (each, "forgot that it is to one side", "That is for an aircraft in the middle of the door."),
            (door - g.span - off, "both sides for one", "What is left of the door is shared between two tips."),
            (each + off, "the farther tip", "That is the tip on the other side."),
        ],
    )


def _pump(v, g):
    angle, keep = v.number("pump angle", 16, 28), airfield().ramp.keep_clear
    tip = outer_tip(g, angle)
    case = v.pick("pump case", ("touches", "near", "clear"))
    gap = {"touches": -1.5, "near": 0.5 * keep, "clear": keep + 1.5}[case] + v.number("pump gap", -0.5, 0.5, 0.1)
    away = round(tip + gap, 1)
    middle = float(turn_radius(g.wheelbase, angle))
    says = {
        "touches": "The outer tip runs on the radius of the middle and half the span.",
        "near": "Compute the outer tip's radius, and what is left to the pump.",
        "clear": "Compute the outer tip's radius, and what is left to the pump.",
    }
    left = away - tip
    end = "it touches" if left < 0 else f"{left:.1f} ft are left, and the rule is {keep:.0f} ft"
    return choice(
        "pump",
        "Past the fuel pump",
        f"The nose wheel is held at {angle}° through a long turn. A fuel pump stands outside it, {away:.1f} ft from "
        f"the centre of the turn. The airfield's rule is {keep:.0f} ft of distance. What will happen? Take the "
        "wing to be straight above the main wheels.",
        answer=case,
        options=[
            ("clear", "the tip passes, and the rule is kept"),
            ("near", "the tip passes, nearer than the rule allows"),
            ("touches", "the tip meets the pump"),
        ],
        points=2,
        table=facts(g),
        hint="On what radius does the outer tip run? The middle's radius first.",
        worked=(
            f"middle: {g.wheelbase:.1f} ÷ {np.tan(np.radians(angle)):.4f} = {middle:.1f} ft",
            f"outer tip: {middle:.1f} + {g.span:.1f} ÷ 2 = {round(middle, 1) + g.span / 2:.1f} ft",
            f"the pump is {away:.1f} ft away: {end}",
        ),
        wrong=[(other, "tip's radius wrong", says[case]) for other in says if other != case],
    )


def _begin(v, g):
    side, angle = v.number("side", 26, 40), v.number("begin angle", 16, 28)
    radius = float(turn_radius(g.wheelbase, angle))
    answer = side - radius
    return number(
        "begin",
        "Where to begin the turn",
        f"The hangar is on the right. The middle of its door is {side} ft further on than the main wheels are now. "
        f"The nose wheel will be held at {angle}° through a quarter turn. How many feet do you tow straight on "
        "before you turn it, so that the aircraft comes out in line with the middle of the door?",
        answer=answer,
        unit="ft",
        tolerance=0.4,
        points=3,
        table=facts(g),
        hint="A quarter turn brings the aircraft forward by its radius.",
        worked=(
            f"radius: {g.wheelbase:.1f} ÷ {np.tan(np.radians(angle)):.4f} = {radius:.1f} ft",
            f"{side} − {radius:.1f} = {side - round(radius, 1):.1f} ft",
        ),
        wrong=[
            (side, "forgot the turn", "In the turn it comes forward by the radius. Begin that much earlier."),
            (side - 2 * radius, "diameter for radius", "A quarter turn brings it forward by one radius, not two."),
            (radius, "radius for what is left", "That is the radius. How far is it straight on before that?")
            if abs(radius - answer) > 1
            else None,
        ],
    )
