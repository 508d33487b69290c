"""The gradebook and the tables beside it: what each student has, what became of each question and of each file."""

import os
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime

from walkaround.assessment.files import private_folder, remove_parts, write_whole
from walkaround.assessment.variant import same_name
from walkaround.classroom import tables
from walkaround.classroom.course import Party
from walkaround.classroom.mark_collected import NOT_SIGNED
from walkaround.classroom.overrides import Override
from walkaround.classroom.roster import Student, by_group_and_name
from walkaround.classroom.sheet_marks import SheetMark

GRADEBOOK, ANSWERS, FILES = "gradebook.csv", "answers.csv", "files.csv"
MARKED, BY_HAND, MISSING, NOT_SET, UNDECIDED = "marked", "by hand", "not handed in", "not set", "to choose"
ANSWER_COLUMNS = (
    "id",
    "exercise",
    "question",
    "points",
    "of",
    "right",
    "tries",
    "slips",
    "hint",
    "worked answer",
    "days late",
    "minutes",
)


@dataclass(frozen=True)
class Standing:
    """What one student has in one exercise; `mark` is None without a sheet, `override` without a mark set by hand.

    `unsigned` is whether sheets came that the student's key did not sign, and none that it did.
    """

    exercise: str
    status: str
    points: float
    of: float
    mark: SheetMark | None = None
    override: Override | None = None
    unsigned: bool = False

    @property
    def remarks(self):
        """Everything that has to be said about it, each in a text of its own."""
        found = list(self.mark.remarks) if self.mark else []
        if self.override:
            was = f"{self.mark.points:.4g}" if self.mark else "nothing"
            found.insert(0, f"{self.override.points:g} by hand instead of {was}: {self.override.reason}")
        if self.unsigned:
            found.append("what came is not signed by the student, and does not count")
        return found


@dataclass(frozen=True)
class Row:
    """One student and what they have, a `Standing` for every exercise of the course."""

    student: Student
    party: Party
    standings: tuple[Standing, ...]

    @property
    def points(self):
        """Points in all exercises together."""
        return sum(s.points for s in self.standings)

    @property
    def of(self):
        """What full marks would be."""
        return sum(s.of for s in self.standings)

    @property
    def percent(self):
        """Points as a percentage of full marks."""
        return 100 * self.points / self.of if self.of else 0.0


def rows(course, outcome, overrides):
    """Return a `Row` for every student in the roster, by group and name."""
    points = {e.name: course.points(e.name) for e in course.exercises}
    rows_by_id: dict[str, Row] = {}
    unsigned = {(same_name(f.student), f.exercise) for f in outcome.files if f.status == NOT_SIGNED}
    for party in course.parties:
        set_here = course.set_for(party)
        standings = []
        for e in course.exercises:
            if e not in set_here:
                standings.append(Standing(e.name, NOT_SET, 0.0, 0.0))
                continue
            mark, override = outcome.marks.get((party.id, e.name)), overrides.get((party.id, e.name))
            undecided = (party.id, e.name) in outcome.undecided
            status = BY_HAND if override else MARKED if mark else UNDECIDED if undecided else MISSING
            # Rounded once, here: what a table shows is what adds up.
            worth = round(override.points if override else mark.points if mark else 0.0, 2)
            odd = not mark and (same_name(party.id), e.name) in unsigned
            standings.append(Standing(e.name, status, worth, points[e.name], mark, override, odd))
        rows_by_id |= {same_name(s.id): Row(s, party, tuple(standings)) for s in party.members}
    return tuple(rows_by_id[same_name(s.id)] for s in sorted(course.roster.students, key=by_group_and_name))


def gradebook_data(course, all_rows):
    """Return the gradebook as the bytes of a table: a line for each student, the office's own columns kept."""
    first, last = ("id", "name", "group", "mail"), ["points", "of", "percent", "remarks"]
    last[:0] = [f"{e.name} {what}" for e in course.exercises for what in ("points", "of", "status")]
    # A column of the office's that is called as one of these would be there twice.
    extra = [f"{c} (roster)" if c.casefold() in (*first, *last) else c for c in course.roster.extra_columns]
    lines = []
    for r in all_rows:
        s = r.student
        line = [s.id, s.name, s.group, s.mail, *(value for _, value in s.extra)]
        for standing in r.standings:
            line += [standing.points, standing.of, standing.status]
        remarks = "; ".join(f"{x.exercise}: {text}" for x in r.standings for text in x.remarks)
        lines.append([*line, round(r.points, 2), round(r.of, 2), round(r.percent, 1), remarks])
    return tables.data_of([*first, *extra, *last], lines, course.file.gradebook_delimiter)


def answers_data(course, all_rows):
    """Return what became of every question as the bytes of a table."""
    lines = []
    for r in all_rows:
        for standing in r.standings:
            for q in standing.mark.questions if standing.mark else ():
                line = [r.student.id, standing.exercise, q.key, round(q.counted, 2), q.of, _yes(q.right), q.tries]
                line += ["; ".join(q.slips), _yes(q.hint), _yes(q.worked), q.days_late, round(q.minutes, 1)]
                lines.append(line)
    return tables.data_of(ANSWER_COLUMNS, lines, course.file.gradebook_delimiter)


def _yes(value):
    return "yes" if value else "no"


def files_data(course, outcome):
    """Return what became of every file as the bytes of a table."""
    columns = ("file", "status", "student", "exercise", "reason", "first collected", "sha256")
    lines = [(f.place, f.status, f.student, f.exercise, f.reason, _iso(f.first_seen), f.digest) for f in outcome.files]
    return tables.data_of(columns, lines, course.file.gradebook_delimiter)


def _iso(seconds):
    return datetime.fromtimestamp(seconds, UTC).isoformat() if seconds else ""


def first_seen(course):
    """Return when each file was first collected, by its digest, from the table of an earlier marking.

    What can't be read there is skipped.
    """
    found = {}
    for row in _earlier(course, FILES):
        with suppress(ValueError, KeyError, OverflowError):
            found[row["sha256"]] = datetime.fromisoformat(row["first collected"]).timestamp()
    return found


def places(course):
    """Return where each sheet was found at an earlier marking, by its digest; what can't be read is skipped."""
    rows = reversed(_earlier(course, FILES))
    return {row.get("sha256", ""): row.get("file", "") for row in rows}


def marked_before(course):
    """Return (id, exercise) of every mark in the gradebook of an earlier marking."""
    return {
        (row.get("id", ""), e.name)
        for row in _earlier(course, GRADEBOOK)
        for e in course.exercises
        if row.get(f"{e.name} status") == MARKED
    }


def _earlier(course, name):
    try:
        return [row for _, row in tables.read(course.results / name, bounded=False).rows]
    except ValueError:
        return []


def write(course, outcome, all_rows):
    """Write the three tables, each whole or not at all, the gradebook last; one with nothing new is left as it is."""
    tidy(course.results)
    for name, data in (
        (FILES, files_data(course, outcome)),
        (ANSWERS, answers_data(course, all_rows)),
        (GRADEBOOK, gradebook_data(course, all_rows)),
    ):
        write_if_new(course.results / name, data, private=True)


def tidy(folder):
    """Make a private folder for results, and remove what a marking that was stopped half way has left there."""
    remove_parts(private_folder(folder))


def write_if_new(path, data, private=False, sync=True):
    """Write a file whole unless it holds just that already; returns whether it was written.

    A private file that others may read is written anew; `sync` is as `write_whole` takes it.
    """
    try:
        if path.read_bytes() == data and not (private and os.name == "posix" and path.stat().st_mode & 0o077):
            return False
    except FileNotFoundError:
        pass
    write_whole(path, data, private, sync)
    return True
