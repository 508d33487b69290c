"""Student's t against scipy, and against the table in every book of statistics."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from walkaround.numerics.student_t import student_t, within


@given(st.integers(1, 400), st.floats(0.01, 0.9999))
def test_against_scipy(freedom, share):
    point = student_t(freedom, share)
    assert point == pytest.approx(stats.t.ppf((1 + share) / 2, freedom), rel=1e-9)
    assert within(point, freedom) == pytest.approx(share, rel=1e-9)


# Abramowitz and Stegun, table 26.10, two-sided: degrees of freedom, share, point. Recalled.
TABLE = [(1, 0.95, 12.706), (2, 0.95, 4.303), (3, 0.99, 5.841), (5, 0.95, 2.571), (10, 0.99, 3.169), (30, 0.95, 2.042)]


@pytest.mark.parametrize(("freedom", "share", "point"), TABLE)
def test_against_the_table(freedom, share, point):
    assert student_t(freedom, share) == pytest.approx(point, abs=5e-4)


@pytest.mark.parametrize("share", [0.0, 1.0, 95.0, -0.95])
def test_a_share_that_is_none_is_named(share):
    with pytest.raises(ValueError, match=f"share is {share:g}; allowed: more than 0, less than 1"):
        student_t(5, share)
