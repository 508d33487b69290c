"""The exercise on preheating: its answers against the library and by hand, and the slips that it tells apart."""

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper
from walkaround.lessons import table
from walkaround.lessons.preheat.questions import scenario
from walkaround.physics.preheat.engine import warming

FOUR = aircraft.demo("morrowlark_four").engine
STUDENTS = [f"Student {i}" for i in range(12)]


def column(question, n):
    return [float(row[n].replace("−", "-").removesuffix(" °C")) for row in question.table[1:]]


def number_in(text, before, after):
    return float(text.split(before)[1].split(after)[0].replace(",", "").replace("−", "-"))


def test_at_least_ten_questions_of_all_four_kinds():
    questions = paper(table.find("preheat").questions, "Example Student").questions
    assert len(questions) >= 10
    assert {q.kind for q in questions} == {NUMBER, CHOICE, CHOICES, ORDER}


@pytest.mark.parametrize("student", STUDENTS)
def test_the_four_slips_are_told(student):
    asked = paper(table.find("preheat").questions, student)
    step_f = number_in(asked.question("difference").text, "BY ", " °F")
    watts = number_in(asked.question("energy").text, "heater of ", " W")
    missing_qt = 7 - number_in(asked.question("litres").text, "There are ", " US quarts")
    ready = asked.question("ready")
    oil_ready = np.interp(FOUR.ready_oil_c, column(ready, 2), column(ready, 0))
    for key, typed, slip in (
        ("difference", (step_f - 32) / 1.8, "difference converted as a temperature"),
        ("energy", watts / 1000, "watts for watt-hours"),
        ("ready", oil_ready, "oil ready taken for engine ready"),
        ("litres", missing_qt, "quart for litre"),
    ):
        result = mark(asked.question(key), f"{typed:.2f}")
        assert result.right is False
        assert result.slip == slip


@pytest.mark.parametrize("outside_c", scenario.OUTSIDE_C)
def test_what_was_worked_out_at_once_is_what_one_engine_does(outside_c):
    found, i, engine = scenario.in_frost(), scenario.OUTSIDE_C.index(outside_c), FOUR.engine()
    pad = warming(engine, outside_c, pad=demo_heaters().pads[0].set_to(), cover=True)
    assert pad.ready_minutes(FOUR.ready_c) == pytest.approx(max(float(m[i]) for m in found.pad_ready.values()))
    assert found.pad_c[i, 3] == pytest.approx(pad.temperatures_c(float(scenario.PAD_MINUTES[3]))[:-1])
    for cover in (False, True):
        waiting = warming(engine, outside_c, cover=cover, start_c=scenario.WARM_C)
        assert waiting.stays_minutes(FOUR.ready_c) == pytest.approx(found.wait_minutes[int(cover), i])
    for n, fan in enumerate(("low", "high")):
        heater = demo_heaters().air_heaters[0].set_to(fan, scenario.THERMOSTAT_C, scenario.POWERS_W[2])
        alone = warming(engine, outside_c, heater, cover=True).ready_minutes(FOUR.ready_c)
        assert alone == pytest.approx(found.fan_minutes[i, 2, n])


@pytest.mark.parametrize("student", STUDENTS)
def test_who_reads_the_tables_straight_is_right(student):
    asked = paper(table.find("preheat").questions, student)
    ready, wait = asked.question("ready"), asked.question("wait")
    limits = (0.0, 10.0, 0.0)
    read = max(np.interp(c, column(ready, n), column(ready, 0)) for n, c in enumerate(limits, 1))
    assert mark(ready, f"{read:.0f}").right is True
    read = np.interp(-10, [-t for t in column(wait, 1)], column(wait, 0))
    assert mark(wait, f"{read:.0f}").right is True
    nu = {row[0]: float(row[1].replace(",", "")) for row in asked.question("thicker").table[1:]}
    cold = asked.question("thicker").text.split("is it at ")[1].split(" than")[0]
    assert mark(asked.question("thicker"), f"{nu[cold] / nu['10 °C']:.1f}").right is True


def test_each_fan_is_right_for_someone_and_by_the_reason_that_the_lesson_gives():
    seen = set()
    for student in (f"Student {i}" for i in range(30)):
        asked = paper(table.find("preheat").questions, student).question("fan")
        watts = number_in(asked.text, "A heater of ", " W")
        outside, flow = (number_in(asked.text, "52 °C, ", " °C outside"), number_in(asked.text, "on high ", " W"))
        # Air that the power lifts to the thermostat is better fast; air hardly warmer than the oil should get is not.
        assert asked.answer == ("high" if outside + watts / flow > 40 else "low")
        seen.add(asked.answer)
    assert seen == {"low", "high"}
