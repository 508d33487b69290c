"""What spares time with a large class."""

import gc
from contextlib import contextmanager


@contextmanager
def no_search_for_cycles():
    """Python does not look for objects that hold each other: it would look at every mark of a class again and again.

    For a function that makes many objects and no such rings. Works as a decorator too.

    >>> with no_search_for_cycles():
    ...     gc.isenabled()
    False
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
