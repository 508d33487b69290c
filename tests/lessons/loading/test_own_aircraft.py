"""Questions on any aircraft file: fair for every student, and their answers what a plain sum gives."""

import re

import pytest
from walkaround import aircraft
from walkaround.assessment.judging import mark
from walkaround.assessment.question_file import malformed
from walkaround.assessment.questions import paper
from walkaround.lessons.loading.own_aircraft import OwnAircraft

AIRCRAFT = aircraft.demo_names()


@pytest.mark.parametrize("name", AIRCRAFT)
def test_papers_are_fair_and_differ(name):
    own = OwnAircraft(aircraft.demo(name), "loading")
    papers = [paper(own, f"s{i}") for i in range(30)]
    assert len({p.question("take-off weight").answer for p in papers}) > 15
    assert len({p.question("go").answer for p in papers}) > 1
    for p in papers:
        assert not [problem for q in p.questions for problem in malformed(q)]
        for q in p.questions:
            for turn in q.wrong_turns:
                assert mark(q, f"{turn.answer:.9g}" if q.kind == "number" else turn.answer).right is False


@pytest.mark.parametrize("name", AIRCRAFT)
def test_answers_are_the_plain_sums_of_weights_and_moments(name):
    # FAA-H-8083-25, weight and balance, computational method, added up here by hand.
    a = aircraft.demo(name)
    for i in range(10):
        p = paper(OwnAircraft(a, "loading"), f"s{i}")
        load = p.givens
        weight, moment = a.empty.weight, a.empty.weight * a.empty.cg
        if not a.oil.in_empty_weight:
            weight, moment = (weight + a.oil.volume * a.oil.density, moment + a.oil.volume * a.oil.density * a.oil.arm)
        if not a.fuel.unusable_in_empty_weight:
            for t in a.fuel.tanks:
                weight, moment = (weight + t.unusable * a.fuel.density, moment + t.unusable * a.fuel.density * t.arm)
        for s in a.stations:
            assert 0 <= load.stations[s.name] <= s.maximum
            weight, moment = weight + load.stations[s.name], moment + load.stations[s.name] * s.arm
        for t in a.fuel.tanks:
            assert 0 < load.tanks[t.name] <= t.usable
            weight, moment = (
                weight + load.tanks[t.name] * a.fuel.density,
                moment + load.tanks[t.name] * a.fuel.density * t.arm,
            )
        fuel = sum(load.tanks.values()) * a.fuel.density
        assert p.question("fuel weight").answer == pytest.approx(fuel)
        assert p.question("take-off weight").answer == pytest.approx(weight)
        assert p.question("take-off cg").answer == pytest.approx(moment / weight)
        assert p.question("landing weight").answer == pytest.approx(weight - load.trip * a.fuel.density)
        assert p.question("take-off weight").unit == a.units.weight


@pytest.mark.parametrize("name", AIRCRAFT)
def test_moment_shift_and_verdict_by_hand(name):
    a = aircraft.demo(name)
    for i in range(10):
        p = paper(OwnAircraft(a, "loading"), f"s{i}")
        moments = [p.givens.stations[s.name] * s.arm for s in a.stations]
        assert min(abs(p.question("moment").answer - m) for m in moments) < 1e-9
        # ΔCG = moved · (to − from) / W, FAA-H-8083-25; the numbers as the question gives them.
        numbers = [float(x.replace(",", "")) for x in re.findall(r"\d[\d,]*\.?\d*", p.question("shift").text)]
        weight, moved, start, end = numbers[:4]
        assert p.question("shift").answer == pytest.approx(moved * abs(end - start) / weight, rel=2e-3)
        if p.question("go").answer == "heavy":
            aboard = sum(float(x) for x in re.findall(r"(\d+) (?:lb|kg) at “", p.question("go").text))
            volume = sum(float(x) for x in re.findall(r"([\d.]+) (?:US gal|L) in “", p.question("go").text))
            empty = float(p.scene_table[1][1].split()[0].replace(",", ""))
            assert empty + aboard + volume * a.fuel.density > a.limits.take_off


def test_an_aircraft_with_one_seat_and_one_tank_has_questions_too():
    a = aircraft.demo("tansy_two")
    small = a.model_copy(update={"stations": a.stations[:1], "combined_limits": []})
    p = paper(OwnAircraft(small, "loading"), "s")
    assert "shift" not in [q.key for q in p.questions]
