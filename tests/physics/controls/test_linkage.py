"""Which way surfaces move, with and without faults; each fault shows when every control goes to its stops."""

from dataclasses import astuple, replace
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walkaround.physics.controls import FAULTS, Fault, Hands, Rigging, positions
from walkaround.physics.controls.linkage import AILERONS_CROSSED, ELEVATOR_REVERSED, RUDDER_REVERSED, TAB_REVERSED

RIGGING = Rigging(20, 15, 28, 23, 18, 17, 16, 22, 30)
SHARE = st.floats(-1, 1)
HANDS = st.builds(Hands, SHARE, SHARE, SHARE, SHARE, st.floats(0, 30))


def of(hands, kind="nothing wrong", missing=3.0, on_left=True):
    return positions(RIGGING, hands, Fault(kind, missing, on_left))


def test_the_way_it_is_taught():
    # Common practice, no source: the wheel turned right raises the right aileron, pulled back it raises the elevator,
    # the right pedal moves the rudder's trailing edge right, and trim to nose up lowers the tab.
    there = of(Hands(1, 1, 1, 1, 30))
    assert astuple(there) == (-15, 20, 28, 17, -22, 30, 30, 1, 1)
    there = of(Hands(-1, -1, -1, -1, 0))
    assert astuple(there) == (20, -15, -23, -18, 16, 0, 0, -1, -1)
    assert np.all(np.abs(astuple(of(Hands()))) == 0)


@given(HANDS)
def test_ailerons_move_against_each_other_and_mirror(hands):
    there, mirrored = of(hands), of(replace(hands, roll=-hands.roll))
    assert there.left_aileron * there.right_aileron <= 0
    assert mirrored.left_aileron == pytest.approx(there.right_aileron)
    assert mirrored.elevator == there.elevator


@given(HANDS)
def test_a_reversed_control_goes_the_other_way(hands):
    right = of(hands)
    crossed = of(hands, AILERONS_CROSSED)
    assert crossed.left_aileron == right.right_aileron
    assert crossed.right_aileron == right.left_aileron
    for kind, name in ((ELEVATOR_REVERSED, "elevator"), (RUDDER_REVERSED, "rudder"), (TAB_REVERSED, "tab")):
        assert getattr(of(hands, kind), name) * getattr(right, name) <= 0
        assert getattr(of(hands, kind), name) == pytest.approx(
            getattr(of(replace(hands, pitch=-hands.pitch, yaw=-hands.yaw, trim=-hands.trim)), name)
        )


@given(HANDS, st.sampled_from(FAULTS), st.floats(0, 10), st.booleans())
def test_nothing_goes_past_its_stop(hands, kind, missing, on_left):
    there = of(hands, kind, missing, on_left)
    for name, low, high in (
        ("left_aileron", -15, 20), ("right_aileron", -15, 20), ("elevator", -23, 28), ("rudder", -18, 17),
        ("tab", -22, 16), ("left_flap", 0, 30), ("right_flap", 0, 30), ("roll", -1, 1), ("pitch", -1, 1),
    ):  # fmt: skip
        assert low <= getattr(there, name) <= high


@pytest.mark.parametrize("on_left", [True, False])
def test_every_two_faults_differ_at_the_stops(on_left):
    full = Hands(1, 1, 1, 1, 30)
    seen = {kind: np.array(astuple(of(full, kind, 3.0, on_left))) for kind in FAULTS}
    for one, other in combinations(FAULTS, 2):
        assert np.abs(seen[one] - seen[other]).max() >= 3.0, (one, other)


def test_short_of_travel_shows_only_near_the_stop():
    for pitch in (-1.0, 0.0, 0.5, 0.85):
        assert of(Hands(pitch=pitch), "elevator short of travel") == of(Hands(pitch=pitch))
    assert float(of(Hands(pitch=1), "elevator short of travel").elevator) == 25.0


def test_a_lock_holds_the_wheel_and_not_the_feet():
    there = of(Hands(1, 1, 1, 1, 30), "a lock left in")
    assert (there.roll, there.pitch, there.elevator, there.left_aileron) == (0, 0, 0, 0)
    assert (there.rudder, there.tab, there.right_flap) == (17, -22, 30)


def test_sides():
    for on_left, lagging, straight in ((True, "left", "right"), (False, "right", "left")):
        late = of(Hands(flap_deg=20), "one flap lagging", 8.0, on_left)
        assert (getattr(late, f"{lagging}_flap"), getattr(late, f"{straight}_flap")) == (12, 20)
        loose = of(Hands(roll=1), "one aileron not connected", 0.0, on_left)
        assert getattr(loose, f"{lagging}_aileron") == 0
        assert getattr(loose, f"{straight}_aileron") != 0


@settings(max_examples=30)
@given(st.lists(SHARE, min_size=1, max_size=4), st.sampled_from(FAULTS))
def test_arrays_are_loops(shares, kind):
    hands = Hands(np.array(shares)[:, None], np.array(shares), 0.5, -0.25, 20.0)
    whole = of(hands, kind)
    for i, roll in enumerate(shares):
        for j, pitch in enumerate(shares):
            one = of(Hands(roll, pitch, 0.5, -0.25, 20.0), kind)
            for name, value in vars(one).items():
                assert np.broadcast_to(getattr(whole, name), (len(shares),) * 2)[i, j] == value


@pytest.mark.parametrize(
    ("hands", "fault", "words"),
    [
        (Hands(roll=1.5), Fault(), "roll is 1.5; allowed: -1 to 1"),
        (Hands(pitch=[0.0, -2.0]), Fault(), r"pitch\[1\] is -2; allowed: -1 to 1"),
        (Hands(flap_deg=40), Fault(), "flap_deg is 40 °; allowed: 0 to 30 °"),
        (Hands(), Fault("broken"), "fault is 'broken'; allowed: nothing wrong, ailerons crossed"),
        (Hands(), Fault("one flap lagging", -1.0), "missing_deg is -1 °; allowed: 0 ° or more"),
        (Hands(roll=[0, 0], pitch=[0, 0, 0]), Fault(), "these do not fit together: roll has shape"),
        (Hands(pitch=1), Fault("elevator short of travel", 28.5), "missing_deg is 28.5 °; allowed: 0 to 28 °"),
    ],
)
def test_bad_input_is_named(hands, fault, words):
    with pytest.raises(ValueError, match=words):
        positions(RIGGING, hands, fault)


@pytest.mark.parametrize("deg", [-1.0, 91.0, float("nan")])
def test_a_rigging_out_of_range_is_named(deg):
    with pytest.raises(ValueError, match=r"rudder_left is .*allowed: 0 to 90 °"):
        replace(RIGGING, rudder_left=deg)
