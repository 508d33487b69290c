"""The map on the start page in Chromium: by keyboard, on a phone, in the dark, on one sheet of paper, and without a kernel."""

import re
import shutil

import pytest
from axe_rules import violations
from lab_in_chromium import open_in_its_place, open_notebook, wait_for_kernel
from walkaround.assessment.answer_sheet import AnswerSheet
from walkaround.assessment.questions import paper
from walkaround.classroom import demo_course
from walkaround.exercises import pocket_list
from walkaround.lessons.table import LESSONS

START = "notebooks/00-start-here.ipynb"
# Numbers that cover each other or stick out of the drawing, what sticks out of the map, and the drawing's width.
LOOK = """map => {
    const box = e => e.getBoundingClientRect(), plan = box(map.querySelector('.wa-plan'));
    const discs = [...map.querySelectorAll('.wa-disc')].map(disc => ({text: disc.textContent, ...box(disc).toJSON()}));
    const found = discs.filter(d => d.left < plan.left || d.right > plan.right || d.top < plan.top || d.bottom > plan.bottom)
        .map(d => `${d.text} is off the drawing`);
    discs.forEach((a, i) => discs.slice(i + 1).forEach(b => {
        if (Math.hypot(a.x - b.x, a.y - b.y) < a.width - 1) found.push(`${a.text} covers ${b.text}`);
    }));
    if (discs[0].width < 24) found.push('too small for a finger');
    if (map.scrollWidth > map.clientWidth) found.push('wider than its place');
    return {found, width: plan.width};
}"""


def answer(folder, who, lesson, keys=None):
    sheet = AnswerSheet(folder, lesson.name, who)
    for q in paper(lesson.questions, who).questions[:keys]:
        sheet.answered(q.key, demo_course.given(q, q.answer))


@pytest.fixture(scope="module")
def page(browser, lab):
    """The map with what two students have done: the first stop is done, the second in work."""
    folder = lab.folder / "exercises"
    answer(folder, "Tomas Brandvold", LESSONS[0], 2)
    answer(folder, "Ines Okafor", LESSONS[0])
    answer(folder, "Ines Okafor", LESSONS[1], 3)
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    context.add_init_script("window.print = () => { window.printed = true; };")  # which would wait for a person
    opened = context.new_page()
    opened.set_default_timeout(60_000)
    open_notebook(opened, lab, START)
    opened.wait_for_selector(".wa-map .wa-stop")
    wait_for_kernel(opened)
    yield opened
    context.close()
    for path in folder.glob("*.answers.json"):
        path.unlink()


def theme(page, name):
    page.evaluate("theme => window.jupyterapp.commands.execute('apputils:change-theme', {theme})", f"JupyterLab {name}")
    page.wait_for_selector(f"body[data-jp-theme-name='JupyterLab {name}']", state="attached")


@pytest.mark.parametrize("name", ["Light", "Dark"])
def test_axe_finds_nothing_and_the_stops_are_one_ordered_list(page, name):
    theme(page, name)
    assert violations(page, ".wa-map") == []
    theme(page, "Light")
    assert page.locator(".wa-map ol").count() == 1
    stops = page.locator(".wa-map ol > li")
    assert stops.evaluate_all("all => all.map(li => li.value)") == [lesson.number for lesson in LESSONS]
    for i, lesson in enumerate(LESSONS):
        links = stops.nth(i).get_by_role("link")
        assert [links.nth(n).inner_text().split() for n in range(links.count())] == [
            [str(lesson.number), *lesson.title.split()],
            ["Exercise", str(lesson.number)],
        ]


def test_what_is_done_is_said_in_words_and_seen_without_colour(page):
    stops = page.locator(".wa-map .wa-stop")
    full = sum(q.points for q in paper(LESSONS[0].questions, "Ines Okafor").questions)
    assert f"done: {full} of {full} points" in stops.first.inner_text().replace("\xa0", " ")
    assert "in work: 3 of" in stops.nth(1).inner_text().replace("\xa0", " ")
    edges = page.locator(".wa-disc").evaluate_all("all => all.slice(0, 3).map(e => getComputedStyle(e).borderStyle)")
    assert edges == ["solid", "dashed", "solid"]
    marks = page.locator(".wa-disc").evaluate_all("all => all.map(e => getComputedStyle(e, '::after').content)")
    assert ["✓" in mark for mark in marks] == [True] + [False] * (len(LESSONS) - 1)


def test_by_keyboard_the_number_on_the_drawing_is_seen_and_enter_opens_the_lesson(page):
    links = page.locator(".wa-map .wa-stop a")
    links.first.focus()
    for i in range(2 * len(LESSONS)):
        assert links.nth(i).evaluate("e => e === document.activeElement")
        shown = links.nth(i).locator(".wa-disc") if i % 2 == 0 else links.nth(i)
        assert shown.evaluate("e => parseFloat(getComputedStyle(e).outlineWidth)") >= 3
        page.keyboard.press("Tab")
    links.nth(2).focus()
    page.keyboard.press("Enter")
    page.wait_for_selector(f"#jp-main-dock-panel .lm-mod-current:has-text('{LESSONS[1].file}')")
    page.evaluate("path => window.jupyterapp.commands.execute('docmanager:open', {path})", START)
    page.wait_for_selector(".wa-map .wa-stop:visible")


def test_what_was_done_meanwhile_is_seen_by_whoever_comes_back(page, lab):
    answer(lab.folder / "exercises", "Ines Okafor", LESSONS[2], 1)
    page.evaluate(
        "path => window.jupyterapp.commands.execute('docmanager:open', {path})", "notebooks/08-thermometer-log.csv"
    )
    page.wait_for_selector(".wa-map", state="hidden")
    page.evaluate("path => window.jupyterapp.commands.execute('docmanager:open', {path})", START)
    page.locator(".wa-plan").scroll_into_view_if_needed()
    page.wait_for_selector(".wa-stop:nth-child(3):has-text('in work: 1')")
    page.get_by_label("Show what was done by").select_option("Tomas Brandvold")
    page.wait_for_selector(".wa-stop:nth-child(2):has-text('not begun')")
    page.get_by_label("Show what was done by").select_option("Ines Okafor")
    page.wait_for_selector(".wa-stop:nth-child(2):has-text('in work')")


@pytest.mark.parametrize("width", [420, 1366, 1920])
def test_no_number_covers_another_on_any_screen(page, width):
    if (page.locator("#jp-left-stack").is_visible()) == (width == 420):
        page.keyboard.press("Control+b")
    page.set_viewport_size({"width": width, "height": 800})
    page.wait_for_timeout(400)
    look = page.locator(".wa-map").evaluate(LOOK)
    assert look["found"] == []
    assert look["width"] > 250
    page.set_viewport_size({"width": 1366, "height": 768})


def pages(page, paper_size):
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper_size)))


def test_the_list_for_the_pocket_is_one_page(page):
    with page.context.expect_page() as news:
        page.get_by_role("button", name="Print the list for your pocket").click()
    pocket = news.value
    pocket.wait_for_function("window.printed")
    assert [pages(pocket, size) for size in ("A4", "Letter")] == [1, 1]
    assert pocket.locator("h2").count() == len(LESSONS)
    last = pocket.locator("li li").last.bounding_box()
    room = pocket.locator("main").bounding_box()
    assert last["x"] + last["width"] <= room["x"] + room["width"] + 1
    assert last["y"] + last["height"] <= room["y"] + room["height"] + 1
    assert pocket.locator("main").evaluate("e => parseFloat(getComputedStyle(e).fontSize)") > 8
    pocket.close()


def test_the_list_stays_one_page_with_more_stops(browser, monkeypatch, tmp_path):
    notebooks = pocket_list.Path(__file__).parents[2] / "notebooks"
    monkeypatch.setattr(pocket_list, "LESSONS", (*LESSONS, *LESSONS[:4]))
    (tmp_path / "pocket.html").write_text(pocket_list.page("<svg viewBox='0 0 10 8'></svg>", {}, "", notebooks))
    page = browser.new_page()
    page.goto((tmp_path / "pocket.html").as_uri())
    assert [pages(page, size) for size in ("A4", "Letter")] == [1, 1]
    assert page.locator("main").evaluate("e => e.scrollWidth <= e.clientWidth && e.scrollHeight <= e.clientHeight")
    page.close()


def test_it_reads_without_running(page, lab):
    (lab.folder / "read").mkdir(exist_ok=True)
    shutil.copy(lab.folder / START, lab.folder / "read")
    open_in_its_place(page, "read/00-start-here.ipynb")
    output = page.locator(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-OutputArea-output")
    picture = output.locator("img")
    picture.wait_for()
    assert picture.evaluate("e => e.decode().then(() => e.clientWidth)") > 400
    assert output.locator("ol > li").evaluate_all("all => all.map(li => li.value)") == [x.number for x in LESSONS]
    assert output.locator("ol a").count() == 2 * len(LESSONS)
    assert page.locator(".wa-map").count() == 0
