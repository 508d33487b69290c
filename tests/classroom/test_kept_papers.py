"""Papers without answers: what is handed out can't tell an answer, the form only keeps, the desk marks."""

import json

import pytest
from walkaround.assessment import kept_paper
from walkaround.assessment.questions import NUMBER, paper
from walkaround.classroom import demo_course, handout
from walkaround.exercises.form import ExerciseForm
from walkaround.lessons.table import LESSONS

BOTH = "".join(f'[[exercises]]\nname = "{n}"\nkind = "kept"\n' for n in ("loading", "pitot_static"))


@pytest.fixture
def kept(school, tmp_path):
    school.write_course("late = { accepted_days = 3650 }", BOTH)
    handout.hand_out(school.course, tmp_path / "out")
    school.student = tmp_path / "out" / "s1"
    return school


def by_place(question, answer):
    """An answer as the form holds it: options by their places."""
    places = {key: str(n) for n, (key, _) in enumerate(question.options, 1)}
    given = demo_course.given(question, answer)
    return [places[g] for g in given] if isinstance(given, list) else places.get(given, given)


def test_what_is_handed_out_tells_no_answer(kept):
    files = {p.name: p.read_bytes().decode() for p in kept.student.iterdir()}
    assert set(files) == {
        "enrolment.json",
        "read-me-first.txt",
        "exercise-loading.ipynb",
        "exercise-pitot_static.ipynb",
        "loading.paper.json",
        "pitot_static.paper.json",
    }
    for e in kept.course.exercises:
        made = kept.paper("S1", e.name)
        text = files[f"{e.name}.paper.json"]
        for q in made.questions:
            assert json.dumps(q.text, ensure_ascii=False) in text
            secret = [*q.worked, q.hint, *(t.says for t in q.wrong_turns if t.says), *(t.slip for t in q.wrong_turns)]
            options = [option for _, option in q.options]
            assert not [s for s in secret if s and s not in options and json.dumps(s, ensure_ascii=False) in text]
        names = {name for q in json.loads(text)["questions"] for name in q}
        assert names == {"key", "kind", "title", "text", "unit", "points", "table", "options"}
    # Neither the key in the enrolment nor anything else in the folder gives the same numbers.
    enrolled = json.loads(files["enrolment.json"])
    for key in (enrolled["key"], enrolled["signing_key"], ""):
        made = paper(LESSONS[0].questions, "S1", "Test", key)
        assert made.questions[0].text not in files["loading.paper.json"]


def test_the_files_of_the_course_s_own_questions_stay_with_the_course(school, tmp_path):
    school.write_course(exercises='[[exercises]]\nname = "bags"\nkind = "kept"\nquestions = "bags.py"\n')
    (school.folder / "bags.py").write_bytes(demo_course.TEMPLATE.read_bytes())
    handout.hand_out(school.course, tmp_path / "out")
    assert not list((tmp_path / "out").rglob("*.py"))
    form = ExerciseForm("bags", tmp_path / "out" / "s1")
    assert [b.question.text for b in form.boxes] == [q.text for q in school.paper("S1", "bags").questions]


@pytest.mark.parametrize("name", ["loading", "pitot_static"])
def test_the_form_keeps_and_the_desk_marks(kept, name):
    form = ExerciseForm(name, kept.student)
    made = kept.paper("S1", name)
    assert [b.question.text for b in form.boxes] == [q.text for q in made.questions]
    for box, q in zip(form.boxes, made.questions, strict=True):
        box.answer(by_place(q, q.wrong_turns[0].answer))
        assert box.said.startswith("Kept.")
        box.answer(by_place(q, q.answer))  # the last answer counts
        assert box.said.startswith("Kept.")
        for word in ("right", "Right", "point", "tries", "Worked"):
            assert word not in box.said
        assert box.now["worked"] == []
        assert box.now["hint"] == ""
    assert "Full marks" not in form.progress
    assert "kept for your instructor to mark" in form.progress
    again = ExerciseForm(name, kept.student)
    assert all(box.said.startswith("Kept.") for box in again.boxes)
    form.sheet.path.rename(kept.collected / form.sheet.path.name)
    done = kept.mark(now=None)
    assert kept.points(done.outcome) == {"S1": made.points}
    assert made.questions[0].text in kept.results()["feedback/s1.html"].decode().replace("&#39;", "'")


def test_only_the_last_answer_counts(kept):
    form, made = ExerciseForm("loading", kept.student), kept.paper("S1")
    for box, q in zip(form.boxes, made.questions, strict=True):
        box.answer(by_place(q, q.answer))
        box.answer(by_place(q, q.wrong_turns[0].answer))
    form.sheet.path.rename(kept.collected / form.sheet.path.name)
    mark = kept.outcome(now=None).marks["S1", "loading"]
    assert mark.points == 0
    assert all(q.tries == 1 for q in mark.questions)


def test_what_can_not_be_read_or_can_be_read_in_two_ways_is_not_kept(kept):
    form = ExerciseForm("loading", kept.student)
    box = next(b for b in form.boxes if b.question.kind == NUMBER)
    for given, says in (("twelve", "Not kept: "), ("1,655", "can be read in two ways"), ("", "Not kept: ")):
        box.answer(given)
        assert says in box.said
    assert box.question.key not in form.sheet.answers or not form.sheet.answers[box.question.key]["tries"]


def test_the_paper_is_for_one_student(kept):
    form = ExerciseForm("loading", kept.student, "S2")
    assert "the questions here are those of S1" in form.message


@pytest.mark.parametrize("damage", [b"", b"{}", b"[]", b"\xff", b'{"format": "walkaround paper", "version": 1}'])
def test_a_damaged_paper_is_said_in_words(kept, damage):
    (kept.student / "loading.paper.json").write_bytes(damage)
    assert "not as it was handed out" in ExerciseForm("loading", kept.student).message


def test_one_folder_for_all_can_not_have_them(school):
    school.write_course('hand_out = "one for all"', BOTH)
    with pytest.raises(ValueError, match='can\'t have an exercise with kind = "kept"'):
        _ = school.course


def test_the_notebook_says_what_is_done_with_answers(kept):
    text = (kept.student / "exercise-loading.ipynb").read_text()
    assert "your instructor marks them" in text
    assert "worked answer" not in text.casefold()


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda x: x.name)
def test_a_paper_is_read_as_it_was_written(lesson):
    made = paper(lesson.questions, "S1")
    read = kept_paper.parse(kept_paper.data_of(made))
    assert [(q.key, q.text, q.table, q.unit, q.points) for q in read.questions] == [
        (q.key, q.text, q.table, q.unit, q.points) for q in made.questions
    ]
    assert (read.scene, read.scene_table, read.student) == (made.scene, made.scene_table, made.student)
