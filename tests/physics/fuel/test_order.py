"""Endurance, what a flight needs, and orders that hold load, balance and reserve at once."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walkaround import aircraft
from walkaround.physics.fuel import endurance_h, needed, to_order
from walkaround.physics.loading import filled, load_sheet

FOUR, TWO = aircraft.demo("morrowlark_four"), aircraft.demo("tansy_two")


def holds(craft, stations, total, taxi, trip, reserve):
    """Whether a flight with that much at start-up may be made and lands with its reserve, by the load sheet."""
    if total - taxi - trip < reserve - 1e-9 or total > sum(t.usable for t in craft.fuel.tanks) + 1e-9:
        return False
    return bool(load_sheet(craft, stations, filled(craft, total), taxi, trip).loadable)


def test_endurance_and_need_by_hand():
    # 40 gal at 9 an hour last 4.444 h, of which 45 min are reserve; a trip of 100 min needs 1 + (100 + 45)/60 · 9.
    assert float(endurance_h(40.0, 9.0, 45.0)) == pytest.approx(40 / 9 - 0.75)
    assert float(needed(1.0, 100.0, 9.0, 45.0)) == pytest.approx(22.75)
    assert float(endurance_h(3.0, 9.0, 45.0)) == 0.0


@given(st.floats(0.0, 10.0), st.floats(1.0, 300.0), st.floats(0.1, 50.0), st.floats(0.0, 120.0))
def test_what_is_needed_lasts_the_trip(taxi, trip, per_hour, reserve):
    total = needed(taxi, trip, per_hour, reserve)
    assert float(endurance_h(total - taxi, per_hour, reserve)) == pytest.approx(trip / 60, rel=1e-9, abs=1e-9)


def test_the_reserve_sets_the_least_and_the_weight_the_most():
    # Two in front, two in the rear: 1540 + 340 + 340 + 60 = 2280 lb without fuel. Ramp 2622 lb: 57 gal fit; take-off
    # 2610 lb: 55 and the gallon for taxi; landing 2500 lb: 36.67 + 21 = 57.67. The tanks hold 49.
    cabin = {"front seats": 340, "rear seats": 340, "hold A": 60}
    order = to_order(FOUR, cabin, aboard=10, taxi=1, trip=20, reserve=9)
    assert (order.needs, order.least, order.most) == (30.0, 20.0, pytest.approx(39.0))
    # With 90 lb more the take-off weight allows (2610 − 2370)/6 + 1 = 41 gal.
    heavy = to_order(FOUR, {"front seats": 400, "rear seats": 340, "hold A": 90}, aboard=10, taxi=1, trip=20, reserve=9)
    assert heavy.most == pytest.approx(31.0)


@st.composite
def flights(draw):
    craft = draw(st.sampled_from([FOUR, TWO]))
    stations = {s.name: round(draw(st.floats(0.0, 1.0)) * s.maximum, 1) for s in craft.stations}
    total = sum(t.usable for t in craft.fuel.tanks)
    taxi, trip, reserve, aboard = (round(draw(st.floats(0.0, most)) * total, 3) for most in (0.05, 0.7, 0.3, 1.0))
    return craft, stations, aboard, taxi, trip, reserve


@settings(max_examples=150)
@given(flights(), st.floats(0.0, 1.0))
def test_orders_hold_all_the_way_and_nothing_less_does(flight, between):
    craft, stations, aboard, taxi, trip, reserve = flight
    total = sum(t.usable for t in craft.fuel.tanks)
    order = to_order(craft, stations, aboard, taxi, trip, reserve)
    tries = np.linspace(min(aboard, total), total, 41)
    if order is None:
        assert not any(holds(craft, stations, t, taxi, trip, reserve) for t in tries)
        return
    assert 0.0 <= order.least <= order.most
    for amount in (order.least, order.most, order.least + between * (order.most - order.least)):
        assert holds(craft, stations, min(aboard + amount, total), taxi, trip, reserve)
    for t in tries[tries < aboard + order.least - 1e-6]:
        assert not holds(craft, stations, t, taxi, trip, reserve)
    assert not holds(craft, stations, aboard + order.most + 1e-3, taxi, trip, reserve)


def test_a_full_cabin_and_a_long_trip_have_no_answer():
    assert to_order(FOUR, {"front seats": 470, "rear seats": 440}, aboard=0, taxi=1, trip=40, reserve=8) is None
    assert to_order(FOUR, {"front seats": 340}, aboard=0, taxi=1, trip=45, reserve=9) is None


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: endurance_h(10.0, 0.0), "per_hour is 0; allowed: more than 0"),
        (lambda: endurance_h(10.0, 9.0, -1.0), "reserve_min is -1 min"),
        (lambda: needed(1.0, [1.0, -1.0], 9.0, 30.0), r"trip_min\[1\] is -1"),
        (lambda: to_order(FOUR, {}, -1, 1, 1, 1), "fuel aboard is -1 US gal"),
        (lambda: to_order(FOUR, {}, 1, 1, 1, -1), "reserve is -1 US gal"),
        (lambda: to_order(FOUR, {"boot": 1}, 1, 1, 1, 1), "station 'boot' is not in the file"),
        (lambda: to_order(FOUR, {}, 1, [1, 2], 1, 1), r"taxi fuel has shape \(2,\)"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
