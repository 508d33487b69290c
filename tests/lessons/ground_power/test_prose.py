"""What the lesson says in words: its cautions, whose handbook is meant, and that its numbers are the library's."""

import re

import pytest
from lesson_texts import cells, texts_of
from walkaround.assessment.questions import paper
from walkaround.lessons.ground_power import demos, questions

LESSON = cells("notebooks/09-ground_power.ipynb")
WHOLE = " ".join(LESSON).replace("*", "")
PAPERS = [paper(questions, f"Student {i}") for i in range(5)]


@pytest.mark.parametrize(
    "caution",
    [
        r"propeller turns when the starter does",
        r"chocks in",
        r"brake on",
        r"people clear",
        r"acid",
        r"hydrogen",
        r"no sparks",
        r"everything (switched )?off",
        r"frozen battery",
        r"aircraft's own handbook and the placard at its socket come first",
        r"training aid",
    ],
)
def test_cautions_stand_at_the_top_of_lesson_and_demonstration(caution):
    for text in (demos.CAUTION, LESSON[0]):
        assert re.search(caution, text.replace("*", ""), re.IGNORECASE), text


def test_the_handbook_is_always_the_aircrafts():
    for text in (WHOLE, demos.CAUTION, *texts_of(PAPERS)):
        plain = re.sub(r"(aircraft's( own)?|Pilot's) Handbook", "", text, flags=re.IGNORECASE)
        assert "handbook" not in re.sub(r"handbook and (its )?placard", "", plain, flags=re.IGNORECASE).casefold(), text


def test_what_the_table_of_steps_says_is_what_the_demonstration_says():
    stage = demos.demo()
    stage.take_preset("−15 °C, and nobody has warmed the oil")
    cold = stage.said
    assert (cold.startswith("Too slow: 55 rpm, and it needs 60 to fire"), "109 rpm" in cold) == (True, True)
    assert "55 rpm in place of 109, and it needs 60 to fire" in WHOLE
    stage.take_preset("28 V into a 14 V socket")
    volts, most, amperes = (float(x) for x in re.findall(r"\d+\.?\d*", stage.words)[:3])
    assert round(volts) == 20
    assert (most, amperes > 800) == (16, True)
    stage.take_preset("positive on negative")
    assert round(float(re.search(r"([\d,]+) A", stage.words)[1].replace(",", "")), -2) == 1600
    stage.take_preset("left flat, then a hard frost")
    assert "at 20 % charge it freezes at −15 °C" in stage.words
    assert "freezes at −15 °C with 20 % charge" in WHOLE


def test_rules_of_thumb_are_named():
    assert WHOLE.count("rule of thumb") + WHOLE.count("Rules of thumb") >= 3
    asked = PAPERS[0]
    assert re.search(r"% of that \(a rule of thumb\).*Peukert's law, another", asked.question("left").text)
    assert "rule of thumb" in asked.question("frozen").text
