"""The lesson on securing and its exercise, driven in JupyterLab as a student drives them."""

from by_keyboard import answer_wrong_then_right
from stage_on_page import StageOnPage
from walkaround.lessons.securing import questions


def test_a_storm_and_a_free_elevator_by_keyboard(opened):
    stage = StageOnPage(opened("notebooks/02-securing.ipynb"))
    stage.wait_until_it_says("It holds in gusts of 35 kt")
    before = stage.picture
    stage.press("steady wind, kt", "ArrowRight", 30)
    stage.wait_until_it_says("It holds in gusts of 65 kt. At 143 kt both wing ropes break")
    assert stage.picture != before
    stage.control("elevator").select_option(label="free")
    stage.wait_until_it_says("At 90 kt both wing ropes break")
    stage.control("kind of rope").select_option(label="manila 3/8 in")
    stage.wait_until_it_says("Both wing ropes break at 61 kt; the gusts reach 65 kt.")


def test_the_exercise_is_answered_once_wrong_and_once_right(opened, lab):
    answer_wrong_then_right(opened("exercises/02-securing.ipynb"), lab, questions, "Knot Tyer")
