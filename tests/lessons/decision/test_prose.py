"""What the lesson says in words: its cautions, whose handbook is meant, and that its numbers are the library's."""

import re

import pytest
from lesson_texts import cells, texts_of
from walkaround.assessment.questions import paper
from walkaround.lessons.decision import demos, questions
from walkaround.lessons.decision.flight import checked

LESSON = cells("notebooks/12-decision.ipynb")
WHOLE = " ".join(LESSON).replace("*", "")
PAPERS = [paper(questions, f"Student {i}") for i in range(5)]


@pytest.mark.parametrize(
    "caution", ["training aid", "aircraft's own handbook", "local rules", "licensed people come first"]
)
def test_cautions_stand_at_the_top_of_lesson_demonstration_and_exercise(caution):
    for text in (demos.CAUTION, LESSON[0].replace("*", ""), PAPERS[0].scene):
        assert caution in text or (caution == "training aid" and "invented" in text), text


def test_the_handbook_is_always_the_aircrafts():
    for text in (WHOLE, demos.CAUTION, *texts_of(PAPERS)):
        rest = re.sub(r"(aircraft's own handbook|than the handbook says)", "", text, flags=re.IGNORECASE)
        assert "handbook" not in rest.casefold(), rest


def test_the_flight_of_the_predictions_is_the_one_on_the_board():
    f = demos.flight_of(demos.HEAVY).flight
    told = (
        f"seats {f.front} and {f.rear} lb, holds {f.hold_a} and {f.hold_b} lb, {f.fuel:g} US gal for {f.hours:g} hours "
        f"by day; oil {f.stick:g} in on the stick, {f.oil_per_hour:g} qt/h; {f.outside_c} °C, {f.headwind_kt} kt from "
        f"ahead, {f.runway_ft:,} ft of runway. {f.found.words[0].upper()}{f.found.words[1:]}."
    )
    assert told in WHOLE
    by_key = {check.key: check for check in checked(f)}
    assert by_key["take-off weight"].value == 2630
    assert by_key["landing weight"].value == 2522
    assert by_key["fuel"].limit == 23.5
    assert by_key["runway"].value == pytest.approx(896, abs=1)


def test_rules_of_thumb_are_named():
    assert "rule of thumb" in PAPERS[0].question("runway").text
    assert "common practice, no source" in WHOLE
