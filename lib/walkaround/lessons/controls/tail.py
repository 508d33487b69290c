"""The tail of an aircraft file at its forward limit of CG: what missing up-elevator costs there."""

from dataclasses import dataclass

from walkaround.physics import controls
from walkaround.physics.air import airspeed
from walkaround.units import FOOT_M, GRAVITY_M_S2, POUND_KG

HPA = 100.0  # Pa


def dynamic_pressure(speed_kt, in_pounds):
    """Dynamic pressure at a calibrated airspeed in kt: in lb/ft², or in Pa.

    >>> round(dynamic_pressure(46.0, in_pounds=True), 1)
    7.2
    """
    pascal = HPA * float(airspeed.impact_pressure_hpa(speed_kt))
    return pascal * FOOT_M**2 / (POUND_KG * GRAVITY_M_S2) if in_pounds else pascal


@dataclass(frozen=True)
class Cost:
    """What missing up-elevator costs: force at the tail in lb or N, CG in in or mm, and the slowest speed in kt."""

    force: float
    cg: float
    slowest_kt: float


class Tail:
    """The tail at the greatest weight, the forward limit of CG for it, and the stalling speed with flaps (or without).

    Areas and pressure are in ft² and lb/ft² for a file of pounds and inches, in m² and Pa otherwise; `arm` and
    `forward_limit` in the file's unit of arm; `weight` in lb or N.
    """

    def __init__(self, craft):
        dimensions, units = craft.dimensions, craft.units
        metres = dimensions.metres(units)
        self.in_pounds = units.weight == "lb"
        self.force_unit, self.cg_unit = ("lb", "in") if self.in_pounds else ("N", "mm")
        self.speed_kt = craft.speeds.vs0 or craft.speeds.vs1
        self.weight = craft.limits.take_off * (1.0 if self.in_pounds else GRAVITY_M_S2)
        top = max(w for _, w in craft.envelopes[0].corners)
        self.forward_limit = min(cg for cg, w in craft.envelopes[0].corners if w == top)
        self.arm = dimensions.tailplane_arm - self.forward_limit
        per_area = FOOT_M**2 if self.in_pounds else 1.0
        self.area, self.wing_area = metres.tailplane_area / per_area, metres.wing_area / per_area
        self.pressure = dynamic_pressure(self.speed_kt, self.in_pounds)
        self.tau = float(controls.effectiveness(craft.control_surfaces.elevator.chord / dimensions.tailplane_chord))
        self.slope_per_rad = float(
            controls.lift_slope_per_rad(dimensions.tailplane_span**2 / dimensions.tailplane_area)
        )
        self.mean_chord = float(controls.mean_chord(dimensions.wing_root_chord, dimensions.wing_tip_chord))
        self._margin(dimensions)

    def _margin(self, dimensions):
        """Tail volume, and the static margin at the forward limit."""
        ratio = dimensions.span**2 / dimensions.wing_area
        wing_slope = controls.lift_slope_per_rad(ratio)
        quarter = dimensions.wing_leading_edge + dimensions.wing_root_chord / 4
        shape = dimensions.wing_area, self.mean_chord
        about_quarter = controls.tail_volume(dimensions.tailplane_area, dimensions.tailplane_arm - quarter, *shape)
        self.volume = float(controls.tail_volume(dimensions.tailplane_area, self.arm, *shape))
        downwash = controls.downwash_slope(wing_slope, ratio)
        neutral = controls.neutral_point(about_quarter, wing_slope, self.slope_per_rad, downwash)
        self.margin = float(neutral) - 0.25 - (self.forward_limit - quarter) / self.mean_chord
        self.lift_coefficient = self.weight / (self.pressure * self.wing_area)

    def cost(self, missing_deg):
        """What so much missing up-elevator costs (`Cost`)."""
        force = controls.tail_force(self.pressure, self.area, self.slope_per_rad, self.tau, missing_deg)
        moment = controls.pitching_moment(self.volume, self.slope_per_rad, self.tau, missing_deg)
        lost = controls.lift_lost(moment, self.margin)
        return Cost(
            float(force),
            float(controls.cg_worth(force, self.arm, self.weight)) * (1.0 if self.in_pounds else 1000.0),
            float(controls.speed_after(self.speed_kt, self.lift_coefficient, lost)),
        )
