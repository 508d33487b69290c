"""What automatic checks of accessibility find in the workbook's own output: nothing. They are Deque's axe-core rules, WCAG 2.2 AA."""

import re

import nbformat
import pytest
from axe_rules import violations
from lab_in_chromium import KERNEL, open_in_its_place, open_notebook, wait_for_kernel
from nbformat.v4 import new_notebook
from walkaround.lessons.table import LESSONS

OUTPUT = ".jp-NotebookPanel:not(.lm-mod-hidden) .jp-OutputArea-output"
RUN = """() => {
    const here = document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden)');
    const stages = [...here.querySelectorAll('.wa-stage')];
    return [...here.querySelectorAll('.jp-OutputArea-output')].some(output => output.innerText.trim())
        && stages.every(stage => stage.dataset.frames);
}"""
EVERY_LESSON = "notebooks/80-every-lesson.ipynb"
PAGES = (
    "notebooks/00-start-here.ipynb", EVERY_LESSON, "notebooks/90-instructor.ipynb",
    "exercises/00-mixed-practice.ipynb", f"exercises/{LESSONS[0].file}",
)  # fmt: skip


@pytest.fixture(scope="module")
def one_page(browser, lab):
    # What all lessons show stands on one page: each on its own would start a kernel for each.
    cells = [
        c for x in LESSONS for c in nbformat.read(lab.folder / "notebooks" / x.file, 4).cells if c.cell_type == "code"
    ]
    for cell in cells:
        cell.update(outputs=[], execution_count=None)
    nbformat.write(new_notebook(cells=cells, metadata=KERNEL), lab.folder / EVERY_LESSON)
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.set_default_timeout(60_000)
    open_notebook(page, lab, PAGES[0])
    yield page
    context.close()


@pytest.mark.parametrize("path", PAGES)
def test_nothing_is_found_in_the_output(one_page, path):
    page = one_page
    open_in_its_place(page, path)
    page.wait_for_function(RUN)  # it runs by itself
    wait_for_kernel(page)
    assert re.match(r"\[\d+\]", page.locator(".jp-CodeCell .jp-InputPrompt").last.inner_text())  # to its end
    assert violations(page, OUTPUT) == []


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
