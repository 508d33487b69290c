"""The choice of units that is remembered, and what is open on a page and follows it."""

import os
from collections import deque
from functools import wraps
from pathlib import Path
from weakref import ref

from jupyter_core.paths import jupyter_config_dir

from walkaround import measures

VARIABLE = "WALKAROUND_UNITS"  # in the environment, it comes before what is remembered; "none" for no choice
# As a screen lists them; the first is the choice of who has made none.
CHOICES = (("as in the aircraft's papers", None), ("US", measures.US), ("metric", measures.METRIC))
# What was opened last, more than any page has: a cell that runs again leaves what it showed before alive but unseen.
_open = deque(maxlen=40)
_unsaved = []  # the choice where it can't be saved: it holds for this page


def _file():
    return Path(jupyter_config_dir()) / "walkaround-units.txt"


def remembered():
    """Return the system of units that was chosen last, on any page: US, METRIC, or None."""
    try:
        text = os.environ.get(VARIABLE) or (_unsaved[-1] if _unsaved else _file().read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError):
        return None
    return text.strip() if text and text.strip() in measures.SYSTEMS else None


def choose(system):
    """Remember a system of units, and show all that is open on this page in it."""
    _unsaved.clear()
    try:
        _file().parent.mkdir(parents=True, exist_ok=True)
        _file().write_text(system or "", encoding="utf-8")
    except OSError:
        _unsaved.append(system or " ")
    for thing in [seen for known in _open if (seen := known()) is not None]:
        thing.show_units(system)


def follow(thing):
    """Have a thing's `show_units(system)` called whenever another system is chosen."""
    _open.append(ref(thing))


def for_screen(system):
    """What a screen needs to show the choice: the names of `CHOICES`, and the place of a system among them."""
    return [[name for name, _ in CHOICES], [each for _, each in CHOICES].index(system)]


def in_chosen_units(build):
    """Make a function show what it returns in the units that are chosen, and a stage that it returns follow the choice.

    >>> from walkaround.lessons import loading
    >>> with measures.shown_in(measures.METRIC):
    ...     loading.demo().controls["front seats"].unit
    'kg'
    """

    @wraps(build)
    def built(*args, **kwargs):
        def again():
            return build(*args, **kwargs)

        with measures.shown_in(measures.chosen() or remembered()):
            made = again()
        if hasattr(made, "show_units"):
            made.build_again = again
            follow(made)
        return made

    return built
