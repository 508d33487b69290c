"""Worked answers compute: what the printed numbers give is what is printed, to the last digit."""

import pytest
from walkaround.assessment.questions import NUMBER, paper
from walkaround.lessons.ground_power import questions
from worked_sums import equations, holds, keys_of_sums, results

PAPERS = [paper(questions, f"Student {i}") for i in range(50)]


def test_a_wrong_sum_is_found():
    (one,) = equations("12.7 − 270 × (12.1 + 3.8) ÷ 1,000 = 8.4 V")
    assert holds(*one[1:])
    assert not all(holds(v, p) for _, v, p in equations("12.7 − 270 × (12.1 + 3.8) ÷ 1,000 = 8.5 V"))
    (one,) = equations("−27 − (−27 − (−52)) × 0.4 = −37.0 °C")
    assert holds(*one[1:])


def test_every_printed_sum_holds():
    numbers = {q.key for q in PAPERS[0].questions if q.kind == NUMBER}
    assert keys_of_sums(PAPERS) >= numbers | {"gauge", "frozen"}


@pytest.mark.parametrize("key", ["inner", "drop", "starter", "left", "power", "bus", "reverse"])
def test_the_last_number_is_the_answer(key):
    for asked in PAPERS:
        q = asked.question(key)
        last = results(q)[-1]
        assert abs(float(last) - q.answer) <= 0.51 * 10.0 ** -len(last.partition(".")[2]) + 0.5 * (
            q.tolerance if key in ("power", "left", "bus") else 0.0
        )


def test_what_is_read_off_a_table_is_within_a_third_of_the_tolerance():
    for asked in PAPERS:
        for key in ("turns", "freezes"):
            q = asked.question(key)
            assert abs(float(results(q)[-1]) - q.answer) < q.tolerance / 3, (asked.student, key)
