"""What a student sees of an exercise: the form, the answer box, who they are, and the map with what is done."""

import lazy_loader

# Loaded when a notebook asks for one: marking needs only the enrolment, and no widgets.
__getattr__, __dir__, __all__ = lazy_loader.attach(
    __name__,
    submod_attrs={
        "form": ["exercise", "mixed_practice", "quick"],
        "stop_map": ["round_map"],
        "by_hand": ["worked_solution"],
    },
)
