"""The answer sheet: written whole at every answer, restored, set aside when broken, shared by two windows."""

import hashlib
import json
import os
import threading

import pytest
from walkaround.assessment import answer_sheet as sheets
from walkaround.assessment.answer_sheet import AnswerSheet, file_name, parse, sheets_in
from walkaround.assessment.files import write_whole


def test_answers_are_found_again(tmp_path):
    first = AnswerSheet(tmp_path, "loading", "Ines Okafor")
    first.answered("moment", "9 780")
    first.hinted("moment")
    first.answered("steps", ["a", "b"])
    first.worked("steps")
    again = AnswerSheet(tmp_path, "loading", "ines okafor ")
    assert again.answers == first.answers
    assert again.answers["steps"]["worked_after"] == 1
    assert again.notice == ""
    assert sheets_in(tmp_path, "loading") == ["Ines Okafor"]
    assert [p.name for p in tmp_path.iterdir()] == ["loading-ines-okafor.answers.json"]


def test_the_file_holds_no_score_and_opens_in_any_editor(tmp_path):
    AnswerSheet(tmp_path, "loading", "Zoë").answered("moment", "5")
    text = (tmp_path / file_name("loading", "Zoë")).read_text(encoding="utf-8")
    assert "Zoë" in text
    assert not {"score", "points", "earned"} & set(json.loads(text))


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"\xff\xfe",
        b"[]",
        b'{"format": "other"}',
        b"[" * 100_000,
        b'{"format": "walkaround answer sheet", "version": 9}',
    ],
)
def test_a_broken_sheet_is_set_aside_with_its_content(tmp_path, content):
    path = tmp_path / file_name("loading", "Ines")
    path.write_bytes(content)
    opened = AnswerSheet(tmp_path, "loading", "Ines")
    assert "It has been kept as loading-ines.answers.broken-1.json" in opened.notice
    assert (tmp_path / "loading-ines.answers.broken-1.json").read_bytes() == content
    opened.answered("moment", "5")
    path.write_bytes(b"broken again")
    AnswerSheet(tmp_path, "loading", "Ines")
    assert (tmp_path / "loading-ines.answers.broken-2.json").read_bytes() == b"broken again"
    assert (tmp_path / "loading-ines.answers.broken-1.json").read_bytes() == content


def test_a_sheet_of_someone_else_under_this_name_is_set_aside(tmp_path):
    AnswerSheet(tmp_path, "loading", "Ines").answered("moment", "5")
    os.rename(tmp_path / "loading-ines.answers.json", tmp_path / "loading-tomas.answers.json")
    assert "belongs to 'Ines'" in AnswerSheet(tmp_path, "loading", "Tomas").notice


def test_two_windows_on_one_sheet_lose_nothing(tmp_path):
    one, two = (AnswerSheet(tmp_path, "loading", "Ines") for _ in range(2))
    one.answered("moment", "1")
    two.answered("moment", "2")
    two.worked("steps")
    one.answered("shift", "3")
    found = AnswerSheet(tmp_path, "loading", "Ines").answers
    assert [t["given"] for t in found["moment"]["tries"]] == ["1", "2"]
    assert found["steps"]["worked_after"] == 0
    assert "shift" in found


def test_a_write_that_fails_keeps_the_old_file_and_says_so(tmp_path, monkeypatch):
    opened = AnswerSheet(tmp_path, "loading", "Ines")
    opened.answered("moment", "1")
    before = opened.path.read_bytes()

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(sheets.os, "fsync", full)
    opened.answered("moment", "2")
    assert "can't be saved to loading-ines.answers.json: No space left on device" in opened.notice
    assert opened.path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == [opened.path.name]
    monkeypatch.undo()
    opened.answered("moment", "3")
    assert opened.notice == ""
    assert [t["given"] for t in AnswerSheet(tmp_path, "loading", "Ines").answers["moment"]["tries"]] == ["1", "2", "3"]


def test_a_folder_that_can_not_be_written_is_known_before_there_are_answers(tmp_path):
    opened = AnswerSheet(tmp_path / "later", "loading", "Ines")
    opened.check_folder()
    assert opened.unsaved
    assert "can't be saved to loading-ines.answers.json: No such file or directory" in opened.notice
    (tmp_path / "later").mkdir()
    opened.save()
    assert (opened.unsaved, opened.notice) == (False, "")
    assert not list((tmp_path / "later").iterdir())  # nothing has been given yet


def test_a_sheet_that_can_not_be_read_is_not_written_over(tmp_path, monkeypatch):
    monkeypatch.setattr(sheets, "now", lambda: "2026-01-01T12:00:00.000+00:00")  # all in one millisecond
    AnswerSheet(tmp_path, "loading", "Ines").answered("moment", "1")
    whole = sheets.Path.read_bytes

    def refused(path):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(sheets.Path, "read_bytes", refused)
    opened = AnswerSheet(tmp_path, "loading", "Ines")
    opened.answered("moment", "2")
    assert opened.unsaved
    assert "can't be read: Permission denied" in opened.notice
    monkeypatch.setattr(sheets.Path, "read_bytes", whole)
    assert [t["given"] for t in AnswerSheet(tmp_path, "loading", "Ines").answers["moment"]["tries"]] == ["1"]
    opened.save()
    assert [t["given"] for t in AnswerSheet(tmp_path, "loading", "Ines").answers["moment"]["tries"]] == ["1", "2"]


def test_a_reader_sees_the_old_or_the_new_file_never_a_part(tmp_path):
    path, sizes, done = tmp_path / "f.json", set(), threading.Event()
    write_whole(path, b"a" * 100_000)

    def write():
        for i in range(60):
            write_whole(path, b"ab"[i % 2 : i % 2 + 1] * (100_000 + 50_000 * (i % 2)))
        done.set()

    writer = threading.Thread(target=write)
    writer.start()
    while not done.is_set():
        data = path.read_bytes()
        sizes.add(len(data))
        assert len(set(data)) == 1
    writer.join()
    assert sizes <= {100_000, 150_000}


def test_what_is_no_try_is_dropped():
    kept = {"given": "5", "at": "t"}
    no_tries = [{"given": 5, "at": "t"}, {"given": [1], "at": "t"}, {"given": "5", "at": 3}, {"at": "t"}, 7]
    answers = {"q": {"tries": [{**kept, "score": 99}, *no_tries], "worked_after": True, "hint": 1}, "r": 3}
    answers["s"] = {"tries": "5", "worked_after": -1}
    who = {"format": sheets.FORMAT, "version": 1, "course": "c", "student": "s", "exercise": "e", "extra": 5}
    stored = parse(json.dumps({**who, "answers": answers}).encode())
    assert stored["answers"]["q"] == {"tries": [kept], "hint": False, "worked_after": None}
    assert stored["answers"]["r"] == stored["answers"]["s"] == {"tries": [], "hint": False, "worked_after": None}


@pytest.mark.parametrize("student", ["../../etc", "a/b", "..", "CON", "名前", "x" * 300, "…", "a\0b"])
def test_any_name_makes_a_file_name_inside_the_folder(tmp_path, student):
    name = file_name("loading", student)
    assert "/" not in name
    assert "\\" not in name
    assert len(name.encode()) < 255
    AnswerSheet(tmp_path, "loading", student).answered("q", "1")
    assert [p.name for p in tmp_path.iterdir()] == [name]


def test_a_signed_sheet_is_found_again_and_one_that_was_changed_is_set_aside(tmp_path):
    sheet = AnswerSheet(tmp_path, "loading", "Ines", "Autumn", "a key")
    sheet.answered("moment", "9 780")
    sheet.hinted("moment")
    stored = parse(sheet.path.read_bytes())
    assert sheets.is_signed(stored, "a key")
    assert not sheets.is_signed(stored, "another key")
    assert AnswerSheet(tmp_path, "loading", "Ines", "Autumn", "a key").answers == sheet.answers
    sheet.path.write_bytes(sheet.path.read_bytes().replace(b"9 780", b"9 781"))
    again = AnswerSheet(tmp_path, "loading", "Ines", "Autumn", "a key")
    assert again.answers == {}
    assert "it was changed outside this form" in again.notice


def test_the_signature_is_the_standard_one(tmp_path):
    # HMAC as RFC 2104 defines it, from two plain hashes.
    stored = parse(sheets.data_of("c", "s", "e", "", {"q": {"tries": [{"given": "1", "at": "t"}], "hint": True}}, "k"))
    text = b'["walkaround answer sheet",1,"c","s","e",[["q",[["1","t"]],true,null]]]'
    inner, outer = (bytes(b ^ x for b in b"k".ljust(64, b"\0")) for x in (0x36, 0x5C))
    wanted = hashlib.sha256(outer + hashlib.sha256(inner + text).digest()).hexdigest()
    assert stored["signature"] == wanted
