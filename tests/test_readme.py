"""README's commands, as they are printed, in a terminal opened in its folder."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]
README = (TOP / "README.md").read_text(encoding="utf-8")
BIN = Path(sys.executable).parent
# What a terminal has where no environment is activated, and where one is.
PATHS = {"bare": os.defpath, "activated": f"{BIN}{os.pathsep}{os.defpath}"}


def command_like(start):
    """The command of README that begins in this way, its environment being the one that runs the tests."""
    found = re.search(rf"(?<![\w.]){re.escape(start)}[^`&\n]*", README)[0]
    return found.strip().replace(".venv/bin/", f"{BIN}/").split()


@pytest.mark.skipif(os.name == "nt", reason="Unix commands")
@pytest.mark.parametrize("path", PATHS)
def test_jupyterlab_serves_the_whole_workbook_and_opens_the_first_page(tmp_path, path):
    command = command_like(".venv/bin/jupyter lab")
    more = ["--allow-root", "--no-browser", "--ServerApp.port=0"]
    own = {"PATH": PATHS[path], "JUPYTER_RUNTIME_DIR": str(tmp_path), "JUPYTER_CONFIG_DIR": str(tmp_path / "config")}
    server = subprocess.Popen(
        [*command, *more], cwd=TOP, env=os.environ | own, stderr=subprocess.PIPE, text=True, encoding="utf-8"
    )
    try:
        said = next((line for line in server.stderr if "Serving notebooks from" in line), "")
        assert said.rstrip().endswith(f"local directory: {TOP}")
        next(line for line in server.stderr if "-open.html" in line)
        pages = [page.read_text(encoding="utf-8") for page in tmp_path.glob("jpserver-*-open.html")]
        assert any("/lab/tree/notebooks/00-start-here.ipynb" in page for page in pages)
    finally:
        server.terminate()
        try:
            server.communicate(timeout=30)
        except subprocess.TimeoutExpired:  # how it ends is not what is asked here
            server.kill()
            server.communicate()


@pytest.mark.skipif(os.name == "nt", reason="Unix commands")
@pytest.mark.parametrize(("path", "start"), [("bare", ".venv/bin/walkaround"), ("activated", "walkaround --help")])
def test_the_instructors_command_helps_itself(tmp_path, path, start):
    typed, *_ = command_like(start)
    command = f"{typed} --help && {typed} begin autumn && {typed} check autumn"
    done = subprocess.run(
        ["sh", "-c", command], cwd=tmp_path, env=os.environ | {"PATH": PATHS[path]}, capture_output=True, text=True
    )
    assert f"\n  {typed} hand-out autumn\n" in done.stdout
    assert done.stdout.endswith("0 students, 1 exercise, not ready.\n")


def test_its_pictures_are_there_light_and_said_in_words():
    shown = dict(re.findall(r"!\[([^\]]{40,})\]\(([^)]+\.png)\)", README))
    assert {TOP / path for path in shown.values()} == {*(TOP / ".ci" / "pictures").iterdir()}
    assert len(shown) == README.count("![") == 3
    assert all((TOP / path).stat().st_size < 150_000 for path in shown.values())
