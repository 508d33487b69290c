"""The lesson on fuel and its exercise, driven in JupyterLab as a student drives them."""

import json

from stage_on_page import StageOnPage
from walkaround.assessment.questions import paper
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
    page = opened("exercises/06-fuel.ipynb")
    page.get_by_label("Your name").fill("Fuel Taster")
    page.keyboard.press("Enter")
    box = page.get_by_label("Your answer")
    box.wait_for()
    question = paper(questions, "Fuel Taster").questions[0]
    wrong = question.wrong_turns[0]
    for typed, says in ((wrong.answer, wrong.says), (question.answer, "of 3.")):
        box.fill(f"{typed:.2f}")
        box.press("Enter")
        page.wait_for_selector(f".wa-answer [role=status]:has-text({json.dumps(says, ensure_ascii=False)})")
    (sheet,) = (lab.folder / "exercises").glob("fuel-fuel-taster*.answers.json")
    tries = json.loads(sheet.read_text(encoding="utf-8"))["answers"]["dipstick"]["tries"]
    assert [t["given"] for t in tries] == [f"{wrong.answer:.2f}", f"{question.answer:.2f}"]
