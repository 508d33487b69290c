"""What the lesson says in words: facts of the trade, and whose handbook is meant."""

import re

from lesson_texts import cells, texts_of
from walkaround.assessment.questions import paper
from walkaround.lessons.loading import demos, questions

LESSON = cells("notebooks/01-loading.ipynb")


def texts():
    """Everything that the lesson and its exercise say."""
    yield from LESSON
    yield demos.CAUTION
    yield from texts_of(paper(questions, f"Student {i}") for i in range(50))


def test_the_handbook_is_always_named():
    named = r"(?:Pilot's|Weight and Balance|aircraft's) Handbook|handbook of \*?that\*? aircraft"
    found = 0
    for text in texts():
        found += len(re.findall(named, text, re.IGNORECASE))
        assert "handbook" not in re.sub(named, "", text, flags=re.IGNORECASE).casefold(), text
    assert found > 50


def test_what_the_empty_weight_includes_is_said():
    # Common practice, no source: a weighing report counts full oil and the fuel that can't be used.
    by_hand = next(text for text in LESSON if "First the moments" in text)
    scales = next(text for text in LESSON if "three scales" in text)
    for text in (by_hand, scales):
        assert "full oil" in text
        assert "unusable fuel" in text


def test_a_load_on_a_seat_is_secured_and_clear_of_the_controls():
    for text in (LESSON[0], demos.CAUTION):
        caution = text.casefold()
        assert re.search(r"secure every [^.]*seat[^.]*clear of the controls", caution), text
