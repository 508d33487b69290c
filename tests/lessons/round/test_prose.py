"""What the lesson says in words: its cautions, and that its numbers are those of the game."""

import re

import pytest
from lesson_texts import cells, texts_of
from walkaround import aircraft
from walkaround.assessment.questions import paper
from walkaround.assessment.variant import Variant
from walkaround.lessons.round import demos, questions
from walkaround.lessons.round.rounds import FAULTS, draw_day, places
from walkaround.lessons.round.score import without_looking
from walkaround.lessons.round.stops import THINGS
from walkaround.lessons.round.things import Place

LESSON = cells("notebooks/11-round.ipynb")
WHOLE = " ".join(LESSON)
CRAFT = aircraft.demo("morrowlark_four")


@pytest.mark.parametrize("caution", ["training aid", "invented aircraft", "handbook", "ropeller", "as live", "echanic"])
def test_cautions_stand_at_the_top_of_lesson_and_demonstration(caution):
    for text in (demos.CAUTION, LESSON[0]):
        assert caution in text


def test_the_handbook_is_always_the_aircrafts():
    papers = [paper(questions, f"Student {i}") for i in range(5)]
    for text in (WHOLE, *texts_of(papers)):
        rest = re.sub(r"aircraft's (own )?(handbook|\*\*)", "", text)
        assert "handbook" not in rest.replace("own handbook", ""), rest


def test_the_lesson_counts_as_the_game_does():
    assert f"{len(places())} things" in WHOLE
    low, high = FAULTS[1]
    assert (low + high) / 2 == 4
    assert "Four or so at level 1, up to eight at level 3" in WHOLE
    assert FAULTS[3][1] == 8
    assert round(without_looking(1), 1) == 16.7
    (worked,) = [c for c in cells("notebooks/11-round.ipynb", "code") if "0.972" in c]
    assert round(eval(worked.removeprefix("round(").rpartition(",")[0], {"__builtins__": {}}), 1) == 16.7


def test_what_the_table_of_stops_says_is_what_the_game_says():
    draws = Variant("tests", "prose", "round")
    place = Place(CRAFT, draw_day(CRAFT, draws)._replace(outside_c=-14), 2, draws)
    said = {}
    for things in THINGS.values():
        for thing in things:
            for kind in thing.kinds:
                seen = kind.draws(place)
                said[kind.name] = seen and kind.would(CRAFT, place.day, seen)
    for kind, told in {
        "hold over its limit": ("150 lb on a floor for 130", "0.7 in further aft"),
        "rope still tied": ("holds until the stake gives, 500 lb",),
        "something in the pitot inlet": ("at 74 kt", "248 kt"),
        "elevator short of travel": ("8° are missing", "91 lb less at the tail"),
        "water in the fuel": ("10 mL of water are 1.1 s without power",),
        "engine too cold to start": ("7 times as thick",),
        "wrong cart plugged in": ("16 V is the most",),
        "brake set before a tow": ("739 lb", "780 lb"),
    }.items():
        for part in told:
            assert part in said[kind], said[kind]
    for part in (
        "150 lb on a floor for 130: the CG 0.7 in",
        "500 lb before its stake",
        "248 kt shown at 74 kt, 3,000 ft up,",
        "91 lb less",
    ):
        assert part in WHOLE
    assert "739 lb on a leg that is good for 780" in WHOLE
    assert "oil at −10 °C is 7 times as thick as at 10 °C" in WHOLE
