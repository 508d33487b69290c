"""The aircraft's electricity: what a cold battery still gives, and what an extension lead loses."""

from walkaround.physics.electrical.battery import COLDEST_C, capacity_share
from walkaround.physics.electrical.lead import LeadLoss, lead_loss

__all__ = ["COLDEST_C", "LeadLoss", "capacity_share", "lead_loss"]
