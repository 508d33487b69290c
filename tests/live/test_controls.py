"""Controls keep their values between their ends, and say what a screen needs to show them."""

import pytest
from walkaround.live.controls import choice, count, player, slider, switch


def test_whole_steps_make_whole_numbers():
    assert isinstance(slider("a", "", 0, 10, 5, 1).value, int)
    fine = slider("a", "m", 0, 1, 0.5, 0.05)
    assert isinstance(fine.value, float)
    assert fine.spec()["decimals"] == 2
    assert fine.description == "a, m"


def test_a_value_is_held_to_its_ends():
    made = slider("a", "m", 0, 10, 5, 1)
    made.value = 99
    assert made.value == 10
    made.set_ends(20, 30, 5)
    assert (made.min, made.max, made.value) == (20, 30, 20)
    made.set_ends(0, 4, 3)
    assert made.value == 3
    votes = count("votes", high=30)
    votes.value = 31
    assert votes.value == 30


def test_new_ends_are_told_once():
    made, seen = slider("a", "m", 0, 10, 5, 1), []
    made.observe(lambda change: seen.append(change.new), "value")
    made.set_ends(20, 30, 25)
    assert seen == [25]


def test_a_choice_goes_by_places_and_refuses_what_it_does_not_have():
    made = choice("fan", [("low", 1.5), ("high", 3.0)], 3.0)
    assert (made.spec()["options"], made.shown()) == (["low", "high"], 1)
    made.take(0)
    assert made.value == 1.5
    with pytest.raises(ValueError, match=r"fan is 7; allowed: 1\.5, 3\.0"):
        made.value = 7


def test_names_for_who_hears_the_page():
    assert slider("front seats", "lb", 0, 400, 170, 5).spec()["name"] == "front seats, lb"
    assert (
        slider("setting", "inHg", 28, 31, 29.92, 0.01, "altimeter setting, inHg").spec()["name"]
        == "altimeter setting, inHg"
    )


def test_a_player_names_its_step_and_interval():
    spec = player(slider("moment", "s", 0, 60, 0, 1), 2, 50).spec()
    assert (spec["kind"], spec["step"], spec["interval"]) == ("player", 2, 50)
    assert switch("on", True).spec()["kind"] == "switch"
