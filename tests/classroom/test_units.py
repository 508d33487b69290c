"""A course in metric units: handed out, answered and marked in them, whatever a student chooses to see."""

import pytest
from walkaround import measures
from walkaround.classroom import analysis, handout
from walkaround.exercises.form import ExerciseForm
from walkaround.live import units_choice

METRIC = 'units = "metric"\nlate = { accepted_days = 3650 }'


pytestmark = pytest.mark.usefixtures("own_choice_of_units")


def answer_all(form):
    for box in form.boxes:
        kind, answer = box.shown.kind, box.shown.answer
        given = f"{answer:.5f}" if kind == "number" else answer
        box.answer(
            sorted(given) if isinstance(given, frozenset) else list(given) if isinstance(given, tuple) else given
        )


@pytest.mark.parametrize("chosen", [None, measures.US])
@pytest.mark.parametrize("kind", ["homework", "kept"])
def test_a_metric_course_marks_alike_what_is_answered_in_either_system(school, tmp_path, chosen, kind):
    school.write_course(METRIC, exercises=f'[[exercises]]\nname = "loading"\nkind = "{kind}"\n')
    handout.hand_out(school.course, tmp_path / "out")
    units_choice.choose(chosen)
    form = ExerciseForm("loading", tmp_path / "out" / "s1")
    made = school.paper("S1")
    assert made.question("fuel weight").unit == "kg"
    shown = form.boxes[[q.key for q in made.questions].index("fuel weight")].shown
    assert shown.unit == ("lb" if chosen else "kg")
    if kind == "kept":
        with measures.shown_in(chosen or measures.METRIC):
            right = school.course.paper("loading", "S1", chosen or measures.METRIC)
        for box, q in zip(form.boxes, right.questions, strict=True):
            places = {key: str(i) for i, (key, _) in enumerate(q.options, 1)}
            given = f"{q.answer:.5f}" if q.kind == "number" else q.answer
            given = [places[k] for k in given] if isinstance(given, frozenset | tuple) else places.get(given, given)
            box.answer(given)
    else:
        answer_all(form)
        assert "Full marks!" in form.progress
    school.collected.mkdir(exist_ok=True)
    form.sheet.path.rename(school.collected / form.sheet.path.name)
    assert school.points(school.mark(now=None).outcome)["S1"] == made.points


def all_answered(school, tmp_path):
    handout.hand_out(school.course, tmp_path / "out")
    form = ExerciseForm("loading", tmp_path / "out" / "s1")
    answer_all(form)
    school.collected.mkdir(exist_ok=True)
    form.sheet.path.rename(school.collected / form.sheet.path.name)


@pytest.mark.parametrize(("before", "after"), [(METRIC, METRIC.replace("metric", "US")), (METRIC[16:], METRIC)])
def test_a_course_that_changes_its_units_in_the_middle_of_a_term_takes_no_points_away(school, tmp_path, before, after):
    school.write_course(before)
    all_answered(school, tmp_path)
    school.write_course(after)
    assert school.points(school.mark(now=None).outcome)["S1"] == school.paper("S1").points


def test_an_answer_stands_as_it_was_typed_when_the_form_is_opened_again(school, tmp_path):
    school.write_course(METRIC)
    handout.hand_out(school.course, tmp_path / "out")
    ExerciseForm("loading", tmp_path / "out" / "s1").boxes[1].answer("70,5")
    assert ExerciseForm("loading", tmp_path / "out" / "s1").boxes[1].entry == "70,5"


def test_what_was_handed_out_before_there_was_a_choice_still_opens(school, tmp_path):
    handout.hand_out(school.course, tmp_path / "out")
    path = tmp_path / "out" / "s1" / "enrolment.json"
    assert '"units"' not in path.read_text(encoding="utf-8")
    assert ExerciseForm("loading", tmp_path / "out" / "s1").enrolled.units is None


def test_a_course_names_what_units_may_be(school):
    school.write_course('units = "stones"')
    with pytest.raises(ValueError, match=r"units.*stones.*allowed.*US.*metric"):
        school.course  # noqa: B018


@pytest.mark.parametrize("course_has", [METRIC[16:], METRIC])
def test_a_slip_of_units_is_in_the_report_whatever_units_it_was_made_in(school, tmp_path, course_has):
    """What the form told the student stands in the report too, even where the course's own units don't know it."""
    school.write_course(course_has)
    handout.hand_out(school.course, tmp_path / "out")
    units_choice.choose(measures.US if course_has == METRIC else measures.METRIC)
    form = ExerciseForm("loading", tmp_path / "out" / "s1")
    box = next(box for box in form.boxes if box.question.key == "fuel weight")
    known = {turn.slip for turn in school.paper("S1").question("fuel weight").wrong_turns}
    turn = next(t for t in box.shown.wrong_turns if t.slip not in known)
    box.answer(f"{turn.answer:.6g}")
    assert turn.says in box.said
    school.collected.mkdir(exist_ok=True)
    form.sheet.path.rename(school.collected / form.sheet.path.name)
    assert [(s.name, s.students) for s in analysis.analyse(school.course, school.mark().rows)[0].slips] == [
        (turn.slip, 1)
    ]
