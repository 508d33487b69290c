"""Freezing batteries, cranking power and copper wire against a manual, an advisory circular and two standards."""

import numpy as np
import pytest
from walkaround.physics.electrical import (
    area_mm2,
    cranking_share,
    electrolyte_freezes_c,
    inner_ohm,
    open_circuit_volts,
    resistance_ohm,
    specific_gravity,
)
from walkaround.units import FOOT_M, celsius, fahrenheit

# A U.S. Army technical manual: specific gravity, °F at which the electrolyte freezes. Read.
FREEZES = [(1.100, 19), (1.150, 5), (1.200, -16), (1.250, -62), (1.280, -90)]
# The same kind of manual: °F, cranking power of a full battery. Read.
CRANKING = [(80, 1.00), (30, 0.65), (0, 0.40)]
# FAA AC 43.13-1B, table 11-8: Ω/ft of tin-plated copper aircraft wire. Read.
TINNED = [(4, 0.00028), (6, 0.00044), (10, 0.00126), (12, 0.00202), (14, 0.00306)]


@pytest.mark.parametrize(("gravity", "degrees_f"), FREEZES)
def test_when_electrolyte_freezes(gravity, degrees_f):
    assert float(fahrenheit(electrolyte_freezes_c(gravity))) == pytest.approx(degrees_f)


@pytest.mark.parametrize(("degrees_f", "share"), CRANKING)
def test_cranking_power_in_the_cold(degrees_f, share):
    assert float(cranking_share(celsius(degrees_f))) == pytest.approx(share)


@pytest.mark.parametrize(("degrees_f", "share"), CRANKING)
def test_the_inner_resistance_leaves_that_share_of_the_greatest_power(degrees_f, share):
    # The most that a source gives is V²/4R, into a load of the same resistance.
    volts = float(open_circuit_volts(1.0, 6))
    most_w = [volts**2 / 4 / float(inner_ohm(1.0, celsius(f), 0.008)) for f in (80, degrees_f)]
    assert most_w[1] / most_w[0] == pytest.approx(share)


def test_gravity_and_volts_of_a_charged_battery():
    # Common practice, no source: a full battery has 1.265 to 1.280 and rests at 12.6 to 12.8 V, a flat one below 11.9.
    assert 1.265 <= float(specific_gravity(1.0)) <= 1.280
    assert 12.6 <= float(open_circuit_volts(1.0, 6)) <= 12.8
    assert float(open_circuit_volts(0.0, 6)) < 11.9


def test_number_12_has_1_588_ohm_in_a_thousand_feet():
    # Source: bare copper of No. 12, handbooks' wire table (recalled); its diameter is 0.0808 in (ASTM B258, recalled).
    assert float(resistance_ohm(12, 1000 * FOOT_M)) == pytest.approx(1.588, rel=1e-3)
    assert float(area_mm2(12)) == pytest.approx(np.pi / 4 * (0.0808 * 25.4) ** 2, rel=1e-3)


@pytest.mark.parametrize(("gauge", "ohm_per_ft"), TINNED)
def test_tinned_strands_have_11_to_27_percent_more_than_bare_wire(gauge, ohm_per_ft):
    more = ohm_per_ft / float(resistance_ohm(gauge, FOOT_M)) - 1
    assert 0.105 < more < 0.275  # to whole percents


@pytest.mark.parametrize("temperature_c", [-40.0, 0.0, 105.0, 150.0])
def test_the_length_allowed_falls_with_temperature_as_the_circular_has_it(temperature_c):
    # AC 43.13-1B: L2 = 254.5 L1/(234.5 + T) for the same drop. Read.
    shorter = 10.0 * 254.5 / (234.5 + temperature_c)
    same = float(resistance_ohm(6, shorter, temperature_c))
    assert same == pytest.approx(float(resistance_ohm(6, 10.0)))


def test_three_gauges_down_is_twice_the_resistance_and_0_has_names_for_more():
    # 92^(6/39) = 2.005: the rule that three gauges double the area (common practice, no source).
    assert float(resistance_ohm(5, 1.0) / resistance_ohm(2, 1.0)) == pytest.approx(2.0, rel=0.01)
    # 2/0 has 67.4 mm², 4/0 107 mm² (handbooks' wire table, recalled).
    assert area_mm2([-1, -3]).tolist() == pytest.approx([67.4, 107.2], rel=2e-3)
