"""The [dimensions] section of an aircraft file: where wing, tail, wheels and propeller are.

Every length is in the file's own unit of arm, and an arm is measured from the same datum as the stations' arms.
"""

from itertools import pairwise
from typing import Literal

from walkaround.aircraft.section import Finite, Positive, Section
from walkaround.units import FOOT_M


def metre(units):
    """Metres in the file's unit of arm."""
    return FOOT_M / 12 if units.arm == "in" else 1.0


class Dimensions(Section):
    """An aircraft on three wheels, the nose wheel in front; the wing tapers straight, its quarter chord unswept.

    `nose` and `tail` are the arms of its two ends, `wing_leading_edge` that of the wing root's. `tailplane_arm` is that
    of the tailplane's quarter chord. `wing_height` is from the ground to the wing's underside at the tip,
    `cg_height` from the ground to the centre of gravity.
    """

    note: str = ""
    wing: Literal["high", "low"]
    nose: Finite
    tail: Finite
    span: Positive
    wing_leading_edge: Finite
    wing_root_chord: Positive
    wing_tip_chord: Positive
    wing_height: Positive
    cg_height: Positive
    tailplane_arm: Finite
    tailplane_span: Positive
    tailplane_chord: Positive
    propeller_diameter: Positive
    nose_wheel: Finite
    main_wheels: Finite
    track: Positive
    nose_wheel_radius: Positive
    main_wheel_radius: Positive

    @property
    def wheelbase(self):
        """From the nose wheel's axle to the main wheels'."""
        return self.main_wheels - self.nose_wheel

    @property
    def wing_area(self):
        """Area of the wing, the part through the fuselage included."""
        return self.span * (self.wing_root_chord + self.wing_tip_chord) / 2

    @property
    def tailplane_area(self):
        """Area of the tailplane with its elevator."""
        return self.tailplane_span * self.tailplane_chord

    def metres(self, units):
        """The same dimensions in metres; `units` is the file's section of units."""
        scale = metre(units)
        return self.model_copy(update={k: v * scale for k, v in self if isinstance(v, float)})


def dimension_problems(parts):
    """Dimensions that can't be, (key, value, what is allowed) for each; `parts` has the sections that are sound."""
    here, problems = parts.get("dimensions"), []
    if here is None:
        return problems
    order = ("nose", "nose_wheel", "main_wheels", "tailplane_arm", "tail")
    for ahead, behind in pairwise(order):
        low, high = getattr(here, ahead), getattr(here, behind)
        if high <= low:
            problems.append((f"dimensions.{behind}", high, f"more than {ahead}, {low:g}"))
    aft = max((cg for limits in parts.get("envelopes", []) for cg, _ in limits.corners), default=None)
    if aft is not None and here.main_wheels <= aft:
        says = f"more than the aft-most CG of the limits, {aft:g}, or it sits on its tail"
        problems.append(("dimensions.main_wheels", here.main_wheels, says))
    return problems
