"""When a quantity that follows a thermostat's cycle first reaches a level.

Such a quantity is a pattern that repeats with every cycle plus a remainder that fades. Both are sums of exponentials,
so whole cycles can be skipped at once, and only the cycle that matters is searched.
"""

import numpy as np

from walkaround.numerics.exponentials import first_at_or_above, highest


def first_in_cycles(rates, off, on, fading, off_s, on_s, wanted, start_s=0.0):
    """First moment from `start_s` on at which a quantity is at or above `wanted`; infinite if it never is.

    Moments are in s from the first switching off. Parameters, one row for each quantity: `rates` of the terms, the
    first of them 0; coefficients `off` and `on` of the pattern that repeats while the heat is off and while it is on,
    each counted from its own beginning; coefficients `fading` of the remainder that fades; `off_s` and `on_s`, how long
    the heat is off and on in each cycle, infinite where it stays off; `wanted`, the level to reach; `start_s`.

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
    found, since = np.full(wanted.shape, np.inf), np.zeros(wanted.shape) + start_s
    cycles = np.floor(since / period)  # how many have passed or been ruled out
    left = np.arange(wanted.size)
    while left.size:
        # Nothing can be reached before the moment at which even the top of the pattern would reach it …
        remainder = fading[left] * np.exp(-rates[left] * since[left, np.newaxis])
        remainder[:, 0] = peak[left]
        since[left] += first_at_or_above(remainder, rates[left], np.inf, wanted[left])
        left = left[np.isfinite(since[left])]
        # … so the search goes on from that moment to the end of its cycle, and then to the next cycle.
        cycles[left] = np.maximum(cycles[left], np.floor(since[left] / period[left]))
        begin, first = cycles[left] * whole_s[left], off_s[left]
        passed = np.maximum(since[left] - begin, 0.0)
        still_off = passed < first
        passed = np.stack([np.minimum(passed, first), np.where(still_off, 0.0, passed - first)])
        overall = np.minimum(np.stack([begin, begin + first]) + passed, 1e300)
        r = rates[left]
        both = np.stack([off[left], on[left]]) * np.exp(-r * passed[..., np.newaxis])
        both += fading[left] * np.exp(-r * overall[..., np.newaxis])
        in_off, in_on = first_at_or_above(both, r, np.stack([first, on_s[left]]) - passed, wanted[left])
        in_off = np.where(still_off, passed[0] + in_off, np.inf)
        found[left] = np.maximum(since[left], begin + np.minimum(in_off, first + passed[1] + in_on))
        cycles[left] += 1
        since[left] = cycles[left] * whole_s[left]
        left = left[np.isinf(found[left]) & np.isfinite(period[left])]
    return found
