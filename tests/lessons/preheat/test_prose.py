"""What the lesson says in words: the trade's facts, its cautions, and whose handbook is meant."""

import re

import pytest
from lesson_texts import cells, texts_of
from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.assessment.questions import paper
from walkaround.lessons.preheat import hangar_demos, questions
from walkaround.physics.oil import LB_PER_US_GALLON
from walkaround.physics.preheat.engine import warming
from walkaround.physics.preheat.words import CAUTION

PAPERS = [paper(questions, f"Student {i}") for i in range(10)]


LESSON = cells("notebooks/08-preheat.ipynb")


def texts():
    """Everything that the lesson and its exercise say."""
    yield from (*LESSON, *cells("solutions/08-preheat.ipynb"), CAUTION, *hangar_demos.RULES)
    yield from texts_of(PAPERS)


def test_the_handbook_is_always_named():
    named = r"(?:Pilot's|Weight and Balance|aircraft's)(?: own)? Handbook"
    found = 0
    for text in texts():
        plain = text.replace("*", "")
        found += len(re.findall(named, plain, re.IGNORECASE))
        assert "handbook" not in re.sub(named, "", plain, flags=re.IGNORECASE).casefold(), text
    assert found > 10


def test_a_part_is_ready_and_only_what_is_too_hot_has_a_limit():
    for text in texts():
        plain = text.replace("*", "")
        for match in re.finditer(r"\blimits?\b", plain):
            before = plain[: match.start()]
            assert re.search(r"(engine maker's(?: own)?|power is the|power) $", before), text
    assert not any("to its limit" in text for text in texts())


def test_no_heat_is_taken_by_a_thin_lead():
    for asked in PAPERS:
        assert "lead" not in asked.question("rise").text
        assert "half power" in asked.question("rise").text
    for text in (CAUTION, LESSON[0]):
        assert re.search(r"lead[^.]*(coiled|rolled out)", text)
        assert re.search(r"coiled[^.]*can catch fire", text)


@pytest.mark.parametrize(
    "caution",
    [
        r"extinguisher at hand",
        r"never refuel (it while it runs|a running heater)",
        r"fabric covers?, hoses",
        r"leave the air a way out",
        r"treat the propeller as live",
        r"carbon monoxide",
    ],
)
def test_cautions_stand_at_the_top_of_lesson_and_demonstration(caution):
    for text in (CAUTION, LESSON[0]):
        assert re.search(caution, text.replace("*", ""), re.IGNORECASE), text


def test_starting_has_its_cautions_too():
    for text in (LESSON[0], next(text for text in LESSON if text.startswith("## Take this out"))):
        assert re.search(r"over-prim", text)
        assert re.search(r"oil pressure[^.]*stop", text, re.IGNORECASE)
    steps = dict(PAPERS[0].question("steps").options)
    assert "none means stop" in steps["start"]


def test_warmth_is_felt_where_it_comes_last():
    # What the model says is last after warm air, and after a pad ...
    section, heaters = aircraft.demo("morrowlark_four").engine, demo_heaters()
    air = warming(section.engine(), -15.0, heaters.air_heaters[0].set_to(), cover=True).reached_by_part(section.ready_c)
    pad = warming(section.engine(), -15.0, pad=heaters.pads[0].set_to(), cover=True).reached_by_part(section.ready_c)
    assert (max(air, key=air.get), max(pad, key=pad.get)) == ("oil", "cylinders")
    # ... is where the lesson sends the hand.
    take_out = next(text for text in LESSON if text.startswith("## Take this out"))
    assert "After warm air that is the oil: feel the sump. After a sump pad it is the cylinders" in take_out


def test_one_density_of_oil():
    assert LB_PER_US_GALLON == 7.5  # FAA-H-8083-1, Aircraft Weight and Balance Handbook (recalled)
    said = [float(number) for text in texts() for number in re.findall(r"weighs ([\d.]+) lb to the US gallon", text)]
    assert set(said) == {7.5}
