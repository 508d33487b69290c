"""The exercise on oil: its answers by hand and against scipy, what it tells apart, and worked lines that compute."""

import re
from math import radians, tan

import numpy as np
import pytest
from scipy import stats
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper
from walkaround.lessons import table
from walkaround.lessons.oil import demos, questions
from walkaround.lessons.oil.check import ADD, AGAIN, CHANGED, ENOUGH
from worked_sums import equations, holds, keys_of_sums, results

PAPERS = [paper(questions, f"Student {i}") for i in range(50)]
every = pytest.mark.parametrize("asked", PAPERS, ids=lambda p: p.student)


def read(question, *patterns):
    """Numbers in a question's text, each after a piece of it."""
    return [float(re.search(re.escape(p) + r"([\d.]+)", question.text)[1]) for p in patterns]


def log_of(question):
    """Hours, readings and what was added, as the table shows them."""
    rows = [[cell.removesuffix(" qt").replace("–", "0") for cell in row] for row in question.table[1:]]
    return np.array(rows, dtype=float).T


def test_a_dozen_questions_of_all_four_kinds():
    assert len(PAPERS[0].questions) >= 12
    assert {q.kind for q in PAPERS[0].questions} == {NUMBER, CHOICE, CHOICES, ORDER}


@every
def test_the_sums_by_hand(asked):
    hours, stick, added = log_of(asked.question("burnt"))
    burnt = stick[0] - stick[-1] + added[:-1].sum()
    assert asked.question("burnt").answer == pytest.approx(burnt)
    assert asked.question("rate").answer == pytest.approx(burnt / (hours[-1] - hours[0]))

    have, rate, refill = read(due := asked.question("due"), "shows ", "burns ", "down to ")
    assert due.answer == pytest.approx((have - refill) / rate)

    q = asked.question("earliest")
    middle, within, have, refill = read(q, "gives ", "± ", "shows ", "down to ")
    assert q.answer == pytest.approx((have - refill) / (middle + within))

    q = asked.question("more")
    before = np.divide(*read(q, "engine burnt ", "Over "))
    after = np.divide(*read(q, "since then ", "over the "))
    assert q.answer == pytest.approx(after - before)


@every
def test_the_amounts_by_hand(asked):
    q = asked.question("least")
    hours, rate, least = read(q, "takes ", "up to ", "less than ")
    marks, quarts = zip(*((float(m.split()[0]), float(n.split()[0])) for m, n in q.table[1:]), strict=True)
    assert q.answer == pytest.approx(np.interp(least + rate * hours, quarts, marks))

    q = asked.question("leak")
    have, leak, least = read(q, "showed ", "leak, ", "its least, ")
    assert q.answer == pytest.approx(60 * (have - least) / leak)

    q = asked.question("soon")
    up, half, minutes, shown = read(q, "shut-down ", "every ", "the stick ", "it shows ")
    for _ in range(round(minutes / half)):
        up /= 2
    assert q.answer == pytest.approx(shown + up)

    q = asked.question("slope")
    behind, degrees, inches = read(q, "stands ", "parked ", "Here ")
    assert q.answer == pytest.approx(behind * tan(radians(degrees)) / inches)


def judged(question):
    """What a log comes to, from what a student sees, with scipy's line through the first half and the second."""
    hours, stick, added = log_of(question)
    minutes, flight = read(question, "taken ", "takes ")
    if minutes < 10 or "nose up" in question.text:
        return AGAIN
    level = stick + [added[i:].sum() for i in range(len(added))]
    early, late = (-stats.linregress(hours[part], level[part]).slope for part in (slice(0, 5), slice(4, 8)))
    if late - early > 0.1:
        return CHANGED
    return ENOUGH if stick[-1] >= 5 - flight * stats.linregress(hours, level).slope else ADD


@every
def test_what_the_log_means(asked):
    q = asked.question("which")
    assert q.answer == judged(q) == asked.givens.expected == asked.givens.check.verdict
    assert mark(q, q.answer).right


def test_every_kind_of_log_is_drawn():
    assert {p.question("which").answer for p in PAPERS} == {ENOUGH, ADD, AGAIN, CHANGED}
    assert len({p.question("which").text for p in PAPERS if p.question("which").answer == AGAIN}) > 3


@every
def test_the_statements(asked):
    q = asked.question("statements")
    rate, within, have, refill = read(q, "readings: ", "± ", "shows ", "refill at ")
    options = dict(q.options)
    faster, hours = (float(options[key].split()[-2]) for key in ("may", "due"))
    early, late = (have - refill) / (rate + within), (have - refill) / (rate - within)
    is_so = {"may": faster < rate + within + 1e-9, "due": hours > early, "sure": hours > late, "narrow": True}
    assert q.answer == {key for key, so in is_so.items() if so}


def test_the_steps_begin_with_the_book_and_make_safe_before_a_hand_goes_in():
    answer = PAPERS[0].question("steps").answer
    assert answer[0] == "book"
    assert answer.index("safe") < answer.index("level") < answer.index("wipe") < answer.index("compare")
    assert answer[-2:] == ("close", "write")


def test_what_shows_a_question_is_there():
    stage = demos.demo()
    keys = {q.key for q in PAPERS[0].questions}
    for key, (function, preset) in questions.SHOWN_BY.items():
        assert key in keys
        assert (function, preset in stage.presets) == ("demo", True)
    assert {name for name, _ in table.find("oil").demonstrations} == {"demo"}


def test_a_wrong_sum_is_seen():
    assert [(p, holds(v, r)) for p, v, r in equations("7.1 + 1 − 6.7 = 1.4 qt")] == [("7.1 + 1 − 6.7", True)]
    assert [holds(v, r) for _, v, r in equations("1.5 ÷ 14 = 0.100 qt/h")] == [False]


@every
def test_worked_lines_compute_and_end_in_the_answer(asked):
    assert keys_of_sums([asked]) >= {q.key for q in asked.questions if q.kind == NUMBER}
    for q in asked.questions:
        if q.kind == NUMBER:
            assert holds(q.answer, results(q)[-1]), (q.key, q.worked, q.answer)


def test_no_log_is_below_the_least_or_above_full():
    for g in (paper(questions, f"Student {i}").givens for i in range(200)):
        section = g.check.section
        for stick in (g.stick, g.check.log.quantities):
            assert section.minimum <= min(stick)
            assert max(stick) <= section.full
