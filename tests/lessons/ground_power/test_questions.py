"""The exercise on ground power: its answers by hand from the text and the tables, and the slips that it tells apart."""

import re

import numpy as np
import pytest
from scipy.optimize import brentq
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper
from walkaround.lessons.ground_power import demos, questions

STUDENTS = [f"Student {i}" for i in range(20)]
PAPERS = [paper(questions, student) for student in STUDENTS]
every = pytest.mark.parametrize("asked", PAPERS, ids=STUDENTS)


def numbers(text, *patterns):
    """Numbers that stand in place of # in pieces of a text."""
    found = (re.search(re.escape(p).replace(r"\#", r"(−?[\d,]*\.?\d+)"), text) for p in patterns)
    return tuple(float(piece[1].replace(",", "").replace("−", "-")) for piece in found)


def column(question, n):
    return [float(row[n].replace("−", "-").removesuffix(" °C")) for row in question.table[1:]]


def circuit(asked):
    """Volts at rest, mΩ of battery and cable, and amperes, off the table of the scene."""
    rows = dict(asked.scene_table)
    return [float(rows[row].split()[0]) for row in rows if rows[row][0].isdigit() and not row.startswith("placard")]


def right(asked, key, value):
    result = mark(asked.question(key), f"{value:.2f}")
    assert result.right is True, (key, value, result.says)


def slip(asked, key, value):
    result = mark(asked.question(key), f"{value:.6f}")
    assert result.right is False
    return result.slip


def test_questions_of_all_four_kinds():
    assert len(PAPERS[0].questions) >= 8
    assert {q.kind for q in PAPERS[0].questions} == {NUMBER, CHOICE, CHOICES, ORDER}
    assert sum(q.kind == ORDER for q in PAPERS[0].questions) == 1


@every
def test_ohms_law_by_hand(asked):
    rest, amperes, cranking = numbers(
        asked.question("inner").text, "terminals show # V; while", "draws # A", "they show # V. What"
    )
    right(asked, "inner", 1000 * (rest - cranking) / amperes)
    assert slip(asked, "inner", 1000 * rest / amperes) == "volts at rest for volts lost"
    metres, each, amperes = numbers(asked.question("drop").text, "cart is # m", "Each has # mΩ", "lose at # A")
    right(asked, "drop", amperes * 2 * metres * each / 1000)
    assert slip(asked, "drop", amperes * metres * each / 1000) == "one way only"
    volts, inside, cable, amperes = circuit(asked)
    right(asked, "starter", volts - amperes * (inside + cable) / 1000)
    assert slip(asked, "starter", volts - amperes * cable / 1000) == "forgot what is inside the battery"


@every
def test_the_thinnest_wire_that_will_do(asked):
    q = asked.question("gauge")
    metres, amperes = numbers(q.text, "lead of # m", "V at # A")
    lost = {row[0]: 2 * metres * amperes * float(row[1]) / 1000 for row in q.table[1:]}
    thinnest = max((name for name in lost if lost[name] <= 1.0), key=lambda name: lost[name])
    assert dict(q.options)[q.answer] == thinnest


@every
def test_two_sources_by_kirchhoff(asked):
    cart, rest, lead, inside = numbers(
        asked.question("bus").text, "cart of # V", "rests at # V", "have # mΩ", "has # mΩ inside"
    )
    # What the cart gives is what the battery takes: solved by scipy for the volts between the two.
    right(asked, "bus", brentq(lambda v: (cart - v) / lead - (v - rest) / inside, rest, cart))
    cart, rest, whole = numbers(asked.question("reverse").text, "cart of # V", "battery of # V", "have # mΩ")
    right(asked, "reverse", 1000 * (cart + rest) / whole)
    assert slip(asked, "reverse", 1000 * (cart - rest) / whole) == "difference for sum"


@every
def test_who_reads_the_tables_straight_is_right(asked):
    turns, freezes = asked.question("turns"), asked.question("freezes")
    rpm, gives, cold, warm = (column(turns, n) for n in range(4))
    fine = np.linspace(rpm[0], rpm[-1], 20001)

    def crossing(asks):
        return fine[np.argmax(np.interp(fine, rpm, gives) <= np.interp(fine, rpm, asks))]

    right(asked, "turns", crossing(cold))
    assert slip(asked, "turns", crossing(warm)) == "column of the warm oil"
    (gravity,) = numbers(freezes.text, "specific gravity of # in")
    right(asked, "freezes", np.interp(gravity, column(freezes, 0), column(freezes, 1)))


@every
def test_power_and_charge_by_hand(asked):
    torque, rpm, amperes, volts = numbers(
        asked.question("power").text, "turned with # N·m", "N·m at # rpm", "gives # A", "at the # V"
    )
    right(asked, "power", 100 * torque * rpm * np.pi / 30 / (volts * amperes))
    amperes, can_give, seconds = numbers(asked.question("left").text, "and at # A", "give only # Ah", "tries of # s")
    right(asked, "left", 100 - 100 * 3 * amperes * seconds / 3600 / can_give)
    assert slip(asked, "left", 100 - 100 * amperes * seconds / 3600 / can_give) == "one try only"


@every
def test_after_a_night_outside(asked):
    q = asked.question("frozen")
    gravity, night = numbers(q.text, "specific gravity of #", "stood at # °C")
    ice = night < np.interp(gravity, column(q, 0), column(q, 1))
    said = float(re.search(r"about ([\d.]+) V", dict(q.options)["volts"])[1])
    true = {"ice": ice, "burst": ice, "full": night > column(q, 1)[-1], "half": gravity > 1.2}
    true["volts"] = abs(said - 6 * (gravity + 0.845)) < 0.06
    assert q.answer == {key for key, so in true.items() if so}


def test_ice_and_no_ice_and_every_change_of_the_cable_are_asked_of_someone():
    asked = [paper(questions, f"Student {i}") for i in range(50)]
    assert {"ice" in a.question("frozen").answer for a in asked} == {True, False}
    assert len({a.question("watts").answer for a in asked}) == 4
    assert len({a.question("gauge").answer for a in asked}) >= 3


def test_the_order_of_a_start():
    steps = PAPERS[0].question("steps").answer
    before = [
        ("book", "plug"),
        ("chocks", "plug"),
        ("off", "plug"),
        ("plug", "on"),
        ("on", "start"),
        ("start", "radios"),
    ]
    assert all(steps.index(one) < steps.index(other) for one, other in before)
    assert mark(PAPERS[0].question("steps"), list(steps)).right is True
    wrong = list(steps)
    wrong[3], wrong[4] = wrong[4], wrong[3]
    assert mark(PAPERS[0].question("steps"), wrong).slip == "plugged in live"


def test_each_question_that_is_shown_has_its_demonstration():
    presets = demos.demo().presets
    for key, (demonstration, preset) in questions.SHOWN_BY.items():
        assert PAPERS[0].question(key)
        assert demonstration == "demo"
        assert preset in presets
