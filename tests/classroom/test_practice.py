"""What was practised is left aside when sheets are collected, whatever its name and whether or not sheets are signed."""

import json
import zipfile
from datetime import timedelta

import pytest
from walkaround.assessment import answer_sheet
from walkaround.assessment.practice_file import PracticeFile
from walkaround.classroom import demo_course, handout
from walkaround.exercises.form import ExerciseForm


def given(question):
    return demo_course.given(question, question.answer)


@pytest.fixture(params=["", 'hand_out = "one for all"'], ids=["signed", "not signed"])
def practised(request, school, tmp_path, monkeypatch):
    """The folder of a student who has answered one question in time, practised the whole exercise, and begun a sitting."""
    monkeypatch.setattr(answer_sheet, "now", lambda: demo_course.stamp(school.due - timedelta(days=1)))
    school.write_course(request.param)
    handout.hand_out(school.course, tmp_path / "out")
    folder = tmp_path / "out" / ("everyone" if request.param else "s1")
    form = ExerciseForm("loading", folder, "S1")
    form.boxes[0].answer(given(form.boxes[0].question))
    form.again("S1")
    for box in form.boxes:
        box.answer(given(box.question))
    form.mixed("S1")
    form.boxes[0].answer(given(form.boxes[0].question))
    return folder


def test_a_whole_folder_handed_in_counts_for_its_sheet_alone(school, practised):
    with zipfile.ZipFile(school.collected / "s1.zip", "w") as archive:
        for path in practised.iterdir():
            archive.write(path, f"s1/{path.name}")
    copy = PracticeFile(practised, "S1", "Test").path.read_bytes() + b"\n"
    (school.collected / "renamed.answers.json").write_bytes(copy)
    outcome = school.outcome()
    assert school.points(outcome) == {"S1": 2.0}
    aside = {f.place: (f.status, f.reason) for f in outcome.files if "not-counted" in f.place or "renamed" in f.place}
    assert aside == {
        "s1.zip › s1/practice-s1.not-counted.json": ("not a sheet", "practice, which does not count"),
        "renamed.answers.json": ("not a sheet", "practice, which does not count"),
    }


def test_practice_dressed_up_as_a_sheet_earns_nothing(school, practised):
    stored = json.loads((practised / "practice-s1.not-counted.json").read_bytes())
    sheet = stored | {"format": answer_sheet.FORMAT, "exercise": "loading"}
    (school.collected / answer_sheet.file_name("loading", "S1")).write_text(json.dumps(sheet), encoding="utf-8")
    assert school.points() in ({}, {"S1": 0.0})
