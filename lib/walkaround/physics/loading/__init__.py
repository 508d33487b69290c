"""Weight and balance: moments, the envelope, the load sheet, planning, and two holds at once."""

from walkaround.physics.loading.envelope import Band, Envelope, closest_approach
from walkaround.physics.loading.loadsheet import LoadSheet, basic_weight_and_moment, cg_shifts, load_sheet
from walkaround.physics.loading.moments import (
    Balance,
    balance,
    cg_after_change,
    cg_after_shift,
    cg_from_percent_mac,
    percent_mac,
    weighed,
    weight_to_add,
    weight_to_shift,
)
from walkaround.physics.loading.planning import amounts_inside, filled, most_fuel, most_in_station, ways_to_fix
from walkaround.physics.loading.two_holds import TwoHolds, loads_inside
