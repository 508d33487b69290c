"""Mixed practice played by keyboard in JupyterLab: what went wrong in an exercise comes back, and is told at the end."""

from by_keyboard import enter_by_keyboard, tab_to
from walkaround.assessment.answer_sheet import AnswerSheet
from walkaround.assessment.questions import CHOICES, NUMBER, ORDER, paper
from walkaround.exercises.form import ExerciseForm
from walkaround.lessons import table

STUDENT, FILE = "Mixed Keys", "practice-mixed-keys.not-counted.json"


def test_a_sitting_by_keyboard(opened, lab):
    folder = lab.folder / "exercises"
    for question in paper(table.find("oil").questions, STUDENT).questions[:2]:
        turn = question.wrong_turns[0]
        given = str(turn.answer) if question.kind == NUMBER else turn.answer
        AnswerSheet(folder, "oil", STUDENT).answered(question.key, list(given) if question.kind == ORDER else given)
    counted = (folder / "oil-mixed-keys.answers.json").read_bytes()
    page = opened("exercises/00-mixed-practice.ipynb")
    page.get_by_label("Your name").focus()
    page.keyboard.press("Control+A")
    page.keyboard.type(STUDENT)
    page.keyboard.press("Enter")
    page.wait_for_selector("text=Mixed practice of Mixed Keys, sitting 1, not counted. Question 1 of 6.")
    page.wait_for_selector("text=2 of them come back because of a slip.")
    asked = ExerciseForm("", folder, STUDENT).task.asked
    assert len({a.question.key for a in asked}) == 6
    for i, (question, *_) in enumerate(asked):
        tab_to(page, "Next", "Shift+Tab" if i else "Tab")
        if i:
            page.keyboard.press("Enter")
            page.wait_for_selector(f"text=Question {i + 1} of 6.")
        page.wait_for_selector(f".wa-answer :text('{i + 1}. Oil · ')")
        answer = sorted(question.answer) if question.kind == CHOICES else question.answer
        if i < 5:
            enter_by_keyboard(page, question, answer)
            if question.kind == NUMBER:
                page.keyboard.press("Enter")
            else:
                tab_to(page, "Check")
                page.keyboard.press("Enter")
            page.wait_for_selector(".wa-answer [role=status]:has-text('Right')")
        else:
            tab_to(page, "Worked answer")
            page.keyboard.press("Enter")
    page.wait_for_selector("text=Sitting 1 is done: 5 of 6 right at the first try.")
    page.wait_for_selector(f"text=Went wrong: {asked[5].question.title}")
    assert (folder / "oil-mixed-keys.answers.json").read_bytes() == counted
    assert (folder / FILE).exists()
    tab_to(page, "Begin the next sitting")
    page.keyboard.press("Enter")
    page.wait_for_selector("text=Mixed practice of Mixed Keys, sitting 2, not counted. Question 1 of")
    page.wait_for_function("document.activeElement.classList.contains('wa-form')")
