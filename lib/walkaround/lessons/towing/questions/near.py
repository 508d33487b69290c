"""Questions on what is near: a door, an obstacle outside a turn, and where to begin the turn."""

from walkaround import measures
from walkaround.aircraft.airfield import airfield
from walkaround.assessment.builders import choice, number
from walkaround.lessons.towing.questions.scenario import decimals, facts, length, tangent
from walkaround.lessons.towing.questions.turn import outer_tip
from walkaround.physics.towing import turn_radius


def questions(v, g):
    """Questions on what is near, for a student's draws `v` and `Givens` `g`."""
    return _door(v, g), _pump(v, g), _begin(v, g)


def _door(v, g):
    door, off = length(v.number("door", 40, 46)), length(v.number("off", 0.6, 1.6, 0.2))
    unit, span = measures.unit("ft"), f"{g.span:.{decimals()}f}"
    each = (door - g.span) / 2
    answer = each - off
    return number(
        "door",
        "Through the door",
        f"The door is {door:g} {unit} wide, and the aircraft comes in straight, but {off:g} {unit} to one side of its "
        f"middle. How far is the nearer wing tip from its post, in {unit}?",
        answer=answer,
        unit=unit,
        tolerance=length(0.15),
        points=2,
        table=facts(g),
        hint="What is left of the door is shared between two tips; then one of them gets less.",
        worked=(
            f"left on each side: ({door:g} − {span}) ÷ 2 = {each:.2f} {unit}",
            f"({door:g} − {span}) ÷ 2 − {off:g} = {answer:.2f} {unit}",
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
    unit, digits, rule = measures.unit("ft"), decimals(), measures.words(keep, "ft", metric=1)
    away = round(tip + measures.value(gap, "ft"), digits)
    middle = g.wheelbase / tangent(angle)
    says = {
        "touches": "The outer tip runs on the radius of the middle and half the span.",
        "near": "Compute the outer tip's radius, and what is left to the pump.",
        "clear": "Compute the outer tip's radius, and what is left to the pump.",
    }
    left = away - tip
    end = "it touches" if left < 0 else f"{left:.1f} {unit} are left, and the rule is {rule}"
    return choice(
        "pump",
        "Past the fuel pump",
        f"The nose wheel is held at {angle}° through a long turn. A fuel pump stands outside it, "
        f"{away:.{digits}f} {unit} from the centre of the turn. The airfield's rule is {rule} of distance. What will "
        "happen? Take the wing to be straight above the main wheels.",
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
            f"middle: {g.wheelbase:.{digits}f} ÷ {tangent(angle):.4f} = {middle:.{digits}f} {unit}",
            f"outer tip: {middle:.{digits}f} + {g.span:.{digits}f} ÷ 2 = "
            f"{round(middle, digits) + g.span / 2:.{digits}f} {unit}",
            f"the pump is {away:.{digits}f} {unit} away: {end}",
        ),
        wrong=[(other, "tip's radius wrong", says[case]) for other in says if other != case],
    )


def _begin(v, g):
    side, angle = length(v.number("side", 26, 40)), v.number("begin angle", 16, 28)
    unit, digits, worked = measures.unit("ft"), decimals(), round(g.wheelbase / tangent(angle), decimals())
    radius = float(turn_radius(g.wheelbase, angle))
    answer = side - radius
    return number(
        "begin",
        "Where to begin the turn",
        f"The hangar is on the right. The middle of its door is {side:g} {unit} further on than the main wheels are "
        f"now. The nose wheel will be held at {angle}° through a quarter turn. How many {measures.name('ft')} do you "
        "tow straight on before you turn it, so that the aircraft comes out in line with the middle of the door?",
        answer=answer,
        unit=unit,
        tolerance=length(0.4),
        points=3,
        table=facts(g),
        hint="A quarter turn brings the aircraft forward by its radius.",
        worked=(
            f"radius: {g.wheelbase:.{digits}f} ÷ {tangent(angle):.4f} = {worked:.{digits}f} {unit}",
            f"{side:g} − {worked:.{digits}f} = {side - worked:.{digits}f} {unit}",
        ),
        wrong=[
            (side, "forgot the turn", "In the turn it comes forward by the radius. Begin that much earlier."),
            (side - 2 * radius, "diameter for radius", "A quarter turn brings it forward by one radius, not two."),
            (radius, "radius for what is left", "That is the radius. How far is it straight on before that?")
            if abs(radius - answer) > measures.value(1, "ft")
            else None,
        ],
    )
