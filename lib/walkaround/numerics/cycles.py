"""When something that ripples with a thermostat's cycle first reaches a temperature.

Such a temperature is a pattern that repeats with every cycle plus a remainder that fades, both sums of
exponentials, so whole cycles are passed over at once and only the one that matters is looked at closely.
"""

import numpy as np

from walkaround.numerics.exponentials import first_at_or_above, highest


def first_in_cycles(rates, off, on, fading, off_s, on_s, wanted):
    """Time in s from the first switching off until a temperature first reaches `wanted`; infinite if it never does.

    Parameters, one row for each temperature: `rates` of the terms, the first of them 0; coefficients `off` and
    `on` of what repeats, while the element is off and on, each counted from its own beginning; coefficients
    `fading` of what is left over from the beginning, which fades; how long each cycle is off and on,
    `off_s` and `on_s`, infinite where the element stays off; `wanted`, the rise to reach.

    >>> constant, one = np.zeros((1, 2)), np.ones(1)
    >>> from_below = np.array([[0.0, -1.0]])
    >>> even = constant + [1.0, 0.0]
    >>> found = first_in_cycles(np.array([[0.0, 0.1]]), even, even, from_below, one, one, one / 2)
    >>> round(float(found[0]), 2)
    6.93
    """
    on_s = np.where(np.isfinite(off_s), on_s, 0.0)
    period = off_s + on_s
    peak = highest(np.stack([off, on]), rates, np.stack([off_s, on_s])).max(axis=0)
    whole_s = np.where(np.isfinite(period), period, 0.0)  # what a cycle that comes to an end takes
    found = np.full(wanted.shape, np.inf)
    cycles = np.zeros_like(wanted)  # how many have passed without reaching it
    left = np.arange(wanted.size)
    while left.size:
        # Nothing is reached before the moment at which even the top of the ripple would reach it …
        r, since = rates[left], cycles[left] * whole_s[left]
        remainder = fading[left] * np.exp(-r * since[:, np.newaxis])
        remainder[:, 0] = peak[left]
        since = since + first_at_or_above(remainder, r, np.inf, wanted[left])
        left, since = left[np.isfinite(since)], since[np.isfinite(since)]
        # … so the cycle in which that lies is looked at closely, and then the next.
        cycles[left] = np.maximum(cycles[left], np.floor(since / period[left]))
        since = cycles[left] * whole_s[left]
        r, first, second = rates[left], off_s[left], on_s[left]
        off_here = fading[left] * np.exp(-r * since[:, np.newaxis])
        on_here = off_here * np.exp(-r * np.minimum(first, 1e300)[:, np.newaxis])
        both = np.stack([off[left] + off_here, on[left] + on_here])
        in_off, in_on = first_at_or_above(both, r, np.stack([first, second]), wanted[left])
        found[left] = since + np.minimum(in_off, first + in_on)
        cycles[left] += 1
        left = left[np.isinf(found[left]) & np.isfinite(period[left])]
    return found
