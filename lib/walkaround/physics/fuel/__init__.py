"""Fuel: what it weighs, how much there is and how much to order, and the water that gets into it."""

from walkaround.physics.fuel.density import density_kg_l, lb_per_us_gal
from walkaround.physics.fuel.order import Order, endurance_h, needed, to_order
from walkaround.physics.fuel.tank import (
    Tank,
    below_l,
    capacity_l,
    depth_on_stick_cm,
    drain_gives_l,
    from_stick_l,
    height_cm,
    level_cm,
)
from walkaround.physics.fuel.water import chance_missed, condensed_water_g, leaked_l, vapour_g_m3
from walkaround.physics.oil.quantity import from_dipstick
