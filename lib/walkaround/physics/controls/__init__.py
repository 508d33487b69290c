"""The flight controls: what moves which way, how far by tape measure, and what missing elevator travel costs."""

from walkaround.physics.controls.deflection import deflection_deg, off_limit_deg, travel
from walkaround.physics.controls.elevator import (
    cg_worth,
    downwash_slope,
    effectiveness,
    lift_lost,
    lift_slope_per_rad,
    mean_chord,
    neutral_point,
    pitching_moment,
    speed_after,
    tail_force,
    tail_volume,
)
from walkaround.physics.controls.linkage import FAULTS, Fault, Hands, Rigging, Surfaces, positions
