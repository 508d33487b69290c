"""Times at their limits: the last moment that counts and the first that does not, as near as a sheet tells them."""

import math
from datetime import timedelta

import pytest
from walkaround.assessment import answer_sheet
from walkaround.classroom import demo_course, sheet_marks
from walkaround.classroom.sheet_marks import mark_sheet

LEAST = timedelta(milliseconds=1)  # what an answer sheet tells apart


@pytest.fixture
def marked(school):
    """Mark a sheet of S1 with the questions `moment` and `go` answered right at these times."""

    def mark(moment, go=None, first_seen=school.now):
        answers = school.answers("S1", ["moment", "go"])
        answers["moment"]["tries"][0]["at"] = demo_course.stamp(moment)
        answers["go"]["tries"][0]["at"] = demo_course.stamp(go or moment)
        course = school.course
        return mark_sheet(course, course.party("S1"), answer_sheet.parse(school.sheet("S1", answers)), first_seen)

    return mark


@pytest.mark.parametrize(("after_due", "days"), [(-LEAST, 0), (0 * LEAST, 0), (LEAST, 1)])
@pytest.mark.parametrize("day", range(8))
def test_a_day_late_begins_when_the_day_before_has_ended(school, marked, after_due, days, day):
    school.write_course("late = { accepted_days = 8, loses_percent_per_day = 10 }")
    mark = marked(school.due + timedelta(days=day) + after_due, school.due)
    days = max(0, day + days) if day else days
    assert mark.questions[0].days_late == days
    assert mark.points == pytest.approx(2 * (1 - days / 10) + 3, abs=1e-12)


@pytest.mark.parametrize("days", [0, 0.1, 0.7, 1 / 3, 7])
def test_an_answer_is_accepted_up_to_the_last_moment(school, marked, days):
    school.write_course(f"late = {{ accepted_days = {days!r} }}")
    last = school.due + timedelta(days=days)
    assert marked(last, school.due).points == 5
    late = marked(last + LEAST, school.due)
    assert late.points == 3
    assert "1 answer after the last day" in late.remarks[0]


def test_a_time_is_believed_from_the_start_of_the_course_on(school, marked):
    begun = school.due - timedelta(days=30)
    school.write_course(f"starts = {begun.isoformat()}")
    assert marked(begun).remarks == ()
    assert "2 answers with a time that can't be right" in marked(begun - LEAST).remarks[0]


def test_a_time_is_believed_up_to_a_day_after_the_sheet_was_collected(school, marked):
    last = school.due
    collected = last.timestamp() - 24 * 3600
    assert marked(last, first_seen=collected).remarks == ()
    before = marked(last, first_seen=math.nextafter(collected, -math.inf))
    assert "2 answers with a time that can't be right" in before.remarks[0]
    assert before.points == 5  # they count, and as on time


def test_a_gap_is_a_pause_when_it_is_longer_than_twenty_minutes(school, marked):
    begun = school.due - timedelta(days=1)
    gap = timedelta(minutes=20)
    assert marked(begun, begun + gap).minutes == pytest.approx(20)
    assert marked(begun, begun + gap + LEAST).minutes == 0


@pytest.mark.parametrize(
    ("given", "number"), [("1,240 lb", 1240.0), ("heavy", None), (["1", "2"], None), ("1e999", None), (None, None)]
)
def test_an_answer_is_a_number_or_none(school, marked, given, number):
    assert marked(school.due).questions[0]._replace(given=given, unit="lb").given_number == number


def test_a_question_that_fails_for_one_student_costs_that_question(school, monkeypatch):
    def failing(question, record, rules, in_other_units):
        if question.key == "go" and question.answer == answers["S1"]["go"]:
            raise ZeroDivisionError("division by zero")
        return score(question, record, rules, in_other_units)

    score, answers = sheet_marks.score, {"S1": {q.key: q.answer for q in school.paper("S1").questions}}
    school.hand_in("S1", school.all_right("S1"))
    monkeypatch.setattr(sheet_marks, "score", failing)
    row = school.mark().rows[0]
    worth = school.paper("S1").question("go").points
    assert row.points == 31 - worth
    said = "the question 'go' could not be marked and counts nothing (ZeroDivisionError: division by zero)"
    assert row.standings[0].remarks == [said]
    assert "This question could not be marked" in (school.folder / "results/feedback/s1.html").read_text("utf-8")


OWN = """
NAME = "own"
TITLE = "Own"
from walkaround.assessment.builders import number
from walkaround.assessment.questions import Paper
def write(variant):
    if variant.student == "S1":
        raise KeyError("S1 fails")
    made = number(key="a", title="A", text="A?", answer=5.0, unit="lb", tolerance=0.5, points=3, hint="h", worked="w")
    return Paper("own", "Own", variant.student, variant.course, (made,))
"""


def test_an_exercise_that_fails_for_one_student_is_said_and_the_others_are_marked(school):
    (school.folder / "own.py").write_text(OWN)
    school.write_course(exercises='[[exercises]]\nname = "own"\nquestions = "own.py"\n')
    right = {"a": {"tries": [{"given": "5", "at": "2026-03-01T12:00:00+00:00"}], "hint": False, "worked_after": None}}
    for student in ("S1", "S2"):
        school.hand_in(student, right, "own")
    results = school.mark()
    assert {r.student.id: r.points for r in results.rows} == {"S1": 0, "S2": 3, "S3": 0}
    assert [f.reason for f in results.outcome.files if f.status == "not marked"] == [
        "the exercise is at fault: own.py, line 8: KeyError: 'S1 fails'"
    ]
