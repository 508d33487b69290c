"""The lesson on controls and its exercise, driven in JupyterLab as a student drives them."""

from by_keyboard import answer_wrong_then_right
from stage_on_page import StageOnPage
from walkaround import aircraft
from walkaround.lessons.controls import questions
from walkaround.lessons.controls.drill_demo import item_at, items
from walkaround.lessons.controls.faults import hidden

EVERY = items("wheel", aircraft.demo("morrowlark_four").control_surfaces.rigging)


def test_a_fault_is_found_and_the_drill_answered_by_keyboard(opened):
    page = opened("notebooks/05-controls.ipynb")
    check = StageOnPage(page)
    check.wait_until_it_says("Aircraft 1, hands and feet still")
    before = check.picture
    check.press("wheel back, %; forward below 0", "End")
    check.wait_until_it_says("Aircraft 1, wheel back")
    assert check.picture != before
    assert "elevator 23° down" in check.words
    check.control("what you find").select_option(label="elevator reversed")
    check.wait_until_it_says("You say: elevator reversed.")
    check.press("show what is wrong", "Space")
    check.wait_until_it_says("You found it: elevator reversed.")
    assert hidden(1).kind == "elevator reversed"

    drill = StageOnPage(page, 1)
    answer = "your answer with the arrow keys"
    for place, right in enumerate((True, True, False)):
        item = item_at(EVERY, -1, place)
        drill.wait_until_it_says(item.question)
        before = drill.picture
        up = (item.answer > 0) == right
        drill.press(answer, ("ArrowRight" if place else "ArrowUp") if up else ("ArrowLeft" if place else "ArrowDown"))
        drill.wait_until_it_says(f"The {'last' if right else 'right'} answer: {item.fact}.")
        assert drill.picture != before
        page.wait_for_timeout(400)
    assert "2 of 3 right" in drill.words
    assert drill.control(answer).input_value() == "0"
    drill.press(answer, "Space")
    page.wait_for_function(
        "stage => Number(stage.querySelector('.wa-number').value) >= 1", arg=drill.root.element_handle()
    )
    drill.press(answer, "ArrowUp" if item_at(EVERY, 1, 0).answer > 0 else "ArrowDown")
    drill.wait_until_it_says("1 of 1 right")
    drill.press("clock, s", "End")
    drill.wait_until_it_says("Sixty seconds are over: 1 of 1 right.")


def test_the_exercise_is_answered_once_wrong_and_once_right(opened, lab):
    answer_wrong_then_right(opened("exercises/05-controls.ipynb"), lab, questions, "Elevator Tester")
