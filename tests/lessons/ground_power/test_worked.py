"""Worked answers compute: what the printed numbers give is what is printed, to the last digit."""

import re
from itertools import pairwise

import pytest
from walkaround.assessment.questions import NUMBER, paper
from walkaround.lessons.ground_power import questions

PAPERS = [paper(questions, f"Student {i}") for i in range(50)]
NUMBER_OR_BRACKET = r"[−(]*\d[\d,]*(?:\.\d+)?\)*"
SUM = re.compile(rf"{NUMBER_OR_BRACKET}(?: [×÷+−] {NUMBER_OR_BRACKET})+$")


def equations(line):
    """Each sum in a line as (what is printed left of the sign of equality, its value, the number printed right)."""
    for left, right in pairwise(line.split(" = ")):
        printed, result = SUM.search(left), re.match(r"−?[\d,]*\d(?:\.\d+)?", right)
        if printed and result:
            python = printed[0].replace(",", "").replace("×", "*").replace("÷", "/").replace("−", "-")
            yield printed[0], eval(python, {"__builtins__": {}}), result[0].replace(",", "").replace("−", "-")


def holds(value, printed):
    """Whether a value, rounded to as many digits as are printed, is what is printed."""
    return abs(value - float(printed)) <= 0.5 * 10.0 ** -len(printed.partition(".")[2]) + 1e-9


def test_a_wrong_sum_is_found():
    (one,) = equations("12.7 − 270 × (12.1 + 3.8) ÷ 1,000 = 8.4 V")
    assert holds(*one[1:])
    assert not all(holds(v, p) for _, v, p in equations("12.7 − 270 × (12.1 + 3.8) ÷ 1,000 = 8.5 V"))
    (one,) = equations("−27 − (−27 − (−52)) × 0.4 = −37.0 °C")
    assert holds(*one[1:])


def test_every_printed_sum_holds():
    seen = set()
    for asked in PAPERS:
        for q in asked.questions:
            for line in q.worked:
                for printed, value, result in equations(line):
                    assert holds(value, result), (asked.student, q.key, printed, value, result)
                    seen.add(q.key)
    numbers = {q.key for q in PAPERS[0].questions if q.kind == NUMBER}
    assert seen >= numbers | {"gauge", "frozen"}


@pytest.mark.parametrize("key", ["inner", "drop", "starter", "left", "power", "bus", "reverse"])
def test_the_last_number_is_the_answer(key):
    for asked in PAPERS:
        q = asked.question(key)
        results = [result for line in q.worked for _, _, result in equations(line)]
        assert abs(float(results[-1]) - q.answer) <= 0.51 * 10.0 ** -len(results[-1].partition(".")[2]) + 0.5 * (
            q.tolerance if key in ("power", "left", "bus") else 0.0
        )


def test_what_is_read_off_a_table_is_within_a_third_of_the_tolerance():
    for asked in PAPERS:
        for key in ("turns", "freezes"):
            q = asked.question(key)
            results = [float(result) for line in q.worked for _, _, result in equations(line)]
            assert abs(results[-1] - q.answer) < q.tolerance / 3, (asked.student, key)
