"""The printed pages: whatever has been typed in a sheet, roster, course file or question set is text on them."""

import bs4
import pytest
from walkaround.classroom import overrides, pages
from walkaround.classroom.desk import Desk

EVIL = "<script>alert(1)</script>\"'&"

QUESTIONS = f"""
from walkaround.assessment.questions import *

EVIL = {EVIL!r}
NAME, TITLE = "odd", EVIL


def write(variant):
    table = ((EVIL, "b"), ("c", EVIL))
    number = Question("n", NUMBER, EVIL, EVIL, 5.0, 1, EVIL, (EVIL,), unit="lb", tolerance=0.1, table=table,
                      wrong_turns=(WrongTurn(7.0, EVIL, EVIL),))
    options = (("a", EVIL), ("b", "b" + EVIL))
    choices = Question("c", CHOICES, EVIL, EVIL, frozenset("a"), 1, EVIL, (EVIL,), options=options,
                       wrong_turns=(WrongTurn(frozenset("b"), EVIL, EVIL),))
    return Paper(NAME, TITLE, variant.student, variant.course, (number, choices), EVIL, ((EVIL, "x"),))
"""


@pytest.fixture
def evil(new_school):
    """A course in which everything that can be typed is HTML, marked, with its desk."""
    school = new_school([("S1", "Ann", "A"), ("S2", "Bo", "B"), ("S3", "Cy", "A")])
    school.write_course(exercises='[[exercises]]\nname = "odd"\nquestions = "odd.py"\npoints = 7\n')
    course_file = school.folder / "course.toml"
    course_file.write_text(course_file.read_text().replace('"Test"', f"'''{EVIL}'''"))
    (school.folder / "odd.py").write_text(QUESTIONS)
    (school.folder / "roster.csv").write_text(f"id,name,group\nS1,{EVIL},A\nS2,Bo,B\nS2,twice {EVIL},B\nS3,Cy,A\n")
    for student, slips in (("S1", ["n", "c"]), ("S2", ["n"])):
        data = school.sheet(student, school.answers(student, slips=slips, exercise="odd"), "odd", school.course.name)
        (school.collected / f"odd-{student}{EVIL.replace('/', '')}.json").write_bytes(data)
    (school.collected / f"{EVIL.replace('/', '')}.txt").write_text(EVIL)
    overrides.set_by_hand(school.course, "S3", "odd", "3", EVIL)
    desk = Desk(school.folder.parent)
    desk.path.value = str(school.folder)
    desk.open_it.click()
    desk.mark_it.click()
    desk.which.value = "odd"
    return school, desk


def trees(school, desk):
    for name, data in school.results().items():
        if name.endswith(".html"):
            yield name, bs4.BeautifulSoup(data, "html.parser")
    for student in ("S1", "S2", "S3"):
        desk.one.value = student
        yield f"desk, {student}", bs4.BeautifulSoup(desk.one_page.value, "html.parser")
    for part in ("about", "marks_table", "items", "alike", "files", "mark_text", "message"):
        yield f"desk, {part}", bs4.BeautifulSoup(getattr(desk, part).value, "html.parser")


def test_nothing_that_was_typed_is_taken_for_html(evil):
    seen = dict(trees(*evil))
    assert len(seen) == 5 + 3 + 7
    for name, tree in seen.items():
        assert tree.find("script") is None, name
    everywhere = [name for name, tree in seen.items() if EVIL in tree.get_text()]
    assert {"class-report.html", "feedback/s1.html", "feedback/s3.html", "desk, items", "desk, S1"} <= set(everywhere)
    # Text, and not the text of its escape, as it would be if it were escaped twice.
    assert not [name for name, tree in seen.items() if "&lt;" in tree.get_text() or "&amp;" in tree.get_text()]


def test_a_page_needs_nothing_else_and_runs_nothing(evil):
    for name, tree in trees(*evil):
        assert not tree.find_all(["link", "iframe", "object", "img"]), name
        assert not [a for tag in tree.find_all() for a in tag.attrs if a.startswith("on")], name
    policy = bs4.BeautifulSoup(pages.page("x", "files.html", counted="", odd=()), "html.parser").find(
        "meta", content=True
    )
    assert policy is not None


def test_a_page_is_html_as_it_should_be(evil):
    school, _ = evil
    for name, data in school.results().items():
        if name.endswith(".html"):
            text = data.decode("utf-8")
            assert text.startswith("<!DOCTYPE html>")
            for tag in ("h1", "h2", "h3", "p", "table", "section", "tr", "td"):
                assert text.count(f"<{tag}>") + text.count(f"<{tag} ") == text.count(f"</{tag}>"), (name, tag)
