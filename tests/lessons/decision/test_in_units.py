"""A flight is the same case in metric units: the same reasons, the same that mends it, on the paper and on the board."""

import re
from itertools import product

import pytest
from walkaround import measures
from walkaround.assessment.variant import Variant
from walkaround.lessons.decision import demos, told, words
from walkaround.lessons.decision.drawn import CLEAR, draw
from walkaround.lessons.decision.flight import checked, reasons
from walkaround.lessons.decision.mends import that_work
from walkaround.live.status import STOP
from walkaround.units import FOOT_M, POUND_KG, US_GALLON_L, US_QUART_L

IN_METRIC = {"lb": POUND_KG, "in": FOOT_M / 12, "US gal": US_GALLON_L, "qt": US_QUART_L, "°C": 1.0, "ft": FOOT_M}


def test_a_told_flight_has_the_reasons_and_the_mends_of_the_drawn_one():
    seen = set()
    for student in (f"Student {i}" for i in range(40)):
        drawn = draw(Variant("home", student, "decision"))
        failing = reasons(drawn.flight)
        with measures.shown_in(measures.METRIC):
            same = told.drawn(drawn)
            assert reasons(same.flight) == failing, student
            assert that_work(same.flight, same.offered) == drawn.works, student
            assert [mend.key for mend in same.offered] == [mend.key for mend in drawn.offered]
            rooms = [check.room for check in checked(same.flight)]
        for one, room in zip(checked(drawn.flight), rooms, strict=True):
            # All that is rounded, the aircraft's own numbers too, is far less than what makes a flight clear.
            off = room / IN_METRIC.get(one.unit, 1.0) - one.room
            assert abs(off) < 0.25 * CLEAR.get(one.key, 1.0), (student, one.key, off)
        seen |= {failing[:1], drawn.works}
    assert len(seen) > 8


def test_a_flight_is_drawn_the_same_whatever_is_shown():
    v = Variant("home", "Wren Nest", "decision")
    with measures.shown_in(measures.METRIC):
        assert draw.__wrapped__(v).flight == draw(v).flight


def test_the_board_decides_the_same_in_both_systems():
    us, verdicts = demos.demo(), []
    with measures.shown_in(measures.METRIC):
        metric = demos.demo()
    for number, fuel, bags, oil in product((9, 28, 52, 10, 3), (-8, 0, 8), (0, 100), (0, 1)):
        values = {**demos.AS_IT_STANDS, "number": number, "fuel": fuel, "bags": bags, "oil": oil}
        now = demos.changed(demos.flight_of(number).flight, **{k: v for k, v in values.items() if k != "number"})
        # A step of the metric sliders: 2 L, 5 kg and 1 L.
        least = {"take-off weight": 12, "landing weight": 12, "balance": 0.3, "fuel": 0.5, "oil": 0.2, "runway": 20}
        if any(abs(check.room) < least.get(check.key, 0.0) for check in checked(now)):
            continue
        us.set(**values)
        on_steps = {"fuel": 2 * round(fuel * US_GALLON_L / 2), "bags": 5 * round(bags * POUND_KG / 5)}
        metric.set(**(values | on_steps))
        assert metric.verdict == us.verdict, (us.said, metric.said)
        verdicts.append(us.verdict)
    assert len(verdicts) > 30
    assert 0.15 < verdicts.count(STOP) / len(verdicts) < 0.85


def test_the_sliders_carry_what_is_changed_over():
    stage = demos.demo()
    stage.set(number=52, fuel=-4.0, bags=50, forward=20)
    stage.show_units(measures.METRIC)
    assert [stage.controls[name].unit for name in ("fuel", "bags", "oil")] == ["L", "kg", "L"]
    assert stage.controls["fuel"].value == pytest.approx(-4 * US_GALLON_L, abs=1)
    assert stage.controls["bags"].value == pytest.approx(50 * POUND_KG, abs=2.5)
    assert stage.controls["number"].value == 52


def test_loads_are_told_to_a_tenth_of_a_kilogram_all_of_them():
    with measures.shown_in(measures.METRIC):
        board = demos.demo()
        told_loads = [cell for _, cell in words.day(told.flight(demos.flight_of(9).flight)) if cell.endswith(" kg")]
    loads = re.findall(r"[\d.]+", board.live.picture._facts[0].get_text().split(" kg ·")[0])
    assert loads == [cell.removesuffix(" kg") for cell in told_loads] == ["161.0", "111.1", "0.0", "11.3"]
