"""What was collected once counts on, wherever the next marking looks; and when it came says what was late."""

from datetime import timedelta

import pytest
from walkaround.__main__ import main
from walkaround.classroom import collected_before
from walkaround.classroom.results import WouldVanishError, mark_and_write

DAY_S = 86_400.0


def sticks(school, tmp_path):
    """Two folders outside the course, with a sheet each."""
    for name, student in (("a", "S1"), ("b", "S2")):
        (tmp_path / name).mkdir()
        school.hand_in(student, school.all_right(student)).rename(tmp_path / name / "x.answers.json")
    return tmp_path / "a", tmp_path / "b"


def marked_from(school, folder, **more):
    return mark_and_write(school.course, [folder], **{"now": school.now, "workers": 1} | more)


def test_a_second_folder_adds_to_the_first(school, tmp_path):
    one, two = sticks(school, tmp_path)
    marked_from(school, one)
    (one / "x.answers.json").unlink()  # the stick has been given back
    done = marked_from(school, two)
    assert school.points(done.outcome) == {"S1": 31.0, "S2": 31.0}
    assert {f.place for f in done.outcome.files} == {"x.answers.json", "x.answers.json (collected before)"}
    assert any("no longer there: S1 (loading)" in n for n in done.notices)
    before = school.results()
    marked_from(school, two, now=school.now + 1e6)
    assert school.results() == before


def test_forgetting_is_asked_for_and_says_which_marks_went(school, tmp_path, capsys):
    one, two = sticks(school, tmp_path)
    marked_from(school, one)
    assert main(["mark", str(school.folder), "--from", str(two), "--forget"]) == 0
    assert "These marks are gone: S1 (loading)." in capsys.readouterr().out
    assert main(["mark", str(school.folder)]) == 0
    assert {i: r["points"] for i, r in school.gradebook().items()} == {"S1": "0", "S2": "31", "S3": "0"}


def test_marks_never_vanish_by_themselves(school):
    school.hand_in("S1", school.all_right("S1"))
    school.mark()
    before = school.results()
    text = (school.folder / "course.toml").read_text()
    (school.folder / "course.toml").write_text(text.replace("a secret of", "no secret of"))
    with pytest.raises(WouldVanishError, match=r"these marks would vanish: S1 \(loading\)"):
        school.mark()
    assert school.results() == before
    done = school.mark(forget=True)
    assert school.gradebook()["S1"]["loading status"] == "not handed in"
    assert any("These marks are gone: S1 (loading)" in n for n in done.notices)


def test_a_sheet_kept_half_is_passed_over(school):
    path = school.hand_in("S1", school.all_right("S1"))
    school.mark()
    (kept,) = (school.folder / "results" / collected_before.FOLDER).iterdir()
    kept.write_bytes(kept.read_bytes()[:100])
    assert school.points(school.mark().outcome) == {"S1": 31.0}  # it is still where it was collected
    kept.write_bytes(b"")
    path.unlink()
    with pytest.raises(WouldVanishError):
        school.mark()


def late(school, **more):
    settings = {"accepted_days": 30, "loses_percent_per_day": 10} | more
    listed = ", ".join(f"{k} = {str(v).lower()}" for k, v in settings.items())
    school.write_course(f"late = {{ {listed} }}")


def test_what_was_not_there_at_a_marking_after_the_due_date_is_late(school):
    late(school)
    due = school.due.timestamp()
    school.hand_in("S2", school.answers("S2", ["moment"]))
    school.mark(now=due + 1.5 * DAY_S)
    school.hand_in("S1", school.answers("S1", ["moment"]))  # its own times say: a day before the due date
    done = school.mark(now=due + 5 * DAY_S)
    assert school.points(done.outcome) == {"S2": 2.0, "S1": pytest.approx(2 * 0.8)}
    mark = done.outcome.marks["S1", "loading"]
    assert mark.questions[0].days_late == 2
    assert "1 answer not there yet at a marking after the due date: counted as given then" in mark.remarks
    assert school.mark(now=due + 9 * DAY_S).outcome == done.outcome
    late(school, by_collection=False)
    assert school.points() == {"S2": 2.0, "S1": 2.0}


def test_after_the_last_day_a_set_back_clock_helps_nobody(school):
    late(school, accepted_days=3)
    due = school.due.timestamp()
    school.hand_in("S2", school.answers("S2", ["moment"]))
    school.mark(now=due + 4 * DAY_S)
    school.hand_in("S1", school.answers("S1", ["moment"]))
    done = school.mark(now=due + 5 * DAY_S)
    assert school.points(done.outcome) == {"S2": 2.0, "S1": 0.0}


def test_answers_that_came_with_an_earlier_sheet_stay_in_time(school):
    late(school)
    due = school.due.timestamp()
    school.hand_in("S1", school.answers("S1", ["moment"]))
    school.mark(now=due + 60)
    school.hand_in("S2", school.answers("S2", ["moment"]))
    school.mark(now=due + DAY_S / 2)
    school.hand_in("S1", school.answers("S1", ["moment", "go"]))  # gone on, with the clock set back
    done = school.mark(now=due + 5 * DAY_S)
    assert school.points(done.outcome) == {"S1": pytest.approx(2 + 3 * 0.9), "S2": pytest.approx(2 * 0.9)}


def test_the_first_collection_after_the_due_date_makes_nothing_late(school):
    late(school)
    for student in ("S1", "S2"):
        school.hand_in(student, school.answers(student, ["moment"]))
    school.mark(now=(school.due + timedelta(days=3)).timestamp())
    assert school.points() == {"S1": 2.0, "S2": 2.0}


def test_answers_of_a_late_sheet_get_no_later_with_the_next(school):
    late(school)
    due = school.due.timestamp()
    school.hand_in("S2", school.answers("S2", ["moment"]))
    school.mark(now=due + 60)
    school.hand_in("S1", school.answers("S1", ["moment"]))
    assert school.points(school.mark(now=due + 1.5 * DAY_S).outcome)["S1"] == pytest.approx(2 * 0.9)
    school.hand_in("S1", school.answers("S1", ["moment", "go"]))
    done = school.mark(now=due + 2.5 * DAY_S)
    assert school.points(done.outcome)["S1"] == pytest.approx(2 * 0.9 + 3 * 0.8)


def test_a_late_file_that_is_no_sheet_stops_nobody(school):
    late(school)
    due = school.due.timestamp()
    school.hand_in("S2", school.answers("S2", ["moment"]))
    school.mark(now=due + 60)
    school.collected.joinpath("notes.txt").write_text("no sheet")
    done = school.mark(now=due + DAY_S)
    assert {f.place: f.status for f in done.outcome.files}["notes.txt"] == "not a sheet"
    assert school.points(done.outcome) == {"S2": 2.0}
