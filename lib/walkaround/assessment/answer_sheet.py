"""The answer sheet: a small JSON file beside the exercise, written at every answer, whole or not at all.

A sheet that can't be read is set aside under another name with its content kept. Two windows on one sheet add to each
other's answers; none loses any.
"""

import json
import os
import tempfile
from datetime import UTC, datetime
from pathlib import Path

from walkaround.assessment.variant import same_name

FORMAT = "walkaround answer sheet"
VERSION = 1
ENDING = ".answers.json"


class AnswerSheet:
    """One student's answers to one exercise; `notice` says in words when something was wrong with the file.

    `answers` maps a question's key to {"tries": [{"given", "at"}], "hint": bool, "worked_after": number of tries or None}.
    """

    def __init__(self, folder, exercise, student, course="home"):
        self.folder, self.exercise, self.student, self.course = (Path(folder), exercise, student.strip(), course)
        self.path = self.folder / file_name(exercise, student)
        self.answers, self.notice = {}, ""
        self._take_in()

    def record(self, key):
        """Return the record of one question, the dict that further answers go to."""
        return self._entry(key)

    def answered(self, key, given):
        """Add a try and save."""
        self._entry(key)["tries"].append({"given": given, "at": _now()})
        self._save()

    def hinted(self, key):
        """Note that the hint was read, and save."""
        self._entry(key)["hint"] = True
        self._save()

    def worked(self, key):
        """Note that the worked answer was seen after so many tries, and save."""
        entry = self._entry(key)
        if entry["worked_after"] is None:
            entry["worked_after"] = len(entry["tries"])
        self._save()

    def _entry(self, key):
        return self.answers.setdefault(key, {"tries": [], "hint": False, "worked_after": None})

    def _take_in(self):
        """Read what the file holds and add it to the answers here; set a broken file aside."""
        try:
            text = self.path.read_bytes()
        except FileNotFoundError:
            return
        except OSError as error:
            self.notice = f"The answer sheet {self.path.name} can't be read: {error.strerror}."
            return
        try:
            stored = parse(text)
        except ValueError as error:
            self._set_aside(str(error))
            return
        if same_name(stored["student"]) != same_name(self.student) or stored["exercise"] != self.exercise:
            self._set_aside(f"it belongs to {stored['student']!r}, exercise {stored['exercise']!r}")
            return
        if stored["course"] != self.course:
            # Another course has other numbers: its answers would all be wrong here.
            self._set_aside(f"it belongs to the course {stored['course']!r}")
            return
        for key, theirs in stored["answers"].items():
            ours = self._entry(key)
            known = [(t["at"], t["given"]) for t in ours["tries"]]
            ours["tries"] += [t for t in theirs["tries"] if (t["at"], t["given"]) not in known]
            ours["tries"].sort(key=lambda t: t["at"])
            ours["hint"] |= theirs["hint"]
            seen = [w for w in (ours["worked_after"], theirs["worked_after"]) if w is not None]
            ours["worked_after"] = min(seen, default=None)

    def _set_aside(self, why):
        n = 1
        while (aside := self.path.with_name(self.path.name.replace(ENDING, f".answers.broken-{n}.json"))).exists():
            n += 1
        try:
            os.replace(self.path, aside)
        except OSError as error:
            self.notice = f"The answer sheet {self.path.name} is broken ({why}) and can't be moved: {error.strerror}."
            return
        kept = any(entry["tries"] for entry in self.answers.values())
        self.notice = (
            f"The answer sheet could not be read ({why}). It has been kept as {aside.name} in the folder "
            f"{self.folder.resolve().name}, and a new sheet begins{', with the answers of this page' if kept else ''}."
        )

    def _save(self):
        self.notice = ""
        self._take_in()
        content = {
            "format": FORMAT,
            "version": VERSION,
            "course": self.course,
            "student": self.student,
            "exercise": self.exercise,
            "saved": _now(),
            "answers": {
                k: e for k, e in self.answers.items() if e["tries"] or e["hint"] or e["worked_after"] is not None
            },
        }
        try:
            write_whole(self.path, json.dumps(content, ensure_ascii=False, indent=1).encode("utf-8"))
        except OSError as error:
            self.notice = (
                f"Your answer could not be saved to {self.path.name}: {error.strerror}. It is kept here while this page "
                "stays open; make room or change the folder's rights, then answer again."
            )


def file_name(exercise, student):
    """File name of a sheet: exercise and student, in letters that every system takes.

    >>> file_name("loading", "Ines  Okafor")
    'loading-ines-okafor.answers.json'
    """
    plain = "".join(c if c.isalnum() else "-" for c in same_name(student))
    return f"{exercise}-{'-'.join(p for p in plain.split('-') if p)[:60] or 'nobody'}{ENDING}"


def sheets_in(folder, exercise):
    """Students who have a sheet for an exercise in a folder, the one who answered last first."""
    found = []
    for path in Path(folder).glob(f"{exercise}-*{ENDING}"):
        try:
            stored = parse(path.read_bytes())
        except (OSError, ValueError):
            continue
        if stored["exercise"] == exercise:
            found.append((path.stat().st_mtime, stored["student"]))
    return [student for _, student in sorted(found, reverse=True)]


def broken_in(folder, exercise):
    """File names of the sheets for an exercise in a folder that can't be read, sorted."""
    found = []
    for path in Path(folder).glob(f"{exercise}-*{ENDING}"):
        try:
            parse(path.read_bytes())
        except (OSError, ValueError):
            found.append(path.name)
    return sorted(found)


def parse(data):
    """Read the bytes of a sheet into a dict of the known form, or raise ValueError in words.

    Only data is read, nothing is run. Keys that are not known are dropped, and so is a try that is not one.
    """
    try:
        stored = json.loads(data.decode("utf-8-sig"), parse_constant=_no_constant, object_pairs_hook=_each_key_once)
    except UnicodeDecodeError as error:
        raise ValueError(f"byte {error.start} is not UTF-8") from None
    except json.JSONDecodeError as error:
        raise ValueError(f"it is damaged at line {error.lineno}") from None
    except RecursionError:
        raise ValueError("it is damaged: brackets are nested too deep") from None
    if not isinstance(stored, dict) or stored.get("format") != FORMAT:
        raise ValueError("it is not an answer sheet")
    if stored.get("version") != VERSION:
        raise ValueError(f"it has version {stored.get('version')!r}; allowed: {VERSION}")
    for name in ("course", "student", "exercise"):
        if not isinstance(stored.get(name), str):
            raise ValueError(f"{name} is {stored.get(name)!r}; allowed: a text")
    if not isinstance(stored.get("answers"), dict):
        raise ValueError("answers are missing")
    return {
        "course": stored["course"],
        "student": stored["student"],
        "exercise": stored["exercise"],
        "saved": stored.get("saved") if isinstance(stored.get("saved"), str) else "",
        "answers": {key: _entry_of(value) for key, value in stored["answers"].items()},
    }


def _entry_of(value):
    value = value if isinstance(value, dict) else {}
    tries = value.get("tries")
    worked = value.get("worked_after")
    return {
        "tries": [
            {"given": t["given"], "at": t["at"]}
            for t in (tries if isinstance(tries, list) else [])
            if isinstance(t, dict) and isinstance(t.get("at"), str) and _is_answer(t.get("given"))
        ],
        "hint": value.get("hint") is True,
        "worked_after": worked if isinstance(worked, int) and not isinstance(worked, bool) and worked >= 0 else None,
    }


def _is_answer(given):
    if isinstance(given, list):
        return all(isinstance(part, str) for part in given)
    return isinstance(given, str)


def _each_key_once(pairs):
    found = dict(pairs)
    if len(found) != len(pairs):
        keys = [key for key, _ in pairs]
        raise ValueError(f"the key {next(k for k in keys if keys.count(k) > 1)!r} stands twice")
    return found


def _no_constant(name):
    raise ValueError(f"{name} is not a number")


def _now():
    return datetime.now(UTC).isoformat(timespec="milliseconds")


def write_whole(path, data):
    """Write a file so that its name always holds the old or the new content, never a part: beside it, then renamed.

    Raises OSError; the old file is then as it was.
    """
    path = Path(path)
    handle, temporary = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, 0o644)
        os.replace(temporary, path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
