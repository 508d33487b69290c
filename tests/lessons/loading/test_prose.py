"""What the lesson says in words: facts of the trade, and whose handbook is meant."""

import json
import re
from pathlib import Path

from walkaround.assessment.questions import paper
from walkaround.lessons.loading import demos, questions

NOTEBOOK = Path(__file__).parents[3] / "notebooks" / "01-loading.ipynb"


def prose():
    cells = json.loads(NOTEBOOK.read_text(encoding="utf-8"))["cells"]
    return [" ".join("".join(cell["source"]).split()) for cell in cells if cell["cell_type"] == "markdown"]


def texts():
    """Everything that the lesson and its exercise say."""
    yield from prose()
    yield demos.CAUTION
    for i in range(50):
        for q in paper(questions, f"Student {i}").questions:
            yield from (q.text, q.hint, *q.worked, *(text for _, text in q.options), *(t.says for t in q.wrong_turns))


def test_the_handbook_is_always_named():
    named = r"(?:Pilot's|Weight and Balance|aircraft's) Handbook|handbook of \*?that\*? aircraft"
    found = 0
    for text in texts():
        found += len(re.findall(named, text, re.IGNORECASE))
        assert "handbook" not in re.sub(named, "", text, flags=re.IGNORECASE).casefold(), text
    assert found > 50


def test_what_the_empty_weight_includes_is_said():
    # Common practice, no source: a weighing report counts full oil and the fuel that can't be used.
    by_hand = next(text for text in prose() if "First the moments" in text)
    scales = next(text for text in prose() if "three scales" in text)
    for text in (by_hand, scales):
        assert "full oil" in text
        assert "unusable fuel" in text


def test_a_load_on_a_seat_is_secured_and_clear_of_the_controls():
    for text in (prose()[0], demos.CAUTION):
        caution = text.casefold()
        assert re.search(r"secure every [^.]*seat[^.]*clear of the controls", caution), text
