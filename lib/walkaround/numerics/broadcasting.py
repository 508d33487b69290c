"""Picking one setting out of results that were computed for several settings in one call."""

import numpy as np


def pick(values, index, own_axes=0):
    """Return setting number `index` of an array over n settings: shape (n, ...), with `own_axes` axes after the first.

    An array that is the same for every setting may lack the first axis, or have one of length 1.

    >>> pick(np.array([4.0, 5.0]), 1).tolist(), pick(np.array([[1.0, 2.0]]), 7, own_axes=1).tolist()
    (5.0, [1.0, 2.0])
    """
    values = np.asarray(values)
    if values.ndim == own_axes:
        return values
    return np.asarray(values[index if len(values) > 1 else 0])


def pick_each(values, index):
    """Return setting number `index` of each array of a dict.

    >>> pick_each({"oil": np.array([4.0, 5.0])}, 0)
    {'oil': array(4.)}
    """
    return {name: pick(each, index) for name, each in values.items()}
