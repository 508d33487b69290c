"""The load sheet: sums by hand, the verdict, and broadcasting."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walkaround import aircraft
from walkaround.physics.loading.loadsheet import CONDITIONS, cg_shifts, load_sheet
from walkaround.physics.loading.words import fix_words, reasons, sentence, smallest_fix

FOUR, TWO = aircraft.demo("morrowlark_four"), aircraft.demo("tansy_two")
LOAD = {"front seats": 340, "rear seats": 150, "hold A": 60}
FUEL = {"left tank": 15, "right tank": 15}


def test_every_condition_by_hand():
    sheet = load_sheet(FOUR, LOAD, FUEL, taxi=1, trip=20)
    # Sums written out here, independent of the library; the aircraft's numbers are the invented ones of its file.
    zero, moment = 1540 + 340 + 150 + 60, 1540 * 101.2 + 340 * 104 + 150 * 140.5 + 60 * 163
    expected = {
        "empty": (1540, 1540 * 101.2),
        "zero fuel": (zero, moment),
        "ramp": (zero + 180, moment + 180 * 106),
        "take-off": (zero + 174, moment + 174 * 106),
        "landing": (zero + 54, moment + 54 * 106),
    }
    for name, (weight, total) in expected.items():
        c = sheet.condition(name)
        assert (c.weight, c.moment) == pytest.approx((weight, total))
        assert c.cg == pytest.approx(total / weight)
    assert sheet.loadable


def test_oil_and_unusable_fuel_count_where_the_empty_weight_leaves_them_out():
    empty = load_sheet(TWO, {}, {}).condition("empty")
    oil, unusable = 3.2 * 0.90, (0.5 * 0.72, 1.5 * 0.72)
    assert empty.weight == pytest.approx(392 + oil + sum(unusable))
    assert empty.moment == pytest.approx(119.56 - oil * 0.62 + unusable[0] * 0.95 + unusable[1] * 0.40)


def test_tanks_drawn_in_order_empty_one_after_the_other():
    sheet = load_sheet(TWO, {"seats": 150}, {"rear tank": 20, "wing tank": 40}, taxi=2, trip=30)
    start = sheet.condition("ramp")
    # 2 L of taxi fuel and the first 18 L of the flight come from the rear tank, the next 12 L from the wing tank.
    expected = [
        start.moment - litres[0] * 0.72 * 0.95 - litres[1] * 0.72 * 0.40 for litres in ((2, 0), (20, 0), (20, 12))
    ]
    assert sheet.path_moments == pytest.approx(expected)
    assert sheet.path_weights == pytest.approx([start.weight - x * 0.72 for x in (2, 20, 32)])


shares = st.floats(0, 1)


@settings(deadline=None)
@given(st.lists(st.lists(shares, min_size=8, max_size=8), min_size=1, max_size=6), st.sampled_from([FOUR, TWO]))
def test_broadcasting_equals_looping(draws, craft):
    n, t = len(craft.stations), len(craft.fuel.tanks)

    def arguments(rows):
        stations = {s.name: rows[..., i] * s.maximum * 1.2 for i, s in enumerate(craft.stations)}
        tanks = {k.name: rows[..., n + i] * k.usable for i, k in enumerate(craft.fuel.tanks)}
        total = sum(tanks.values())
        return stations, tanks, 0.1 * total, rows[..., n + t] * 0.9 * total

    rows = np.array(draws)
    together = load_sheet(craft, *arguments(rows))
    for i, row in enumerate(rows):
        single = load_sheet(craft, *arguments(row))
        assert together.loadable[i] == single.loadable
        for name in CONDITIONS:
            many, one = together.condition(name), single.condition(name)
            assert np.broadcast_to(many.weight, len(rows))[i] == pytest.approx(float(one.weight), rel=1e-12)
            assert np.broadcast_to(many.cg, len(rows))[i] == pytest.approx(float(one.cg), rel=1e-12)


@given(st.floats(0, 500), st.floats(0, 440), st.floats(0, 24.5))
def test_the_order_of_burning_never_creates_or_loses_weight(front, rear, gallons):
    sheet = load_sheet(
        FOUR, {"front seats": front, "rear seats": rear}, {"left tank": gallons, "right tank": gallons}, 0, gallons
    )
    burnt = sheet.condition("take-off").weight - sheet.condition("landing").weight
    assert burnt == pytest.approx(6 * gallons, abs=1e-9)


def test_exactly_on_a_limit_is_inside():
    # Rear load that puts the CG on the aft limit, 112 in, solved by hand: w (140.5 − 112) = the rest's moment about
    # 112.
    w = (1540 * (112 - 101.2) + 170 * (112 - 104)) / (140.5 - 112)
    big = FOUR.model_copy(
        update={
            "stations": [s.model_copy(update={"maximum": 2000.0}) for s in FOUR.stations],
            "limits": FOUR.limits.model_copy(update={"zero_fuel": None, "landing": None}),
        }
    )
    sheet = load_sheet(big, {"front seats": 170, "rear seats": w - 1e-9}, {})
    assert sheet.condition("take-off").cg == pytest.approx(112, abs=1e-9)
    assert sheet.condition("take-off").inside
    assert not load_sheet(big, {"front seats": 170, "rear seats": w + 0.1}, {}).condition("take-off").inside


def test_a_flight_that_begins_inside_and_ends_outside_is_not_loadable_and_says_when():
    load = {"front seats": 165, "rear seats": 400, "hold A": 80, "hold B": 52}
    fuel = {"left tank": 24.5, "right tank": 24.5}
    sheet = load_sheet(FOUR, load, fuel, 0, 45)
    assert sheet.condition("take-off").inside
    assert not sheet.condition("landing").inside
    assert not sheet.loadable
    # By hand: outside once (moment − 106 · burnt) / (weight − burnt) passes 112.
    off = sheet.condition("take-off")
    burnt = (112 * float(off.weight) - float(off.moment)) / (112 - 106) / 6
    assert f"from {burnt:.1f} US gal burnt until landing" in sentence(sheet)


def test_the_sentences():
    good = load_sheet(FOUR, LOAD, FUEL, 1, 20)
    assert sentence(good).startswith("Inside normal limits all the way: take-off 2,264 lb with CG 106.2 in")
    assert reasons(good) == []
    heavy = load_sheet(FOUR, {"front seats": 400, "rear seats": 400, "hold A": 140}, FUEL, 1, 20)
    said = sentence(heavy)
    assert "hold A is 10 lb over the maximum" in said
    assert "take-off weight is 44 lb over its limit of 2,610 lb" in said
    utility = load_sheet(FOUR, LOAD, FUEL, 1, 20, "utility")
    assert "take-off weight is 104 lb over its limit of 2,160 lb" in sentence(utility)


def test_the_fix_that_is_named_is_enough():
    load = {"front seats": 170, "rear seats": 410, "hold A": 85, "hold B": 60}
    fix = smallest_fix(FOUR, load, FUEL, 1, 20)
    said = fix_words(fix, FOUR.units)
    amount = int(said.split("Leaving ")[1].split(" lb")[0])
    place = said.split("behind from ")[1].split(" would")[0]
    assert load_sheet(FOUR, {**load, place: load[place] - amount}, FUEL, 1, 20).loadable
    assert not load_sheet(FOUR, {**load, place: load[place] - amount + 1.5}, FUEL, 1, 20).loadable


def test_the_shift_of_each_item_is_the_cg_with_it_less_the_cg_without():
    sheet = load_sheet(FOUR, LOAD, FUEL)
    shifts = {name: shift for name, _, shift in cg_shifts(sheet, LOAD, FUEL)}
    for name in LOAD:
        without = load_sheet(FOUR, {k: w for k, w in LOAD.items() if k != name}, FUEL)
        assert shifts[name] == pytest.approx(float(sheet.condition("take-off").cg - without.condition("take-off").cg))


@pytest.mark.parametrize(
    ("stations", "fuel", "more", "says"),
    [
        ({"boot": 5}, {}, {}, "station 'boot' is not in the file of Morrowlark Four; allowed: front seats"),
        ({"hold A": -5}, {}, {}, "hold A is -5 lb; allowed: 0 lb or more"),
        ({"hold A": [5, np.nan]}, {}, {}, r"hold A\[1\] is not a number"),
        ({}, {"left tank": 25}, {}, "left tank is 25 US gal; allowed: 0 to 24.5 US gal"),
        ({}, {"nose tank": 5}, {}, "tank 'nose tank' is not in the file"),
        (
            {},
            {"left tank": 10},
            {"taxi": 1, "trip": 10},
            "together are 11 US gal; allowed: up to what the tanks hold, 10",
        ),
        ({}, {}, {"category": "aerobatic"}, "envelope 'aerobatic' is not in the file .* allowed: normal, utility"),
    ],
)
def test_bad_input_is_named(stations, fuel, more, says):
    with pytest.raises(ValueError, match=says):
        load_sheet(FOUR, stations, fuel, **more)


def test_how_far_a_limit_is_passed_is_said_of_the_whole_path():
    # Drawn from the wing tank first the CG moves aft, then from the rear tank forward: it is farthest aft between them.
    fuel = TWO.fuel.model_copy(update={"tanks": TWO.fuel.tanks[::-1]})
    craft = TWO.model_copy(update={"fuel": fuel, "empty": TWO.empty.model_copy(update={"moment": 180.0})})
    sheet = load_sheet(craft, {"seats": 60, "hold": 10}, {"wing tank": 20, "rear tank": 30}, trip=45)
    weights = np.linspace(sheet.path_weights[0], sheet.path_weights[-1], 45_001)
    moments = np.interp(weights, sheet.path_weights[::-1], sheet.path_moments[::-1])
    behind = moments / weights - 0.46
    assert behind.max() > max(behind[0], behind[22_500], behind[-1], 0.0) + 0.001
    assert f"CG up to {behind.max():.3f} m behind the aft limit" in sentence(sheet)


def test_a_weight_to_the_last_digit_at_its_limit_is_loadable_and_has_no_reason_against_it(beside):
    big = FOUR.model_copy(update={"limits": FOUR.limits.model_copy(update={"zero_fuel": None, "landing": None})})
    rest = 1540 + 340 + 49 * 6
    for rear in beside(2610.0 - rest):
        sheet = load_sheet(big, {"front seats": 340, "rear seats": rear}, {"left tank": 24.5, "right tank": 24.5})
        assert sheet.loadable
        assert reasons(sheet) == []
    for kilograms in beside(6.0):
        sheet = load_sheet(TWO, {"seats": 150, "shelf": kilograms}, {"wing tank": 40})
        assert sheet.loadable
        assert reasons(sheet) == []
        assert sheet.within(sheet.station_over["shelf"])


def test_a_tank_and_a_trip_to_the_last_digit_full(beside):
    for litres in beside(70.0):
        for trip in beside(70.0):
            assert load_sheet(TWO, {"seats": 80}, {"wing tank": litres}, trip=trip).path_weights.size == 3


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (
            lambda: load_sheet(FOUR, {"front seats": [1, 2], "rear seats": [1, 2, 3]}, {}),
            r"front seats has shape \(2,\)",
        ),
        (lambda: load_sheet(FOUR, {"front seats": [1, 2]}, {"left tank": [1, 2, 3]}), r"left tank has shape \(3,\)"),
        (
            lambda: load_sheet(FOUR, {}, {"left tank": 3}, trip=5),
            "fuel used in flight is 5 US gal; .* the tanks hold, 3",
        ),
        (lambda: load_sheet(FOUR, {}, {"left tank": 3}, 2, 5), "taxi and trip fuel together are 7 US gal"),
        (
            lambda: sentence(load_sheet(FOUR, {"front seats": [1, 2]}, {})),
            r"the load has shape \(2,\); allowed: one load",
        ),
        (lambda: cg_shifts(load_sheet(FOUR, {"front seats": [1, 2]}, {}), {}, {}), "allowed: one load"),
    ],
)
def test_what_does_not_fit_or_is_not_one_load_is_named(call, says):
    with pytest.raises(ValueError, match=says):
        call()
