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

__all__ = [
    "COLDEST_C",
    "Battery",
    "Cranking",
    "Drag",
    "LeadLoss",
    "Starter",
    "area_mm2",
    "capacity_share",
    "crank",
    "cranking_share",
    "cranking_torque_nm",
    "electrolyte_freezes_c",
    "in_parallel",
    "inner_ohm",
    "lead_loss",
    "open_circuit_volts",
    "resistance_ohm",
    "share_used",
    "specific_gravity",
    "tries",
]
