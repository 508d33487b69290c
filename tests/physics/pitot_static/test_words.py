"""What is said names action, cause and symptom for every combination, and claims nothing that is not so."""

import numpy as np
import pytest
from walkaround.physics.air.flight import level
from walkaround.physics.pitot_static.instruments import EVERY_COMBINATION, Openings, indications
from walkaround.physics.pitot_static.over_flight import Blockage, indications_over
from walkaround.physics.pitot_static.words import (
    ALL_RIGHT,
    ALTIMETER,
    INSTRUMENTS,
    action_words,
    cause_words,
    notes,
    symptom_words,
    wrong_instruments,
)

CLIMBING = {"altitude_ft": 5000.0, "cas_kt": 90.0, "climb_fpm": 500.0}
DESCENDING = {"altitude_ft": 2900.0, "cas_kt": 90.0, "climb_fpm": -500.0}


def readings(openings, flying):
    """What the instruments show, and what is right."""
    shown = indications(**flying, openings=openings, blocked_at_ft=3000.0, blocked_at_kt=80.0)
    return shown, indications(**flying, openings=Openings())


def said(openings, flying):
    return " ".join(notes(action_words(openings), cause_words(openings), *readings(openings, flying)))


@pytest.mark.parametrize("flying", [CLIMBING, DESCENDING], ids=["climb", "descent"])
@pytest.mark.parametrize("openings", EVERY_COMBINATION, ids=str)
def test_every_combination_names_what_is_blocked_and_what_to_do(openings, flying):
    words = said(openings, flying)
    assert words.endswith(".")
    words = words.lower()
    assert ("pitot inlet" in words) == (not openings.pitot_clear)
    assert ("static port is blocked" in words) == (not openings.static_clear)
    wrong = not (openings.pitot_clear and openings.static_clear)
    assert ("handbook" in words) == (openings != Openings())
    assert ("hold a known attitude and power" in words) == wrong
    assert ("open the alternate static source" in words) == (not openings.static_clear)
    assert ("pitot heat" in words) == (not (openings.pitot_clear and openings.drain_clear))
    assert ("the reason:" in words) == wrong
    assert bool(wrong_instruments(*readings(openings, flying))) == wrong


def test_numbers_in_the_sentence_are_the_readings():
    iced = Openings(False, False, True)
    shown = indications(5000.0, 90.0, iced, 3000.0, 80.0)
    assert f"shows {shown.airspeed_kt:.0f} kt where 90 kt is right" in said(iced, CLIMBING)
    blocked = Openings(static_clear=False)
    assert "the altimeter 3,000 ft where 2,900 ft is right" in said(blocked, DESCENDING)
    assert "0 ft/min in a descent of 500 ft/min" in said(blocked, DESCENDING)


def test_high_and_low_are_told_apart():
    blocked = Openings(static_clear=False)
    assert "(slower than it looks)" in said(blocked, DESCENDING)
    assert "rests on its stop at zero" in said(blocked, CLIMBING)
    little_higher = {"altitude_ft": 3100.0, "cas_kt": 90.0, "climb_fpm": 500.0}
    assert "(faster than it looks)" in said(blocked, little_higher)


def test_a_hidden_trouble_is_still_named():
    blocked = Openings(static_clear=False)
    here = {"altitude_ft": 3000.0, "cas_kt": 90.0, "climb_fpm": 0.0}
    assert "That is so for now, but the static port is blocked" in said(blocked, here)


def test_on_the_roll_the_action_is_to_reject():
    covered = Openings(pitot_clear=False)
    assert "reject the take-off" in action_words(covered, on_ground=True)
    assert "reject" not in action_words(covered)
    assert "reject" not in action_words(Openings(), on_ground=True)


def test_alternate_source():
    assert cause_words(Openings(), alternate_open=True) == "the alternate source lets cabin air into the static line"
    assert "corrections" in action_words(Openings(), alternate_open=True)
    assert "static port" not in cause_words(Openings(static_clear=False), alternate_open=True)
    assert "open the alternate" not in action_words(Openings(static_clear=False), alternate_open=True)


def test_the_setting_on_the_altimeter_is_not_a_fault():
    shown = indications(5000.0, 90.0, Openings(), setting_hpa=1000.0)
    assert symptom_words(shown, indications(5000.0, 90.0, Openings(), setting_hpa=1000.0)) == ALL_RIGHT
    standard = indications(5000.0, 90.0, Openings())
    assert symptom_words(shown, standard) == "The altimeter shows 4,640 ft where 5,000 ft is right"
    assert wrong_instruments(shown, standard) == (ALTIMETER,)


def test_each_instrument_is_named_when_it_is_wrong():
    shown, right = readings(Openings(static_clear=False), DESCENDING)
    assert wrong_instruments(shown, right) == INSTRUMENTS
    words = symptom_words(shown, right)
    assert words.count("shows") == 1
    assert all(instrument.name in words.lower() for instrument in INSTRUMENTS)


def test_a_small_hole_is_named_with_the_time_constant_that_its_line_has():
    # Two equal holes side by side, inlet and drain, each 8 s: half the time constant, and the mean of the two
    # pressures.
    both = Openings(False, False, True)
    assert "settles between total and static pressure (time constant 4.0 s)" in cause_words(both, lag_s=8.0)
    along = level(3000.0, 100.0, 2.0)
    held = indications_over(along, Blockage(0.0, 8.0, 8.0)).pitot_line_hpa
    mean = (along.total_hpa + along.static_hpa) / 2
    assert (held[4] - mean[4]) / (held[0] - mean[0]) == pytest.approx(np.exp(-1.0))
    assert "keeps an old pressure" in cause_words(both)
    assert "small hole" not in cause_words(Openings(pitot_clear=False), lag_s=8.0)  # the clear drain decides
