"""Invented oil logs of the demonstration and the exercise, made for any of the invented aircraft.

They are written in quarts of the Morrowlark Four; another aircraft's lie as far between its least oil and full.
"""

from walkaround import aircraft
from walkaround.lessons.oil.check import Log

HOURS = (0, 3, 5, 9, 12, 14, 18, 21)
POURED_AFTER = 3  # place of the reading after which oil was added

# Oil that was there at each reading, and what was added on the way.
STEADY = (7.2, 7.0, 6.7, 6.6, 7.2, 7.1, 6.7, 6.5), 1.0
THIRSTY = (7.6, 7.1, 6.6, 5.7, 7.3, 6.8, 6.0, 5.3), 2.0
CHANGED = (7.2, 7.0, 6.8, 6.5, 7.3, 6.9, 6.1, 5.5), 1.0
CARELESS = (7.4, 6.6, 7.1, 6.2, 7.5, 6.7, 6.9, 6.4), 1.0


def scaled(engine, quarts, step=None):
    """An amount of the Morrowlark Four's oil, as much of what lies between least and full in this engine.

    `step` rounds it to what can be read.

    >>> scaled(aircraft.demo("tansy_two").engine, 1.5)
    0.5
    """
    four = aircraft.demo("morrowlark_four").engine.oil
    share = (engine.oil.full - engine.oil.minimum) / (four.full - four.minimum)
    return round(quarts * share, 6) if step is None else round(round(quarts * share / step) * step, 6)


def level(engine, quarts):
    """A level in the Morrowlark Four's sump, as high between least and full in this engine's.

    >>> level(aircraft.demo("tansy_two").engine, 6.5)
    2.7
    """
    four, oil = aircraft.demo("morrowlark_four").engine.oil, engine.oil
    step = oil.sump.read_to
    return round(round((oil.minimum + scaled(engine, quarts - four.minimum)) / step) * step, 6)


def log(quantities, added, count=8):
    """The first readings of a log (`Log`); what was added counts once there is a reading after it."""
    poured = [0.0] * count
    if count > POURED_AFTER + 1:
        poured[POURED_AFTER] = added
    return Log(HOURS[:count], tuple(quantities[:count]), tuple(poured))
