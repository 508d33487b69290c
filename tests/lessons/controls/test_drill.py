"""The drill asks what has one right answer, scores what was answered within the minute, and takes a hand's answer once."""

import pytest
from walkaround import aircraft
from walkaround.lessons import controls as lesson
from walkaround.lessons.controls.drill_demo import Answers, item_at, items
from walkaround.live.controls import slider
from walkaround.live.status import NOTE, OK, STOP

SECTION = aircraft.demo("morrowlark_four").control_surfaces
EVERY = items("wheel", SECTION.rigging)
# Common practice, no source, written down by hand.
RIGHT = {
    "Wheel right: must the left aileron": "down", "Wheel right: must the right aileron": "up",
    "Wheel left: must the left aileron": "up", "Wheel left: must the right aileron": "down",
    "Wheel back: must the elevator": "up", "Wheel forward: must the elevator": "down",
    "Right pedal: must the rudder": "right", "Left pedal: must the rudder": "left",
    "Trim to nose up: must the trim tab": "down", "Trim to nose down: must the trim tab": "up",
    "In flight, with the left aileron down and the right aileron up": "right",
    "In flight, with the left aileron up and the right aileron down": "left",
    "In flight, with the elevator up": "up", "In flight, with the elevator down": "down",
    "In flight, with the rudder right": "right", "In flight, with the rudder left": "left",
    "In flight, with the trim tab down": "up", "In flight, with the trim tab up": "down",
}  # fmt: skip


@pytest.fixture
def stage():
    return lesson.drill()


def answer(stage, right=True):
    """Answer what is asked now, as a screen does."""
    given, runs = stage.values["answer"], stage.values["clock"] > 0
    place = len([at for at, _ in given if (at > 0) == runs])
    item = item_at(EVERY, stage.values["round"] * (1 if runs else -1), place)
    control = stage.controls["answer"]
    control.memory = (0, -1.0)  # the hand has let go
    stage._take(stage, {"set": {"answer": item.answer if right else -item.answer}}, [])
    return item


def test_every_question_has_the_answer_that_is_taught():
    assert len(EVERY) == len(RIGHT)
    for item in EVERY:
        (word,) = (way for begins, way in RIGHT.items() if item.question.startswith((f"{begins} go", f"{begins}:")))
        assert item.answer == (1 if word in ("up", "right") else -1)
        assert item.fact.endswith(f" {word}")
        assert f"{word}" in item.question.rsplit(" ", 3)[1] + item.question.rsplit(" ", 3)[3]


def test_a_stick_is_called_a_stick():
    assert not any("heel" in item.question for item in items("stick", SECTION.rigging))
    assert "Stick" in lesson.drill("tansy_two").words + "".join(i.question for i in items("stick", SECTION.rigging))


def test_each_question_comes_once_before_any_comes_again():
    for number in (1, 2, 77):
        for turn in range(2):
            asked = [item_at(EVERY, number, turn * len(EVERY) + i) for i in range(len(EVERY))]
            assert sorted(i.question for i in asked) == sorted(i.question for i in EVERY)
    assert [item_at(EVERY, 1, i) for i in range(6)] != [item_at(EVERY, 2, i) for i in range(6)]


def test_a_minute_with_two_mistakes(stage):
    missed = []
    for i in range(20):
        stage.set(clock=1.0 + 2.5 * i)
        item = answer(stage, right=i not in (4, 11))
        assert stage.verdict == (STOP if i in (4, 11) else OK)
        assert stage.words.startswith("Wrong. Next: " if i in (4, 11) else "Right. Next: ")
        assert stage.more.startswith(f"The {'right' if i in (4, 11) else 'last'} answer: {item.fact}.")
        missed += [item.about] if i in (4, 11) else []
    stage.set(clock=60)
    assert stage.words == "Sixty seconds are over: 18 of 20 right."
    assert stage.verdict == OK
    assert all(about in stage.more for about in missed)
    answer(stage)
    assert "18 of 20" in stage.words


def test_too_few_or_too_many_mistakes_reach_no_mark(stage):
    for count, wrong in ((11, ()), (20, (1, 2, 3))):
        stage.set(clock=0)
        for i in range(count):
            stage.set(clock=0.5 + 2.5 * i)
            answer(stage, right=i not in wrong)
        stage.set(clock=60)
        assert stage.verdict == NOTE
        assert f"{count - len(wrong)} of {count} right" in stage.words


def test_practice_counts_for_nothing_and_a_new_start_begins_anew(stage):
    answer(stage, right=False)
    answer(stage)
    assert "1 of 2 right" in stage.more
    stage.set(clock=0.5)
    answer(stage)
    assert "1 of 1 right" in stage.more
    stage.set(clock=30)
    answer(stage)
    assert "2 of 2 right" in stage.more
    stage.set(clock=0)
    assert stage.values["answer"] == ()
    assert stage.more.startswith("→ or ↑")


def test_the_picture_shows_what_is_asked_and_the_score(stage):
    before = stage.pixels.copy()
    answer(stage)
    assert (stage.pixels != before).any()
    assert stage.live.picture._told.get_text() == "1 of 1\npractice"
    stage.set(clock=30)
    assert stage.live.picture._told.get_text() == "0 of 0\n30 s left"
    asked = [label.get_text() for label in stage.live.picture._labels.values() if label.get_text()]
    assert len(asked) in (1, 7)


def test_a_hand_that_does_not_let_go_answers_once():
    now = [100.0]
    made = Answers(slider("clock", "s", 0, 60, 0, 0.5), lambda: now[0])
    made.take(1)
    for _ in range(20):
        now[0] += 0.1
        made.take(1)  # the slider went back, and the hand that holds it moves a pixel
    assert made.value == ((0, 1),)
    now[0] += 0.5
    made.take(1)
    now[0] += 0.05
    made.take(-1)
    made.take(0)
    assert made.value == ((0, 1), (0, 1), (0, -1))
    assert made.shown() == 0


def test_answers_stay_when_the_next_tick_is_worked_out_ahead(stage):
    stage.send = lambda content, buffers=None: None
    stage.set(clock=3.0)
    answer(stage)
    stage._take(stage, {"set": {"clock": 3.5}, "next": {"clock": 4.0}}, [])
    assert stage.values["clock"] == 3.5
    assert len(stage.values["answer"]) == 1
    stage._take(stage, {"set": {"clock": 4.0}, "next": {"clock": 4.5}}, [])
    assert "1 of 1 right" in stage.more


def test_an_answer_that_is_only_worked_out_ahead_is_not_held_for_given(stage):
    stage.send = lambda content, buffers=None: None
    for content in ({"set": {"answer": 0}, "next": {"answer": 1}}, {"set": {"clock": 1}}, {"set": {"answer": 1}}):
        stage._take(stage, content, [])
    assert [way for _, way in stage.values["answer"]] == [1]
