"""When a quantity that follows a thermostat's cycle first reaches a level.

Such a quantity is a pattern that repeats with every cycle plus a remainder that fades. Both are sums of exponentials, so
whole cycles can be skipped at once, and only the cycle that matters is searched.
"""

import numpy as np

from walkaround.numerics.exponentials import first_at_or_above, highest


def first_in_cycles(rates, off, on, fading, off_s, on_s, wanted):
    """Time in s from the first switching off until a quantity first reaches `wanted`; infinite if it never does.

    Parameters, one row for each quantity: `rates` of the terms, the first of them 0; coefficients `off` and `on` of the
    pattern that repeats while the heat is off and while it is on, each counted from its own beginning; coefficients
    `fading` of the remainder that fades; `off_s` and `on_s`, how long the heat is off and on in each cycle, infinite
    where it stays off; `wanted`, the level to reach.

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
    whole_s = np.where(np.isfinite(period), period, 0.0)
    found = np.full(wanted.shape, np.inf)
    cycles = np.zeros_like(wanted)  # how many have been ruled out
    left = np.arange(wanted.size)
    while left.size:
        # Nothing can be reached before the moment at which even the top of the pattern would reach it …
        r, since = rates[left], cycles[left] * whole_s[left]
        remainder = fading[left] * np.exp(-r * since[:, np.newaxis])
        remainder[:, 0] = peak[left]
        since = since + first_at_or_above(remainder, r, np.inf, wanted[left])
        left, since = left[np.isfinite(since)], since[np.isfinite(since)]
        # … so the search begins in the cycle in which that moment lies, and goes on to the next.
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
