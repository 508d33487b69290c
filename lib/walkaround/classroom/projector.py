"""A page for each demonstration, without code and notebook around it, for a projector; Voilà serves them."""

import importlib.util
import subprocess
import sys
from pathlib import Path

import nbformat
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook

from walkaround.classroom.texts import file_stem
from walkaround.exercises import notebooks
from walkaround.lessons.table import LESSONS, find

TEMPLATE = "walkaround"
# The template's name is for a Jupyter server that has Voilà in it.
METADATA = {**notebooks.METADATA, "voila": {"template": TEMPLATE}}
INDEX = "demonstrations.ipynb"


def pages():
    """Return the pages as notebooks by file name: one for each demonstration, and one that leads to them.

    >>> "1-loading-demo.ipynb" in pages()
    True
    """
    made, lines = {}, ["# Demonstrations", "", "Arrow keys move a control, Space plays, R hides and shows the answer."]
    for lesson in LESSONS:
        lines += ["", f"## {lesson.title}", ""]
        for name, does in lesson.demonstrations:
            file, made[file] = page(lesson.name, name)
            lines.append(f"- [{does}]({file})")
    made[INDEX] = new_notebook(cells=[new_markdown_cell("\n".join(lines))], metadata=METADATA)
    return made


def page(lesson, demonstration, preset=""):
    """Return the page of a demonstration, with a preset taken if one is named: its file name, and the notebook.

    >>> page("loading", "demo")[0], page("loading", "demo", "camping, tail-heavy")[0]
    ('1-loading-demo.ipynb', '1-loading-demo-camping-tail-heavy-79f66284.ipynb')
    """
    stem = f"{find(lesson).number}-{lesson}-{demonstration.replace('_', '-')}"
    stem += f"-{file_stem(preset)}" if preset else ""
    cell = new_code_cell(
        f"from walkaround.lessons.table import show; show({lesson!r}, {demonstration!r}, {preset!r})",
        id="show",
        metadata={"jupyter": {"source_hidden": True}},
    )
    return f"{stem}.ipynb", new_notebook(cells=[cell], metadata=METADATA)


def write(folder):
    """Write the pages into a folder."""
    for name, book in pages().items():
        nbformat.write(book, Path(folder) / name)


def command(folder, port=None, browser=True):
    """Return the command that serves the pages in a folder; raises ValueError in words where Voilà is not installed."""
    if importlib.util.find_spec("voila") is None:
        raise ValueError('Voilà is not installed; install it with: python -m pip install --editable ".[classroom]"')
    # Kernels are started before somebody asks for a page, so that the first one does not wait.
    options = [
        f"--template={TEMPLATE}",
        "--preheat_kernel=True",
        "--pool_size=1",
        "--VoilaConfiguration.file_allowlist=.*",
    ]
    options += [] if browser else ["--no-browser"]
    options += [] if port is None else [f"--port={port}"]
    return [sys.executable, "-m", "voila", str(folder), *options]


def serve(folder):
    """Write the pages into a folder and serve them until somebody ends it."""
    made = command(folder)
    write(folder)
    return subprocess.run(made, check=False).returncode
