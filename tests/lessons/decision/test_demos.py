"""The board says and shows the numbers of the flight that it has, after every change."""

import re

import pytest
from walkaround.lessons.decision import demos
from walkaround.lessons.decision.drawn import SORTS
from walkaround.lessons.decision.flight import CHECKS, checked, reasons
from walkaround.live.status import OK, STOP


@pytest.fixture(scope="module")
def stage():
    return demos.demo()


def board(stage):
    """The texts at the right of the board, by what they are about."""
    return {key: text.get_text() for key, text in zip(CHECKS, stage.live.picture._values, strict=True)}


def test_verdict_sentence_and_board_agree_for_every_sort(stage):
    seen = set()
    for number in range(1, 60):
        stage.set(number=number, **demos.AS_IT_STANDS)
        drawn = demos.flight_of(number)
        failing = reasons(drawn.flight)
        seen.add(drawn.sort)
        assert stage.verdict == (STOP if failing else OK)
        assert stage.words.startswith("No-go as it stands" if failing else "Go: every limit is met")
        crossed = [key for key, text in board(stage).items() if text.startswith("✕")]
        assert crossed == list(failing)
        bars = stage.live.picture._bars
        assert [bar.get_width() < 0 for bar in bars[:-1]] == [key in failing for key in CHECKS[:-1]]
    assert seen == set(SORTS)


def test_fuel_moves_weight_and_balance_and_bags_do_not_move_fuel(stage):
    stage.take_preset("too heavy")
    before = board(stage)
    stage.set(fuel=-4.0)
    after = board(stage)
    pounds = [float(re.search(r"[\d,]+", texts["take-off weight"])[0].replace(",", "")) for texts in (before, after)]
    assert pounds == [2630, 2606]
    assert after["fuel"] == "✓ 34.5 US gal, needs 23.5"
    assert stage.verdict == OK
    stage.take_preset("too heavy")
    stage.set(bags=50)
    assert board(stage)["fuel"] == before["fuel"]
    assert stage.verdict == OK
    assert "no-go by take-off weight, landing weight" in stage.said


def test_a_long_wait_a_turn_and_a_heater_move_what_they_should(stage):
    stage.take_preset("wind from behind")
    assert "runway needed" in stage.words
    stage.set(other_way=True)
    assert stage.verdict == OK
    flight = next(demos.flight_of(n).flight for n in range(1, 99) if reasons(demos.flight_of(n).flight) == ("engine",))
    warmed = demos.changed(flight, **{**demos.AS_IT_STANDS, "heat": 60})
    assert min(warmed.oil_c - flight.oil_c, warmed.metal_c - flight.metal_c) > 5
    warmer = demos.changed(flight, **{**demos.AS_IT_STANDS, "warmer": 15})
    assert warmer.outside_c == flight.outside_c + 15
    assert checked(warmer)[6].value > checked(flight)[6].value


def test_nothing_that_a_slider_does_mends_what_needs_a_mechanic(stage):
    stage.take_preset("a mechanic first")
    most = {name: control.max for name, control in stage.controls.items() if hasattr(control, "step")}
    for name, value in most.items():
        stage.take_preset("a mechanic first")
        stage.set(**{name: value}, put_right=True)
        assert stage.verdict == STOP


def test_no_change_goes_past_what_there_is():
    flight = demos.flight_of(52).flight
    ends = {"fuel": -20.0, "bags": 150, "forward": 150, "oil": 3, "heat": 0, "warmer": 0}
    after = demos.changed(flight, **ends, other_way=False, put_right=True)
    assert (after.hold_a, after.hold_b) == (0, 0)
    assert after.front <= 500
    assert after.rear >= 0
    assert after.fuel >= 1 + 9 * flight.hours
    assert demos.changed(flight, **{**demos.AS_IT_STANDS, "fuel": 20.0}).fuel <= 49
