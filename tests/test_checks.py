"""The words of the argument checks."""

import numpy as np
import pytest
from walkaround import checks


@pytest.mark.parametrize(
    ("values", "bounds", "says"),
    [
        (np.nan, {}, "x is not a number; allowed: a number"),
        (np.inf, {"unit": "ft"}, "x is infinite ft; allowed: a number in ft"),
        ([[1, 2], [3, -1]], {"low": 0, "high": 5, "unit": "kt"}, r"x\[1, 1\] is -1 kt; allowed: 0 to 5 kt"),
        (12345.678, {"high": 100}, r"x is 12,345.678; allowed: 100 or less"),
        (0, {"above": 0, "high": 9, "unit": "m"}, r"x is 0 m; allowed: more than 0 m, up to 9 m"),
        ("ten", {"low": 0, "unit": "lb"}, "x is 'ten'; allowed: 0 lb or more"),
    ],
)
def test_words(values, bounds, says):
    with pytest.raises(ValueError, match=f"^{says}$"):
        checks.numbers("x", values, **bounds)


def test_good_numbers_pass_as_floats():
    assert checks.numbers("x", [1, 2], 0, 2).dtype == float


def test_shapes():
    a, b = checks.same_shape(a=[1, 2, 3], b=1)
    assert a.shape == b.shape == (3,)
