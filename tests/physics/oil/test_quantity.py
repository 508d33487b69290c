"""Oil: dipstick, what to add, what a flight needs."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.physics.oil import quantity as oil

MARKS, QUANTITIES = [0.8, 1.7, 2.5, 3.9], [4.0, 5.0, 6.0, 8.0]  # invented


@given(st.floats(4.0, 8.0))
def test_dipstick_reads_back_what_is_in_the_sump(quantity):
    reading = np.interp(quantity, QUANTITIES, MARKS)
    assert float(oil.from_dipstick(reading, MARKS, QUANTITIES)) == pytest.approx(quantity)


@given(st.floats(0.0, 8.0), st.floats(0.0, 8.0))
def test_adding_what_is_said_reaches_what_is_wanted(quantity, wanted):
    added = float(oil.to_add(quantity, wanted, full=8.0))
    assert quantity + added == pytest.approx(max(quantity, wanted))


@given(st.floats(0.0, 6.0), st.floats(0.01, 1.0), st.floats(0.0, 10.0), st.floats(0.0, 2.0))
def test_the_least_for_a_flight_lasts_that_flight(minimum, per_hour, hours, margin):
    least = oil.least_for_flight(minimum, per_hour, hours, margin)
    assert float(oil.hours_until(least - margin, minimum, per_hour)) == pytest.approx(hours, abs=1e-6)


def test_an_engine_that_burns_none_runs_for_ever():
    assert oil.hours_until([6.0, 3.0], 4.0, [0.0, 0.5]).tolist() == [np.inf, 0.0]


def test_too_little_oil_lasts_no_time_even_if_none_is_burnt():
    assert oil.hours_until([3.9, 4.0, 4.1], 4.0, 0.0).tolist() == [0.0, 0.0, np.inf]


def test_greatest_consumption():
    # Common practice, no source: 0.006 lb for each horsepower and hour, 7.5 lb to 4 quarts. By hand for 200 hp:
    # 4.8/7.5.
    assert float(oil.greatest_consumption_qt_per_h(200.0)) == pytest.approx(0.64)


def test_the_dipstick_and_what_is_full_to_the_last_digit(beside):
    for mark in (MARKS[0], MARKS[-1]):
        read = oil.from_dipstick(beside(mark), MARKS, QUANTITIES)
        assert read == pytest.approx([QUANTITIES[MARKS.index(mark)]] * 5)
    assert oil.to_add(5.0, beside(8.0), full=8.0) == pytest.approx([3.0] * 5)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: oil.from_dipstick(0.5, MARKS, QUANTITIES), "reading is 0.5; allowed: 0.8 to 3.9"),
        (lambda: oil.from_dipstick(1.0, MARKS, QUANTITIES[:3]), "marks has 4 and quantities 3"),
        (lambda: oil.from_dipstick(1.0, [1.0, 1.0], [4.0, 5.0]), "do not rise together"),
        (lambda: oil.to_add(5.0, 9.0, 8.0), "wanted is 9, more than full, 8"),
        (lambda: oil.to_add(5.0, [7.0, 9.0, 10.0], [12.0, 8.0, 6.0]), "wanted is 9, more than full, 8"),
        (lambda: oil.to_add(np.nan, 7.0, 8.0), "quantity is not a number"),
        (lambda: oil.to_add([5.0, 6.0], [7.0] * 3, 8.0), r"quantity has shape \(2,\), wanted has shape \(3,\)"),
        (lambda: oil.least_for_flight(4.0, [0.1, 0.2], [3.0] * 3, 1.0), r"per_hour has shape \(2,\), hours has shape"),
        (lambda: oil.hours_until([5.0, 6.0], 4.0, [0.1] * 3), r"quantity has shape \(2,\), minimum has shape"),
        (lambda: oil.consumption_per_hour([1.0, 2.0], [5.0] * 3), r"added has shape \(2,\), hours has shape \(3,\)"),
        (lambda: oil.least_for_flight(4.0, -0.1, 3.0, 1.0), "per_hour is -0.1"),
        (lambda: oil.consumption_per_hour(2.0, 0.0), "hours is 0 h; allowed: more than 0 h"),
        (lambda: oil.greatest_consumption_qt_per_h(0.0), "horsepower is 0 hp"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
