"""Cooling: textbook heat balances, exponents and formulas, each with its source."""

import numpy as np
import pint
import pytest
from ht import effectiveness_from_NTU
from walkaround import aircraft
from walkaround.physics.cooling import (
    Setting,
    Stream,
    cooling_speed_kt,
    fuel_heat_w,
    series_share,
    settled_c,
    share_of_full,
)
from walkaround.physics.preheat.heat_transfer import flow_w_per_k

UNITS = pint.UnitRegistry()
both = pytest.mark.parametrize("name", aircraft.demo_names())


@both
def test_the_heat_balance_is_a_textbooks(name):
    # FAA-H-8083-32, chapter on engine cooling: 25 to 30 % of the heat becomes power, 15 to 20 % leaves through the
    # cylinders' fins; recalled. J. B. Heywood, Internal Combustion Engine Fundamentals, table 12.1 (spark ignition, at
    # the greatest power): power 25 to 28 %, coolant 17 to 26 %, other losses, oil among them, 3 to 10 %; recalled.
    section = aircraft.demo(name).cooling
    assert 0.25 <= section.efficiency <= 0.30
    assert 0.15 <= section.heads_share <= 0.20
    assert 0.03 <= section.oil_share <= 0.10


@both
def test_the_fuel_it_burns_is_that_of_a_piston_engine(name):
    # ASTM D910: net heat of combustion of aviation gasoline at least 43.5 MJ/kg; recalled. About half a pound for each
    # horsepower and hour, full rich at take-off power: common practice, no source.
    engine, section = aircraft.demo(name).engine, aircraft.demo(name).cooling
    heat = float(fuel_heat_w(engine.horsepower, section.efficiency)) * UNITS.watt
    burnt = heat / (43.5 * UNITS.megajoule / UNITS.kilogram) / (engine.horsepower * UNITS.horsepower)
    assert 0.42 < burnt.to("lb/hp/hour").magnitude < 0.56


def test_a_horsepower_is_the_mechanical_one():
    assert float(fuel_heat_w(1, 1.0)) == pytest.approx((1 * UNITS.horsepower).to("watt").magnitude, rel=1e-7)


def test_heat_into_the_cylinder_grows_less_than_the_charge():
    # B. Pinkel, Heat-Transfer Processes in Air-Cooled Engine Cylinders, NACA Report 612 (1938): as the weight of the
    # charge to the power 0.64; recalled.
    assert np.polyfit(np.log([0.3, 0.6, 1.0]), np.log(share_of_full([0.3, 0.6, 1.0])), 1)[0] == pytest.approx(0.64)


def test_the_slipstream_is_that_of_momentum_theory():
    # A propeller at rest: P = T v and T = 2 ρ A v², so v grows as P^⅓ (McCormick, ch. 6; recalled).
    power_w, area_m2, density = np.array([20e3, 60e3, 100e3]), 2.8, 1.225
    induced = (power_w / (2 * density * area_m2)) ** (1 / 3)
    np.testing.assert_allclose(cooling_speed_kt(0.0, power_w / 100e3, 38.0) / 38.0, induced / induced[-1])


def test_two_openings_in_series_pass_what_bernoulli_says():
    # Q = A √(2 Δp/ρ) through each, pressures added, solved for Q with areas of 0.6 · 1.2 and 1 against 1.2 and 1.
    density, drop = 1.2, 300.0
    flows = [np.sqrt(2 * drop / density / (1 / (1.2 * a) ** 2 + 1)) for a in (0.6, 1.0)]
    assert float(series_share(0.6, 1.2)) == pytest.approx(flows[0] / flows[1])


def test_the_air_takes_what_a_heat_exchanger_with_one_warm_side_takes():
    # ht.effectiveness_from_NTU with a ratio of capacities of 0.
    for share in (0.1, 0.5, 1.0):
        carried = float(flow_w_per_k(3000.0 * share))
        effectiveness = effectiveness_from_NTU(480.0 * share**0.6 / carried, Cr=0.0, subtype="counterflow")
        assert float(Stream(3000.0, 480.0).taken_w_per_k(share)) == pytest.approx(effectiveness * carried)


@both
def test_the_climb_on_a_hot_day_is_the_one_a_type_is_certified_by(name):
    # 14 CFR 23.1043 and 23.1045 (before 2017): cooling is shown in a climb on a day of at least 100 °F at sea level;
    # recalled.
    craft = aircraft.demo(name)
    section, hot_c = craft.cooling, UNITS.Quantity(100, "degF").to("degC").magnitude
    assert section.most_outside_c >= np.floor(hot_c)
    engine = section.engine(craft.engine, craft.speeds.climb)
    heads, _, oil, _ = settled_c(engine, Setting(1.0, craft.speeds.climb), hot_c)
    assert heads < section.head_limit_c
    assert oil < craft.engine.oil_limit_c
