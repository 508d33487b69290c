"""Properties of the arithmetic of loading."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.physics.loading import moments as loading

weights = st.floats(0.1, 5000)
arms = st.floats(-300, 300)


@given(st.lists(st.tuples(weights, arms), min_size=1, max_size=8))
def test_cg_lies_between_the_least_and_greatest_arm(items):
    w, x = zip(*items, strict=True)
    cg = loading.balance(w, x).cg
    assert min(x) - 1e-9 <= cg <= max(x) + 1e-9


@given(
    st.lists(st.lists(weights, min_size=3, max_size=3), min_size=1, max_size=5), st.lists(arms, min_size=3, max_size=3)
)
def test_broadcasting_equals_looping(loads, x):
    together = loading.balance(loads, x)
    for i, load in enumerate(loads):
        single = loading.balance(load, x)
        assert together.weight[i] == single.weight
        assert together.moment[i] == pytest.approx(float(single.moment), abs=1e-6)
        assert together.cg[i] == pytest.approx(float(single.cg), abs=1e-9)


@given(weights, arms, st.floats(0, 500), arms, arms)
def test_shifting_then_shifting_back(weight, cg, moved, here, there):
    away = loading.cg_after_shift(weight, cg, moved, here, there)
    back = loading.cg_after_shift(weight, away, moved, there, here)
    assert back == pytest.approx(cg, abs=1e-6 * (1 + abs(float(away))))


@given(weights, arms, st.floats(0.1, 500), arms)
def test_adding_then_taking_off(weight, cg, change, arm):
    after = loading.cg_after_change(weight, cg, change, arm)
    back = loading.cg_after_change(weight + change, after, -change, arm)
    assert back == pytest.approx(cg, rel=1e-9, abs=1e-6 * (1 + change / weight) ** 2)


@given(weights, arms, st.floats(-5, 5), arms, arms)
def test_the_weight_to_shift_does_shift_it(weight, cg, wanted, here, there):
    if abs(here - there) < 1:
        there = here + 1
    moved = loading.weight_to_shift(weight, cg, cg + wanted, here, there)
    assert loading.cg_after_shift(weight, cg, moved, here, there) == pytest.approx(cg + wanted, abs=1e-8)


@given(weights, arms, st.floats(-5, 5), st.floats(10, 200))
def test_the_weight_to_add_does_move_it(weight, cg, wanted, beyond):
    arm = cg + wanted + beyond
    added = loading.weight_to_add(weight, cg, cg + wanted, arm)
    if weight + added > 1e-3:
        assert loading.cg_after_change(weight, cg, added, arm) == pytest.approx(cg + wanted, abs=1e-6)


@given(arms, arms, st.floats(1, 200))
def test_percent_mac_inverts(cg, lemac, mac):
    assert loading.cg_from_percent_mac(loading.percent_mac(cg, lemac, mac), lemac, mac) == pytest.approx(cg, abs=1e-9)


def test_a_shift_and_a_balance_agree():
    before = loading.balance([1540, 340, 60], [101.2, 104, 163])
    after = loading.balance([1540, 340, 60], [101.2, 104, 104])
    assert loading.cg_after_shift(before.weight, before.cg, 60, 163, 104) == pytest.approx(float(after.cg))


def test_scales_less_their_tares():
    net = loading.weighed([330, 620, 610], [38, 117, 117], tares=[10, 5, 5])
    assert net.weight == 1540
    assert net.cg == pytest.approx((320 * 38 + 615 * 117 + 605 * 117) / 1540)


def test_scales_without_a_tare_weigh_what_they_read():
    assert loading.weighed([320, 615, 605], [38, 117, 117]).weight == 1540
    assert loading.weighed([325, 620, 610], [38, 117, 117], tares=5).weight == 1540


def test_a_wheel_to_the_last_digit_as_heavy_as_its_tare_weighs_nothing(beside):
    for tare in beside(0.3):
        assert loading.weighed([0.3, 5.0], [1.0, 2.0], tares=[tare, 0.0]).weight == 5.0


def test_two_arms_are_the_same_to_the_last_digit(beside):
    for arm in beside(78.3):
        with pytest.raises(ValueError, match="to_arm equals from_arm"):
            loading.weight_to_shift(2000, 80, 81, 78.3, arm)
        with pytest.raises(ValueError, match="arm equals target_cg"):
            loading.weight_to_add(2000, 80, 78.3, arm)
        with pytest.raises(ValueError, match="weight after the change is 0"):
            loading.cg_after_change(78.3, 1.0, -arm, 2.0)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: loading.balance([1, np.nan], [1, 2]), r"weights\[1\] is not a number"),
        (lambda: loading.balance([1, 2], [1, np.inf]), r"arms\[1\] is infinite"),
        (lambda: loading.balance([0, 0], [1, 2]), r"total weight is 0; allowed: more than 0"),
        (lambda: loading.balance([1, 2, 3], [1, 2]), r"weights has shape \(3,\), arms has shape \(2,\)"),
        (lambda: loading.balance(["heavy"], [1]), r"weights is \['heavy'\]"),
        (lambda: loading.weight_to_shift(100, 1, 2, 5, 5), r"to_arm equals from_arm \(5\)"),
        (lambda: loading.weight_to_add(100, 1, 2, 2), r"arm equals target_cg \(2\)"),
        (lambda: loading.cg_after_change(100, 1, -100, 2), r"weight after the change is 0"),
        (lambda: loading.cg_after_shift(-5, 1, 1, 1, 2), r"weight is -5; allowed: more than 0"),
        (lambda: loading.percent_mac(1, 0, 0), r"mac is 0; allowed: more than 0"),
        (lambda: loading.weighed([5, 5, 5], [1, 2, 3], tares=[6, 0, 0]), r"reading less tare\[0\] is -1"),
        (lambda: loading.weighed([5, 5, 5], [1, 2, 3], tares=[1, 1]), r"tares has shape \(2,\)"),
        (lambda: loading.cg_after_shift([1, 2], [1, 2, 3], 1, 1, 2), r"weight has shape \(2,\), cg has shape \(3,\)"),
        (lambda: loading.weight_to_add(100, 1, [2, 3], [4, 5, 6]), r"target_cg has shape \(2,\), arm has shape \(3,\)"),
    ],
)
def test_bad_input_is_named(call, says):
    with pytest.raises(ValueError, match=says):
        call()
