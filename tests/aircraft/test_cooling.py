"""The [cooling] section: what is read, what the physics gets, every mistake named, and an engine that stays cool."""

import copy
import tomllib

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.physics.cooling import OIL, PARTS, settled_c

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))
both = pytest.mark.parametrize("name", aircraft.demo_names())


def engine_of(name):
    craft = aircraft.demo(name)
    return craft, craft.cooling, craft.cooling.engine(craft.engine, craft.speeds.climb)


def within_limits(craft, settled):
    heads, oil = settled[..., :2].max(), settled[..., PARTS.index(OIL)].max()
    return heads < craft.cooling.head_limit_c and oil < craft.engine.oil_limit_c


@both
def test_the_demo_section_says_that_it_is_invented(name):
    assert "invented" in aircraft.demo(name).cooling.note.lower()


@both
def test_the_parts_weigh_what_the_engine_weighs(name):
    craft, section, engine = engine_of(name)
    metal = craft.engine.metal.heat_kj_per_k + getattr(craft.engine.cylinders, "heat_kj_per_k", 0)
    assert engine.heads_j_per_k == 1e3 * section.heads_kj_per_k
    assert engine.heads_j_per_k + engine.crankcase_j_per_k == pytest.approx(1e3 * metal)
    assert engine.oil_j_per_k == craft.engine.oil.heat_j_per_k(craft.engine.oil.usual)


@both
def test_with_both_intakes_clear_it_stays_below_its_limits_in_level_flight_and_in_a_climb(name):
    # As a handbook would permit: up to the warmest day, at climb speed and above, at any power.
    craft, section, engine = engine_of(name)
    outside = np.linspace(-30, section.most_outside_c, 5)
    speeds = np.linspace(craft.speeds.climb, craft.speeds.vno, 6)[:, np.newaxis]
    for power in (0.5, 0.75, 1.0):
        assert within_limits(craft, settled_c(engine, section.setting(power, speeds), outside))


@both
def test_what_is_left_in_an_intake_is_too_much_for_a_climb(name):
    craft, section, engine = engine_of(name)
    for blocked in ((1.0, 0.0), (0.0, 1.0), (0.8, 0.8), (1.0, 1.0)):
        climb = section.setting(1.0, craft.speeds.climb, *blocked)
        assert not within_limits(craft, settled_c(engine, climb, 15.0))


@both
def test_the_winter_kit_warms_the_oil_in_the_cold_and_is_too_much_in_spring(name):
    craft, section, engine = engine_of(name)
    row = PARTS.index(OIL)
    cruise = [settled_c(engine, section.setting(0.65, craft.speeds.cruise, kit=kit), -20.0)[row] for kit in (0, 1)]
    assert cruise[0] < section.oil_green_c <= cruise[1]
    climb = section.setting(1.0, craft.speeds.climb, kit=True)
    assert within_limits(craft, settled_c(engine, climb, section.kit.off_above_c))
    assert not within_limits(craft, settled_c(engine, climb, 15.0))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda s: s.pop("leak"), "cooling.leak is missing; allowed: a number"),
        (lambda s: s.update(leak=0), "cooling.leak is 0; allowed: more than 0"),
        (lambda s: s.update(gauge_on="top"), "cooling.gauge_on is 'top'; allowed: "),
        (lambda s: s.update(head_green_c=250), "cooling: head_green_c 250; allowed: below head_limit_c, 240"),
        (lambda s: s.update(heads_share=0.8), "make 1.105; allowed: less than 1 together"),
        (lambda s: s.update(taxi_power=0.5), "cooling: taxi_power 0.5; allowed: below run_up_power, 0.4"),
        (lambda s: s.update(heads_kj_per_k=90), "cooling.heads_kj_per_k is 90.0; allowed: less than all the metal"),
        (lambda s: s.update(oil_green_c=118), "cooling.oil_green_c is 118.0; allowed: below engine.oil_limit_c, 118"),
        (lambda s: s["kit"].update(covers_cooler=2), "cooling.kit.covers_cooler is 2; allowed: "),
        (lambda s: s.update(cowl_flaps=1), "cooling.cowl_flaps is 1; allowed: no such key here"),
    ],
)
def test_each_mistake_in_the_section_is_named(change, says):
    data = copy.deepcopy(FOUR)
    change(data["cooling"])
    with pytest.raises(aircraft.AircraftFileError) as caught:
        aircraft.check(data, "four.toml")
    (problem,) = caught.value.problems
    assert says in problem
