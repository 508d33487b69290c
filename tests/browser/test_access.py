"""What automatic checks of accessibility find in questions that are open: nothing. test_every_page.py looks at every page."""

from axe_rules import violations
from lab_in_chromium import open_notebook

OUTPUT = ".jp-NotebookPanel:not(.lm-mod-hidden) .jp-OutputArea-output"


def test_nothing_is_found_in_open_questions(page, lab):
    open_notebook(page, lab, "exercises/01-loading.ipynb")
    page.get_by_label("Your name").fill("Axe Finds")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="all questions").click()
    box = page.locator(".wa-answer").first
    box.get_by_role("button", name="Hint").click()
    box.get_by_label("Your answer").fill("5")
    for _ in range(3):
        page.keyboard.press("Enter")
    box.get_by_text("the question earns 0 of").wait_for()
    assert violations(page, OUTPUT) == []
