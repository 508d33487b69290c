"""Printed pages as Chromium lays them out at the width of a sheet: nothing sticks out of it or over its neighbour."""

import pytest
from walkaround.classroom import lesson_pages, on_paper, one_page, tables
from walkaround.classroom.course import read_course
from walkaround.lessons.table import LESSONS

MM = 96 / 25.4
WIDTHS = {"A4": 210 - 32, "Letter": 215.9 - 32}  # between the margins of print.css
STICKS_OUT = """() => {
    const found = [], width = document.documentElement.clientWidth;
    for (const e of document.querySelectorAll('table, td, th, li, p, img, svg, .line, .letter, .box, h1, h2, h3')) {
        const box = e.getBoundingClientRect();
        const room = (e.closest('td, th') ?? document.body).getBoundingClientRect();
        if (box.width && (box.right > width + 1 || box.right > room.right + 1 || box.left < -1))
            found.push(`${e.tagName} ${e.textContent.trim().slice(0, 40)}: ${box.right.toFixed(0)} of ${room.right.toFixed(0)}`);
    }
    return found;
}"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    folder = tmp_path_factory.mktemp("paper")
    every = "".join(f'[[exercises]]\nname = "{lesson.name}"\n' for lesson in LESSONS)
    (folder / "course.toml").write_text(f'name = "{"A long name of a course " * 4}"\nsecret = "{"s" * 20}"\n{every}')
    (folder / "roster.csv").write_bytes(tables.data_of(("id", "name"), [("S" * 60, "Wilhelmina-Alexandrina " * 4)]))
    course = read_course(folder)
    papers = on_paper.papers_of(course)
    return [
        on_paper.paper_page(course, *papers[0]),
        on_paper.key_page(course, papers),
        one_page.load_sheet_page(),
        *(lesson_pages.page(lesson) for lesson in LESSONS),
    ]


@pytest.mark.parametrize("sheet", WIDTHS)
def test_nothing_sticks_out_of_a_sheet(browser, pages, sheet, tmp_path):
    page = browser.new_page(viewport={"width": int(WIDTHS[sheet] * MM), "height": 960})
    page.emulate_media(media="print")
    for number, html in enumerate(pages):
        path = tmp_path / f"{number}.html"
        path.write_bytes(html)
        page.goto(path.as_uri())
        assert page.evaluate(STICKS_OUT) == [], number
    page.close()
