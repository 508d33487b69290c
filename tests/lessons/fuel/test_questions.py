"""The exercise on fuel: its answers against the library and by hand, sums that compute, slips that are told apart."""

import re

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper
from walkaround.lessons.fuel import questions
from walkaround.lessons.fuel.questions.quantity import TANK, stick_gal
from walkaround.lessons.fuel.questions.water import STANDS, catching
from walkaround.physics import fuel
from walkaround.physics.loading import filled, load_sheet
from worked_sums import equations, holds, keys_of_sums, results

FOUR = aircraft.demo("morrowlark_four")
PAPERS = [paper(questions, f"Student {i}") for i in range(50)]


def numbers(text, *patterns):
    """Numbers that stand in a text in place of #."""
    found = (re.search(re.escape(p).replace(r"\#", r"([\d,]*\.?\d+)"), text)[1] for p in patterns)
    return tuple(float(n.replace(",", "")) for n in found)


def test_a_wrong_sum_is_found():
    assert not all(holds(v, p) for _, v, p in equations("left tank: 5 + (3.9 − 2.2) ÷ (4.9 − 2.2) × 5 = 8.25 US gal"))
    (one,) = equations("outboard the floor rises 1.7 − (−2) = 3.7°")
    assert one[0] == "1.7 − (−2)"
    assert holds(*one[1:])


def test_every_printed_sum_holds():
    assert keys_of_sums(PAPERS) == {q.key for q in PAPERS[0].questions if q.kind == NUMBER} | {"drain"}


def test_the_last_number_is_the_answer():
    for asked in PAPERS:
        for q in asked.questions:
            if q.kind == NUMBER:
                assert holds(q.answer, results(q)[-1]), (asked.student, q.worked, q.answer)


def test_fourteen_questions_of_all_four_kinds():
    assert len(PAPERS[0].questions) == 14
    assert {q.kind for q in PAPERS[0].questions} == {NUMBER, CHOICE, CHOICES, ORDER}


def test_the_dipsticks_and_the_table():
    for asked in PAPERS[:20]:
        q = asked.question("dipstick")
        marks, gallons = ([float(row[i].split()[0]) for row in q.table[1:]] for i in (0, 1))
        left, right = numbers(q.text, "wet to # cm in the left", "to # cm in the right")
        assert q.answer == pytest.approx(
            np.interp(left, marks, gallons) + np.interp(right, marks, gallons) - 3.0, abs=0.011
        )


def test_a_slope_is_seen_by_the_stick():
    answers = set()
    for asked in PAPERS:
        q = asked.question("slope")
        low = "wing 2° low" in q.text or "nose 3° low" in q.text
        # The filler is ahead of the middle and outboard of it: with that side low the fuel comes to it.
        assert q.answer == ("much" if low else "little")
        answers.add(q.answer)
    assert answers == {"much", "little"}
    assert stick_gal(12, 0.0, 2.0) > 12.5
    assert stick_gal(12, 3.0, 0.0) < 11.6


def test_planning_by_hand_and_by_the_load_sheet():
    for asked in PAPERS:
        q = asked.question("endurance")
        usable, burn = numbers(q.text, "# US gal of usable", "burns # US gal")
        assert q.answer == pytest.approx(60 * usable / burn - (30 if "cruise by day" in q.text else 45))
        q = asked.question("least")
        trip, own, aboard = numbers(q.text, "takes # minutes", "minimum is # minutes", "# US gal of usable")
        assert q.answer == pytest.approx(1 + (trip + own) / 60 * 9 - aboard)
        q = asked.question("most")
        front, rear, hold = numbers(q.text, "# lb on the front", "# lb on the rear", "# lb in hold")
        (aboard,) = numbers(q.text, "hold. # US gal are aboard")
        assert q.answer == pytest.approx((2610 - 1540 - front - rear - hold) / 6 + 1 - aboard)
        cabin = {"front seats": front, "rear seats": rear, "hold A": hold}
        for more, good in ((0.0, True), (0.1, False)):
            sheet = load_sheet(FOUR, cabin, filled(FOUR, q.answer + aboard + more), 1, 20)
            assert bool(sheet.loadable) == good


def test_warm_and_cold_fuel():
    for asked in PAPERS[:20]:
        q = asked.question("weight")
        gallons, cold, warm = numbers(q.text, "are # US gal heavier", "at −# °C", "than at # °C")
        exact = fuel.lb_per_us_gal(fuel.density_kg_l(0.72, -cold)) - fuel.lb_per_us_gal(fuel.density_kg_l(0.72, warm))
        assert abs(q.answer - gallons * float(exact)) < q.tolerance


def test_each_stand_has_one_drain_that_catches_or_none():
    assert {catching(*stands) for stands in STANDS} == {("inboard rear",), ("inboard front",), ("outboard rear",), ()}
    for nose, wing in STANDS:
        corner = ("inboard " if wing < 1.7 else "outboard ") + ("rear" if nose > -1 else "front")
        assert catching(nose, wing) == (() if corner == "outboard front" else (corner,))
    assert {asked.question("drain").answer for asked in PAPERS} == {
        "inboard rear",
        "inboard front",
        "outboard rear",
        "none",
    }


def test_water_by_hand():
    for asked in PAPERS:
        q = asked.question("gives")
        water, reach = numbers(q.text, "# mL of water lie", "is # cm outboard")
        assert q.answer == pytest.approx(water - 62 * reach * reach * 0.03 / 2)
        q = asked.question("condensed")
        air, evening, humid, dawn = numbers(q.text, "# L of air", "it is # °C", "humidity of # %", "cooled to # °C")
        assert abs(q.answer - float(fuel.condensed_water_g(air, evening, humid / 100, dawn))) < q.tolerance / 2
        q = asked.question("leak")
        rain, area, share = numbers(q.text, "# mm of rain", "falls on # m²", "# % of that")
        assert q.answer == pytest.approx(rain * area * share / 100)
        q = asked.question("nights")
        litres, grams = numbers(q.text, "left # L", "takes # g")
        assert q.answer == pytest.approx(1000 * litres / grams)
        q = asked.question("chance")
        points, taken = numbers(q.text, "has # low points", "samples # of them")
        dry = points - taken
        assert q.answer == pytest.approx(100 * dry * (dry - 1) / points / (points - 1))


def test_the_leak_is_the_larger_danger_for_everyone():
    for asked in PAPERS:
        assert asked.question("condensed").answer < 3.0  # grams
        assert asked.question("leak").answer > 0.2  # litres
        assert asked.question("nights").answer > 300


def test_samples_that_stop_are_marked_so():
    for asked in PAPERS:
        q = asked.question("samples")
        assert len(q.answer) == 4
        assert len(q.options) == 5
        (fine,) = (text for key, text in q.options if key not in q.answer)
        assert fine.startswith("Blue and clear")
        assert all(key in {"layer", "colourless", "straw", "cloudy", "pale", "specks"} for key in q.answer)


def test_the_common_slips_are_told():
    for asked in PAPERS[:10]:
        q = asked.question("least")
        trip, aboard = numbers(q.text, "takes # minutes", "# US gal of usable")
        assert mark(q, f"{1 + trip / 60 * 9 - aboard:.2f}").slip == "no reserve"
        q = asked.question("gives")
        (water,) = numbers(q.text, "# mL of water lie")
        assert mark(q, str(water)).slip == "nothing stays"
        q = asked.question("nights")
        litres, grams = numbers(q.text, "left # L", "takes # g")
        assert mark(q, f"{litres / grams:.4f}").slip == "litres for grams"


def test_the_cap_of_the_question_is_the_aircraft_files():
    assert TANK.cap.catches_m2 == FOUR.fuel_system.tank("left tank").cap.catches_m2 == 0.12
