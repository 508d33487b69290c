"""A lead-acid battery: how charged it is, when it freezes, and what cold and a starter leave of it.

The battery is weakest just when thick oil makes the engine hardest to turn. A state of charge is a share, from 0 for
flat to 1 for full. These are guides for a lesson; for a real battery its maker's figures count.
"""

import numpy as np

from walkaround import checks
from walkaround.units import HOUR_S, celsius

# Down to 25 °F: the reciprocals of the temperature correction factors of IEEE Std 485, by which a lead-acid battery has
# to be larger in the cold (1/1.52 = 66 %). Recalled. Below that, 50, 40 and 33 % at 10, 0 and −10 °F: common practice,
# no source.
_FAHRENHEIT = (-10.0, 0.0, 10.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 77.0)
_FACTORS = (1.52, 1.43, 1.35, 1.30, 1.25, 1.19, 1.15, 1.11, 1.08, 1.04, 1.0)
_SHARES = (0.33, 0.40, 0.50, *(1 / f for f in _FACTORS))

COLDEST_C = float(celsius(_FAHRENHEIT[0]))

# Cranking power of a full battery, from a U.S. Army technical manual: 40 % at 0 °F, 65 % at 30 °F, all at 80 °F. The
# line goes on to −10 °F: common practice, no source.
_CRANKING_F, _CRANKING_SHARES = (-10.0, 0.0, 30.0, 80.0), (0.4 - 0.25 / 3, 0.40, 0.65, 1.0)

# When electrolyte freezes, from the same kind of manual; water, of gravity 1, at 32 °F.
_GRAVITIES, _FREEZES_F = (1.0, 1.1, 1.15, 1.2, 1.25, 1.28), (32.0, 19.0, 5.0, -16.0, -62.0, -90.0)
LEAST_GRAVITY, MOST_GRAVITY = _GRAVITIES[0], _GRAVITIES[-1]

FLAT_GRAVITY, FULL_GRAVITY = 1.12, 1.28  # common practice, no source
GRAVITY_TO_VOLTS = 0.845  # what a resting cell has above its gravity, in V: common practice, no source
PEUKERT = 1.2  # Peukert's exponent; 1.1 to 1.3 are usual for lead-acid batteries: common practice, no source


def capacity_share(temperature_c):
    """Share of its rated capacity that a charged lead-acid battery has at a temperature in °C (any shape).

    Straight lines between the points of IEEE Std 485, the reciprocals of 1.52, 1.43, 1.35, 1.30, 1.25, 1.19, 1.15,
    1.11, 1.08 and 1.04 at every 5 °F from 25 to 70, and 1 from 77 °F on, where it is rated; below that 50, 40 and 33 %
    at 10, 0 and −10 °F, common practice without a source. Raises ValueError below −23.3 °C, where there is no figure,
    and above 60 °C.

    >>> [round(float(share), 2) for share in capacity_share([25.0, 10.0, -10.0, -20.0])]
    [1.0, 0.84, 0.54, 0.37]
    """
    return np.interp(_temperature(temperature_c), celsius(_FAHRENHEIT), _SHARES)


def cranking_share(temperature_c):
    """Share of its cranking power that a full lead-acid battery has at a temperature in °C (any shape).

    Straight lines between a U.S. Army manual's points, 40 % at 0 °F, 65 % at 30 °F and all at 80 °F; the first line
    goes on to −10 °F, common practice without a source. Raises ValueError below −23.3 °C and above 60 °C.

    >>> [round(float(share), 2) for share in cranking_share([26.7, 0.0, -15.0])]
    [1.0, 0.66, 0.44]
    """
    return np.interp(_temperature(temperature_c), celsius(_CRANKING_F), _CRANKING_SHARES)


def specific_gravity(state):
    """Specific gravity of the electrolyte at a state of charge from 0 to 1 (any shape), a straight line.

    1.12 when flat and 1.28 when full: common practice, no source. Raises ValueError for a state outside 0 to 1.

    >>> [round(float(gravity), 2) for gravity in specific_gravity([0.0, 0.5, 1.0])]
    [1.12, 1.2, 1.28]
    """
    return FLAT_GRAVITY + (FULL_GRAVITY - FLAT_GRAVITY) * checks.numbers("state", state, 0, 1)


def electrolyte_freezes_c(specific_gravity):
    """Temperature in °C at which electrolyte of a specific gravity freezes (any shape).

    Straight lines between a U.S. Army manual's points, 19 °F at 1.100, 5 at 1.150, −16 at 1.200, −62 at 1.250 and −90
    at 1.280, and water's, 32 at 1. Raises ValueError for a gravity outside 1 to 1.28.

    >>> [round(float(c)) for c in electrolyte_freezes_c([1.1, 1.15, 1.28])]
    [-7, -15, -68]
    """
    gravity = checks.numbers("specific_gravity", specific_gravity, LEAST_GRAVITY, MOST_GRAVITY)
    return celsius(np.interp(gravity, _GRAVITIES, _FREEZES_F))


def open_circuit_volts(state, cells):
    """Volts of a battery at rest, from its state of charge and number of cells (shapes broadcast).

    Gravity + 0.845 V for each cell, a rule of thumb: common practice, no source. Raises ValueError for a state outside
    0 to 1 or less than one cell.

    >>> [round(float(volts), 2) for volts in open_circuit_volts([0.0, 1.0], 6)]
    [11.79, 12.75]
    """
    volts = specific_gravity(state) + GRAVITY_TO_VOLTS
    cells = checks.numbers("cells", cells, low=1)
    checks.same_shape(state=volts, cells=cells)
    return cells * volts


def inner_ohm(state, temperature_c, full_ohm):
    """Inner resistance in Ω, from state, temperature in °C and its value when full at 27 °C (shapes broadcast).

    full_ohm · (2 − state)/cranking share. The most that a source can give is V²/4R, so R grows as the cranking power
    falls. That it is twice as large when flat is a rule of thumb: common practice, no source. Raises ValueError as
    `cranking_share` does, for a state outside 0 to 1, and for a resistance that is not above 0.

    >>> [round(float(ohm), 4) for ohm in inner_ohm([1.0, 0.5], [26.7, -15.0], 0.008)]
    [0.008, 0.0272]
    """
    ohm = checks.numbers("full_ohm", full_ohm, above=0, unit="Ω")
    state, share = checks.numbers("state", state, 0, 1), cranking_share(temperature_c)
    checks.same_shape(state=state, temperature_c=share, full_ohm=ohm)
    return ohm * (2 - state) / share


def share_used(current_a, seconds, rated_ah, temperature_c):
    """Share that a current in A for some seconds takes of all that a battery can give it (shapes broadcast).

    t/(C s/I)^1.2 with t in hours, C the charge in Ah that it is rated to give in one hour, and s its `capacity_share`:
    Peukert's law, by which a large current gets less out of a battery. Some of it comes back when the battery rests.
    Raises ValueError as `capacity_share` does, and for what is below 0.

    >>> [round(float(share), 3) for share in share_used(250.0, 30.0, 30.0, [25.0, -15.0])]
    [0.106, 0.277]
    """
    current = checks.numbers("current_a", current_a, low=0, unit="A")
    hours = checks.numbers("seconds", seconds, low=0, unit="s") / HOUR_S
    rated = checks.numbers("rated_ah", rated_ah, above=0, unit="Ah")
    share = capacity_share(temperature_c)
    checks.same_shape(current_a=current, seconds=hours, rated_ah=rated, temperature_c=share)
    return hours * (current / (rated * share)) ** PEUKERT


def _temperature(temperature_c):
    return checks.numbers("temperature_c", temperature_c, COLDEST_C, 60, "°C")
