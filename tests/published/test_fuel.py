"""Fuel against published values: its density when warm or cold, the water in air, the rule on reserves."""

import numpy as np
import pint
import psychrolib
import pytest
from walkaround.physics import fuel
from walkaround.physics.fuel.order import RESERVE_MIN

psychrolib.SetUnitSystem(psychrolib.SI)
UNITS = pint.UnitRegistry()


@pytest.mark.parametrize(("celsius", "lb_per_litre"), [(0.0, 1.62), (15.0, 1.59), (30.0, 1.56)])
def test_a_litre_of_avgas_in_pounds(celsius, lb_per_litre):
    # The usual planning table (recalled).
    weight = UNITS.Quantity(float(fuel.density_kg_l(0.72, celsius)), "kg").to("lb").magnitude
    assert weight == pytest.approx(lb_per_litre, abs=0.005)


def test_a_gallon_in_pounds():
    # FAA-H-8083-25: avgas 6 lb/US gal, jet fuel 6.8 (read). 0.72 and 0.81 kg/L are usual densities of the two.
    assert float(fuel.lb_per_us_gal(0.72)) == pytest.approx(6.0, abs=0.05)
    assert float(fuel.lb_per_us_gal(0.81)) == pytest.approx(6.8, abs=0.05)
    by_pint = UNITS.Quantity(0.75, "kg/L").to("lb/gallon").magnitude
    assert float(fuel.lb_per_us_gal(0.75)) == pytest.approx(by_pint, rel=1e-12)


@pytest.mark.parametrize("celsius", [-20.0, 0.0, 15.0, 35.0])
def test_jet_fuel_by_the_formula_worked_by_hand(celsius):
    # ASTM D1250, table 54B for jet fuels: α = 594.5418/ρ² (recalled).
    alpha = 594.5418 / 800.0**2
    step = alpha * (celsius - 15.0)
    assert float(fuel.density_kg_l(0.8, celsius)) == pytest.approx(0.8 * np.exp(-step - 0.8 * step**2), rel=1e-12)


def test_a_hundred_litres_of_saturated_air():
    # A published estimate: 3.04 g at 30 °C less 0.94 g at 10 °C (read).
    assert float(fuel.condensed_water_g(100.0, 30.0, 1.0, 10.0)) == pytest.approx(2.1, abs=0.02)
    assert float(fuel.vapour_g_m3(30.0)) / 10 == pytest.approx(3.04, abs=0.01)
    assert float(fuel.vapour_g_m3(10.0)) / 10 == pytest.approx(0.94, abs=0.005)


@pytest.mark.parametrize(
    ("celsius", "kilopascal"), [(0.01, 0.6117), (10.0, 1.2282), (20.0, 2.3393), (30.0, 4.247), (40.0, 7.3849)]
)
def test_saturated_vapour_as_steam_tables_have_it(celsius, kilopascal):
    # IAPWS steam tables (recalled), and the gas law with R = 8.314 J/(mol K) and 18.015 g/mol.
    expected = kilopascal * 1000 * 18.015 / (8.3145 * (celsius + 273.15))
    assert float(fuel.vapour_g_m3(celsius)) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("celsius", [-40.0, -15.0, -1.0, 0.0, 5.0, 18.0, 33.0, 50.0])
@pytest.mark.parametrize("humidity", [0.2, 0.65, 1.0])
def test_humid_air_as_psychrolib_has_it(celsius, humidity):
    # The gas constant of psychrolib's water vapour is that of dry air over 0.621945.
    pressure = psychrolib.GetVapPresFromRelHum(celsius, humidity)
    expected = 1000 * pressure / (287.042 / 0.621945 * (celsius + 273.15))
    assert float(fuel.vapour_g_m3(celsius, humidity)) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize(
    ("from_c", "humidity", "to_c"), [(30.0, 0.6, 12.0), (24.0, 0.85, 15.0), (10.0, 0.9, -5.0), (20.0, 0.5, 12.0)]
)
def test_water_comes_out_below_the_dew_point_that_psychrolib_gives(from_c, humidity, to_c):
    dew = psychrolib.GetTDewPointFromRelHum(from_c, humidity)
    found = float(fuel.condensed_water_g(80.0, from_c, humidity, to_c))
    assert (found > 0) == (to_c < dew - 0.5)
    if found:
        # From the humidity ratio, by the kilogram of dry air that 80 L hold at first: the air shrinks as it cools, so this
        # is a little less exact than the vapour itself.
        ratio = psychrolib.GetHumRatioFromRelHum(from_c, humidity, 101325.0)
        dry_kg = 0.08 / psychrolib.GetMoistAirVolume(from_c, ratio, 101325.0)
        saturated = psychrolib.GetSatHumRatio(to_c, 101325.0)
        assert found == pytest.approx(1000 * dry_kg * (ratio - saturated), rel=0.1)


def test_the_rule_on_reserves():
    # 14 CFR 91.151: 30 min by day, 45 by night, at normal cruise (recalled).
    assert RESERVE_MIN == {"day": 30.0, "night": 45.0}


def test_a_millimetre_on_a_square_metre_is_a_litre():
    litres = (UNITS.Quantity(1.0, "mm") * UNITS.Quantity(1.0, "m^2")).to("L").magnitude
    assert float(fuel.leaked_l(1.0, 1.0, 1.0, 1e6, 10.0)) == pytest.approx(litres)


def test_what_a_gap_lets_through():
    # Torricelli with a coefficient of 0.6, in pint's units.
    speed = (2 * UNITS.Quantity(9.80665, "m/s^2") * UNITS.Quantity(5.0, "mm")) ** 0.5
    litres = (0.6 * UNITS.Quantity(0.2, "mm^2") * speed * UNITS.Quantity(3.0, "hour")).to("L").magnitude
    assert float(fuel.leaked_l(1000.0, 3.0, 10.0, 0.2, 5.0)) == pytest.approx(litres, rel=1e-12)
