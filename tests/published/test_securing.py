"""Tying down against published figures: anchors and ropes, a chock by hand, the wind's pressure in other units."""

import pint
import pytest
from walkaround.physics.securing import ROPES, chock_force, line_strength, rope_tension, wind_pressure_pa

UNITS = pint.UnitRegistry()
# FAA Advisory Circular 20-35C: what an anchor holds, and what a rope should resist at least (read).
AC_20_35C_LB = 3000.0


def test_breaking_loads_are_the_rope_makers():
    # A rope maker's table of least breaking loads, lb (read).
    table = {
        "manila 3/8 in": 1220, "manila 1/2 in": 2380,
        "nylon 3/8 in": 3340, "nylon 1/2 in": 5750,
        "polypropylene 3/8 in": 2440, "polypropylene 1/2 in": 3780,
    }  # fmt: skip
    assert {name: breaking for name, (breaking, _) in ROPES.items()} == table


def test_which_ropes_meet_the_advisory_circular():
    meet = {name for name, (breaking, _) in ROPES.items() if breaking >= AC_20_35C_LB}
    assert meet == {"nylon 3/8 in", "nylon 1/2 in", "polypropylene 1/2 in"}
    # A knot leaves about half (common practice, no source): the weakest part is then the rope, not the anchor.
    for breaking, _ in ROPES.values():
        assert line_strength(breaking, AC_20_35C_LB) < AC_20_35C_LB


def test_a_rope_at_45_degrees_as_the_circular_has_it():
    assert float(rope_tension(AC_20_35C_LB, 45.0)) == pytest.approx(AC_20_35C_LB * 2**0.5)


@pytest.mark.parametrize(("weight", "radius", "height"), [(700.0, 8.2, 3.0), (320.0, 0.18, 0.05), (1.0, 5.0, 2.0)])
def test_a_wheel_against_a_step(weight, radius, height):
    # W √(2rh − h²)/(r − h): statics, any mechanics textbook. r 5, h 2: √16/3 = 4/3.
    by_hand = weight * (2 * radius * height - height**2) ** 0.5 / (radius - height)
    assert float(chock_force(weight, radius, height)) == pytest.approx(by_hand, rel=1e-12)
    assert float(chock_force(1.0, 5.0, 2.0)) == pytest.approx(4 / 3, rel=1e-12)


def test_the_winds_pressure_in_other_units():
    # ½ ρ V² with the standard density of ICAO Doc 7488, 1.225 kg/m³ or 0.002377 slug/ft³, by pint.
    by_pint = (0.5 * UNITS("1.225 kg/m^3") * UNITS.Quantity(65.0, "knot") ** 2).to("Pa").magnitude
    assert float(wind_pressure_pa(65.0)) == pytest.approx(by_pint, rel=1e-6)
    # 14 CFR 23.415(c), before 2017: fittings for a horizontal wind of 65 kt (read). That is a pressure of 14.3 lb/ft².
    assert UNITS.Quantity(by_pint, "Pa").to("lbf/ft^2").magnitude == pytest.approx(14.3, abs=0.05)
