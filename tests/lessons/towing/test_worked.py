"""Worked answers compute: what the printed numbers give is what is printed, to the last digit."""

import pytest
from walkaround.assessment.questions import NUMBER, paper
from walkaround.lessons.towing import questions
from worked_sums import keys_of_sums, results

PAPERS = [paper(questions, f"Student {i}") for i in range(50)]


def test_every_printed_sum_holds():
    numbers = {q.key for q in PAPERS[0].questions if q.kind == NUMBER}
    assert keys_of_sums(PAPERS) >= numbers | {"breaks", "pump", "limit"}


@pytest.mark.parametrize("key", ["slope", "away", "radius", "tip", "swing", "door", "begin"])
def test_the_last_number_is_the_answer(key):
    for asked in PAPERS:
        q = asked.question(key)
        last = results(q)[-1]
        assert abs(float(last) - q.answer) <= 0.51 * 10.0 ** -len(last.partition(".")[2]) + 0.3 * q.tolerance
