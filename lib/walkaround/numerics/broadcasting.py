"""Picking one setting out of results that were computed for several settings in one call."""

from dataclasses import fields, replace

import numpy as np


def pick(values, index, own_axes=0):
    """Return setting number `index` of an array over n settings: shape (n, ...), with `own_axes` axes after the first.

    An array that is the same for every setting may lack the first axis, or have one of length 1. Of a dict or tuple of
    arrays each is picked; a text or None stays.

    >>> pick(np.array([4.0, 5.0]), 1).tolist(), pick(np.array([[1.0, 2.0]]), 7, own_axes=1).tolist()
    (5.0, [1.0, 2.0])
    """
    if isinstance(values, dict):
        return {name: pick(each, index, own_axes) for name, each in values.items()}
    if isinstance(values, tuple):
        return tuple(pick(each, index, own_axes) for each in values)
    if values is None or isinstance(values, str):
        return values
    values = np.asarray(values)
    if values.ndim == own_axes:
        return values
    return np.asarray(values[index if len(values) > 1 else 0])


def pick_fields(record, index, **own_axes):
    """Return setting number `index` of a dataclass of results; `own_axes` as in `pick`, by the field's name.

    A field with a method `setting(index)` of its own is left to that.

    >>> from dataclasses import make_dataclass
    >>> pick_fields(make_dataclass("Oil", ["name", "temperature_c"])("thin", np.array([4.0, 5.0])), 1)
    Oil(name='thin', temperature_c=array(5.))
    """
    picked = {}
    for field in fields(record):
        value = getattr(record, field.name)
        own = hasattr(value, "setting")
        picked[field.name] = value.setting(index) if own else pick(value, index, own_axes.get(field.name, 0))
    return replace(record, **picked)
