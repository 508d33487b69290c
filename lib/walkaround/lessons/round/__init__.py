"""The round: an aircraft that somebody has parked, and the faults that are hidden on it."""

import lazy_loader

# Loaded when a notebook asks for it: marking needs only the questions, and no pictures.
__getattr__, __dir__, __all__ = lazy_loader.attach(__name__, submod_attrs={"demos": ["demo"]})
