"""Securing: what does the wind do to a parked aircraft, and what holds it?"""

import lazy_loader

# Loaded when a notebook asks for it: marking needs only the questions, and no pictures.
__getattr__, __dir__, __all__ = lazy_loader.attach(__name__, submod_attrs={"demos": ["demo"]})
