"""What the lesson says in words: its cautions, whose handbook is meant, and that its numbers are the library's."""

import re

import pytest
from lesson_texts import cells, texts_of
from walkaround.assessment.questions import paper
from walkaround.lessons.towing import demos, force_demo, questions

LESSON = cells("notebooks/10-towing.ipynb")
WHOLE = " ".join(LESSON).replace("*", "")
PAPERS = [paper(questions, f"Student {i}") for i in range(5)]


@pytest.mark.parametrize(
    "caution",
    [
        r"ignition off, key out",
        r"treat the propeller as live",
        r"never push or pull on it",
        r"nobody behind the tail",
        r"under the wings",
        r"wing walker at each tip",
        r"someone on the brakes",
        r"never past (the|its) marks",
        r"tow bar off",
        r"aircraft's own handbook",
        r"local rules come first",
        r"training aid",
    ],
)
def test_cautions_stand_at_the_top_of_lesson_and_demonstration(caution):
    for text in (demos.CAUTION, LESSON[0]):
        assert re.search(caution, text.replace("*", ""), re.IGNORECASE), text


def test_the_handbook_is_always_the_aircrafts():
    for text in (WHOLE, demos.CAUTION, *texts_of(PAPERS)):
        plain = re.sub(r"aircraft's\s+(own )?handbook", "", text, flags=re.IGNORECASE)
        rest = re.sub(r"(many handbooks forbid it|what its handbook says)", "", plain, flags=re.IGNORECASE)
        assert "handbook" not in rest.casefold(), rest


def test_what_the_table_of_steps_says_is_what_the_demonstrations_say():
    force = force_demo.force()
    force.take_preset("level tarmac, brake on")
    assert ("998 lb" in force.words, "780 lb" in force.words) == (True, True)
    assert "998 lb, and the leg is good for 780" in WHOLE
    assert "674 lb under the nose wheel, 1,406 lb under the main wheels" in force.said
    force.take_preset("down a slope of 4 %")
    assert "after 30 ft it does 3.7 kt" in force.words
    assert "on 4 %: 3.7 kt after 30 ft" in WHOLE
    tow = demos.demo()
    tow.take_preset("a good tow")
    assert tow.values["angle"] == 28
    assert "runs on 10.2 ft, the outer wing tip on 28.0 ft, and the tail swings out by 10.2 ft" in tow.said
    assert "10 ft at 28°" in WHOLE
    assert "runs backwards" in tow.said
    tow.take_preset("a wide turn")
    assert "runs backwards" not in tow.said


def test_rules_of_thumb_are_named_on_screen_and_in_the_lesson():
    assert WHOLE.casefold().count("rule of thumb") + WHOLE.casefold().count("rules of thumb") >= 3
    assert "rule of thumb" in PAPERS[0].question("slope").text
    assert "Rules of thumb" in force_demo.force().said
    assert "common practice, no source" in WHOLE
