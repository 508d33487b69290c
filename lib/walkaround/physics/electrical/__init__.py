"""The aircraft's electricity: what a cold battery still gives."""

from walkaround.physics.electrical.battery import COLDEST_C, capacity_share

__all__ = ["COLDEST_C", "capacity_share"]
