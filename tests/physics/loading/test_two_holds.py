"""The set of loads of two holds against brute force."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walkaround import aircraft
from walkaround.physics.loading.loadsheet import load_sheet
from walkaround.physics.loading.two_holds import loads_inside

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
    stations = {s.name: d * s.maximum for s, d in zip(craft.stations, draws, strict=False)}
    fuel = {t.name: (0.2 + 0.8 * d) * t.usable for t, d in zip(craft.fuel.tanks, draws[5:], strict=False)}
    total = sum(fuel.values())
    return stations, fuel, 0.03 * total, 0.9 * draws[7] * total


@settings(max_examples=80, deadline=None)
@given(
    st.sampled_from([*CRAFT, NOTCHED]), st.lists(shares, min_size=8, max_size=8), st.booleans(), st.floats(0.95, 1.1)
)
def test_against_brute_force(craft, draws, turned, stretched):
    # Limits stretched a little, so that slanted edges pass through the holds' range in every way.
    craft = craft.model_copy(
        update={
            "envelopes": [
                e.model_copy(update={"corners": [(c * stretched, w) for c, w in e.corners]}) for e in craft.envelopes
            ]
        }
    )
    first, second = [h.name for h in craft.holds][:: -1 if turned else 1]
    stations, *flight = a_flight(craft, draws)
    found = loads_inside(craft, first, second, stations, *flight)
    a = np.linspace(0, craft.station(first).maximum, 37)[:, None]
    b = np.linspace(0, craft.station(second).maximum, 41)[None, :]
    a, b = a * np.ones_like(b), b * np.ones_like(a)
    good = load_sheet(craft, {**stations, first: a, second: b}, *flight).loadable
    wrong = found.contains(a, b) != good
    if wrong.any():
        # Grid points on an edge may fall either way by their last digit; just inside, both have to agree.
        assert all(
            _on_edge(craft, stations, first, second, p, q, flight) for p, q in zip(a[wrong], b[wrong], strict=True)
        )


def _on_edge(craft, stations, first, second, p, q, flight):
    near = [
        load_sheet(craft, {**stations, first: max(0.0, p + dp), second: max(0.0, q + dq)}, *flight).loadable
        for dp in (-1e-5, 1e-5)
        for dq in (-1e-5, 1e-5)
    ]
    return any(near) and not all(near)


@settings(max_examples=40, deadline=None)
@given(st.sampled_from([*CRAFT, NOTCHED]), st.lists(shares, min_size=8, max_size=8))
def test_corners_and_outline_lie_in_the_set(craft, draws):
    first, second = [h.name for h in craft.holds]
    stations, *flight = a_flight(craft, draws)
    found = loads_inside(craft, first, second, stations, *flight)
    for p, q in [*found.corners, *found.outline()]:
        assert found.contains(p, q)
        assert min(p, q) >= -1e-9


def test_corners_by_hand():
    # Light load: only the holds' own limits count, 130 and 60 lb, 150 together.
    found = loads_inside(CRAFT[0], "hold A", "hold B", {"front seats": 400}, {"left tank": 15, "right tank": 15}, 0, 20)
    assert found.corners == [(0, 0), (130, 0), (130, 20), (90, 60), (0, 60)]


def test_a_slanted_limit_by_hand():
    # At 2,100 lb and above the forward limit slants; one point of the curved edge is checked against the definition.
    craft = CRAFT[0].model_copy(update={"empty": CRAFT[0].empty.model_copy(update={"arm": 98.6})})
    load = {"front seats": 480}
    found = loads_inside(craft, "hold A", "hold B", load, {"left tank": 24, "right tank": 24})
    edge = [p for p in found.outline() if p[0] > 1 and 1 < p[1] < 59 and sum(p) < 141]
    assert edge
    for a, b in edge:
        off = load_sheet(craft, {**load, "hold A": a, "hold B": b}, {"left tank": 24, "right tank": 24}).condition(
            "take-off"
        )
        assert off.cg == pytest.approx(99.0 + (off.weight - 2110) * 5 / 500, abs=1e-9)


def test_nothing_will_do_and_bad_names():
    tail_heavy = CRAFT[0].model_copy(update={"empty": CRAFT[0].empty.model_copy(update={"arm": 104.5})})
    assert loads_inside(tail_heavy, "hold A", "hold B", {"rear seats": 440}, {}).pieces == ()
    assert loads_inside(CRAFT[0], "hold A", "hold B", {"front seats": 501}, {}).pieces == ()
    with pytest.raises(ValueError, match="a hold other than the first"):
        loads_inside(CRAFT[0], "hold A", "hold A", {}, {})


def test_several_loads_at_once_are_refused():
    with pytest.raises(ValueError, match=r"the load has shape \(2,\); allowed: one load"):
        loads_inside(CRAFT[0], "hold A", "hold B", {"front seats": [170, 340]}, {})


def test_an_aircraft_that_is_full_takes_nothing_more_to_the_last_digit(beside):
    craft = CRAFT[0].model_copy(
        update={"limits": CRAFT[0].limits.model_copy(update={"zero_fuel": None, "landing": None})}
    )
    fuel = {"left tank": 24.5, "right tank": 24.5}
    for rear in beside(2610.0 - 1540 - 340 - 49 * 6):
        found = loads_inside(craft, "hold A", "hold B", {"front seats": 340, "rear seats": rear}, fuel)
        assert found.contains([0, 0, 1], [0, 1, 0]).tolist() == [True, False, False]


def test_loads_on_an_edge_are_in_the_set_to_the_last_digit(beside):
    found = loads_inside(CRAFT[0], "hold A", "hold B", {"front seats": 400}, {"left tank": 15, "right tank": 15}, 0, 20)
    for first, second in found.corners:
        assert found.contains(np.array(beside(first))[:, np.newaxis], beside(second)).all()
