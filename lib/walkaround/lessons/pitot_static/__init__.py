"""Pitot and static: what does a forgotten cover make the instruments say?"""

import lazy_loader

# Loaded when a notebook asks for one: marking needs the questions only, and no pictures.
__getattr__, __dir__, __all__ = lazy_loader.attach(
    __name__, submod_attrs={"demos": ["dials"], "roll_demo": ["takeoff_roll"], "flight_demos": ["flight", "guess"]}
)
