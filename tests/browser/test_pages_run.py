"""The workbook's own pages run by themselves and stay where the reader stands; what comes from elsewhere never does."""

import shutil

import nbformat
import pytest
from lab_in_chromium import open_in_its_place, open_notebook, run_all_cells
from stage_on_page import StageOnPage
from walkaround.lessons.table import LESSONS

OUTER = "document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden) .jp-WindowedPanel-outer')"


@pytest.fixture
def lesson(page, lab):
    open_notebook(page, lab, "notebooks/01-loading.ipynb")
    return page


def test_a_lesson_runs_when_it_is_opened_and_stands_at_its_top(lesson):
    lesson.wait_for_selector(".wa-stage[data-frames]")
    lesson.wait_for_timeout(3000)
    assert lesson.evaluate(f"{OUTER}.scrollTop") == 0


def test_on_a_phone_the_side_bar_makes_way_for_the_page(page, lab):
    page.set_viewport_size({"width": 420, "height": 800})
    page.goto(lab.url("notebooks/00-start-here.ipynb"))
    page.wait_for_selector(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-Cell")
    page.wait_for_selector("#jp-left-stack", state="hidden")
    assert page.locator(".jp-NotebookPanel").evaluate("panel => panel.clientWidth") > 320


def test_run_all_cells_leaves_the_page_where_it_stands(lesson):
    lesson.wait_for_selector(".wa-stage[data-frames]")
    lesson.wait_for_timeout(4500)  # until it has settled after running by itself
    lesson.evaluate(f"{OUTER}.scrollTop = 900")
    lesson.wait_for_timeout(800)
    run_all_cells(lesson)
    lesson.wait_for_timeout(2500)
    assert abs(lesson.evaluate(f"{OUTER}.scrollTop") - 900) < 60


def test_a_reader_who_scrolls_while_a_page_runs_is_not_taken_to_its_end(lesson):
    lesson.wait_for_selector(".wa-stage[data-frames]")
    lesson.mouse.move(900, 500)
    lesson.mouse.wheel(0, 200)
    lesson.wait_for_timeout(800)
    # What Run All Cells does when a slow kernel is done.
    lesson.evaluate("() => { const {content} = jupyterapp.shell.currentWidget; content.scrollToItem(34); }")
    lesson.wait_for_timeout(500)
    assert abs(lesson.evaluate(f"{OUTER}.scrollTop") - 200) < 60


def test_a_kernel_that_is_started_again_gets_its_page_run_again(lesson):
    StageOnPage(lesson)
    lesson.wait_for_timeout(4500)
    lesson.evaluate("() => document.querySelectorAll('.wa-stage').forEach(stage => { stage.dataset.old = 'yes'; })")
    lesson.click("li.lm-MenuBar-item:has-text('Kernel')")
    lesson.click(".lm-Menu-item:has-text('Restart Kernel…') >> nth=0")
    lesson.click(".jp-Dialog button:has-text('Restart')")
    lesson.wait_for_function("() => document.querySelectorAll('.wa-stage[data-frames]:not([data-old])').length === 2")
    stage = StageOnPage(lesson)
    stage.rest()
    before = stage.picture
    stage.press("rear seats, lb", "ArrowRight", 3)
    stage.rest()
    assert stage.picture != before


def test_a_stage_without_a_kernel_says_so_in_its_place(lesson):
    stage = StageOnPage(lesson)
    lesson.wait_for_timeout(4500)
    lesson.click("li.lm-MenuBar-item:has-text('Kernel')")
    lesson.click(".lm-Menu-item:has-text('Shut Down Kernel') >> nth=0")
    lesson.wait_for_timeout(2000)
    stage.press("rear seats, lb", "ArrowRight")
    lesson.wait_for_selector(".wa-gone:visible", timeout=15_000)
    assert "not running" in stage.root.locator(".wa-gone").inner_text()
    stage.root.get_by_role("button", name="Run this page").click()
    lesson.wait_for_function("() => !document.querySelector('.wa-gone:not([hidden])')")
    anew = StageOnPage(lesson)
    anew.rest()
    before = anew.words
    anew.press("rear seats, lb", "ArrowRight")
    anew.rest()
    assert anew.words != before


def test_a_page_from_elsewhere_does_not_run(page, lab):
    (lab.folder / "collected").mkdir(exist_ok=True)
    shutil.copy(lab.folder / "notebooks" / "01-loading.ipynb", lab.folder / "collected" / "01-loading.ipynb")
    open_notebook(page, lab, "collected/01-loading.ipynb")
    page.wait_for_timeout(6000)
    assert page.locator(".wa-stage").count() == 0
    assert page.locator(".jp-OutputArea-output img").count() >= 1


@pytest.fixture(scope="module")
def one_page(browser, lab):
    # Not in the workbook's own folders, whose pages run by themselves.
    (lab.folder / "read").mkdir(exist_ok=True)
    for lesson in LESSONS:
        shutil.copy(lab.folder / "notebooks" / lesson.file, lab.folder / "read")
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.set_default_timeout(60_000)
    open_notebook(page, lab, f"read/{LESSONS[0].file}")
    yield page
    context.close()


@pytest.mark.parametrize("notebook", [lesson.file for lesson in LESSONS])
def test_a_lesson_reads_without_running(one_page, lab, notebook):
    page = one_page
    open_in_its_place(page, f"read/{notebook}", same_kernel=True)
    pictures = page.locator(".jp-OutputArea-output img")
    pictures.first.scroll_into_view_if_needed()
    heights = pictures.evaluate_all("images => images.map(image => image.naturalHeight)")
    stored = nbformat.read(lab.folder / "notebooks" / notebook, 4)
    stills = sum("image/png" in o.get("data", {}) for c in stored.cells for o in c.get("outputs", ()))
    assert len(heights) == stills > 0
    assert min(heights) > 400
    assert page.locator("text=model not found").count() == 0
