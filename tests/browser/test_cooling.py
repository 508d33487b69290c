"""The lesson on cooling and its exercise, driven in JupyterLab as a student drives them."""

from by_keyboard import answer_wrong_then_right
from stage_on_page import StageOnPage
from walkaround.lessons.cooling import questions


def test_an_intake_blocked_and_a_climb_flown_by_keyboard(opened):
    stage = StageOnPage(opened("notebooks/04-cooling.ipynb"))
    stage.wait_until_it_says("Below the limits all the way: heads up to 185 °C of 240, oil up to 89 °C of 118")
    before = stage.picture
    stage.press("right intake blocked, %", "End")
    stage.wait_until_it_says(
        "The right heads reach their limit, 240 °C, 2.9 min into the climb. The gauge, on the left"
    )
    assert stage.picture != before
    stage.press("change after, min", "Home")
    stage.wait_until_it_says("Without the change, the limit comes 2.9 min into the climb; with it, not at all")
    stage.press("minute of the climb, min", "Home")
    stage.press("only what the pilot sees", "Space")
    stage.wait_until_it_says("heads 15 °C of 240, oil 15 °C of 118")


def test_the_exercise_is_answered_once_wrong_and_once_right(opened, lab):
    answer_wrong_then_right(opened("exercises/04-cooling.ipynb"), lab, questions, "Wren Nest")
