"""Sums of exponentials: every place where they pass zero, none missed."""

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy.optimize import brentq, minimize_scalar
from walkaround.numerics import exponentials

RATES = st.lists(st.floats(0.05, 5.0), min_size=2, max_size=4, unique_by=lambda r: round(r, 2))
COEFFICIENTS = st.lists(st.floats(-10, 10), min_size=5, max_size=5)


@given(RATES, COEFFICIENTS)
def test_zeros_are_those_that_a_fine_search_finds(rates, coefficients):
    rates = np.append(0.0, rates)
    coefficients = np.array(coefficients[: rates.size])

    def f(t):
        return float(exponentials.value(coefficients, rates, t))

    grid = np.linspace(0.0, 12.0, 2001)
    heights = exponentials.value(coefficients, rates[np.newaxis], grid)
    sure = 1e-9 * np.abs(coefficients).sum()
    turns = np.flatnonzero((heights[1:] * heights[:-1] < 0) & (np.minimum(abs(heights[1:]), abs(heights[:-1])) > sure))
    expected = [brentq(f, grid[i], grid[i + 1], xtol=1e-12) for i in turns]
    found = exponentials.zeros(coefficients, rates, 12.0)
    for moment in expected:
        assert np.min(np.abs(found - moment)) < 1e-4
    for moment in found[np.isfinite(found)]:
        # A zero that the grid steps over, twice within a step, is a zero all the same.
        assert abs(f(moment)) <= 1e-4 * (1 + np.abs(coefficients * rates).sum())


@given(RATES, st.lists(st.floats(-10, 10), min_size=5, max_size=5))
def test_counting_signs_saves_the_ladder_and_changes_nothing(rates, coefficients):
    rates = np.sort(np.append(0.0, rates))
    coefficients = np.array(coefficients[: rates.size])
    ends = np.array([[0.0], [exponentials._SETTLED / rates[1]]])
    by_ladder = exponentials._by_ladder(coefficients[:, np.newaxis], rates[:, np.newaxis], ends)[:, 0]
    found = np.sort(exponentials.zeros(coefficients, rates, np.inf))
    # What touches zero within rounding is a zero to one of them and none to the other.
    turns = exponentials.value(coefficients * rates, rates, np.where(np.isfinite(by_ladder), by_ladder, 0.0))
    if np.all(np.abs(turns[np.isfinite(by_ladder)]) > 1e-6):
        assert found == pytest.approx(by_ladder, abs=3e-5)


def test_a_sum_that_dips_twice_keeps_all_three_zeros():
    # With x = e^(−t): (x − 0.2)(x − 0.5)(x − 0.8), ends of two signs and three zeros between them.
    coefficients = np.polynomial.polynomial.polyfromroots([0.2, 0.5, 0.8])
    found = exponentials.zeros(coefficients, [0.0, 1.0, 2.0, 3.0], np.inf)
    assert found == pytest.approx(-np.log([0.8, 0.5, 0.2]), abs=2e-5)


def test_a_sum_that_starts_at_zero_keeps_the_zero_after_it():
    # With x = e^(−t/2): −x + 2x² − x⁴ is 0 at x = 1 and at x = (√5 − 1)/2.
    found = exponentials.zeros([0.0, -1.0, 2.0, -1.0], [0.0, 0.5, 1.0, 2.0], np.inf)
    assert found[0] == pytest.approx(-2 * np.log((np.sqrt(5) - 1) / 2), abs=2e-5)


def test_two_zeros_close_together_are_both_found():
    # (e^(−t) − 0.5)(e^(−t) − 0.4999): zeros 0.2 ms apart, which no grid of seconds would see.
    found = exponentials.zeros([0.5 * 0.4999, -(0.5 + 0.4999), 1.0], [0.0, 1.0, 2.0], np.inf)
    assert found == pytest.approx([-np.log(0.5), -np.log(0.4999)], abs=2e-5)


def test_one_term_has_no_zero():
    assert exponentials.zeros([3.0], [1.0], np.inf).shape == (0,)
    assert exponentials.highest([2.0, -1.0], [0.0, 1.0], np.inf) == 2.0
    assert exponentials.highest([2.0, 1.0], [0.0, 1.0], np.inf) == 3.0


@given(RATES, COEFFICIENTS)
def test_highest_is_never_passed_and_is_reached(rates, coefficients):
    rates = np.append(0.0, rates)
    coefficients = np.array(coefficients[: rates.size])
    heights = exponentials.value(coefficients, rates[np.newaxis], np.linspace(0.0, 9.0, 1501))
    top = float(exponentials.highest(coefficients, rates, 9.0))
    assert top >= heights.max() - 1e-9 * (1 + np.abs(coefficients).sum())
    assert top <= heights.max() + 0.01 * (1 + np.abs(coefficients * rates).sum())


@given(RATES, COEFFICIENTS)
@example([0.52, 3.87, 2.25, 4.03], [-9.7, 5.0, -1.8, 9.4, -5.0])  # its peak, searched to 0.01 s, comes out 5e-7 low
def test_highest_is_the_peak_to_rounding(rates, coefficients):
    # Independent: scipy looks between the neighbours of the highest point of a grid.
    rates = np.append(0.0, rates)
    coefficients = np.array(coefficients[: rates.size])
    grid = np.linspace(0.0, 9.0, 1501)
    top = int(np.argmax(exponentials.value(coefficients, rates[np.newaxis], grid)))
    peak = minimize_scalar(
        lambda t: -float(exponentials.value(coefficients, rates, t)),
        bounds=(grid[max(top - 1, 0)], grid[min(top + 1, 1500)]),
        method="bounded",
        options={"xatol": 1e-9},
    )
    size = np.abs(coefficients).sum()
    assert float(exponentials.highest(coefficients, rates, 9.0)) >= -peak.fun - 1e-14 * size


@given(RATES, COEFFICIENTS, st.floats(-5, 5))
def test_at_the_moment_found_the_sum_is_at_the_level(rates, coefficients, level):
    rates = np.append(0.0, rates)
    coefficients = np.array(coefficients[: rates.size])
    moment = float(exponentials.first_at_or_above(coefficients, rates, np.inf, level))
    if 0 < moment < np.inf:
        reached = float(exponentials.value(coefficients, rates, moment))
        assert reached == pytest.approx(level, rel=0, abs=2e-12 * (np.abs(coefficients).sum() + abs(level)))


@given(RATES, COEFFICIENTS)
def test_integral_is_the_area(rates, coefficients):
    rates = np.append(0.0, rates)
    coefficients = np.array(coefficients[: rates.size])
    nodes, weights = np.polynomial.legendre.leggauss(60)
    area = 1.5 * weights @ exponentials.value(coefficients, rates[np.newaxis], 1.5 * (nodes + 1))
    assert float(exponentials.integral(coefficients, rates, 3.0)) == pytest.approx(area, abs=1e-9)


def test_first_at_or_above_counts_from_the_start_and_stops_at_the_end():
    rising = ([1.0, -1.0], [0.0, 1.0])
    assert exponentials.first_at_or_above(*rising, np.inf, level=0.0) == 0.0
    assert exponentials.first_at_or_above(*rising, np.inf, level=0.5) == pytest.approx(np.log(2), abs=1e-5)
    assert exponentials.first_at_or_above(*rising, 0.5, level=0.5) == np.inf
    assert exponentials.first_at_or_above(*rising, np.inf, level=1.0) == np.inf
