"""What a lesson says: the cells of its notebooks, and every text of its questions."""

import json
from pathlib import Path

TOP = Path(__file__).parents[2]


def cells(notebook, kind="markdown"):
    """The cells of one kind in a notebook, each on one line."""
    book = json.loads((TOP / notebook).read_text(encoding="utf-8"))
    return [" ".join("".join(cell["source"]).split()) for cell in book["cells"] if cell["cell_type"] == kind]


def texts_of(papers):
    """Everything that papers say: the scene, and each question with what is said of its answers."""
    for asked in papers:
        yield asked.scene
        for q in asked.questions:
            yield from (q.title, q.text, q.hint, *q.worked, *(text for _, text in q.options))
            yield from (f"{turn.slip}: {turn.says}" for turn in q.wrong_turns)
