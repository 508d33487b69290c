"""One flight decided by keyboard: its board, then its exercise, from the first number to what mends it."""

from by_keyboard import answer_by_keyboard, answers, tab_to
from stage_on_page import StageOnPage
from walkaround.assessment.questions import paper
from walkaround.lessons.decision import questions


def test_a_flight_is_mended_on_the_board(opened):
    page = opened("notebooks/12-decision.ipynb")
    board = StageOnPage(page)
    board.wait_until_it_says("Go: every limit is met")
    board.press("flight number", "Control+A")
    page.keyboard.type("52")
    page.keyboard.press("Enter")
    board.wait_until_it_says("No-go as it stands: take-off weight 2,630 lb")
    before = board.picture
    board.press("fuel added, or taken out, US gal", "ArrowLeft", 8)
    board.wait_until_it_says("Go: every limit is met")
    assert board.picture != before
    assert "Before you changed anything: no-go by take-off weight, landing weight." in board.words


def test_a_flight_is_decided_with_its_reasons(opened, lab):
    student, asked = next(
        (name, sheet)
        for name in (f"Key Board {n}" for n in range(1, 20))
        if (sheet := paper(questions, name)).question("decide").answer == "mend first"
    )
    page = opened("exercises/12-decision.ipynb")
    page.get_by_label("Your name").focus()
    page.keyboard.press("Control+A")
    page.keyboard.type(student)
    page.keyboard.press("Enter")
    page.wait_for_selector(f"text=Paper of {student}")
    tab_to(page, "Next")
    for n, question in enumerate(asked.questions, 1):
        page.locator(".wa-answer").get_by_text(f"{n}. {question.title}").wait_for()
        answer_by_keyboard(page, question, question.answer, f"of {question.points}.")
        if n < len(asked.questions):
            tab_to(page, "Next", "Shift+Tab")
            page.keyboard.press("Enter")
    given = answers(lab, "decision", student)
    assert given["decide"] == ["mend first"]
    assert set(given["mend"][0]) == asked.question("mend").answer
