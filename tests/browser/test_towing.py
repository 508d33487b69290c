"""The lesson on towing and its exercise, driven in JupyterLab as a student drives them."""

from by_keyboard import answer_wrong_then_right
from stage_on_page import StageOnPage
from walkaround.lessons.towing import questions


def test_the_turn_is_begun_later_the_brake_is_left_on_and_the_game_is_steered(opened):
    page = opened("notebooks/10-towing.ipynb")
    tow = StageOnPage(page)
    tow.wait_until_it_says("It fits")
    before = tow.picture
    tow.press("straight on first, ft", "ArrowRight", 6)
    tow.wait_until_it_says("It touches: the left wing meets the north post of the door")
    assert tow.picture != before

    force = StageOnPage(page, 1)
    force.wait_until_it_says("It takes 42 lb")
    force.press("parking brake on", "Space")
    force.wait_until_it_says("it breaks first")

    game = StageOnPage(page, 2)
    before = game.picture
    game.press("nose wheel, degrees to the right", "ArrowRight", 4)
    game.press("towed, ft", "ArrowRight", 5)

    game.wait_until_it_says("Towed 5 ft, nose wheel 20° right")
    assert game.picture != before
    game.press("nose wheel, degrees to the right", "ArrowLeft", 2)
    game.press("towed, ft", "ArrowRight", 3)
    game.wait_until_it_says("Towed 8 ft, nose wheel 10° right")
    # One step worked out ahead and one taken, again and again: it stands where it would have been driven.
    heading = game.words.partition("Heading ")[2].partition("°")[0]
    assert heading == "15"


def test_the_exercise_is_answered_once_wrong_and_once_right(opened, lab):
    answer_wrong_then_right(opened("exercises/10-towing.ipynb"), lab, questions, "Wing Walker")
