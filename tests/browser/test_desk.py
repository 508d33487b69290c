"""The instructor's desk and its pages in Chromium: one click to the class, heads that stay in view, labels never cut."""

import random
from datetime import timedelta

import pytest
from lab_in_chromium import wait_for_kernel
from stage_on_page import StageOnPage
from walkaround.assessment import answer_sheet
from walkaround.classroom import demo_course, projector, results, tables
from walkaround.classroom.course import read_course
from walkaround.classroom.in_class_links import FOLDER
from walkaround.exercises import notebooks
from walkaround.lessons import table

STUDENTS = 371
QUESTIONS = """\
from walkaround.assessment.questions import NUMBER, Paper, Question, WrongTurn

NAME = "long"
TITLE = "Twenty-five questions with the longest titles that anybody ever wrote for ground school"
WORD = "Landingtakeofftaxiandparkingbrakecheckliststhatnobodyeverdividedintowords"


def write(v):
    made = []
    for n in range(1, 26):
        title = f"{WORD}{n}" if n % 5 == 0 else f"Question {n}: where the balance goes when everybody aboard moves to it"
        turn = WrongTurn(100.0 + n, "added the weight of the empty aircraft once more than was asked for", "No.")
        made.append(Question(f"q{n}", NUMBER, title, "?", float(n), 1, "Count.", ("Counted.",), unit="lb",
                             tolerance=0.1, wrong_turns=(turn,)))
    return Paper(NAME, TITLE, v.student, v.course, tuple(made))
"""


@pytest.fixture(scope="module")
def school(tmp_path_factory):
    """A marked course of 371 students with long names, 25 questions in one of its exercises, and files that are not answer sheets."""
    folder = tmp_path_factory.mktemp("winter")
    (folder / "course.toml").write_text(
        'name = "Quillmoor ground school (invented), evening classes of the winter term"\n'
        'secret = "invented-secret-of-an-invented-course"\n'
        '[[exercises]]\nname = "loading"\n[[exercises]]\nname = "long"\nquestions = "long.py"\n'
    )
    (folder / "long.py").write_text(QUESTIONS)
    people = [
        (f"S{i:03d}", f"Wilhelmina-Alexandrina {name} the {i}th of Quillmoor", f"Evening class {1 + i % 11}")
        for i, name in enumerate((demo_course.PEOPLE * 30)[:STUDENTS])
    ]
    (folder / "roster.csv").write_bytes(tables.data_of(("id", "name", "group"), people))
    course, back = read_course(folder), folder / "collected"
    back.mkdir()
    for i, party in enumerate(course.parties[:60]):
        for e in course.exercises:
            paper, begun = course.paper(e.name, party.id), demo_course.DUE - timedelta(days=2)
            answers = demo_course.made_answers(paper, 2 - 0.04 * i, random.Random(i), begun)
            name = answer_sheet.file_name(e.name, party.id)
            (back / name).write_bytes(demo_course.sheet_data(course, party.id, e.name, answers))
    for i in range(150):
        (back / f"a letter with a long name that somebody has put among the sheets, number {i}.txt").write_text(str(i))
    results.mark_and_write(course, workers=1)
    return folder


# What sticks out of the page, and what sticks out of whatever clips it: the edge of a cell, of an SVG, of a box.
CUT = """() => {
    const found = [], width = document.documentElement.clientWidth;
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        if (!node.data.trim() || node.parentElement.closest('style, script')) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        const text = range.getBoundingClientRect();
        if (!text.width) continue;
        const room = node.parentElement.closest('svg, td, th, li, p, h1, h2, h3, body').getBoundingClientRect();
        const out = Math.max(room.left - text.left, text.right - room.right, -text.left, text.right - width);
        if (out > 1) found.push(`${node.data.trim().slice(0, 40)}: ${out.toFixed(0)} px`);
    }
    return found;
}"""


@pytest.mark.parametrize("size", [(1366, 768), (1920, 1080), "paper"], ids=str)
@pytest.mark.parametrize("page_of_results", ["class-report.html", "feedback/s000.html"])
def test_no_label_is_cut(browser, school, size, page_of_results):
    width, height = (680, 960) if size == "paper" else size  # A4 between margins of 15 mm, at 96 to the inch
    page = browser.new_page(viewport={"width": width, "height": height})
    page.emulate_media(media="print" if size == "paper" else "screen")
    page.goto((school / "results" / page_of_results).as_uri())
    assert page.evaluate(CUT) == []
    if page_of_results == "class-report.html":
        titles = page.locator("td").evaluate_all("cells => cells.map(cell => cell.textContent)")
        assert [sum(f"Question {n}:" in t for t in titles) for n in (1, 24)] == [1, 2]  # and the commonest slips
        assert page.locator("td.share svg").count() == 25 + 11
    page.close()


def test_heads_stay_in_view_on_a_long_page(browser, school):
    page = browser.new_page(viewport={"width": 1366, "height": 768})
    page.goto((school / "results" / "class-report.html").as_uri())
    row = page.locator("tr:has-text('number 99.txt')")
    row.scroll_into_view_if_needed()
    page.mouse.wheel(0, 600)
    page.wait_for_function("window.scrollY > 3000")
    head = page.locator("th:text-is('why')").bounding_box()
    assert head["y"] == pytest.approx(0, abs=1)
    page.close()


@pytest.fixture
def desk(opened):
    """The desk on its page, which runs by itself."""
    page = opened("notebooks/90-instructor.ipynb", run=False)
    page.get_by_label("Course folder").wait_for()
    wait_for_kernel(page)
    return page


def open_tab(page, name):
    page.get_by_role("tab", name=name).click()


def mark_at_desk(page, folder, says):
    page.get_by_label("Course folder").fill(str(folder))
    page.get_by_role("button", name="Open").first.click()
    page.wait_for_selector(f"text={STUDENTS} students.")
    open_tab(page, "2 Collect and mark")
    page.get_by_role("button", name="Mark everything").click()
    page.wait_for_selector(f"text={says}", timeout=120_000)
    wait_for_kernel(page)


def test_the_desk_with_371_students(desk, school):
    page = desk
    mark_at_desk(page, school, f"60 of {STUDENTS}")
    assert page.get_by_text("and is no longer there, and its marks").evaluate("e => e.scrollWidth <= e.clientWidth")
    for tab, rows in (("3 Marks", STUDENTS), ("4 Questions", 25), ("7 Files", 150)):
        open_tab(page, tab)
        if tab == "4 Questions":
            page.locator(".widget-dropdown select:visible").select_option("long")
        shown = page.locator(f".walkaround-desk table:visible:has(tbody tr:nth-child({rows}))")
        shown.wait_for()
        assert shown.locator("tbody tr").count() == rows
        # The list at its end, and all of it in the window.
        shown.evaluate(
            """list => {
                const box = list.closest('.widget-box');
                box.scrollIntoView({block: 'center'});
                box.scrollTop += list.getBoundingClientRect().bottom - box.getBoundingClientRect().bottom;
            }"""
        )
        last, head = shown.locator("tbody tr").last.bounding_box(), shown.locator("th").first.bounding_box()
        assert 0 < last["y"] - head["y"] < 0.6 * 768
        top = "e => { const r = e.getBoundingClientRect(); return document.elementFromPoint(r.x + 5, r.y + 5) === e; }"
        assert shown.locator("th").first.evaluate(top)
    open_tab(page, "6 One student")
    # The list begins with the first student by group and name, and that student is shown.
    first = page.get_by_label("Student").last.evaluate("e => e.options[0].text").replace("\xa0", " ")
    assert "Aiko Marchetti" in first == page.locator(".walkaround-desk h1:visible").inner_text()


def test_one_click_shows_the_class_what_was_hard(desk):
    page = desk
    page.get_by_role("button", name="Made-up course").click()
    page.wait_for_selector("text=This course, its people")
    open_tab(page, "2 Collect and mark")
    page.get_by_role("button", name="Mark everything").click()
    page.wait_for_selector("text=Gradebook, report and feedback pages")
    open_tab(page, "4 Questions")
    row = page.locator("p:has-text('The commonest slip is'):visible")
    preset = "camping, tail-heavy"
    assert f"with the setting “{preset}”" in row.inner_text()
    with page.context.expect_page() as news:
        row.get_by_role("link", name="Show this in class").click()
    shown = news.value
    shown.set_default_timeout(60_000)
    stage = StageOnPage(shown)
    wanted = table.show("loading", "demo", preset)
    assert wanted.words in stage.words
    assert float(stage.control("rear seats, lb").input_value()) == wanted.values["rear seats"]
    # Nothing of a notebook around it, and it takes the whole window.
    assert shown.locator(".jp-Toolbar, .jp-InputArea-editor:visible").count() == 0
    assert stage.root.bounding_box()["width"] > 0.95 * shown.viewport_size["width"]
    shown.close()


def test_without_voila_the_page_opens_in_jupyterlab_and_runs_by_itself(page, lab):
    name, book = projector.page("loading", "demo", "full to the brim")
    folder = lab.folder / "notebooks" / FOLDER
    folder.mkdir(exist_ok=True)
    (folder / name).write_bytes(notebooks.data_of(book))
    page.goto(lab.url(f"notebooks/{FOLDER}/{name}").replace("/lab/tree/", "/doc/tree/"))
    stage = StageOnPage(page)
    assert table.show("loading", "demo", "full to the brim").words in stage.words
    assert page.locator(".jp-InputArea-editor:visible").count() == 0
