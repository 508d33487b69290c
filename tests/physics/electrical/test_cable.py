"""A cable's resistance: its laws, its units, and bad input."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry
from walkaround.physics.electrical import area_mm2, lead_loss, resistance_ohm


@given(st.integers(-3, 40), st.floats(0, 100), st.floats(-60, 200), st.floats(0, 500))
def test_twice_the_cable_twice_the_drop_at_the_same_current(gauge, length, temperature_c, current):
    once, twice = current * resistance_ohm(gauge, [length, 2 * length], temperature_c)
    assert twice == pytest.approx(2 * once)


@given(st.integers(-3, 39), st.floats(-60, 199))
def test_thinner_or_warmer_has_more(gauge, temperature_c):
    one = resistance_ohm(gauge, 1.0, temperature_c)
    assert resistance_ohm(gauge + 1, 1.0, temperature_c) > one
    assert resistance_ohm(gauge, 1.0, temperature_c + 1) > one


def test_in_units_of_its_own():
    unit = UnitRegistry()
    resistivity = 1.7241e-8 * unit.ohm * unit.meter  # International Annealed Copper Standard, recalled
    diameter = (0.127 * 92 ** (34 / 39) * unit.millimeter).to(unit.meter)  # No. 2
    ohm = (resistivity * 24 * unit.foot / (3.14159265 / 4 * diameter**2)).to(unit.ohm).magnitude
    assert float(resistance_ohm(2, 24 * 0.3048)) == pytest.approx(ohm, rel=1e-4)


def test_it_agrees_with_the_lead_of_the_same_cross_section():
    lead = lead_loss(current_a=10.0, length_m=7.0, area_mm2=area_mm2(10))
    assert float(lead.volts) == pytest.approx(10.0 * float(resistance_ohm(10, 2 * 7.0)))


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((41, 1.0), "gauge_awg is 41; allowed: -3 to 40"),
        ((2, -1.0), "length_m is -1 m; allowed: 0 m or more"),
        ((2, 1.0, 300.0), "temperature_c is 300 °C; allowed: -60 to 200"),
        (([1, 2], [1, 2, 3]), "these do not fit together: gauge_awg"),
    ],
)
def test_bad_input_is_named(arguments, words):
    with pytest.raises(ValueError, match=words):
        resistance_ohm(*arguments)
