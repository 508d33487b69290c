"""Questions on the tail: what missing up-elevator costs in angle, force, centre of gravity and speed."""

from math import radians, sqrt

from walkaround import measures
from walkaround.assessment.builders import choice, number
from walkaround.lessons.controls.tail import Tail, dynamic_pressure
from walkaround.physics import controls
from walkaround.units import GRAVITY_M_S2

SHARES = (0.25, 0.3, 0.35, 0.4, 0.45, 0.5)


def questions(v, craft):
    """Questions on the tail for a student's draws `v` and the aircraft."""
    tail = Tail(craft)
    return _tau(v), _force(v, tail), _cg(v, craft), _enough(v, tail), _speed(v, tail)


def _tau(v):
    share, missing = v.pick("share", SHARES), v.number("missing", 2, 6, 0.5)
    tau = round(float(controls.effectiveness(share)), 2)
    rows = ((f"{s:.2f}", f"{float(controls.effectiveness(s)):.2f}") for s in SHARES)
    whole = v.pick("whole chord", (40.0, 60.0))
    whole, unit = round(measures.given(whole, "tape"), -1), measures.unit("tape")  # so that every share is whole
    chord = whole * share
    return number(
        "tau",
        "What a degree of elevator is worth",
        f"Another aircraft's tailplane measures {whole:,g} {unit} from its leading edge to the elevator's trailing "
        f"edge. Of that, {chord:g} {unit} are elevator. The elevator lacks {missing:g}° of up travel. How many degrees "
        "of the whole tailplane's angle of attack is that worth?",
        answer=tau * missing,
        unit="°",
        tolerance=0.1,
        points=2,
        table=(("elevator chord ÷ whole chord", "τ, thin-aerofoil theory"), *rows),
        hint="Δα = τ Δδ. Which share of the chord is elevator?",
        worked=(
            f"{chord:g} ÷ {whole:,g} = {share:.2f}, so τ is {tau:.2f}",
            f"{tau:.2f} × {missing:g} = {tau * missing:.2f}°",
        ),
        wrong=[
            (missing, "τ left out", "That is the elevator's own angle. Only a part of the tailplane turns."),
            (share * missing, "share of the chord for τ", "The share is where you enter the table. τ is larger."),
            (missing / tau, "divided by τ", "The elevator turns more than the tailplane would have to: multiply."),
        ],
    )


def _force(v, tail):
    speed, area = v.number("speed", 44, 60), v.number("area", 28, 38)
    pressure = round(dynamic_pressure(speed, in_pounds=True), 1)
    missing, slope = v.number("tail angle", 1.6, 3.6, 0.2), round(radians(tail.slope_per_rad), 3)
    area_told, pressure_told = measures.words(area, "ft²"), measures.words(pressure, "lb/ft²", 1)
    factors = f"{measures.figures(pressure, 'lb/ft²', 1)} × {measures.figures(area, 'ft²')} × {slope:.3f} × {missing:g}"
    area, pressure, unit = measures.given(area, "ft²"), measures.given(pressure, "lb/ft²", 1), measures.unit("lbf")
    answer = pressure * area * slope * missing
    return number(
        "force",
        f"{measures.name('lbf').capitalize()} that are missing at the tail",
        f"A tailplane of {area_told} makes {slope:.3f} of lift coefficient for each degree. At {speed:.0f} kt the "
        f"dynamic pressure of the air is {pressure_told}. With {missing:g}° of the tailplane's angle missing, "
        f"how many {measures.name('lbf')} of force are missing?",
        answer=answer,
        unit=unit,
        tolerance=max(round(measures.value(0.6, "lbf"), 1), round(0.02 * answer, 1)),
        points=2,
        hint="Force = dynamic pressure × area × lift coefficient, and the coefficient is slope × angle.",
        worked=f"{factors} = {answer:,.{measures.places('lbf', 1, 0)}f} {unit}",
        wrong=[
            (pressure * area * missing, "slope left out", "A degree is not a whole lift coefficient: use the slope."),
            (area * slope * missing, "pressure left out", "That is an area. How hard does the air press on it?"),
            (pressure * area * slope, "one degree only", "That is what one degree is worth."),
        ],
    )


def _cg(v, craft):
    force, weight = v.number("force", 25, 60), v.number("weight", 2200, 2600, 50)
    cg, arm = v.number("cg", 104, 108, 0.5), craft.dimensions.tailplane_arm
    cg, arm = measures.given(cg, "arm", 1), measures.given(arm, "arm", 1)
    mass, force, weight = measures.words(weight, "lb"), measures.given(force, "lbf"), measures.given(weight, "lbf")
    weight, decimals = round(weight, -1), measures.places("arm", 1)
    length, unit, pull = measures.unit("arm"), measures.unit("tape"), measures.unit("lbf")
    times = {"in": 1, "mm": 1000}[unit]  # the arm is in inches or in metres
    answer = times * float(controls.cg_worth(force, arm - cg, weight))
    return number(
        "cg",
        f"{measures.name('lbf').capitalize()} at the tail in {measures.name('tape')} of CG",
        f"{force:.0f} {pull} of force are missing at the tailplane, whose quarter chord is at {arm:g} {length}. The "
        f"aircraft weighs {weight:,.0f} {pull}{f' ({mass})' if times > 1 else ''}, and its CG is at "
        f"{cg:.{decimals}f} {length}. That is as bad as a CG further forward with a good elevator. How many "
        f"{measures.name('tape')} further forward?",
        answer=answer,
        unit=unit,
        tolerance=round(measures.value(0.06, "tape"), measures.places("tape", 2)),
        points=3,
        hint="Force times its arm from the CG is a moment. The whole weight times how many "
        f"{measures.name('tape')} gives the same?",
        worked=(
            f"{arm:g} − {cg:.{decimals}f} = {arm - cg:.{decimals}f} {length}",
            f"{'1,000 × ' if times > 1 else ''}{force:.0f} × {arm - cg:.{decimals}f} ÷ {weight:,.0f} = "
            f"{answer:.{measures.places('tape', 2)}f} {unit}",
        ),
        wrong=[
            (
                times * force * arm / weight,
                "arm from the datum",
                "The tail turns the aircraft about its CG: arm from there.",
            ),
            (times * force * cg / weight, "arm of the CG", "That is the arm of the CG. How far behind it is the tail?"),
            (answer * GRAVITY_M_S2, "kilograms taken for newtons", "You divided by kilograms; divide by the newtons.")
            if times > 1
            else None,
        ],
    )


def _enough(v, tail):
    limit, worth = tail.forward_limit, v.number("worth", 1.4, 3.2, 0.2)
    behind = v.number("behind", 0.6, 4.0, 0.2)
    cg = round(limit + behind, 1)
    as_if = round(cg - worth, 1)
    # Too near to tell: then no option is right, and the numbers are drawn again.
    answer, ahead = "as if" if abs(as_if - limit) >= 0.3 else "unclear", as_if < limit
    told, limit, cg = measures.words(worth, "tape", 1), measures.given(limit, "arm", 1), measures.given(cg, "arm", 1)
    worth, decimals, unit = measures.given(worth, "arm", 1), measures.places("arm", 1), measures.unit("arm")
    at = f"the CG were at {{:.{decimals}f}} {unit}"
    says = f"No: it handles as if {at}, ahead of the limit"
    still = f"Yes: it handles as if {at}, still behind the limit"
    options = (
        ("as if", (says if ahead else still).format(cg - worth)),
        ("away", still.format(cg + worth)),
        ("limit", "Yes: the CG is behind its limit, and the limit is where it always was"),
        ("any", "No: with any travel missing, no CG is good enough"),
    )
    return choice(
        "enough",
        "Is it enough?",
        f"Suppose that at the forward limit, {limit:.{decimals}f} {unit}, a good elevator just holds the nose up for "
        f"the landing. This one lacks travel that is worth {told} of CG, and the CG is at {cg:.{decimals}f} {unit}. By "
        "these numbers, is the elevator enough?",
        answer=answer,
        options=v.shuffled("enough", options),
        points=2,
        hint="A weak elevator is like a CG further forward. By how much, and where is that?",
        worked=(
            f"{cg:.{decimals}f} − {worth:.{decimals}f} = {cg - worth:.{decimals}f} {unit}, "
            f"{'ahead of' if ahead else 'behind'} {limit:.{decimals}f} {unit}",
            "Either way it does not fly before a mechanic has put it right: limits of travel are limits.",
        ),
        wrong=[
            (
                "limit",
                "limit taken for the CG's alone",
                "The limit was found with full up-elevator. This one has less.",
            ),
            ("away", "wrong way", "Less up-elevator is like a heavier nose: further forward, not back."),
        ],
    )


def _speed(v, tail):
    speed, lift = v.number("slowest", 42, 52), v.number("lift", 1.9, 2.3, 0.05)
    left = round(lift - v.number("lost", 0.25, 0.5, 0.05), 2)
    answer = float(controls.speed_after(speed, lift, lift - left))
    ratio = round(lift / left, 3)
    return number(
        "speed",
        "When the nose comes down",
        f"Full back holds the nose up down to {speed:.0f} kt, with a lift coefficient of {lift:.2f}. With the elevator "
        f"short of travel, {left:.2f} is the most. Down to what speed does full back hold the nose up now?",
        answer=answer,
        unit="kt",
        tolerance=0.4,
        points=2,
        hint="Lift goes with the coefficient and with the square of the speed, and the weight is the same.",
        worked=(
            f"{lift:.2f} ÷ {left:.2f} = {ratio:.3f}, and the root of that is {sqrt(ratio):.4f}",
            f"{speed:.0f} × {sqrt(ratio):.4f} = {speed * round(sqrt(ratio), 4):.1f} kt",
        ),
        wrong=[
            (speed * lift / left, "no root", "Lift goes with the square of the speed: take the root."),
            (speed * sqrt(left / lift), "turned round", "Less lift coefficient needs more speed."),
            (speed, "not changed", "The weight is the same, and the lift coefficient is smaller."),
        ],
    )
