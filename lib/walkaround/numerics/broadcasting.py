"""One of several settings that were worked out together: a table is one call, and each of its rows stands by itself."""

import numpy as np


def pick(values, index, own_axes=0):
    """Return setting number `index` of an array over n settings, shape (n, ...) with `own_axes` axes after the first.

    What is the same for every setting may have no first axis, or one of length 1.

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
