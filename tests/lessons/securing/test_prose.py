"""What the lesson says in words: its cautions, whose handbook is meant, and numbers that the library gives."""

import re

import pytest
from lesson_texts import cells, texts_of
from walkaround import aircraft
from walkaround.aircraft import tie_down
from walkaround.assessment.questions import paper
from walkaround.lessons.securing import questions
from walkaround.lessons.securing.demos import CAUTION
from walkaround.lessons.securing.questions import steps
from walkaround.lessons.securing.questions.wind import lift_lb
from walkaround.physics.securing import ROPES, chock_force, fails_at_kt, snatch

LESSON = cells("notebooks/02-securing.ipynb")
WHOLE = " ".join(LESSON).replace("*", "")
CODE = cells("notebooks/02-securing.ipynb", "code")
FOUR = aircraft.demo("morrowlark_four")


def texts():
    """Everything that the lesson and its exercise say."""
    yield from (*LESSON, *cells("solutions/02-securing.ipynb"), CAUTION)
    yield from texts_of(paper(questions, f"Student {i}") for i in range(10))


def test_the_handbook_is_always_the_aircrafts():
    for text in texts():
        bare = re.sub(r"(?:this )?aircraft's(?: own)? handbook", "", text.replace("*", ""), flags=re.IGNORECASE)
        assert "handbook" not in bare.casefold(), text


@pytest.mark.parametrize(
    "caution",
    [
        r"never hold on to an aircraft that the wind can move",
        r"under a wing, behind the tail or in line with a rope",
        r"propeller as live",
        r"untied aircraft without chocks rolls",
        r"aircraft's own handbook comes first",
    ],
)
def test_cautions_stand_at_the_top_of_the_lesson(caution):
    assert re.search(caution, LESSON[0].replace("*", ""), re.IGNORECASE)


def test_numbers_in_the_text_are_the_librarys():
    assert f"lifts {lift_lb(40, 0)} lb in a wind of 40 kt" in WHOLE
    assert f"the same wind lifts {lift_lb(40, 6)} lb" in WHOLE
    assert "round(40 * (1540 / 339) ** 0.5, 1)" in CODE
    assert round(float(snatch(300, 100, 6))) == round(300 + (300**2 + 2 * 100 * 300 * 6) ** 0.5) == 971
    assert "A push of 879 lb" in WHOLE
    assert round(float(chock_force(1015, 8.2, 2))) == 879
    strong = sum(breaking >= 3000 for breaking, _ in ROPES.values())
    assert f"{('no', 'one', 'two', 'three')[strong]} break at 3,000 lb or more" in WHOLE
    left, right, tail = (f"{steps.without(place):.0f}" for place in (0, 1, 2))
    assert f"without the tail's rope the rest holds to {tail} kt" in WHOLE
    assert f"without the right wing's to {right}, without the left wing's to {left}" in WHOLE


def test_the_predictions_are_what_the_demonstration_has():
    tied = tie_down.ropes(FOUR, "manila 3/8 in")
    travel = FOUR.control_surfaces.elevator
    locked = fails_at_kt(tie_down.parked(FOUR, tied))["left rope"]
    free = fails_at_kt(tie_down.parked(FOUR, tied, elevators_deg=(-travel.up_deg, 0.0, travel.down_deg)))["left rope"]
    assert f"manila rope would hold to {locked:.0f} kt" in WHOLE
    assert f"to {free:.0f} kt, just over half" in WHOLE
    assert 0.5 < free / locked < 0.6


def test_the_mains_of_the_text_are_the_demonstrations():
    # The load of 1,015 lb on the main wheels: the first setting of the demonstration.
    from walkaround.lessons import securing

    stage = securing.demo()
    there = stage._work(stage.values).said.there
    assert f"carry {there.wheels_n[1:].sum() / tie_down.newton(FOUR.units):,.0f} lb" in WHOLE


def test_the_order_is_the_same_everywhere_and_follows_from_the_statics():
    for name in aircraft.demo_names():
        windward, lee, tail = (steps.without(place, name) for place in (0, 1, 2))
        assert windward < lee < tail
    keys = [key for key, _ in steps.STEPS]
    assert keys == ["look", "brake", "tail", "lee", "windward", "chocks", "lock"]
    order = next(text for text in LESSON if "### In which order" in text).replace("*", "")
    order = order[order.index("In which order") :]
    places = [
        order.index(word)
        for word in ("set the brake", "tail", "away from the wind", "windward", "chocks", "control lock")
    ]
    assert places == sorted(places)
    solution = cells("solutions/02-securing.ipynb", "code")
    assert any(str(keys).replace("'", '"') in code for code in solution)
