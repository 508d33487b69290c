"""The lesson on securing and its exercise, driven in JupyterLab as a student drives them."""

import json

from stage_on_page import StageOnPage
from walkaround.assessment.questions import paper
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
    page = opened("exercises/02-securing.ipynb")
    page.get_by_label("Your name").fill("Knot Tyer")
    page.keyboard.press("Enter")
    box = page.get_by_label("Your answer")
    box.wait_for()
    question = paper(questions, "Knot Tyer").questions[0]
    wrong = question.wrong_turns[0]
    for typed, says in ((wrong.answer, wrong.says), (question.answer, "Right, read as")):
        box.fill(f"{typed:.3f}")
        box.press("Enter")
        page.wait_for_selector(f".wa-answer [role=status]:has-text({json.dumps(says, ensure_ascii=False)})")
    (sheet,) = (lab.folder / "exercises").glob("securing-knot-tyer*.answers.json")
    tries = json.loads(sheet.read_text(encoding="utf-8"))["answers"]["times"]["tries"]
    assert [t["given"] for t in tries] == [f"{wrong.answer:.3f}", f"{question.answer:.3f}"]
