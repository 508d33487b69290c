"""Every demonstration on every screen: picture, sentence and the control in hand are in view together, plain and larger.

Where JupyterLab itself leaves no room it can't be asked for: at 420 pixels an open side bar leaves 40 for the page.
"""

import nbformat
import pytest
from lab_in_chromium import KERNEL, open_notebook, run_all_cells
from nbformat.v4 import new_code_cell, new_notebook
from walkaround.lessons.table import LESSONS

DEMONSTRATIONS = [f"{lesson.name}.{function}()" for lesson in LESSONS for function, _ in lesson.demonstrations]
SCREENS = [(420, 800, False)] + [
    (w, h, bar) for w, h in ((1280, 720), (1366, 768), (1920, 1080)) for bar in (True, False)
]

# For a stage, plain and larger, with the first, the middle and the last control in hand: what of it is out of view, and
# the pixels of its picture. What moves after a change is waited for.
LOOK = """
async stage => {
    const settled = async () => {
        for (let last = '', same = 0; same < 4; ) {
            await new Promise(requestAnimationFrame);
            const boxes = [stage, stage.querySelector('canvas')].map(e => JSON.stringify(e.getBoundingClientRect())).join();
            same = boxes === last ? same + 1 : 0;
            last = boxes;
        }
    };
    const share = (element) => new Promise(resolve => {
        const watch = new IntersectionObserver(seen => { watch.disconnect(); resolve(seen[0].intersectionRatio); });
        watch.observe(element);
    });
    const button = [...stage.querySelectorAll('button')].find(b => b.textContent === 'Larger letters');
    const found = {problems: [], areas: []};
    for (const larger of [false, true]) {
        if ((button.ariaPressed === 'true') !== larger) button.click();
        await settled();
        const controls = [...stage.querySelectorAll('.wa-controls [data-control]')].filter(c => c.checkVisibility());
        for (const i of new Set([0, controls.length >> 1, controls.length - 1])) {
            controls[i].focus();
            await settled();
            for (const [what, element] of [
                ['picture', stage.querySelector('canvas')], ['sentence', stage.querySelector('.wa-sentence')], ['control', controls[i]],
            ]) {
                const seen = await share(element);
                if (seen < 0.97) found.problems.push(`${larger ? 'larger' : 'plain'}, control ${i}: ${Math.round(100 * seen)} % of the ${what}`);
            }
            const track = controls[i].clientWidth;
            if (controls[i].type === 'range' && track < 180) found.problems.push(`control ${i}: a track of ${track} pixels`);
        }
        const canvas = stage.querySelector('canvas');
        found.areas.push(canvas.clientWidth * canvas.clientHeight);
    }
    button.click();
    return found;
}
"""


@pytest.fixture(scope="module")
def all_stages(browser, lab):
    imports = f"from walkaround.lessons import {', '.join(lesson.name for lesson in LESSONS)}"
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
        found = page.locator(".wa-stage").nth(number).evaluate(LOOK)
        problems += [f"{name} {problem}" for problem in found["problems"]]
        plain, larger = found["areas"]
        if larger < plain:
            problems.append(f"{name}: larger shows less, {larger} of {plain} pixels")
    assert not problems, "\n".join(problems)
