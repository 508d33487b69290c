"""Viscosity: passes through its two points, falls with temperature, and is refused outside its range."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.physics.electrical.battery import capacity_share
from walkaround.physics.oil.viscosity import times_thicker, viscosity_index, viscosity_mm2_s

POINTS = st.tuples(st.floats(2.5, 3000.0), st.floats(0.08, 0.6)).map(lambda p: (p[0], max(p[0] * p[1], 0.5)))


@given(POINTS)
def test_passes_through_both_points(points):
    assert viscosity_mm2_s([40.0, 100.0], *points) == pytest.approx(points, rel=2e-3)


@given(POINTS)
def test_thinner_the_warmer(points):
    assert np.all(np.diff(viscosity_mm2_s(np.linspace(0.0, 120.0, 60), *points)) < 0)


def test_both_ends_of_the_chart_to_the_last_digit(beside):
    # An oil at either end of what the chart holds, at the temperature at which it was measured.
    for thick in beside(2e7):
        assert float(viscosity_mm2_s(40.0, thick, 5e3)) == pytest.approx(2e7, rel=0.01)
    for thin in beside(0.21):
        assert float(viscosity_mm2_s(100.0, 0.4, thin)) == pytest.approx(0.21, rel=0.01)
    for same in beside(10.0):
        with pytest.raises(ValueError, match="allowed: an oil that is thinner at 100 °C than at 40 °C"):
            viscosity_index(same, 10.0)


@given(POINTS, st.floats(0.0, 40.0), st.floats(0.0, 40.0), st.floats(0.0, 40.0))
def test_times_thicker_multiply(points, cold, middle, warm):
    both = times_thicker(cold, middle, *points) * times_thicker(middle, warm, *points)
    assert float(times_thicker(cold, warm, *points)) == pytest.approx(float(both))


def test_a_multigrade_thickens_less_than_a_single_grade():
    # Two invented oils of nearly one thickness when hot.
    single, multi = (210.0, 19.4), (140.0, 19.0)
    assert viscosity_index(*multi) > viscosity_index(*single) + 30
    assert times_thicker(-15.0, 20.0, *multi) < 0.6 * times_thicker(-15.0, 20.0, *single)


def test_less_battery_the_colder():
    assert np.all(np.diff(capacity_share(np.linspace(-23.0, 25.0, 40))) > 0)
    assert float(capacity_share(40.0)) == 1.0


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: viscosity_mm2_s(-70.0, 210.0, 19.0), "temperature_c is -70 °C; allowed: -60 to 200"),
        (lambda: viscosity_mm2_s(20.0, 19.0, 210.0), "thinner at 100 °C than at 40 °C"),
        (lambda: viscosity_mm2_s(20.0, [90.0, 15.0], 20.0), "at_40_mm2_s is 15 mm²/s and at_100_mm2_s 20 mm²/s"),
        (
            lambda: viscosity_mm2_s([0.0, -60.0], 210.0, 19.4),
            "temperature_c is -60 °C, .* thicker than 20,000,000 mm²/s",
        ),
        (lambda: viscosity_mm2_s(-60.0, 2e7, 10.0), "temperature_c is -60 °C, at which this oil would be thicker than"),
        (lambda: viscosity_mm2_s(200.0, 0.9, 0.25), r"temperature_c is 200 °C, .* would be thinner than 0\.21 mm²/s"),
        (lambda: times_thicker(-60.0, 20.0, 210.0, 19.4), "cold_c is -60 °C, at which this oil"),
        (lambda: times_thicker(0.0, 201.0, 210.0, 19.4), "warm_c is 201 °C; allowed: -60 to 200 °C"),
        (lambda: times_thicker([0.0] * 2, [20.0] * 3, 210.0, 19.4), r"cold_c has shape \(2,\), warm_c has shape"),
        (lambda: viscosity_mm2_s([0.0, 1.0], [90.0] * 3, 14.0), r"temperature_c has shape \(2,\), at_40_mm2_s has"),
        (lambda: viscosity_mm2_s(20.0, [210.0, 0.1], 19.0), r"at_40_mm2_s\[1\] is 0.1 mm²/s"),
        (lambda: viscosity_index(10.0, 10.0), "at_40_mm2_s is 10 mm²/s and at_100_mm2_s 10 mm²/s; allowed: an oil"),
        (lambda: viscosity_index([90.0, 5.0], 14.0), "at_40_mm2_s is 5 mm²/s and at_100_mm2_s 14 mm²/s"),
        (lambda: viscosity_index([90.0, 80.0], [14.0] * 3), r"at_40_mm2_s has shape \(2,\), at_100_mm2_s has"),
        (lambda: viscosity_index(5.0, 1.5), "at_100_mm2_s is 1.5 mm²/s; allowed: 2 mm²/s or more"),
        (lambda: capacity_share(-30.0), "temperature_c is -30 °C; allowed: -23.3"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
