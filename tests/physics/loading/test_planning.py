"""Planning: the exact answers against brute force on fine grids."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from walkaround import aircraft
from walkaround.physics.loading import planning
from walkaround.physics.loading.loadsheet import load_sheet

CRAFT = [aircraft.demo(name) for name in aircraft.demo_names()]
# The four-seater with notches in both limits, so that a flight can leave and come back half-way.
NOTCHED = CRAFT[0].model_copy(
    update={
        "envelopes": [
            CRAFT[0].envelopes[0].model_copy(
                update={
                    "corners": [
                        (99, 1500), (103.5, 2100), (99.5, 2200), (104, 2610),
                        (112, 2610), (112, 2350), (107, 2250), (109, 2100), (112, 1500),
                    ]
                }
            )
        ]
    }
)  # fmt: skip
shares = st.floats(0, 1)


def a_flight(craft, draws):
    stations = {s.name: round(d * s.maximum, 2) for s, d in zip(craft.stations, draws, strict=False)}
    fuel = {t.name: (0.2 + 0.8 * d) * t.usable for t, d in zip(craft.fuel.tanks, draws[5:], strict=False)}
    total = sum(fuel.values())
    return stations, fuel, 0.03 * total, 0.9 * draws[7] * total


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([*CRAFT, NOTCHED]), st.lists(shares, min_size=8, max_size=8), st.integers(0, 3))
def test_most_in_a_station_against_brute_force(craft, draws, which):
    station = craft.stations[which % len(craft.stations)]
    stations, *flight = a_flight(craft, draws)
    most = planning.most_in_station(craft, station.name, stations, *flight)
    grid = np.linspace(0, station.maximum, 4001)
    good = load_sheet(craft, {**stations, station.name: grid}, *flight).loadable
    if most is None:
        # What is inside only between two grid points may be missed by the grid, not by the exact answer.
        assert not good.any()
    elif good.any():
        assert -1e-6 <= most - grid[good].max() <= grid[1] + 1e-6
        assert load_sheet(craft, {**stations, station.name: most}, *flight).loadable


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([*CRAFT, NOTCHED]), st.lists(shares, min_size=8, max_size=8))
def test_most_fuel_against_brute_force(craft, draws):
    stations, _, _, _ = a_flight(craft, draws)
    capacity = sum(t.usable for t in craft.fuel.tanks)
    taxi, trip = 0.02 * capacity, 0.4 * draws[7] * capacity
    most = planning.most_fuel(craft, stations, taxi, trip)

    grid = np.linspace(taxi + trip, capacity, 3001)
    good = load_sheet(craft, stations, planning.filled(craft, grid), taxi, trip).loadable
    if most is None:
        assert not good.any()
    else:
        assert load_sheet(craft, stations, planning.filled(craft, most), taxi, trip).loadable
        if good.any():
            assert -1e-6 <= most - grid[good].max() <= grid[1] - grid[0] + 1e-6


@settings(max_examples=50, deadline=None)
@given(st.sampled_from([*CRAFT, NOTCHED]), st.lists(shares, min_size=8, max_size=8))
def test_every_fix_is_enough_and_the_least(craft, draws):
    stations, *flight = a_flight(craft, [0.5 + d / 2 for d in draws])
    assume(not load_sheet(craft, stations, *flight).loadable)
    for fix in planning.ways_to_fix(craft, stations, *flight):

        def after(amount, fix=fix):
            changed = dict(stations)
            if fix.source:
                changed[fix.source] = max(0.0, changed[fix.source] - amount)
            if fix.target:
                changed[fix.target] = changed[fix.target] + amount
            return load_sheet(craft, changed, *flight).loadable

        assert after(fix.amount)
        for share in np.linspace(0.05, 0.99, 12):
            assert not after(share * fix.amount)


def test_a_good_load_needs_no_fix():
    assert planning.ways_to_fix(CRAFT[0], {"front seats": 340}, {"left tank": 15, "right tank": 15}) == []


def test_a_move_forward_mends_an_aft_cg():
    craft = CRAFT[0].model_copy(
        update={
            "stations": [
                *CRAFT[0].stations,
                CRAFT[0].station("hold A").model_copy(update={"name": "nose locker", "kind": "other", "arm": 70.0}),
            ]
        }
    )
    load = {"front seats": 170, "rear seats": 410, "hold A": 85, "hold B": 60}
    fixes = planning.ways_to_fix(craft, load, {"left tank": 15, "right tank": 15}, 1, 20)
    move = next(f for f in fixes if f.action == "move" and f.source == "hold B" and f.target == "nose locker")
    # By hand: at landing the moment about the aft limit has to vanish, and each pound moved takes 182 − 70 in of arm
    # away.
    sheet = load_sheet(craft, load, {"left tank": 15, "right tank": 15}, 1, 20)
    landing = sheet.condition("landing")
    assert move.amount == pytest.approx(float(landing.moment - 112 * landing.weight) / (182 - 70))


def test_no_amount_will_do():
    craft = CRAFT[0]
    assert planning.most_in_station(craft, "hold A", {"rear seats": 440, "hold B": 60}, {}) is None
    assert planning.most_in_station(craft, "hold A", {"hold B": 61}, {"left tank": 5}) is None
    assert planning.most_fuel(craft, {"front seats": 500, "rear seats": 440}, 1, 10) is None


@pytest.mark.parametrize("rear", range(60, 300, 12))
def test_a_limit_that_is_met_half_way_through_the_flight(rear):
    # From 49 gallons down to 4 the aircraft passes the notches: what is critical is neither take-off nor landing.
    fuel, taxi, trip = {"left tank": 24.5, "right tank": 24.5}, 0, 45
    stations = {"front seats": 300, "rear seats": rear}
    grid = np.linspace(0, 130, 4001)
    good = load_sheet(NOTCHED, {**stations, "hold A": grid}, fuel, taxi, trip).loadable
    most = planning.most_in_station(NOTCHED, "hold A", stations, fuel, taxi, trip)
    assert (most is None) == (not good.any())
    if most is not None:
        assert -1e-6 <= most - grid[good].max() <= grid[1]


@pytest.mark.parametrize("rear", range(120, 360, 12))
def test_most_fuel_below_a_notch(rear):
    stations, taxi, trip = {"front seats": 300, "rear seats": rear, "hold A": 100}, 2, 6
    grid = np.linspace(taxi + trip, 49, 4001)
    half = {"left tank": grid / 2, "right tank": grid / 2}
    good = load_sheet(NOTCHED, stations, half, taxi, trip).loadable
    most = planning.most_fuel(NOTCHED, stations, taxi, trip)
    assert (most is None) == (not good.any())
    if most is not None:
        assert -1e-6 <= most - grid[good].max() <= grid[1] - grid[0] + 1e-6


@given(st.sampled_from(CRAFT), st.lists(st.floats(0, 1), min_size=1, max_size=5))
def test_filling_loses_nothing_and_overfills_no_tank(craft, shares):
    total = np.array(shares) * sum(t.usable for t in craft.fuel.tanks)
    tanks = planning.filled(craft, total)
    assert sum(tanks.values()) == pytest.approx(total)
    for t in craft.fuel.tanks:
        assert (tanks[t.name] <= t.usable * (1 + 1e-12)).all()


FULL = {"left tank": 24.5, "right tank": 24.5}
SEVERAL = {"front seats": [170, 340]}


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda four: planning.most_fuel(four, {}, trip=np.nan), "trip fuel is not a number"),
        (lambda four: planning.most_fuel(four, {}, trip=-1), "trip fuel is -1 US gal; allowed: 0 US gal or more"),
        (lambda four: planning.most_fuel(four, {}, taxi=-1), "taxi fuel is -1 US gal"),
        (
            lambda four: planning.most_fuel(four, {}, taxi=[1, 2]),
            r"taxi fuel has shape \(2,\); allowed: a single number",
        ),
        (lambda four: planning.most_fuel(four, SEVERAL), r"the load has shape \(2,\); allowed: one load"),
        (lambda four: planning.most_in_station(four, "hold A", SEVERAL, {}), "allowed: one load"),
        (lambda four: planning.most_in_station(four, "hold A", {}, FULL, trip=[1, 2]), "allowed: one load"),
        (lambda four: planning.most_in_station(four, "attic", {}, {}), "station 'attic' is not in the file"),
        (lambda four: planning.ways_to_fix(four, SEVERAL, {}), "allowed: one load"),
        (
            lambda four: planning.ways_to_fix(four, {}, {}, actions=("push",)),
            "actions has 'push'; allowed: move, leave",
        ),
        (
            lambda four: planning.amounts_inside(load_sheet(four, {}, {}), 1.0, 163.0, 0.0, np.nan),
            "high is not a number",
        ),
        (lambda four: planning.filled(four, 50), "total is 50 US gal; allowed: 0 to 49 US gal"),
    ],
)
def test_bad_input_is_named(call, says):
    with pytest.raises(ValueError, match=says):
        call(CRAFT[0])


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([*CRAFT, NOTCHED]), st.lists(shares, min_size=8, max_size=8))
def test_an_answer_is_loadable_to_the_last_digit(craft, draws):
    stations, fuel, taxi, trip = a_flight(craft, draws)
    hold = craft.holds[0].name
    most = planning.most_in_station(craft, hold, stations, fuel, taxi, trip)
    if most:
        nearby = np.array([most, np.nextafter(most, np.inf), np.nextafter(np.nextafter(most, np.inf), np.inf)])
        assert load_sheet(craft, {**stations, hold: nearby}, fuel, taxi, trip).loadable.all()
    most = planning.most_fuel(craft, stations, taxi, trip)
    if most:
        for volume in (most, np.nextafter(most, 0.0), np.nextafter(np.nextafter(most, 0.0), 0.0)):
            assert load_sheet(craft, stations, planning.filled(craft, volume), taxi, trip).loadable
