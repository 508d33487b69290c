"""What the loading exercise calls right is what the whole load sheet says: every limit at every moment."""

import re

import pytest
from walkaround.assessment.questions import paper
from walkaround.lessons import table
from walkaround.physics.loading.loadsheet import load_sheet

STUDENTS = [f"Student {i}" for i in range(150)]


def numbers(pattern, text):
    found = re.search(pattern, text)
    assert found, text
    return [float(part.replace(",", "")) for part in found.groups()]


def aircraft_at(arm, givens):
    a = givens.aircraft
    return a.model_copy(update={"empty": a.empty.model_copy(update={"arm": arm})})


def test_take_off_weight_and_cg_are_the_load_sheets():
    for student in STUDENTS[:30]:
        p = paper(table.find("loading").questions, student)
        g = p.givens
        tanks = {"left tank": g.fuel / 2, "right tank": g.fuel / 2}
        off = load_sheet(g.aircraft, g.stations, tanks, 0.0, g.trip).condition("take-off")
        assert p.question("take-off weight").answer == pytest.approx(float(off.weight))
        assert p.question("take-off cg").answer == pytest.approx(float(off.cg))


def test_only_one_change_makes_the_load_loadable():
    answers = set()
    for student in STUDENTS:
        p = paper(table.find("loading").questions, student)
        q = p.question("rearrange")
        front, rear, side, bags, gallons = numbers(
            r"in front, (\d+) lb; .* rear, (\d+) lb together; (\d+) lb in hold A, (\d+) lb in hold B; (\d+) US gal",
            q.text,
        )
        plans = {
            "change": (front + rear / 2, rear / 2, side, bags, gallons),
            "to the front": (front + bags, rear, side, 0.0, gallons),
            "leave": (front, rear, side, 0.0, gallons),
            "as it is": (front, rear, side, bags, gallons),
            "bags": (front, rear, side + 15, bags - 15, gallons),
            "fuel": (front, rear, side, bags, gallons - 5),
        }
        for key, _ in q.options:
            *loads, fuel = plans[key]
            stations = dict(zip(("front seats", "rear seats", "hold A", "hold B"), loads, strict=True))
            tanks = {"left tank": fuel / 2, "right tank": fuel / 2}
            sheet = load_sheet(p.givens.aircraft, stations, tanks, 0.0, 12.0)
            assert bool(sheet.loadable) == (key == q.answer), (student, key)
        answers.add(q.answer)
    assert answers == {"change", "to the front", "leave"}


def test_go_or_no_go_is_the_load_sheets_verdict():
    answers = set()
    for student in STUDENTS:
        p = paper(table.find("loading").questions, student)
        q = p.question("go")
        (arm,) = numbers(r"Morrowlark of [\d,]+ lb at ([\d.]+) in:", q.text)
        (gallons,) = numbers(r"(\d+) US gal of fuel", q.text)
        stations = {
            n: float(w) for w, n in re.findall(r"(\d+) lb (?:in|on the) (front seats|rear seats|hold A|hold B)", q.text)
        }
        tanks = {"left tank": gallons / 2, "right tank": gallons / 2}
        off = load_sheet(aircraft_at(arm, p.givens), stations, tanks).condition("take-off")
        forward, aft = off.envelope.limits_at(off.weight)
        verdict = "heavy" if off.over > 0 else "forward" if off.cg < forward else "aft" if off.cg > aft else "go"
        assert verdict == q.answer, student
        answers.add(verdict)
    assert answers == {"go", "heavy", "forward", "aft"}
