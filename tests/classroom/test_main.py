"""The command line: help that reads well, a term by typing, mistakes in words."""

import io
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from walkaround.__main__ import VERBS, Bar, main
from walkaround.classroom import to_pdf


def test_sheets_are_printed_in_the_units_of_the_course(tmp_path, monkeypatch):
    monkeypatch.setenv(to_pdf.VARIABLE, "none")
    monkeypatch.setattr(to_pdf.importlib.util, "find_spec", lambda _: None)
    assert main(["begin", str(tmp_path)]) == 0
    course = tmp_path / "course.toml"
    assert "controls, cooling, decision, fuel," in course.read_text(encoding="utf-8")
    course.write_text(course.read_text(encoding="utf-8").replace("# units =", "units ="), encoding="utf-8")
    assert main(["print", str(tmp_path), "--sheets", "--quiet"]) == 0
    assert "weight, kg" in (tmp_path / "printed" / "load-sheet-blank.html").read_text(encoding="utf-8")


def test_help_names_every_verb_and_a_term_in_five_lines(capsys):
    with pytest.raises(SystemExit) as done:
        main(["-h"])
    assert done.value.code == 0
    text = capsys.readouterr().out
    for verb in ("begin", "check", "new-questions", "hand-out", "mark", "set-mark", "print", "type-in"):
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
    assert "2 folders and zips in" in capsys.readouterr().out
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


@pytest.fixture
def autumn(tmp_path, monkeypatch):
    """A course of two students that was handed out and marked, in the current folder."""
    monkeypatch.chdir(tmp_path)
    main(["begin", "autumn"])
    (tmp_path / "autumn" / "roster.csv").write_text("id,name\n00123,Ann\n00124,Zoë\n")
    main(["hand-out", "autumn"])
    main(["mark", "autumn", "--quiet"])
    return tmp_path / "autumn"


def test_a_question_set_needs_a_course(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["new-questions", "wind"]) == 1
    assert "there is no course in ." in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_an_empty_roster_is_not_ready(tmp_path, capsys):
    main(["begin", str(tmp_path / "c")])
    assert main(["check", str(tmp_path / "c")]) == 1
    text = capsys.readouterr().out
    assert text.count("roster.csv: there is no student in it") == 1
    assert text.endswith("0 students, 1 exercise, not ready.\n")
    assert main(["hand-out", str(tmp_path / "c")]) == 1
    assert "there is no student in it" in capsys.readouterr().err


def test_a_roster_that_is_there_already_is_checked_at_begin(tmp_path, capsys):
    (tmp_path / "roster.csv").write_text("id\n7\n1045\n")
    assert main(["begin", str(tmp_path)]) == 0
    text = capsys.readouterr().out
    assert "the ids have 1 to 4 figures" in text
    assert "2 students, 1 exercise, ready." in text


def test_zeros_that_a_spreadsheet_dropped_are_asked_about(autumn, capsys):
    handed_out = autumn / "handed-out"
    before = {p: p.read_bytes() for p in handed_out.rglob("*") if p.is_file()}
    (autumn / "roster.csv").write_text("id,name\n123,Ann\n124,Zoë\n125,New\n")
    capsys.readouterr()
    for verb in (["hand-out", "autumn"], ["mark", "autumn"], ["mark", "autumn", "--forget"]):
        assert main(verb) == 1
        said = capsys.readouterr().err
        assert "roster.csv: 2 of 3 ids differ from those handed out only in zeros at the front" in said
        assert "(00123 is now 123)" in said
        assert "hand out with --new-ids" in said
    assert main(["check", "autumn"]) == 1
    said = capsys.readouterr().out
    assert "zeros at the front" in said
    assert "3 students, 1 exercise, not ready." in said
    assert {p: p.read_bytes() for p in handed_out.rglob("*") if p.is_file()} == before
    # Nothing to ask: somebody new, and somebody who left.
    (autumn / "roster.csv").write_text("id,name\n00123,Ann\n125,New\n")
    assert main(["hand-out", "autumn"]) == 0
    (autumn / "roster.csv").write_text("id,name\n123,Ann\n125,New\n")
    assert main(["hand-out", "autumn", "--to", "stick"]) == 1
    assert main(["hand-out", "autumn", "--new-ids"]) == 0
    assert (handed_out / "123.zip").exists()
    assert main(["mark", "autumn"]) == 0


def test_begun_in_the_folder_where_one_is_and_under_a_name_of_blanks(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["begin", "--name", "  "]) == 0
    assert "The course is in this folder. Fill in roster.csv" in capsys.readouterr().out
    assert f'name = "{tmp_path.name}"' in (tmp_path / "course.toml").read_text()


def test_without_a_verb_the_help_is_shown(capsys):
    with pytest.raises(SystemExit) as done:
        main([])
    assert done.value.code == 0
    assert "A term in five lines" in capsys.readouterr().out


def test_a_due_date_that_has_passed_is_said_before_anything_is_handed_out(autumn, capsys):
    with open(autumn / "course.toml", "a") as file:
        file.write("due = 2025-11-30T18:00:00+01:00\n")
    for verb in ("check", "hand-out"):
        assert main([verb, "autumn"]) == 0
        assert "Past its due date: loading (30 November 2025, 18:00)." in capsys.readouterr().out


@pytest.mark.parametrize(
    ("line", "other", "said"),
    [
        ('name = "autumn"', 'name = "Autumn"', "the name was 'autumn'"),
        ('secret = "', 'secret = "x', "the secret was different"),
        ('hand_out = "each student"', 'hand_out = "one for all"', "hand_out was not 'one for all'"),
    ],
)
def test_a_name_or_secret_changed_after_handing_out_is_refused(autumn, capsys, line, other, said):
    before = {p: p.read_bytes() for p in (autumn / "handed-out").rglob("*") if p.is_file()}
    course = (autumn / "course.toml").read_text()
    (autumn / "course.toml").write_text(course.replace(line, other, 1))
    capsys.readouterr()
    for verb in (["hand-out"], ["hand-out", "--new-ids"], ["mark"], ["mark", "--forget"], ["print"], ["check"]):
        assert main([verb[0], "autumn", *verb[1:]]) == 1
        assert f"course.toml: {said}" in "".join(capsys.readouterr())
    assert {p: p.read_bytes() for p in (autumn / "handed-out").rglob("*") if p.is_file()} == before
    (autumn / "handed-out").rename(autumn / "last term")
    assert main(["hand-out", "autumn"]) == 0


def test_zeros_are_asked_about_for_groups_and_for_one_folder(autumn, capsys):
    course = (autumn / "course.toml").read_text()
    for hand_out, earlier, now in (
        ("each group", "id,group\nS1,01\n", "id,group\nS1,1\n"),
        ("one for all", "id\n007\n", "id\n7\n"),
    ):
        (autumn / "course.toml").write_text(course.replace('"each student"', f'"{hand_out}"'))
        (autumn / "roster.csv").write_text(earlier)
        assert main(["hand-out", "autumn"]) == 0
        (autumn / "roster.csv").write_text(now)
        assert main(["hand-out", "autumn"]) == 1
        assert "1 of 1 ids differ" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ("autumn loading 00123 5 why", "the id 'loading' is not in the roster"),
        ("00123 autumn loading 5 why", "there is no course in 00123"),
        ("00123 loading 5 why", "there is no course in ."),
        ("autumn 5 loading 00123 why", "the id '5' is not in the roster"),
        ("autumn 123 loading 5 why", "the id '123' is not in the roster; '00123' is"),
        ("autumn 00123 loading 5,5,5 why", "points are '5,5,5'; allowed: 0 to 31"),
    ],
)
def test_set_mark_in_another_order_says_the_order(autumn, capsys, given, says):
    assert main(["set-mark", *given.split()]) == 1
    said = capsys.readouterr().err
    assert says in said
    assert "The order is COURSE ID EXERCISE POINTS REASON; here: " in said
    assert not (autumn / "overrides.csv").exists()


def test_a_reason_without_quotes_and_points_with_a_comma(autumn):
    assert main(["set-mark", "autumn", "00123", "loading", "5,5", "the", "stick", "broke,", "twice"]) == 0
    assert '00123,loading,5.5,"the stick broke, twice"' in (autumn / "overrides.csv").read_text("utf-8-sig")


def test_a_decimal_comma_in_the_table_of_marks_by_hand_is_named(autumn, capsys):
    (autumn / "overrides.csv").write_text("id,exercise,points,reason\n00123,loading,5,5,late\n")
    main(["mark", "autumn", "--quiet"])
    assert "overrides.csv, line 2: more cells than columns; allowed: a decimal point" in capsys.readouterr().out
    assert "by hand" not in (autumn / "results" / "gradebook.csv").read_text()


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_a_console_that_lacks_a_letter_shows_another(autumn, encoding):
    (autumn / "roster.csv").write_text("id,name\n00123,Ann\n00123,Łucja ›\n", encoding="utf-8")
    (autumn / "collected" / "Łucja ›.txt").write_text("x")
    (autumn / "Łódź").mkdir()
    for arguments in (["mark", "autumn"], ["check", "autumn"], ["mark", "autumn/Łódź"], ["mark", "-h"]):
        command = [sys.executable, "-P", "-m", "walkaround", *arguments]
        environment = os.environ | {"PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}
        done = subprocess.run(command, capture_output=True, env=environment)
        assert done.returncode == (arguments in (["check", "autumn"], ["mark", "autumn/Łódź"]))  # two have one id
        assert b"Traceback" not in done.stderr
        assert b"Error" not in done.stderr
        if arguments == ["mark", "autumn"]:
            assert "?ucja › ".encode(encoding, "replace").strip() in done.stdout


def test_what_nobody_expects_is_a_sentence(autumn, capsys, monkeypatch):
    monkeypatch.setitem(VERBS, "mark", lambda _: {}["nothing"])
    assert main(["mark", "autumn"]) == 1
    assert capsys.readouterr().err == "Something went wrong that should not have: KeyError: 'nothing'\n"


def test_the_program_is_named_as_it_can_be_typed(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(sys, "argv", [".venv/bin/walkaround"])
    for path, typed in ((str(tmp_path), ".venv/bin/walkaround"), (str(Path(sys.executable).parent), "walkaround")):
        monkeypatch.setenv("PATH", path)
        with pytest.raises(SystemExit):
            main(["-h"])
        assert f"  {typed} begin autumn --name" in capsys.readouterr().out
