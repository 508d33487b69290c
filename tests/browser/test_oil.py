"""The lesson on oil and its exercise, driven in JupyterLab as a student drives them."""

import pytest
from stage_on_page import StageOnPage
from walkaround.assessment.questions import paper
from walkaround.lessons import table


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


def test_an_answer_wrong_and_then_right(opened):
    page = opened("exercises/07-oil.ipynb")
    page.get_by_label("Your name").fill("Dip Stick")
    page.keyboard.press("Enter")
    page.wait_for_selector("text=Paper of Dip Stick")
    question = paper(table.find("oil").questions, "Dip Stick").question("burnt")
    wrong, box = question.wrong_turns[0], page.get_by_label("Your answer")
    for typed, says in ((wrong.answer, wrong.says), (question.answer, "Right, read as")):
        box.fill(f"{typed:.2f}")
        box.press("Enter")
        page.wait_for_selector(f'.wa-answer [role=status]:has-text("{says}")')
