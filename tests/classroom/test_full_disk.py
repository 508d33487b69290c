"""A full disk: wherever the room runs out, what was saved before is still there, and the next run goes on."""

import errno
import io
import os

import pytest
from walkaround.__main__ import main
from walkaround.classroom import demo_course


class Disk:
    """Stands in for os.fdopen: files that can be written until the room is used up, the last one in part."""

    def __init__(self, monkeypatch):
        self.room, self._fdopen = None, os.fdopen
        monkeypatch.setattr(os, "fdopen", self.open)

    def open(self, handle, mode="r", **more):
        if mode != "wb" or self.room is None:
            return self._fdopen(handle, mode, **more)
        disk = self

        class Full(io.FileIO):
            def write(self, data):
                super().write(data[: disk.room])
                disk.room -= len(data)
                if disk.room < 0:
                    disk.room = 0
                    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

        return Full(handle, "wb")


def files(folder):
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


@pytest.fixture
def disk(monkeypatch):
    return Disk(monkeypatch)


VERBS = (
    ["mark", "c", "--quiet"],
    ["mark", "c", "--quiet", "--forget"],
    ["hand-out", "c"],
    ["set-mark", "c", "Q001", "loading", "3", "because"],
    ["new-questions", "c", "wind"],
)


@pytest.mark.parametrize("arguments", VERBS, ids=" ".join)
def test_nothing_saved_is_lost(tmp_path, monkeypatch, capsys, disk, arguments):
    monkeypatch.chdir(tmp_path)
    for course in ("c", "whole"):  # one that goes through, to compare with
        demo_course.make(course)
        main(["set-mark", course, "Q002", "loading", "3", "because"])
        main(["mark", course, "--quiet"])
        main(["hand-out", course])
        with open(f"{course}/roster.csv", "ab") as file:
            file.write(b"Q100,Nora,A,Quillmoor\r\n")
        (tmp_path / course / "collected" / "loading-q004.answers.json").unlink()
    main([a.replace("c", "whole") if a == "c" else a for a in arguments])
    whole = files(tmp_path / "whole")
    size = sum(map(len, whole.values()))
    before = files(tmp_path / "c")
    for room in (0, 10, 300, 3_000, 10_000, 30_000, size // 6, size // 3, size // 2, size):
        disk.room = room
        done = main(arguments)
        disk.room = None
        said = capsys.readouterr().err
        assert done == 0 or "not written, the disk is full" in said
        assert "None" not in said
        after = files(tmp_path / "c")
        assert done == 0 or before.keys() <= after.keys()
        for name, data in before.items():
            # Each file is as it was or as it will be; a table of what is collected has times of its own.
            assert after.get(name) in (data, whole.get(name)) or name.endswith(("files.csv", ".lock")), name
        assert not [name for name in after if name.endswith(".part")]
        if done == 0:
            break
    assert done == 0
    assert {n for n in after if "lock" not in n} == {n for n in whole if "lock" not in n}


def test_a_course_can_be_begun_again_after_there_was_no_room(tmp_path, disk, capsys):
    for room in (0, 25, 1_000):
        disk.room = room
        assert main(["begin", str(tmp_path / "c")]) == 1
        assert "the disk is full" in capsys.readouterr().err
    disk.room = None
    assert main(["begin", str(tmp_path / "c")]) == 0
    assert {p.name for p in (tmp_path / "c").iterdir()} == {"collected", "course.toml", "roster.csv"}
