"""The lesson on fuel and its exercise, driven in JupyterLab as a student drives them."""

from by_keyboard import answer_wrong_then_right
from stage_on_page import StageOnPage
from walkaround.lessons.fuel import questions


def test_the_tank_is_tilted_and_the_night_changed_by_keyboard(opened):
    page = opened("notebooks/06-fuel.ipynb")
    tank = StageOnPage(page)
    tank.wait_until_it_says("The inboard rear drain gives 249 mL")
    before = tank.picture
    tank.press("nose up, degrees", "ArrowLeft", 6)
    tank.wait_until_it_says("The inboard front drain gives 248 mL")
    level = tank.picture
    assert level != before
    tank.press("the wing with this tank low, degrees", "ArrowRight", 6)
    tank.wait_until_it_says("No drain catches it: 250 mL of water lies at the outboard front")
    assert tank.picture not in (before, level)

    night = StageOnPage(page, 1)
    night.wait_until_it_says("The air leaves 0.5 mL")
    before = night.picture
    night.press("gap in the seal, mm²", "End")
    night.wait_until_it_says("The cap lets in 1.44 L")
    assert night.picture != before


def test_the_exercise_is_answered_once_wrong_and_once_right(opened, lab):
    answer_wrong_then_right(opened("exercises/06-fuel.ipynb"), lab, questions, "Fuel Taster")
