"""The same loads and the same verdicts in US and in metric units, of an own aircraft's exercise and on the stage."""

from itertools import product

import pytest
from walkaround import aircraft, measures
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import NUMBER, paper, unsound
from walkaround.lessons import loading
from walkaround.lessons.loading.margin import margin
from walkaround.lessons.loading.own_aircraft import OwnAircraft
from walkaround.live.status import STOP
from walkaround.physics.loading import load_sheet
from worked_sums import keys_of_sums


@pytest.mark.parametrize(("name", "other"), [("morrowlark_four", measures.METRIC), ("tansy_two", measures.US)])
def test_an_exercise_on_an_own_aircraft_is_the_same_case_in_the_other_units(name, other):
    own, papers, answers = OwnAircraft(aircraft.demo(name), "ours"), [], set()
    for student in (f"Student {i}" for i in range(20)):
        drawn = paper(own, student)
        with measures.shown_in(other):
            told = paper(own, student)
        papers.append(told)
        assert told.givens.aircraft.units.weight != drawn.givens.aircraft.units.weight
        for one, q in zip(drawn.questions, told.questions, strict=True):
            answers.add((one.key, one.answer) if one.kind != NUMBER else one.key)
            assert [k for k, _ in q.options] == [k for k, _ in one.options]
            if one.kind != NUMBER:
                assert q.answer == one.answer, (student, q.key)
                continue
            converted = measures.converted(q.answer, q.unit, one.unit)
            assert converted == pytest.approx(one.answer, abs=0.5 * one.tolerance), (student, q.key)
            assert measures.converted(q.tolerance, q.unit, one.unit) == pytest.approx(one.tolerance, rel=0.3)
            assert unsound(q) == []
            assert mark(q, f"{q.answer:.6f}", counts=one).right
        us = {"kg": ("lb", "US gal", "lb-in"), "lb": ("kg", " L", "kg-m")}[told.givens.aircraft.units.weight]
        texts = (told.scene, *(text for q in told.questions for text in (q.text, *q.worked)))
        assert not [text for text in texts for unit in us if f"{unit} " in f"{text} "]
    assert {("go", "go"), ("go", "aft")} & answers
    assert {"moment", "take-off cg", "shift"} <= keys_of_sums(papers)


def test_a_load_has_the_same_verdict_on_the_stage_in_both_systems():
    four, us, verdicts = aircraft.demo("morrowlark_four"), loading.demo(), []
    with measures.shown_in(measures.METRIC):
        metric = loading.demo()
    for front, rear, hold, gallons in product((170, 340, 480), (0, 180, 430), (0, 110), (10.0, 24.0)):
        load = {"front seats": front, "rear seats": rear, "hold A": hold, "hold B": 20}
        tanks = {"left tank": gallons, "right tank": gallons}
        sheet = load_sheet(four, load, tanks, 0.0, 8.0)
        near = margin(sheet)
        # Away from every limit: the sliders' steps are 1 kg and 1 L.
        if abs(near.cg - near.limit) < 0.3 or min(abs(float(c.over)) for c in sheet.conditions) < 10:
            continue
        us.set(**load, **tanks, **{"trip fuel": 8.0})
        kilograms = {name: measures.converted(x, "lb", "kg") for name, x in load.items()}
        litres = {name: measures.converted(x, "US gal", "L") for name, x in (tanks | {"trip fuel": 8.0}).items()}
        metric.set(**{name: round(x) for name, x in (kilograms | litres).items()})
        assert metric.verdict == us.verdict, (us.said, metric.said)
        verdicts.append(us.verdict)
    assert len(verdicts) > 20
    assert 0.15 < verdicts.count(STOP) / len(verdicts) < 0.8


def test_a_ready_made_load_is_the_same_one_in_other_units():
    stage = loading.demo()
    with measures.shown_in(measures.METRIC):
        metric = loading.demo()
    for preset, values in stage.presets.items():
        for name, value in values.items():
            unit, other = stage.controls[name].unit, metric.controls[name]
            assert measures.converted(metric.presets[preset][name], other.unit, unit) == pytest.approx(value, abs=1.2)
            assert other.max < measures.converted(stage.controls[name].max, unit, other.unit) + 0.1
