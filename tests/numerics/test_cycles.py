"""A quantity that follows a thermostat's cycle, and when it first reaches a level, against a fine grid."""

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from walkaround.numerics.cycles import first_in_cycles


@given(st.floats(0.0, 40.0), st.floats(-0.9, 1.4), st.floats(0.5, 4.0), st.floats(0.5, 4.0), st.floats(-6.0, 6.0))
@example(start_s=2.893415766686918, wanted=0.0, off_s=0.51, on_s=3.0, far=0.0)  # at the level from the start
def test_first_from_any_start_on_a_fine_grid(start_s, wanted, off_s, on_s, far):
    # Off: 2·exp(−0.3 t) − 1 falls from 1; on: back up along 1 − c·exp(−0.5 t); and a remainder that fades at 0.05/s.
    rates = np.array([[0.0, 0.3, 0.5, 0.05]])
    off = np.array([[-1.0, 2.0, 0.0, 0.0]])
    low = 2 * np.exp(-0.3 * off_s) - 1
    on = np.array([[1.0, 0.0, low - 1.0, 0.0]])
    fading = np.array([[0.0, 0.0, 0.0, far]])

    def value(t):
        phase = np.fmod(t, off_s + on_s)
        is_off = phase < off_s
        pattern = np.where(is_off, 2 * np.exp(-0.3 * phase) - 1, 1 + (low - 1) * np.exp(-0.5 * (phase - off_s)))
        return pattern + far * np.exp(-0.05 * t)

    one = np.ones(1)
    found = float(first_in_cycles(rates, off, on, fading, off_s * one, on_s * one, wanted * one, start_s * one)[0])
    grid = np.linspace(start_s, start_s + 150.0, 60_001)
    reached = value(grid) >= wanted
    if reached.any():
        assert found <= grid[np.argmax(reached)] + 1e-9
    if np.isfinite(found):
        assert found >= start_s
        # A nanosecond on, past the jump up with which this pattern begins again.
        assert float(value(found + 1e-9)) >= wanted - 1e-6
        before = grid[grid < found - 1e-6]
        assert not np.any(value(before) > wanted + 1e-9)


def test_a_start_that_is_exactly_a_whole_number_of_cycles_on():
    one = np.ones(1)
    rates, off, on = np.array([[0.0, 1.0]]), np.array([[0.0, 1.0]]), np.array([[0.0, -1.0]])
    for start_s in (0.0, 0.7 * 3, 0.7 * 3000, 0.7 * 1e6):
        for s in (start_s, np.nextafter(start_s, 0.0), np.nextafter(start_s, np.inf)):
            found = first_in_cycles(rates, off, on, 0 * off, 0.3 * one, 0.4 * one, 0.99 * one, s * one)
            assert float(found[0]) >= s
            assert float(found[0]) <= s + 0.7 * (1 + 1e-6)


@pytest.mark.parametrize("off_s", [0.7, 20.0, np.inf])
def test_a_cycle_without_a_ripple_loses_no_moment(off_s):
    # 5 − 5·exp(−0.01 t), whatever the heat does: reached at −ln(1 − wanted/5)/0.01, to the last digit of every search.
    wanted = np.linspace(0.01, 4.99, 499)
    many = np.ones(wanted.size)
    even, fading, rates = (
        np.tile(row, (wanted.size, 1)) for row in ([5.0, 0.0, 0.0], [0.0, 0.0, -5.0], [0.0, 0.3, 0.01])
    )
    found = first_in_cycles(rates, even, even, fading, off_s * many, 0.4 * many, wanted)
    assert found == pytest.approx(-np.log1p(-wanted / 5) / 0.01, rel=1e-9)
