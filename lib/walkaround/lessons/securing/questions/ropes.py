"""Questions on ropes: tension at an angle, a wing that wants to lift, the weakest part, and a slack rope's jerk."""

from functools import cache

import numpy as np

from walkaround import measures
from walkaround.aircraft import tie_down
from walkaround.aircraft.airfield import airfield
from walkaround.assessment.builders import number
from walkaround.lessons.securing.questions.wind import EMPTY, MORROWLARK, POUND_N, force
from walkaround.physics.securing import HALF_WING, ROPES, line_strength, rope_tension, snatch, wind_loads
from walkaround.units import FOOT_M

SINES = {degrees: round(float(np.sin(np.radians(degrees))), 3) for degrees in (25, 30, 35, 40, 45, 50, 55, 60, 65)}
SIDE_DEG = 45
# Feet from the middle line: a half wing's lift, the right wheel, where the left rope's line meets the ground.
LIFT_FT = round(HALF_WING * MORROWLARK.dimensions.span / 2 / 12, 1)
WHEEL_FT = round(MORROWLARK.dimensions.track / 2 / 12, 1)
_LEFT = tie_down.ropes(MORROWLARK, "nylon 3/8 in")[0]
ROPE_FT = round(-_LEFT.anchor_m[1] / FOOT_M, 1)
HIGH_FT = round(MORROWLARK.tie_down.side_height / 12, 1)


def questions(v):
    """Questions on ropes for a student's draws `v`."""
    return _tension(v), _roll(v), _weakest(v), _jerk(v)


def _table():
    return (("angle to the ground", "sine"), *((f"{degrees}°", f"{sine:.3f}") for degrees, sine in SINES.items()))


def _tension(v):
    pull, angle = force(v.number("pull", 200, 600, 10)), v.pick("angle", (25, 30, 35, 55, 60, 65))
    sine = SINES[angle]
    cosine = SINES[90 - angle]
    answer, unit = float(rope_tension(pull, angle)), measures.unit("lbf")
    return number(
        "tension",
        "A rope at an angle",
        f"A gust pulls the ring under a wing straight up with {pull:,.0f} {unit}. The rope leads from the ring to its "
        f"anchor "
        f"at {angle}° to the ground. What is the tension in the rope?",
        answer=answer,
        unit=unit,
        tolerance=round(0.012 * answer, 1),
        points=2,
        table=_table(),
        hint="Only the upright part of the tension holds the ring down: tension × sine of the angle.",
        worked=f"{pull:,.0f} ÷ {sine:.3f} = {pull / sine:,.0f} {unit}",
        wrong=[
            (pull * sine, "multiplied by the sine", "A rope at an angle carries more than the pull, never less."),
            (
                pull / cosine,
                "angle from the upright",
                "That is for an angle from the upright. This one is to the ground.",
            ),
            (float(pull), "angle left out", "That is a rope that leads straight down."),
        ],
    )


@cache
def _side_wind(wind_kt, nose_up_deg):
    """Lift of the left and right half and side force of the Morrowlark in whole lb, wind from 45° left."""
    loads = wind_loads(tie_down.airframe(MORROWLARK), wind_kt, SIDE_DEG, nose_up_deg)
    return tuple(round(float(force) / POUND_N) for force in (loads.left_n, loads.right_n, loads.side_n))


def _roll(v):
    wind, nose = v.number("side wind", 70, 78), v.number("nose high", 4, 6)
    left, right, side, empty = (force(pounds) for pounds in (*_side_wind(wind, nose), EMPTY))
    at, wheel, rope, high = (measures.given(feet, "ft", 1, metric=2) for feet in (LIFT_FT, WHEEL_FT, ROPE_FT, HIGH_FT))
    unit, length = measures.unit("lbf"), measures.unit("ft")
    up = round(left * (at + wheel) + side * high)
    down = round(right * (at - wheel) + empty * wheel)
    lever = round(rope + wheel, 2)
    pull = (left * (at + wheel) + side * high - right * (at - wheel) - empty * wheel) / lever
    # The right wheel stands on the ground only if something is left for it to carry; numbers are drawn in lb.
    answer = pull if measures.chosen() or empty - left - right + pull > 50 else float("nan")
    no_side = (left * (at + wheel) - right * (at - wheel) - empty * wheel) / lever
    middle = ((left - right) * at + side * high) / rope
    return number(
        "roll",
        "The left wing comes up",
        f"A gust from the left, {wind:.0f} kt, lifts the left wing with {left:,.0f} {unit} and the right wing with "
        f"{right:,.0f} {unit}, each {at:g} {length} from the middle of the aircraft, and pushes the aircraft to the "
        f"right with {side:,.0f} {unit}, {high:g} {length} above the ground. It weighs {empty:,.0f} {unit}, in the "
        f"middle. The left wheel has just left the ground, and the aircraft leans on its right wheel, {wheel:g} "
        f"{length} right of the middle. The left rope pulls down where its line meets the ground, {rope:g} {length} "
        "left of the middle. How hard does it pull down? Take moments about the right wheel, and leave "
        "nose wheel and tail out.",
        answer=answer,
        unit=unit,
        tolerance=force(4),
        points=4,
        hint="Force × lever for each. What turns it over: the left lift and the push. What holds it: weight, rope, and "
        "the right lift, which is on the other side of the wheel.",
        worked=(
            f"over: {left:,.0f} × ({at:g} + {wheel:g}) + {side:,.0f} × {high:g} = {up:,} {unit}·{length}",
            f"back: {right:,.0f} × ({at:g} − {wheel:g}) + {empty:,.0f} × {wheel:g} = {down:,} {unit}·{length}",
            f"({up:,} − {down:,}) ÷ ({rope:g} + {wheel:g}) = {(up - down) / lever:,.0f} {unit}",
        ),
        wrong=[
            (pull + empty * wheel / lever, "weight forgotten", "The weight holds it down, too."),
            (no_side, "push forgotten", "The wind also pushes it over sideways, well above the ground.")
            if no_side > 0
            else None,
            (pull + 2 * right * (at - wheel) / lever, "right lift on the wrong side",
             "The right lift is beyond the wheel: it turns the aircraft back."),
            (pull * lever / rope, "rope's lever from the middle", "The lever counts from the wheel, not the "
             "middle."),
            (middle, "moments about the middle", "It leans on the right wheel: take moments there. The weight "
             "counts then."),
        ],
    )  # fmt: skip


def _weakest(v):
    rope, angle = v.pick("rope", tuple(ROPES)), v.pick("rope's angle", (30, 40, 50, 60))
    anchor, holds = v.pick(
        "anchor", (("a concrete anchor", tie_down.ANCHOR_LB), ("a stake in wet grass", airfield().stake_lb))
    )
    breaking, holds, unit, sine = 2 * force(ROPES[rope][0] / 2), force(holds), measures.unit("lbf"), SINES[angle]
    least = float(line_strength(breaking, holds))
    answer = least / float(rope_tension(1.0, angle))
    knotless, weaker = min(breaking, holds) * sine, "rope" if breaking / 2 < holds else "anchor"
    other = (holds if weaker == "rope" else breaking / 2) * sine
    return number(
        "weakest",
        "The weakest part",
        f"The left wing is tied with {tie_down.rope_words(rope)} rope that breaks at {breaking:,.0f} {unit}, to "
        f"{anchor} that holds {holds:,.0f} {unit} along the rope. The knots leave half of the rope's strength (a rule "
        f"of thumb). The rope leads down at {angle}° to the ground. How large an upward pull at the ring can "
        "this hold?",
        answer=answer,
        unit=unit,
        tolerance=round(0.012 * answer, 1),
        points=3,
        table=_table(),
        hint="First the tension that the weaker of the two holds. Then the upright part of that.",
        worked=(
            f"rope with knots: {breaking:,.0f} ÷ 2 = {breaking / 2:,.0f} {unit}; anchor: {holds:,.0f} {unit}",
            f"{least:,.0f} × {sine:.3f} = {least * sine:,.0f} {unit}",
        ),
        wrong=[
            (knotless, "knots forgotten", "The knots leave about half of it.") if knotless != least * sine else None,
            (other, "the stronger part", "That is the stronger part. The weaker one gives first."),
            (least, "angle left out", "That is the tension. Only its upright part holds the ring down."),
            (least / sine, "divided by the sine", "At an angle the rope holds less upward pull than its tension."),
        ],
    )


def _jerk(v):
    pull = force(v.number("jerk's pull", 150, 400, 10))
    stiff = measures.given(v.number("stiff", 60, 200, 10), "lb/in")
    slack, unit = measures.given(v.number("slack", 2, 8), "in", metric=1), measures.unit("lbf")
    answer = float(snatch(pull, stiff, slack))
    inside = pull * pull + 2 * stiff * pull * slack
    root = round(inside**0.5)
    return number(
        "jerk",
        "A slack rope",
        f"A rope hangs {slack:g} {measures.unit('in')} slack. A gust comes all at once and pulls the ring with "
        f"{pull:,.0f} {unit}; taut, the rope carries {stiff:.0f} {unit} for each {measures.name('in', one=True)} that "
        "it stretches. With pull F, stiffness k and slack s the jerk reaches F + √(F × F + 2 × k × F × s) at most. How "
        f"many {measures.name('lbf')} is that?",
        answer=answer,
        unit=unit,
        tolerance=round(0.012 * answer, 1),
        points=2,
        hint="Work out what is under the root first.",
        worked=(
            f"{pull:,.0f} × {pull:,.0f} + 2 × {stiff:.0f} × {pull:,.0f} × {slack:g} = {inside:,.0f}",
            f"√{inside:,.0f} = {root:,}",
            f"{pull:,.0f} + {root:,} = {pull + root:,.0f} {unit}",
        ),
        wrong=[
            (2.0 * pull, "slack left out", "That is for a rope without slack. Falling through the slack adds to it."),
            (float(root), "only the root", "The pull itself comes on top of the root."),
            (pull + (pull * pull + stiff * pull * slack) ** 0.5, "the 2 forgotten", "It is 2 × k × F × s."),
            (
                float(pull),
                "no jerk at all",
                "That is the steady pull. The ring has gathered speed when the rope gets taut.",
            ),
        ],
    )
