"""Rows of every table stand by group and name, as people sort names: case and accents make no difference."""

import random

import bs4
import pytest
from walkaround.classroom import handout, tables
from walkaround.classroom.course import read_course
from walkaround.classroom.desk import Desk
from walkaround.classroom.roster import by_group_and_name
from walkaround.classroom.texts import sort_key

# In the order in which they have to stand.
ORDERED = (
    ("7", "Ángel Ruiz", "evening 2"),
    ("3", "anna Berg", "Evening 2"),
    ("9", "Łucja Nowak", "Evening 2"),
    ("1", "Lukas Ost", "evening 2"),
    ("10", "O'Neil, Bo", "Evening 2"),
    ("4", "Øystein Dahl", "Evening 2"),
    ("2", "Zoë Park", "Evening 10"),
    ("12", "Zoë Park", "Evening 10"),
)
IDS = [i for i, _, _ in ORDERED]


@pytest.fixture
def course(new_school):
    shuffled = list(ORDERED)
    random.Random(4).shuffle(shuffled)
    school = new_school([])
    (school.folder / "roster.csv").write_bytes(tables.data_of(("id", "name", "group"), shuffled))
    for i in IDS[:5]:
        school.hand_in(i, school.answers(i, ["moment"]))
    school.mark()
    return school


def column(path, name):
    return list(dict.fromkeys(row[name] for _, row in tables.read(path).rows))


def cells(html, n):
    rows = bs4.BeautifulSoup(html, "html.parser").select("tbody tr")
    return [row.select("td")[n].get_text() for row in rows]


def test_tables_that_are_written(course, tmp_path):
    results = course.folder / "results"
    assert column(results / "gradebook.csv", "id") == IDS
    assert column(results / "answers.csv", "id") == IDS[:5]
    handout.hand_out(course.course, tmp_path / "out")
    assert column(tmp_path / "out" / handout.LIST, "id") == IDS
    course.write_course('hand_out = "one for all"')
    handout.hand_out(course.course, tmp_path / "all")
    assert column(tmp_path / "all" / handout.LIST, "id") == IDS


def test_the_report_lists_who_is_missing_by_group(course):
    report = bs4.BeautifulSoup((course.folder / "results" / "class-report.html").read_bytes(), "html.parser")
    missing = report.select_one("div.names")
    assert [b.get_text() for b in missing.select("b")] == ["Group Evening 2", "Group Evening 10"]
    assert [li.get_text() for li in missing.select("li")] == [f"{n} ({i})" for i, n, _ in ORDERED[5:]]


def test_tables_and_menus_of_the_desk(course):
    for i in reversed(IDS[:4]):
        (course.collected / f"copy of {i}.json").write_bytes(course.sheet(i, course.answers(i, ["moment"])))
    (course.collected / "a letter.txt").write_text("x")
    d = Desk(course.folder)
    d.path.value = str(course.folder)
    d.open_it.click()
    d.mark_it.click()
    students = bs4.BeautifulSoup(d.marks_table.value, "html.parser").find_all("table")[1]
    assert [th.find(string=True) for th in students.select("tbody th")] == [name for _, name, _ in ORDERED]
    assert [value for _, value in d.who.options] == [value for _, value in d.one.options] == IDS
    assert cells(d.files.value, 2) == [*IDS[:4], ""]  # what is nobody's comes last


def test_a_last_name_of_its_own_sorts_first(course):
    (course.folder / "roster.csv").write_text("id,first name,last name\n1,Bo,Åberg\n2,Ann,Zander\n3,Ann,aasen\n")
    assert [s.id for s in sorted(course.course.roster.students, key=by_group_and_name)] == ["3", "1", "2"]


def test_groups_that_hand_in_together_stand_in_order(course):
    course.write_course('hand_out = "each group"')
    assert [p.id.casefold() for p in read_course(course.folder).sorted_parties] == ["evening 2", "evening 10"]


@pytest.mark.parametrize("text", ["", "0" * 5000, "ﬀ" * 5000, "٣ apples", "²", "\ud800"])
def test_whatever_a_name_is_it_sorts(text):
    assert sorted(["b", text, "10", "9"], key=sort_key)
