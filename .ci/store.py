"""Run notebooks from the first cell to the last and store their outputs, so that they read well without running.

    python .ci/store.py                     every notebook
    python .ci/store.py notebooks/01-*      some of them

What is stored is a still picture and a sentence where a live widget would be: a widget's own state is left out, and so
is everything that differs from run to run. The notebooks of the exercises are made anew.
"""

import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient
from walkaround.exercises.notebooks import data_of, lesson_exercise, tidied
from walkaround.lessons.table import LESSONS

TOP = Path(__file__).resolve().parent.parent
FOLDERS = ("notebooks", "exercises", "solutions")
EXERCISES = {TOP / "exercises" / lesson.file: lesson for lesson in LESSONS}
WIDGET = "application/vnd.jupyter.widget-view+json"


def store(path):
    """Run one notebook and write it back."""
    book = lesson_exercise(EXERCISES[path]) if path in EXERCISES else nbformat.read(path, as_version=4)
    NotebookClient(book, timeout=300, kernel_name="python3", resources={"metadata": {"path": path.parent}}).execute()
    for cell in book.cells:
        for output in cell.get("outputs", []):
            output.get("data", {}).pop(WIDGET, None)
    path.write_bytes(data_of(tidied(book, path.stem)))
    print(f"{path.relative_to(TOP)}: {len(book.cells)} cells, {path.stat().st_size // 1000} kB")


if __name__ == "__main__":
    given = [Path(p).resolve() for p in sys.argv[1:]]
    every = {*EXERCISES, *(p for folder in FOLDERS for p in (TOP / folder).glob("*.ipynb"))}
    for path in given or sorted(every):
        store(path)
