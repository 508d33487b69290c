"""What the lesson, its demonstration and its exercise say: cautions at the head, rules of thumb named, one handbook."""

import re

import pytest
from lesson_texts import cells, texts_of
from walkaround.assessment.questions import paper
from walkaround.lessons.oil import logs, questions, words
from walkaround.physics import oil

PAPERS = [paper(questions, f"Student {i}") for i in range(10)]


LESSON = cells("notebooks/07-oil.ipynb")


def texts():
    """Everything that the lesson and its exercise say."""
    yield from (*LESSON, *cells("solutions/07-oil.ipynb"), words.CAUTION)
    yield from texts_of(PAPERS)


@pytest.mark.parametrize(
    "caution",
    ["hot oil", "hot engine", "exhaust", "propeller as live", "ignition off, key out", "own handbook", "mechanic"],
)
def test_cautions_stand_at_the_top_of_lesson_and_demonstration(caution):
    for text in (words.CAUTION, LESSON[0]):
        assert caution in text.replace("*", "").casefold()


def test_the_handbook_is_always_the_aircrafts():
    named = r"(?:Pilot's|aircraft's)(?: own)? Handbook|Handbook of Mathematical"
    for text in texts():
        plain = text.replace("*", "")
        assert "handbook" not in re.sub(named, "", plain, flags=re.IGNORECASE).casefold(), text


def test_each_rule_of_thumb_says_so():
    for text in texts():
        if re.search(r"half (?:of what is left there )?runs back|every four minutes", text):
            assert "rule of thumb" in text.casefold().replace("*", "")
    assert "rules of thumb, common practice, no source" in LESSON[-1]
    for asked in PAPERS:
        assert "rule of thumb" in asked.question("soon").text


def test_what_the_lesson_works_out_is_the_demonstrations_log():
    code = cells("notebooks/07-oil.ipynb", "code")
    line = next(source for source in code if source.startswith("line = trend("))
    assert f"{list(logs.HOURS)}, {list(logs.STEADY[0])}" in line
    bend = next(source for source in code if source.startswith("later = "))
    assert f"{list(logs.HOURS[:7])}, {list(logs.CHANGED[0][:7])}" in bend


def test_the_table_of_what_goes_wrong_is_computed():
    said = next(text for text in LESSON if text.startswith("## How much does it matter"))
    for per_hour, written in ((0.08, "19 hours"), (0.2, "7½ hours"), (0.5, "3 hours"), (4.0, "22 minutes")):
        hours = float(oil.hours_until(6.5, 5.0, per_hour))
        shown = {"19 hours": round(hours), "7½ hours": hours, "3 hours": hours, "22 minutes": int(60 * hours)}[written]
        assert shown == float(written.split()[0].replace("½", ".5"))
        assert f"{per_hour:g} qt/h | {written}" in said
