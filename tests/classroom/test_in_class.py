"""What to show in class: every setting that a lesson names exists, and the report and the desk name it."""

import pytest
from walkaround.assessment.questions import paper
from walkaround.classroom import analysis, in_class, projector
from walkaround.classroom.desk import Desk
from walkaround.classroom.in_class_links import FOLDER
from walkaround.lessons import table
from walkaround.lessons.table import LESSONS

PRESET = "camping, tail-heavy"


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_every_demonstration_and_setting_that_shows_a_question_exists(lesson):
    made, functions = paper(lesson.questions, "S1"), dict(lesson.demonstrations)
    for key, (function, preset) in lesson.shown_by.items():
        assert made.question(key)
        assert function in functions, key
        assert preset in table.show(lesson.name, function).presets, key


def test_most_questions_of_the_first_lessons_are_shown_by_something():
    for name in ("loading", "pitot_static", "preheat"):
        assert len(table.find(name).shown_by) >= 7


@pytest.fixture
def marked(school):
    """Two students of three with sheets: both miss "moves", one with its slip; "go" is missed once."""
    keys = [q.key for q in school.paper("S1").questions]
    for student, slips in (("S1", ["moves"]), ("S2", ["moves", "go"])):
        right = [k for k in keys if k not in slips]
        school.hand_in(student, school.answers(student, right, slips))
    return school


def found(school):
    return in_class.showings(school.course, analysis.analyse(school.course, school.mark().rows)[0])


def test_the_hardest_question_and_the_commonest_slip_are_named_with_their_setting(marked):
    hardest, commonest = found(marked)
    assert hardest.why == "The hardest question is “What moves the CG forward”: 0 % earned its points."
    assert commonest.why == (
        "The commonest slip is “every direction turned round” in “What moves the CG forward”: 2 students made it."
    )
    for s in (hardest, commonest):
        assert s[2:] == ("loading", "demo", PRESET)
        assert s.where == (
            f"Show “Load it and watch the balance” with the setting “{PRESET}” (lesson 1, Weight and balance)."
        )
    report = marked.results()["class-report.html"].decode()
    assert report.count(f"Show “Load it and watch the balance” with the setting “{PRESET}”") == 2


def test_a_question_that_nothing_shows_is_named_all_the_same(marked, monkeypatch):
    monkeypatch.delattr(table.find("loading").questions, "SHOWN_BY")
    assert [(bool(s.why), s[1:]) for s in found(marked)] == [(True, ("", "", "", ""))] * 2


def test_a_course_s_own_questions_under_a_lesson_s_name_are_not_the_lesson_s(school):
    source = (
        "from walkaround.assessment.questions import *\nNAME, TITLE = 'loading', 'Ours'\n\n\ndef write(v):\n"
        "    q = Question('moves', NUMBER, 'Moves', '?', 5.0, 1, 'Count.', ('5',), unit='lb', tolerance=0.1,\n"
        "                 wrong_turns=(WrongTurn(7.0, 'seven', 'No.'),))\n"
        "    return Paper(NAME, TITLE, v.student, v.course, (q,))\n"
    )
    school.write_course(exercises='[[exercises]]\nname = "loading"\nquestions = "ours.py"\n')
    (school.folder / "ours.py").write_text(source)
    school.hand_in("S1", school.answers("S1", slips=["moves"]))
    assert [s[1:] for s in found(school)] == [("", "", "", "")] * 2


def test_where_all_is_right_or_nothing_came_there_is_nothing_to_show(school):
    assert found(school) == []
    school.hand_in("S1", school.all_right("S1"))
    assert found(school) == []


def test_a_page_shows_the_demonstration_with_its_setting():
    stage = table.show("loading", "demo", PRESET)
    _, book = projector.page("loading", "demo", PRESET)
    run = {}
    statement, _, expression = book.cells[0].source.rpartition("; ")
    exec(statement, run)
    shown = eval(expression, run)
    assert shown.values == stage.values != table.show("loading", "demo").values
    assert shown.title == stage.title


def test_the_desk_writes_the_pages_that_it_links_to(marked, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    d = Desk(".")
    d.path.value = str(marked.folder)
    d.open_it.click()
    assert d.in_class.rows == []
    folders = []
    d.in_class.observe(lambda _: folders.append(d.in_class.pages), "rows")
    d.mark_it.click()
    assert folders == [FOLDER]  # the links are drawn as soon as there are rows
    name, book = projector.page("loading", "demo", PRESET)
    assert [row[2] for row in d.in_class.rows] == [name, name]
    assert d.in_class.pages == FOLDER
    assert [p.name for p in (tmp_path / FOLDER).iterdir()] == [name]
    assert book.cells[0].source in (tmp_path / FOLDER / name).read_text().replace('\\"', '"')
    # In the list and nowhere else on the tab.
    assert "Load it and watch the balance" not in d.items.value


def test_where_pages_can_not_be_written_the_desk_says_so(marked, tmp_path):
    (tmp_path / FOLDER).write_text("a file is in the way")
    d = Desk(tmp_path)
    d.path.value = str(marked.folder)
    d.open_it.click()
    d.mark_it.click()
    assert FOLDER in d.in_class_text.value
    assert "The commonest slips" in d.items.value
    assert d.one_page.value.count("Weight and balance")
    (tmp_path / FOLDER).unlink()
    d.mark_it.click()
    assert d.in_class_text.value == ""
