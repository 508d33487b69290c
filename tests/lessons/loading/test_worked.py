"""Worked answers compute: what the printed factors give is what is printed."""

import pytest
from walkaround import aircraft
from walkaround.assessment.questions import paper
from walkaround.lessons.loading import questions
from walkaround.lessons.loading.own_aircraft import OwnAircraft
from worked_sums import equations, holds

STUDENTS = [f"Student {i}" for i in range(50)]


def wrong_sums(line):
    return [(printed, result) for printed, value, result in equations(line) if not holds(value, result)]


def test_a_wrong_sum_is_seen():
    assert wrong_sums("moment = weight × arm = 85 lb × 163.0 in = 13,855 lb-in") == []
    assert wrong_sums("CG = 236,840 ÷ 2,235 = 106.0 in") == []
    assert wrong_sums("its moment 84 × 106.0 = 8,905 lb-in") == [("84 × 106.0", "8905")]
    assert wrong_sums("weight = volume × density = 30 US gal × 6 lb/US gal = 181 lb") == [("30 × 6", "181")]
    assert len(wrong_sums("1 + 1 = 3, and 593.5 − 30 × 0.72 = 571.8 kg")) == 2


@pytest.mark.parametrize("author", [questions, *(OwnAircraft(aircraft.demo(n), "own") for n in aircraft.demo_names())])
def test_worked_lines_compute(author):
    sums = 0
    for student in STUDENTS:
        for q in paper(author, student).questions:
            for line in q.worked:
                assert wrong_sums(line) == [], (student, q.key)
                sums += len(list(equations(line)))
    assert sums >= 300
