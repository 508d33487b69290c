"""The map of the round: where the stops stand, what is said of them, and that nobody's work is touched or stored."""

import json
import math
import re
from itertools import combinations, pairwise

import pytest
from walkaround import aircraft
from walkaround.assessment.answer_sheet import AnswerSheet, data_of
from walkaround.assessment.questions import paper
from walkaround.classroom import demo_course
from walkaround.exercises import how_far, pocket_list, round_map
from walkaround.exercises.enrolment import Enrolment
from walkaround.exercises.enrolment import data_of as data_of_enrolment
from walkaround.exercises.form import ExerciseForm
from walkaround.exercises.plan_view import HALF_BODY, PlanView
from walkaround.exercises.sources import Source
from walkaround.lessons.table import LESSONS, find

FIRST, SECOND = LESSONS[:2]
CRAFT = aircraft.demo_names()


def answer(folder, who, lesson, right, wrong=()):
    """Answer some questions of a lesson as a student would, right and wrong, by their places."""
    sheet = AnswerSheet(folder, lesson.name, who)
    questions = paper(lesson.questions, who).questions
    for i in right:
        sheet.answered(questions[i].key, demo_course.given(questions[i], questions[i].answer))
    for i in wrong:
        sheet.answered(questions[i].key, demo_course.given(questions[i], questions[i].wrong_turns[0].answer))
    return questions


@pytest.fixture
def begun(tmp_path):
    """Two students' answers: Ines has done the first stop, and begun the second."""
    (tmp_path / "exercises").mkdir()
    folder = tmp_path / "exercises"
    answer(folder, "Tomas Brandvold", FIRST, [0])
    answer(folder, "Ines Okafor", FIRST, range(len(paper(FIRST.questions, "Ines Okafor").questions)))
    answer(folder, "Ines Okafor", SECOND, [0, 1], [2])
    return folder


def test_the_map_says_what_is_done_and_how_well_and_what_comes_next(begun):
    found = round_map(begun).now
    full, some = (paper(x.questions, "Ines Okafor") for x in (FIRST, SECOND))
    earned = sum(q.points for q in some.questions[:2])
    assert (found["student"], found["known"]) == ("Ines Okafor", ["Ines Okafor", "Tomas Brandvold"])
    assert found["stops"][0]["says"] == f"done: {full.points} of {full.points} points"
    assert found["stops"][1]["says"] == (
        f"in work: 2 of {len(some.questions)} questions, {earned} of {some.points} points"
    )
    assert {s["says"] for s in found["stops"][2:]} == {"not begun"}
    assert found["stops"][1]["share"] == pytest.approx(earned / some.points, abs=1e-3)
    assert found["said"] == (
        f"Ines Okafor: 1 of {len(LESSONS)} stops done, 1 in work, {full.points + earned} of {full.points + some.points} "
        f"points in what is begun. Next: stop {SECOND.number}, {SECOND.title}."
    )


def test_another_student_may_look_and_what_was_done_since_is_seen(begun):
    shown = round_map(begun)
    shown.look("Tomas Brandvold")
    assert shown.now["stops"][0]["state"] == how_far.IN_WORK
    answer(begun, "Tomas Brandvold", SECOND, [0])
    shown.look("Tomas Brandvold")
    assert [s["state"] for s in shown.now["stops"][:3]] == [how_far.IN_WORK, how_far.IN_WORK, how_far.NOT_BEGUN]
    shown.look("somebody else")
    assert shown.now["student"] in shown.now["known"]


def test_looking_changes_no_file_whatever_lies_there(begun):
    (begun / f"{SECOND.name}-ines-okafor.answers.json").write_text("{ broken")
    AnswerSheet(begun, LESSONS[2].name, "Ines Okafor", course="of a school").answered("x", "1")
    before = {p.name: p.read_bytes() for p in begun.iterdir()}
    shown = round_map(begun)
    shown.look("Ines Okafor")
    assert [s["state"] for s in shown.now["stops"][:3]] == [how_far.DONE, how_far.NOT_BEGUN, how_far.NOT_BEGUN]
    assert {p.name: p.read_bytes() for p in begun.iterdir()} == before


@pytest.mark.parametrize("owner", ["", "S1"])
def test_in_a_course_nobody_sees_points_of_others_unasked(tmp_path, owner):
    course = Enrolment("Autumn", owner, exercises=((Source(FIRST.name), None),))
    (tmp_path / "enrolment.json").write_bytes(data_of_enrolment(course))
    for who in ("S1", "S2"):
        AnswerSheet(tmp_path, FIRST.name, who, "Autumn").answered(paper(FIRST.questions, who).questions[0].key, "1")
    shown = round_map(tmp_path)
    assert shown.now["student"] == owner
    assert "S2" not in shown.now["said"] + shown.now["pocket"]
    assert [s["state"] for s in shown.now["stops"]].count(how_far.IN_WORK) == bool(owner)
    shown.look("S2")
    assert shown.now["student"] == (owner or "S2")


def test_a_sheet_that_names_nobody_is_passed_over(begun):
    for file, name in (("a", "\ud800x"), ("b", "  "), ("c", "")):
        path = begun / f"{FIRST.name}-{file}.answers.json"
        path.write_bytes(json.dumps(json.loads(data_of("home", "Bo", FIRST.name, "", {})) | {"student": name}).encode())
    assert round_map(begun).now["known"] == ["Ines Okafor", "Tomas Brandvold"]
    assert ExerciseForm(FIRST.name, begun).sheet.student == "Ines Okafor"


def test_what_is_stored_is_the_same_for_everyone_and_has_every_link(begun, tmp_path):
    def stored(folder):
        made = round_map(folder)._repr_mimebundle_()
        data = made[0] if isinstance(made, tuple) else made
        return {kind: data[kind] for kind in ("text/plain", "text/html")}

    found = stored(begun)
    assert found == stored(tmp_path / "none")
    links = re.findall(r'href="([^"]+)"', found["text/html"])
    assert links == [to for x in LESSONS for to in (x.file, f"../exercises/{x.file}")]
    assert re.findall(r'<li value="(\d+)"', found["text/html"]) == [str(x.number) for x in LESSONS]
    assert 'alt="The Morrowlark Four from above' in found["text/html"]


@pytest.mark.parametrize("name", CRAFT)
@pytest.mark.parametrize("more", [[], [(0.1, 0.1)] * 6, [(1.0, 0.0), (0.0, 0.0)]], ids=["table", "crowded", "ends"])
def test_no_stop_covers_another_or_the_aircraft(name, more):
    here = aircraft.demo(name).dimensions
    plan = PlanView(here, [x.place for x in LESSONS] + more)
    nearest = min(math.dist(a[:2], b[:2]) for a, b in combinations(plan.spots, 2))
    # On a phone the drawing is 294 pixels wide, and a number has a circle of 26.
    assert nearest * 294 > (26 if not more else 20)
    width = here.span * (1 + 2 * 0.15)
    for spot in plan.spots:
        x, y = (spot.x - 0.5) * width, spot.y * width - 0.15 * here.span
        assert 0.03 < spot.x < 0.97
        assert 0.03 < spot.y < plan.height - 0.03
        beside_body = abs(x) > HALF_BODY * here.span or not 0 < y < here.tail - here.nose
        ahead, behind = here.wing_leading_edge - here.nose, here.wing_leading_edge - here.nose + here.wing_root_chord
        beside_wing = not (ahead < y < behind) or abs(x) > here.span / 2
        assert beside_body
        assert beside_wing


def test_the_path_runs_clockwise_and_stops_stand_by_what_they_look_at():
    here = aircraft.demo("morrowlark_four").dimensions
    left_wing, nose, right_wing, tail = PlanView(here, [(0.36, -0.8), (0.0, 0.0), (0.36, 0.8), (1.0, 0.0)]).spots
    assert left_wing.x < nose.x < right_wing.x
    assert nose.y < left_wing.y < tail.y
    assert [round(s.at_x - 0.5, 3) for s in (left_wing, nose, right_wing)] == [-0.308, 0.0, 0.308]
    in_order = PlanView(here, [(0.36, -0.8), (0.0, 0.0), (0.36, 0.8), (1.0, 0.0)])
    back = PlanView(here, [(1.0, 0.0), (0.36, 0.8), (0.0, 0.0), (0.36, -0.8)])
    assert in_order._walked < back._walked


def test_the_list_for_the_pocket_takes_from_each_lesson_what_it_takes_out(begun):
    notebooks = pocket_list.Path(__file__).parents[2] / "notebooks"
    page = pocket_list.page("<svg></svg>", how_far.standings(begun, "Ines Okafor"), "Ines <b> Okafor", notebooks)
    assert "Ines &lt;b&gt; Okafor" in page
    for lesson in LESSONS:
        points = pocket_list.taken_out(notebooks / lesson.file)
        assert len(points) >= 4, lesson.name
        assert all(f"<li>{point}</li>" in page for point in points)
        assert not any("**" in point for point in points)
    assert f'{FIRST.title} <span class="state">(done: ' in page
    places = [page.index(f"{x.number} · {x.title}") for x in LESSONS]
    assert all(a < b for a, b in pairwise(places))
    alone = pocket_list.page("", {}, "", begun)
    assert find("loading").question in alone
    assert "not begun" not in alone
