"""A reading taken too soon or on a slope."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.physics import oil
from walkaround.physics.oil import holds_on_slope, rise_on_slope, still_up, wait_minutes

MARKS, QUANTITIES = [0.8, 1.7, 2.5, 3.9], [4.0, 5.0, 6.0, 8.0]  # invented


@given(st.floats(0.2, 2.0), st.floats(1.0, 15.0), st.floats(0.05, 1.9))
def test_after_the_wait_no_more_than_that_is_still_up(held_up, half, missing):
    minutes = wait_minutes(held_up, half, missing)
    assert still_up(held_up, half, minutes) == pytest.approx(min(held_up, missing))


@given(st.floats(0.0, 60.0), st.floats(0.0, 60.0))
def test_waiting_longer_never_hides_more(minutes, more):
    assert still_up(1.2, 4.0, minutes + more) <= still_up(1.2, 4.0, minutes) <= 1.2


@given(st.floats(4.0, 8.0))
def test_the_stick_turned_round(quantity):
    mark = oil.on_dipstick(quantity, MARKS, QUANTITIES)
    assert oil.from_dipstick(mark, MARKS, QUANTITIES) == pytest.approx(quantity)


@given(st.floats(-8.0, 8.0), st.floats(-8.0, 8.0), st.floats(-5.0, 5.0), st.floats(-3.5, 3.5), st.floats(2.0, 6.0))
def test_the_surface_is_level_and_the_sump_holds_as_much(nose_up, wing_down, forward, right, depth):
    # A box cut into columns and turned as aerospace turns axes (pitch, then roll): all points of the oil's surface are
    # equally high above the ground, and as much oil is below it as before.
    pitch, roll = np.radians(nose_up), np.radians(wing_down)
    down = np.array([-np.sin(pitch), np.cos(pitch) * np.sin(roll), np.cos(pitch) * np.cos(roll)])
    x, y = np.meshgrid(np.linspace(-5.5, 5.5, 41), np.linspace(-4.0, 4.0, 41))
    z = depth + rise_on_slope(x, y, nose_up, wing_down)  # up from the floor, in the sump's own axes
    height = -(x * down[0] + y * down[1] - z * down[2])
    assert np.ptp(height) == pytest.approx(0.0, abs=1e-9)
    assert z.mean() == pytest.approx(depth)
    assert bool(holds_on_slope(11.0, 8.0, depth, nose_up, wing_down)) == (z.min() >= -1e-9)
    here = rise_on_slope(forward, right, nose_up, wing_down)
    assert abs(here) <= np.abs(z - depth).max() + 1e-9


def test_nose_up_wets_a_stick_behind_the_middle_further():
    # By hand: 4 in behind the middle, 3° nose up: 4 · 0.0524.
    assert rise_on_slope(-4.0, 0.0, 3.0) == pytest.approx(0.2096, abs=1e-4)
    assert rise_on_slope(0.0, 2.5, 0.0, right_wing_down_deg=2.0) == pytest.approx(0.0873, abs=1e-4)
    assert rise_on_slope(-4.0, 2.5, 0.0, 0.0) == 0.0


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: still_up(-1.0, 4.0, 2.0), "held_up is -1"),
        (lambda: still_up(1.0, 0.0, 2.0), "half_back_minutes is 0 min; allowed: more than 0 min"),
        (lambda: still_up(1.0, 4.0, np.inf), "minutes is infinite"),
        (lambda: wait_minutes(1.0, 4.0, 0.0), "missing is 0; allowed: more than 0"),
        (lambda: wait_minutes([1.0, 2.0], 4.0, [0.1] * 3), r"held_up has shape \(2,\)"),
        (lambda: rise_on_slope(4.0, 0.0, 31.0), "nose_up_deg is 31 °; allowed: -30 to 30 °"),
        (lambda: rise_on_slope(4.0, 0.0, 3.0, [-31.0]), r"right_wing_down_deg\[0\] is -31 °"),
        (lambda: rise_on_slope([4.0, 5.0], 0.0, [3.0] * 3), r"forward has shape \(2,\), right has shape \(\), nose_up"),
        (lambda: holds_on_slope(0.0, 8.0, 4.0, 3.0), "length is 0; allowed: more than 0"),
        (lambda: oil.on_dipstick(3.0, MARKS, QUANTITIES), "quantity is 3; allowed: 4 to 8"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
