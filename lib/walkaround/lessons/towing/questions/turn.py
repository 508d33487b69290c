"""Questions on the turn: its radius, the outer and the inner wing tip, the tail that swings out, the marks."""

import numpy as np

from walkaround import checks, measures
from walkaround.assessment.builders import choice, number
from walkaround.lessons.towing.questions.scenario import decimals, facts, length, tangent
from walkaround.physics.towing import angle_for_turn_deg, radius_of, turn_radius

# Of four turns, one, two or three within the marks.
ANGLES = (
    ((24, 28), (33, 37), (41, 46), (50, 58)),
    ((14, 22), (24, 28), (33, 38), (44, 55)),
    ((11, 15), (17, 21), (24, 28), (34, 45)),
)


def questions(v, g):
    """Questions on the turn for a student's draws `v` and `Givens` `g`."""
    return _radius(v, g), _tip(v, g), _swing(v, g), _inner(v, g), _limit(v, g)


def _radius(v, g):
    angle = v.number("radius angle", 12, 28)
    answer, rad = float(turn_radius(g.wheelbase, angle)), np.radians(angle)
    unit, digits = measures.unit("ft"), decimals()
    return number(
        "radius",
        "The radius of the turn",
        f"The nose wheel is held at {angle}°. The middle between the main wheels then turns on the distance between "
        f"nose wheel and main wheels ÷ tan of that angle. On what radius, in {unit}?",
        answer=answer,
        unit=unit,
        tolerance=length(0.3),
        points=2,
        table=facts(g),
        hint="The centre of the turn lies on the line through the main wheels: a right-angled triangle.",
        worked=f"{g.wheelbase:.{digits}f} ÷ {tangent(angle):.4f} = {g.wheelbase / tangent(angle):.{digits}f} {unit}",
        wrong=[
            (g.wheelbase / np.sin(rad), "sine for tangent", "That is the radius on which the nose wheel itself turns.")
            if g.wheelbase / np.sin(rad) - answer > measures.value(0.65, "ft")
            else None,
            (g.wheelbase * np.tan(rad), "multiplied", "The smaller the angle, the wider the turn: divide."),
            (g.span / np.tan(rad), "span for wheelbase", "The wheels set the turn. Take the distance between them."),
        ],
    )


def _tip(v, g):
    middle, unit, digits = length(v.number("tip middle", 9, 20, 0.5)), measures.unit("ft"), decimals()
    answer, inner = middle + g.span / 2, abs(middle - g.span / 2)
    return number(
        "tip",
        "The outer wing tip",
        f"In another turn the middle between the main wheels runs on a radius of {middle:g} {unit}. On what radius "
        f"does the outer wing tip run, in {unit}? Take the wing to be straight above the main wheels.",
        answer=answer,
        unit=unit,
        tolerance=length(0.3),
        points=2,
        table=facts(g),
        hint="How far is the tip from the middle of the aircraft?",
        worked=f"{middle:g} + {g.span:.{digits}f} ÷ 2 = {answer:.{digits}f} {unit}",
        wrong=[
            (middle + g.span, "the whole span", "From the middle to a tip is half the span."),
            (inner, "the inner tip", "That is the inner wing tip. The outer one is further out."),
            (g.span / 2, "forgot the turn", "That is half the span. The middle of the aircraft turns on a radius too."),
        ],
    )


def _swing(v, g):
    middle, unit, digits = length(v.number("swing middle", 9, 20, 0.5)), measures.unit("ft"), decimals()
    tail = float(np.hypot(middle, g.tail))
    answer, behind = tail - middle, f"{g.tail:.{digits}f}"
    return number(
        "swing",
        "The tail swings out",
        f"The middle between the main wheels turns on {middle:g} {unit}. The end of the tail is "
        f"{g.tail:.{digits}f} {unit} behind it. How many {measures.name('ft')} outside the track of that "
        "middle does the end of the tail swing?",
        answer=answer,
        unit=unit,
        tolerance=length(0.2),
        points=3,
        table=facts(g),
        hint="Pythagoras: radius and tail are the two short sides of a right-angled triangle.",
        worked=(
            f"{middle:g} × {middle:g} + {behind} × {behind} = {middle**2 + g.tail**2:.2f}, and its root is {tail:.2f} "
            f"{unit}",
            f"{tail:.2f} − {middle:g} = {round(tail, 2) - middle:.{digits}f} {unit}",
        ),
        wrong=[
            (tail, "radius for swing", "That is the tail's radius. How much larger is it than that of the middle?"),
            (g.tail, "the whole tail", "The tail would have to stand out sideways for that."),
            (middle + g.tail, "added", "The tail lies across the radius, not along it: Pythagoras."),
        ],
    )


def _inner(v, g):
    # Half the span is 17.8 ft; a radius close to that would be a question of a hair's breadth.
    middle, unit = length(v.pick("inner middle", (10.0, 12.0, 14.0, 22.0, 25.0, 28.0)), 1), measures.unit("ft")
    answer = "back" if middle < g.span / 2 else "forward"
    half = g.span / 2
    other = "forward" if answer == "back" else "back"
    where = "inside the span" if answer == "back" else "outside the span"
    return choice(
        "inner",
        "The inner wing tip",
        f"The middle between the main wheels is towed forwards on a radius of {middle:g} {unit}. Which way does the "
        "inner wing tip move?",
        answer=answer,
        options=[
            ("forward", "forwards, only slower than the rest"),
            ("still", "it stands still and the aircraft turns about it"),
            ("back", "backwards: whoever stands behind it is pushed"),
        ],
        points=1,
        table=facts(g),
        hint="Where is the centre of the turn: beyond the tip, or under the wing?",
        worked=f"half the span is {half:.1f} {unit}, and the centre is {middle:g} {unit} away: {where}",
        wrong=[
            (other, "centre on the wrong side of the tip", f"The centre lies {where}. Draw it."),
            ("still", "always about the tip", "Only if the radius were half the span."),
        ],
    )


def _limit(v, g):
    angles = [v.number(f"limit {i}", *ends) for i, ends in enumerate(v.pick("limit case", ANGLES))]
    unit, digits = measures.unit("ft"), decimals()
    radii = [round(float(turn_radius(g.wheelbase, angle)), digits) for angle in angles]
    least = float(turn_radius(g.wheelbase, g.limit_deg))
    allowed = [i for i, radius in enumerate(radii) if checks.at_least(radius, least)]
    answer, tightest = allowed[-1], len(radii) - 1
    beyond = "For that the nose wheel would have to be turned past its marks."
    return choice(
        "limit",
        "As tight as the marks allow",
        f"The nose wheel may be turned by {g.limit_deg}° each way. Which is the tightest of these turns that the marks "
        "allow, by the radius of the middle between the main wheels?",
        answer=f"{answer}",
        options=[(f"{i}", f"{radius:.{digits}f} {unit}") for i, radius in enumerate(radii)],
        points=2,
        table=facts(g),
        hint="Compute the radius at the limit. Tighter than that is past the marks.",
        worked=(
            f"at the limit: {g.wheelbase:.{digits}f} ÷ {tangent(g.limit_deg):.4f} = {least:.{digits}f} {unit}",
            *(
                f"{radius:.{digits}f} {unit} needs {float(angle_for_turn_deg(g.wheelbase, radius)):.0f}°"
                for radius in radii
            ),
        ),
        wrong=[
            (f"{tightest}", "the tightest of all", beyond),
            (f"{answer + 1}", "just past the marks", beyond) if answer + 1 != tightest else None,
            ("0", "the widest", "The marks allow a tighter one.") if answer else None,
        ],
    )


def outer_tip(g, angle):
    """Radius of the outer wing tip, the wing straight above the main wheels, with the nose wheel at an angle."""
    return float(radius_of(g.wheelbase, angle, 0.0, -g.span / 2))
