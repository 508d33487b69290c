"""Every demonstration on every screen: picture, sentence and the control in hand are in view together, plain and larger.

Where JupyterLab itself leaves no room it can't be asked for: at 420 pixels an open side bar leaves 40 for the page.
"""

import nbformat
import pytest
from lab_in_chromium import KERNEL, open_notebook, run_all_cells
from nbformat.v4 import new_code_cell, new_notebook

DEMONSTRATIONS = (
    "loading.demo()", "loading.holds()", "pitot_static.dials()", "pitot_static.flight()", "pitot_static.guess()",
    "pitot_static.takeoff_roll()", "fuel.demo()", "fuel.night()", "oil.demo()", "preheat.demo()", "ground_power.demo()",
)  # fmt: skip
SCREENS = [(420, 800, False)] + [
    (w, h, bar) for w, h in ((1280, 720), (1366, 768), (1920, 1080)) for bar in (True, False)
]

# What share of an element can be seen, after all that scrolls or hides around it.
SEEN = """
element => new Promise(resolve => {
    const watch = new IntersectionObserver(seen => { watch.disconnect(); resolve(seen[0].intersectionRatio); });
    watch.observe(element);
})
"""


@pytest.fixture(scope="module")
def all_stages(browser, lab):
    imports = "from walkaround.lessons import fuel, ground_power, loading, oil, pitot_static, preheat"
    cells = [new_code_cell(source) for source in (imports, *DEMONSTRATIONS)]
    nbformat.write(new_notebook(cells=cells, metadata=KERNEL), lab.folder / "notebooks" / "every-screen.ipynb")
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.set_default_timeout(60_000)
    open_notebook(page, lab, "notebooks/every-screen.ipynb")
    run_all_cells(page)
    page.wait_for_function(
        "n => document.querySelectorAll('.wa-stage[data-frames]').length === n", arg=len(DEMONSTRATIONS)
    )
    yield page
    context.close()


def side_bar(page, wanted):
    """Open or shut JupyterLab's side bar."""
    if page.locator("#jp-left-stack").is_visible() != wanted:
        page.keyboard.press("Control+b")
        page.wait_for_timeout(300)


@pytest.mark.parametrize(("width", "height", "bar"), SCREENS)
def test_picture_sentence_and_control_are_in_view(all_stages, width, height, bar):
    page = all_stages
    page.set_viewport_size({"width": width, "height": height})
    side_bar(page, bar)
    problems = []
    for number, name in enumerate(DEMONSTRATIONS):
        stage = page.locator(".wa-stage").nth(number)
        areas = {}
        for larger in (False, True):
            button = stage.get_by_role("button", name="Larger letters")
            button.evaluate(
                "(button, wanted) => { if ((button.ariaPressed === 'true') !== wanted) button.click(); }", larger
            )
            page.wait_for_timeout(250)
            controls = stage.locator(".wa-controls [data-control]:visible")
            for i in {0, controls.count() // 2, controls.count() - 1}:
                control = controls.nth(i)
                control.evaluate("control => control.focus()")
                page.wait_for_timeout(120)
                for what, element in (
                    ("picture", stage.locator("canvas")), ("sentence", stage.locator(".wa-sentence")), ("control", control),
                ):  # fmt: skip
                    seen = element.evaluate(SEEN)
                    if seen < 0.97:
                        problems.append(
                            f"{name} {'larger' if larger else 'plain'}, control {i}: {seen:.0%} of the {what}"
                        )
                if control.get_attribute("type") == "range":
                    assert control.evaluate("control => control.clientWidth") >= 180, name
            areas[larger] = stage.locator("canvas").evaluate("canvas => canvas.clientWidth * canvas.clientHeight")
        if areas[True] < areas[False]:
            problems.append(f"{name}: larger shows less, {areas[True]} of {areas[False]} pixels")
        button.evaluate("button => { if (button.ariaPressed === 'true') button.click(); }")
    assert not problems, "\n".join(problems)
