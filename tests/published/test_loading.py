"""Weight and balance against published worked examples. Each value carries its source and how sure we are of it."""

import numpy as np
import pint
import pytest
from walkaround import aircraft
from walkaround.physics import oil
from walkaround.physics.loading import moments as loading
from walkaround.units import POUND_KG, US_GALLON_L, US_QUART_L

PHAK = "FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge, weight-and-balance chapter"


def test_computational_method():
    # Source: PHAK, computational method. read.
    total = loading.balance([2100, 340, 350, 450, 80], [78.3, 85.0, 121.0, 75.0, 150.0])
    assert total.weight == 3320
    assert total.moment == pytest.approx(281_430, abs=0.5)
    assert round(float(total.cg), 1) == 84.8


def test_weight_to_shift():
    # Source: PHAK, weight shift. read.
    assert loading.weight_to_shift(7800, 81.5, 80.5, 150, 30) == pytest.approx(65)


def test_weight_added():
    # Source: PHAK, weight addition. recalled, the arithmetic agrees.
    assert round(float(loading.cg_after_change(6860, 80.0, 140, 150)), 1) == 81.4


def test_percent_mac_is_the_definition():
    # Source: FAA-H-8083-1, Aircraft Weight and Balance Handbook: the CG's distance behind the leading edge, as a share
    # of the chord. recalled; the numbers are ours.
    assert loading.percent_mac(45.0, 30.0, 60.0) == pytest.approx(25.0)


@pytest.mark.parametrize(
    ("name", "unit", "pounds_per_gallon"),
    [
        # Source: PHAK: aviation gasoline 6 lb/US gal. read.
        ("fuel", "avgas", 6.0),
        # Source: FAA-H-8083-1: engine oil 7.5 lb/US gal. recalled.
        ("oil", "oil", 7.5),
    ],
)
def test_demo_aircraft_use_the_handbook_densities(name, unit, pounds_per_gallon):
    imperial = getattr(aircraft.demo("morrowlark_four"), name).density
    metric = getattr(aircraft.demo("tansy_two"), name).density
    assert imperial == pounds_per_gallon
    # kg/L by pint's own factors, an independent library; the file rounds to two figures.
    ureg = pint.UnitRegistry()
    converted = (pounds_per_gallon * ureg.pound / ureg.gallon).to("kg/L").magnitude
    assert metric == pytest.approx(converted, abs=0.005)


def test_the_oil_lies_ahead_of_the_firewall():
    # The file's own note: the datum is 60 in ahead of the firewall. The oil is in the engine, so ahead of that.
    craft = aircraft.demo("morrowlark_four")
    assert "60 in ahead of the firewall" in craft.note
    assert craft.oil.arm < 60


def test_one_density_of_oil():
    # FAA-H-8083-1: engine oil 7.5 lb/US gal. recalled. In the sump, on the load sheet, and in what an engine may burn.
    ureg = pint.UnitRegistry()
    kg_per_l = (7.5 * ureg.pound / ureg.gallon).to("kg/L").magnitude
    assert pytest.approx(kg_per_l, rel=1e-12) == oil.DENSITY_KG_PER_L
    for name in aircraft.demo_names():
        section = aircraft.demo(name).engine.oil
        a_litre = section.heat_j_per_k(1.0 if section.unit == "L" else 1.0 / US_QUART_L)
        assert a_litre == pytest.approx(kg_per_l * section.specific_heat_j_per_kg_k, rel=1e-12)
    assert 0.006 * 100 / oil.greatest_consumption_qt_per_h(100.0) * 4 == pytest.approx(7.5)


def test_metric_equals_imperial():
    # The same load in pounds and inches, and in kilograms and metres by pint's factors: one CG.
    ureg = pint.UnitRegistry()
    weights, arms = np.array([2100.0, 340, 350, 450, 80]), np.array([78.3, 85.0, 121.0, 75.0, 150.0])
    imperial = loading.balance(weights, arms)
    metric = loading.balance((weights * ureg.pound).to("kg").magnitude, (arms * ureg.inch).to("m").magnitude)
    assert (metric.cg * ureg.m).to("inch").magnitude == pytest.approx(float(imperial.cg), rel=1e-12)
    assert (metric.weight * ureg.kg).to("lb").magnitude == pytest.approx(float(imperial.weight), rel=1e-12)


def test_factors_agree_with_pint():
    ureg = pint.UnitRegistry()
    assert pytest.approx((1 * ureg.pound).to("kg").magnitude, rel=1e-14) == POUND_KG
    assert pytest.approx((1 * ureg.gallon).to("L").magnitude, rel=1e-14) == US_GALLON_L
