"""Run notebooks from the first cell to the last and store their outputs, so that they read well without running.

    python .ci/store.py                     every notebook
    python .ci/store.py notebooks/01-*      some of them

What is stored is a still picture and a sentence where a live widget would be: a widget's own state is left out, and so
is everything that differs from run to run.
"""

import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient

TOP = Path(__file__).resolve().parent.parent
FOLDERS = ("notebooks", "exercises", "solutions")
WIDGET = "application/vnd.jupyter.widget-view+json"
METADATA = {
    "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}


def store(path):
    """Run one notebook and write it back."""
    book = nbformat.read(path, as_version=4)
    NotebookClient(book, timeout=300, kernel_name="python3", resources={"metadata": {"path": path.parent}}).execute()
    for number, cell in enumerate(book.cells):
        cell["id"] = f"{path.stem[:40].lower().replace('_', '-')}-{number:02d}"
        cell["metadata"] = {k: v for k, v in cell.metadata.items() if k == "tags"}
        for output in cell.get("outputs", []):
            output.get("data", {}).pop(WIDGET, None)
    book["metadata"] = METADATA
    nbformat.validate(book)
    nbformat.write(book, path)
    print(f"{path.relative_to(TOP)}: {len(book.cells)} cells, {path.stat().st_size // 1000} kB")


if __name__ == "__main__":
    given = [Path(p).resolve() for p in sys.argv[1:]]
    for path in given or sorted(p for folder in FOLDERS for p in (TOP / folder).glob("*.ipynb")):
        store(path)
