"""A battery in the cold: what it rests at, what is inside, and what a starter takes out of it."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry
from walkaround.physics import electrical
from walkaround.physics.electrical.battery import PEUKERT

states = st.floats(0, 1)
temperatures = st.floats(-23.3, 60)


@given(states, states, temperatures)
def test_a_fuller_battery_is_stronger_and_freezes_later(one, other, temperature_c):
    low, high = sorted((one, other))
    assert electrical.open_circuit_volts(low, 6) <= electrical.open_circuit_volts(high, 6)
    assert electrical.inner_ohm(low, temperature_c, 0.01) >= electrical.inner_ohm(high, temperature_c, 0.01)
    freezes = electrical.electrolyte_freezes_c(electrical.specific_gravity([low, high]))
    assert freezes[0] >= freezes[1]


@given(states, temperatures, temperatures)
def test_cold_never_makes_it_stronger(state, one, other):
    cold, warm = sorted((one, other))
    assert electrical.inner_ohm(state, cold, 0.01) >= electrical.inner_ohm(state, warm, 0.01)
    assert electrical.cranking_share(cold) <= electrical.cranking_share(warm)
    assert electrical.share_used(200.0, 10.0, 30.0, cold) >= electrical.share_used(200.0, 10.0, 30.0, warm)


@given(st.floats(1, 2000), st.floats(0, 600), temperatures)
def test_twice_as_long_takes_twice_as_much_and_twice_the_current_more_than_that(current, seconds, temperature_c):
    once, longer, harder = electrical.share_used(
        [current, current, 2 * current], [seconds, 2 * seconds, seconds], 30.0, temperature_c
    )
    assert longer == pytest.approx(2 * once)
    assert harder == pytest.approx(2**PEUKERT * once)


def test_the_rated_current_empties_it_in_an_hour():
    unit = UnitRegistry()
    rated = 35 * unit.ampere * unit.hour
    seconds = (rated / (35 * unit.ampere)).to(unit.second).magnitude
    assert float(electrical.share_used(35.0, seconds, rated.magnitude, 25.0)) == pytest.approx(1.0)


def test_by_hand():
    # −10 °C is 14 °F: the manual's line from 0.40 to 0.65 over 30 °F gives 0.40 + 14/30 · 0.25 = 0.51667.
    assert float(electrical.cranking_share(-10.0)) == pytest.approx(0.516667, abs=1e-6)
    # 0.008 Ω · (2 − 0.7)/0.516667 = 0.0201290 Ω.
    assert float(electrical.inner_ohm(0.7, -10.0, 0.008)) == pytest.approx(0.0201290, abs=1e-7)
    # Gravity 1.12 + 0.7 · 0.16 = 1.232; at 1.232 the line from −16 to −62 °F gives −16 − 0.64 · 46 = −45.44 °F.
    assert float(electrical.specific_gravity(0.7)) == pytest.approx(1.232)
    assert float(electrical.electrolyte_freezes_c(1.232)) == pytest.approx((-45.44 - 32) / 1.8)
    assert float(electrical.open_circuit_volts(0.7, 1)) == pytest.approx(2.077)
    # Six cells of 1.232 + 0.845 V.
    assert float(electrical.open_circuit_volts(0.7, 6)) == pytest.approx(6 * 2.077)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: electrical.cranking_share(-30.0), r"temperature_c is -30 °C; allowed: -23\.3\d* to 60 °C"),
        (lambda: electrical.specific_gravity([0.5, 1.2]), r"state\[1\] is 1\.2; allowed: 0 to 1"),
        (lambda: electrical.electrolyte_freezes_c(1.3), r"specific_gravity is 1\.3; allowed: 1 to 1\.28"),
        (lambda: electrical.open_circuit_volts(0.5, 0), "cells is 0; allowed: 1 or more"),
        (lambda: electrical.inner_ohm(0.5, 0.0, 0.0), "full_ohm is 0 Ω; allowed: more than 0"),
        (lambda: electrical.share_used(-1.0, 1.0, 30.0, 0.0), "current_a is -1 A; allowed: 0 A or more"),
        (lambda: electrical.share_used(1.0, np.nan, 30.0, 0.0), "seconds is not a number"),
        (lambda: electrical.share_used([1, 2], [1, 2, 3], 30.0, 0.0), "these do not fit together: current_a"),
        (lambda: electrical.inner_ohm([1, 0], 0.0, [0.1, 0.1, 0.1]), "these do not fit together: state"),
        (lambda: electrical.open_circuit_volts([1, 0], [6, 6, 6]), "these do not fit together: state"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
