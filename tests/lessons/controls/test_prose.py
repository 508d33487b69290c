"""What the lesson, its demonstrations and its exercise say: cautions at the head, rules of thumb named, one handbook."""

import re
from math import asin, degrees, radians, sin

import pytest
from lesson_texts import cells, texts_of
from walkaround import aircraft
from walkaround.assessment.questions import paper
from walkaround.lessons.controls import questions, words
from walkaround.lessons.controls.tail import Tail

LESSON = cells("notebooks/05-controls.ipynb")
CODE = cells("notebooks/05-controls.ipynb", "code")
WHOLE = " ".join(LESSON).replace("*", "")
CRAFT = aircraft.demo("morrowlark_four")
TAIL = Tail(CRAFT)


def texts():
    """Everything that the lesson and its exercise say."""
    yield from (*LESSON, *cells("solutions/05-controls.ipynb"), words.CAUTION, *words.HOW_SEEN.values())
    yield from texts_of(paper(questions, f"Student {i}") for i in range(10))


def test_the_handbook_is_always_named():
    named = r"(?:Pilot's|aircraft's)(?: own)? Handbook"
    for text in texts():
        assert "handbook" not in re.sub(named, "", text.replace("*", ""), flags=re.IGNORECASE).casefold(), text


@pytest.mark.parametrize(
    "caution",
    [
        "own handbook comes first", "only a mechanic adjusts", "look before you move anything", "crushes fingers",
        "never force a control", "propeller is live", "don't fly",
    ],
)  # fmt: skip
def test_cautions_stand_at_the_top_of_the_lesson(caution):
    assert caution in LESSON[0].replace("*", "").casefold()


def test_a_rule_of_thumb_says_so():
    for text in texts():
        if "57.3" in text:
            assert re.search(r"rule of thumb|[Nn]early as good|57\.3 degrees", text), text


def test_numbers_in_the_text_are_the_librarys():
    section, d = CRAFT.control_surfaces, CRAFT.dimensions
    assert f"The elevator of the Morrowlark measures {section.elevator.chord:g} in" in WHOLE
    assert f"{section.elevator.chord:g} of {d.tailplane_chord:g} in." in WHOLE
    assert f"The papers say {section.elevator.up_deg:g}° up, {section.tolerance_deg:g}° either way" in WHOLE
    assert 2 * degrees(asin(6.1 / 2 / section.elevator.chord)) == pytest.approx(section.elevator.up_deg - 3, abs=0.3)
    assert 2 * section.elevator.chord * sin(radians(27 / 2)) > 6.1 + 0.4
    assert f"at {TAIL.speed_kt:g} kt, the dynamic pressure is {TAIL.pressure:.1f} lb/ft²" in WHOLE
    assert f"The tailplane has {TAIL.area:.1f} ft²" in WHOLE
    assert f"grows by {TAIL.slope_per_rad / 57.29578:.3f} for each degree" in WHOLE
    assert f"act {TAIL.arm:.0f} in behind a CG at the forward limit, {TAIL.forward_limit:g} in" in WHOLE
    assert f"far would {TAIL.weight:,.0f} lb have to move" in WHOLE
    assert f"CG is {TAIL.margin:.2f} of a mean chord ahead" in WHOLE
    assert f"a lift coefficient of {TAIL.lift_coefficient:.2f}" in WHOLE
    assert f"{TAIL.area:.1f}, {TAIL.arm:.0f}, {TAIL.wing_area:.1f}, {TAIL.mean_chord:.1f}" in " ".join(CODE)


def test_the_sums_by_hand_come_to_what_the_library_says():
    cost = TAIL.cost(3.0)
    assert pytest.approx(0.73, abs=0.005) == TAIL.tau
    assert cost.force == pytest.approx(7.2 * 33.9 * 0.064 * 2.2, rel=0.01)
    assert cost.cg == pytest.approx(34 * 188 / 2610, abs=0.03)
    assert cost.slowest_kt == pytest.approx(46 * (2.23 / (2.23 - 0.31)) ** 0.5, abs=0.1)
    assert "Nearly two and a half inches" in WHOLE
    assert "16 % more" in WHOLE
    assert (cost.slowest_kt / 46) ** 2 == pytest.approx(1.16, abs=0.006)


def test_theory_says_what_it_leaves_out():
    assert "has a smaller τ than a thin aerofoil" in WHOLE
    assert "The fuselage, the propeller and the ground are left out here" in WHOLE
    assert "Common practice, no source" in WHOLE


def test_the_order_of_the_check_is_the_same_everywhere():
    take_out = next(text for text in LESSON if text.startswith("## Take this out")).replace("*", "")
    places = [take_out.index(part) for part in ("Lock out", "Look around", "Each control to both stops", "once more")]
    assert places == sorted(places)
