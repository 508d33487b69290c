"""Preheat and oil: when is a cold engine ready to start, and what did it cost?"""

import lazy_loader

# Loaded when a notebook asks for them: marking needs only the questions, and no pictures.
__getattr__, __dir__, __all__ = lazy_loader.attach(
    __name__, submod_attrs={"demos": ["demo"], "hangar_demos": ["fit", "hangar_table"]}
)
