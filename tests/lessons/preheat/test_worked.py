"""Worked answers compute: what the printed numbers give is what is printed, to the last digit."""

import re

import pytest
from walkaround.assessment.questions import NUMBER, paper
from walkaround.lessons.preheat import questions
from walkaround.physics.electrical import lead_loss
from worked_sums import equations, holds, keys_of_sums, results

PAPERS = [paper(questions, f"Student {i}") for i in range(50)]


def test_a_wrong_sum_is_found():
    (one,) = equations("heat: 2,500 × 0.8 × 35 ÷ 60 = 1,166.7 Wh")
    assert one[0] == "2,500 × 0.8 × 35 ÷ 60"
    assert holds(*one[1:])
    assert not all(holds(v, p) for _, v, p in equations("−16 °C + 24.2 = 8.3 °C, below the thermostat's"))
    assert not all(holds(v, p) for _, v, p in equations("warmed by 10 − (−16 °C) = −6 °C"))
    assert [s for s, _, _ in equations("(2.55 − 2.4) ÷ (3.0 − 2.4) = 0.25 of the way")] == [
        "(2.55 − 2.4) ÷ (3.0 − 2.4)"
    ]


def test_every_printed_sum_holds():
    assert keys_of_sums(PAPERS) >= {
        "difference",
        "heat",
        "energy",
        "rise",
        "lead",
        "dipstick",
        "litres",
        "least",
        "greatest",
        "thicker",
    }


@pytest.mark.parametrize("key", ["difference", "energy", "lead", "litres", "least", "greatest"])
def test_the_last_number_is_the_answer(key):
    for asked in PAPERS:
        q = asked.question(key)
        assert q.kind == NUMBER
        assert holds(q.answer, results(q)[-1]), (asked.student, q.worked, q.answer)


def test_what_the_meter_counts_includes_the_fan():
    for asked in PAPERS[:20]:
        q = asked.question("energy")
        power, minutes, share, fan = (
            float(re.search(pattern, q.text)[1].replace(",", ""))
            for pattern in (r"heater of ([\d,]+) W", r"runs for (\d+) min", r"on for (\d+) %", r"fan takes (\d+) W")
        )
        assert q.answer == pytest.approx((power * share / 100 + fan) * minutes / 60 / 1000)
        assert "forgot the fan" in {turn.slip for turn in q.wrong_turns}


def test_what_a_lead_loses():
    for asked in PAPERS[:20]:
        q = asked.question("lead")
        current, length, area = (
            float(re.search(pattern, q.text)[1])
            for pattern in (r"draws (\d+) A", r"lead of (\d+) m,", r"wires have ([\d.]+) mm²")
        )
        assert q.answer == pytest.approx(current**2 * 2 * length / 58 / area)
        assert q.answer == pytest.approx(float(lead_loss(current, length, area).watts))


def test_a_fan_that_never_gets_there_is_said_so():
    lines = {line for asked in PAPERS for line in asked.question("fan").worked if line.startswith("on low")}
    assert any("never ready" in line for line in lines)
    assert all(re.fullmatch(r"on low (ready after \d+ min|never ready), on high (ready after \d+ min|never ready)", line) for line in lines)  # fmt: skip
