"""Worked answers compute: what the printed factors give is what is printed."""

import re
from itertools import pairwise

import pytest
from walkaround import aircraft
from walkaround.assessment.questions import paper
from walkaround.lessons.loading import questions
from walkaround.lessons.loading.own_aircraft import OwnAircraft

STUDENTS = [f"Student {i}" for i in range(50)]
SUM = re.compile(r"(?:\d[\d,.]* ?[-+−×÷] ?)+\d[\d,.]*$")


def wrong_sums(line):
    """Every sum in a line whose printed result is not what its printed numbers give, with what they give."""
    found = []
    # Without units and words; a minus is written −, so a hyphen belongs to a unit.
    chunks = [re.sub(r"[A-Za-z°%/“”-]+", "", chunk).strip() for chunk in line.split("=")]
    for left, right in pairwise(chunks):
        computed, printed = SUM.search(re.sub(r" +", " ", left)), re.match(r"−?\d[\d,]*\.?\d*", right)
        if computed and printed:
            python = computed[0].replace(",", "").replace("×", "*").replace("÷", "/").replace("−", "-")
            value, shown = eval(python), printed[0].replace(",", "").replace("−", "-")
            decimals = len(shown.partition(".")[2])
            if abs(value - float(shown)) > 0.5 * 10**-decimals + 1e-9:
                found.append(f"{computed[0]} = {value}, not {shown}")
    return found


def test_a_wrong_sum_is_seen():
    assert wrong_sums("moment = weight × arm = 85 lb × 163.0 in = 13,855 lb-in") == []
    assert wrong_sums("CG = 236,840 ÷ 2,235 = 106.0 in") == []
    assert wrong_sums("its moment 84 × 106.0 = 8,905 lb-in") == [
        "84 × 106.0 = 8904.0, not 8,905".replace("8,905", "8905")
    ]
    assert len(wrong_sums("1 + 1 = 3, and 593.5 − 30 × 0.72 = 571.8 kg")) == 2


@pytest.mark.parametrize("author", [questions, *(OwnAircraft(aircraft.demo(n), "own") for n in aircraft.demo_names())])
def test_worked_lines_compute(author):
    sums = 0
    for student in STUDENTS:
        for q in paper(author, student).questions:
            for line in q.worked:
                assert wrong_sums(line) == [], (student, q.key)
                sums += "=" in line
    assert sums >= 300
