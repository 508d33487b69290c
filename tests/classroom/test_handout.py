"""What a student gets: the same every time, theirs alone, and enough to do the exercise."""

import io
import json
import zipfile
from datetime import timedelta

import nbformat
import pytest
from walkaround.classroom import demo_course, handout
from walkaround.exercises import enrolment
from walkaround.exercises.form import ExerciseForm


def everything(folder):
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_the_same_course_and_roster_give_the_same_bytes(school, tmp_path):
    handout.hand_out(school.course, tmp_path / "one")
    handout.hand_out(school.course, tmp_path / "two")
    assert everything(tmp_path / "one") == everything(tmp_path / "two")
    assert handout.hand_out(school.course, tmp_path / "one").changed == 0


def test_a_late_joiner_changes_nothing_for_the_rest(school, tmp_path):
    handout.hand_out(school.course, tmp_path / "out")
    before = everything(tmp_path / "out")
    roster = school.folder / "roster.csv"
    roster.write_text(roster.read_text().replace("S1,", "S0,Late Lou,B\nS1,"))
    handout.hand_out(school.course, tmp_path / "out")
    after = everything(tmp_path / "out")
    own = {f"s0/{name}" for name in ("enrolment.json", "exercise-loading.ipynb", "read-me-first.txt")}
    assert {k for k in after if after[k] != before.get(k)} == {"s0.zip", "list.csv", *own}
    assert set(before) <= set(after)


def test_a_student_gets_nothing_of_another_and_not_the_secret(school, tmp_path):
    handout.hand_out(school.course, tmp_path)
    keys = {s: school.course.key(s) for s in ("S1", "S2", "S3")}
    for student in keys:
        mine = b"".join(data for name, data in everything(tmp_path).items() if name.startswith(student.lower()))
        assert keys[student].encode() in mine
        for other, key in keys.items():
            assert other == student or key.encode() not in mine
        assert school.course.file.secret.encode() not in mine


def test_the_zip_holds_what_the_folder_holds(school, tmp_path):
    handout.hand_out(school.course, tmp_path)
    with zipfile.ZipFile(tmp_path / "s1.zip") as z:
        inside = {name.removeprefix("test/"): z.read(name) for name in z.namelist()}
    assert inside == everything(tmp_path / "s1")


def test_the_form_in_the_folder_asks_what_marking_marks(school, tmp_path):
    school.write_course("late = { accepted_days = 3650 }")  # it is answered now, whenever that is
    handout.hand_out(school.course, tmp_path)
    form = ExerciseForm("loading", tmp_path / "s2")
    assert form.paper.questions == school.paper("S2").questions
    for box in form.boxes:
        box.answer(demo_course.given(box.question, box.question.answer))
    school.collected.rmdir()
    (tmp_path / "s2").rename(school.collected)
    assert school.points(school.outcome(now=None)) == {"S2": form.paper.points}


def test_worked_answers_wait_for_the_due_date_when_the_course_says_so(school, tmp_path):
    school.write_course("worked_answers_before_due = false\ntries = 2")
    handout.hand_out(school.course, tmp_path)
    read = enrolment.read(tmp_path / "s1")
    assert read.rules_for("loading", school.due - timedelta(seconds=1)).worked_answers is False
    assert read.rules_for("loading", school.due + timedelta(seconds=1)).worked_answers is True
    assert read.rules_for("loading").tries == 2


def test_the_form_shows_no_worked_answer_before_the_due_date(school, tmp_path):
    text = (school.folder / "course.toml").read_text().replace("2026-03-27", "2999-03-27")
    (school.folder / "course.toml").write_text("worked_answers_before_due = false\n" + text)
    handout.hand_out(school.course, tmp_path)
    form = ExerciseForm("loading", tmp_path / "s1")
    box = form.boxes[0]
    assert box.page["worked"] is False
    for given in ("1", "2", "3", demo_course.given(box.question, box.question.answer)):
        box.answer(given)
        assert box.now["worked"] == []


def test_notebooks_are_sound_and_say_the_rules(school, tmp_path):
    school.write_course("tries = 2")
    handout.hand_out(school.course, tmp_path)
    book = nbformat.read(tmp_path / "s1" / "exercise-loading.ipynb", as_version=4)
    nbformat.validate(book)
    assert "2 tries" in book.cells[0].source
    assert "27 March 2026 at 18:00 (UTC)" in book.cells[0].source
    assert all(len(c.source.splitlines()) == 1 for c in book.cells if c.cell_type == "code")


@pytest.mark.parametrize(
    ("name", "tries", "fewer"), [("decision", 3, True), ("decision", 1, False), ("loading", 3, False)]
)
def test_the_notebook_says_whether_some_questions_take_fewer_tries(school, name, tries, fewer):
    school.write_course(f"tries = {tries}", f'[[exercises]]\nname = "{name}"\n')
    assert (b"takes fewer tries; it says how many" in handout.notebook(school.course, name, None)) == fewer


def test_a_group_gets_what_is_set_for_it(school, tmp_path):
    more = '[[exercises]]\nname = "loading"\ngroups = ["b"]\n'
    school.write_course(exercises=more)
    made = handout.hand_out(school.course, tmp_path)
    assert made.folders == ("s2",)
    assert len([n for n in made.notices if "no exercise is set for" in n]) == 2


def test_one_folder_for_all_asks_for_the_id_and_holds_no_key(school, tmp_path):
    school.write_course('hand_out = "one for all"')
    assert handout.hand_out(school.course, tmp_path).folders == ("everyone",)
    read = enrolment.read(tmp_path / "everyone")
    assert (read.student, read.key) == ("", "")
    form = ExerciseForm("loading", tmp_path / "everyone")
    assert form.paper is None
    form.head.take({"name": "s3", "press": "begin"})
    assert form.paper.questions == school.paper("S3").questions


def test_an_own_question_set_is_handed_out_with_its_file(school, tmp_path):
    from walkaround.classroom import question_sets

    question_sets.new(school.folder, "wind")
    school.write_course(exercises=question_sets.entry("wind"))
    handout.hand_out(school.course, tmp_path)
    assert ExerciseForm("wind", tmp_path / "s1").paper.questions == school.paper("S1", "wind").questions


def test_folders_of_others_and_answers_stay(school, tmp_path):
    handout.hand_out(school.course, tmp_path)
    (tmp_path / "s1" / "loading-s1.answers.json").write_text("mine")
    roster = school.folder / "roster.csv"
    roster.write_text("id,name,group\nS1,Ann Lee,A\n")
    handout.hand_out(school.course, tmp_path)
    assert (tmp_path / "s1" / "loading-s1.answers.json").read_text() == "mine"
    assert (tmp_path / "s2" / "enrolment.json").exists()


@pytest.mark.parametrize("student", ["../../x", "/etc/passwd", "a/b", "CON", "ü" * 80, "..a"])
def test_ids_never_lead_out_of_the_folder(new_school, tmp_path, student):
    school = new_school([(student, "X", "")])
    out = tmp_path / "deep" / "er" / "out"
    handout.hand_out(school.course, out)
    assert {p.parent for p in out.glob("*.zip")} == {out}
    assert sorted(p.name for p in (tmp_path / "deep").rglob("*.zip")) == [p.name for p in out.glob("*.zip")]
    with zipfile.ZipFile(next(out.glob("*.zip"))) as z:
        assert not any(".." in n or n.startswith("/") for n in z.namelist())


def test_a_damaged_enrolment_is_said_and_never_taken_for_home(school, tmp_path):
    handout.hand_out(school.course, tmp_path)
    path = tmp_path / "s1" / "enrolment.json"
    whole = path.read_bytes()
    in_words = whole.replace(b'"tries": 3', b'"tries": "x"')
    outside = whole.replace(b'"questions": ""', b'"questions": "../x.py"')
    for damage in (whole[:50], b"[]", b"[" * 100_000, in_words, outside, b"\xff\xfe", b"0" * 300_000):
        path.write_bytes(damage)
        with pytest.raises(ValueError, match=r"is not as it was|is too large"):
            enrolment.read(path.parent)
        form = ExerciseForm("loading", path.parent)
        assert form.paper is None
        assert "be shown: enrolment.json" in form.message


def test_an_enrolment_is_read_as_it_was_written(school):
    party = school.course.parties[0]
    written = school.course.enrolment(party)
    assert enrolment.parse(enrolment.data_of(written)) == written


def test_zips_are_made_without_a_clock():
    files = {"b": b"2", "a": b"1"}
    assert handout.zipped("top", files) == handout.zipped("top", dict(reversed(files.items())))
    with zipfile.ZipFile(io.BytesIO(handout.zipped("top", files))) as z:
        assert [(i.filename, i.date_time[0]) for i in z.infolist()] == [("top/a", 1980), ("top/b", 1980)]


def test_enrolment_is_plain_json(school):
    d = json.loads(enrolment.data_of(school.course.enrolment(school.course.parties[0])))
    assert d["student"] == "S1"
    assert d["exercises"][0]["due"] == "2026-03-27T18:00:00+00:00"
