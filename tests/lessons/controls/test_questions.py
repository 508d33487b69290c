"""The exercise on controls: its answers by hand from the words of the questions, sums that compute, slips told apart."""

import re
from math import asin, degrees, pi, radians, sin, sqrt

import pytest
from walkaround import aircraft
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper
from walkaround.lessons.controls import questions
from walkaround.physics.controls import FAULTS
from worked_sums import equations, holds, keys_of_sums, results

PAPERS = [paper(questions, f"Student {i}") for i in range(50)]
# The file's limits, written down again.
UP, DOWN, ELEVATOR_UP, ELEVATOR_DOWN, TAB_UP, TAB_DOWN, RUDDER, FLAP = 20, 15, 28, 23, 16, 22, 18, 30


def numbers(text, *patterns):
    """Numbers that stand in a text in place of #."""
    found = (re.search(re.escape(p).replace(r"\#", r"([\d,]*\.?\d+)"), text)[1] for p in patterns)
    return tuple(float(n.replace(",", "")) for n in found)


def test_thirteen_questions_of_all_four_kinds():
    assert len(PAPERS[0].questions) == 13
    assert {q.kind for q in PAPERS[0].questions} == {NUMBER, CHOICE, CHOICES, ORDER}


def test_a_wrong_sum_is_found():
    (one,) = equations("9.9 × 31 × 0.064 × 2.6 = 51.1 lb")
    assert holds(*one[1:])
    (one,) = equations("9.9 × 31 × 0.064 × 2.6 = 51.3 lb")
    assert not holds(*one[1:])


def test_every_printed_sum_holds_and_ends_at_the_answer():
    assert keys_of_sums(PAPERS) >= {q.key for q in PAPERS[0].questions if q.kind == NUMBER} | {"enough", "within"}
    for asked in PAPERS:
        for q in asked.questions:
            if q.kind == NUMBER:
                assert abs(float(results(q)[-1]) - q.answer) < q.tolerance / 3, (asked.student, q.key)


def test_the_table_of_the_scene_is_the_aircraft_files():
    (table,) = {asked.scene_table for asked in PAPERS}
    assert dict(table)["elevator"] == f"{ELEVATOR_UP}° up, {ELEVATOR_DOWN}° down"
    section = aircraft.demo("morrowlark_four").control_surfaces
    assert dict(table)["tolerance"] == f"{section.tolerance_deg:g}° either way" == "1° either way"


def test_which_way():
    answers = set()
    for asked in PAPERS:
        q = asked.question("aileron")
        turned, wing = re.search(r"to the (\w+) and look at the (\w+) wing", q.text).groups()
        # The wing that has to go down loses lift: its aileron goes up.
        assert q.answer == ("up" if turned == wing else "down")
        t = asked.question("tab")
        assert t.answer == ("down" if "nose up" in t.text else "up")
        assert dict(t.options)[t.answer].endswith("up" if "nose up" in t.text else "down")
        assert {turn.answer for turn in t.wrong_turns} == {key for key, _ in t.options} - {t.answer}
        answers |= {q.answer, f"tab {t.answer}"}
    assert answers == {"up", "down", "tab up", "tab down"}


def test_by_tape_measure():
    for asked in PAPERS:
        q = asked.question("angle")
        chord, moved = numbers(q.text, "measures # in from", "reads # in.")
        assert q.answer == pytest.approx(2 * degrees(asin(moved / 2 / chord)))
        assert mark(q, f"{57.3 * moved / chord:.1f}").right
        q = asked.question("least")
        limit, allowed, chord = numbers(q.text, "give #° of", "up-elevator, #° more", "measures # in from")
        assert q.answer == pytest.approx(2 * chord * sin(radians(limit - allowed) / 2))
        # A rule is read to an eighth of an inch.
        assert mark(q, f"{round(8 * q.answer) / 8}").right
        assert mark(q, f"{2 * chord * sin(radians(limit) / 2):.2f}").slip == "tolerance left out"


def test_out_of_limits():
    for asked in PAPERS:
        q = asked.question("within")
        off = {name: float(m[:-1]) - float(limit[:-1]) for name, limit, m in q.table[1:]}
        assert min(abs(abs(by) - 1.0) for by in off.values()) > 0.15
        assert q.answer == {name for name, by in off.items() if abs(by) > 1.0}


def test_what_missing_travel_costs():
    for asked in PAPERS:
        q = asked.question("tau")
        whole, part, missing = numbers(q.text, "measures # in from", "Of that, # in", "lacks #° of")
        share = part / whole
        tau = 2 / pi * (sqrt(share * (1 - share)) + asin(sqrt(share)))
        assert q.answer == pytest.approx(tau * missing, abs=0.3 * q.tolerance)
        q = asked.question("force")
        area, slope, knots = numbers(q.text, "of # ft²", "makes # of lift", "At # kt")
        (angle,) = numbers(q.text, "With #° of")
        pound_ft2 = 0.5 * 1.225 * (knots * 1852 / 3600) ** 2 / 47.880259
        assert q.answer == pytest.approx(pound_ft2 * area * slope * angle, rel=0.012)
        assert slope == pytest.approx(2 * pi * 132 / 37 / (2 + sqrt((132 / 37) ** 2 + 4)) * pi / 180, abs=0.0006)
        q = asked.question("cg")
        force, arm, weight, cg = numbers(q.text, "# lb of force", "chord is at # in", "weighs # lb", "CG is at # in")
        # Moments about the datum: the CG that the missing force at the tail's own arm would make, as for loading.
        assert q.answer == pytest.approx(cg - (cg * weight - force * (arm - cg)) / weight)
        q = asked.question("speed")
        speed, before, left = numbers(q.text, "down to # kt", "coefficient of #", "travel, # is")
        assert q.answer**2 * left == pytest.approx(speed**2 * before)


def test_enough_or_not():
    answers = set()
    for asked in PAPERS:
        q = asked.question("enough")
        limit, worth, cg = numbers(q.text, "limit, # in", "worth # in", "CG is at # in")
        assert abs(cg - worth - limit) > 0.25
        text = dict(q.options)["as if"]
        assert text.startswith("No" if cg - worth < limit else "Yes")
        assert f"at {cg - worth:.1f} in" in text
        assert f"at {cg + worth:.1f} in" in dict(q.options)["away"]
        answers.add(text[:2])
    assert answers == {"No", "Ye"}


def test_the_fault_is_the_only_one_that_the_rows_show():
    found = set()
    for asked in PAPERS:
        q = asked.question("find")
        rows = {done: shows for done, shows, _ in q.table[1:]}
        wheel, flaps = rows["wheel right"], rows["flaps full"]
        signs = {
            "a lock left in": "does not move" in wheel,
            "ailerons crossed": f"left aileron {UP}° up, right aileron {DOWN}° down" == wheel,
            "one aileron not connected": wheel.count("neutral") == 1,
            "elevator reversed": f"elevator {ELEVATOR_DOWN}° down" == rows["wheel back"],
            "elevator short of travel": "up" in rows["wheel back"] and f"{ELEVATOR_UP}°" not in rows["wheel back"],
            "rudder reversed": f"rudder {RUDDER}° left" == rows["right pedal"],
            "trim tab reversed": f"trim tab {TAB_UP}° up" == rows["trim to nose up"],
            "one flap lagging": flaps != f"left flap {FLAP}° down, right flap {FLAP}° down",
        }
        there = [fault for fault, shows in signs.items() if shows] or ["nothing wrong"]
        assert [q.answer] == there
        assert {"nothing wrong", q.answer} <= {key for key, _ in q.options} <= set(FAULTS)
        found.add(q.answer)
    assert len(found) >= 7


def test_statements_and_order():
    shown = set()
    for asked in PAPERS:
        q = asked.question("statements")
        assert q.answer == {key for key, _ in q.options} & {"pedal", "stop", "again", "work", "papers"}
        assert 2 <= len(q.answer) <= 3
        assert len(q.options) == 5
        shown |= {key for key, _ in q.options}
        assert asked.question("order").answer == ("lock", "look", "move", "set", "again")
    assert len(shown) == 10
