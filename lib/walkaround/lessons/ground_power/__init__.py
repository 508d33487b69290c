"""Ground power and cold start: does it turn fast enough, and what does the wrong plug do?"""

import lazy_loader

# Loaded when a notebook asks for it: marking needs only the questions, and no pictures.
__getattr__, __dir__, __all__ = lazy_loader.attach(__name__, submod_attrs={"demos": ["demo"]})
