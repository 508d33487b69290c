"""Engine warming and cooling: what has to hold for any engine, and what is refused."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walkaround.physics.preheat import engine as preheat
from walkaround.physics.preheat.air_heater import AirHeater, cycle
from walkaround.physics.preheat.energy import heat_balance
from walkaround.physics.preheat.engine import Engine, Part, SumpPad, warming
from walkaround.physics.preheat.network import modes

# The machine that runs these may be busy: no deadline, and few enough examples to stay quick.
settings.register_profile("preheat", max_examples=30, deadline=None)
quick = settings(settings.get_profile("preheat"))

MINUTES = np.linspace(0.0, 240.0, 97)
READY = {"oil": 15.0, "metal": 5.0}


def parts(to_metal):
    return st.builds(Part, st.floats(4e3, 9e4), st.floats(0.2, 9.0), st.floats(0.0, 30.0), to_metal)


ENGINES = st.builds(
    Engine,
    metal=parts(st.just(0.0)),
    oil=parts(st.floats(1.0, 40.0)),
    cylinders=st.none() | parts(st.floats(1.0, 60.0)),
    air_flow_m3_h=st.floats(100.0, 400.0),
    wind_share=st.floats(0.0, 0.5),
    cover_loss_left=st.floats(0.1, 1.0),
    cover_wind_left=st.floats(0.0, 1.0),
)


def heaters(dead_band):
    return st.builds(
        AirHeater,
        power_w=st.floats(500.0, 15e3),
        flow_m3_h=st.floats(60.0, 600.0),
        thermostat_c=st.floats(25.0, 90.0),
        dead_band_c=dead_band,
        core_j_per_k=st.floats(300.0, 9e3),
        fan_w=st.floats(0.0, 200.0),
    )


HEATERS = heaters(st.floats(0.0, 15.0))
PADS = st.builds(SumpPad, st.floats(0.0, 500.0), st.floats(0.0, 1.0))
OUTSIDE = st.floats(-40.0, 20.0)
STARTS = st.floats(-40.0, 90.0)

ENGINE = Engine(
    metal=Part(49e3, 4.0, 16.0),
    oil=Part(11e3, 1.5, 8.0, 16.0),
    cylinders=Part(27e3, 3.5, 22.0, 30.0),
    wind_share=0.15,
    cover_loss_left=0.4,
    cover_wind_left=0.2,
)
BURNER = AirHeater(9000.0, 360.0, 52.0, 8.0, 6000.0, 140.0)


@quick
@given(ENGINES, HEATERS, OUTSIDE, STARTS)
def test_never_hotter_than_the_hottest_source(engine, heater, outside_c, start_c):
    temperatures = warming(engine, outside_c, heater, start_c=start_c).temperatures_c(MINUTES)
    idle = outside_c + heater.fan_w / heater.flow_w_per_k
    hottest_air = max(min(heater.thermostat_c, outside_c + heater.greatest_rise_c), idle)
    assert temperatures[..., -1].max() <= hottest_air + 1e-6
    assert temperatures.max() <= max(start_c, hottest_air) + 1e-6
    assert temperatures.min() >= min(start_c, outside_c) - 1e-6


@quick
@given(ENGINES, HEATERS, PADS, OUTSIDE, st.floats(0.0, 40.0), st.floats(0.1, 1.0))
def test_a_better_cover_never_slows_the_warming(engine, heater, pad, outside_c, wind_kt, better):
    snug = replace(
        engine, cover_loss_left=engine.cover_loss_left * better, cover_wind_left=engine.cover_wind_left * better
    )
    bare, covered, snugly = (
        warming(e, outside_c, heater, pad, cover, wind_kt).temperatures_c(MINUTES)
        for e, cover in ((engine, False), (engine, True), (snug, True))
    )
    # Thousandths of a degree: where the heater's core is just as quick as the engine, one of the two is nudged.
    assert np.all(covered >= bare - 2e-3)
    assert np.all(snugly >= covered - 2e-3)


@quick
@given(ENGINES, heaters(st.just(0.0)), PADS, OUTSIDE, st.floats(0.1, 20.0))
def test_warmer_outside_is_never_slower(engine, heater, pad, outside_c, warmer):
    heater = replace(heater, thermostat_c=max(heater.thermostat_c, outside_c + warmer + 1.0))
    cold, warm = (warming(engine, c, heater, pad) for c in (outside_c, outside_c + warmer))
    assert np.all(warm.temperatures_c(MINUTES) >= cold.temperatures_c(MINUTES) - 2e-3)
    later, earlier = cold.ready_minutes(READY), warm.ready_minutes(READY)
    assert later >= earlier - 0.05 or warm.temperatures_c(later)[:2].min() > 4.9


@quick
@given(ENGINES, HEATERS, OUTSIDE, st.floats(0.1, 20.0))
def test_warmer_outside_costs_no_more_than_the_dead_band(engine, heater, outside_c, warmer):
    # With a dead band the colder engine may be blown at while the warmer one's heater is off, never by more than the
    # band.
    heater = replace(heater, thermostat_c=max(heater.thermostat_c, outside_c + warmer + 1.0))
    cold, warm = (warming(engine, c, heater).temperatures_c(MINUTES) for c in (outside_c, outside_c + warmer))
    assert np.all(warm >= cold - heater.dead_band_c - 2e-3)


@quick
@given(ENGINES, HEATERS, PADS, OUTSIDE, STARTS, st.floats(0.0, 600.0))
def test_heat_is_accounted_for(engine, heater, pad, outside_c, start_c, minutes):
    heat = heat_balance(warming(engine, outside_c, heater, pad, start_c=start_c), minutes)
    through = max(abs(float(v)) for v in (heat.supplied, *heat.stored.values(), *heat.lost.values(), heat.blown_away))
    # What the parts hold is subtracted from what they held: that leaves the last digits of its own.
    rounding = 1e-14 * engine.stacked("heat_j_per_k").sum() * (100.0 + abs(start_c - outside_c))
    assert abs(float(heat.accounted - heat.supplied)) <= 1e-9 * through + rounding


def test_heat_of_hours_of_cycling_is_accounted_for():
    heat = heat_balance(warming(ENGINE, -20.0, BURNER, SumpPad(250.0)), [0.0, 1.0, 60.0, 600.0, 6000.0])
    assert heat.accounted == pytest.approx(heat.supplied, rel=1e-9)
    assert heat.heater[-1] < 0.97 * 9000.0 * 6000 * 60  # the thermostat had it off part of the time


@quick
@given(ENGINES, HEATERS, PADS, OUTSIDE, STARTS, st.floats(-30.0, 80.0))
def test_reached_is_the_first_moment_at_or_above(engine, heater, pad, outside_c, start_c, wanted_c):
    history = warming(engine, outside_c, heater, pad, start_c=start_c)
    for part in (*engine.parts, "air"):
        moment = float(history.reached_minutes(part, wanted_c))
        before = np.linspace(0.0, min(moment, 900.0), 2000)[:-1]
        assert moment == 0 or np.all(history.temperature_c(part, before) < wanted_c + 1e-5)
        if np.isfinite(moment):
            assert float(history.temperature_c(part, moment)) == pytest.approx(wanted_c, abs=1e-3) or moment == 0


def test_reached_in_the_ripple_of_a_slow_thermostat():
    # A light oil sump follows the air's ripple by degrees: the first top that reaches counts, to the moment.
    engine = Engine(metal=Part(8e3, 2.0, 5.0), oil=Part(1.5e3, 0.5, 25.0, to_metal_w_per_k=1.0))
    heater = AirHeater(6000.0, 200.0, 60.0, 15.0, 40e3)
    history = warming(engine, -10.0, heater)
    minutes = np.arange(0.0, 300.0, 1 / 600)
    oil = history.temperature_c("oil", minutes)
    assert np.ptp(oil[minutes > 280]) > 1.0
    for wanted in np.linspace(20.0, oil.max() - 0.001, 40):
        first = minutes[np.argmax(oil >= wanted)]
        assert float(history.reached_minutes("oil", wanted)) == pytest.approx(first, abs=1.1 / 600)
    assert np.isinf(history.reached_minutes("oil", oil.max() + 0.01))


@quick
@given(ENGINES, HEATERS, PADS, OUTSIDE, st.floats(-30.0, 90.0))
def test_never_ready_just_where_it_settles_below(engine, heater, pad, outside_c, wanted_c):
    heater = replace(heater, dead_band_c=0.0)
    history = warming(engine, outside_c, heater, pad)
    for part in engine.parts:
        settles = float(history.settles_c(part))
        if abs(settles - wanted_c) > 0.01:
            assert np.isfinite(history.reached_minutes(part, wanted_c)) == (settles > wanted_c)


@quick
@given(ENGINES, HEATERS, PADS, OUTSIDE)
def test_settles_at_the_mean_of_its_cycle(engine, heater, pad, outside_c):
    history = warming(engine, outside_c, heater, pad)
    period = float(history.cycle.period_s) / 60
    if not np.isfinite(period) or np.isinf(history.cycle.first_off_s):
        return
    late = 40 / float(history.rates[2:].min()) / 60
    mean = history.temperatures_c(late + np.linspace(0.0, period, 2001))[:-1].mean(axis=0)
    settles = [history.settles_c(p) for p in (*engine.parts, "air")]
    assert mean == pytest.approx(settles, abs=0.02)


@quick
@given(st.lists(OUTSIDE, min_size=1, max_size=3), st.lists(st.floats(80.0, 500.0), min_size=1, max_size=3), STARTS)
def test_broadcasting_is_looping(outside, flows, start_c):
    outside, flows = np.array(outside), np.array(flows)
    cover = np.array([True, False])[:, np.newaxis, np.newaxis]
    table = warming(
        ENGINE, outside[:, np.newaxis], replace(BURNER, flow_m3_h=flows), SumpPad(200.0), cover, 10.0, start_c
    )
    ready, heat = table.ready_minutes(READY), heat_balance(table, 75.0)
    curves = table.temperatures_c(MINUTES[:, np.newaxis, np.newaxis, np.newaxis])
    for k, covered in enumerate((True, False)):
        for i, outside_c in enumerate(outside):
            for j, flow in enumerate(flows):
                one = warming(
                    ENGINE, outside_c, replace(BURNER, flow_m3_h=flow), SumpPad(200.0), covered, 10.0, start_c
                )
                assert ready[k, i, j] == pytest.approx(float(one.ready_minutes(READY)), abs=1e-6)
                assert curves[:, k, i, j] == pytest.approx(one.temperatures_c(MINUTES), abs=1e-9)
                assert heat.blown_away[k, i, j] == pytest.approx(float(heat_balance(one, 75.0).blown_away), rel=1e-9)


@quick
@given(ENGINES, OUTSIDE, STARTS, STARTS, st.floats(-20.0, 40.0))
def test_stays_is_how_long_all_parts_stay_above(engine, outside_c, metal_c, oil_c, wanted_c):
    start = dict.fromkeys(engine.parts, metal_c) | {"oil": oil_c}
    cooling = warming(engine, outside_c, start_c=start)
    stays = float(cooling.stays_minutes(dict.fromkeys(engine.parts, wanted_c)))
    if min(metal_c, oil_c) < wanted_c - 1e-4:
        # Not ready to begin with; a part may still be warmed by the other.
        assert stays == 0.0
    else:
        while_ready = cooling.temperatures_c(np.linspace(0.0, min(stays, 2000.0), 500))[:, :-1]
        assert while_ready.min() >= wanted_c - 1e-4
        if 0 < stays < np.inf:
            assert cooling.temperatures_c(stays + 1e-3)[:-1].min() <= wanted_c + 1e-4


def test_warm_oil_does_not_make_a_ready_engine():
    history = warming(ENGINE, -15.0, pad=SumpPad(250.0), cover=True)
    reached = history.reached_by_part(READY)
    assert reached["oil"] < reached["cylinders"] - 15.0
    assert history.ready_minutes(READY) == max(reached.values())


def test_a_fast_fan_is_better_at_the_thermostat_and_worse_at_the_power_limit():
    slow, fast = (replace(BURNER, flow_m3_h=f, fan_w=0.0) for f in (180.0, 360.0))
    assert warming(ENGINE, -15.0, fast).ready_minutes(READY) < warming(ENGINE, -15.0, slow).ready_minutes(READY)
    weak = [warming(ENGINE, -10.0, replace(slow, power_w=2000.0, flow_m3_h=f)) for f in (90.0, 180.0)]
    assert weak[0].ready_minutes(READY) < weak[1].ready_minutes(READY) < np.inf
    # Why: the faster flow takes more away from the heater for each K, but gives up a smaller share of its heat.
    given_w_per_k = [ENGINE.heating_w_per_k(f).sum() for f in (180.0, 360.0)]
    assert given_w_per_k[1] > given_w_per_k[0]
    assert given_w_per_k[1] / fast.flow_w_per_k < given_w_per_k[0] / slow.flow_w_per_k


def test_core_as_quick_as_the_engine():
    # Two equal rates: the exact solution has a term t·exp(−rt), and a shift by hundred-thousandths replaces it.
    flow = AirHeater(3000.0, 200.0, 60.0).flow_w_per_k
    network = modes(
        ENGINE.stacked("heat_j_per_k"), ENGINE.links_w_per_k, ENGINE.losses_w_per_k() + ENGINE.heating_w_per_k(200.0)
    )
    for rate in network.rates:
        near, beside = (
            warming(ENGINE, -10.0, AirHeater(3000.0, 200.0, 60.0, 5.0, flow / (rate * f))).temperatures_c(MINUTES)
            for f in (1.0, 1.001)
        )
        assert near == pytest.approx(beside, abs=0.05)


def test_a_thermostat_that_the_heat_of_the_fan_holds_switches_off_once():
    times = cycle(AirHeater(3000.0, 100.0, 5.0, 2.0, 2000.0, fan_w=200.0), 0.0)
    assert np.isinf(times.off_s)
    history = warming(ENGINE, 0.0, AirHeater(3000.0, 100.0, 5.0, 2.0, 2000.0, fan_w=200.0))
    assert history.switchings_minutes(600.0).size == 1
    assert float(history.on_minutes(600.0)) == pytest.approx(float(times.first_off_s) / 60)
    assert history.temperature_c("air", 600.0) == pytest.approx(200.0 / 34.18, abs=0.01)


@pytest.mark.parametrize("outside_c", [-20.0, -10.1, 3.3])
def test_a_heater_just_strong_enough_for_its_thermostat_never_switches(beside, outside_c):
    # It tends to the setting itself and never gets there, whichever way the sums round.
    heater = AirHeater(2500.0, 180.0, 52.0, 5.0, 1800.0, 55.0)
    for setting_c in beside(outside_c + float(heater.greatest_rise_c)):
        times = cycle(replace(heater, thermostat_c=setting_c), outside_c)
        assert np.isinf(times.first_off_s)


def test_a_switching_at_the_last_moment_counts(beside):
    history = warming(ENGINE, -15.0, BURNER)
    switchings = history.switchings_minutes(60.0)
    for count in (1, 2, 7, 8):
        for until in beside(switchings[count - 1]):
            assert history.switchings_minutes(until).size == count


def test_no_dead_band_holds_the_setting_on_a_share_of_the_power():
    history = warming(ENGINE, -10.0, replace(BURNER, dead_band_c=0.0))
    assert history.temperature_c("air", [30.0, 31.3, 120.0]) == pytest.approx([52.0] * 3)
    narrow = warming(ENGINE, -10.0, replace(BURNER, dead_band_c=0.01))
    assert history.temperatures_c(MINUTES)[:, :-1] == pytest.approx(narrow.temperatures_c(MINUTES)[:, :-1], abs=0.02)
    assert float(history.on_minutes(60.0)) == pytest.approx(float(narrow.on_minutes(60.0)), rel=1e-3)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: warming(ENGINE, 60.0, BURNER), "thermostat_c is 52 °C with 60 °C outside.*allowed: a setting above"),
        (lambda: AirHeater(2000.0, 0.0, 50.0), "flow_m3_h is 0 m³/h: without a flow of air.*more than 0"),
        (lambda: AirHeater(2000.0, [90.0, -1.0], 50.0), r"flow_m3_h\[1\] is -1 m³/h; allowed: more than 0"),
        (lambda: AirHeater(0.0, 90.0, 50.0), "power_w is 0 W; allowed: more than 0 W"),
        (lambda: AirHeater(2000.0, 90.0, 50.0, -1.0), "dead_band_c is -1 °C"),
        (lambda: AirHeater(2000.0, 90.0, 50.0, 5.0, 0.0), "core_j_per_k is 0 J/K"),
        (lambda: Part(-5.0, 1.0), "heat_j_per_k is -5 J/K; allowed: more than 0 J/K"),
        (lambda: Part(5.0, -1.0), "loss_w_per_k is -1 W/K"),
        (
            lambda: Engine(metal=Part(5e3, 1.0), oil=Part(1e3, 1.0)),
            "oil.to_metal_w_per_k is 0 W/K; allowed: more than 0",
        ),
        (lambda: replace(ENGINE, wind_share=1.5), "wind_share is 1.5; allowed: 0 to 1"),
        (lambda: SumpPad(200.0, 1.2), "share_to_oil is 1.2; allowed: 0 to 1"),
        (lambda: warming(ENGINE, np.nan), "outside_c is not a number"),
        (lambda: warming(ENGINE, -10.0, wind_kt=-1.0), "wind_kt is -1 kt"),
        (lambda: warming(ENGINE, -10.0, cover="yes"), "cover is 'yes'; allowed: True or False"),
        (
            lambda: warming(ENGINE, [-10.0, 0.0], wind_kt=[1.0] * 3),
            r"outside_c has shape \(2,\), .* wind_kt has shape \(3,",
        ),
        (lambda: warming(ENGINE, [-10.0, 0.0], replace(BURNER, fan_w=[1.0] * 3)), r"heater.fan_w has shape \(3,\)"),
        (lambda: warming(ENGINE, [-10.0, 0.0], pad=SumpPad([1.0] * 3)), r"pad.power_w has shape \(3,\)"),
        (
            lambda: warming(ENGINE, -10.0, start_c={"oil": 3.0}),
            "start_c has oil; allowed: all of metal, oil, cylinders",
        ),
        (lambda: warming(ENGINE, -10.0).temperatures_c(-1.0), "minutes is -1 min"),
        (
            lambda: warming(ENGINE, -10.0).temperature_c("sump", 1.0),
            "part is 'sump'; allowed: metal, oil, cylinders, air",
        ),
        (lambda: warming(ENGINE, -10.0).ready_minutes({"oil": 5.0}), "ready_c has oil; allowed: metal, oil"),
        (lambda: warming(ENGINE, -10.0, BURNER).stays_minutes(READY), "a heater is running"),
        (lambda: modes([0.0], [[0.0]], [1.0]), r"capacities_j_per_k\[0\] is 0 J/K; allowed: more than 0"),
        (lambda: modes([1.0, 1.0], [[0.0, 1.0], [1.0, 0.0]], [0.0, 0.0]), "no heat can leave"),
        (lambda: modes([1.0, 1.0], [[0.0, 1.0], [2.0, 0.0]], [1.0, 0.0]), "not the same both ways"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()


def test_parts_are_named_as_arrays_hold_them():
    assert ENGINE.parts == (preheat.METAL, preheat.OIL, preheat.CYLINDERS)
    assert ENGINE.stacked("heat_j_per_k").tolist() == [49e3, 11e3, 27e3]
