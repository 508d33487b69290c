"""The answer sheet: a small JSON file beside the exercise, written at every answer, whole or not at all, and signed.

A sheet that can't be read is set aside under another name with its content kept. Two windows on one sheet add to each
other's answers; neither loses any.
"""

import hmac
import json
import os
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, ClassVar, NamedTuple, NotRequired, TypedDict

from walkaround.assessment.files import write_whole
from walkaround.assessment.variant import LONGEST_NAME, same_name

FORMAT = "walkaround answer sheet"
VERSION = 1
ENDING = ".answers.json"
MOST_ANSWERS = 1000


class Kind(NamedTuple):
    """What a file of answers is called and how it is told from others; `judged` if it keeps what became of a try."""

    what: str
    format: str
    ending: str
    most: int
    judged: bool = False


SHEET = Kind("answer sheet", FORMAT, ENDING, MOST_ANSWERS)


class _Given(TypedDict):
    given: str | list[str]
    at: str


class Try(_Given, total=False):
    """One answer as it was given (a typed text, an option's key, or keys), and when, in ISO 8601.

    Practice, which is never marked, also keeps whether it was right, and the slip that it matched.
    """

    right: bool
    slip: str


class Record(TypedDict):
    """What became of one question; `worked_after` is how many tries came before the worked answer, None without it.

    `worked_at` is when it was seen, in ISO 8601, where that is known. Marking does not read it.
    """

    tries: list[Try]
    hint: bool
    worked_after: int | None
    worked_at: NotRequired[str]


class Sheet(TypedDict):
    """What a sheet's file says, `answers` by the question's key; `saved` is a time in ISO 8601 or empty.

    `signature` is what `sign` makes of all the rest but `saved`, empty without one.
    """

    course: str
    student: str
    exercise: str
    saved: str
    answers: dict[str, Record]
    signature: str


class AnswerSheet:
    """One student's answers to one exercise, by the question's key in `answers`.

    `notice` says in words when something is wrong with the file, and is empty otherwise. `unsaved` is true while the
    answers can't be saved; `save` tries again. With a `key` the sheet is signed, and one that is not is set aside.

    >>> with tempfile.TemporaryDirectory() as folder:
    ...     AnswerSheet(folder, "loading", "Ines Okafor").answered("moment", "9 780")
    ...     AnswerSheet(folder, "loading", "ines okafor").record("moment")["tries"][0]["given"]
    '9 780'
    """

    kind: ClassVar[Kind] = SHEET

    def __init__(self, folder: str | Path, exercise: str, student: str, course: str = "home", key: str = "") -> None:
        self.folder, self.exercise, self.student, self.course = Path(folder), exercise, student.strip(), course
        self._key = key
        self.path = self.folder / file_name(exercise, student, self.kind)
        self.answers: dict[str, Record] = {}
        self.notice, self.unsaved = "", False
        self._take_in()

    def check_folder(self) -> None:
        """Find out whether answers can be saved in the folder, before there are any; `notice` says if they can't."""
        try:
            with tempfile.TemporaryFile(dir=self.folder):
                pass
        except OSError as error:
            self._not_saved(error)

    def record(self, key: str) -> Record:
        """Return the record of one question, the dict that further answers go to."""
        return self.answers.setdefault(key, {"tries": [], "hint": False, "worked_after": None})

    def answered(self, key: str, given: str | list[str]) -> None:
        """Add a try and save."""
        self.record(key)["tries"].append({"given": given, "at": now()})
        self.save()

    def hinted(self, key: str) -> None:
        """Note that the hint was read, and save."""
        self.record(key)["hint"] = True
        self.save()

    def worked(self, key: str) -> None:
        """Note after how many tries the worked answer was seen, and when, and save."""
        record = self.record(key)
        if record["worked_after"] is None:
            record["worked_after"], record["worked_at"] = len(record["tries"]), now()
        self.save()

    def _take_in(self) -> bool:
        """Read what the file holds and add it to the answers here; set a broken file aside.

        Returns whether the file may be written: not while it holds what could not be read.
        """
        try:
            text = self.path.read_bytes()
        except FileNotFoundError:
            return True
        except OSError as error:
            self.notice = f"The {self.kind.what} {self.path.name} can't be read: {error.strerror}."
            return False
        try:
            stored = parse(text, self.kind)
        except ValueError as error:
            return self._set_aside(str(error))
        if same_name(stored["student"]) != same_name(self.student) or stored["exercise"] != self.exercise:
            return self._set_aside(f"it belongs to {stored['student']!r}, exercise {stored['exercise']!r}")
        if stored["course"] != self.course:
            # Another course has other numbers: its answers would all be wrong here.
            return self._set_aside(f"it belongs to the course {stored['course']!r}")
        if self._key and not is_signed(stored, self._key):
            return self._set_aside("it was changed outside this form")
        for key, theirs in stored["answers"].items():
            ours = self.record(key)
            known = [(t["at"], t["given"]) for t in theirs["tries"]]
            # What the file holds came first, also where two tries were given in the same millisecond.
            fresh = [t for t in ours["tries"] if (t["at"], t["given"]) not in known]
            ours["tries"] = sorted(theirs["tries"] + fresh, key=lambda t: t["at"])
            ours["hint"] = ours["hint"] or theirs["hint"]
            seen = [w for w in (ours["worked_after"], theirs["worked_after"]) if w is not None]
            ours["worked_after"] = min(seen, default=None)
            if times := [at for r in (ours, theirs) if (at := r.get("worked_at"))]:
                ours["worked_at"] = min(times)
        return True

    def _set_aside(self, why: str) -> bool:
        n, stem = 1, self.path.name.removesuffix(".json")
        while (aside := self.path.with_name(f"{stem}.broken-{n}.json")).exists():
            n += 1
        what = self.kind.what
        try:
            os.replace(self.path, aside)
        except OSError as error:
            self.notice = f"The {what} {self.path.name} is broken ({why}) and can't be moved: {error.strerror}."
            return False
        kept = any(record["tries"] for record in self.answers.values())
        self.notice = (
            f"The {what} could not be read ({why}). It has been kept as {aside.name} in the folder "
            f"{self.folder.resolve().name}, and a new one begins{', with the answers of this page' if kept else ''}."
        )
        return True

    def save(self) -> None:
        """Save everything given so far; if that can't be done, `unsaved` is true and `notice` says why."""
        self.notice, self.unsaved = "", False
        if not self._take_in():
            self.unsaved = True
            return
        given = {k: r for k, r in self.answers.items() if was_begun(r)}
        if not given:
            self.check_folder()
            return
        try:
            write_whole(self.path, self._data(given))
        except OSError as error:
            self._not_saved(error)

    def _data(self, answers: dict[str, Record]) -> bytes:
        return data_of(self.course, self.student, self.exercise, now(), answers, self._key, self.kind)

    def _not_saved(self, error: OSError) -> None:
        self.unsaved = True
        self.notice = (
            f"Your answers can't be saved to {self.path.name}: {error.strerror}. They are kept while this page stays "
            "open, and saved as soon as there is room and the folder can be written."
        )


def was_begun(record: Record) -> bool:
    """Whether a record holds anything.

    >>> was_begun({"tries": [], "hint": True, "worked_after": None})
    True
    """
    return bool(record["tries"]) or record["hint"] or record["worked_after"] is not None


def data_of(
    course: str, student: str, exercise: str, saved: str, answers: dict[str, Record], key: str = "", kind: Kind = SHEET
) -> bytes:
    """Return the bytes of a sheet, or of a file of another kind, signed if there is a key."""
    content = {
        "format": kind.format,
        "version": VERSION,
        "course": course,
        "student": student,
        "exercise": exercise,
        "saved": saved,
        "answers": answers,
    }
    data = json.dumps(content, ensure_ascii=False, indent=1).encode("utf-8")
    if not key:
        return data
    content["signature"] = sign(parse(data), key)  # of what marking will read there
    return json.dumps(content, ensure_ascii=False, indent=1).encode("utf-8")


def sign(sheet: Sheet, key: str) -> str:
    """Return the signature of a sheet, in hexadecimal: HMAC with SHA-256 (NIST FIPS 198-1) over all that marking reads.

    It does not depend on the order of the answers, nor on how the file is laid out.

    >>> sheet = parse(data_of("home", "Ines Okafor", "loading", "", {}))
    >>> sign(sheet, "a key") == sign(sheet | {"saved": "later"}, "a key") != sign(sheet, "another key")
    True
    """
    answers = [
        [question, [[t["given"], t["at"]] for t in r["tries"]], r["hint"], r["worked_after"]]
        for question, r in sorted(sheet["answers"].items())
    ]
    content = [FORMAT, VERSION, sheet["course"], sheet["student"], sheet["exercise"], answers]
    return hmac.digest(key.encode(), json.dumps(content, separators=(",", ":")).encode(), "sha256").hex()


def is_signed(sheet: Sheet, key: str) -> bool:
    """Whether a sheet that `parse` has read was signed with a key."""
    return hmac.compare_digest(sign(sheet, key).encode(), sheet["signature"].encode("utf-8", "surrogatepass"))


def file_name(exercise: str, student: str, kind: Kind = SHEET) -> str:
    """Return the file name of a sheet or another kind: exercise and student, in letters that every system takes.

    >>> file_name("loading", "Ines  Okafor")
    'loading-ines-okafor.answers.json'
    """
    plain = "".join(c if c.isalnum() else "-" for c in same_name(student))
    return f"{exercise}-{'-'.join(p for p in plain.split('-') if p)[:60] or 'nobody'}{kind.ending}"


def look(folder: str | Path, exercise: str, student: str, course: str) -> dict[str, Record]:
    """Return the answers on a student's sheet, and leave its file as it is; none where there is no sheet.

    Raises ValueError in words when the file can't be read or belongs to someone else.

    >>> look(".", "loading", "Ines Okafor", "home")
    {}
    """
    name = file_name(exercise, student)
    try:
        sheet = parse((Path(folder) / name).read_bytes())
    except FileNotFoundError:
        return {}
    except (OSError, ValueError) as error:
        raise ValueError(f"The answer sheet {name} can't be read") from error
    if (same_name(sheet["student"]), sheet["exercise"], sheet["course"]) != (same_name(student), exercise, course):
        raise ValueError(f"The answer sheet {name} belongs to someone else or to another course")
    return sheet["answers"]


def sheets_in(folder: str | Path, exercise: str = "") -> list[str]:
    """Return the students who have a sheet for an exercise, or for any, in a folder; who answered last comes first.

    A sheet under what can't be a name is passed over.

    >>> with tempfile.TemporaryDirectory() as folder:
    ...     AnswerSheet(folder, "loading", "Ines Okafor").answered("moment", "9 780")
    ...     sheets_in(folder, "loading")
    ['Ines Okafor']
    """
    read = [(path.stat().st_mtime, sheet) for path, sheet in _read_in(folder, exercise) if sheet is not None]
    found = [
        (written, sheet["student"])
        for written, sheet in read
        if sheet["exercise"] == (exercise or sheet["exercise"]) and _is_name(sheet["student"])
    ]
    names = [student for _, student in sorted(found, reverse=True)]
    return [name for i, name in enumerate(names) if same_name(name) not in map(same_name, names[:i])]


def _is_name(text: str) -> bool:
    """Whether a text has a letter or figure, and no half of a character, which can't be sent to a screen."""
    return any(c.isalnum() for c in text) and not any("\ud800" <= c <= "\udfff" for c in text)


def broken_in(folder: str | Path, exercise: str) -> list[str]:
    """Return the file names of the sheets for an exercise in a folder that can't be read, sorted.

    >>> with tempfile.TemporaryDirectory() as folder:
    ...     _ = (Path(folder) / "loading-ines.answers.json").write_text("{")
    ...     broken_in(folder, "loading")
    ['loading-ines.answers.json']
    """
    return sorted(path.name for path, sheet in _read_in(folder, exercise) if sheet is None)


def _read_in(folder: str | Path, exercise: str) -> Iterator[tuple[Path, Sheet | None]]:
    """The files that are named as sheets for an exercise, with what they hold; None for what can't be read."""
    for path in Path(folder).glob(f"{exercise or '*'}-*{ENDING}"):
        try:
            yield path, parse(path.read_bytes())
        except (OSError, ValueError):
            yield path, None


def parse(data: bytes, kind: Kind = SHEET) -> Sheet:
    """Read the bytes of a sheet, or of a file of another kind, or raise ValueError in words.

    Only data is read, nothing is run. Keys that are not known are dropped, and so is a try that is not one.

    >>> parse(b"{")
    Traceback (most recent call last):
    ...
    ValueError: it is damaged at line 1
    """
    if not data.strip():
        raise ValueError("it is empty")
    try:
        stored = json.loads(data.decode("utf-8-sig"), parse_constant=_no_constant, object_pairs_hook=_each_key_once)
    except UnicodeDecodeError as error:
        raise ValueError(f"byte {error.start} is not UTF-8") from None
    except json.JSONDecodeError as error:
        raise ValueError(f"it is damaged at line {error.lineno}") from None
    except RecursionError:
        raise ValueError("it is damaged: brackets are nested too deep") from None
    if not isinstance(stored, dict) or stored.get("format") != kind.format:
        raise ValueError(f"it is not {'an' if kind.what[0] in 'aeiou' else 'a'} {kind.what}")
    if stored.get("version") != VERSION:
        raise ValueError(f"it has version {stored.get('version')!r}; allowed: {VERSION}")
    for name in ("course", "student", "exercise"):
        if not isinstance(stored.get(name), str):
            raise ValueError(f"{name} is {stored.get(name)!r}; allowed: a text")
        if len(stored[name]) > LONGEST_NAME:
            raise ValueError(f"{name} has {len(stored[name]):,} characters; allowed: {LONGEST_NAME:,}")
    if not isinstance(stored.get("answers"), dict):
        raise ValueError("answers are missing")
    if len(stored["answers"]) > kind.most:
        raise ValueError(f"it has {len(stored['answers']):,} answers; allowed: {kind.most:,}")
    return {
        "course": stored["course"],
        "student": stored["student"],
        "exercise": stored["exercise"],
        "saved": saved if isinstance(saved := stored.get("saved"), str) else "",
        "answers": {key: _record_of(value, kind.judged) for key, value in stored["answers"].items()},
        "signature": signature if isinstance(signature := stored.get("signature"), str) else "",
    }


def _record_of(value: object, judged: bool) -> Record:
    value = value if isinstance(value, dict) else {}
    tries = value.get("tries")
    worked, at = value.get("worked_after"), value.get("worked_at")
    record: Record = {
        "tries": [
            _try_of(t, judged)
            for t in (tries if isinstance(tries, list) else [])
            if isinstance(t, dict) and isinstance(t.get("at"), str) and _is_answer(t.get("given"))
        ],
        "hint": value.get("hint") is True,
        "worked_after": worked if isinstance(worked, int) and not isinstance(worked, bool) and worked >= 0 else None,
    }
    if record["worked_after"] is not None and isinstance(at, str):
        record["worked_at"] = at
    return record


def _try_of(t: dict[str, Any], judged: bool) -> Try:
    if not judged:
        return {"given": t["given"], "at": t["at"]}
    slip = t.get("slip")
    return {
        "given": t["given"],
        "at": t["at"],
        "right": t.get("right") is True,
        "slip": slip if isinstance(slip, str) else "",
    }


def _is_answer(given: object) -> bool:
    if isinstance(given, list):
        return all(isinstance(part, str) for part in given)
    return isinstance(given, str)


def _each_key_once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) != len(pairs):
        seen: set[str] = set()
        twice = next(key for key, _ in pairs if key in seen or seen.add(key))  # type: ignore[func-returns-value]
        raise ValueError(f"the key {twice!r} stands twice")
    return found


def _no_constant(name: str) -> None:
    raise ValueError(f"{name} is not a number")


def now() -> str:
    """Return the time now as answers have it, in ISO 8601 to the millisecond, in UTC."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")
