"""Checks of arguments: a wrong number is named, with its value, its place and what is allowed.

Here too stands the one slack of the library. A value that was computed from a limit may miss that limit by a rounding
error, and which way it misses depends on the processor. So `at_least` and `at_most` call a value that is so close to a
limit equal to it, and `numbers` lets it pass. Wherever a computed value meets a limit, one of these three compares
them.
"""

from math import inf, isfinite

import numpy as np

# Two numbers that differ by no more than this share of their size count as equal. Rounding errors of a computation are
# far smaller, and what an instrument, a scale or a clock can show is far larger.
SLACK = 1e-9


def at_least(value, limit, size=None):
    """Whether a value is at or above a limit, or below it by no more than a rounding error (shapes broadcast).

    `size` is how large the numbers are that value and limit were computed from, where these are larger: 273 for
    temperatures in °C, which are differences of absolute ones, or the total weight for what is left of it. Without it
    the larger of value and limit counts. NaN is never at or above anything.

    >>> bool(at_least(0.1 + 0.2, 0.3)), bool(at_least(0.3, 0.1 + 0.2)), bool(at_least(0.299, 0.3))
    (True, True, False)
    """
    return at_most(limit, value, size)


def at_most(value, limit, size=None):
    """Whether a value is at or below a limit, or above it by no more than a rounding error; as `at_least`.

    >>> bool(at_most(0.1 + 0.2, 0.3)), bool(at_most(1e-14, 0.0)), bool(at_most(1e-14, 0.0, size=55.0))
    (True, False, True)
    """
    value, limit = np.asarray(value, dtype=float), np.asarray(limit, dtype=float)
    if size is None:
        size = np.minimum(np.maximum(np.abs(value), np.abs(limit)), 1e300)  # an infinite limit has no slack
    return value <= limit + SLACK * size


def equal(one, other, size=None):
    """Whether two values are equal but for a rounding error; as `at_least`.

    >>> bool(equal(0.1 + 0.2, 0.3)), bool(equal(0.3, 0.301))
    (True, False)
    """
    return at_most(one, other, size) & at_most(other, one, size)


def numbers(name, values, low=None, high=None, unit="", above=None):
    """Return `values` as a float array (one plain number as a `np.float64`), or raise ValueError in words.

    Parameters: `name` as the caller knows it; `values` a number or an array of any shape; `low` and `high`, the least
    and greatest value allowed (both included); `above`, a bound that is itself not allowed; `unit` for the message.

    Raises ValueError naming the argument, the first value that is wrong, its place in an array and what is allowed. A
    NaN or an infinity is always wrong. A value that only a rounding error puts beyond `low` or `high` is moved onto it.

    >>> numbers("weight", [1, 2], low=0)
    array([1., 2.])
    >>> numbers("weight", [1, -2], low=0, unit="lb")
    Traceback (most recent call last):
    ...
    ValueError: weight[1] is -2 lb; allowed: 0 lb or more
    """
    if isinstance(values, float) or type(values) is int:
        # One plain number: the same verdict without an array, since marking a class asks for it a million times.
        bounded = (low is None or values >= low) and (high is None or values <= high)
        if bounded and -inf < values < inf and (above is None or values > above):
            return np.float64(values)
    try:
        array = np.asarray(values, dtype=float)
    except (TypeError, ValueError):
        raise ValueError(f"{name} is {values!r}; allowed: {allowed(low, high, unit, above)}") from None
    # One NaN or infinity makes the sum of squares one too, so this finds them all at once. If anything is wrong, the
    # rest looks for the place.
    if array.size and isfinite(np.vdot(array, array)):
        least = array.min() if low is not None or above is not None else 0.0
        bounded = (low is None or least >= low) and (above is None or least > above)
        if bounded and (high is None or array.max() <= high):
            return array
    size = max(abs(bound) for bound in (low, high, 0.0) if bound is not None)
    wrong = ~np.isfinite(array)
    if low is not None:
        wrong |= ~at_least(array, low, size)
    if high is not None:
        wrong |= ~at_most(array, high, size)
    if above is not None:
        wrong |= array <= above
    if wrong.any():
        place = tuple(int(i) for i in np.argwhere(wrong)[0])
        where = f"[{', '.join(map(str, place))}]" if place else ""
        raise ValueError(
            f"{name}{where} is {with_unit(array[place], unit)}; allowed: {allowed(low, high, unit, above)}"
        )
    return array if low is None and high is None else np.clip(array, low, high)


def number(name, value, low=None, high=None, unit="", above=None):
    """Return a single number as a float, or raise ValueError as `numbers` does, and for an array.

    >>> number("trip fuel", [5.0, 6.0], low=0)
    Traceback (most recent call last):
    ...
    ValueError: trip fuel has shape (2,); allowed: a single number
    """
    found = numbers(name, value, low, high, unit, above)
    if found.ndim:
        raise ValueError(f"{name} has shape {found.shape}; allowed: a single number")
    return float(found)


def with_unit(value, unit=""):
    """Write a number with thousands marked and its unit after it.

    >>> with_unit(36089.24, "ft")
    '36,089.24 ft'
    """
    text = f"{value:,.10g}" if np.isfinite(value) else {True: "not a number"}.get(bool(np.isnan(value)), "infinite")
    return f"{text} {unit}".strip()


def short(value):
    """Write a value of any kind for a message, cut if it is long.

    >>> short("x" * 100)[-5:]
    'xxxx…'
    """
    text = repr(value)
    return text if len(text) <= 60 else text[:57] + "…"


def allowed(low=None, high=None, unit="", above=None):
    """Say in words what range of numbers is allowed.

    >>> allowed(0, 10, "kt")
    '0 to 10 kt'
    """
    if above is not None:
        more_than = f"more than {with_unit(above, unit)}"
        return more_than if high is None else f"{more_than}, up to {with_unit(high, unit)}"
    if low is not None and high is not None:
        return f"{with_unit(low)} to {with_unit(high, unit)}"
    if low is not None:
        return f"{with_unit(low, unit)} or more"
    if high is not None:
        return f"{with_unit(high, unit)} or less"
    return f"a number in {unit}" if unit else "a number"


def same_shape(**arrays):
    """Return the named arrays broadcast to one shape, or raise ValueError naming the shapes that do not fit.

    >>> same_shape(cg=[1, 2], arm=[1, 2, 3])
    Traceback (most recent call last):
    ...
    ValueError: these do not fit together: cg has shape (2,), arm has shape (3,); allowed: one shape or single numbers
    """
    try:
        return np.broadcast_arrays(*arrays.values())
    except ValueError:
        shapes = ", ".join(f"{name} has shape {np.shape(a)}" for name, a in arrays.items())
        raise ValueError(f"these do not fit together: {shapes}; allowed: one shape or single numbers") from None


def true_or_false(name, value):
    """Raise ValueError naming the argument unless it is True, False or an array of these.

    >>> true_or_false("cover", 1)
    Traceback (most recent call last):
    ...
    ValueError: cover is 1; allowed: True or False
    """
    if np.asarray(value).dtype != bool:
        raise ValueError(f"{name} is {value!r}; allowed: True or False")


def zero_to_infinity(name, values, unit=""):
    """Return `values` as a float array of numbers from 0 to infinity, both included, or raise ValueError in words.

    >>> zero_to_infinity("pitot_lag_s", np.inf, "s")
    array(inf)
    """
    array = np.asarray(values, dtype=float)
    numbers(name, np.where(array == np.inf, 0.0, array), low=0, unit=unit)
    return array


def increasing(name, times):
    """Return `times` as a row of times, each later than the one before, or raise ValueError in words.

    >>> increasing("time_s", [0.0, 2.0, 1.0])
    Traceback (most recent call last):
    ...
    ValueError: time_s[2] is 1 s, after time_s[1], 2 s; allowed: each later than the one before
    """
    array = numbers(name, times, unit="s")
    if array.ndim != 1 or array.size == 0:
        raise ValueError(f"{name} has shape {array.shape}; allowed: one row of times, at least one")
    wrong = np.flatnonzero(np.diff(array) <= 0)
    if wrong.size:
        i = int(wrong[0]) + 1
        raise ValueError(
            f"{name}[{i}] is {with_unit(array[i], 's')}, after {name}[{i - 1}], "
            f"{with_unit(array[i - 1], 's')}; allowed: each later than the one before"
        )
    return array
