"""When an engine is ready: all parts at once, at the very moment named, and as an independent solver finds it."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from walkaround.physics.preheat.air_heater import AirHeater
from walkaround.physics.preheat.engine import Engine, Part, SumpPad, warming
from walkaround.physics.preheat.history import warm_enough
from walkaround.physics.preheat.plans import plan

ENGINE = Engine(
    metal=Part(49e3, 4.0, 16.0),
    oil=Part(11e3, 1.5, 8.0, 16.0),
    cylinders=Part(27e3, 3.5, 22.0, 30.0),
    wind_share=0.15,
    cover_loss_left=0.4,
    cover_wind_left=0.2,
)
READY = {"oil": 15.0, "metal": 5.0, "cylinders": 5.0}
BURNER = AirHeater(9000.0, 360.0, 52.0, 8.0, 6000.0, 140.0)
WEAK = AirHeater(2000.0, 180.0, 52.0, 5.0, 1800.0, 55.0)


def stepped(engine, outside_c, start_c, hours, heater=None, pad=None, step_s=1.0):
    """Temperatures of the parts every `step_s`, stepped by scipy from the heat that flows into each part."""
    capacities, losses = engine.stacked("heat_j_per_k"), engine.losses_w_per_k()
    to_metal = engine.stacked("to_metal_w_per_k")
    from_air = engine.heating_w_per_k(heater.flow_m3_h) if heater else 0.0 * losses
    steady = np.zeros(len(engine.parts))
    if pad:
        steady[:2] = pad.power_w * (1 - pad.share_to_oil), pad.power_w * pad.share_to_oil
    flow, core, fan_w = (heater.flow_w_per_k, heater.core_j_per_k, heater.fan_w) if heater else (1.0, 1.0, 0.0)

    def slopes(_, state, power_w):
        parts, air = state[:-1], state[-1]
        heat = steady + from_air * (air - parts) - losses * (parts - outside_c)
        across = to_metal[1:] * (parts[0] - parts[1:])
        heat[1:] += across
        heat[0] -= across.sum()
        return np.append(heat / capacities, (power_w + fan_w - flow * (air - outside_c)) / core)

    seconds = np.arange(0.0, 3600.0 * hours, step_s)
    state, now, on, found = np.append([start_c[p] for p in engine.parts], outside_c), 0.0, True, []
    while True:
        level = (heater.thermostat_c - (0.0 if on else heater.dead_band_c)) if heater else 1e9

        def thermostat(_, state, _power, level=level):
            return state[-1] - level

        thermostat.terminal, thermostat.direction = True, 1.0 if on else -1.0
        power_w = heater.power_w * on if heater else 0.0
        span = (now, seconds[-1])
        part = solve_ivp(
            slopes, span, state, "LSODA", events=thermostat, args=(power_w,), dense_output=True, rtol=1e-8, atol=1e-8
        )
        found.append(part.sol(seconds[(seconds >= now) & (seconds < part.t[-1])]).T[:, :-1])
        if part.status != 1:
            return seconds[: sum(map(len, found))], np.concatenate(found)
        now, state, on = part.t[-1], part.y[:, -1], not on


def first_all_warm_s(seconds, temperatures, engine, ready_c):
    warm = np.all(temperatures >= [ready_c[p] for p in engine.parts], axis=1)
    return seconds[np.argmax(warm)] if warm.any() else np.inf


def test_oil_that_was_warm_and_has_cooled_is_not_ready():
    start = {"oil": 25.0, "metal": -15.0, "cylinders": -15.0}
    slow = AirHeater(3000.0, 60.0, 52.0, 5.0, 1800.0, 15.0)
    history = warming(ENGINE, -15.0, slow, start_c=start)
    right_s = first_all_warm_s(*stepped(ENGINE, -15.0, start, 3.0, slow), ENGINE, READY)
    # After 42 min each part by itself has been warm enough at some time; all of them are so at once only after 88 min.
    assert max(history.reached_by_part(READY).values()) == pytest.approx(42.0, abs=0.5)
    assert right_s / 60 == pytest.approx(88.0, abs=0.5)
    assert float(history.ready_minutes(READY)) == pytest.approx(right_s / 60, abs=1 / 60)


@pytest.mark.parametrize("seed", range(24))
def test_ready_is_the_first_moment_on_a_fine_grid_of_scipys_at_which_all_are_warm(seed):
    draw = np.random.default_rng(seed).uniform
    # Light parts that follow a slow thermostat's cycle by degrees, some warm and some cold to begin with.
    engine = Engine(
        metal=Part(draw(4e3, 2e4), draw(1.0, 4.0), draw(5.0, 20.0)),
        oil=Part(draw(1e3, 5e3), draw(0.2, 1.0), draw(1.0, 20.0), draw(0.5, 8.0)),
        cylinders=Part(draw(2e3, 8e3), draw(1.0, 3.0), draw(2.0, 20.0), draw(0.5, 20.0)) if seed % 2 else None,
    )
    heater = AirHeater(6000.0, 200.0, 50.0, draw(4.0, 25.0), draw(10e3, 40e3)) if seed % 3 else None
    pad = None if heater else SumpPad(draw(60.0, 160.0), draw(0.3, 0.9))
    start = dict(zip(engine.parts, draw(-15.0, 45.0, 3), strict=False))
    seconds, temperatures = stepped(engine, -15.0, start, 4.0, heater, pad)
    # Near the top of what each reaches: there the cycle decides who is warm, and when.
    top, bottom = temperatures[-3600:].max(axis=0), temperatures[-3600:].min(axis=0)
    ready = {p: float(b + 0.4 * (t - b) - draw(0.0, 1.0)) for p, t, b in zip(engine.parts, top, bottom, strict=True)}
    found_s = 60 * float(warming(engine, -15.0, heater, pad, start_c=start).ready_minutes(ready))
    right_s = first_all_warm_s(seconds, temperatures, engine, ready)
    assert np.isfinite(right_s)
    assert found_s <= right_s + 0.01
    if found_s < right_s - 1.0:
        # A stretch shorter than the grid's step: at the moment named all are warm to what scipy can tell.
        at = [np.interp(found_s, seconds, column) for column in temperatures.T]
        assert np.all(np.array(at) >= np.array(list(ready.values())) - 1e-3)


def test_parts_that_take_turns_are_never_ready_together():
    # The oil follows the air at once and the metal a quarter of a cycle later, each warm only near the top of its own.
    engine = Engine(metal=Part(2e4, 1.0, 15.0), oil=Part(60.0, 0.1, 15.0, 0.01))
    history = warming(engine, -10.0, AirHeater(6000.0, 100.0, 60.0, 30.0, 40e3))
    late = history.temperatures_c(np.linspace(3000.0, 3060.0, 40_001))
    metal_c, oil_c = late[:, 0], late[:, 1]
    # The least temperature of the metal that the hottest oil never meets, and a moment of each above its own.
    ready = {"oil": float(oil_c.max() - 0.05), "metal": float(metal_c[oil_c > oil_c.max() - 0.1].max() + 0.05)}
    assert (metal_c > ready["metal"]).any()
    assert all(np.isfinite(m) for m in history.reached_by_part(ready).values())
    assert np.isinf(history.ready_minutes(ready))


@pytest.mark.parametrize("metal_c", [17.0, 20.0, 23.0])
def test_while_a_heavy_part_still_warms_one_that_cycles_fast_is_waited_for(metal_c):
    # The oil follows each cycle of the air within seconds and is warm near its top only; the metal takes hours.
    engine = Engine(metal=Part(49e3, 4.0, 16.0), oil=Part(60.0, 0.1, 15.0, 0.01))
    history = warming(engine, -10.0, AirHeater(6000.0, 100.0, 60.0, 30.0, 40e3))
    ready = {"oil": 50.0, "metal": float(metal_c)}
    minutes = np.arange(0.0, 240.0, 1 / 120)
    warm = np.all(history.temperatures_c(minutes)[:, :2] >= [ready["metal"], ready["oil"]], axis=1)
    assert np.argmax(warm) > 0
    assert float(history.ready_minutes(ready)) == pytest.approx(minutes[np.argmax(warm)], abs=1 / 60)


@pytest.mark.parametrize("outside_c", [-30.0, -15.0, -7.5, 0.0])
@pytest.mark.parametrize("heater", [BURNER, WEAK, None])
@pytest.mark.parametrize("cover", [True, False])
def test_heated_for_exactly_as_long_as_it_takes_it_is_ready(beside, outside_c, heater, cover):
    for start_c in (None, {"oil": 25.0, "metal": -15.0, "cylinders": -15.0}):
        for oil_c in (5.0, 11.1, 15.0):
            given = {"heater": heater, "pad": None if heater else SumpPad(400.0), "cover": cover, "start_c": start_c}
            ready_c = {"oil": oil_c, "metal": 2.0}
            ready = float(plan(ENGINE, ready_c, outside_c, 0.0, **given).ready_minutes)
            if np.isfinite(ready) and ready > 0:
                row = plan(ENGINE, ready_c, outside_c, np.array(beside(ready)), **given)
                assert row.ready_at_end_of_heating.all()
                assert row.ready_at_start.all()
                early = plan(ENGINE, ready_c, outside_c, ready - 0.01, **given)
                assert not early.ready_at_end_of_heating


@pytest.mark.parametrize("outside_c", [-30.0, -15.0, -2.5])
@pytest.mark.parametrize("wind_kt", [0.0, 7.0, 20.0])
@pytest.mark.parametrize("oil_c", [7.0, 15.0, 22.2])
def test_after_exactly_as_long_as_it_stays_warm_it_is_still_ready(beside, outside_c, wind_kt, oil_c):
    ready_c = {"oil": oil_c, "metal": 5.0}
    stays = float(plan(ENGINE, ready_c, outside_c, 60.0, BURNER, wind_kt=wind_kt).stays_minutes)
    row = plan(ENGINE, ready_c, outside_c, 60.0, BURNER, wind_kt=wind_kt, wait_minutes=np.array(beside(stays)))
    assert row.ready_at_start.all()
    late = plan(ENGINE, ready_c, outside_c, 60.0, BURNER, wind_kt=wind_kt, wait_minutes=stays + 0.01)
    assert not late.ready_at_start


def test_at_the_moment_it_gets_ready_the_warmth_lasts(beside):
    # Heated until it is just ready, an engine whose metal goes on warming its oil stays ready, to the last digit alike.
    metal_only = SumpPad(900.0, 0.0)
    ready = float(plan(ENGINE, READY, -15.0, 0.0, pad=metal_only).ready_minutes)
    stays = plan(ENGINE, READY, -15.0, np.array(beside(ready)), pad=metal_only).stays_minutes
    assert stays == pytest.approx([float(stays[0])] * 5, rel=1e-6)
    assert stays[0] > 1.0


def test_a_temperature_is_enough_to_the_last_digit(beside):
    for wanted in (-15.0, 0.1, 10.0, 300.0):
        assert warm_enough(beside(wanted), wanted).all()
    assert not warm_enough(10.0 - 1e-6, 10.0)


@given(st.floats(-30.0, 10.0), st.floats(0.0, 300.0), st.floats(0.0, 1.0))
def test_where_nothing_cycles_it_settles_where_heat_in_is_heat_out(outside_c, power_w, share):
    pad = SumpPad(power_w, share)
    history = warming(ENGINE, outside_c, pad=pad)
    settles = {part: float(history.settles_c(part)) for part in ENGINE.parts}
    lost = sum(getattr(ENGINE, p).loss_w_per_k * (settles[p] - outside_c) for p in ENGINE.parts)
    assert lost == pytest.approx(power_w, abs=1e-6)
    into_oil = power_w * share + 16.0 * (settles["metal"] - settles["oil"])
    assert 1.5 * (settles["oil"] - outside_c) == pytest.approx(into_oil, abs=1e-6)
    assert float(history.settles_c("air")) == pytest.approx(outside_c)


@pytest.mark.parametrize(
    "heater", [WEAK, replace(BURNER, dead_band_c=0.0), AirHeater(3000.0, 100.0, 5.0, 2.0, 2e3, 500.0)]
)
def test_a_heater_that_does_not_cycle_settles_at_one_temperature(heater):
    # Too weak for its thermostat, held without a dead band, and switched off for good by the heat of its fan.
    history = warming(ENGINE, 0.0, heater)
    assert not np.isfinite(history.cycle.period_s)
    late = history.temperatures_c(1e5)
    assert late == pytest.approx([float(history.settles_c(p)) for p in (*ENGINE.parts, "air")], abs=1e-6)


def test_a_heater_that_its_fan_keeps_off_switches_once():
    history = warming(ENGINE, 0.0, AirHeater(3000.0, 100.0, 5.0, 2.0, 2e3, 500.0))
    (off_minutes,) = history.switchings_minutes(1e4)
    assert history.temperature_c("air", off_minutes) == pytest.approx(5.0)
    assert history.on_minutes([off_minutes / 2, off_minutes, 1e4]) == pytest.approx(
        [off_minutes / 2, *[off_minutes] * 2]
    )
    assert history.switchings_minutes(off_minutes / 2).size == 0


def test_temperatures_wanted_are_within_what_is_sensible():
    history = warming(ENGINE, -15.0, BURNER)
    for wanted_c in (-90.1, 300.1):
        with pytest.raises(ValueError, match=rf"oil temperature is {wanted_c} °C; allowed: -90 to 300 °C"):
            history.reached_minutes("oil", wanted_c)
    assert history.reached_minutes("oil", [-90.0, 300.0]).tolist() == [0.0, np.inf]


@pytest.mark.parametrize("after_s", [0.1, 0.5, 2.0])
def test_a_moment_just_after_the_thermostat_first_switches_is_found(after_s):
    history = warming(ENGINE, -15.0, BURNER)
    minutes = (float(history.cycle.first_off_s) + after_s) / 60
    assert 0 < minutes - history.switchings_minutes(minutes)[0] < 0.05
    wanted_c = float(history.temperature_c("metal", minutes))
    assert float(history.reached_minutes("metal", wanted_c)) == pytest.approx(minutes, abs=1e-4)


def test_without_a_heater_nothing_is_ever_on():
    on = warming(ENGINE, -15.0, pad=SumpPad(250.0)).on_minutes([0, 60])
    assert on.tolist() == [0.0, 0.0]
    assert on.dtype == float


@pytest.mark.parametrize("oil_c", [14.0, 17.0, 20.0])
@pytest.mark.parametrize("core_j_per_k", [60e3, 120e3])
def test_the_search_goes_on_in_the_cycle_and_not_as_if_the_thermostat_had_stayed_on(oil_c, core_j_per_k):
    start = {"oil": 30.0, "metal": -15.0, "cylinders": -15.0}
    history = warming(ENGINE, -15.0, AirHeater(6000.0, 200.0, 40.0, 10.0, core_j_per_k), start_c=start)
    minutes = np.arange(0.0, 600.0, 0.05)
    temperatures, first_off = history.temperatures_c(minutes), float(history.cycle.first_off_s) / 60
    metal_c = float(history.temperature_c("metal", 1.2 * first_off))
    warm = (temperatures[:, 0] >= metal_c) & (temperatures[:, 1] >= oil_c)
    found = float(history.ready_minutes({"oil": oil_c, "metal": metal_c, "cylinders": -15.0}))
    assert found == pytest.approx(minutes[np.argmax(warm)] if warm.any() else np.inf, abs=0.06)
