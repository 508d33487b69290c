"""Pages for a projector, each a demonstration or an exercise, without code or notebook around it; Voilà serves them."""

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
    """Return the pages as notebooks by file name: demonstrations, exercises, and one that leads to all of them.

    >>> "1-loading-demo.ipynb" in pages()
    True
    """
    made, lines = {}, ["# Demonstrations", "", "Arrow keys move a control, Space plays, R hides and shows the answer."]
    for lesson in LESSONS:
        lines += ["", f"## {lesson.title}", ""]
        exercise = exercise_file(lesson)
        back = [f"[All demonstrations]({INDEX})"]
        for name, does in lesson.demonstrations:
            file, made[file] = page(lesson.name, name)
            lines.append(f"- [{does}]({file})")
            back.append(f"[{does}]({file})")
            made[file].cells.insert(0, _links(back[0], f"[Exercise: {lesson.title}]({exercise})"))
        lines.append(f"- [Exercise: {lesson.title}]({exercise})")
        made[exercise] = new_notebook(cells=[_links(*back), *_exercise(lesson)], metadata=METADATA)
    made[INDEX] = new_notebook(cells=[new_markdown_cell("\n".join(lines))], metadata=METADATA)
    return made


def exercise_file(lesson):
    """Return the file name of the page with a lesson's exercise."""
    return f"{lesson.number}-{lesson.name}-exercise.ipynb"


def _links(*links):
    return new_markdown_cell(" · ".join(links))


def _exercise(lesson):
    """The cells of an exercise for a class that works it out together."""
    yield new_markdown_cell(
        f"# Exercise: {lesson.title}\n\nFor the class to work out together, under any name. What is answered here is "
        f"kept until these pages are closed; for answers that last, open `exercises/{lesson.file}` in JupyterLab."
    )
    yield new_code_cell(f"from walkaround.exercises import exercise; exercise({lesson.name!r})", id="exercise")


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
    # For each lesson's first demonstration a kernel is started before somebody asks for it, so that it need not wait; a
    # kernel for every page would keep a laptop busy for a minute. Kernels end a while after their page is closed.
    names = [name for name in pages() if name != INDEX]
    warm = {page(lesson.name, lesson.demonstrations[0][0])[0] for lesson in LESSONS}
    pools = {name: {"pool_size": 0} for name in names if name not in warm}
    options = [
        f"--template={TEMPLATE}",
        "--preheat_kernel=True",
        "--pool_size=1",
        f"--VoilaKernelManager.kernel_pools_config={pools}",
        "--VoilaConfiguration.file_allowlist=.*",
        "--MappingKernelManager.cull_idle_timeout=60",
        "--MappingKernelManager.cull_interval=30",
        "--Voila.kernel_websocket_connection_class=walkaround.live.at_once.Connection",
    ]
    options += [] if browser else ["--no-browser"]
    options += [] if port is None else [f"--port={port}"]
    return [sys.executable, "-m", "voila", str(folder), *options]


def serve(folder):
    """Write the pages into a folder and serve them until somebody ends it."""
    made = command(folder)
    write(folder)
    return subprocess.run(made, check=False).returncode
