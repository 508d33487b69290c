"""Towing: what moves it, where do wing tips and tail go, and will it fit through the door?"""

import lazy_loader

# Loaded when a notebook asks for it: marking needs only the questions, and no pictures.
__getattr__, __dir__, __all__ = lazy_loader.attach(
    __name__, submod_attrs={"demos": ["demo"], "force_demo": ["force"], "hangar_demo": ["hangar"]}
)
