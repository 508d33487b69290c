"""The aircraft's electricity: a battery in the cold, cables and what they lose, and a starter that turns an engine."""

from walkaround.physics.electrical.battery import (
    COLDEST_C,
    capacity_share,
    cranking_share,
    electrolyte_freezes_c,
    inner_ohm,
    open_circuit_volts,
    share_used,
    specific_gravity,
)
from walkaround.physics.electrical.cable import area_mm2, resistance_ohm
from walkaround.physics.electrical.lead import LeadLoss, lead_loss
from walkaround.physics.electrical.starter import (
    Battery,
    Cranking,
    Drag,
    Starter,
    crank,
    cranking_torque_nm,
    in_parallel,
    tries,
)
