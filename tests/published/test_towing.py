"""Towing against outside figures: textbook tables, a rule on towing loads, units by pint."""

from math import atan, degrees

import pint
import pytest
from walkaround import aircraft
from walkaround.physics.towing import SURFACES, rolls_to_m_s, tow_loads, turn_radius

UNITS = pint.UnitRegistry()
ROLLING = {surface.name: surface.rolling for surface in SURFACES}
LOCKED = {surface.name: surface.locked for surface in SURFACES}


@pytest.mark.parametrize(
    ("surface", "low", "high"),
    # The table of textbooks on take-off: concrete 0.02 to 0.05, short grass 0.05, long grass 0.10, soft ground 0.10 to
    # 0.30 (recalled).
    [("dry tarmac", 0.02, 0.05), ("short grass", 0.04, 0.06), ("long grass", 0.08, 0.12), ("soft ground", 0.1, 0.3)],
)
def test_rolling_resistance(surface, low, high):
    assert low <= ROLLING[surface] <= high


@pytest.mark.parametrize(
    ("surface", "low", "high"),
    # Rubber on asphalt: dry 0.5 to 0.8, wet 0.25 to 0.75; on ice 0.05 to 0.15 (usual tables, recalled).
    [("dry tarmac", 0.5, 0.8), ("wet tarmac", 0.25, 0.75), ("ice", 0.05, 0.15)],
)
def test_locked_wheels(surface, low, high):
    assert low <= LOCKED[surface] <= high


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_invented_nose_legs_are_of_the_right_strength(name):
    # 14 CFR 23.509 before 2017: 0.3 of the design maximum weight at a nose wheel towed straight (recalled).
    craft = aircraft.demo(name)
    assert craft.towing.nose_leg_limit / craft.limits.take_off == pytest.approx(0.3, abs=0.01)


def test_the_turn_of_a_car_of_the_textbooks():
    # A wheelbase of 2.5 m at a steering angle of 20°: 6.87 m (2.5/tan 20°, worked by hand).
    assert float(turn_radius(2.5, 20.0)) == pytest.approx(6.87, abs=0.005)
    # The rule of thumb of highway engineers, δ in degrees = 57.3 L/R, for wide turns.
    assert 57.3 * 2.5 / float(turn_radius(2.5, 2.0)) == pytest.approx(2.0, abs=0.01)


def test_a_slope_by_its_own_trigonometry_and_units():
    # 2,300 lb up 3 %: 2,300 sin(1.718°) = 69 lb.
    loads = tow_loads(2300.0, 3.0, 0.0, float("nan"), 48.0, 65.0, 40.0, 7.0)
    assert degrees(atan(0.03)) == pytest.approx(1.718, abs=0.001)
    assert float(loads.pull) == pytest.approx(68.97, abs=0.01)
    down = (2 * UNITS.standard_gravity * UNITS.Quantity(30, "ft") * (0.039968 - 0.02 * 0.999201)) ** 0.5
    knots = float(UNITS.Quantity(float(rolls_to_m_s(30 * 0.3048, 4.0, 0.02)), "m/s").to("knot").magnitude)
    assert knots == pytest.approx(down.to("knot").magnitude, rel=1e-4)
