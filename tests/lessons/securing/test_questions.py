"""The exercise on securing, worked a second time from the words of its questions, and its worked sums."""

import re

import numpy as np
import pytest
from scipy.optimize import brentq, linprog
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import NUMBER, paper
from walkaround.lessons.securing import questions
from walkaround.lessons.securing.questions import steps, wheels
from walkaround.lessons.securing.questions.wind import EMPTY, lift_lb
from worked_sums import keys_of_sums, results

PAPERS = [paper(questions, f"Student {i}") for i in range(50)]


def numbers(text, *patterns):
    """Numbers in a text, one for each pattern, where # stands for it."""
    found = []
    for pattern in patterns:
        hit = re.search(re.escape(pattern).replace(r"\#", r"([\d,]+(?:\.\d+)?)"), text)
        assert hit, (pattern, text)
        found.append(float(hit[1].replace(",", "")))
    return found


def test_wind_by_hand():
    for asked in PAPERS:
        q = asked.question("times")
        steady, gust = numbers(q.text, "steadily at # kt", "gusts of # kt")
        assert q.answer == pytest.approx((gust / steady) ** 2)
        assert "rope" not in q.text  # ropes carry lift less weight, which does not go with the square
        q = asked.question("lifts")
        wind, lift, weight = numbers(q.text, "wind of # kt", "lifts # lb", "weighs # lb")
        root = brentq(lambda v, lift=lift, wind=wind, weight=weight: lift * (v / wind) ** 2 - weight, 1, 300)
        assert q.answer == pytest.approx(root)
        q = asked.question("tanks")
        wind, gallons, each = numbers(q.text, "wind of # kt", "Now # US gal", "at # lb to the gallon")
        assert q.answer == pytest.approx(wind * np.sqrt((1540 + gallons * each) / 1540))


def test_ropes_by_hand():
    for asked in PAPERS:
        q = asked.question("tension")
        pull, angle = numbers(q.text, "with # lb", "at #° to the ground")
        assert q.answer == pytest.approx(pull / np.sin(np.radians(angle)))
        q = asked.question("weakest")
        breaking, holds, angle = numbers(q.text, "breaks at # lb", "holds # lb", "at #° to the ground")
        # The greatest upward pull that both can take: a linear programme in the tension.
        best = linprog([-np.sin(np.radians(angle))], bounds=[(0, min(breaking / 2, holds))])
        assert q.answer == pytest.approx(-best.fun)
        q = asked.question("jerk")
        slack, pull, stiff = numbers(q.text, "hangs # in", "ring with # lb", "carries # lb")
        # Work of the pull over slack and stretch, and what is in the stretched rope.
        stretch = brentq(lambda x, f=pull, k=stiff, s=slack: k * x * x / 2 - f * (s + x), 0.01, 1e3)
        assert q.answer == pytest.approx(stiff * stretch)


def test_the_left_wing_by_scipys_statics():
    for asked in PAPERS:
        q = asked.question("roll")
        left, right, at, push, high, weight, wheel, rope = numbers(
            q.text, "left wing with # lb", "right wing with # lb", "each # ft", "right with # lb", "lb, # ft above",
            "weighs # lb", "right wheel, # ft", "ground, # ft left",
        )  # fmt: skip
        # Upward forces and moments about the middle, for the load on the right wheel and the rope's pull.
        load, pull = np.linalg.solve(
            [[1.0, -1.0], [wheel, rope]], [weight - left - right, push * high + (left - right) * at]
        )
        assert q.answer == pytest.approx(pull, abs=0.01)
        assert load > 50


def test_wheels_by_hand():
    seen = set()
    for asked in PAPERS:
        q = asked.question("chock")
        radius, load, high = numbers(q.text, "Morrowlark, # in", "carry # lb", "chocks # in high")
        assert q.answer == pytest.approx(load * np.tan(np.arccos((radius - high) / radius)))
        q = asked.question("goes")
        load, push, grip, share = numbers(q.text, "left # lb", "aft with # lb", "grip with # of", "climb at # of")
        expected = "stays" if push < min(grip, share) * load else "slides" if grip < share else "climbs"
        assert q.answer == expected
        for limit in (grip * load, share * load):
            assert abs(push - min(grip, share) * load) > 0.1 * push or limit > min(grip, share) * load
        seen.add(q.answer)
    assert seen == {"stays", "slides", "climbs"}


def test_the_elevator_and_what_has_to_be_put_right():
    for asked in PAPERS:
        q = asked.question("elevator")
        assert q.answer == ("nose" if "fully up" in q.text else "tail")
        q = asked.question("found")
        assert q.answer == {key for key, _ in q.options if steps.FOUND[key][1]}
        assert len(q.options) == 6
    assert {len(asked.question("found").answer) for asked in PAPERS} == {3, 4, 5}  # no number to learn by heart


def test_lift_is_of_the_right_size():
    # Lift of a wing of 163.5 sq ft, lift slope by Helmbold, at 40 kt: by hand to a tenth.
    aspect = 428**2 / (428 * 55)
    slope = 2 * np.pi * aspect / (2 + np.sqrt(aspect**2 + 4))
    pounds = 0.5 * 0.002377 * (40 * 1.68781) ** 2 * (428 * 55 / 144) * slope * np.radians(4.5)
    assert lift_lb(40, 0) == pytest.approx(pounds, rel=0.02)
    assert EMPTY == 1540
    assert wheels.RADIUS == 8.2


def test_every_printed_sum_holds_and_leads_to_the_answer():
    keys = {q.key for q in PAPERS[0].questions if q.kind == NUMBER}
    assert keys_of_sums(PAPERS) >= keys
    for asked in PAPERS:
        for key in keys:
            q = asked.question(key)
            assert abs(float(results(q)[-1]) - q.answer) <= max(0.5, 0.5 * q.tolerance), (asked.student, key)


def test_the_common_slips_are_told():
    for asked in PAPERS[:10]:
        q = asked.question("tension")
        pull, angle = numbers(q.text, "with # lb", "at #° to the ground")
        assert mark(q, f"{pull * np.sin(np.radians(angle)):.1f}").slip == "multiplied by the sine"
        q = asked.question("untie")
        early = ["look", "brake", "chocks", "tail", "lee", "windward", "lock"]
        assert mark(q, early).slip == "chocks before ropes"
        q = asked.question("times")
        steady, gust = numbers(q.text, "steadily at # kt", "gusts of # kt")
        assert mark(q, f"{gust / steady:.2f}").slip == "not squared"


def test_who_reads_a_sine_or_a_root_to_three_figures_is_right():
    for asked in PAPERS:
        for key in ("tension", "weakest", "chock", "jerk", "lifts", "tanks"):
            assert mark(asked.question(key), results(asked.question(key))[-1]).right
