"""Student's t: how far a mean or a slope may be off, measured in its standard errors."""

from functools import lru_cache
from math import atan, cos, pi, sin, sqrt, tan

import numpy as np


def within(t, freedom):
    """Probability that Student's t lies from −t to t, for a whole number of degrees of freedom.

    A finite sum in the angle arctan(t/√freedom) (Abramowitz and Stegun, 26.7.3 and 26.7.4).

    >>> round(within(2.228, 10), 4)
    0.95
    """
    return _within(atan(t / sqrt(freedom)), freedom)


@lru_cache(maxsize=1024)
def student_t(freedom, share=0.95):
    """Two-sided point of Student's t: it lies from minus this to this with probability `share`.

    `freedom`, a whole number of degrees of freedom from 1; `share`, above 0 and below 1. Bisection on `within`. Raises
    ValueError for any other share.

    >>> [round(student_t(n), 3) for n in (1, 2, 10)], round(student_t(10, 0.99), 3)
    ([12.706, 4.303, 2.228], 3.169)
    """
    if not 0 < share < 1:
        raise ValueError(f"share is {share:g}; allowed: more than 0, less than 1")
    low, high = 0.0, pi / 2
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if _within(middle, freedom) < share else (low, middle)
    return sqrt(freedom) * tan(high)


def _within(angle, freedom):
    odd = freedom % 2
    steps = np.arange(1, (freedom - 2 - odd) // 2 + 1)
    factors = np.cumprod(2 * steps / (2 * steps + 1) if odd else (2 * steps - 1) / (2 * steps))
    total = sin(angle) * (1 + float(factors @ cos(angle) ** (2 * steps)))
    if not odd:
        return total
    return 2 / pi * (angle + (total * cos(angle) if freedom > 1 else 0.0))
