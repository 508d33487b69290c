"""What the lesson on cooling says: its cautions, whose handbook is meant, and numbers that the library gives."""

import re

import pytest
from lesson_texts import cells, texts_of
from walkaround import aircraft
from walkaround.assessment.questions import paper
from walkaround.lessons.cooling import questions, words
from walkaround.lessons.cooling.climb import Climb, Plan
from walkaround.physics.cooling import OIL

FOUR = aircraft.demo("morrowlark_four")
LESSON = cells("notebooks/04-cooling.ipynb")
WHOLE = " ".join(LESSON).replace("*", "")
PAPERS = [paper(questions, f"Student {i}") for i in range(10)]


def texts():
    """Everything that the lesson and its exercise say."""
    yield from (*LESSON, *cells("solutions/04-cooling.ipynb"), words.CAUTION, words.FLYING)
    yield from texts_of(PAPERS)


@pytest.mark.parametrize("caution", ["propeller as live", "ignition off, key out", "hot engine burns", "own handbook"])
def test_cautions_stand_at_the_top_of_lesson_and_demonstration(caution):
    for text in (words.CAUTION, LESSON[0]):
        assert caution in text.replace("*", "").casefold()


def test_the_handbook_is_always_the_aircrafts():
    named = r"(?:Pilot's|aircraft's|Technician)(?: own)? Handbook"
    for text in texts():
        assert "handbook" not in re.sub(named, "", text.replace("*", ""), flags=re.IGNORECASE).casefold(), text


def test_rules_of_thumb_and_what_is_left_out_stand_among_the_sources():
    assert "Rules of thumb, no source" in LESSON[-1]
    for left_out in ("sides share the air", "as dense as at the field", "thermostat"):
        assert left_out in LESSON[-1]


def flown(**blocked):
    return Climb(FOUR, Plan(15.0, 1.0, 74.0, **blocked))


@pytest.mark.parametrize(
    ("row", "blocked"),
    [
        ("nothing", {}),
        ("half of both intakes blocked", {"left": 0.5, "right": 0.5}),
        ("a plug on the gauge's side", {"left": 1.0}),
        ("a plug on the other side", {"right": 1.0}),
        ("a nest, three quarters of both", {"left": 0.75, "right": 0.75}),
        ("both plugs", {"left": 1.0, "right": 1.0}),
        ("the winter kit", {"kit": True}),
    ],
)
def test_the_table_of_what_is_left_in_is_computed(row, blocked):
    climb = flown(**blocked)
    after, first = climb.at(0.0), climb.first
    cells_of = re.search(rf"\| {re.escape(row)} \| (\d+) and (\d+) °C \| ([^|]+) \|", WHOLE)
    assert (int(cells_of[1]), int(cells_of[2])) == (round(after["left"]), round(after[OIL]))
    said = cells_of[3]
    if first is None:
        assert said.startswith("never")
    elif first.minutes < 1:
        assert said == f"{60 * first.minutes:.0f} s"
    else:
        assert said.startswith(f"{first.minutes:.1f} min")
        assert ("the oil" in said) == (first.part == OIL)
    if row == "a plug on the other side":
        assert f"gauge shows {climb.at(first.minutes)['left']:.0f} °C" in said
    if row == "nothing":
        assert f"heads {climb.hottest_c['left']:.0f}, oil {climb.hottest_c[OIL]:.0f} °C" in said
    if row.startswith("half"):
        assert Climb(FOUR, climb.plan._replace(outside_c=38.0)).first is not None


def test_what_the_lesson_computes_by_hand_is_the_demonstrations():
    kit, reduced = flown(kit=True), flown(right=1.0)
    assert f"heads settle at {kit.at(20.0)['left']:.0f} °C, and the oil passes its limit" in WHOLE
    assert round(kit.first.minutes) == 9
    after = {side: flown(**{side: 1.0}).at(0.0)["left"] for side in ("left", "right")}
    shown = f"{after['left']:.0f} °C with the plug on its side, {after['right']:.0f} with the plug on the other"
    assert f"{shown}, and {flown().at(0.0)['left']:.0f} with none" in WHOLE
    lowered = Climb(FOUR, reduced.plan._replace(power=0.75, speed_kt=89.0))
    assert reduced.at(20.0)["right"] - lowered.at(20.0)["right"] == pytest.approx(60, abs=3)
    engine = FOUR.cooling.engine(FOUR.engine, 74)
    losses = engine.losses_w_per_k(FOUR.cooling.setting(1.0, 74.0))
    assert losses[:2].sum() == pytest.approx(415, abs=1)
