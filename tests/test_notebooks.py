"""What is stored in the notebooks: readable without running, opened without a dialog, for people who do not program."""

import html
import re
from pathlib import Path

import nbformat
import pytest
from walkaround.lessons.table import LESSONS

TOP = Path(__file__).resolve().parents[1]
FOLDERS = ("notebooks", "exercises", "solutions")
BOOKS = sorted(p for folder in FOLDERS for p in (TOP / folder).glob("*.ipynb"))
LESSON_BOOKS = [TOP / "notebooks" / lesson.file for lesson in LESSONS]
SAID_BY_ALL = "training aid"

every = pytest.mark.parametrize("path", BOOKS, ids=lambda p: f"{p.parent.name}/{p.name}")
lessons = pytest.mark.parametrize("path", LESSON_BOOKS, ids=lambda p: p.name)


def read(path):
    return nbformat.read(path, as_version=4)


def outputs(book):
    for cell in book.cells:
        yield from cell.get("outputs", [])


@every
def test_opens_without_a_dialog(path):
    book = read(path)
    nbformat.validate(book)
    assert book.metadata.kernelspec.name == "python3"
    assert path.stat().st_size < 400_000


@every
def test_every_cell_has_been_run_and_none_stores_an_error_or_an_address(path):
    for cell in read(path).cells:
        if cell.cell_type == "code":
            assert cell.execution_count is not None
            for output in cell.outputs:
                assert output.output_type != "error"
                text = str(output.get("data", {}).get("text/plain", output.get("text", "")))
                assert not re.search(r"0x[0-9a-f]{6,}|<[\w.]+ object|/(home|root|tmp|Users)/", text)


@every
def test_a_code_cell_is_one_readable_line(path):
    for cell in read(path).cells:
        if cell.cell_type == "code":
            assert len(cell.source.strip().splitlines()) == 1, cell.source


@every
def test_no_widget_state_is_stored(path):
    book = read(path)
    assert "widgets" not in book.metadata
    assert not any("widget-view" in kind for output in outputs(book) for kind in output.get("data", {}))


@lessons
def test_a_lesson_shows_a_still_picture_and_its_sentence(path):
    stills = [o for o in outputs(read(path)) if "image/png" in o.get("data", {})]
    assert stills
    for still in stills:
        assert re.search(r"[A-Z].{30,}\.", still.data["text/plain"])


@lessons
def test_a_lesson_keeps_the_order_of_a_lesson(path):
    prose = "\n".join(c.source for c in read(path).cells if c.cell_type == "markdown")
    marks = [
        "You will be able to",
        "Caution",
        "Predict first",
        "The live demonstration",
        "by hand",
        "quick questions",
        "Take this out to the aircraft",
        "Sources",
    ]
    places = [prose.find(mark) for mark in marks]
    assert -1 not in places, dict(zip(marks, places, strict=True))
    assert places == sorted(places)
    assert SAID_BY_ALL in prose
    assert "FAA-S-ACS-6" in prose
    assert re.search(r"\*\*Time:\*\* \d+ minutes", prose)


def test_every_lesson_is_in_every_folder_and_the_numbers_rise():
    numbers = [lesson.number for lesson in LESSONS]
    assert numbers == sorted(set(numbers))
    for lesson in LESSONS:
        for folder in FOLDERS:
            assert (TOP / folder / lesson.file).exists()
    listed = {p.name for p in BOOKS if p.name[:2].isdigit() and 0 < int(p.name[:2]) < 90}
    assert listed == {lesson.file for lesson in LESSONS}


@every
def test_links_lead_somewhere(path):
    for cell in read(path).cells:
        if cell.cell_type == "markdown":
            for target in re.findall(r"\]\((?!https?:|#)([^)#]+)\)", html.unescape(cell.source)):
                assert (path.parent / target).exists(), target
