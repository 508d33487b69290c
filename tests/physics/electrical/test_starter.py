"""A starter against an engine: the operating point, the power round the circuit, and several tries."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from pint import UnitRegistry
from scipy.optimize import brentq
from walkaround.physics.electrical import (
    Battery,
    Drag,
    Starter,
    crank,
    cranking_torque_nm,
    in_parallel,
    resistance_ohm,
    tries,
)
from walkaround.physics.oil import viscosity_mm2_s

STARTER, DRAG, BATTERY = Starter(0.7, 0.01), Drag(55.0, 60.0), Battery(6, 30.0, 0.006)
volts, inside, cable = st.floats(1, 30), st.floats(1e-4, 0.1), st.floats(0, 0.05)
viscosities = st.floats(1, 1e5)
starters = st.builds(Starter, st.floats(0.1, 2), st.floats(0.001, 0.05))
drags = st.builds(Drag, st.floats(0, 200), st.floats(0.1, 300))


@given(volts, inside, cable, starters, drags, viscosities)
def test_the_speed_is_where_the_two_torques_meet(v, r, c, starter, drag, nu):
    run = crank(v, r, c, starter, drag, nu)
    whole = r + c + starter.ohm

    def spare_nm(rpm):
        current = (v - starter.nm_per_a * rpm * np.pi / 30) / whole
        return starter.nm_per_a * current - float(cranking_torque_nm(rpm, nu, drag))

    free_rpm = v / starter.nm_per_a * 30 / np.pi
    if spare_nm(0.0) <= 0:
        assert float(run.rpm) == 0
        assert float(run.current_a) == pytest.approx(v / whole)
    else:
        assert float(run.rpm) == pytest.approx(brentq(spare_nm, 0.0, free_rpm, xtol=1e-12), rel=1e-6, abs=1e-6)
        assert float(run.torque_nm) == pytest.approx(float(cranking_torque_nm(run.rpm, nu, drag)), rel=1e-6)


@given(volts, inside, cable, starters, drags, viscosities)
def test_power_is_conserved_around_the_circuit(v, r, c, starter, drag, nu):
    run = crank(v, r, c, starter, drag, nu)
    given_w = v * float(run.current_a)
    assert sum(float(w) for w in run.watts.values()) == pytest.approx(given_w)
    assert all(w >= -1e-9 * given_w for w in run.watts.values())
    # Joule's law for each part, and the volts in falling order.
    amperes = float(run.current_a)
    assert float(run.watts["source"]) == pytest.approx(amperes**2 * r)
    assert float(run.watts["cable"]) == pytest.approx(amperes**2 * c, abs=1e-9 * given_w)
    assert float(run.watts["starter"]) == pytest.approx(amperes**2 * starter.ohm)


@given(st.lists(st.floats(-40, 90), min_size=2, max_size=6), volts, inside, cable, starters, drags)
def test_warmer_oil_never_cranks_slower(oils, v, r, c, starter, drag):
    run = crank(v, r, c, starter, drag, viscosity_mm2_s(sorted(oils), 150.0, 15.5))
    assert np.all(np.diff(run.rpm) >= -1e-9 * run.rpm.max())
    assert np.all(np.diff(run.current_a) <= 1e-9 * run.current_a.max())


@given(volts, inside, cable, cable, viscosities)
def test_more_cable_never_cranks_faster(v, r, one, other, nu):
    run = crank(v, r, sorted((one, other)), STARTER, DRAG, nu)
    assert run.rpm[1] <= run.rpm[0] * (1 + 1e-12)


def test_units_of_a_motor():
    unit = UnitRegistry()
    run = crank(12.7, 0.01, 0.004, STARTER, DRAG, 1000.0)
    speed = (float(run.rpm) * unit.revolution / unit.minute).to(unit.radian / unit.second)
    back = (STARTER.nm_per_a * unit.newton * unit.meter / unit.ampere * speed / unit.radian).to(unit.volt)
    assert back.magnitude == pytest.approx(float(run.back_v))
    turning = (float(run.torque_nm) * unit.newton * unit.meter * speed / unit.radian).to(unit.watt)
    assert turning.magnitude == pytest.approx(float(run.watts["engine"]))
    assert turning.magnitude == pytest.approx(float(run.back_v * run.current_a))


def test_by_hand():
    # At rest only what is there at any speed; at 1 rpm with oil of 100 mm²/s 60 √(0.1 · 0.01) = 1.897 N·m more.
    assert cranking_torque_nm([0.0, 1.0], [0.0, 100.0], DRAG).tolist() == pytest.approx([55.0, 56.897], abs=1e-3)
    # Torque at 81 rpm with oil four times 1,000 mm²/s: 55 + 60 √(4 · 0.81) = 55 + 60 · 1.8 = 163 N·m.
    assert float(cranking_torque_nm(81.0, 4000.0, DRAG)) == pytest.approx(163.0)
    # It takes 163/0.7 = 232.857 A; the starter's back voltage is 0.7 · 81 π/30 = 5.93761 V; with 0.03 Ω in all the
    # source has to rest at 5.93761 + 232.857 · 0.03 = 12.92333 V.
    run = crank(5.93761 + 232.857 * 0.03, 0.016, 0.004, STARTER, DRAG, 4000.0)
    assert float(run.rpm) == pytest.approx(81.0, abs=1e-3)
    assert float(run.current_a) == pytest.approx(232.857, abs=1e-2)
    assert float(run.terminals_v) == pytest.approx(12.92333 - 232.857 * 0.016, abs=1e-3)
    assert float(run.starter_v) == pytest.approx(12.92333 - 232.857 * 0.020, abs=1e-3)


def test_an_engine_that_is_too_stiff_stands_still():
    run = crank(6.0, 0.04, 0.01, STARTER, Drag(80.0, 60.0), 1000.0)  # 0.7 · 6/0.06 = 70 N·m, less than 80
    assert (float(run.rpm), float(run.current_a), float(run.watts["engine"])) == (0.0, pytest.approx(100.0), 0.0)


def test_without_drag_it_runs_up_to_where_it_draws_nothing():
    run = crank(12.0, 0.01, 0.0, Starter(0.6, 0.01), Drag(0.0, 0.0), 1000.0)
    assert float(run.current_a) == pytest.approx(0.0, abs=1e-9)
    assert float(run.rpm) == pytest.approx(12.0 / 0.6 * 30 / np.pi)


def test_settings_computed_together_are_those_computed_alone():
    nus, cables = np.array([[100.0], [1000.0], [20000.0]]), np.array([0.0, 0.01])
    together = crank(12.5, 0.012, cables, STARTER, DRAG, nus)
    assert together.rpm.shape == (3, 2)
    for i, j in np.ndindex(3, 2):
        alone = crank(12.5, 0.012, cables[j], STARTER, DRAG, nus[i, 0])
        assert float(alone.rpm) == pytest.approx(together.rpm[i, j])
        assert float(alone.starter_v) == pytest.approx(together.starter_v[i, j])


@given(st.lists(st.tuples(st.floats(-30, 30), st.floats(1e-3, 1)), min_size=1, max_size=4), st.floats(1e-3, 1))
def test_sources_side_by_side_act_as_one(sources, load_ohm):
    v, r = (np.array(x) for x in zip(*sources, strict=True))
    whole_v, whole_r = in_parallel(v, r)
    bus = float(whole_v * load_ohm / (whole_r + load_ohm))
    # Kirchhoff: what all sources give is what the load takes.
    assert float(((v - bus) / r).sum()) == pytest.approx(bus / load_ohm, abs=1e-6)


def test_several_sets_of_sources_at_once():
    # 12 V behind 20 mΩ beside 14 V behind 10 mΩ: (600 + 1,400)/(50 + 100) = 13.333 V and 1/150 Ω. Two alike: the same volts.
    volts_, ohm = in_parallel([[12.0, 14.0], [12.0, 12.0]], [[0.02, 0.01], [0.02, 0.02]])
    assert volts_.tolist() == pytest.approx([2000 / 150, 12.0])
    assert ohm.tolist() == pytest.approx([1 / 150, 0.01])


@given(st.floats(0, 1), st.floats(-23, 40), st.floats(-23, 60), st.floats(0, 60), st.booleans(), st.floats(10, 28))
def test_charge_never_grows_by_cranking(state, outside_c, oil_c, seconds, helped, cart_v):
    nu = float(viscosity_mm2_s(oil_c, 150.0, 15.5))
    cart = (cart_v, 0.008) if helped else None
    runs, states = tries(BATTERY, state, outside_c, 0.004, STARTER, DRAG, nu, seconds, 5, cart)
    assert len(runs) == 5
    assert states[0] == state
    assert np.all(np.diff(states) <= 0)
    assert min(states) >= 0
    if not helped:
        assert np.all(np.diff([float(run.rpm) for run in runs]) <= 1e-9)


@given(st.floats(0.2, 1), st.floats(-23, 30), st.floats(500, 20000))
def test_a_good_cart_never_cranks_slower_than_the_battery_by_itself(state, outside_c, nu):
    assume(BATTERY.at(state, outside_c)[0] <= 14.2)
    alone, _ = tries(BATTERY, state, outside_c, 0.004, STARTER, DRAG, nu, 10.0, 1)
    helped, left = tries(BATTERY, state, outside_c, 0.004, STARTER, DRAG, nu, 10.0, 1, (14.2, 0.01))
    assert helped[0].rpm >= alone[0].rpm
    assert left[-1] >= tries(BATTERY, state, outside_c, 0.004, STARTER, DRAG, nu, 10.0, 1)[1][-1]


def test_a_battery_with_nothing_left_gives_nothing():
    runs, states = tries(BATTERY, 0.05, 20.0, 0.004, STARTER, DRAG, 500.0, 60.0)
    assert [float(run.rpm) > 0 for run in runs] == [True, False, False]
    assert [float(run.current_a) > 0 for run in runs] == [True, False, False]
    assert states[1:] == [0, 0, 0]
    (helped,), left = tries(BATTERY, 0.0, 20.0, 0.004, STARTER, DRAG, 500.0, 60.0, 1, (14.0, 0.01))
    assert float(helped.rpm) == pytest.approx(float(crank(14.0, 0.01, 0.004, STARTER, DRAG, 500.0).rpm))
    assert left == [0, 0]


def test_three_tries_one_after_the_other():
    cold_ohm = 0.0015 + float(resistance_ohm(2, 5.0, -15.0))
    _, states = tries(BATTERY, 1.0, -15.0, cold_ohm, STARTER, DRAG, 15000.0, 10.0)
    at, left = 1.0, []
    for _ in range(3):
        (run,), (_, at) = tries(BATTERY, at, -15.0, cold_ohm, STARTER, DRAG, 15000.0, 10.0, count=1)
        left.append(at)
        assert float(run.rpm) > 0
    assert states[1:] == pytest.approx(left)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: crank(-14.0, 0.01, 0.0, STARTER, DRAG, 1.0), "source_v is -14 V; allowed: 0 V or more"),
        (lambda: crank(14.0, -0.01, 0.0, STARTER, DRAG, 1.0), "source_ohm is -0.01 Ω"),
        (lambda: crank(14.0, 0.0, 0.0, replace(STARTER, ohm=0.0), DRAG, 1.0), "whole circuit is 0 Ω; allowed: more"),
        (lambda: crank(14.0, 0.01, 0.0, replace(STARTER, nm_per_a=0.0), DRAG, 1.0), "nm_per_a is 0 N·m/A"),
        (lambda: crank(14.0, 0.01, [0.0, 0.1], STARTER, DRAG, [1.0, 2.0, 3.0]), "do not fit together: source_v"),
        (lambda: cranking_torque_nm(-1.0, 1.0, DRAG), "rpm is -1 rpm"),
        (lambda: cranking_torque_nm([1.0, 2.0], [1.0, 2.0, 3.0], DRAG), "do not fit together: rpm"),
        (lambda: in_parallel([12.0, 14.0], [0.01, 0.0]), r"ohms\[1\] is 0 Ω; allowed: more than 0"),
        (lambda: tries(BATTERY, 1.1, 0.0, 0.0, STARTER, DRAG, 1.0, 10.0), "state is 1.1; allowed: 0 to 1"),
        (lambda: Starter(0.6, -0.01), "ohm is -0.01 Ω; allowed: 0 Ω or more"),
        (lambda: Drag(45.0, -1.0), "film_nm is -1 N·m; allowed: 0 N·m or more"),
        (lambda: Battery(6, np.nan, 0.008), "rated_ah is not a number"),
        (lambda: tries(BATTERY, 1.0, 0.0, 0.0, STARTER, DRAG, 1.0, 10.0, count=2.5), "count is 2.5; allowed: a whole"),
        (lambda: tries(BATTERY, 1.0, -40.0, 0.0, STARTER, DRAG, 1.0, 10.0), "temperature_c is -40 °C"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
