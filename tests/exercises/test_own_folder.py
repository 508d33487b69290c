"""walkaround open: the pages in a folder of one's own, renewed where nobody changed them, and JupyterLab at the start page."""

import contextlib
import errno
import json
import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import nbformat
import pytest
from nbformat.v4 import new_code_cell, new_markdown_cell, new_output
from walkaround.__main__ import main
from walkaround.exercises import own_folder

TOP = Path(__file__).resolve().parents[2]
LESSON, EXERCISE = "notebooks/01-loading.ipynb", "exercises/01-loading.ipynb"


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "my flying" / "workbook"


@pytest.fixture
def version(tmp_path, monkeypatch):
    """A few pages to lay out, which a test turns into those of the next version by changing them."""
    pages = tmp_path / "version"
    for name in (own_folder.START, LESSON, EXERCISE, "notebooks/08-thermometer-log.csv"):
        (pages / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(TOP / name, pages / name)
    monkeypatch.setattr(own_folder, "source", lambda: pages)
    return pages


def add(path, cell):
    book = nbformat.read(path, 4)
    book.cells.append(cell)
    nbformat.write(book, path)


def test_every_page_is_laid_out_and_nothing_else_of_the_checkout(folder):
    done = own_folder.lay_out(folder)
    assert own_folder.START in done.added
    tracked = {p for f in own_folder.FOLDERS for p in (TOP / f).glob("[0-9][0-9]-*") if p.suffix in (".ipynb", ".csv")}
    assert {p for p in folder.rglob("*") if p.is_file() and p.name != own_folder.RECORD} == {
        folder / p.relative_to(TOP) for p in tracked
    }
    assert own_folder.lay_out(folder) == (folder, [], [], [])


def test_in_the_checkout_itself_nothing_is_written():
    assert own_folder.lay_out(TOP) == (TOP, [], [], [])
    assert not (TOP / own_folder.RECORD).exists()


def test_what_a_student_changed_is_kept_and_said_and_what_they_only_ran_is_renewed(folder, version):
    own_folder.lay_out(folder)
    add(folder / LESSON, new_markdown_cell("My note: ask about the rear seats."))
    mine = (folder / LESSON).read_bytes()
    answers = folder / "exercises" / "01-loading.ann.answers.json"
    answers.write_text("{}")
    # JupyterLab saves a page that has been run: outputs, counts, its kernel, an empty cell at the end.
    ran = nbformat.read(folder / own_folder.START, 4)
    ran.metadata["language_info"] = {"name": "python", "version": "3.99"}
    for cell in (c for c in ran.cells if c.cell_type == "code"):
        cell.update(execution_count=7, outputs=[new_output("stream", text="another day")])
    ran.cells.append(new_code_cell(""))
    nbformat.write(ran, folder / own_folder.START)

    assert own_folder.lay_out(folder) == (folder, [], [], [])  # the same version: nothing to say

    for name in (own_folder.START, LESSON):
        add(version / name, new_markdown_cell("New in this version."))
    done = own_folder.lay_out(folder)
    assert done == (folder, [], [own_folder.START], [LESSON])
    assert f"Yours were left as they are:\n  {LESSON}\n" in done.says()
    assert (folder / LESSON).read_bytes() == mine
    assert (folder / own_folder.START).read_bytes() == (version / own_folder.START).read_bytes()
    assert answers.read_text() == "{}"

    # As it says: with another name for one's own, the new page comes beside it.
    (folder / LESSON).rename(folder / "notebooks/01-loading-mine.ipynb")
    assert own_folder.lay_out(folder) == (folder, [LESSON], [], [])
    assert (folder / "notebooks/01-loading-mine.ipynb").read_bytes() == mine


@pytest.mark.parametrize("record", [None, "", "[]", "[1]", '{"notebooks/01-loading.ipynb": 3}'])
def test_without_the_record_every_page_that_differs_is_kept(folder, version, record):
    own_folder.lay_out(folder)
    if record is None:
        (folder / own_folder.RECORD).unlink()
    else:
        (folder / own_folder.RECORD).write_text(record)
    add(version / LESSON, new_markdown_cell("New in this version."))
    assert own_folder.lay_out(folder) == (folder, [], [], [LESSON])


@pytest.mark.parametrize("text", ["", "{", "[]", '{"cells": 3}', '{"cells": [3]}', '{"cells": [{"source": []}]}'])
def test_a_page_that_is_broken_is_kept(folder, version, text):
    own_folder.lay_out(folder)
    (folder / LESSON).write_text(text)
    add(version / LESSON, new_markdown_cell("New in this version."))
    assert own_folder.lay_out(folder).kept == [LESSON]
    assert (folder / LESSON).read_text() == text


def test_a_table_with_another_number_and_a_picture_pasted_into_a_page_are_changes(folder, version):
    own_folder.lay_out(folder)
    log = folder / "notebooks/08-thermometer-log.csv"
    log.write_text(log.read_text().replace("0", "1", 1))
    page = json.loads((folder / EXERCISE).read_text())
    page["cells"][0]["attachments"] = {"a.png": {"image/png": "AAAA"}}
    (folder / EXERCISE).write_text(json.dumps(page))
    (folder / own_folder.RECORD).unlink()
    assert own_folder.lay_out(folder).kept == ["notebooks/08-thermometer-log.csv", EXERCISE]


def test_what_stops_it_is_one_sentence(folder, version, monkeypatch, capsys):
    def says(*arguments):
        assert main(["open", *map(str, arguments)]) == 1
        told = capsys.readouterr()
        assert not told.out
        assert told.err.count("\n") == 1
        return told.err

    file = folder.parent
    file.write_text("a file")
    for place in (file, folder, folder / "deeper"):
        assert f"can't be laid out in {place}: {file} is in the way." in says(place, "--lay-out-only")
    file.unlink()
    (folder / LESSON).mkdir(parents=True)
    assert f"{folder / LESSON} is in the way." in says(folder, "--lay-out-only")

    def refuses(path, *_, **__):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    (folder / LESSON).rmdir()
    monkeypatch.setattr(own_folder, "write_whole", refuses)
    assert says(folder, "--lay-out-only").endswith("can't be read or written. Choose another folder for the pages.\n")
    monkeypatch.setattr(own_folder.importlib.util, "find_spec", lambda name: None)
    assert says(folder) == "JupyterLab is not installed; install it with: python -m pip install jupyterlab\n"


def test_the_default_is_in_the_home_folder(version, tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    assert main(["open", "--lay-out-only"]) == 0
    assert capsys.readouterr().out == f"The pages are in {tmp_path / 'walkaround-workbook'}: 4 added, 0 renewed.\n"
    assert (tmp_path / "walkaround-workbook" / own_folder.START).exists()


@pytest.mark.skipif(os.name == "nt", reason="Unix signals")
def test_jupyterlab_serves_the_folder_and_opens_the_start_page(folder, tmp_path):
    config = tmp_path / "config"
    config.mkdir()
    server = {"open_browser": False, "port": 0, "allow_root": True}
    (config / "jupyter_server_config.json").write_text(json.dumps({"ServerApp": server}))
    own = {"JUPYTER_RUNTIME_DIR": str(tmp_path), "JUPYTER_CONFIG_DIR": str(config)}
    command = [sys.executable, "-m", "walkaround", "open", str(folder)]
    how = {"env": os.environ | own, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "start_new_session": True}
    for _ in range(3):  # on a machine under load JupyterLab may give up while it starts
        # A shell's background job ignores Ctrl+C, and what it starts would too.
        before = signal.signal(signal.SIGINT, signal.default_int_handler)
        lab = subprocess.Popen(command, text=True, **how)
        signal.signal(signal.SIGINT, before)
        said = next((line for line in lab.stderr if "Serving notebooks from" in line), "")
        if said:
            break
        lab.communicate(timeout=30)
    try:
        assert said.rstrip().endswith(f"local directory: {folder}")
        next(line for line in lab.stderr if "-open.html" in line)
        pages = [page.read_text(encoding="utf-8") for page in tmp_path.glob("jpserver-*-open.html")]
        assert any(f"/lab/tree/{own_folder.START}" in page for page in pages)
        # Ctrl+C goes to both; without a terminal to ask in, JupyterLab ends at once and this ends with it.
        for wait_s in (10, 10, 30):  # under load the first may come before JupyterLab listens for it
            os.killpg(lab.pid, signal.SIGINT)
            with contextlib.suppress(subprocess.TimeoutExpired):
                out, said = lab.communicate(timeout=wait_s)
                break
        else:  # what it said counts, however slow it is to end
            os.killpg(lab.pid, signal.SIGKILL)
            out, said = lab.communicate(timeout=30)
        assert "own_folder" not in said  # no traceback of ours
        assert out.startswith(f"The pages are in {folder}: ")
    finally:
        with contextlib.suppress(ProcessLookupError):
            os.killpg(lab.pid, signal.SIGKILL)
