"""Engine oil: how much there is, how much is burnt, how much a flight needs, and how thick it is in the cold."""

from walkaround.physics.oil.consumption import Change, Trend, change_of_rate, trend
from walkaround.physics.oil.quantity import (
    DENSITY_KG_PER_L,
    LB_PER_US_GALLON,
    consumption_per_hour,
    from_dipstick,
    greatest_consumption_qt_per_h,
    hours_until,
    least_for_flight,
    on_dipstick,
    to_add,
)
from walkaround.physics.oil.reading import holds_on_slope, rise_on_slope, still_up, wait_minutes
from walkaround.physics.oil.viscosity import times_thicker, viscosity_index, viscosity_mm2_s
