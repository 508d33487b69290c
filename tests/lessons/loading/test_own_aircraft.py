"""Questions on any aircraft file: fair for every student, and their answers what a plain sum gives."""

import re
from itertools import pairwise

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
def test_moment_and_shift_by_hand(name):
    a = aircraft.demo(name)
    for i in range(10):
        p = paper(OwnAircraft(a, "loading"), f"s{i}")
        moments = [p.givens.stations[s.name] * s.arm for s in a.stations]
        assert min(abs(p.question("moment").answer - m) for m in moments) < 1e-9
        # ΔCG = moved · (to − from) / W, FAA-H-8083-25; the numbers as the question gives them.
        numbers = [float(x.replace(",", "")) for x in re.findall(r"\d[\d,]*\.?\d*", p.question("shift").text)]
        weight, moved, start, end = numbers[:4]
        assert p.question("shift").answer == pytest.approx(moved * abs(end - start) / weight, rel=2e-3)


def test_an_aircraft_with_one_seat_and_one_tank_has_questions_too():
    a = aircraft.demo("tansy_two")
    small = a.model_copy(update={"stations": a.stations[:1], "combined_limits": []})
    p = paper(OwnAircraft(small, "loading"), "s")
    assert "shift" not in [q.key for q in p.questions]


def stepped():
    """The four-seater with a step in its aft limit at 2,300 lb: 112 in up to it, 107 in above."""
    data = aircraft.content(aircraft.DEMO_FOLDER / "morrowlark_four.toml")
    corners = [[99.0, 1500], [99.0, 2110], [104.0, 2610], [107.0, 2610], [107.0, 2300], [112.0, 2300], [112.0, 1500]]
    data["envelopes"] = [{"name": "normal", "corners": corners}]
    return aircraft.check(data, "stepped.toml")


def limits_from(rows, weight):
    """Forward and aft limit at a weight, between the lines of a table as a student reads it."""
    for (low, *at_low), (high, *at_high) in pairwise(rows):
        if low < weight <= high:
            return [a + (b - a) * (weight - low) / (high - low) for a, b in zip(at_low, at_high, strict=True)]
    return rows[-1][1:]  # above the top only the weight matters


@pytest.mark.parametrize("a", [*map(aircraft.demo, AIRCRAFT), stepped()], ids=[*AIRCRAFT, "stepped"])
def test_go_or_no_go_follows_from_the_tables_that_the_student_has(a):
    answers, beyond_the_step = set(), 0
    for i in range(60):
        p = paper(OwnAircraft(a, "loading"), f"s{i}")
        q = p.question("go")
        weight, arm = (float(x.split()[0].replace(",", "")) for x in p.scene_table[1][1:])
        moment = weight * arm
        for load, at in re.findall(r"(\d+) (?:lb|kg) at “[^”]*” \(([\d.]+)", q.text):
            weight, moment = weight + float(load), moment + float(load) * float(at)
        for volume, tank in re.findall(r"([\d.]+) (?:US gal|L) in “([^”]*)”", q.text):
            fuel = float(volume) * a.fuel.density
            weight, moment = weight + fuel, moment + fuel * a.tank(tank).arm
        rows = [[float(x.replace(",", "")) for x in row] for row in q.table[1:]]
        forward, aft = limits_from(rows, weight)
        cg, most = moment / weight, float(re.search(r"At most ([\d,]+)", q.text)[1].replace(",", ""))
        verdict = "heavy" if weight > most else "forward" if cg < forward else "aft" if cg > aft else "go"
        assert verdict == q.answer, (i, weight, cg)
        answers.add(verdict)
        beyond_the_step += verdict == "aft" and cg < max(back for _, _, back in rows)
    assert len(answers) > 1
    steps = [low for (low, *_), (high, *_) in pairwise(rows) if low == high]
    assert (beyond_the_step > 0) == bool(steps) == ("Where a weight stands twice" in q.text)
