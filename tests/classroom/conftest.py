"""A small course to test with, and answer sheets made by people whose every answer is known."""

import json
from datetime import UTC, datetime, timedelta

import pytest
from walkaround.assessment import answer_sheet
from walkaround.classroom import demo_course, gradebook, tables
from walkaround.classroom.course import read_course
from walkaround.classroom.mark_collected import mark_folders
from walkaround.classroom.results import mark_and_write

DUE = datetime(2026, 3, 27, 18, 0, tzinfo=UTC)
NOW = datetime(2026, 4, 20, 12, 0, tzinfo=UTC).timestamp()


class School:
    """A course in a folder, and ways to hand in to it."""

    due, now = DUE, NOW

    def __init__(self, folder, students, extra=""):
        self.folder, self.collected = folder, folder / "collected"
        self.collected.mkdir(parents=True)
        self.write_course(extra)
        lines = "".join(f"{i},{name},{group}\n" for i, name, group in students)
        (folder / "roster.csv").write_text("id,name,group\n" + lines, encoding="utf-8")

    def write_course(self, extra="", exercises='[[exercises]]\nname = "loading"\n'):
        always = f'name = "Test"\nsecret = "a secret of more than twenty letters"\ndue = {DUE.isoformat()}\n'
        (self.folder / "course.toml").write_text(f"{always}{extra}\n{exercises}")

    @property
    def course(self):
        return read_course(self.folder)

    def paper(self, student, exercise="loading"):
        return self.course.paper(exercise, student)

    def answers(self, student, right=(), slips=(), exercise="loading", begun=None, paper=None):
        """Answers a minute apart: `right` and `slips` are the keys answered right, and with the first wrong turn."""
        answers, at = {}, begun or DUE - timedelta(days=1)
        for q in (paper or self.paper(student, exercise)).questions:
            if q.key in right or q.key in slips:
                at += timedelta(minutes=1)
                answer = q.answer if q.key in right else q.wrong_turns[0].answer
                one = {"given": demo_course.given(q, answer), "at": demo_course.stamp(at)}
                answers[q.key] = {"tries": [one], "hint": False, "worked_after": None}
        return answers

    def all_right(self, student, exercise="loading", begun=None):
        keys = [q.key for q in self.paper(student, exercise).questions]
        return self.answers(student, keys, exercise=exercise, begun=begun)

    def sheet(self, student, answers, exercise="loading", course="Test"):
        key = self.course.signing_key(student)
        saved = max((str(t["at"]) for entry in answers.values() for t in entry["tries"]), default="")
        return answer_sheet.data_of(course, student, exercise, saved, answers, key)

    def hand_in(self, student, answers, exercise="loading", name=None):
        path = self.collected / (name or answer_sheet.file_name(exercise, student))
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(self.sheet(student, answers, exercise))
        return path

    def outcome(self, **more):
        more = {"now": NOW, "workers": 1} | more
        return mark_folders(self.course, [self.collected], **more)

    def points(self, outcome=None):
        """Points by student, for those who have any mark."""
        return {party: m.points for (party, _), m in (outcome or self.outcome()).marks.items()}

    def mark(self, **more):
        more = {"now": NOW, "workers": 1} | more
        return mark_and_write(self.course, **more)

    def results(self):
        """Every file in the results folder and its bytes."""
        top = self.folder / "results"
        return {str(p.relative_to(top)): p.read_bytes() for p in top.rglob("*") if p.is_file()}

    def gradebook(self):
        """Lines of the gradebook by id."""
        return {r["id"]: r for _, r in tables.read(self.folder / "results" / gradebook.GRADEBOOK).rows}


@pytest.fixture
def school(tmp_path):
    return School(tmp_path / "course", [("S1", "Ann Lee", "A"), ("S2", "Bo Ray", "B"), ("S3", "Cy Dahl", "A")])


@pytest.fixture
def new_school(tmp_path):
    def make(students, extra="", name="other"):
        return School(tmp_path / name, students, extra)

    return make


@pytest.fixture
def changed():
    """Change the content of a sheet, a dict, and give its bytes."""

    def change(data, **more):
        return json.dumps(json.loads(data) | more).encode()

    return change
