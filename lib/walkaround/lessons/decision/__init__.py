"""Go or no-go: one flight, every number beside its limit, and a decision with its reasons."""

import lazy_loader

# Loaded when a notebook asks for it: marking needs only the questions, and no pictures.
__getattr__, __dir__, __all__ = lazy_loader.attach(__name__, submod_attrs={"demos": ["demo"]})
