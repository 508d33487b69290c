"""Mixed practice: the words for slip, sitting and cured, and a made student who comes as far as is expected."""

from functools import cache

import pytest
from walkaround.assessment import practice
from walkaround.assessment.judging import AT_HOME
from walkaround.assessment.practice import SIZE, History, Standing, Went, plan, slips_of, standing
from walkaround.assessment.practice_file import Place, PracticeFile
from walkaround.assessment.questions import NUMBER, Question, WrongTurn
from walkaround.assessment.variant import Variant

WRONG, RIGHT = False, True
SLIP = Went(0, WRONG, ("litres for gallons",), outside=True)


def rights(*sittings):
    return [Went(n, RIGHT) for n in sittings]


@pytest.mark.parametrize(
    ("history", "right", "due", "cured"),
    [
        ([], 0, 0, 0),
        (rights(1, 2, 3), 0, 0, 0),  # what never went wrong does not come back
        ([SLIP], 0, 1, 0),
        ([SLIP, *rights(1)], 1, 3, 0),
        ([SLIP, *rights(1, 3)], 2, 7, 0),
        ([SLIP, *rights(1, 3, 7)], 3, 15, 0),
        ([SLIP, *rights(1, 3, 7, 15)], 4, 0, 15),
        ([SLIP, *rights(1, 3, 7, 15, 16, 20)], 4, 0, 15),
        ([SLIP, *rights(4)], 1, 6, 0),  # it had to wait for a place
        ([SLIP, *rights(1, 2)], 1, 3, 0),  # before its time
        ([SLIP, *rights(1), Went(2, WRONG)], 0, 3, 0),  # before its time, and wrong
        ([SLIP, *rights(1, 3), Went(7, WRONG), *rights(8)], 1, 10, 0),
        ([SLIP, *rights(1, 3, 7, 15), Went(20, WRONG)], 0, 21, 0),  # made again after it was cured
        ([SLIP, *rights(1, 3), Went(3, WRONG, outside=True)], 0, 4, 0),  # made again in the exercise
        ([SLIP, Went(1, RIGHT, outside=True)], 0, 1, 0),  # right outside a sitting
        ([Went(5, WRONG)], 0, 6, 0),
    ],
)
def test_when_a_slip_comes_back_and_when_it_is_cured(history, right, due, cured):
    for told in (history, history[::-1]):
        now = standing(told)
        assert (now.right, now.due, now.cured) == (right, due, cured)


def test_a_slip_gathers_its_names_until_it_is_cured():
    history = [SLIP, Went(1, WRONG, ("a", "b")), Went(2, WRONG, ("b",)), *rights(3, 5, 9, 17)]
    assert standing(history).slips == ("litres for gallons", "a", "b")
    assert standing([*history, Went(20, WRONG, ("c",))]).slips == ("c",)


def record(*tries, worked=None):
    """A record: tries as slips, None for a right one."""
    made = [{"given": "1", "at": "", "right": slip is None, "slip": slip or ""} for slip in tries]
    return {"tries": made, "hint": False, "worked_after": worked}


@pytest.mark.parametrize(
    ("made", "slips"),
    [
        (record(), None),
        (record(None), None),
        (record("a", None), ("a",)),
        (record("a", "b", "a"), ("a", "b")),
        (record("", None), ()),  # wrong, and no slip that we know
        (record(worked=0), ()),
        (record(None, worked=0), ()),  # the worked answer was read first
        (record(None, worked=1), None),  # it was read afterwards
    ],
)
def test_what_a_slip_is(made, slips):
    assert slips_of(made) == slips


def test_a_hint_is_no_slip():
    assert slips_of(record(None) | {"hint": True}) is None


def spots(*keys):
    return [("oil", key) for key in keys]


def test_a_sitting_takes_what_is_due_then_what_was_asked_least():
    now = {("oil", "a"): Standing(due=4, right=1), ("oil", "b"): Standing(due=5), ("oil", "c"): Standing(due=6)}
    there, asked = spots(*"abcdefg"), {("oil", "d"): 2, ("oil", "e"): 1}
    assert plan(5, there, now, asked, size=1) == spots("b")  # went wrong last
    assert plan(5, there, now, asked, size=5) == spots(*"abefg")
    assert plan(5, there, now, asked) == spots(*"abdefg")
    assert len(plan(5, there, now, asked)) == SIZE
    assert plan(5, spots("c"), now, asked) == spots("c")  # before its time, where there is nothing else
    assert plan(5, spots("b", "c"), now, asked) == spots("b")
    assert plan(5, [], now, asked) == []


def test_of_the_slips_due_those_with_the_fewest_right_answers_come_first_then_the_longest_due():
    now = {("oil", "a"): Standing(due=5), ("oil", "b"): Standing(due=4), ("oil", "c"): Standing(due=1, right=1)}
    assert [plan(5, spots(*"abc"), now, {}, size=n) for n in (1, 2)] == [spots("b"), spots("a", "b")]


class InMemory(PracticeFile):
    """A practice file without a file: the tests of the file itself are elsewhere."""

    def _take_in(self):
        return True

    def save(self):
        pass


KEYS = tuple("abcdef")
P0, LEARNS = 0.7, 0.5  # how likely a slip is without an explanation, and by what each explanation multiplies that
SITTINGS = 24


class MadeStudent:
    """A student who makes a slip with a given probability, less after each explanation of it."""

    def __init__(self, name, p0=P0):
        self.name, self.p0, self.explained = name, p0, dict.fromkeys(KEYS, 0)
        self.file, self.cured_in, self.met = InMemory(".", name), {}, {key: [] for key in KEYS}
        self.counted = [
            ("oil", key, record("slip", None) if self.slips(key, "course") else record(None)) for key in KEYS
        ]
        self.began_with = [key for _, key, made in self.counted if slips_of(made) is not None]

    def slips(self, key, where):
        """Whether the student makes the slip now: drawn by a hash, the same in every run."""
        draw = Variant("made", self.name, "ability").number(f"{where} {key}", 0, 999_999) / 1_000_000
        makes = draw < self.p0 * LEARNS ** self.explained[key]
        self.explained[key] += makes
        return makes

    def sit(self):
        """Do a sitting; one further question, which never goes wrong, is there for what nothing else takes."""
        history = History(self.file, self.counted)
        n = history.last + 1
        for exercise, key in history.next_sitting(spots(*KEYS, "easy")):
            if key != "easy":
                self.met[key].append(n)
            wrong = key != "easy" and self.slips(key, f"sitting {n}")
            place = Place("sitting", n, exercise, key).key
            for slip in ("slip", None) if wrong else (None,):
                self.file.judged(place, "1", slip is None, slip or "")
        for (_, key), stands in History(self.file, self.counted).standings.items():
            if stands.cured:
                self.cured_in.setdefault(key, stands.cured)


@cache
def cured_by(last, opened, explained):
    """How likely a slip made in sitting `opened` is cured by sitting `last`: by what the words say, not by the library."""
    p, passed, total = P0 * LEARNS**explained, 1.0, 0.0
    for back in (opened + 1, opened + 3, opened + 7, opened + 15):
        if back > last:
            return total
        total += passed * p * cured_by(last, back, explained + 1)
        passed *= 1 - p
    return total + passed


def test_a_made_student_reaches_the_mastery_that_is_expected():
    students = [MadeStudent(f"student {i}") for i in range(60)]
    for _ in range(SITTINGS):
        for student in students:
            student.sit()
    slips = sum(len(s.began_with) for s in students)
    assert slips == pytest.approx(P0 * 60 * len(KEYS), rel=0.1)
    for last in (15, 18, SITTINGS):
        reached = sum(s.cured_in.get(key, SITTINGS + 1) <= last for s in students for key in s.began_with) / slips
        expected = cured_by(last, 0, 1)
        assert abs(reached - expected) < 3.5 * (expected * (1 - expected) / slips) ** 0.5, (last, reached, expected)
    assert cured_by(14, 0, 1) == 0
    assert 0.15 < cured_by(15, 0, 1) < cured_by(18, 0, 1) < cured_by(SITTINGS, 0, 1) < 0.9  # there is something to tell


def test_a_student_who_learns_at_once_meets_each_slip_after_1_2_4_and_8_sittings():
    student = MadeStudent("quick", p0=1)
    student.p0 = 0
    for _ in range(16):
        student.sit()
    for key in KEYS:
        assert student.met[key][:4] == [1, 3, 7, 15]
        assert student.cured_in[key] == 15


def test_what_went_wrong_in_the_exercise_later_comes_back_at_once():
    file = InMemory(".", "Ines")
    for n, at in ((1, "2026-01-01"), (2, "2026-01-02"), (3, "2026-01-03")):
        file.judged(f"sitting {n}/oil/a", "1", True, "")
        file.answers[f"sitting {n}/oil/a"]["tries"][0]["at"] = at
    late = record("slip", None)
    late["tries"][0]["at"] = "2026-01-02T12:00:00"
    assert History(file, [("oil", "b", late)]).standings["oil", "b"].due == 3
    assert History(file, [("oil", "a", late)]).standings["oil", "a"] == Standing(
        ("slip",), 1, 5, 0
    )  # right in sitting 3
    late["tries"][0]["at"] = "2026-01-04"
    assert History(file, [("oil", "a", late)]).standings["oil", "a"].due == 4
    file.judged("again 1/oil/b", "1", False, "other")
    assert History(file).standings["oil", "b"] == Standing(("other",), 0, 4, 0)


def cured_at_16():
    """A file in which a slip of the exercise was cured, the sittings a day apart, and what the exercise's sheet says."""
    file = InMemory(".", "Ines")
    for n in range(1, 17):
        file.judged(f"sitting {n}/oil/a", "1", True, "")
        file.answers[f"sitting {n}/oil/a"]["tries"][0]["at"] = f"2026-01-{n:02}"
    counted = record("slip", None)
    counted["tries"][0]["at"] = "2025-12-31"
    return file, [("oil", "a", counted)]


def test_a_worked_answer_seen_later_brings_a_cured_slip_back():
    file, counted = cured_at_16()
    assert History(file, counted).standings["oil", "a"].cured == 15
    file.worked("again 1/oil/a")  # without a try, now: after the last sitting
    assert History(file, counted).standings["oil", "a"] == Standing((), 0, 17, 0)
    del file.answers["again 1/oil/a"]["worked_at"]  # as files had it before there was this time
    assert History(file, counted).standings["oil", "a"].cured == 15


def test_a_worked_answer_seen_after_the_right_one_changes_no_date():
    file, [(*spot, counted)] = cured_at_16()
    after = counted | {"worked_after": 2, "worked_at": "2026-02-01"}
    assert History(file, [(*spot, after)]).standings["oil", "a"].cured == 15
    assert History(file, [(*spot, after | {"worked_after": 1})]).standings["oil", "a"].due == 17


def test_a_sitting_of_worked_answers_has_begun_when_the_first_was_seen():
    file = InMemory(".", "Ines")
    file.worked("sitting 1/oil/a")
    late = record("slip", None)
    late["tries"][0]["at"] = "2000-01-01"
    assert History(file, [("oil", "b", late)]).standings["oil", "b"].due == 1


def test_tries_in_an_answer_sheet_are_judged_and_what_is_none_is_passed_over():
    question = Question("q", NUMBER, "t", "?", 5.0, 1, "", (), "lb", 0.5, wrong_turns=(WrongTurn(9.0, "doubled", ""),))
    sheet = {"tries": [{"given": g, "at": "t"} for g in ("what", "9", "7", "5")], "hint": True, "worked_after": None}
    made = practice.judged(question, sheet, AT_HOME)
    assert [(t["right"], t["slip"]) for t in made["tries"]] == [(False, "doubled"), (False, ""), (True, "")]
    assert slips_of(made) == ("doubled",)
    assert "right" not in sheet["tries"][0]
