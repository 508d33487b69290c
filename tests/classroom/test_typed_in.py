"""Answers typed in from paper: they get the points they would have got on a screen, and a bad cell writes nothing."""

import re
from datetime import UTC, datetime, timedelta

import pytest
from walkaround.__main__ import main
from walkaround.assessment import answer_sheet
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER
from walkaround.classroom import likeness, on_paper, tables, typed_in
from walkaround.classroom.mark_collected import NOT_SIGNED, SUPERSEDED

NOW = datetime(2026, 4, 20, 12, 0, tzinfo=UTC)
DUE = datetime(2026, 3, 27, 18, 0, tzinfo=UTC)


def template(school, exercise="loading"):
    rows = [(party, paper) for party, [paper] in on_paper.papers_of(school.course, exercise)]
    return tables.parse(typed_in.table_to_fill(school.course, rows), "answers.csv")


def filled(school, given, exercise="loading", delimiter=",", handed_in="", name="answers.csv"):
    """The template with each student's cells filled in, in a file; `given(question)` is what a cell holds, or None."""
    table, lines = template(school, exercise), []
    for _, row in table.rows:
        questions = school.paper(row["id"], exercise).questions
        cells = [given(row["id"], q) or "" for q in questions]
        lines.append([row["id"], row["name"], exercise, handed_in, *cells])
    path = school.folder / name
    path.write_bytes(tables.data_of(table.columns, lines, delimiter))
    return path


def right(school):
    rules = school.course.rules
    return lambda _, q: on_paper.right(q, rules).split(" ± ")[0]


def type_in(school, *paths, now=NOW):
    return typed_in.type_in(school.course, paths, now)


def test_the_columns_say_how_answers_are_written(school):
    columns = template(school).columns
    assert columns[:4] == ("id", "name", "exercise", "handed in")
    questions = school.paper("S1").questions
    how = {CHOICE: "(one letter)", CHOICES: "(letters such as A C)", ORDER: "(numbers in the boxes such as 3 1 2)"}
    for number, (q, column) in enumerate(zip(questions, columns[4:], strict=True), 1):
        assert column.startswith(f"{number} ")
        assert column.endswith(how.get(q.kind, f"({q.unit})"))


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_right_answers_earn_every_point_and_slips_are_told(school, delimiter):
    slip = {}

    def given(student, q):
        if student == "S2" and (made := on_paper.slips(q, school.course.rules)):
            answer, slip[q.key] = made[-1]
            return answer
        return right(school)(student, q) if student != "S3" else None

    done = type_in(school, filled(school, given, delimiter=delimiter))
    assert (len(done.written), done.empty, done.undated) == (2, 1, 2)
    outcome = school.outcome()
    assert outcome.marks["S1", "loading"].points == outcome.marks["S1", "loading"].of == school.paper("S1").points
    marks = {m.key: m for m in outcome.marks["S2", "loading"].questions}
    assert {key: m.slips for key, m in marks.items() if key in slip} == {key: (s,) for key, s in slip.items()}
    assert all(m.earned == 0 for key, m in marks.items() if key in slip)
    assert len(slip) > 8
    assert ("S3", "loading") not in outcome.marks


def test_the_whole_way_by_typing(tmp_path, capsys):
    folder = tmp_path / "m"
    assert main(["begin", str(folder), "--made-up"]) == 0
    for path in (folder / "collected").rglob("*.json"):
        path.unlink()
    from walkaround.classroom.course import read_course

    course = read_course(folder)
    for e in course.exercises:  # one of them is kept: its sheets name options by their places
        rows = [(party, paper) for party, [paper] in on_paper.papers_of(course, e.name)]
        table = tables.parse(typed_in.table_to_fill(course, rows), "t.csv")
        lines = []
        for number, (party, paper) in enumerate(rows):
            cells = [on_paper.right(q, course.rules).split(" ± ")[0] if number % 2 else "" for q in paper.questions]
            lines.append([party.id, "", e.name, "2025-03-20", *cells])
        (folder / f"{e.name}.csv").write_bytes(tables.data_of(table.columns, lines))
    assert main(["type-in", str(folder), str(folder / "loading.csv"), str(folder / "bags.csv")]) == 0
    assert "18 answer sheets written to" in capsys.readouterr().out
    assert main(["mark", str(folder), "--quiet"]) == 0
    book = [row for _, row in tables.read(folder / "results" / "gradebook.csv").rows]
    by_id = {row["id"]: (row["loading points"], row["bags points"]) for row in book}
    full = ("20", f"{course.points('bags'):g}")
    typed = [party.id for number, party in enumerate(course.sorted_parties) if number % 2]
    assert by_id == {i: full if i in typed else ("0", "0") for i in by_id}
    assert not any("alike" in row["remarks"] or "late" in row["remarks"] for row in book)


def test_a_spreadsheet_may_save_it_its_own_way(school):
    q = [q for q in school.paper("S1").questions if q.kind == NUMBER][3]
    number = 1 + school.paper("S1").questions.index(q)
    text = f"{q.answer:.2f}".replace(".", ",")
    path = school.folder / "saved.csv"
    path.write_bytes(f"\ufeffsep=;\n;;\nID;Exercise;{number} whatever\n\ns1;Loading;{text}\n;;\n".encode())
    type_in(school, path)
    [mark] = [m for m in school.outcome().marks["S1", "loading"].questions if m.key == q.key]
    assert mark.right


@pytest.mark.parametrize("delimiter", [";", ","])  # a spreadsheet keeps the one or the other
def test_a_decimal_comma_with_three_decimals_is_one_where_the_table_has_decimal_commas(school, delimiter):
    school.write_course('units = "metric"')

    def given(_, q):
        cell = right(school)(_, q)
        if q.kind == NUMBER:
            cell = f"{q.answer:.{3 if q.unit == 'm' else 1}f}".replace(".", ",")
        return cell

    path = filled(school, given, delimiter=delimiter)
    assert re.search(rb"\b2,[5-9]\d[1-9]\b", path.read_bytes())
    type_in(school, path)
    assert set(school.points().values()) == {school.paper("S1").points}


def test_papers_printed_before_the_course_changed_its_units_are_typed_in_as_they_are(school):
    path = filled(school, right(school))
    school.write_course('units = "metric"')
    type_in(school, path)
    assert set(school.points().values()) == {school.paper("S1").points}


def test_a_thousand_is_no_decimal_comma(school):
    q = next(q for q in school.paper("S1").questions if q.kind == NUMBER and q.answer > 1000)
    number, text = 1 + _place(school, q), f"{q.answer:,.0f}"
    path = school.folder / "t.csv"
    path.write_text(f"id\t{number}\nS1\t{text}\n")
    type_in(school, path)
    assert school.points() == {"S1": q.points}
    path.write_text(f"id;{number}\nS2;5\nS1;{text}\n")
    with pytest.raises(ValueError, match="can be read in two ways"):
        type_in(school, path)


def test_zeros_that_a_spreadsheet_dropped_are_no_matter_where_the_name_fits(new_school):
    school = new_school([("0001", "Ann", ""), ("0002", "Bo", "")])
    path = filled(school, right(school))
    path.write_bytes(path.read_bytes().replace(b"\r\n000", b"\r\n"))
    assert len(type_in(school, path).written) == 2
    assert set(school.points()) == {"0001", "0002"}
    path.write_bytes(path.read_bytes().replace(b"2,Bo,", b"2,Ann,"))
    with pytest.raises(ValueError, match="the id '2' is not in the roster; '0002' is: a spreadsheet may have dropped"):
        type_in(school, path)


@pytest.mark.parametrize(
    ("kind", "cell", "says"),
    [
        (NUMBER, "many", "is not a number"),
        (CHOICE, "AB", "allowed: one letter of A B C D"),
        (CHOICE, "Z", "allowed: one letter of A B C D"),
        (CHOICES, "A A", "allowed: letters, each once, of A B C D E"),
        (ORDER, "1 2 3", "allowed: the numbers in the boxes from top to bottom, each once, such as 6 1 2 3 4 5"),
        (ORDER, "1 2 3 4 5 5", "each once"),
        (ORDER, "B A C D E F", "allowed: the numbers in the boxes"),
    ],
)
def test_a_bad_cell_is_named_and_nothing_is_written(school, kind, cell, says):
    bad = next(q for q in school.paper("S1").questions if q.kind == kind)
    path = filled(school, lambda student, q: cell if (student, q.key) == ("S3", bad.key) else right(school)(student, q))
    with pytest.raises(ValueError, match=re.escape(says)) as error:
        type_in(school, path)
    column = next(c for c in template(school).columns if c.startswith(f"{1 + _place(school, bad)} "))
    line = next(i for i, (_, row) in enumerate(template(school).rows, 2) if row["id"] == "S3")
    assert f"answers.csv, line {line}, column {column[:20]!r}"[:-1] in str(error.value)
    assert repr(cell) in str(error.value)
    assert str(error.value).endswith("Nothing was written: put this right, and type in again.")
    assert list(school.collected.rglob("*")) == []


def _place(school, question):
    return [q.key for q in school.paper("S1").questions].index(question.key)


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ("name\nAnn", "t.csv: no column is called id"),
        ("id,exercise,1 a\nS9,loading,5", "the id 'S9' is not in the roster"),
        ("id,exercise,1 a\nS1,towing,5", "t.csv, line 2, column 'exercise': 'towing'; allowed: loading"),
        ("id,exercise,99 a\nS1,loading,5", "'5'; allowed: questions 1 to 11"),
        ("id,1 a\nS1,50\nS1,50", "allowed: one row for each student in loading; t.csv, line 2 has one"),
        ("id,1 a,1 b\nS1,50,50", "two columns are for question 1"),
        ("id,moment\nS1,50", "column 'moment': '50'; allowed: a column that begins with the number of its question"),
        ("id,handed in,1 a\nS1,3/4/2026,50", "2026-03-27 16:30: this one can be read in two ways"),
        ("id,handed in,1 a\nS1,2026-02-30,50", "there is no such day or time"),
        ("id,handed in,1 a\nS1,tomorrow,many", "“many” is not a number"),
        ("id,1 a,2 b\nS1,50,5,7", "t.csv, line 2: more cells than columns; allowed: quotes round a number"),
        ("id,handed in,1 a\nS1,tomorrow,50", "'tomorrow'; allowed: a date such as 2026-03-27"),
        ("id,handed in,1 a\nS1,2026-05-01,50", "allowed: a day that is not in the future"),
    ],
)
def test_a_bad_table_is_named(school, table, says):
    path = school.folder / "t.csv"
    path.write_text(table)
    with pytest.raises(ValueError, match=re.escape(says)):
        type_in(school, path)
    assert not (school.collected / typed_in.FOLDER).exists()


@pytest.mark.parametrize(
    ("handed_in", "days", "share"),
    [
        ("", 0, 1.0),  # nothing said: on time, although it is typed in after the due date
        ("2026-03-27", 0, 1.0),  # on the day it is due
        ("27.03.2026 17:59", 0, 1.0),
        ("27/3/2026 18:30", 1, 0.9),
        ("2026-03-28", 1, 0.9),
        ("2026-03-30 9:00", 3, 0.7),
        ("2026-04-19", None, 0.0),  # after the last day
    ],
)
def test_the_day_on_the_paper_counts_and_not_the_day_of_typing(school, handed_in, days, share):
    school.write_course("[late]\nloses_percent_per_day = 10\n")
    school.hand_in("S2", school.answers("S2", right=["moment"]))
    school.mark(now=(DUE + timedelta(days=2)).timestamp())  # others have been marked after the due date already
    type_in(school, filled(school, right(school), handed_in=handed_in))
    mark = school.mark().outcome.marks["S1", "loading"]
    assert mark.points == pytest.approx(share * mark.of)
    if days is not None:
        assert {q.days_late for q in mark.questions} == {days}


def test_what_is_typed_in_again_counts_and_nothing_is_lost(school):
    by_form = school.hand_in("S1", school.answers("S1", right=["moment"], begun=DUE - timedelta(days=30)))
    before = by_form.read_bytes()
    wrong = filled(school, lambda student, q: right(school)(student, q) if q.kind == NUMBER else None)
    type_in(school, wrong)
    school.mark()
    first = {p: p.read_bytes() for p in (school.collected / typed_in.FOLDER).iterdir()}
    assert type_in(school, wrong).same == 3
    done = type_in(school, filled(school, right(school)), now=NOW + timedelta(hours=1))
    assert sorted(done.again) == ["S1 (loading)", "S2 (loading)", "S3 (loading)"]
    assert "Typed in once more, and only the last counts" in "\n".join(done.says(school.course))
    assert by_form.read_bytes() == before
    assert {p: p.read_bytes() for p in first} == first
    outcome = school.mark(now=NOW.timestamp() + 7200).outcome
    remarks = outcome.marks["S1", "loading"].remarks
    assert any(r.endswith("the one counted lacks: one of them is typed in from paper") for r in remarks)
    assert {m.points for m in outcome.marks.values()} == {school.paper("S1").points}
    again = [f for f in outcome.files if f.reason.startswith("typed in again")]
    assert [(f.student, f.status) for f in again] == [("S1", SUPERSEDED), ("S2", SUPERSEDED), ("S3", SUPERSEDED)]


@pytest.mark.parametrize("copies", ["first", "best"])
def test_a_correction_counts_whatever_the_rule_for_copies(school, copies):
    school.write_course(f'copies = "{copies}"')
    type_in(school, filled(school, right(school)))
    type_in(
        school,
        filled(school, lambda student, q: right(school)(student, q) if q.kind == NUMBER else None),
        now=NOW + timedelta(hours=1),
    )
    numbers = sum(q.points for q in school.paper("S1").questions if q.kind == NUMBER)
    assert set(school.points(school.outcome(now=NOW.timestamp() + 7200)).values()) == {numbers}


def test_a_student_can_not_make_a_sheet_that_counts_as_typed_in(school):
    school.hand_in("S2", school.answers("S2", right=["moment"]))
    school.mark(now=(DUE + timedelta(days=2)).timestamp())
    answers = school.all_right("S1")
    for key in (school.course.signing_key("S1"), school.course.key("S1"), ""):
        data = answer_sheet.data_of("Test", "S1", "loading", "2026-03-20T00:00:00+00:00", answers, key)
        (school.collected / f"{len(key)}{key[:4]}.answers.json").write_bytes(data)
    outcome = school.mark().outcome
    assert not any(f.typed_in for f in outcome.files)
    assert {f.status for f in outcome.files} >= {NOT_SIGNED}
    remarks = outcome.marks["S1", "loading"].remarks
    assert any("not there yet at a marking after the due date" in remark for remark in remarks)


def test_a_class_that_hands_in_together_is_not_called_alike(school):
    type_in(school, filled(school, right(school), handed_in="2026-03-20"))
    assert likeness.find(school.course, school.outcome()) == []


def test_typed_in_where_one_folder_is_for_all(new_school):
    school = new_school([("S1", "Ann", ""), ("S2", "Bo", "")], 'hand_out = "one for all"\n')
    type_in(school, filled(school, right(school)))
    outcome = school.mark().outcome
    assert set(school.points(outcome).values()) == {school.paper("S1").points}
    assert all(f.typed_in for f in outcome.files)


def test_an_order_is_read_from_top_to_bottom(school):
    q = next(q for q in school.paper("S1").questions if q.kind == ORDER)
    keys = [key for key, _ in q.options]
    wanted = [keys[2], keys[0], keys[1], *keys[3:]]
    for text in ("2 3 1 4 5 6", "231456", "2, 3, 1, 4, 5, 6", "2-3-1-4-5-6"):
        assert typed_in.read_answer(q, text) == wanted
    assert typed_in.read_answer(q, on_paper.given_on_paper(q, q.answer)) == list(q.answer)
