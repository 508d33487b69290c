"""What is private stays its owner's, a stopped run leaves nothing behind, and two at once lose nothing."""

import os
import stat
import subprocess
import sys
import time

import pytest
from walkaround.assessment import files
from walkaround.classroom import handout, overrides
from walkaround.classroom.course import begin_course
from walkaround.classroom.lock import HOLDER, locked

posix = pytest.mark.skipif(os.name != "posix", reason="modes of files as Unix has them")


def modes(top):
    return {str(p.relative_to(top)): stat.S_IMODE(p.stat().st_mode) for p in top.rglob("*")}


@pytest.fixture
def open_umask():
    before = os.umask(0o002)
    yield
    os.umask(before)


@pytest.fixture
def first_modes(monkeypatch):
    """Modes of the files that are written, as they are when their last byte is and they get their name."""
    seen, replace = {}, os.replace

    def watched(source, target):
        seen[os.path.basename(target)] = stat.S_IMODE(os.stat(source).st_mode)
        replace(source, target)

    monkeypatch.setattr(os, "replace", watched)
    return seen


@posix
def test_secrets_marks_and_pages_are_their_owners_from_the_first_byte(school, open_umask, first_modes):
    begin_course(school.folder / "new", "New")
    school.hand_in("S1", school.all_right("S1"))
    overrides.set_by_hand(school.course, "S1", "loading", "3", "told me")
    school.mark()
    handout.hand_out(school.course)
    private = {"course.toml", "roster.csv", "overrides.csv", "gradebook.csv", "files.csv", "s1.html", "list.csv"}
    assert private <= first_modes.keys()
    assert {first_modes[name] for name in private} == {0o600}
    results = modes(school.folder / "results")
    assert {mode for name, mode in results.items() if "." in name} == {0o600}
    assert results["feedback"] == stat.S_IMODE((school.folder / "results").stat().st_mode) == 0o700
    # What is handed out has the mode that the instructor's umask gives.
    assert modes(school.folder / "handed-out")["s1/enrolment.json"] == 0o664


@posix
def test_private_files_are_closed_again_and_stay_so(school, open_umask):
    school.mark()
    for path in (school.folder / "results").rglob("*"):
        path.chmod(0o777)
    school.mark()
    assert {mode & 0o077 for mode in modes(school.folder / "results").values()} == {0}


def test_a_file_is_synced_with_its_folder(tmp_path, monkeypatch):
    synced, sync = [], os.fsync
    monkeypatch.setattr(
        os, "fsync", lambda handle: (synced.append(stat.S_ISDIR(os.fstat(handle).st_mode)), sync(handle))
    )
    files.write_whole(tmp_path / "a", b"x")
    assert synced == ([False, True] if hasattr(os, "O_DIRECTORY") else [False])


def test_what_a_stopped_run_left_is_gone_after_the_next(school):
    handout.hand_out(school.course)
    parts = [school.folder / f".overrides.csv.0a1b{files.PART}"]
    parts += [school.folder / "handed-out" / where / f".s1.zip.0a1b{files.PART}" for where in ("", "s1")]
    for part in parts:
        part.write_bytes(b"half")
    handout.hand_out(school.course)
    overrides.set_by_hand(school.course, "S1", "loading", "3", "told me")
    assert [p for p in parts if p.exists()] == []


def test_pages_of_students_who_left_are_removed(school):
    school.mark()
    roster = school.folder / "roster.csv"
    roster.write_text("".join(line for line in roster.read_text().splitlines(True) if not line.startswith("S2")))
    school.mark()
    assert sorted(p.name for p in (school.folder / "results" / "feedback").iterdir()) == ["s1.html", "s3.html"]


EIGHT = """
import sys
from concurrent.futures import ThreadPoolExecutor
from walkaround.__main__ import main
with ThreadPoolExecutor(8) as pool:
    numbers = range(int(sys.argv[2]), int(sys.argv[2]) + 8)
    done = pool.map(lambda n: main(["set-mark", sys.argv[1], f"n{n}", "loading", str(n), "told me"]), numbers)
    sys.exit(any(done))
"""


def test_twenty_four_marks_set_at_once_are_all_kept(new_school):
    school = new_school([(f"n{n}", f"Student {n}", "") for n in range(24)])
    commands = [[sys.executable, "-c", EIGHT, str(school.folder), str(first)] for first in (0, 8, 16)]
    running = [subprocess.Popen(command, stdout=subprocess.DEVNULL) for command in commands]
    assert [process.wait(120) for process in running] == [0, 0, 0]
    kept, notices = overrides.read(school.course)
    assert notices == ()
    assert {o.id: o.points for o in kept.values()} == {f"n{n}": n for n in range(24)}


def test_who_holds_the_course_is_said_and_a_killed_holder_holds_nothing(school):
    code = "import sys, time; from walkaround.classroom.lock import locked\nwith locked(sys.argv[1], 'marking'):\n"
    code += "    print('held', flush=True); time.sleep(100)"
    command = [sys.executable, "-c", code, str(school.folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE) as process:
        process.stdout.readline()
        with pytest.raises(ValueError, match=f"in use: marking by process {process.pid} on .* since"):
            locked(school.folder, "handing out", wait_s=0.1).__enter__()
        process.kill()
        process.wait()
        begun = time.monotonic()
        with locked(school.folder, "setting a mark", wait_s=5):
            assert "setting a mark" in (school.folder / HOLDER).read_text()
        assert time.monotonic() - begun < 5
    assert not (school.folder / HOLDER).exists()
