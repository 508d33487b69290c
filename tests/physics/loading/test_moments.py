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
        alone = loading.balance(load, x)
        assert together.weight[i] == alone.weight
        assert together.moment[i] == pytest.approx(float(alone.moment), abs=1e-6)
        assert together.cg[i] == pytest.approx(float(alone.cg), abs=1e-9)


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
    ],
)
def test_bad_input_is_named(call, says):
    with pytest.raises(ValueError, match=says):
        call()
