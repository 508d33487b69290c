"""Fuel: how much is in the tanks, how much to order, and where the water in them lies."""

import lazy_loader

# Loaded when a notebook asks for them: marking needs only the questions, and no pictures.
__getattr__, __dir__, __all__ = lazy_loader.attach(__name__, submod_attrs={"demos": ["demo"], "night_demo": ["night"]})
