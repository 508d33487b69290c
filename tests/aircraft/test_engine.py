"""The [engine] section and the heater file: what is read, what `preheat` gets of it, and every mistake named."""

import copy
import tomllib

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.aircraft.heaters import DEMO_FILE, demo_heaters, read_heaters
from walkaround.physics.preheat.plans import spent

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_demo_engines_say_that_they_are_invented(name):
    section = aircraft.demo(name).engine
    assert "invented" in section.note.lower()
    assert "invented" in demo_heaters().note.lower()
    assert set(section.ready_c) == set(section.engine().parts)


def test_the_oil_is_weighed_in_its_own_unit():
    oil = aircraft.demo("morrowlark_four").engine.oil
    kilograms = 7 / 4 * 7.5 * 0.45359237  # 7.5 lb/US gal: FAA-H-8083-1, recalled
    assert oil.heat_j_per_k(7) == pytest.approx(kilograms * oil.specific_heat_j_per_kg_k)
    litres = aircraft.demo("tansy_two").engine.oil
    assert litres.heat_j_per_k(2.0) == pytest.approx(
        2.0 * 7.5 * 0.45359237 / 3.785411784 * litres.specific_heat_j_per_kg_k
    )
    more = aircraft.demo("morrowlark_four").engine.engine(8).oil.heat_j_per_k
    assert more == pytest.approx(8 / 7 * aircraft.demo("morrowlark_four").engine.engine(7).oil.heat_j_per_k)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda e: e.pop("horsepower"), "engine.horsepower is missing; allowed: a number"),
        (lambda e: e["metal"].update(heat_kj_per_k=-46), "engine.metal.heat_kj_per_k is -46; allowed: more than 0"),
        (
            lambda e: e["metal"].update(weight=125),
            "engine.metal.weight is 125; allowed: no such key here (known: heat_kj",
        ),
        (lambda e: e["cylinders"].pop("to_metal_w_per_k"), "engine.cylinders.to_metal_w_per_k is missing"),
        (lambda e: e["oil"].update(minimum=7.5), "engine.oil: minimum 7.5, usual 7 and full 8; allowed: usual between"),
        (lambda e: e["oil"].update(viscosity_100_mm2_s=160), "allowed: less than at 40 °C, 150"),
        (
            lambda e: e["oil"].update(dipstick_marks=[1, 2, 2, 3, 4]),
            "[1.0, 2.0, 2.0, 3.0, 4.0]; allowed: each above the one",
        ),
        (lambda e: e["oil"].update(dipstick_quantities=[4, 5]), "dipstick_marks has 5, dipstick_quantities 2; allowed"),
        (lambda e: e["oil"].update(unit="pt"), "engine.oil.unit is 'pt'; allowed: 'qt' or 'L'"),
        (lambda e: e["cowl"].update(wind_share=1.2), "engine.cowl.wind_share is 1.2"),
        (lambda e: e.update(oil_limit_c=5), "engine: oil_limit_c 5; allowed: above ready_oil_c, 10"),
    ],
)
def test_each_mistake_in_the_section_is_named(change, says):
    data = copy.deepcopy(FOUR)
    change(data["engine"])
    with pytest.raises(aircraft.AircraftFileError) as caught:
        aircraft.check(data, "mine.toml")
    assert any(line.startswith("mine.toml: ") and says in line for line in caught.value.problems), caught.value.problems


def test_an_aircraft_without_the_section_is_sound_but_has_no_preheat(tmp_path):
    path = tmp_path / "mine.toml"
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    path.write_text(text[: text.index("[engine]")], encoding="utf-8")
    assert aircraft.read(path).engine is None
    with pytest.raises(ValueError, match=r"has no section \[engine\]"):
        aircraft.with_sections(path, "engine")


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("power_w = 9000", "power_w = 0", "air_heaters[1].power_w is 0; allowed: more than 0"),
        ('fuel = "kerosene"', 'fuel = "coal"', "kerosene heater: fuel 'coal'; allowed: kerosene"),
        (
            "thermostat_least_c = 20",
            "thermostat_least_c = 60",
            "thermostat_c 52; allowed: from thermostat_least_c to thermostat_most_c, 60 to 70",
        ),
        (
            "low = { flow_m3_h = 60",
            "low = { flow_m3_h = 600",
            "low flow 600 and high flow 115; allowed: a low flow up to the high one",
        ),
        ("price_per_l", "cost", "fuels[0].cost is 1.9; allowed: no such key here"),
        ("share_to_oil = 0.8", "share_to_oil = 80", "pads[0].share_to_oil is 80"),
    ],
)
def test_each_mistake_in_a_heater_file_is_named(tmp_path, old, new, says):
    path = tmp_path / "heaters.toml"
    text = DEMO_FILE.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(aircraft.AircraftFileError) as caught:
        read_heaters(path)
    assert any(line.startswith("heaters.toml: ") and says in line for line in caught.value.problems), (
        caught.value.problems
    )


def test_both_fans_at_once_and_names_that_are_not_there():
    heater = demo_heaters().air_heaters[0]
    both = heater.set_to(["low", "high"])
    assert np.array_equal(both.flow_m3_h, [heater.low.flow_m3_h, heater.high.flow_m3_h])
    with pytest.raises(ValueError, match="fan is 'middle'; allowed: low, high"):
        heater.set_to("middle")
    with pytest.raises(ValueError, match="'stove' is not in the heater file; allowed: electric air heater"):
        demo_heaters().air_heater("stove")


def test_the_price_is_by_electricity_and_by_fuel():
    heaters = demo_heaters()
    electric, kerosene = heaters.air_heaters

    class Heat:
        heater, fan, pad = 3.6e6 * 2, 3.6e6, 0.0

    assert float(heaters.cost(spent(Heat), electric)) == pytest.approx(3 * heaters.electricity_per_kwh)
    burnt_l = 7.2e6 / (kerosene.efficiency * heaters.fuels[0].mj_per_l * 1e6)
    assert float(heaters.cost(spent(Heat, heaters.fuel_of(kerosene)), kerosene)) == pytest.approx(
        heaters.electricity_per_kwh + burnt_l * heaters.fuels[0].price_per_l
    )
