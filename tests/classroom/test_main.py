"""The command line: help that reads well, a term by typing, mistakes in words."""

import io
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from walkaround.__main__ import Bar, main


def test_help_names_every_verb_and_a_term_in_five_lines(capsys):
    with pytest.raises(SystemExit) as done:
        main(["-h"])
    assert done.value.code == 0
    text = capsys.readouterr().out
    for verb in ("begin", "check", "new-questions", "hand-out", "mark", "set-mark"):
        assert f"    {verb}" in text
        with pytest.raises(SystemExit):
            main([verb, "-h"])
        assert len(capsys.readouterr().out.splitlines()) > 5


def test_a_term_by_typing(tmp_path, capsys):
    folder = str(tmp_path / "autumn")
    assert main(["begin", folder, "--name", "Autumn"]) == 0
    (tmp_path / "autumn" / "roster.csv").write_text("id,name\nS1,Ann\nS2,Bo\n")
    assert main(["new-questions", folder, "wind"]) == 0
    entry = capsys.readouterr().out.split("then: check.\n")[1]
    with open(tmp_path / "autumn" / "course.toml", "a") as file:
        file.write(entry)
    assert main(["check", folder]) == 0
    assert "Autumn: 2 students, 2 exercises, ready." in capsys.readouterr().out
    assert main(["hand-out", folder]) == 0
    assert "2 folders and zips are in" in capsys.readouterr().out
    assert main(["mark", folder, "--quiet"]) == 0
    assert "No file has come back yet." in capsys.readouterr().out
    assert main(["set-mark", folder, "s1", "wind", "2", "told me"]) == 0
    assert main(["mark", folder, "--from", folder]) == 0
    assert "S1,Ann,,,0,31,not handed in,2,3,by hand,2,34,5.9,wind: 2 by hand" in (
        tmp_path / "autumn/results/gradebook.csv"
    ).read_text("utf-8-sig")


def test_the_made_up_course(tmp_path, capsys):
    folder = str(tmp_path / "m")
    assert main(["begin", folder, "--made-up"]) == 0
    assert main(["mark", folder]) == 0
    text = capsys.readouterr().out
    assert "37 files: 32 marked, 1 superseded, 1 not signed, 1 unknown student, 1 damaged, 1 not a sheet." in text
    assert main(["begin", folder, "--made-up"]) == 1


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["mark", "{0}/nowhere"], "there is no course in"),
        (["hand-out", "{0}"], "course.toml: secret is missing"),
        (["set-mark", "{0}", "S1", "loading", "3", "x"], "course.toml: secret is missing"),
    ],
)
def test_mistakes_are_said_in_words(tmp_path, capsys, arguments, says):
    (tmp_path / "course.toml").write_text('name = "X"\n[[exercises]]\nname = "loading"\n')
    assert main([a.format(tmp_path) for a in arguments]) == 1
    assert says in capsys.readouterr().err


def test_a_question_set_at_fault_is_not_handed_out(tmp_path, capsys):
    main(["begin", str(tmp_path)])
    (tmp_path / "roster.csv").write_text("id\nS1\n")
    (tmp_path / "bad.py").write_text("NAME = 'bad'\nTITLE = 'Bad'\n\n\ndef write(variant):\n    return 1 / 0\n")
    with open(tmp_path / "course.toml", "a") as file:
        file.write('[[exercises]]\nname = "bad"\nquestions = "bad.py"\n')
    assert main(["hand-out", str(tmp_path)]) == 1
    assert "bad.py, line 6: ZeroDivisionError" in capsys.readouterr().err
    assert not (tmp_path / "handed-out").exists()


def test_the_bar_is_only_for_a_terminal():
    class Terminal(io.StringIO):
        def isatty(self):
            return True

    plain, terminal = io.StringIO(), Terminal()
    for out in (plain, terminal):
        bar = Bar(out)
        bar("files", 500, 1000)
        bar.close()
    assert plain.getvalue() == ""
    assert terminal.getvalue() == f"\rfiles: [{'#' * 15}{' ' * 15}] 500 of 1,000 \n"


def ways_to_start(*more):
    script = Path(sys.executable).with_name("walkaround")
    return [[str(script), *more], [sys.executable, "-P", "-m", "walkaround", *more]]


def test_no_module_in_the_current_folder_runs(tmp_path):
    trap = "open(__file__ + '.ran', 'w').close()\nraise SystemExit('a collected file ran')\n"
    for name in sys.stdlib_module_names:
        (tmp_path / f"{name}.py").write_text(trap)
    for command in ways_to_start("begin", "course"):
        done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True)
        assert (done.returncode, done.stderr) == (0, "")
        shutil.rmtree(tmp_path / "course")
    # Python imports some modules before it starts any program with -m; what comes after those is safe.
    for name in sys.stdlib_module_names - {"argparse", "pathlib", "tempfile", "secrets", "json", "tomllib", "csv"}:
        (tmp_path / f"{name}.py").unlink()
    subprocess.run([sys.executable, "-m", "walkaround", "begin", "course"], cwd=tmp_path, check=True)
    assert list(tmp_path.glob("*.ran")) == []


def test_no_module_in_the_current_folder_runs_in_a_helper(tmp_path):
    (tmp_path / "struct.py").write_text("open(__file__ + '.ran', 'w').close()\nraise SystemExit('it ran')\n")
    code = (
        "import multiprocessing, os, sys; sys.path.insert(0, ''); import struct; os.chdir(sys.argv[1])\n"
        "from concurrent.futures import ProcessPoolExecutor\n"
        "from walkaround.classroom.safe_path import safe_path\n"
        "with safe_path(), ProcessPoolExecutor(1, multiprocessing.get_context('spawn')) as pool:\n"
        "    assert pool.submit(abs, -3).result() == 3\n"
        "assert sys.path[0] == '' and 'PYTHONSAFEPATH' not in os.environ\n"
    )
    subprocess.run([sys.executable, "-c", code, str(tmp_path)], check=True)
    assert list(tmp_path.glob("*.ran")) == []
