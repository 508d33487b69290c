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


def beside(value):
    """The value, and one and two units in the last place on either side of it."""
    up, down = np.nextafter(value, np.inf), np.nextafter(value, -np.inf)
    return [value, up, np.nextafter(up, np.inf), down, np.nextafter(down, -np.inf)]


@pytest.mark.parametrize("limit", [661.479, 36089.23884514436, -16404.1, 0.3, 1.0])
def test_a_last_digit_does_not_decide(limit):
    for value in beside(limit):
        assert checks.at_least(value, limit)
        assert checks.at_most(value, limit)
        # Whatever stands on the bound or a rounding error beyond it is taken for the bound.
        assert checks.numbers("x", value, high=limit) <= limit
        assert checks.numbers("x", value, low=limit) >= limit
        assert checks.numbers("x", [value, limit], low=limit, high=limit).tolist() == [limit, limit]


def test_what_is_more_than_a_rounding_error_decides():
    assert not checks.at_least(300 * (1 - 2e-9), 300)
    assert not checks.at_most(300 * (1 + 2e-9), 300)
    with pytest.raises(ValueError, match=r"x is 300\.0000006; allowed: 300 or less"):
        checks.numbers("x", 300 * (1 + 2e-9), high=300)


def test_slack_goes_with_the_size_of_what_is_compared():
    # Nothing is so small that it equals nothing, unless larger numbers were subtracted to get it.
    assert not checks.at_most(5e-324, 0.0)
    assert checks.at_most(7e-15, 0.0, size=55.0)
    assert checks.at_least([1.0 - 1e-12, 0.5], [1.0, 1.0]).tolist() == [True, False]


def test_nothing_is_beside_infinity_and_nan_is_nowhere():
    assert checks.at_most([5.0, np.inf, -np.inf, np.nan], np.inf).tolist() == [True, True, True, False]
    assert checks.at_least([5.0, np.inf, np.nan], np.inf).tolist() == [False, True, False]
    assert not checks.at_most(np.inf, 5.0)
