"""The exercise on cooling: its answers from the questions' words alone, and worked lines that compute."""

import math
import re

import pytest
from walkaround import aircraft
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper
from walkaround.lessons.cooling import demos, questions
from worked_sums import equations, holds, keys_of_sums, results

PAPERS = [paper(questions, f"Student {i}") for i in range(50)]
every = pytest.mark.parametrize("asked", PAPERS, ids=lambda p: p.student)


def read(question, *patterns):
    """Numbers in a question's text, each after a piece of it."""
    text = question.text.replace("−", "-")
    return [float(re.search(re.escape(p) + r"(-?[\d.]+)", text)[1].rstrip(".")) for p in patterns]


def row(question, number):
    """Percentages in a row of a question's table, as shares."""
    return [float(cell.removesuffix(" %")) / 100 for cell in question.table[number][1:] if cell]


def test_thirteen_questions_of_all_four_kinds_for_both_aircraft():
    assert len(PAPERS[0].questions) == 13
    assert {q.kind for q in PAPERS[0].questions} == {NUMBER, CHOICE, CHOICES, ORDER}
    assert {p.givens.craft.name for p in PAPERS} == {aircraft.demo(name).name for name in aircraft.demo_names()}


@every
def test_the_sums_on_heat(asked):
    q = asked.question("heat")
    kw, works, heads = read(q, "gives ", "That is ", "burns, and ")
    assert q.answer == pytest.approx(kw / (works / 100) * heads / 100)
    assert kw == round(asked.givens.craft.engine.horsepower * 0.7457)

    q = asked.question("settles")
    kw, takes, outside = read(q, "climb ", "takes ", "It is ")
    assert q.answer == pytest.approx(outside + 1000 * kw / takes)
    assert mark(q, f"{outside + kw / takes:.1f}").slip == "kW for W"

    q = asked.question("kit")
    oil, cold, spring = read(q, "settled at ", "climb at ", "climb, at ")
    assert q.answer == pytest.approx(oil + (spring - cold))
    q = asked.question("warmest")
    oil, cold, limit = read(q, "kit: ", "climb at ", "limit of ")
    assert q.answer == pytest.approx(cold + (limit - oil))
    assert limit == asked.givens.craft.engine.oil_limit_c


@every
def test_the_sums_on_air(asked):
    q = asked.question("share")
    clear, outside, air = read(q, "settle at ", "°C, at ", "this side ")
    carried = row(q, 1)[row(q, 0).index(air / 100)]
    assert carried == pytest.approx((air / 100) ** 0.6, abs=0.005)
    assert q.answer == pytest.approx(outside + (clear - outside) / carried)

    q = asked.question("reduced")
    blocked, outside, power, air = read(q, "settle at ", "power, at ", "reduce to ", "drives ")
    heat = row(q, 1)[row(q, 0).index(power / 100)]
    carried = row(q, 3)[row(q, 2).index(air / 100)]
    assert heat == pytest.approx((power / 100) ** 0.64, abs=0.005)
    assert q.answer == pytest.approx(outside + (blocked - outside) * heat / carried)


@every
def test_the_sums_on_time(asked):
    q = asked.question("plugs")
    begins, kw, takes_up, limit = read(q, "heads are at ", "power ", "take up ", "limit of ")
    assert q.answer == pytest.approx((limit - begins) * takes_up / kw)
    assert takes_up == asked.givens.section.heads_kj_per_k

    q = asked.question("gap")
    settles, begins, each, minutes = read(q, "settle at ", "begin at ", "every ", "after ")
    exact = settles - (settles - begins) * math.exp(-minutes / each)  # 37 % is 1/e
    assert q.answer == pytest.approx(exact, abs=0.5 * q.tolerance)


@every
def test_what_is_wrong_from_the_table_alone(asked):
    q = asked.question("which")
    last = [float(cell.removesuffix(" °C")) for cell in q.table[-1][1:]]
    heads, oil = last[1] - last[0], last[3] - last[2]
    if heads < -50:
        found = "probe"
    elif max(heads, oil) <= 5:
        found = "well"
    else:
        found = "plug" if heads > oil else "kit"
    assert q.answer == found == asked.givens.kind
    assert q.worked[-1].endswith(f" °C. {dict(q.options)[found]}.")
    assert mark(q, q.answer).right


@every
def test_the_statements_from_the_table_alone(asked):
    q, section = asked.question("statements"), asked.givens.section
    rows = {r[0]: [float(cell.removesuffix(" °C")) for cell in r[1:]] for r in q.table[1:]}
    options = dict(q.options)
    minute, apart = options["unseen"].split()[1], float(options["apart"].split()[-3])
    gauge, unseen, _ = rows[minute]
    is_so = {
        "apart": unseen - gauge > apart,
        "unseen": unseen > section.head_limit_c,
        "gauge": max(r[0] for r in rows.values()) > section.head_limit_c,
        "oil": max(r[2] for r in rows.values()) > asked.givens.craft.engine.oil_limit_c,
        "ready": max(rows["0"][:2]) <= section.head_limit_c,
        "hottest": any(r[0] >= r[1] for r in rows.values()),
    }
    assert set(is_so) == set(options)
    assert q.answer == {key for key, so in is_so.items() if so}
    assert q.table[0][1] == f"{section.gauge_on} heads (gauge)"


@every
def test_the_run_up_is_the_flights_own(asked):
    q, g = asked.question("run-up"), asked.givens
    shows, limit, clear = read(q, "gauge shows ", "limit is ", "would show ")
    assert clear < shows < limit
    assert shows == round(g.both_sides.at(0.0)[g.section.gauge_on])


@pytest.mark.parametrize("key", ["run-up", "flight"])
def test_the_right_option_is_not_the_longest(key):
    q = PAPERS[0].question(key)
    assert max(q.options, key=lambda option: len(option[1]))[0] != q.answer


def test_every_kind_of_flight_is_drawn():
    assert {p.question("which").answer for p in PAPERS} == {"well", "plug", "kit", "probe"}
    assert len({p.question("statements").answer for p in PAPERS}) >= 4


def test_the_steps_begin_with_the_book_and_make_safe_before_a_hand_goes_in():
    answer = PAPERS[0].question("steps").answer
    assert answer[0] == "book"
    assert answer.index("safe") < answer.index("pull") < answer.index("look") < answer.index("out")
    assert answer[-2:] == ("run-up", "climb")


def test_what_shows_a_question_is_there():
    stage, keys = demos.demo(), {q.key for q in PAPERS[0].questions}
    for key, (function, preset) in questions.SHOWN_BY.items():
        assert key in keys
        assert (function, preset in stage.presets) == ("demo", True)


def test_a_wrong_sum_is_seen():
    assert [(p, holds(v, r)) for p, v, r in equations("134 ÷ 0.27 = 496.3 kW")] == [("134 ÷ 0.27", True)]
    assert [holds(v, r) for _, v, r in equations("44 × 30 ÷ 69 = 20.1 s")] == [False]


@every
def test_worked_lines_compute_and_end_in_the_answer(asked):
    assert keys_of_sums([asked]) >= {q.key for q in asked.questions if q.kind == NUMBER}
    for q in asked.questions:
        if q.kind == NUMBER:
            assert holds(q.answer, results(q)[-1]), (q.key, q.worked, q.answer)
