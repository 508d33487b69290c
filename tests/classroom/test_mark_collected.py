"""What an answer sheet is worth, by the course's rules; which copy counts; what is said about it."""

import contextlib
import json
import math
import os
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from walkaround.assessment import answer_sheet, questions
from walkaround.classroom import demo_course, mark_collected, overrides
from walkaround.lessons import table

DAY = timedelta(days=1)


def one(school, outcome=None, student="S1"):
    return (outcome or school.outcome()).marks[(student, "loading")]


def test_a_score_that_is_claimed_is_not_read(school, changed):
    path = school.hand_in("S1", school.answers("S1", ["moment"]))
    path.write_bytes(changed(path.read_bytes(), score=31, points=31, earned={"go": 3}))
    assert school.points() == {"S1": 2.0}


def test_numbers_of_another_earn_nothing(school):
    others = school.answers(
        "S1", [q.key for q in school.paper("S1").questions if q.kind == "number"], paper=school.paper("S2")
    )
    school.hand_in("S1", others)
    assert school.points()["S1"] <= 4  # two students may share one number


def test_an_id_in_two_cases_is_one_student(school):
    school.hand_in("s1", school.answers("S1", ["moment"], begun=school.due - 3 * DAY))
    school.hand_in("S1", school.answers("S1", ["moment", "go"]), name="again.answers.json")
    outcome = school.outcome()
    assert school.points(outcome) == {"S1": 5.0}
    assert outcome.count("superseded") == 1


def test_tries_beyond_those_allowed_earn_nothing(school):
    answers = school.answers("S1", ["moment"])
    wrong = {"given": "1", "at": answers["moment"]["tries"][0]["at"]}
    answers["moment"]["tries"] = [wrong | {"given": str(i)} for i in range(3)] + answers["moment"]["tries"]
    school.hand_in("S1", answers)
    mark = one(school)
    assert (mark.points, mark.questions[0].right, mark.questions[0].tries) == (0.0, True, 4)
    school.write_course("tries = 4")
    assert one(school).points == 2.0


def test_a_try_that_stands_twice_counts_once(school):
    answers = school.answers("S1", ["moment"])
    right = answers["moment"]["tries"][0]
    answers["moment"]["tries"] = [right | {"given": "1"}] * 5 + [right]
    school.hand_in("S1", answers)
    assert (one(school).points, one(school).tries) == (2.0, 2)


def test_a_worked_answer_seen_first_costs_the_points(school):
    answers = school.answers("S1", ["moment", "go"])
    answers["moment"]["worked_after"] = 0
    school.hand_in("S1", answers)
    assert one(school).points == 3.0
    assert one(school).questions[0].worked


@pytest.mark.parametrize(
    ("after_due", "share", "days"),
    [(-1, 1.0, 0), (0, 1.0, 0), (1, 0.9, 1), (86400, 0.9, 1), (86401, 0.8, 2), (7 * 86400, 0.3, 7)],
)
def test_a_late_answer_loses_its_share_for_each_day_begun(school, after_due, share, days):
    school.write_course("late = { accepted_days = 7, loses_percent_per_day = 10 }")
    answers = school.answers("S1", ["moment", "go"])
    answers["moment"]["tries"][0]["at"] = demo_course.stamp(school.due + timedelta(seconds=after_due))
    school.hand_in("S1", answers)
    mark = one(school)
    assert mark.points == pytest.approx(2 * share + 3)  # what was answered in time is worth all
    assert mark.questions[0].days_late == days
    assert bool(mark.remarks) == bool(days)


def test_after_the_last_day_nothing_is_accepted(school):
    school.write_course("late = { accepted_days = 7 }")
    answers = school.answers("S1", ["moment", "go"])
    answers["moment"]["tries"][0]["at"] = demo_course.stamp(school.due + 7 * DAY + timedelta(seconds=1))
    school.hand_in("S1", answers)
    assert one(school).points == 3.0
    assert "1 answer after the last day" in one(school).remarks[0]


@pytest.mark.parametrize(
    "at",
    [
        "2031-01-01T00:00:00+00:00",
        "1970-01-01T00:00:00+00:00",
        "2026-03-01T00:00:00",
        "yesterday",
        "",
        "0001-01-01T00:00:00+23:59",
        "9999-12-31T23:59:59-23:59",
    ],
)
def test_a_time_that_can_not_be_is_the_time_of_collection(school, at):
    school.write_course("late = { accepted_days = 60, loses_percent_per_day = 1 }")
    answers = school.answers("S1", ["moment"])
    answers["moment"]["tries"][0]["at"] = at
    school.hand_in("S1", answers)
    mark = one(school)  # first collected 23 days and 18 hours after it was due
    assert mark.points == pytest.approx(2 * 0.76)
    assert "1 answer with a time that can't be right: counted as given when first collected" in mark.remarks[0]
    school.write_course("late = { accepted_days = 14 }")
    assert one(school).points == 0.0


def test_an_exercise_may_have_its_own_date_and_points(school):
    school.write_course(exercises='[[exercises]]\nname = "loading"\npoints = 100\ndue = 2026-03-01T00:00:00Z\n')
    school.hand_in("S1", school.all_right("S1", begun=school.due - 20 * DAY))
    assert one(school).points == one(school).of == 100.0
    assert one(school).questions[0].days_late > 0


@pytest.mark.parametrize(("rule", "points"), [("last", 3.0), ("best", 5.0), ("first", 2.0)])
def test_which_copy_counts(school, rule, points):
    school.write_course(f'copies = "{rule}"')
    for i, keys in enumerate((["moment"], ["moment", "go"], ["go"])):
        school.hand_in("S1", school.answers("S1", keys, begun=school.due - (9 - i) * DAY), name=f"{i}.answers.json")
    outcome = school.outcome()
    assert one(school, outcome).points == points
    assert sorted(f.status for f in outcome.files) == ["marked", "superseded", "superseded"]
    assert all("copy counts that is" in f.reason for f in outcome.files if f.status == "superseded")


def test_a_record_begun_anew_is_said(school):
    first = school.answers("S1", slips=["moment"], begun=school.due - 3 * DAY)
    school.hand_in("S1", first, name="a.answers.json")
    school.hand_in("S1", school.answers("S1", ["moment"]))
    assert "another copy holds 1 try that the one counted lacks" in one(school).remarks[-1]
    # One that goes on from the first holds its tries too.
    gone_on = school.answers("S1", ["moment"])
    gone_on["moment"]["tries"] = first["moment"]["tries"] + gone_on["moment"]["tries"]
    school.hand_in("S1", gone_on)
    assert one(school).remarks == ()


def test_the_same_file_again_is_superseded_whatever_it_is(school):
    path = school.hand_in("S1", school.answers("S1", ["moment"]))
    for name in ("copy of it.json", "z/again.answers.json"):
        (school.collected / name).parent.mkdir(exist_ok=True)
        (school.collected / name).write_bytes(path.read_bytes())
    for name in ("a.txt", "b.txt"):
        (school.collected / name).write_bytes(b"no sheet")
    outcome = school.outcome()
    assert {f.reason for f in outcome.files if f.status == "superseded"} == {"the same as copy of it.json"}
    files = {f.place: f.status for f in outcome.files}
    assert sorted(files.values()) == ["marked", "not a sheet", "not a sheet", "superseded", "superseded"]
    assert files["a.txt"] == files["b.txt"] == "not a sheet"


def test_a_group_s_sheet_is_the_mark_of_each_member(school):
    school.write_course('hand_out = "each group"')
    school.hand_in("A", school.answers("A", ["moment"]))
    school.mark()
    assert {i: r["points"] for i, r in school.gradebook().items()} == {"S1": "2", "S2": "0", "S3": "2"}


def test_an_exercise_set_for_another_group_is_not_marked(school):
    school.write_course(exercises='[[exercises]]\nname = "loading"\ngroups = ["A"]\n')
    school.hand_in("S2", {})
    assert [(f.status, f.reason) for f in school.outcome().files] == [
        ("wrong course", "this exercise is not set for S2")
    ]
    school.mark()
    status = {i: r["loading status"] for i, r in school.gradebook().items()}
    assert status == {"S1": "not handed in", "S2": "not set", "S3": "not handed in"}


def test_an_exercise_at_fault_stops_nobody_else(school):
    (school.folder / "odd.py").write_text(
        "from walkaround.assessment.questions import *\nNAME, TITLE = 'odd', 'Odd'\n\n\ndef write(variant):\n"
        "    x = 1 / (0 if variant.student == 'S2' else 1)\n"
        "    q = Question('q', NUMBER, 't', 'x', x, 1, 'h', (), tolerance=0.1)\n"
        "    return Paper(NAME, TITLE, variant.student, variant.course, (q,))\n"
    )
    school.write_course(exercises='[[exercises]]\nname = "odd"\nquestions = "odd.py"\n')
    for student in ("S1", "S2"):
        school.hand_in(student, school.answers("S1", ["q"], exercise="odd"), exercise="odd")
    outcome = school.outcome()
    assert {f.student: f.status for f in outcome.files} == {"S1": "marked", "S2": "not marked"}
    assert "odd.py, line 6: ZeroDivisionError" in next(f.reason for f in outcome.files if f.status == "not marked")


def test_nothing_that_was_handed_in_is_run(school):
    (school.collected / "questions.py").write_text("raise SystemExit('run')")
    sign = school.collected / "was-run"
    (school.collected / "odd.py").write_text(f"open({str(sign)!r}, 'w')")
    school.hand_in("S1", {"moment": {"tries": [{"given": "__import__('os').abort()", "at": "x"}]}})
    assert {f.status for f in school.outcome().files} == {"not a sheet", "marked"}
    assert not sign.exists()


def test_marking_again_changes_nothing_and_neither_does_the_clock(school):
    school.write_course("late = { accepted_days = 60 }")
    answers = school.answers("S1", ["moment", "go"])
    answers["go"]["tries"][0]["at"] = demo_course.stamp(school.due + 300 * DAY)  # in the future when first collected
    school.hand_in("S1", answers)
    school.mark()
    before = {p: (p.stat().st_mtime_ns, p.read_bytes()) for p in (school.folder / "results").rglob("*") if p.is_file()}
    assert one(school).points == 5.0
    school.mark(now=school.now + 400 * 86400.0)  # by now that day has passed
    assert {
        p: (p.stat().st_mtime_ns, p.read_bytes()) for p in (school.folder / "results").rglob("*") if p.is_file()
    } == before


def test_many_processes_give_what_one_gives(school, monkeypatch):
    for i, student in enumerate(("S1", "S2", "S3")):
        school.hand_in(student, school.answers(student, ["moment", "go"][: i + 1]))
    for i in range(30):
        (school.collected / f"{i}.answers.json").write_bytes(school.sheet(f"X{i}", {}))
    by_one = school.outcome()
    monkeypatch.setattr(mark_collected, "FEW", 10)
    monkeypatch.setattr(mark_collected, "CHUNK", 4)
    progress = []
    assert school.outcome(workers=2, progress=lambda done, total: progress.append((done, total))) == by_one
    assert progress == [(done, 33) for done in (*range(4, 33, 4), 33)]


def test_a_process_that_dies_loses_no_sheet(school, monkeypatch):
    for i in range(12):
        (school.collected / f"{i}.answers.json").write_bytes(school.sheet(f"X{i}", {}))
    by_one = school.outcome()
    monkeypatch.setattr(mark_collected, "FEW", 4)
    monkeypatch.setattr(mark_collected, "CHUNK", 2)
    # The name of a folder is no exit code: every process ends with an error before it has marked anything.
    monkeypatch.setattr(mark_collected, "_start_helper", os._exit)
    assert school.outcome(workers=2) == by_one


def test_a_mark_by_hand_stays_with_its_reason(school):
    school.hand_in("S1", school.answers("S1", ["moment"]))
    school.mark()
    overrides.set_by_hand(school.course, "s1", "loading", "12,5", "=the stick broke")
    overrides.set_by_hand(school.course, "S2", "loading", "3", "by word of mouth")
    for _ in range(2):
        school.hand_in("S1", school.answers("S1", ["moment", "go"]))
        school.mark()
        rows = school.gradebook()
        assert (rows["S1"]["points"], rows["S1"]["loading status"]) == ("12.5", "by hand")
        assert rows["S1"]["remarks"].startswith("loading: 12.5 by hand instead of 5: =the stick broke")
        assert (rows["S2"]["points"], rows["S3"]["points"]) == ("3", "0")


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("S9,loading,3,x", "the id 'S9' is not in the roster"),
        ("S1,flying,3,x", "the exercise is 'flying'; allowed: loading"),
        ("S1,loading,32,x", "points are '32'; allowed: 0 to 31"),
        ("S1,loading,nan,x", "points are 'nan'"),
        (f"S1,loading,{math.nextafter(31, 32)!r},x", "allowed: 0 to 31"),
        (f"S1,loading,{math.nextafter(0, -1)!r},x", "allowed: 0 to 31"),
        ("S1,loading,3,", "the reason is missing"),
    ],
)
def test_a_mark_by_hand_that_can_not_be_is_left_out_with_its_line(school, line, says):
    (school.folder / "overrides.csv").write_text(
        f"id;exercise;points;reason\nS2;loading;1;fine\n{line.replace(',', ';')}\n"
    )
    found, notices = overrides.read(school.course)
    assert list(found) == [("S2", "loading")]
    assert says in notices[0]
    assert "line 3" in notices[0]


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda x: st.lists(x, max_size=3) | st.dictionaries(st.text(max_size=5), x),
    max_leaves=8,
)
tries = st.lists(st.fixed_dictionaries({"given": json_values, "at": json_values}) | json_values, max_size=4)
entries = (
    st.fixed_dictionaries({"tries": tries | json_values, "hint": json_values, "worked_after": json_values})
    | json_values
)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(answers=st.dictionaries(st.sampled_from(["moment", "go", "moves", "steps", "shift", "else"]), entries))
def test_any_answers_at_all_are_marked_within_bounds(school, answers):
    course = school.course
    content = {
        "format": "walkaround answer sheet",
        "version": 1,
        "course": "Test",
        "student": "S1",
        "exercise": "loading",
        "answers": answers,
    }
    data = json.dumps(content)
    with contextlib.suppress(ValueError):  # a sheet that can't be read can't be signed
        content["signature"] = answer_sheet.sign(answer_sheet.parse(data.encode()), course.signing_key("S1"))
    data = json.dumps(content)
    file = mark_collected.NewFile("x.answers.json", data.encode("utf-8", "surrogatepass"), "digest", school.now)
    entry, mark = mark_collected.mark_file(course, file)
    assert entry.status in ("marked", "damaged")
    assert mark is None or 0 <= mark.points <= 31


def test_papers_are_the_form_s_own(school):
    paper = questions.paper(table.find("loading").questions, "S1", "Test", school.course.key("S1"))
    assert paper.questions == school.paper("S1").questions
