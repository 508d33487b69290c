"""Who does the exercise, in which course and by which rules: at home without a course, at school as it was handed out.

Beside notebooks that were handed out lies the enrolment file: a small JSON file with the student's id and their keys.
"""

import json
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

from walkaround import measures
from walkaround.assessment.judging import AT_HOME, Rules
from walkaround.assessment.questions import paper
from walkaround.assessment.variant import same_name
from walkaround.exercises.sources import Source, author
from walkaround.lessons import table

HOME_COURSE = "home"
FILE = "enrolment.json"
FORMAT = "walkaround enrolment"
VERSION = 1
MOST_BYTES = 200_000


@dataclass(frozen=True)
class Enrolment:
    """A student in a course; `student` is empty until they have said who they are.

    `key` makes their numbers their own; `signing_key` signs their sheets; `name` is how the student is greeted.
    `exercises` are those set, each with when it is due or None; at home there are none, and every exercise may be done.
    `folder` holds the files that they need.
    """

    course: str = HOME_COURSE
    student: str = ""
    key: str = ""
    signing_key: str = ""
    rules: Rules = AT_HOME
    name: str = ""
    exercises: tuple[tuple[Source, datetime | None], ...] = ()
    folder: str = "."
    worked_answers_before_due: bool = True
    units: str | None = None

    @property
    def names(self):
        """Names of the exercises that may be done here, in order."""
        return [s.name for s, _ in self.exercises] or [lesson.name for lesson in table.LESSONS]

    def author(self, exercise):
        """Return what writes the papers of an exercise; raises ValueError when the course has none of that name."""
        if not self.exercises:
            return table.find(exercise).questions
        return author(self._set(exercise)[0], self.folder)

    def kept(self, exercise):
        """Whether the answers of an exercise are only kept here, for the instructor to mark."""
        return bool(self.exercises and self._set(exercise)[0].paper)

    def paper(self, exercise, student, practice="", units=...):
        """Return a student's paper, or that of a round of practice, by the round's name.

        It is in the units of the course, by which it is marked, or in others: US, METRIC, or None for as it is written.
        Raises ValueError when it can't be made, or is another student's.
        """
        found = self.author(exercise)
        with measures.shown_in(self.units if units is ... else units):
            if not self.kept(exercise):
                return paper(found, student, self.course, "" if practice else self.key, practice)
            if same_name(student) != same_name(self.student):
                raise ValueError(f"the questions here are those of {self.student}")
            return found.write(None)

    def due(self, exercise):
        """When an exercise is due, an aware datetime, or None."""
        return self._set(exercise)[1] if self.exercises else None

    def rules_for(self, exercise, now=None):
        """Return the rules of an exercise now: worked answers may have to wait until it is due."""
        if self.kept(exercise):
            return replace(self.rules, worked_answers=False, kept=True)
        due = self.due(exercise)
        waits = due is not None and not self.worked_answers_before_due and (now or datetime.now(UTC)) <= due
        return replace(self.rules, worked_answers=False) if waits else self.rules

    def _set(self, exercise):
        for source, due in self.exercises:
            if source.name == exercise:
                return source, due
        raise ValueError(f"exercise {exercise!r} is not set in {self.course}; allowed: {', '.join(self.names)}")


def read(folder):
    """Return the enrolment for a folder; where no course has put one, the one for home.

    Raises ValueError in words when an enrolment file can't be used: going on without it would give the student numbers
    that nobody marks.
    """
    path = Path(folder) / FILE
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        return Enrolment()
    except OSError as error:
        raise ValueError(f"{FILE} can't be read: {error.strerror}") from None
    if len(data) > MOST_BYTES:
        raise ValueError(f"{FILE} is too large to be what was handed out")
    try:
        return parse(data, str(folder))
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as error:
        reason = str(error) if type(error) is ValueError else "it has been changed or cut off"
        raise ValueError(f"{FILE} is not as it was handed out ({reason}); fetch a new copy") from None


def parse(data, folder="."):
    """Read the bytes of an enrolment file; raises ValueError, TypeError, KeyError or AttributeError when damaged."""
    d = json.loads(data.decode("utf-8-sig"))
    if d["format"] != FORMAT or d["version"] != VERSION:
        raise ValueError(f"format {d['format']!r}, version {d['version']!r}")
    texts = {name: d[name] for name in ("course", "student", "key", "signing_key", "name")}
    if not all(isinstance(t, str) for t in texts.values()) or not texts["course"]:
        raise ValueError("course, student, keys and name have to be texts")
    rules = Rules(int(d["tries"]), True, float(d["tolerance_factor"]))
    if rules.tries < 1 or not 0 < rules.tolerance_factor <= 2:
        raise ValueError("tries or tolerance_factor is out of bounds")
    exercises = []
    for e in d["exercises"]:
        for name in (e["questions"], e["aircraft"], e["paper"]):
            if name != Path(name).name:
                raise ValueError(f"the file name {name!r} leads out of the folder")
        tolerance = tuple((str(k), float(v)) for k, v in e["tolerance"].items())
        source = Source(str(e["name"]), e["questions"], e["aircraft"], tolerance, e["paper"])
        due = datetime.fromisoformat(e["due"]) if e["due"] else None
        exercises.append((source, due))
    units = d.get("units") or None  # what was handed out before there was a choice has none
    if units not in (*measures.SYSTEMS, None):
        raise ValueError(f"units are {units!r}")
    if not exercises or any(due is not None and due.tzinfo is None for _, due in exercises):
        raise ValueError("exercises are missing or a due date has no time zone")
    return Enrolment(
        **texts,
        rules=rules,
        exercises=tuple(exercises),
        folder=folder,
        worked_answers_before_due=d["worked_answers_before_due"] is True,
        units=units,
    )


def data_of(enrolment):
    """Return the bytes of an enrolment file, the same for the same enrolment."""
    e = enrolment
    content = {
        "format": FORMAT,
        "version": VERSION,
        "course": e.course,
        "student": e.student,
        "name": e.name,
        "key": e.key,
        "signing_key": e.signing_key,
        "tries": e.rules.tries,
        "tolerance_factor": e.rules.tolerance_factor,
        "worked_answers_before_due": e.worked_answers_before_due,
        **({"units": e.units} if e.units else {}),
        "exercises": [
            {
                "name": s.name,
                "questions": s.questions,
                "aircraft": s.aircraft,
                "paper": s.paper,
                "tolerance": dict(s.tolerance),
                "due": due.astimezone(UTC).isoformat() if due else "",
            }
            for s, due in e.exercises
        ],
    }
    return json.dumps(content, ensure_ascii=False, indent=1).encode("utf-8") + b"\n"
