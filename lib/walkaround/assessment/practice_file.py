"""The practice file: what a student practised in any exercise, a small JSON file beside their answer sheets.

It is written, shared by two windows and set aside when broken as an answer sheet is, but nobody marks it: it has
another format and another ending, and no signature. Since it counts for nothing, it also keeps whether a try was right:
what was practised last year can be read even if the questions have changed since.
"""

import re
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from walkaround.assessment.answer_sheet import AnswerSheet, Kind, Record, now, was_begun

PRACTICE = Kind("practice file", "walkaround practice", ".not-counted.json", 100_000, judged=True)
AGAIN, SITTING = "again", "sitting"
_FORMAT = re.compile(rb'"format"\s*:\s*"' + PRACTICE.format.encode() + b'"')


class Place(NamedTuple):
    """Where an answer belongs: a round of an exercise done again, or a sitting, by its number; exercise; question.

    >>> Place("sitting", 5, "oil", "dip stick").key
    'sitting 5/oil/dip stick'
    """

    what: str
    number: int
    exercise: str
    question: str

    @property
    def round(self) -> str:
        """The name of the round, from which its numbers are drawn."""
        return f"{self.what} {self.number}"

    @property
    def key(self) -> str:
        """The key of its record in the file."""
        return f"{self.round}/{self.exercise}/{self.question}"


def place_of(key: str) -> Place | None:
    """Return where a record belongs by its key, None for a key that is none.

    >>> place_of("again 2/oil/a/b")
    Place(what='again', number=2, exercise='oil', question='a/b')
    """
    name, _, rest = key.partition("/")
    exercise, _, question = rest.partition("/")
    what, _, number = name.partition(" ")
    if what not in (AGAIN, SITTING) or not question or not (number.isascii() and number.isdecimal()):
        return None
    return Place(what, int(number[:9]), exercise, question) if int(number[:9]) else None


class PracticeFile(AnswerSheet):
    """One student's practice; `answers` holds a record for each question, by the key of its `Place`.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     PracticeFile(folder, "Ines Okafor").judged("again 1/oil/dip", "5", right=False, slip="slope left out")
    ...     PracticeFile(folder, "ines okafor").last_round("oil")
    1
    """

    kind = PRACTICE

    def __init__(self, folder: str | Path, student: str, course: str = "home") -> None:
        super().__init__(folder, "practice", student, course)

    def judged(self, key: str, given: str | list[str], right: bool, slip: str) -> None:
        """Add a try with what became of it, and save."""
        self.record(key)["tries"].append({"given": given, "at": now(), "right": right, "slip": slip})
        self.save()

    def places(self) -> Iterable[tuple[Place, Record]]:
        """Yield where each record belongs, with the record."""
        for key, record in self.answers.items():
            if place := place_of(key):
                yield place, record

    def last_round(self, exercise: str) -> int:
        """Return the number of the last round of an exercise that was begun, 0 if none was."""
        rounds = (p.number for p, r in self.places() if (p.what, p.exercise) == (AGAIN, exercise) and was_begun(r))
        return max(rounds, default=0)

    def sittings(self) -> dict[int, list[Place]]:
        """Return the questions of each sitting that was begun, by its number, in order."""
        found: dict[int, list[Place]] = {}
        for place, _ in self.places():
            if place.what == SITTING:
                found.setdefault(place.number, []).append(place)
        begun = {p.number for p, r in self.places() if was_begun(r)}
        return {n: found[n] for n in sorted(found) if n in begun}

    def _data(self, answers: dict[str, Record]) -> bytes:
        # A sitting's questions stay together, those that nobody has answered yet too.
        begun = {p.round for key in answers if (p := place_of(key)) and p.what == SITTING}
        planned = {k: r for k, r in self.answers.items() if (p := place_of(k)) and p.round in begun}
        kept = {k: r for k, r in self.answers.items() if k in answers or k in planned}
        return super()._data(kept)


def is_practice(data: bytes) -> bool:
    """Whether the bytes of a file are meant as practice, whatever the file's name.

    >>> is_practice(b'{"format": "walkaround practice", "version": 1}'), is_practice(b"{}")
    (True, False)
    """
    return _FORMAT.search(data[:2000]) is not None
