"""Questions on travel by tape measure: degrees from inches and back, limits and tolerance."""

from math import pi, radians, sin

from walkaround import measures
from walkaround.assessment.builders import choices, number
from walkaround.physics import controls

_DEG = 180 / pi


def questions(v, section):
    """Questions on travel for a student's draws `v` and the section of the control surfaces."""
    return _angle(v), _least(v), _within(v, section)


def _angle(v):
    chord, surface = v.number("chord", 11, 18, 0.5), v.pick("measured", ("rudder", "elevator", "aileron"))
    moved = round(float(controls.travel(chord, v.number("turned", 16, 27, 0.5))), 1)
    chord, moved, unit = *(measures.given(length, "tape", 1) for length in (chord, moved)), measures.unit("tape")
    answer = float(controls.deflection_deg(chord, moved))
    half = round(moved / 2 / chord, 4)
    return number(
        "angle",
        "Degrees from a tape measure",
        f"The {surface} of another aircraft measures {chord:g} {unit} from the hinge line to the trailing edge. At "
        f"full travel a tape, straight from the trailing edge's neutral place to where it is now, reads {moved:g} "
        f"{unit}. How many degrees is that?",
        answer=answer,
        unit="°",
        tolerance=0.4,
        points=2,
        hint="Half the travel over the chord is the sine of half the angle. (Nearly as good: 57.3 × travel ÷ chord.)",
        worked=(
            f"{moved:g} ÷ 2 ÷ {chord:g} = {half:.4f}, which is the sine of {answer / 2:.2f}°",
            f"2 × {answer / 2:.2f} = {2 * round(answer / 2, 2):.1f}°",
        ),
        wrong=[
            (answer / 2, "half the angle", "That is half of it: the other half is on the other side of the middle."),
            (moved / chord, "radians for degrees", "That is in radians. One of them is 57.3 degrees."),
            (
                2 * _DEG * moved / chord,
                "chord taken for the diameter",
                "The trailing edge turns on a radius of one chord.",
            ),
        ],
    )


def _least(v):
    chord, limit = v.number("chord at the limit", 13, 18, 0.5), v.number("limit", 22, 30)
    allowed = v.pick("allowed", (1.5, 2.0))
    chord, unit, decimals = measures.given(chord, "tape", 1), measures.unit("tape"), measures.places("tape", 2)
    answer = float(controls.travel(chord, limit - allowed))
    half = (limit - allowed) / 2
    sine = round(sin(radians(half)), 4)
    return number(
        "least",
        "The least that will do",
        f"The papers of another aircraft give {limit:.0f}° of up-elevator, {allowed:g}° more or less. The elevator "
        f"measures {chord:g} {unit} from hinge line to trailing edge. What is the least that the tape may read, in "
        f"{measures.name('tape')}, from neutral to full up?",
        answer=answer,
        unit=unit,
        tolerance=round(measures.value(0.12, "tape"), decimals),
        points=3,
        hint="Take the tolerance off first. Then travel = 2 × chord × sine of half the angle.",
        worked=(
            f"{limit:.0f} − {allowed:g} = {limit - allowed:g}°",
            f"the sine of half of it, {half:g}°, is {sine:.4f}",
            f"2 × {chord:g} × {sine:.4f} = {2 * chord * sine:.{decimals}f} {unit}",
        ),
        wrong=[
            (float(controls.travel(chord, limit)), "tolerance left out", "That is the limit itself. It may be less."),
            (float(controls.travel(chord, limit + allowed)), "tolerance added", "That is the most that it may read."),
            (answer / 2, "half the travel", "Twice the chord: each half of the angle has its own half of the travel."),
        ],
    )


def _within(v, section):
    r, allowed = section.rigging, section.tolerance_deg
    limits = {
        "elevator up": r.elevator_up, "elevator down": r.elevator_down, "left aileron up": r.aileron_up,
        "right aileron down": r.aileron_down, "rudder left": r.rudder_left,
    }  # fmt: skip
    offs = (-2.4, -1.6, -0.8, -0.4, 0.0, 0.6, 0.8, 1.4, 2.2)
    measured = {name: round(limit + v.pick(f"off {name}", offs), 1) for name, limit in limits.items()}
    out = {n: float(controls.off_limit_deg(measured[n], limits[n], allowed)) for n in limits}
    answer = {name for name, by in out.items() if by}
    short = {name for name, by in out.items() if by < 0}
    differ = {name for name in limits if measured[name] != limits[name]}
    return choices(
        "within",
        "Out of limits",
        f"Measured on the Morrowlark, whose tolerance is {allowed:g}° either way. Choose every travel that is out of "
        "its limits.",
        answer=answer,
        options=v.shuffled("within", [(name, name[0].upper() + name[1:]) for name in limits]),
        points=2,
        table=(("travel", "limit", "measured"), *((n, f"{limits[n]:g}°", f"{measured[n]:.1f}°") for n in limits)),
        hint="By how much does each differ from its limit? Too far counts as well as too short.",
        worked=[
            f"{n}: {measured[n]:.1f} − {limits[n]:g} = {measured[n] - limits[n]:.1f}°, ".replace("= -", "= −")
            + ("out" if n in answer else "within")
            for n in limits
        ],
        wrong=[
            (differ, "tolerance left out", "Up to the tolerance a travel may differ from its limit.")
            if differ != answer
            else None,
            (short, "only too little counted", "Too far is out of limits, too: something may touch, or bend.")
            if short not in (answer, set())
            else None,
        ],
    )
