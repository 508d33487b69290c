"""Securing: what the wind does to a parked aircraft, and what ropes, anchors, chocks and tyres set against it."""

from walkaround.physics.securing.chocks import chock_force
from walkaround.physics.securing.parked import FAILURES, Parked, Standing, elevator_at_deg, fails_at_kt, load, standing
from walkaround.physics.securing.ropes import ROPES, Rope, line_strength, rope_tension, snatch
from walkaround.physics.securing.supports import Supports, carried
from walkaround.physics.securing.wind import HALF_WING, Airframe, WindLoads, lift_off_kt, wind_loads, wind_pressure_pa
