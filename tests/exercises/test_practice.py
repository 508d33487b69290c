"""Practice on the form: an exercise again with fresh numbers, and mixed practice, which brings slips back until cured."""

import asyncio
from concurrent.futures import ThreadPoolExecutor

import pytest
from walkaround.assessment import kept_paper
from walkaround.assessment.answer_sheet import AnswerSheet
from walkaround.assessment.judging import Rules
from walkaround.assessment.practice_file import PracticeFile
from walkaround.assessment.questions import CHOICE, NUMBER
from walkaround.exercises import enrolment
from walkaround.exercises import form as form_module
from walkaround.exercises.form import ExerciseForm, mixed_practice
from walkaround.exercises.sources import Source
from walkaround.lessons.table import LESSONS

INES, PRACTICE = "Ines Okafor", "practice-ines-okafor.not-counted.json"


def give(box, right=True):
    """Answer a question right, or with its first wrong turn."""
    q = box.question
    answer = q.answer if right else q.wrong_turns[0].answer
    given = f"{answer:.5f}" if q.kind == NUMBER else answer if q.kind == CHOICE else list(answer)
    box.answer(given)


def press(form, act):
    """Press a button below the questions, as its screen side says it."""
    assert act in [name for name, _ in form.foot.now["actions"]]
    form.foot._handle_custom_msg({"act": act}, [])


def said(form):
    return [text for _, text in form.foot.now["said"]]


def texts(form):
    return [box.question.text for box in form.boxes]


@pytest.fixture
def begun(tmp_path):
    """An exercise with one question right and one wrong, then right, and the bytes of its sheet."""
    form = ExerciseForm("oil", tmp_path, INES)
    give(form.boxes[0])
    give(form.boxes[1], right=False)
    give(form.boxes[1])
    return form


def test_an_exercise_is_done_again_with_fresh_numbers_as_often_as_wanted(begun, tmp_path):
    form, counted, before = begun, texts(begun), begun.sheet.path.read_bytes()
    press(form, "again")
    assert "Practice 1 of Ines Okafor, not counted. Question 1 of 12. 0 of 12 done." in form.progress
    assert "nothing here counts" in form.message
    first = texts(form)
    assert sum(a != b for a, b in zip(first, counted, strict=True)) >= 8  # some questions have no numbers
    give(form.boxes[0], right=False)
    assert "point" not in form.boxes[0].said + form.boxes[0].page["title"] + form.boxes[0].now["button"]
    # Back, and on with what was begun; another page finds it too.
    press(form, "counted")
    assert texts(form) == counted
    for page in (form, ExerciseForm("oil", tmp_path)):
        press(page, "again")
        assert texts(page) == first
        assert page.boxes[0].score.tries == 1
    form = page
    give(form.boxes[0])
    for box in form.boxes[1:]:
        give(box)
    assert said(form)[0] == "Done: 11 of 12 right at the first try."
    slip = form.boxes[0].question.wrong_turns[0].slip
    assert said(form)[1] == f"Went wrong: {form.boxes[0].question.title} ({slip}). Mixed practice brings it back."
    press(form, "again")
    assert "Practice 2 of" in form.progress
    assert texts(form) != first
    press(form, "again")  # nothing answered, and still fresh numbers
    assert "Practice 3 of" in form.progress
    assert (tmp_path / "oil-ines-okafor.answers.json").read_bytes() == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["oil-ines-okafor.answers.json", PRACTICE]


@pytest.mark.parametrize("name", [lesson.name for lesson in LESSONS])
def test_every_exercise_can_be_done_again(name, tmp_path):
    form = ExerciseForm(name, tmp_path, INES)
    counted = [box.question for box in form.boxes]
    press(form, "again")
    fresh = [box.question != q for box, q in zip(form.boxes, counted, strict=True)]
    assert sum(fresh) >= 0.8 * len(fresh)  # a question or two may be the same for everyone
    for box in form.boxes:
        give(box)
        assert box.score.right
    assert said(form) == [f"Done: {len(form.boxes)} of {len(form.boxes)} right at the first try."]


def test_mixed_practice_brings_a_slip_back_until_it_is_cured(begun, tmp_path):
    title, slip = begun.boxes[1].question.title, begun.boxes[1].question.wrong_turns[0].slip
    before = begun.sheet.path.read_bytes()
    form = ExerciseForm("", tmp_path)
    assert form.head.page["known"] == [INES]
    assert "1 of them comes back because of a slip." in form.message
    met, ends = [], {}
    for n in range(1, 20):
        assert f"sitting {n}, not counted. Question 1 of 6. 0 of 6 done." in form.progress
        assert said(form) == []
        if any(box.question.title == f"Oil · {title}" for box in form.boxes):
            met.append(n)
        if n == 6:
            give(form.boxes[0])
            form = ExerciseForm("", tmp_path)  # the page was closed half way
            assert "Sitting 6 goes on" in form.message
            assert "Question 2 of 6. 1 of 6 done." in form.progress
        for box in form.boxes:
            give(box)
        ends[n] = said(form)
        press(form, "mixed")
    assert met[:4] == [1, 3, 7, 15]
    assert len(met) > 4  # it is asked again as any other question, and told no more
    assert not any("Cured" in text or "comes back" in text for n in range(16, 20) for text in ends[n])
    slip = f"Oil · {title} ({slip})"
    assert ends[1][:2] == [
        "Sitting 1 is done: 6 of 6 right at the first try.",
        f"Right, 1 of 4 times: {slip}. It comes back in 2 sittings.",
    ]
    assert ends[2][1] == "1 other slip waits: it comes back in the next sitting."
    assert ends[7][1] == f"Right, 3 of 4 times: {slip}. It comes back in 8 sittings."
    assert ends[15][1] == f"Cured: {slip}. Right at the first try all 4 times."
    assert begun.sheet.path.read_bytes() == before


def test_what_goes_wrong_in_a_sitting_comes_back_in_the_next(begun, tmp_path):
    form = ExerciseForm("", tmp_path)
    wrong = form.boxes[0].question
    give(form.boxes[0], right=False)
    form = ExerciseForm("", tmp_path)
    assert "Sitting 1 goes on: 6 questions" in form.message
    assert "back because" not in form.message  # that was said at its beginning
    for box in form.boxes:
        give(box)
    slip = f"{wrong.title} ({wrong.wrong_turns[0].slip})"
    assert any(text.startswith(f"Went wrong: {slip}. It comes back in the next") for text in said(form))
    press(form, "mixed")
    again = next(box.question for box in form.boxes if box.question.title == wrong.title)
    assert again.key == wrong.key
    assert again.text != wrong.text or again.options != wrong.options


def test_more_slips_than_a_sitting_has_room_for_are_told(begun, tmp_path):
    for box in begun.boxes[2:9]:
        give(box, right=False)
    form = ExerciseForm("", tmp_path)
    for box in form.boxes:
        give(box, right=False)
        give(box)
    assert "8 slips are due. A sitting has room for 6: the rest wait." in said(form)
    for _ in range(3):
        press(form, "mixed")
        for box in form.boxes:
            give(box)
    assert not any("has room" in text for text in said(form))


def test_it_draws_from_all_that_was_begun_and_shows_each_scene(begun, tmp_path):
    ExerciseForm("loading", tmp_path, INES).boxes[0].answer("5")
    form = ExerciseForm("fuel", tmp_path, INES)
    press(form, "again")
    give(form.boxes[0])  # begun in practice only
    form = ExerciseForm("", tmp_path)
    assert form.paper is None
    seen = set()
    for _ in range(3):
        for i, box in enumerate(form.boxes):
            form.go_to(i)
            exercise = form.task.asked[i].key.split("/")[1]
            seen.add(exercise)
            scene = enrolment.read(tmp_path).paper(exercise, INES, f"sitting {form.task.number}").scene
            assert form.head.now["scene"] == scene
            give(box)
        press(form, "mixed")
    assert seen == {"oil", "loading", "fuel"}
    form.head.take({"all": True})
    assert len(form.questions.children) == 1
    assert form.head.now["all"] is None


def test_mixed_practice_from_an_exercise_and_back(begun):
    press(begun, "mixed")
    assert "Mixed practice of Ines Okafor, sitting 1" in begun.progress
    press(begun, "counted")
    assert "Paper of Ines Okafor" in begun.progress


def test_two_windows_in_one_sitting_lose_nothing(begun, tmp_path):
    one, two = (ExerciseForm("", tmp_path) for _ in range(2))
    assert texts(one) == texts(two)
    give(one.boxes[0])
    give(two.boxes[1], right=False)
    give(one.boxes[2])
    three = ExerciseForm("", tmp_path)
    assert texts(three) == texts(one)
    assert [box.score.tries for box in three.boxes] == [1, 1, 1, 0, 0, 0]


def test_before_anything_was_begun_it_says_what_to_do(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    form = mixed_practice()
    form.start(INES)
    assert "it draws from the exercises that you have begun, and you have begun none here yet" in form.message
    assert form.boxes == []
    assert form._repr_mimebundle_()["text/plain"] == "Mixed practice: run the cell to begin."
    assert not list(tmp_path.iterdir())


def test_a_broken_file_is_told_and_kept(begun, tmp_path):
    (tmp_path / PRACTICE).write_bytes(b"{")
    form = ExerciseForm("", tmp_path)
    assert "The practice file could not be read" in form.message
    assert (tmp_path / "practice-ines-okafor.not-counted.broken-1.json").read_bytes() == b"{"
    assert len(form.boxes) == 6


def test_a_broken_answer_sheet_is_told_and_left_as_it_is(begun, tmp_path):
    ExerciseForm("loading", tmp_path, INES).boxes[0].answer("5")
    begun.sheet.path.write_bytes(b"{")
    form = ExerciseForm("", tmp_path, INES)
    assert "oil-ines-okafor.answers.json can't be read: its slips are not brought back." in form.message
    assert begun.sheet.path.read_bytes() == b"{"
    assert {a.key.split("/")[1] for a in form.task.asked} == {"loading"}


def test_a_sheet_of_another_course_is_told_and_left_out(begun, tmp_path):
    ExerciseForm("loading", tmp_path, INES).boxes[0].answer("5")
    other = AnswerSheet(tmp_path, "fuel", INES, "Autumn")
    other.answered("order", "5")
    form = ExerciseForm("", tmp_path, INES)
    assert "fuel-ines-okafor.answers.json belongs to someone else or to another course" in form.message
    assert {a.key.split("/")[1] for a in form.task.asked} <= {"loading", "oil"}
    assert AnswerSheet(tmp_path, "fuel", INES, "Autumn").answers == other.answers


def test_a_question_that_can_not_be_made_is_left_out_and_told(begun, tmp_path, monkeypatch):
    ExerciseForm("loading", tmp_path, INES).boxes[0].answer("5")
    whole = enrolment.Enrolment.paper

    def fails(self, exercise, student, practice=""):
        if practice and exercise == "oil":
            raise ValueError("no sound numbers")
        return whole(self, exercise, student, practice)

    monkeypatch.setattr(enrolment.Enrolment, "paper", fails)
    form = ExerciseForm("", tmp_path, INES)
    assert "A question of Oil is left out: no sound numbers." in form.message
    assert {a.key.split("/")[1] for a in form.task.asked} == {"loading"}


def test_practice_that_cannot_be_saved_is_told_and_saved_later(begun, tmp_path, monkeypatch):
    monkeypatch.setattr(form_module, "SAVE_AGAIN_S", 0.02)
    folder = tmp_path / "later"

    async def kernel():
        form = ExerciseForm("oil", folder, INES)
        press(form, "again")
        give(form.boxes[0])
        await asyncio.sleep(0.1)
        assert f"can't be saved to {PRACTICE}" in form.message
        press(form, "counted")
        press(form, "again")
        assert form.boxes[0].score.right
        folder.mkdir()
        await asyncio.sleep(0.2)
        assert "your answers are saved" in form.message
        assert PracticeFile(folder, INES).last_round("oil") == 1

    with ThreadPoolExecutor() as threads:
        threads.submit(asyncio.run, kernel()).result()


def test_a_button_that_is_not_there_does_nothing(begun):
    begun._pressed(act="nonsense")
    begun.head.take({"name": "Someone Else"})
    begun._pressed(act="again")
    assert begun.boxes == []
    assert begun.foot.now["actions"] == []


def enrolled(folder, *sources, **more):
    """Put an enrolment file into a folder."""
    exercises = tuple((source, None) for source in sources)
    made = enrolment.Enrolment("Autumn", "S1", "a key", "another", Rules(), "Ann", exercises, **more)
    (folder / enrolment.FILE).write_bytes(enrolment.data_of(made))


def test_in_a_course_practice_has_no_signature_and_no_numbers_of_the_course(tmp_path):
    enrolled(tmp_path, Source("oil"), Source("loading"))
    form = ExerciseForm("oil", tmp_path)
    give(form.boxes[0])
    before = form.sheet.path.read_bytes()
    press(form, "again")
    assert form.paper.questions == enrolment.Enrolment("Autumn").paper("oil", "S1", "again 1").questions
    for box in form.boxes:
        give(box, right=False)
    press(form, "mixed")
    assert {a.key.split("/")[1] for a in form.task.asked} == {"oil"}
    give(form.boxes[0])
    assert b"signature" not in (tmp_path / "practice-s1.not-counted.json").read_bytes()
    assert AnswerSheet(tmp_path, "oil", "S1", "Autumn", "another").path.read_bytes() == before


def test_where_answers_are_only_kept_there_is_nothing_to_practise(tmp_path):
    home = enrolment.Enrolment("Autumn")
    (tmp_path / "oil.paper.json").write_bytes(kept_paper.data_of(home.paper("oil", "S1")))
    enrolled(tmp_path, Source("oil", paper="oil.paper.json"))
    form = ExerciseForm("oil", tmp_path)
    assert form.boxes
    assert form.foot.now["actions"] == []
    mixed = ExerciseForm("", tmp_path)
    assert "Mixed practice can't be shown: it draws from" in mixed.message
