"""The oil check: its verdicts by the physics, to the last digit, and what it says."""

from math import inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walkaround import aircraft
from walkaround.lessons.oil import logs, words
from walkaround.lessons.oil.check import (
    ADD,
    AGAIN,
    CHANGED,
    DUE,
    ENOUGH,
    GROWS,
    TIGHT,
    TOO_MUCH,
    Check,
    Log,
    amount,
    due_words,
)  # fmt: skip
from walkaround.physics import oil

FOUR, TWO = (aircraft.demo(name).engine for name in ("morrowlark_four", "tansy_two"))


def steady(last=6.5, per_hour=0.1, count=8):
    """A log that falls in a straight line to its last reading."""
    hours = logs.HOURS[:count]
    return Log(hours, tuple(round(last + per_hour * (hours[-1] - h), 6) for h in hours), (0.0,) * count)


def made(preset, **other):
    quantities, added = preset
    count = other.pop("count", 8)
    return Check(FOUR, logs.log(quantities, added, count), other.pop("flight_h", 3.0), **other)


@pytest.mark.parametrize(
    ("check", "verdict", "says"),
    [
        (made(logs.STEADY), ENOUGH, "Enough: the stick shows 6.5 qt, and a flight of 3 h needs 5.3 qt. Oil is due in"),
        (made(logs.THIRSTY), ADD, "Add oil first: the stick shows 5.3 qt, and a flight of 3 h at 0.20 qt/h needs"),
        (made(logs.CHANGED), CHANGED, "since hour 12 it burns 0.20 qt/h, and before that 0.08 qt/h."),
        (made(logs.STEADY, minutes=2), AGAIN, "Read it again: the stick shows 5.7 qt, 0.8 qt less than there is."),
        (made(logs.STEADY, nose_up_deg=4), AGAIN, "Read it again: the stick shows 7.0 qt, 0.5 qt more than there is."),
        (
            Check(FOUR, steady(5.9), 3.0),
            DUE,
            "Oil is due now: the stick shows 5.9 qt, and you refill at 6.0 qt. A flight",
        ),
        (Check(FOUR, steady(6.0, 0.7), 1.0), TOO_MUCH, "it burns 0.70 qt/h; a rule of thumb accepts up to 0.58 qt/h."),
        (
            Check(FOUR, steady(7.5, -0.05), 1.0),
            GROWS,
            "by this log the oil level rises by itself. Fuel or water may be in it.",
        ),
        (
            Check(FOUR, Log((0, 3, 5), (7.0, 6.4, 6.3), (0.0,) * 3), 5.0),  # 0.576 qt/h is the most for 180 hp
            TIGHT,
            "Just enough by the line, 6.3 qt for 5.8 qt. If it burns 0.58 qt/h, a flight of 5 h needs 7.9 qt.",
        ),
    ],
)
def test_verdicts(check, verdict, says):
    assert check.verdict == verdict
    assert says in words.sentence(check)


def test_what_a_flight_needs_to_the_last_digit(beside):
    # 5 qt and 0.1 qt/h for 3 h are 5.3 qt, whichever way the last bit falls.
    for shown in beside(5.3):
        for per_hour in beside(0.1):
            check = Check(FOUR, steady(shown, per_hour), 3.0)
            assert check.needed == 5.3
            assert check.verdict == DUE
    assert Check(FOUR, steady(5.2), 3.0).verdict == ADD
    # A hundredth more to burn is a mark more on the stick.
    assert Check(FOUR, steady(6.5, 0.104), 3.0).needed == 5.4


@pytest.fixture
def beside():
    def values(value):
        return [value, np.nextafter(value, inf), np.nextafter(value, -inf)]

    return values


def test_a_reading_off_by_two_marks_of_the_stick_still_counts():
    # 0.2 qt is still up after 4 · log₂(1.2/0.2) minutes, and 0.3 qt after 4 · log₂(1.2/0.3).
    for missing, misleads in ((0.2, False), (0.3, True)):
        check = Check(FOUR, steady(), 3.0, float(oil.wait_minutes(1.2, 4.0, missing)))
        assert check.there - check.shown == pytest.approx(missing)
        assert check.misleads == misleads


@given(st.floats(0.0, 40.0), st.floats(-5.0, 5.0), st.floats(5.0, 7.5))
def test_the_stick_shows_what_rule_and_geometry_say(minutes, nose_up, there):
    for engine, level in ((FOUR, there), (TWO, 0.4 * there)):
        section, sump = engine.oil, engine.oil.sump
        check = Check(engine, Log((0, 3, 5), (level,) * 3, (0.0,) * 3), 2.0, minutes, nose_up)
        drained = max(level - sump.held_up * 0.5 ** (minutes / sump.half_back_minutes), section.dipstick_quantities[0])
        mark = np.interp(drained, section.dipstick_quantities, section.dipstick_marks)
        mark -= sump.stick_forward * np.tan(np.radians(nose_up))
        shown = np.interp(mark, section.dipstick_marks, section.dipstick_quantities)
        assert abs(check.shown - shown) <= sump.read_to / 2 + 1e-9
        assert check.shown / sump.read_to == pytest.approx(round(check.shown / sump.read_to), abs=1e-6)


@settings(max_examples=60)
@given(st.lists(st.integers(40, 80), min_size=8, max_size=8), st.integers(3, 8), st.integers(1, 12), st.integers(0, 30))
def test_whatever_is_read_something_sensible_is_said(tenths, count, half_hours, minutes):
    check = Check(FOUR, logs.log([t / 10 for t in tenths], 1.0, count), half_hours / 2, minutes)
    said = " ".join([words.sentence(check), *words.notes(check)])
    assert "nan" not in said
    assert "inf" not in said
    assert "-" not in said.replace("shut-down", "").replace("half-", "")
    due, early, late = check.due_in
    assert 0 <= early <= due <= late
    assert check.needed <= check.needed_at_worst
    if check.verdict == ENOUGH:
        assert check.shown >= check.needed_at_worst - 1e-9
        assert check.shown > FOUR.oil.sump.refill_at


def test_a_bad_last_reading_comes_before_everything_else():
    check = made(logs.CHANGED, minutes=2, nose_up_deg=-3)
    assert check.change.found
    assert check.verdict == AGAIN
    said = " ".join(words.notes(check))
    assert "is still up in the engine: wait until 15 min after shut-down." in said
    assert "The slope makes it 0.3 qt less: stand level." in said
    assert "The rate seems to have changed: a proper reading will tell." in said
    # By itself, one bad reading of a steady engine is no trend.
    assert not Check(FOUR, steady(), 3.0, minutes=0).change.found


def test_what_is_missing_is_said():
    assert "With five readings or more, a change would show." in words.notes(made(logs.STEADY, count=4))
    assert any(note.startswith("At that rate it is down to 5 qt") for note in words.notes(made(logs.CHANGED)))
    less = Log(logs.HOURS, (7.2, 6.6, 6.2, 5.4, 6.7, 6.6, 6.6, 6.5), (0, 0, 0, 2.0, 0, 0, 0, 0))
    assert any("burns less than it did: ask a mechanic why" in note for note in words.notes(Check(FOUR, less, 2.0)))


def test_when_oil_is_due_in_words():
    assert due_words((5.6, 0.4, 20.2)) == "due in 6 h, between now and 21"
    assert due_words((inf, 3.2, inf)) == "due some time after 3 h: this log can't tell when"
    assert due_words((inf, 1.5, inf)) == "due some time after 1 h: this log can't tell when"
    assert due_words((inf, 0.0, inf)) == "due some time: this log can't tell when"
    assert due_words((8.0, 3.2, inf)) == "due in 8 h, or in 3, or much later"
    assert amount(2.449, "L", 0.05) == "2.45 L"
