"""The practice file: beside the answer sheets, never one of them, and nothing in it is lost."""

import json

import pytest
from walkaround.assessment import answer_sheet
from walkaround.assessment.answer_sheet import AnswerSheet, sheets_in
from walkaround.assessment.practice_file import PRACTICE, PracticeFile, is_practice, place_of
from walkaround.assessment.questions import paper
from walkaround.assessment.variant import Variant

NAME = "practice-ines.not-counted.json"


def test_it_is_found_again_beside_the_sheets_and_is_none(tmp_path):
    AnswerSheet(tmp_path, "oil", "Ines").answered("dip", "5")
    before = (tmp_path / "oil-ines.answers.json").read_bytes()
    first = PracticeFile(tmp_path, "Ines")
    first.judged("again 1/oil/dip", "7", right=False, slip="slope")
    first.hinted("again 1/oil/dip")
    first.worked("sitting 1/oil/dip")
    again = PracticeFile(tmp_path, " ines ")
    assert again.answers == first.answers
    assert again.answers["again 1/oil/dip"]["tries"][0]["slip"] == "slope"
    assert (again.notice, again.last_round("oil"), again.last_round("fuel"), list(again.sittings())) == ("", 1, 0, [1])
    assert sorted(p.name for p in tmp_path.iterdir()) == ["oil-ines.answers.json", NAME]
    assert (tmp_path / "oil-ines.answers.json").read_bytes() == before
    assert sheets_in(tmp_path) == ["Ines"]
    data = (tmp_path / NAME).read_bytes()
    assert is_practice(data)
    assert not is_practice(before)
    with pytest.raises(ValueError, match="it is not an answer sheet"):
        answer_sheet.parse(data)
    with pytest.raises(ValueError, match="it is not a practice file"):
        answer_sheet.parse(before, PRACTICE)
    assert "signature" not in json.loads(data)


def test_when_the_worked_answer_was_seen_is_kept_and_may_be_missing(tmp_path):
    file = PracticeFile(tmp_path, "Ines")
    file.worked("again 1/oil/dip")
    seen = file.answers["again 1/oil/dip"]["worked_at"]
    assert PracticeFile(tmp_path, "Ines").answers["again 1/oil/dip"]["worked_at"] == seen > "2026"
    file.worked("again 1/oil/dip")
    assert file.answers["again 1/oil/dip"]["worked_at"] == seen
    stored = json.loads((tmp_path / NAME).read_text(encoding="utf-8"))
    for other in (None, 5):
        stored["answers"]["again 1/oil/dip"]["worked_at"] = other
        (tmp_path / NAME).write_text(json.dumps(stored), encoding="utf-8")
        old = PracticeFile(tmp_path, "Ines").answers["again 1/oil/dip"]
        assert old == {"tries": [], "hint": False, "worked_after": 0}


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b'{"format": "walkaround practice", "version": 9}'])
def test_a_broken_one_is_told_and_kept(tmp_path, content):
    (tmp_path / NAME).write_bytes(content)
    opened = PracticeFile(tmp_path, "Ines")
    assert "The practice file could not be read" in opened.notice
    assert "kept as practice-ines.not-counted.broken-1.json" in opened.notice
    opened.judged("again 1/oil/dip", "7", right=True, slip="")
    assert (tmp_path / "practice-ines.not-counted.broken-1.json").read_bytes() == content
    assert PracticeFile(tmp_path, "Ines").last_round("oil") == 1


@pytest.mark.parametrize(("student", "course"), [("Tomas", "home"), ("Ines", "Autumn")])
def test_one_of_someone_else_or_of_another_course_is_told_and_kept(tmp_path, student, course):
    other = PracticeFile(tmp_path, student, course)
    other.judged("again 1/oil/dip", "7", right=True, slip="")
    content = other.path.read_bytes()
    other.path.rename(tmp_path / NAME)
    assert "it belongs to" in PracticeFile(tmp_path, "Ines").notice
    assert (tmp_path / "practice-ines.not-counted.broken-1.json").read_bytes() == content


def test_two_windows_lose_nothing(tmp_path):
    one, two = (PracticeFile(tmp_path, "Ines") for _ in range(2))
    for file, keys in ((one, "ab"), (two, "ab")):
        for key in keys:
            file.record(f"sitting 1/oil/{key}")  # both have put the same sitting together
    one.judged("sitting 1/oil/a", "1", right=False, slip="s")
    two.judged("sitting 1/oil/b", "2", right=True, slip="")
    two.judged("again 1/fuel/c", "3", right=True, slip="")
    one.judged("sitting 1/oil/a", "4", right=True, slip="")
    found = PracticeFile(tmp_path, "Ines")
    assert [t["given"] for t in found.answers["sitting 1/oil/a"]["tries"]] == ["1", "4"]
    assert [t["right"] for t in found.answers["sitting 1/oil/b"]["tries"]] == [True]
    assert found.last_round("fuel") == 1


def test_a_folder_that_can_not_be_written_is_told(tmp_path):
    file = PracticeFile(tmp_path / "later", "Ines")
    file.judged("again 1/oil/dip", "7", right=True, slip="")
    assert file.unsaved
    assert f"can't be saved to {NAME}: No such file or directory" in file.notice
    (tmp_path / "later").mkdir()
    file.save()
    assert PracticeFile(tmp_path / "later", "Ines").last_round("oil") == 1


def test_a_sitting_is_kept_whole_from_its_first_answer_and_not_before(tmp_path):
    file = PracticeFile(tmp_path, "Ines")
    for key in "cab":
        file.record(f"sitting 1/oil/{key}")
    file.save()
    assert not list(tmp_path.iterdir())
    file.judged("sitting 1/oil/b", "1", right=True, slip="")
    file.record("sitting 2/oil/a")
    file.save()
    assert [p.question for p in PracticeFile(tmp_path, "Ines").sittings()[1]] == list("cab")
    assert list(PracticeFile(tmp_path, "Ines").sittings()) == [1]


@pytest.mark.parametrize(
    "key", ["", "moment", "again/oil/a", "again 0/oil/a", "sitting x/oil/a", "sitting ²/o/a", "sitting 1/oil"]
)
def test_a_key_that_is_none_is_passed_over(key):
    assert place_of(key) is None


def test_each_round_has_numbers_of_its_own_and_those_that_count_stay_as_they_were():
    class Oil:
        NAME = "oil"

        def write(self, v):
            return drawn.setdefault(v.practice, v) and PAPER

    class PAPER:
        questions = ()

    drawn = {}
    for practice in ("", "again 1", "again 2", "sitting 1"):
        paper(Oil(), "Ines Okafor", practice=practice)
    numbers = {name: [v.number(f"n{i}", 0, 999) for i in range(5)] for name, v in drawn.items()}
    assert len({tuple(n) for n in numbers.values()}) == 4
    assert drawn[""] == Variant("home", "Ines Okafor", "oil")
    # Read off a run before there was practice: SHA-256 over the parts with their lengths.
    assert Variant("home", "Ines Okafor", "loading").number("bag", 20, 60, 5) == 20
