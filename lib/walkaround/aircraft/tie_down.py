"""The [tie_down] section of an aircraft file: rings for ropes, and what the wind finds on a parked aircraft.

Lengths are in the file's own unit of arm, heights above the ground with the aircraft on its wheels; areas in m².
"""

from fractions import Fraction

from pydantic import model_validator

from walkaround import measures
from walkaround.aircraft.dimensions import metre
from walkaround.aircraft.section import Finite, Positive, Section
from walkaround.physics.controls import effectiveness
from walkaround.physics.loading import basic_weight_and_moment
from walkaround.physics.securing import ROPES, Airframe, Parked, Rope, line_strength
from walkaround.units import GRAVITY_M_S2, POUND_KG


class WingRing(Section):
    """The ring under each wing; `out` from the middle line."""

    arm: Finite
    out: Positive
    height: Positive


class TailRing(Section):
    """The ring under the tail, on the middle line."""

    arm: Finite
    height: Positive


class TieDown(Section):
    """Rings, and the figures of `physics.securing.Airframe` that the other sections don't have."""

    note: str = ""
    wing_ring: WingRing
    tail_ring: TailRing
    zero_lift_deg: Finite
    dihedral_deg: Finite
    most_lift: Positive
    most_tail_lift: Positive
    drag_area_m2: Positive
    drag_height: Positive
    side_area_m2: Positive
    side_height: Positive

    @model_validator(mode="after")
    def _lifts_level(self):
        if not 0 < self.zero_lift_deg <= 15:
            raise ValueError(f"zero_lift_deg {self.zero_lift_deg:g}; allowed: more than 0, up to 15")
        return self


def newton(units):
    """Newtons in the file's unit of weight, as a force."""
    return GRAVITY_M_S2 * (POUND_KG if units.weight == "lb" else 1.0)


def airframe(craft):
    """What the wind finds on an aircraft with [dimensions], [control_surfaces] and [tie_down], as an `Airframe`."""
    size, tied, scale = craft.dimensions.metres(craft.units), craft.tie_down, metre(craft.units)
    return Airframe(
        wing_area_m2=size.wing_area,
        span_m=size.span,
        wing_arm_m=size.wing_leading_edge + size.wing_root_chord / 4,
        zero_lift_deg=tied.zero_lift_deg,
        dihedral_deg=tied.dihedral_deg,
        most_lift=tied.most_lift,
        tail_area_m2=size.tailplane_area,
        tail_span_m=size.tailplane_span,
        tail_arm_m=size.tailplane_arm,
        most_tail_lift=tied.most_tail_lift,
        elevator_effect=float(effectiveness(craft.control_surfaces.elevator.chord / craft.dimensions.tailplane_chord)),
        drag_area_m2=tied.drag_area_m2,
        drag_height_m=tied.drag_height * scale,
        side_area_m2=tied.side_area_m2,
        side_height_m=tied.side_height * scale,
    )


ANCHOR_LB = 3000.0  # FAA Advisory Circular 20-35C: what an anchor for a single-engine aircraft holds
LEADS = ((-(0.5**0.5), -(0.5**0.5)), (-(0.5**0.5), 0.5**0.5), (1.0, 0.0))  # common practice, no source


def ropes(craft, rope, angle_deg=45.0, slack_m=(0.0, 0.0, 0.0), missing=(), condition=1.0, anchor_lb=ANCHOR_LB):
    """Ropes of a kind (`physics.securing.ROPES`) to the left wing, the right wing and the tail of an aircraft.

    Those to the wings lead forward and outboard, the tail's aft; `missing` has the places, 0 to 2, of those left out.

    >>> from walkaround import aircraft
    >>> tied = ropes(aircraft.demo("morrowlark_four"), "nylon 3/8 in", missing=(2,))
    >>> round(tied[0].holds_n), tied[2]
    (7429, None)
    """
    tied, m, pound = craft.tie_down, metre(craft.units), POUND_KG * GRAVITY_M_S2
    wing, tail = tied.wing_ring, tied.tail_ring
    rings = ((wing.arm, -wing.out, wing.height), (wing.arm, wing.out, wing.height), (tail.arm, 0.0, tail.height))
    breaking, stretch = ROPES[rope]
    holds = float(line_strength(breaking, anchor_lb, condition=condition)) * pound
    return tuple(
        None
        if i in missing
        else Rope(tuple(x * m for x in ring), leads, float(angle_deg), breaking * pound, stretch, holds, slack)
        for i, (ring, leads, slack) in enumerate(zip(rings, LEADS, slack_m, strict=True))
    )


def rope_words(rope):
    """Name a kind of rope by its fibre and its thickness; in metric units that is its true thickness.

    >>> with measures.shown_in(measures.METRIC):
    ...     rope_words("nylon 3/8 in")
    'nylon 9.5 mm'
    """
    if measures.chosen() != measures.METRIC:
        return rope
    fibre, inches, _ = rope.split()
    return f"{fibre} {measures.words(Fraction(inches), 'tape', metric=1)}"


def parked(craft, tied=(None, None, None), fuel_share=0.0, **stands):
    """An aircraft with nobody aboard, its tanks filled to a share, as `physics.securing.Parked`; `stands` is the rest.

    >>> from walkaround import aircraft
    >>> round(parked(aircraft.demo("morrowlark_four")).weight_n)
    6850
    """
    size, m = craft.dimensions.metres(craft.units), metre(craft.units)
    weight, moment = basic_weight_and_moment(craft)
    for tank in craft.fuel.tanks:
        there = fuel_share * tank.usable * craft.fuel.density
        weight, moment = weight + there, moment + there * tank.arm
    return Parked(
        airframe(craft),
        float(weight) * newton(craft.units),
        float(moment / weight) * m,
        size.cg_height,
        ((size.nose_wheel, 0.0), (size.main_wheels, -size.track / 2), (size.main_wheels, size.track / 2)),
        size.main_wheel_radius,
        tied,
        **stands,
    )


def tie_down_problems(parts):
    """Rings that can't be, (key, value, what is allowed) for each; `parts` has the sections that are sound."""
    here, size = parts.get("tie_down"), parts.get("dimensions")
    if here is None or size is None:
        return []
    problems = []
    if here.wing_ring.out > size.span / 2:
        problems.append(("tie_down.wing_ring.out", here.wing_ring.out, f"up to half the span, {size.span / 2:g}"))
    if here.tail_ring.arm <= size.main_wheels:
        says = f"behind the main wheels, {size.main_wheels:g}"
        problems.append(("tie_down.tail_ring.arm", here.tail_ring.arm, says))
    return problems
