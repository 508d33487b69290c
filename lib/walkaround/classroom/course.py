"""A course: a folder with a course file, a roster and the course's own files, and the source of students' numbers."""

import hmac
import secrets
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from functools import cached_property
from pathlib import Path

from walkaround import measures
from walkaround.assessment import questions
from walkaround.assessment.files import write_whole
from walkaround.assessment.judging import Rules
from walkaround.assessment.variant import same_name
from walkaround.classroom import course_file, roster, tables
from walkaround.classroom.course_file import EACH_GROUP, FILE, KEPT, ONE_FOR_ALL
from walkaround.classroom.texts import file_stem, shown
from walkaround.exercises import enrolment, sources
from walkaround.exercises.enrolment import Enrolment
from walkaround.exercises.sources import Source
from walkaround.lessons.table import names

HANDED_OUT, COLLECTED, RESULTS = "handed-out", "collected", "results"
LIST = "list.csv"  # of who was handed which folder
EVERYONE = "everyone"  # name of the folder where one is for all


@dataclass(frozen=True)
class Party:
    """Who hands in together: one student, or a group under the group's name."""

    id: str
    name: str
    group: str
    members: tuple[roster.Student, ...]


@dataclass(frozen=True)
class Course:
    """A course as read from its folder."""

    folder: Path
    file: course_file.CourseFile
    roster: roster.Roster
    _authors: dict[str, questions.Author] = field(default_factory=dict, repr=False, compare=False)

    @property
    def name(self):
        """Name of the course; every student's numbers depend on it."""
        return self.file.name

    @property
    def exercises(self):
        """Exercises set, in the file's order."""
        return self.file.exercises

    @property
    def results(self):
        """Folder for gradebook, feedback and report."""
        return self.folder / RESULTS

    @property
    def collected(self):
        """Folder in which to look for what came back, unless another is named."""
        return self.folder / COLLECTED

    @property
    def handed_out(self):
        """Folder for what is handed out."""
        return self.folder / HANDED_OUT

    @cached_property
    def parties(self):
        """Everyone who hands in, in the roster's order."""
        students = self.roster.students
        if self.file.hand_out != EACH_GROUP:
            return tuple(Party(s.id, s.name, s.group, (s,)) for s in students)
        together: dict[str, list[roster.Student]] = {}
        for s in students:
            together.setdefault(same_name(s.group or s.id), []).append(s)
        groups = ((members[0], tuple(members)) for members in together.values())
        return tuple(Party(s.group or s.id, s.group or s.name, s.group, members) for s, members in groups)

    @cached_property
    def _by_id(self):
        return {same_name(p.id): p for p in self.parties}

    @cached_property
    def _by_bare_id(self):
        return {key.lstrip("0"): p.id for key, p in self._by_id.items()}

    def party(self, given_id):
        """Return who hands in under an id, whatever its case, or None."""
        return self._by_id.get(same_name(given_id))

    @cached_property
    def sorted_parties(self):
        """Everyone who hands in, by group and name."""
        return sorted(self.parties, key=lambda party: roster.by_group_and_name(party.members[0]))

    def not_in_roster(self, given_id):
        """Say that nobody hands in under an id, and who does under that id without the zeros at its front."""
        alike = self._by_bare_id.get(same_name(given_id).lstrip("0"))
        hint = f"; {shown(alike)!r} is: a spreadsheet may have dropped zeros" if alike else ""
        return f"the id {shown(given_id)!r} is not in the roster{hint}"

    def party_without_zeros(self, given_id, name):
        """Return who hands in under an id that lost the zeros at its front, if that party's name is the one given."""
        party = self.party(self._by_bare_id.get(same_name(given_id).lstrip("0"), ""))
        return party if party and same_name(party.name) == same_name(name) else None

    def overdue(self, now=None):
        """Say which exercises were due before `now`, an aware datetime, this moment unless one is given; or nothing."""
        now = now or datetime.now(UTC)
        past = [f"{e.name} ({due:%d %B %Y, %H:%M})" for e in self.exercises if (due := self.due(e)) and due < now]
        return f"Past its due date: {', '.join(past)}. What is answered from now on is late." if past else ""

    def renamed(self, folder=None):
        """Say which of name, secret and hand_out has changed since handing out; empty if none has.

        `folder` is as `zeros_lost` takes it.
        """
        parties = [(file_stem(p.id), p.id) for p in self.parties]
        for where in {self.handed_out, Path(folder or self.handed_out)}:
            for stem, party_id in ((EVERYONE, ""), *parties):
                if not (where / stem / enrolment.FILE).exists():
                    continue
                with suppress(ValueError):
                    before = enrolment.read(where / stem)
                    if party_id and same_name(before.student) != same_name(party_id):
                        continue
                    if before.course != self.name:
                        what = f"the name was {shown(before.course, 80)!r}"
                    elif bool(before.key) == (self.file.hand_out == ONE_FOR_ALL):
                        what = f"hand_out was {'not ' if before.key else ''}{ONE_FOR_ALL!r}"
                    elif party_id and before.key != self.key(party_id):
                        what = "the secret was different"
                    else:
                        continue
                    return (
                        f"{FILE}: {what} when you handed out. The change gives every student other numbers, and makes "
                        "what they have answered wrong. Put it back as it was; to begin afresh, move the folder "
                        f"{where.name} away first."
                    )
        return ""

    def zeros_lost(self, folder=None):
        """Say which ids differ from those handed out before in nothing but zeros at the front; empty if none do.

        `folder` is where they were handed out to, the course's own unless one is given.
        """
        before, now = set(), {file_stem(p.id): p.id for p in self.parties}
        for where in {self.handed_out, Path(folder or self.handed_out)}:
            with suppress(ValueError):
                column = "id" if self.file.hand_out == ONE_FOR_ALL else "folder"
                before |= {file_stem(row.get(column, "")) for _, row in tables.read(where / LIST, bounded=False).rows}
        gone = {stem.lstrip("0"): stem for stem in before - now.keys()}
        lost = [(gone[bare], i) for stem, i in now.items() if stem not in before and (bare := stem.lstrip("0")) in gone]
        if not lost:
            return ""
        return (
            f"{self.file.roster}: {len(lost)} of {len(now)} ids differ from those handed out only in zeros at the "
            f"front, as when a spreadsheet drops them ({lost[0][0]} is now {shown(lost[0][1])}). With another id a "
            "student gets other numbers, and sheets handed in under the earlier one count for nobody. Put the zeros "
            "back as they were."
        )

    def key(self, party_id):
        """Return the key for the numbers of an id; nobody can compute it without the course's secret.

        HMAC with SHA-256 (NIST FIPS 198-1). Empty where one folder is for all: nothing in it can be kept secret.
        """
        return self._derived("", party_id)

    def signing_key(self, party_id):
        """Return the key with which the form signs the sheets of an id; empty where one folder is for all."""
        return self._derived("answer sheets", party_id)

    def typed_in_key(self, party_id):
        """Return the key with which sheets are signed that the instructor types in; nobody is ever handed it."""
        return self._of_secret("typed in", party_id)

    def _derived(self, label, party_id):
        return "" if self.file.hand_out == ONE_FOR_ALL else self._of_secret(label, party_id)

    def _of_secret(self, label, party_id):
        secret = f"{label}\0" * bool(label) + self.file.secret
        return hmac.digest(secret.encode("utf-8"), same_name(party_id).encode("utf-8"), "sha256").hex()

    def exercise(self, name):
        """Return the exercise of that name, or None."""
        return next((e for e in self.exercises if e.name == name), None)

    def set_for(self, party):
        """Exercises set for a party: those for everybody, and those for its group."""
        group = same_name(party.group)
        return [e for e in self.exercises if not e.groups or group in [same_name(g) for g in e.groups]]

    def due(self, exercise):
        """When an exercise is due: its own date, else the course's, else None."""
        return exercise.due or self.file.due

    @property
    def rules(self):
        """The rules by which answers are marked."""
        return Rules(self.file.tries, True, self.file.tolerance_factor)

    def author(self, name):
        """Return what writes the papers of an exercise; raises ValueError when a file of the course can't be used."""
        if name not in self._authors:
            self._authors[name] = sources.author(self.exercise(name).source, self.folder)
        return self._authors[name]

    def paper(self, name, party_id, units=...):
        """Return the paper of one party in an exercise; raises ValueError when its numbers can't be made.

        It is in the course's units, or in others: US, METRIC, or None for as it is written.
        """
        # The numbers of a paper without answers come from a key that is never handed out.
        kept = self.exercise(name).kind == KEPT
        key = self._derived("kept papers", party_id) if kept else self.key(party_id)
        with measures.shown_in(self.file.units if units is ... else units):
            return questions.paper(self.author(name), party_id, self.name, key)

    def any_paper(self, name):
        """Return the paper of the first party for whom it can be made, None without one."""
        for party in self.parties:
            with suppress(Exception):  # the paper of one student may be at fault
                return self.paper(name, party.id)
        return None

    def points(self, name):
        """What full marks in an exercise count."""
        exercise = self.exercise(name)
        if not exercise.points and (paper := self.any_paper(name)):
            return float(paper.points)
        return exercise.points or float(self.paper(name, "anyone").points)

    def title(self, name):
        """Title of an exercise."""
        return self.author(name).TITLE

    def enrolment(self, party=None):
        """Return what is handed out to a party; without one, to everybody, who then enter their ids."""
        exercises = self.exercises if party is None else self.set_for(party)
        return Enrolment(
            course=self.name,
            student=party.id if party else "",
            key=self.key(party.id) if party else "",
            signing_key=self.signing_key(party.id) if party else "",
            rules=replace(self.rules, worked_answers=True),
            name=party.name if party and party.name != party.id else "",
            exercises=tuple(
                (Source(e.name, paper=e.paper_file) if e.paper_file else e.source, self.due(e)) for e in exercises
            ),
            worked_answers_before_due=self.file.worked_answers_before_due,
            units=self.file.units,
        )


def read_course(folder):
    """Read the course in a folder; raises ValueError in words, each mistake of the course file on its own line."""
    folder = Path(folder).expanduser()
    file = course_file.read(folder)
    found = Course(folder, file, roster.read(folder / file.roster, file.roster_columns))
    if file.hand_out == EACH_GROUP:
        without_group = {same_name(s.id) for s in found.roster.students if not s.group}
        for group in {same_name(s.group) for s in found.roster.students if s.group}:
            if group in without_group:
                raise ValueError(f"{file.roster}: {group!r} is a group, and also the id of a student without a group")
    return found


def check_course(course):
    """Try everything that a course needs; returns the problems in words, an empty list if there are none."""
    problems = [] if course.roster.students else [course.roster.notices[-1]]
    problems += [*filter(None, [course.renamed()]), *course.roster.clashes]
    for e in course.exercises:
        try:
            author = course.author(e.name)
            if hasattr(author, "check"):
                author.check()
            for party in course.parties[:5] or (Party("anyone", "", "", ()),):
                course.paper(e.name, party.id)
        except ValueError as error:
            problems.append(str(error))
        known = {same_name(s.group) for s in course.roster.students}
        for group in e.groups:
            if same_name(group) not in known:
                problems.append(f"{FILE}: exercise {e.name!r} is for the group {group!r}, but nobody is in it")
    return problems


def begin_course(folder, name, exercises=("loading",)):
    """Begin a course: write a course file with a new secret, and an empty roster, into a folder.

    Raises ValueError when there is a course already, OSError when the folder can't be written.
    """
    folder = Path(folder).expanduser()
    if (folder / FILE).exists():
        raise ValueError(f"there is a course in {folder} already")
    folder.mkdir(parents=True, exist_ok=True)
    (folder / COLLECTED).mkdir(exist_ok=True)
    text = TEMPLATE.format(name=_toml(name), secret=secrets.token_hex(32), names=", ".join(names()))
    for exercise in exercises:
        text += f'\n[[exercises]]\nname = "{exercise}"\n# points = 20\n# due = 2026-11-30T18:00:00+01:00\n'
    if not (folder / "roster.csv").exists():
        write_whole(folder / "roster.csv", b"id,name,group,mail\r\n", private=True)
    write_whole(folder / FILE, text.encode("utf-8"), private=True)  # the secret is for the instructor's eyes only


def _toml(text):
    # A basic string of TOML takes every character except these.
    safe = "".join(c if c.isprintable() else " " for c in text).replace("\\", "\\\\").replace('"', '\\"')
    return f'"{safe}"'


TEMPLATE = """\
# A course. Lines that begin with # are notes; remove the # to use the setting after it.

# The students' numbers depend on the name: leave it as it is once you have handed out.
name = {name}

# The numbers depend on the secret too. Show it to nobody, never hand it out, keep a copy, and leave it as it is.
secret = "{secret}"

# Dates need the time zone: +01:00 is one hour ahead of UTC.
# starts = 2026-09-01T00:00:00+02:00
# due = 2026-11-30T18:00:00+01:00

# Who gets a folder and hands in: "each student", "each group", or "one for all" (one folder, in which students enter
# their ids; weaker: anyone who knows an id can see its numbers, and no sheet can be signed, so that of two sheets which
# contradict each other you have to choose one).
hand_out = "each student"

# How many tries earn points, and whether worked answers may be seen before an exercise is due.
tries = 3
worked_answers_before_due = false

# A factor on every tolerance, up to 2.
tolerance_factor = 1.0

# The units that exercises are shown and marked in, "US" or "metric"; students may choose others for themselves. Without
# this line they are those that each exercise is written in. An answer stays what it was if you change this later.
# units = "metric"

# Which copy counts when a student hands in more than once: "last", "best" or "first".
copies = "last"

# The gradebook's delimiter: many spreadsheets outside English want ";".
gradebook_delimiter = ","

# Answers after the due date: how many days they are accepted, and how much they lose for each day begun. What was not
# there yet at a marking after the due date is late, whatever its own times say (by_collection = false: is not).
[late]
accepted_days = 14
loses_percent_per_day = 10
by_collection = true

# Column names of roster.csv, if yours are not understood:
# [roster_columns]
# id = "…"

# One section for each exercise. Those of the workbook are
# {names}.
# You can add to a section:
#   points = 20                         what full marks count (otherwise the exercise's own points)
#   due = 2026-10-31T18:00:00+01:00     a date of its own
#   kind = "kept"                       for marks that count: handed out without answers, "Kept." instead of a mark
#   groups = ["A"]                      only for these groups of the roster
#   aircraft = "ours.toml"              questions on your own aircraft, from its file in this folder
#   questions = "my_questions.py"       your own questions, from a file in this folder
#   tolerance = {{ "fuel weight" = 1 }}   a tolerance for one question, in its unit; change it if you change units
"""
