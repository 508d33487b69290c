"""Engine oil: how much there is, how much a flight needs, and how thick it is in the cold."""

from walkaround.physics.oil.quantity import (
    DENSITY_KG_PER_L,
    LB_PER_US_GALLON,
    consumption_per_hour,
    from_dipstick,
    greatest_consumption_qt_per_h,
    hours_until,
    least_for_flight,
    to_add,
)
from walkaround.physics.oil.viscosity import times_thicker, viscosity_index, viscosity_mm2_s

__all__ = [
    "DENSITY_KG_PER_L",
    "LB_PER_US_GALLON",
    "consumption_per_hour",
    "from_dipstick",
    "greatest_consumption_qt_per_h",
    "hours_until",
    "least_for_flight",
    "times_thicker",
    "to_add",
    "viscosity_index",
    "viscosity_mm2_s",
]
