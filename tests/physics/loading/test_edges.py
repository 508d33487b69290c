"""Loading at its edges: what is left out, limits met to the last pound, and arms that differ from row to row."""

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.physics.loading import moments
from walkaround.physics.loading.loadsheet import load_sheet

FOUR = aircraft.demo("morrowlark_four")


def test_arms_of_each_row_belong_to_the_weights_of_that_row():
    weights, arms = np.array([[100.0, 50.0], [200.0, 10.0]]), np.array([[10.0, 40.0], [20.0, 90.0]])
    together = moments.balance(weights, arms)
    # 100 · 10 + 50 · 40, and 200 · 20 + 10 · 90
    assert together.moment.tolist() == [3000.0, 4900.0]
    assert together.cg == pytest.approx([20.0, 4900 / 210])


def test_scales_without_a_tare():
    assert moments.weighed([320, 610, 610], [38, 117, 117]).weight == 1540


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: moments.weight_to_add(2000, 100.0, [101.0, 102.0, 103.0], 102.0), r"arm equals target_cg \(102\)"),
        (lambda: moments.weight_to_shift(2000, 100.0, 101.0, [50, 60], [70, 60]), r"to_arm equals from_arm \(60\)"),
        (lambda: moments.weighed([-1, 20], [1.0, 2.0]), r"^readings\[0\] is -1; allowed: 0 or more"),
        (lambda: moments.weighed([10, 20], [1.0, 2.0], [-1, 0]), r"tares\[0\] is -1; allowed: 0 or more"),
        (lambda: moments.weighed([10, 20], [1.0, 2.0], [0, 21]), r"reading less tare\[1\] is -1; allowed: 0 or more"),
        (lambda: moments.balance([1.0, 2.0, 3.0], [1.0, 2.0]), "do not fit together"),
        (lambda: moments.percent_mac(100.0, 90.0, 0.0), "mac is 0; allowed: more than 0"),
        (lambda: moments.cg_from_percent_mac(25.0, 90.0, 0.0), "mac is 0; allowed: more than 0"),
    ],
)
def test_bad_input_in_one_place_is_named(call, says):
    with pytest.raises(ValueError, match=says):
        call()


def test_the_ramp_limit_counts_where_the_envelope_reaches_the_take_off_limit():
    assert FOUR.envelope("normal").greatest_weight == FOUR.limits.take_off
    assert load_sheet(FOUR, {}, {}, category="normal").condition("ramp").weight_limit == FOUR.limits.ramp
    assert load_sheet(FOUR, {}, {}, category="utility").condition("ramp").weight_limit is None


def test_taxi_fuel_above_the_top_of_the_envelope_counts_by_its_cg():
    # 2,613 lb on the ramp and 2,607 lb at take-off, of at most 2,610: the envelope ends there, the ramp limit does not.
    load, fuel = {"front seats": 400, "rear seats": 379}, {"left tank": 24.5, "right tank": 24.5}
    heavy = load_sheet(FOUR, load, fuel, taxi=1.0)
    assert heavy.condition("ramp").weight > heavy.envelope.greatest_weight > heavy.condition("take-off").weight
    assert [bool(heavy.condition(name).inside) for name in ("ramp", "take-off")] == [True, True]
    heavier = load_sheet(FOUR, {**load, "rear seats": 385}, fuel, taxi=1.0)
    assert [bool(heavier.condition(name).inside) for name in ("ramp", "take-off")] == [True, False]


@pytest.mark.parametrize(("over_lb", "loadable"), [(0.0, True), (0.5, False)])
def test_half_a_pound_over_a_maximum_is_over(over_lb, loadable):
    hold = FOUR.station("hold A")
    sheet = load_sheet(FOUR, {"front seats": 340, hold.name: hold.maximum + over_lb}, {"left tank": 10})
    assert float(sheet.station_over[hold.name]) == pytest.approx(over_lb)
    assert bool(sheet.loadable) is loadable


def apart(drawn):
    """The invented four-seater with its two tanks at arms of 100 and 120 in."""
    tanks = [t.model_copy(update={"arm": arm}) for t, arm in zip(FOUR.fuel.tanks, (100.0, 120.0), strict=True)]
    return FOUR.model_copy(update={"fuel": FOUR.fuel.model_copy(update={"tanks": tanks, "drawn": drawn})})


@pytest.mark.parametrize("gallons", [0.25, 20.0, np.array([0.25, 20.0])])
def test_tanks_drawn_together_keep_the_arm_of_their_mixture(gallons):
    craft = apart("together")
    sheet = load_sheet(craft, {}, {"left tank": gallons, "right tank": 3 * gallons * 0.25}, 0.1, 0.2)
    arm = (100.0 + 0.75 * 120.0) / 1.75
    burnt = sheet.path_moments - np.asarray(sheet.condition("ramp").moment)[..., None]
    assert burnt == pytest.approx(np.broadcast_to([-0.1 * 6 * arm, -0.3 * 6 * arm], burnt.shape))


def test_empty_tanks_drawn_together_burn_nothing():
    sheet = load_sheet(apart("together"), {}, {"left tank": [0.0, 4.0]})
    assert sheet.path_moments[:, 0].tolist() == sheet.condition("ramp").moment.tolist()
    assert load_sheet(apart("together"), {}, {}).path_moments.tolist() == [155848.0, 155848.0]


def test_fuel_that_only_some_of_many_flights_lack_is_named():
    with pytest.raises(ValueError, match="fuel used in flight is 12 US gal; allowed: up to what the tanks hold, 10 US"):
        load_sheet(FOUR, {}, {"left tank": 10.0}, 0.0, [5.0, 12.0])


def test_three_tanks_drawn_in_order_give_a_node_where_each_runs_dry():
    first, second = apart("in order").fuel.tanks
    third = second.model_copy(update={"name": "tail tank", "arm": 180.0})
    craft = FOUR.model_copy(
        update={"fuel": FOUR.fuel.model_copy(update={"tanks": [first, second, third], "drawn": "in order"})}
    )
    sheet = load_sheet(craft, {}, {first.name: 5.0, second.name: 3.0, third.name: 10.0}, 1.0, 12.0)
    burnt = np.array([1.0, 5.0, 8.0, 13.0]) * 6
    assert sheet.path_weights == pytest.approx(sheet.condition("ramp").weight - burnt)
    moments_burnt = [6 * 100.0, 30 * 100.0, 30 * 100.0 + 18 * 120.0, 30 * 100.0 + 18 * 120.0 + 30 * 180.0]
    assert sheet.path_moments == pytest.approx(sheet.condition("ramp").moment - moments_burnt)
