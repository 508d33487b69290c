"""The notebooks of the exercises: what is stored is what is made, and the same bytes every time."""

from pathlib import Path

import nbformat
import pytest
from walkaround.exercises import notebooks
from walkaround.lessons.table import LESSONS

FOLDER = Path(__file__).resolve().parents[2] / "exercises"


def not_run(book):
    """A notebook without the outputs of its cells."""
    for cell in book.cells:
        if cell.cell_type == "code":
            cell.outputs, cell.execution_count = [], None
    return book


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_a_stored_exercise_is_what_is_made(lesson):
    stored = not_run(nbformat.read(FOLDER / lesson.file, as_version=4))
    assert stored == notebooks.lesson_exercise(lesson)


def test_the_same_arguments_make_the_same_bytes():
    one, two = (notebooks.data_of(notebooks.exercise_notebook("exercise-wind", "wind", "Wind")) for _ in range(2))
    assert one == two
    assert one.endswith(b"}\n")


def test_it_says_the_rules():
    text = notebooks.exercise_notebook("x", "wind", "Wind", tries=1, asks_for="", more=["Be quick."]).cells[0].source
    assert "takes 1 try that" in text
    assert "press Enter" not in text
    assert "- Be quick." in text
