"""The lesson on oil and its exercise, driven in JupyterLab as a student drives them."""

import pytest
from by_keyboard import answer_wrong_then_right
from stage_on_page import StageOnPage
from walkaround.lessons.oil import questions


@pytest.fixture
def stage(opened):
    found = StageOnPage(opened("notebooks/07-oil.ipynb"))
    found.wait_until_it_says("due in 6 h, between 4 and 9")
    return found


def test_a_reading_moved_by_keyboard_moves_the_due_date_and_its_uncertainty(stage):
    before = stage.picture, stage.words
    stage.press("oil at 18 h, qt", "ArrowRight", 3)
    stage.page.wait_for_function("() => !document.querySelector('.wa-side').innerText.includes('between 4 and 9')")
    stage.rest()
    assert stage.picture != before[0]
    assert "Oil is due in" in stage.words
    assert stage.words != before[1]


def test_minutes_go_by_until_the_stick_can_be_trusted(stage):
    stage.press("after shut-down, min", "Home")
    stage.wait_until_it_says("Read it again: the stick shows 5.3 qt, 1.2 qt less than there is")
    stage.press("after shut-down, min", "ArrowRight", 15)
    stage.wait_until_it_says("Enough: the stick shows 6.4 qt")


def test_the_exercise_is_answered_once_wrong_and_once_right(opened, lab):
    answer_wrong_then_right(opened("exercises/07-oil.ipynb"), lab, questions, "Dip Stick")
