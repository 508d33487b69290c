"""The exercise on towing: its answers by hand from the text and the table, and the slips that it tells apart."""

import math
import re

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper
from walkaround.lessons.table import LESSONS, show
from walkaround.lessons.towing import questions

STUDENTS = [f"Student {i}" for i in range(20)]
PAPERS = [paper(questions, student) for student in STUDENTS]
every = pytest.mark.parametrize("asked", PAPERS, ids=STUDENTS)


def numbers(text, *patterns):
    """Numbers that stand in place of # in pieces of a text."""
    found = (re.search(re.escape(p).replace(r"\#", r"(−?[\d,]*\.?\d+)"), text) for p in patterns)
    return tuple(float(piece[1].replace(",", "").replace("−", "-")) for piece in found)


def given(asked):
    """Weight, wheelbase, span, tail, limit of the angle, limit of the leg, off the table of the scene."""
    return [numbers(cell, "#")[0] for _, cell in asked.scene_table[1:]]


def right(asked, key, value):
    result = mark(asked.question(key), f"{value:.2f}")
    assert result.right is True, (key, value, result.says)


def slip(asked, key, value):
    result = mark(asked.question(key), f"{value:.6f}")
    assert result.right is False
    return result.slip


def driven(wheelbase, angle, ahead, right, distance):
    """Where a point of the airframe is while the nose wheel rolls, by scipy; starts at 0, 0 and northwards."""
    held = math.radians(angle)

    def change(_s, now):
        return math.cos(held) * math.sin(now[2]), math.cos(held) * math.cos(now[2]), math.sin(held) / wheelbase

    way = np.linspace(0, distance, 400)
    x, y, heading = solve_ivp(change, (0, distance), [0, 0, 0], t_eval=way, rtol=1e-9, atol=1e-9).y
    sin, cos = np.sin(heading), np.cos(heading)
    return x + ahead * sin + right * cos, y + ahead * cos - right * sin


def test_questions_of_all_four_kinds():
    assert len(PAPERS[0].questions) >= 8
    assert {q.kind for q in PAPERS[0].questions} == {NUMBER, CHOICE, CHOICES, ORDER}


@every
def test_the_pull_by_hand(asked):
    weight, *_, leg = given(asked)
    rises, rolls = numbers(asked.question("slope").text, "rises by # %", "take # %")
    # By the sine and the cosine, which the question leaves out: it must make no difference.
    angle = math.atan(rises / 100)
    right(asked, "slope", weight * (math.sin(angle) + rolls / 100 * math.cos(angle)))
    assert slip(asked, "slope", weight * rises / 100) == "forgot the wheels"
    mains, share = numbers(asked.question("brake").text, "carry # lb", "reaches # %")
    right(asked, "brake", mains * share / 100)
    assert slip(asked, "brake", weight * share / 100) == "the whole weight"
    share, mains = numbers(asked.question("breaks").text, "slide at # %", "of the # lb")
    assert asked.question("breaks").answer == ("breaks" if share / 100 * mains > leg else "holds")


@every
def test_rolling_away_in_small_steps(asked):
    falls, rolls, feet = numbers(asked.question("away").text, "falls by # %", "take # %", "after # ft")
    speed = way = 0.0
    while way < feet * 0.3048:
        speed += 9.80665 * (falls - rolls) / 100 * 0.001
        way += speed * 0.001
    right(asked, "away", speed * 3600 / 1852)


@every
def test_the_turn_by_driving_it(asked):
    _, wheelbase, span, tail, *_ = given(asked)
    (angle,) = numbers(asked.question("radius").text, "held at #°")
    x, _y = driven(wheelbase, angle, 0, 0, math.pi * wheelbase / math.sin(math.radians(angle)))
    right(asked, "radius", (x.max() - x.min()) / 2)
    (middle,) = numbers(asked.question("tip").text, "radius of # ft")
    held = math.degrees(math.atan(wheelbase / middle))
    half = math.pi * wheelbase / math.sin(math.radians(held))
    x, _y = driven(wheelbase, held, 0, -span / 2, half)
    right(asked, "tip", np.ptp(x) / 2)
    (middle,) = numbers(asked.question("swing").text, "turns on # ft")
    held = math.degrees(math.atan(wheelbase / middle))
    x, y = driven(wheelbase, held, -tail, 0, half)
    right(asked, "swing", np.hypot(x - middle, y).mean() - middle)
    (middle,) = numbers(asked.question("inner").text, "radius of # ft")
    held = math.degrees(math.atan(wheelbase / middle))
    _x, y = driven(wheelbase, held, 0, span / 2, 0.1)
    assert asked.question("inner").answer == ("forward" if y[-1] > 0 else "back")


@every
def test_the_tightest_turn_that_the_marks_allow(asked):
    _, wheelbase, _, _, limit, _ = given(asked)
    q = asked.question("limit")
    needs = {key: math.degrees(math.atan2(wheelbase, float(text.split()[0]))) for key, text in q.options}
    assert q.answer == max((key for key in needs if needs[key] <= limit), key=needs.get)
    assert min(abs(angle - limit) for angle in needs.values()) > 1


@every
def test_what_is_near_by_driving_it(asked):
    _, wheelbase, span, *_ = given(asked)
    door, off = numbers(asked.question("door").text, "door is # ft", "but # ft")
    right(asked, "door", door / 2 - off - span / 2)
    assert slip(asked, "door", door - span - off) == "both sides for one"
    angle, away, rule = numbers(asked.question("pump").text, "held at #°", "outside it, # ft", "rule is # ft")
    x, y = driven(wheelbase, angle, 0, -span / 2, 6)
    gap = away - np.hypot(x - wheelbase / math.tan(math.radians(angle)), y).max()
    assert asked.question("pump").answer == ("touches" if gap < 0 else "near" if gap < rule else "clear")
    assert min(abs(gap), abs(gap - rule)) > 0.5, "a question of rounding"
    ahead, angle = numbers(asked.question("begin").text, "door is # ft", "held at #°")
    quarter = math.pi / 2 * wheelbase / math.sin(math.radians(angle))
    _x, y = driven(wheelbase, angle, 0, 0, quarter)
    right(asked, "begin", ahead - y[-1])


@every
def test_slips_are_told_from_the_text(asked):
    weight, wheelbase, span, tail, *_ = given(asked)
    _rises, rolls = numbers(asked.question("slope").text, "rises by # %", "take # %")
    assert slip(asked, "slope", weight * rolls / 100) == "forgot the slope"
    mains, share = numbers(asked.question("brake").text, "carry # lb", "reaches # %")
    assert slip(asked, "brake", (weight - mains) * share / 100) == "the nose wheel's load"
    falls, feet, gravity, knot = numbers(
        asked.question("away").text, "falls by # %", "after # ft", "2 × # ×", "1 kt is # ft/s"
    )
    assert slip(asked, "away", math.sqrt(2 * gravity * feet * falls / 100) / knot) == "forgot the wheels"
    (angle,) = numbers(asked.question("radius").text, "held at #°")
    assert slip(asked, "radius", wheelbase * math.tan(math.radians(angle))) == "multiplied"
    (middle,) = numbers(asked.question("tip").text, "radius of # ft")
    assert slip(asked, "tip", middle + span) == "the whole span"
    assert slip(asked, "tip", abs(span / 2 - middle)) == "the inner tip"
    (middle,) = numbers(asked.question("swing").text, "turns on # ft")
    assert slip(asked, "swing", math.hypot(middle, tail)) == "radius for swing"
    assert slip(asked, "swing", tail) == "the whole tail"
    assert slip(asked, "swing", middle + tail) == "added"
    ahead, angle = numbers(asked.question("begin").text, "door is # ft", "held at #°")
    assert slip(asked, "begin", ahead) == "forgot the turn"


def test_every_answer_is_asked_of_someone():
    asked = [paper(questions, f"Student {i}") for i in range(50)]
    for key, answers in (("breaks", 2), ("inner", 2), ("limit", 3), ("pump", 3)):
        assert len({a.question(key).answer for a in asked}) == answers
    assert {len(a.question("crew").answer) for a in asked} == {2, 3, 4}  # no number to learn by heart


@pytest.mark.parametrize("student", ["Student 89", "Example Student 71", "Example Student 73"])
def test_what_gives_way_first_is_no_near_thing(student):
    # The nose wheel, which the question leaves out, rolls at 2 % of its load and adds about 1 % to the pull.
    share, mains = numbers(paper(questions, student).question("breaks").text, "slide at # %", "of the # lb")
    assert abs(share / 100 * mains / 780 - 1) > 0.05


@every
def test_people_and_steps(asked):
    q = asked.question("crew")
    assert len(q.options) == 5
    steps = asked.question("steps").answer
    before = [("off", "bar"), ("bar", "brake"), ("brake", "tow"), ("tow", "chock"), ("chock", "unbar")]
    assert all(steps.index(one) < steps.index(other) for one, other in before)
    wrong = [key for key in steps if key != "unbar"]
    wrong.insert(wrong.index("chock"), "unbar")
    assert mark(asked.question("steps"), wrong).slip == "bar off too early"


def test_each_question_that_is_shown_has_its_demonstration():
    (lesson,) = [row for row in LESSONS if row.name == "towing"]
    made = {name for name, _ in lesson.demonstrations}
    for key, (demonstration, preset) in questions.SHOWN_BY.items():
        assert PAPERS[0].question(key)
        assert demonstration in made
        assert preset in show("towing", demonstration).presets
