"""The worked example of DEVELOPERS.md, “How to add a lesson”, followed step by step in a copy of the package."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import nbformat
import pytest

TOP = Path(__file__).resolve().parents[1]
TABLE, NOTEBOOK = "lib/walkaround/lessons/table.py", "notebooks/13-tyres.ipynb"


def steps():
    """The section's blocks of code, each under the file named last before it."""
    page = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = re.search(r"^## How to add a lesson$(.*?)^## ", page, re.MULTILINE | re.DOTALL)[1]
    path, found = "", {}
    for named, code in re.findall(r"`((?:lib|notebooks)/[\w/.-]+\.\w+)`|```python\n(.*?)```", section, re.DOTALL):
        if named:
            path = named
        else:
            assert path not in found, f"two blocks for {path}"
            found[path] = code
    return found


def test_the_steps_name_new_files_and_the_table():
    assert {TABLE, NOTEBOOK} < set(steps())
    assert len(steps()) >= 8
    assert [path for path in steps() if (TOP / path).exists()] == [TABLE]


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    """A folder with the package, the scripts and the tests of all lessons, in which the steps have been taken."""
    top = tmp_path_factory.mktemp("copy")
    for folder in ("lib/walkaround", ".ci", "tests/lessons"):
        shutil.copytree(TOP / folder, top / folder, ignore=shutil.ignore_patterns("__pycache__"))
    (top / "exercises").mkdir()
    for file in ("tests/conftest.py", "tests/test_arrows.py", "tests/test_docstrings.py", "pyproject.toml"):
        shutil.copy(TOP / file, top / file)
    for path, code in steps().items():
        file = top / path
        file.parent.mkdir(parents=True, exist_ok=True)
        if path == TABLE:
            before, end, after = file.read_text(encoding="utf-8").partition("\n)\n\n\ndef find(")
            assert end
            code = f"{before}\n{code.rstrip()}{end}{after}"
        elif path == NOTEBOOK:
            cells = [nbformat.v4.new_code_cell(line) for line in code.splitlines()]
            code = nbformat.writes(nbformat.v4.new_notebook(cells=cells))
        file.write_text(code, encoding="utf-8")
    return top


def run(top, *command):
    """Run Python in the copy, with the copy's package; return what it printed."""
    environment = {**os.environ, "PYTHONPATH": str(top / "lib")}
    done = subprocess.run(
        [sys.executable, *command], cwd=top, env=environment, capture_output=True, text=True, timeout=300
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_the_demonstration_says_its_sentence(copy):
    said = run(
        copy,
        "-c",
        "from walkaround.lessons import tyres; d = tyres.demo(); print(d.verdict, d.words); d.set(now_c=20); "
        "print(d.verdict, d.words)",
    )
    assert said.splitlines() == [
        "stop The gauge shows 35.2 psi, less than 38: add air before you taxi.",
        "ok The gauge shows 42.0 psi, and 38 is the least: ready to roll.",
    ]


def test_its_exercise_makes_sound_papers_for_students(copy):
    # The tests that go through all lessons, as far as they ask for no more questions than the example has.
    shared = ["tests/lessons/test_papers.py", "tests/test_arrows.py", "tests/test_docstrings.py"]
    told = run(
        copy,
        "-m",
        "pytest",
        "-q",
        "-n",
        "0",
        "-p",
        "no:cacheprovider",
        "-k",
        "tyres and not pattern",
        "--no-header",
        *shared,
    )
    assert int(re.search(r"(\d+) passed", told)[1]) > 10


def test_its_exercise_notebook_is_made(copy):
    run(copy, ".ci/store.py", "exercises/13-tyres.ipynb")
    cells = nbformat.read(copy / "exercises/13-tyres.ipynb", as_version=4).cells
    assert cells[-1].source == 'exercise("tyres")'
    assert "Exercise with 2 questions, 3 points." in cells[-1].outputs[0].data["text/plain"]


def test_its_notebook_shows_the_picture_the_sentence_and_a_question(copy):
    run(copy, ".ci/store.py", NOTEBOOK)
    cells = nbformat.read(copy / NOTEBOOK, as_version=4).cells
    shown = [output.data for cell in cells for output in cell.outputs]
    assert ["image/png" in data for data in shown] == [True, False]
    assert "The gauge shows 35.2 psi" in shown[0]["text/plain"]
    assert shown[1]["text/plain"].startswith("Question: A tyre was filled to")


def test_its_exercise_opens_and_its_lesson_is_on_the_map(copy):
    told = run(
        copy,
        "-c",
        "from walkaround.exercises import exercise, round_map; "
        "print(exercise('tyres')._repr_mimebundle_()['text/plain']); print(round_map().now['stops'][-1])",
    )
    assert "Exercise with 2 questions, 3 points." in told
    assert "'number': 13, 'title': 'Tyres', 'file': '13-tyres.ipynb'" in told
