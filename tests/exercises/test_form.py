"""A student plays through a whole exercise by the form, right and wrong, and finds it again."""

import asyncio
from concurrent.futures import ThreadPoolExecutor

import pytest
from walkaround.assessment.answer_sheet import AnswerSheet, file_name
from walkaround.assessment.judging import AT_HOME, Rules, tries_allowed
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER
from walkaround.exercises import form as form_module
from walkaround.exercises import how_far
from walkaround.exercises.answer_box import AnswerBox
from walkaround.exercises.form import ExerciseForm, quick
from walkaround.lessons.table import LESSONS
from walkaround.live.status import OK

NAMES = [lesson.name for lesson in LESSONS]


def begin(form, name):
    """Begin under a name, as the form's screen side says it when a button or Enter is pressed."""
    form.head._handle_custom_msg({"name": name, "press": "begin"}, [])


def entered(question, answer):
    """An answer as it stands in the controls."""
    if question.kind == NUMBER:
        return answer if isinstance(answer, str) else f"{answer:.4f}"
    if question.kind == ORDER:
        return {key: place for place, key in enumerate(answer, 1)}
    return answer if question.kind == CHOICE else [key for key, _ in question.options if key in answer]


def press(box, button, **entered):
    """Press a button of an answer box, as its screen side says it."""
    box._handle_custom_msg({"entry": box.entry, **entered, "press": button}, [])


def give(box, answer):
    """Put an answer into the controls, as a hand would, and press the button."""
    press(box, "check", entry=entered(box.question, answer))


@pytest.mark.parametrize("name", NAMES)
def test_all_right_at_the_first_try(tmp_path, name):
    form = ExerciseForm(name, tmp_path)
    assert "write it the same way each time" in form.message
    begin(form, "Priya Lindqvist")
    for box in form.boxes:
        give(box, box.question.answer)
        assert box.now["said"][0][0] == OK
        assert box.said.startswith("Right")
    assert f"{form.paper.points} of {form.paper.points} points. Full marks!" in form.progress
    assert (tmp_path / file_name(name, "Priya Lindqvist")).exists()
    assert (
        how_far.standings(tmp_path, "priya  lindqvist")[name].says
        == f"done: {form.paper.points} of {form.paper.points} points"
    )


@pytest.mark.parametrize("name", NAMES)
def test_every_wrong_turn_is_named_and_as_many_as_there_are_tries_close_the_question(tmp_path, name):
    form = ExerciseForm(name, tmp_path, "Tomas Brandvold")
    for box in form.boxes:
        turns, tries = box.question.wrong_turns, tries_allowed(box.question, AT_HOME)
        for n in range(tries):
            assert not box.score.closed
            turn = turns[n] if n < len(turns) else turns[0]
            give(box, turn.answer)
            assert turn.says in box.said
        assert box.score.closed
        assert box.score.earned == 0
        assert box.now["worked"] == list(box.question.worked)
        give(box, box.question.answer)
        assert "For practice" in box.said
    assert form.earned == 0
    again = ExerciseForm(name, tmp_path)
    assert again.paper.student == "Tomas Brandvold"
    assert again.earned == 0
    for q in again.paper.questions:
        assert len(again.sheet.answers[q.key]["tries"]) == tries_allowed(q, AT_HOME)


def test_words_and_costs(tmp_path):
    form = ExerciseForm("loading", tmp_path, "Ines Okafor")
    box = form.boxes[0]
    assert box.now["button"] == "Worked answer (costs 2 points)"
    give(box, "12 apples")
    assert "not “apples” after it" in box.said
    assert box.score.tries == 0
    give(box, "")
    assert "nothing to mark yet" in box.said
    give(box, "5")
    assert "2 tries left" in box.said
    press(box, "hint")
    assert "weight times arm" in box.now["hint"]
    give(box, f"{box.question.answer:,.0f} lb-in")
    assert "2 points of 2." in box.said
    second = form.boxes[1]
    press(second, "worked")
    assert second.now["button"] == "Really? It costs 2 points: press again"
    assert not second.score.closed
    press(second, "worked")
    assert "earns 0 of 2 points" in second.said
    assert second.now["button"] == "Worked answer"
    assert second.score.earned == 0
    assert second.score.closed
    assert "1 of 11 done" not in form.progress
    assert "2 of 11 done, 2 of 31 points" in form.progress


def test_the_answers_are_restored(tmp_path):
    form = ExerciseForm("loading", tmp_path, "Ines Okafor")
    give(form.boxes[0], form.boxes[0].question.answer)
    give(form.boxes[1], "5")
    press(form.boxes[1], "hint")
    steps = next(b for b in form.boxes if b.question.kind == ORDER)
    give(steps, steps.question.wrong_turns[0].answer)
    again = ExerciseForm("loading", tmp_path)
    assert again.head.name == "Ines Okafor"
    assert again.place == 1
    assert again.boxes[0].entry == form.boxes[0].entry
    assert "Right" in again.boxes[0].said
    assert again.boxes[1].entry == "5"
    assert "2 tries left" in again.boxes[1].said
    assert again.boxes[1].now["hint"] == again.boxes[1].question.hint
    restored = next(b for b in again.boxes if b.question.kind == ORDER)
    assert restored.given == list(steps.question.wrong_turns[0].answer)


def test_one_at_a_time_or_all(tmp_path):
    form = ExerciseForm("loading", tmp_path, "Ines Okafor")
    assert len(form.questions.children) == 1
    form.head.take({"place": 1})
    assert form.questions.children == (form.boxes[1],)
    assert form.head.now["titles"][1] == "2. " + form.boxes[1].question.title
    form.head.take({"place": 99})
    assert form.head.now["place"] == 10
    form.head.take({"place": 1})
    form.head.take({"all": True})
    assert len(form.questions.children) == 11
    form.head.take({"all": False})
    assert form.questions.children == (form.boxes[1],)
    give(form.boxes[1], form.boxes[1].question.answer)
    assert form.head.now["titles"][1].endswith(", done")


def test_two_people_on_one_computer(tmp_path):
    ExerciseForm("loading", tmp_path, "Ines Okafor").boxes[0].answer("5")
    ExerciseForm("loading", tmp_path, "Tomas Brandvold").boxes[0].answer("6")
    form = ExerciseForm("loading", tmp_path)
    assert form.head.page["known"] == ["Tomas Brandvold", "Ines Okafor"]
    begin(form, "Ines Okafor")
    assert form.boxes[0].entry == "5"


@pytest.mark.parametrize("name", ["", "   ", "…", "--"])
def test_a_name_that_is_none(tmp_path, name):
    form = ExerciseForm("loading", tmp_path)
    form.start(name)
    assert "Write your name first" in form.message
    assert form.boxes == []


def test_another_name_in_the_box_puts_the_paper_away(tmp_path):
    form = ExerciseForm("loading", tmp_path, "Ines Okafor")
    old = form.boxes[0]
    form.head.take({"name": "Tomas Brandvold"})
    assert form.questions.children == ()
    assert "Press Begin to go on as Tomas Brandvold" in form.message
    begin(form, form.head.name)
    assert form.paper.student == "Tomas Brandvold"
    # An answer to a question of the paper before still goes to whom it belongs.
    old.answer("5")
    assert (
        "moment" not in ExerciseForm("loading", tmp_path, "Tomas Brandvold").sheet.answers
        or not form.sheet.answers["moment"]["tries"]
    )
    assert ExerciseForm("loading", tmp_path, "Ines Okafor").sheet.answers["moment"]["tries"][0]["given"] == "5 lb-in"


def test_a_broken_sheet_is_told_before_a_name_is_given(tmp_path):
    (tmp_path / file_name("loading", "Ines")).write_bytes(b"{broken")
    assert "The answer sheet loading-ines.answers.json can't be read" in ExerciseForm("loading", tmp_path).message


def test_a_broken_sheet_is_told(tmp_path):
    (tmp_path / file_name("loading", "Ines")).write_bytes(b"{broken")
    assert "kept as loading-ines.answers.broken-1.json" in ExerciseForm("loading", tmp_path, "Ines").message


def test_an_answer_that_cannot_be_saved_is_told(tmp_path, monkeypatch):
    form = ExerciseForm("loading", tmp_path, "Ines")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("walkaround.assessment.answer_sheet.write_whole", full)
    give(form.boxes[0], "5")
    assert "can't be saved" in form.boxes[0].said


def test_what_a_stored_notebook_shows_names_nobody(tmp_path):
    form = ExerciseForm("loading", tmp_path, "Ines Okafor")
    assert (
        form._repr_mimebundle_()["text/plain"] == "Exercise with 11 questions, 31 points. Run the cell to answer them."
    )


def test_quick_questions(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    box = quick("loading", 1)
    give(box, box.question.answer)
    assert "Right" in box.said
    assert "point" not in box.said + box.now["button"] + box.page["title"]
    assert not list(tmp_path.iterdir())
    with pytest.raises(ValueError, match="number is 9; allowed: 1 to 4"):
        quick("loading", 9)


def test_what_is_entered_is_marked_when_it_is_sent_and_not_before(tmp_path):
    box = ExerciseForm("loading", tmp_path, "Ines").boxes[0]
    box._handle_custom_msg({"entry": "5"}, [])
    assert box.score.tries == 0
    press(box, "check")
    assert box.score.tries == 1


def test_enter_marks_the_text_that_it_carries(tmp_path):
    form = ExerciseForm("loading", tmp_path)
    # Only the message of the key arrives, as when a slow computer has not yet told what stands in the box.
    begin(form, "Ines Okafor")
    assert form.paper.student == "Ines Okafor"
    box = form.boxes[0]
    box._handle_custom_msg({"entry": "2"}, [])
    press(box, "check", entry="2222.5")
    assert [t["given"] for t in form.sheet.answers[box.question.key]["tries"]] == [f"2222.5 {box.question.unit}"]
    assert box.entry == "2222.5"


def test_what_is_typed_is_known_before_the_check_is_pressed_and_is_not_sent_back(tmp_path, monkeypatch):
    sent = []
    box = ExerciseForm("loading", tmp_path, "Ines").boxes[0]
    monkeypatch.setattr(box, "send_state", lambda key=None: sent.append(key))
    for text in ("2", "22", "222"):
        box._handle_custom_msg({"entry": text}, [])
    press(box, "check")
    assert "read as 222 " in box.said
    assert sent == ["now"]  # the entry could overwrite what has been typed since
    box.entry = "5"
    assert sent == ["now", "entry"]


def test_the_same_said_twice_is_shown_twice(tmp_path):
    box = ExerciseForm("loading", tmp_path, "Ines").boxes[0]
    give(box, "")
    before = box.now
    give(box, "")
    assert (box.now["said"], box.now != before) == (before["said"], True)


def test_an_answer_in_between_takes_back_the_first_press_for_the_worked_answer(tmp_path):
    box = ExerciseForm("loading", tmp_path, "Ines").boxes[0]
    press(box, "worked")
    give(box, "5")
    press(box, "worked")
    assert not box.score.closed
    assert "2 tries left" in box.said


@pytest.mark.parametrize("kind", [NUMBER, CHOICE, CHOICES, ORDER])
@pytest.mark.parametrize("given", ["<b>2</b>", "", ["no", "such"], []])
def test_a_sheet_with_an_answer_of_another_kind_opens(kind, given):
    question = next(q for name in NAMES for q in ExerciseForm(name, student="Ines").paper.questions if q.kind == kind)
    record = {"tries": [{"given": given, "at": ""}], "hint": False, "worked_after": None}
    box = AnswerBox(question, 1, record, AT_HOME, lambda *_: "")
    assert box.said.startswith("Not")


def test_an_order_that_is_none_is_not_kept_either(tmp_path):
    form = ExerciseForm("loading", tmp_path, "Ines")
    question = next(q for q in form.paper.questions if q.kind == ORDER)
    rules = Rules(worked_answers=False, kept=True)
    box = AnswerBox(question, 1, {"tries": []}, rules, lambda *_: pytest.fail("it was saved"))
    press(box, "check")
    assert box.said == "Not kept: choose a number for every step first."


def test_without_a_kernel_the_question_stands(tmp_path):
    box = quick("loading", 1)
    assert box._repr_mimebundle_()[0]["text/plain"] == f"Question: {box.question.text}"


@pytest.mark.parametrize(
    ("chosen", "says"),
    [
        ([1, 2, 2, 4, 5], "2 is chosen more than once"),
        ([1, 1, 2, 2, 3], "1 and 2 are chosen more than once"),
        ([0, 1, 2, 3, 4], "choose a number for every step"),
        ([0, 0, 0, 0, 0], "choose a number for every step"),
        ([0, 2, 2, 3, 4], "2 is chosen more than once"),
    ],
)
def test_an_order_that_is_none_is_refused_and_costs_no_try(tmp_path, chosen, says):
    form = ExerciseForm("loading", tmp_path, "Ines")
    box = next(b for b in form.boxes if b.question.kind == ORDER)
    keys = [key for key, _ in box.question.options]
    numbers = chosen + list(range(len(chosen) + 1, len(keys) + 1))
    press(box, "check", entry=dict(zip(keys, numbers, strict=True)))
    assert f"Not marked: {says}" in box.said
    assert box.score.tries == 0
    assert not (tmp_path / file_name("loading", "Ines")).exists()


def saved_answers(folder):
    """Keys of the questions that have a try in Ines's file."""
    return {k for k, r in AnswerSheet(folder, "loading", "Ines").answers.items() if r["tries"]}


def test_a_folder_that_can_not_be_written_is_told_at_begin_and_nothing_is_lost(tmp_path):
    folder = tmp_path / "later"
    form = ExerciseForm("loading", folder)
    begin(form, "Ines")
    assert "can't be saved" in form.message
    assert "No such file or directory" in form.message
    for box in form.boxes:
        give(box, box.question.answer)
        assert "can't be saved" in box.said
    assert "Your answers are in the file" not in form.progress
    # Someone else was here, and Ines goes on: her answers are still there, though no file holds them.
    form.start("Tomas")
    form.start("Ines")
    assert form.earned == form.paper.points
    folder.mkdir()
    press(form.boxes[0], "hint")  # every question is closed: no further answer would save anything
    assert "your answers are saved in loading-ines.answers.json" in form.message
    assert saved_answers(folder) == {box.question.key for box in form.boxes}


def test_answers_are_saved_by_themselves_once_the_folder_can_be_written(tmp_path, monkeypatch):
    monkeypatch.setattr(form_module, "SAVE_AGAIN_S", 0.02)
    folder = tmp_path / "later"

    async def kernel():
        form = ExerciseForm("loading", folder, "Ines")
        give(form.boxes[0], "5")
        give(form.boxes[1], "6")
        await asyncio.sleep(0.1)
        assert "can't be saved" in form.message
        folder.mkdir()
        await asyncio.sleep(0.2)
        assert "your answers are saved" in form.message
        assert saved_answers(folder) == {box.question.key for box in form.boxes[:2]}
        assert form._waiting == []

    # In a thread of its own: after browser tests this one may have a loop running.
    with ThreadPoolExecutor() as threads:
        threads.submit(asyncio.run, kernel()).result()


def test_a_full_disk_is_told_and_everything_is_saved_when_there_is_room(tmp_path, monkeypatch):
    form = ExerciseForm("loading", tmp_path, "Ines")

    def full(*_):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as m:
        m.setattr("os.replace", full)
        give(form.boxes[0], "5")
        assert "No space left on device" in form.message
        give(form.boxes[1], "6")
    assert saved_answers(tmp_path) == set()
    press(form.boxes[2], "hint")
    assert saved_answers(tmp_path) == {box.question.key for box in form.boxes[:2]}
    assert "your answers are saved" in form.message
