"""A whole preheat and what it used."""

from dataclasses import replace

import numpy as np
import pytest
from walkaround.physics.preheat.air_heater import AirHeater
from walkaround.physics.preheat.energy import heat_balance
from walkaround.physics.preheat.engine import Engine, Part, SumpPad, warming
from walkaround.physics.preheat.plans import Fuel, Spent, plan, spent

ENGINE = Engine(
    metal=Part(49e3, 4.0, 16.0),
    oil=Part(11e3, 1.5, 8.0, 16.0),
    cylinders=Part(27e3, 3.5, 22.0, 30.0),
    wind_share=0.15,
    cover_loss_left=0.4,
    cover_wind_left=0.2,
)
READY = {"oil": 15.0, "metal": 5.0}
BURNER = AirHeater(9000.0, 360.0, 52.0, 8.0, 6000.0, 140.0)
WEAK = AirHeater(2000.0, 180.0, 52.0, 5.0, 1800.0, 55.0)


def test_the_wait_begins_where_the_heating_ends():
    p = plan(ENGINE, READY, -15.0, 30.0, BURNER, wait_minutes=20.0)
    before, after = p.temperatures_c(30.0), p.temperatures_c(30.0 + 1e-9)
    assert before[:-1] == pytest.approx(after[:-1], abs=1e-6)
    cooling = warming(ENGINE, -15.0, start_c=p.at_end_of_heating)
    assert p.temperatures_c(50.0) == pytest.approx(cooling.temperatures_c(20.0))
    assert p.at_start["oil"] == pytest.approx(p.temperatures_c(50.0)[1])


def test_the_cover_keeps_the_warmth_and_may_go_on_after_the_heating():
    bare = plan(ENGINE, READY, -15.0, 30.0, BURNER, wait_minutes=20.0, wind_kt=10.0)
    later = plan(ENGINE, READY, -15.0, 30.0, BURNER, wait_minutes=20.0, wind_kt=10.0, cover_while_waiting=True)
    assert later.with_cover == pytest.approx(bare.with_cover)
    assert bare.stays_minutes == pytest.approx(float(bare.without_cover))
    assert later.stays_minutes == pytest.approx(float(later.with_cover))
    assert later.with_cover > 2 * later.without_cover
    assert bool(later.ready_at_start)
    assert later.at_start["oil"] > bare.at_start["oil"] + 2


def test_longest_safe_wait_is_the_moment_it_stops_being_ready():
    p = plan(ENGINE, READY, -15.0, 30.0, BURNER)
    longest = float(p.stays_minutes)
    for wait, ready in ((longest - 0.1, True), (longest + 0.1, False)):
        assert bool(plan(ENGINE, READY, -15.0, 30.0, BURNER, wait_minutes=wait).ready_at_start) == ready


def test_a_table_of_plans_is_one_call():
    outside = np.array([-25.0, -15.0, -5.0])[:, np.newaxis]
    table = plan(ENGINE, READY, outside, np.array([10.0, 30.0, 60.0]), BURNER, wait_minutes=5.0)
    assert table.stays_minutes.shape == table.ready_at_start.shape == (3, 3)
    one = plan(ENGINE, READY, -15.0, 30.0, BURNER, wait_minutes=5.0)
    assert table.stays_minutes[1, 1] == pytest.approx(float(one.stays_minutes))
    assert table.heat.heater[1, 1] == pytest.approx(float(one.heat.heater))


ROWS = {
    "outside_c": np.linspace(-30.0, 0.0, 7),
    "heat_minutes": np.array([0.0, 5.0, 45.0, 200.0]),
    "wait_minutes": np.array([0.0, 10.0, 90.0]),
    "wind_kt": np.array([0.0, 12.0, 30.0]),
    "cover": np.array([True, False]),
    "heater": AirHeater(np.array([900.0, 3000.0, 9000.0]), 360.0, np.array([20.0, 52.0, 60.0]), 8.0, 6000.0, 140.0),
    "pad": SumpPad(np.array([0.0, 250.0])),
}
FIELDS = ("heat_minutes", "wait_minutes", "ready_minutes", "stays_minutes", "with_cover", "without_cover", "cover")


@pytest.mark.parametrize("name", ROWS)
@pytest.mark.parametrize("engine", [ENGINE, replace(ENGINE, cylinders=None)])
def test_one_setting_of_a_row_is_that_setting_by_itself(name, engine):
    given = {
        "outside_c": -15.0,
        "heat_minutes": 40.0,
        "heater": BURNER,
        "wait_minutes": 15.0,
        "cover": True,
        "wind_kt": 5.0,
    }
    row = plan(engine, READY, **{**given, name: ROWS[name]})
    moments = np.array([0.0, 3.0, 39.0, 44.0])
    count = np.size(getattr(ROWS[name], "power_w", ROWS[name]))
    curves = row.temperatures_c(moments[:, np.newaxis])
    curves = np.broadcast_to(curves, (moments.size, count, curves.shape[-1]))
    for i in range(count):
        if name == "heater":
            one = replace(ROWS[name], **{k: getattr(ROWS[name], k)[i] for k in ("power_w", "thermostat_c")})
        else:
            one = SumpPad(ROWS[name].power_w[i]) if name == "pad" else ROWS[name][i]
        single = plan(engine, READY, **{**given, name: one})
        assert curves[:, i] == pytest.approx(single.temperatures_c(moments), abs=1e-9)
        pairs = [
            *((getattr(row, field), getattr(single, field)) for field in FIELDS),
            *((row.reached_minutes[part], single.reached_minutes[part]) for part in engine.parts),
            *((row.heat.lost[part], single.heat.lost[part]) for part in engine.parts),
            (row.heat.supplied, single.heat.supplied),
            (spent(row.heat).electricity_kwh, spent(single.heat).electricity_kwh),
        ]
        for of_row, by_itself in pairs:
            assert np.broadcast_to(of_row, (count,))[i] == pytest.approx(by_itself, rel=1e-6, abs=1e-6)


def test_energy_and_cost_by_hand():
    # Two hours of a heater that never reaches its setting: 2,000 W and 55 W of fan, and a pad of 250 W.
    p = plan(ENGINE, READY, -15.0, 120.0, WEAK, SumpPad(250.0))
    used = spent(p.heat)
    assert float(used.electricity_kwh) == pytest.approx(2 * 2.305)
    assert float(used.cost(per_kwh=0.30)) == pytest.approx(1.383)
    # The same heat from a burner: 14.4 MJ at 80 % of 36 MJ/L, the fan and the pad from the socket.
    burnt = spent(p.heat, Fuel(mj_per_l=36.0, efficiency=0.8))
    assert float(burnt.fuel_l) == pytest.approx(14.4 / 28.8)
    assert float(burnt.electricity_kwh) == pytest.approx(2 * 0.305)
    assert float(burnt.cost(per_kwh=0.30, per_l=2.0)) == pytest.approx(1.0 + 0.183)


def test_a_thermostat_saves_energy():
    at_setting = warming(ENGINE, -5.0, BURNER)
    assert heat_balance(at_setting, 60.0).heater < 0.9 * 9000 * 3600
    assert at_setting.on_minutes(60.0) < 54


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: plan(ENGINE, READY, -15.0, -1.0), "heat_minutes is -1 min"),
        (lambda: plan(ENGINE, READY, -15.0, 10.0, wait_minutes=np.nan), "wait_minutes is not a number"),
        (lambda: Fuel(0.0), "mj_per_l is 0 MJ/L"),
        (lambda: Fuel(36.0, 1.2), "efficiency is 1.2; allowed: more than 0, up to 1"),
        (lambda: Spent(1.0, 0.0).cost(-0.1), "per_kwh is -0.1"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
