"""Towing: the pull that it takes, the tracks of wing tips and tail, and how near they come to what stands about."""

from walkaround.physics.towing.clearance import Miss, nearest_miss
from walkaround.physics.towing.force import SURFACES, Loads, Surface, rolls_to_m_s, tow_loads
from walkaround.physics.towing.track import (
    Pose,
    angle_for_turn_deg,
    place,
    radius_of,
    swept_by_wing,
    towed,
    turn_radius,
)
