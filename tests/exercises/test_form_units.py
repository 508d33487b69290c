"""An exercise in other units: the same questions and answers, kept so that they are marked the same."""

import json

import pytest
from walkaround import measures
from walkaround.assessment.answer_sheet import file_name
from walkaround.assessment.judging import score
from walkaround.assessment.questions import paper
from walkaround.exercises.form import ExerciseForm, quick
from walkaround.lessons.loading import questions
from walkaround.live import units_choice

pytestmark = pytest.mark.usefixtures("own_choice_of_units")


def begin(form, name):
    form.head._handle_custom_msg({"name": name, "press": "begin"}, [])


def press(box, button, **entered):
    box._handle_custom_msg({"entry": box.entry, **entered, "press": button}, [])


def kept(folder, student):
    sheet = json.loads((folder / file_name("loading", student)).read_text(encoding="utf-8"))
    return {key: [t["given"] for t in record["tries"]] for key, record in sheet["answers"].items()}


def test_what_is_answered_in_metric_units_is_kept_with_its_unit_and_counts(tmp_path):
    form = ExerciseForm("loading", tmp_path)
    begin(form, "Ines Okafor")
    form._pressed(units=[system for _, system in units_choice.CHOICES].index(measures.METRIC))
    assert "kg" in str(form.head.now["table"])
    box = form.boxes[0]
    assert box.page["unit"] == "kg-m"
    press(box, "check", entry=f"{box.shown.answer:.2f}")
    assert box.said.startswith(f"Right, read as {box.shown.answer:,.2f}".rstrip("0").rstrip("."))
    assert kept(tmp_path, "Ines Okafor")["moment"] == [f"{box.shown.answer:.2f} kg-m"]
    # Whoever marks the sheet has the paper as it is written, and comes to the same.
    as_written = paper(questions, "Ines Okafor").question("moment")
    assert (
        score(as_written, {"tries": [{"given": kept(tmp_path, "Ines Okafor")["moment"][0]}]}).earned
        == box.score.earned
        > 0
    )


def test_an_answer_given_in_one_system_stands_in_the_other(tmp_path):
    form = ExerciseForm("loading", tmp_path)
    begin(form, "Ines Okafor")
    box = form.boxes[0]
    press(box, "check", entry=f"{box.question.answer:.0f}")
    units_choice.choose(measures.METRIC)
    assert box.said.startswith("Right")
    assert box.score.right
    press(form.boxes[1], "check", entry="1 lb")
    assert "this question asks for kg, you wrote lb" in form.boxes[1].said
    assert "fuel weight" not in kept(tmp_path, "Ines Okafor")  # asked back, so no try was lost
    units_choice.choose(None)
    assert form.boxes[1].page["unit"] == "lb"


def test_what_is_entered_and_not_yet_checked_stays_in_other_units(tmp_path):
    form = ExerciseForm("loading", tmp_path)
    begin(form, "Ines Okafor")
    number, answered = form.boxes[:2]
    picked = next(box for box in form.boxes if box.shown.kind == "choice")
    key = picked.shown.options[1][0]
    press(number, None, entry="70,5 ")
    press(picked, None, entry=key)
    press(answered, "check", entry="180 ")
    units_choice.choose(measures.METRIC)
    assert (number.entry, picked.entry) == ("70,5 ", key)
    assert answered.entry == "180 lb"  # and not 180 kg, which was never said
    press(answered, None, entry="81")
    units_choice.choose(None)
    assert (number.entry, picked.entry, answered.entry) == ("70,5 ", key, "81")
    assert kept(tmp_path, "Ines Okafor") == {"fuel weight": ["180 lb"]}


def test_a_slip_in_metric_units_is_told(tmp_path):
    units_choice.choose(measures.METRIC)
    form = ExerciseForm("loading", tmp_path)
    begin(form, "Ines Okafor")
    for box in form.boxes:
        for turn in box.shown.wrong_turns if box.shown.kind == "number" else ():
            press(box, "check", entry=f"{turn.answer:.4f}")
            assert "Not right" in box.said


def test_titles_name_the_units_that_are_chosen(tmp_path):
    form = ExerciseForm("controls", tmp_path)
    begin(form, "Ines Okafor")
    units_choice.choose(measures.METRIC)
    titles = [box.page["title"] for box in form.boxes], form.head.now["titles"]
    assert all(any("Newtons at the tail in millimetres of CG" in title for title in shown) for shown in titles)
    assert "Pounds" not in str(titles)


def test_a_quick_question_follows_the_choice():
    asked = quick("loading", 1)
    assert asked.page["unit"] == "lb-in"
    units_choice.choose(measures.METRIC)
    assert asked.page["unit"] == "kg-m"
    press(asked, "check", entry=f"{asked.shown.answer:.3f}")
    assert asked.said.startswith("Right")
