"""What automatic checks of accessibility find in the workbook's own output: nothing. They are Deque's axe-core rules, WCAG 2.2 AA."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from lab_in_chromium import open_in_its_place, open_notebook, wait_for_kernel

TAGS = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}}
OUTPUT = ".jp-NotebookPanel:not(.lm-mod-hidden) .jp-OutputArea-output"
RUN = """() => {
    const here = document.querySelector('.jp-NotebookPanel:not(.lm-mod-hidden)');
    const stages = [...here.querySelectorAll('.wa-stage')];
    return [...here.querySelectorAll('.jp-OutputArea-output')].some(output => output.innerText.trim())
        && stages.every(stage => stage.dataset.frames);
}"""
PAGES = (
    "notebooks/00-start-here.ipynb", "notebooks/01-loading.ipynb", "notebooks/03-pitot_static.ipynb",
    "notebooks/08-preheat.ipynb", "notebooks/09-ground_power.ipynb", "notebooks/90-instructor.ipynb", "exercises/01-loading.ipynb",
)  # fmt: skip


@pytest.fixture(scope="module")
def one_page(browser, lab):
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
    assert_nothing_is_found(page)


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
    assert_nothing_is_found(page)


def assert_nothing_is_found(page):
    found = Axe().run(page, context={"include": [[OUTPUT]]}, options=TAGS).response["violations"]
    lines = [f"{v['id']}: {v['help']}: {node['html'][:200]}" for v in found for node in v["nodes"][:3]]
    assert not lines, "\n".join(lines)
