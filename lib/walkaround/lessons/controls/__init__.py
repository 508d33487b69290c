"""Controls: free, the right way, full travel; and what does an elevator cost that is three degrees short?"""

import lazy_loader

# Loaded when a notebook asks for it: marking needs only the questions, and no pictures.
__getattr__, __dir__, __all__ = lazy_loader.attach(__name__, submod_attrs={"demos": ["demo"], "drill_demo": ["drill"]})
