"""Marking all that was collected: every file gets a status, every party its mark; on all processors when there is much.

Running it again over the same files gives the same result.
"""

import math
import multiprocessing
import os
import threading
import time
from bisect import bisect_left
from collections import deque
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from hashlib import sha256
from itertools import chain, islice, pairwise
from multiprocessing.connection import wait
from pathlib import Path
from typing import NamedTuple

from walkaround.assessment import answer_sheet
from walkaround.assessment.practice_file import is_practice
from walkaround.assessment.variant import same_name
from walkaround.classroom import collect
from walkaround.classroom.collect import DAMAGED, NOT_A_SHEET
from walkaround.classroom.course import read_course
from walkaround.classroom.course_file import BEST, FIRST, ONE_FOR_ALL
from walkaround.classroom.safe_path import safe_path
from walkaround.classroom.sheet_marks import SheetMark, mark_sheet
from walkaround.classroom.texts import number_of, shown

MARKED, SUPERSEDED, UNKNOWN = "marked", "superseded", "unknown student"
WRONG_COURSE, NOT_MARKED, NOT_SIGNED, TO_CHOOSE = "wrong course", "not marked", "not signed", "to be chosen"
STATUSES = (
    MARKED,
    SUPERSEDED,
    TO_CHOOSE,
    NOT_SIGNED,
    UNKNOWN,
    WRONG_COURSE,
    DAMAGED,
    NOT_A_SHEET,
    collect.TOO_LARGE,
    NOT_MARKED,
)
CHUNK = 30  # sheets handed to another process at a time
FEW = 400  # fewer sheets than this are marked here before other processes would have started


class NewFile(NamedTuple):
    """A file to be marked: where it was, its bytes, their SHA-256, and when they were first collected (seconds).

    `absent` is when others were collected last before that, 0 if none were.
    """

    place: str
    data: bytes
    digest: str
    first_seen: float
    absent: float = 0.0


class FileEntry(NamedTuple):
    """What became of one file; `digest` is its SHA-256, `first_seen` when it was first collected (seconds).

    `typed_in` says when the instructor typed it in from paper, empty for what a student's form has written.
    """

    place: str
    status: str
    student: str = ""
    exercise: str = ""
    reason: str = ""
    digest: str = ""
    first_seen: float = 0.0
    typed_in: str = ""


class Misnamed(NamedTuple):
    """A sheet whose file name gives another student's id than the sheet itself."""

    place: str
    id_in_name: str
    id_in_sheet: str


@dataclass(frozen=True)
class Outcome:
    """What marking found: an entry for every file, the marks by (party's id, exercise), and the misnamed sheets.

    `undecided` holds the keys of marks for which the instructor has to choose one of several sheets.
    """

    files: tuple[FileEntry, ...]
    marks: dict[tuple[str, str], SheetMark]
    misnamed: tuple[Misnamed, ...] = ()
    undecided: frozenset[tuple[str, str]] = frozenset()

    def count(self, status):
        """How many files have a status."""
        return sum(f.status == status for f in self.files)


def mark_folders(
    course,
    folders,
    seen_before=None,
    now=None,
    progress=lambda done, total: None,
    workers=None,
    before=None,
    keep=lambda digest, data: None,
    choices=None,
):
    """Mark every answer sheet below some folders (or files); returns an `Outcome`.

    `seen_before` maps the digest of a file to when it was first collected; `progress` is called with files done and
    files in all. `before` has (place, path) by digest of sheets that were collected earlier and may no longer be in the
    folders; `keep` is called with every sheet of the course, so that it can be one of them; `choices` has the digest of
    the sheet that the instructor chose, by (party's id, exercise). Raises ValueError when a folder is not there or a
    question set can't be used.
    """
    now, seen_before = float(int(time.time() if now is None else now)), seen_before or {}
    for exercise in course.exercises:
        course.author(exercise.name)
    ours = (course.results, course.handed_out)
    paths = [(p, Path(top).expanduser()) for top in folders for p in collect.files_below(top, ours)]
    several = len(folders) > 1
    entries: list[FileEntry] = []
    first_place: dict[str, str] = {}
    times = sorted({*seen_before.values()})
    dues = [due.timestamp() for e in course.exercises if (due := course.due(e))]
    delayed: list[NewFile] = []

    def new_file(place, data, digest):
        """Yield the file; one that was absent at a marking after a due date waits for what came before it."""
        seen = seen_before.get(digest, now)
        earlier = bisect_left(times, seen)
        file = NewFile(place, data, digest, seen, times[earlier - 1] if earlier else 0.0)
        if file.absent > min(dues, default=math.inf):
            delayed.append(file)
        else:
            yield file

    def new_files():
        """Every new file; one that needs no marking goes to the entries at once."""
        for done, (path, top) in enumerate(paths, 1):
            for found in collect.read(path, top.parent if several else top):
                if found.data is None:
                    entries.append(FileEntry(found.place, found.status, reason=found.reason))
                    continue
                digest = sha256(found.data).hexdigest()
                seen = seen_before.get(digest, now)
                if digest in first_place:
                    reason = f"the same as {first_place[digest]}"
                    entries.append(FileEntry(found.place, SUPERSEDED, "", "", reason, digest, seen))
                    continue
                first_place[digest] = found.place
                yield from new_file(found.place, found.data, digest)
            if done % CHUNK == 0:
                progress(done, len(paths))
        for digest, (place, path) in (before or {}).items():
            if digest not in first_place and sha256(data := path.read_bytes()).hexdigest() == digest:
                first_place[digest] = place
                yield from new_file(place, data, digest)

    sheets: list[tuple[FileEntry, SheetMark]] = []
    known: dict[tuple[str, str], dict[bytes, float]] = {}

    def take(file, entry, mark):
        if mark is None:
            entries.append(entry)
            return
        sheets.append((entry, mark))
        keep(file.digest, file.data)

    for file, (entry, mark) in _mark_each(course, new_files(), workers or min(os.cpu_count() or 1, 8)):
        take(file, entry, mark)
    for _, mark in sheets if delayed else ():
        known.setdefault((mark.party, mark.exercise), {}).update(dict.fromkeys(mark.moments, 0.0))
    for file in sorted(delayed, key=lambda f: (f.first_seen, f.place)):
        entry, mark = mark_file(course, file, known)
        take(file, entry, mark)
        if mark is not None:
            of_party = known.setdefault((mark.party, mark.exercise), {})
            for moment in mark.moments:
                of_party.setdefault(moment, file.absent)
    kept, chosen, undecided = _choose(course, sheets, choices or {})
    entries += kept
    # A copy of a sheet that counts is superseded; a copy of anything else is what the first one is.
    first_of = {e.digest: e for e in entries if e.digest and e.place == first_place[e.digest]}
    files = []
    for e in sorted(entries, key=lambda e: (e.place, e.digest)):
        like = first_of.get(e.digest)
        if like is not None and like is not e and e.status == SUPERSEDED and not e.student:
            status = SUPERSEDED if like.status == MARKED else like.status
            e = e._replace(status=status, student=like.student, exercise=like.exercise)
        files.append(e)
    progress(len(paths), len(paths))
    return Outcome(tuple(files), chosen, tuple(_misnamed(course, files)), frozenset(undecided))


def _mark_each(course, files, workers):
    """Yield each file with what `mark_file` returns; where there are many, other processes mark beside this one."""
    first, helpers = list(islice(files, FEW)), workers - 1
    files = chain(first, files)
    if not helpers or len(first) < FEW:
        yield from ((file, mark_file(course, file)) for file in files)
        return
    # New interpreters, not copies of this one: a copy of a process that has threads, as a notebook's has, can hang.
    spawn = multiprocessing.get_context("spawn")
    with safe_path(), ProcessPoolExecutor(helpers, spawn, _start_helper, (str(course.folder),)) as pool:
        waiting: deque[tuple[list[NewFile], Future]] = deque()
        while chunk := list(islice(files, CHUNK)):
            future = _handed_to(pool, chunk) if len(waiting) < 3 * helpers else None
            if future is None:
                yield from ((file, mark_file(course, file)) for file in chunk)
            else:
                waiting.append((chunk, future))
            while waiting and waiting[0][1].done():
                yield from _marked(course, *waiting.popleft())
        while waiting:
            yield from _marked(course, *waiting.popleft())


def _handed_to(pool, chunk):
    """The future of a chunk that a helper marks, None when none of them is left."""
    try:
        return pool.submit(_mark_chunk, chunk)
    except (BrokenProcessPool, RuntimeError):
        return None


def _marked(course, chunk, future):
    """The marks of a chunk; what a helper that was ended from outside has left undone is done here."""
    try:
        return zip(chunk, future.result(), strict=True)
    except BrokenProcessPool:
        return [(file, mark_file(course, file)) for file in chunk]


_course = None


def _start_helper(folder):
    """Begin a process that marks: read the course, and end when the process that asked for marks has ended."""
    global _course
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=lambda: (wait([parent.sentinel]), os._exit(1)), daemon=True).start()
    _course = read_course(folder)


def _mark_chunk(chunk):
    return [mark_file(_course, file) for file in chunk]


def mark_file(course, file, known=None):
    """Mark a `NewFile`; returns its `FileEntry` and its `SheetMark`, None without one.

    `known` has, by (party's id, exercise), what `mark_sheet` takes as `known`.
    """
    entry = FileEntry(file.place, NOT_A_SHEET, digest=file.digest, first_seen=file.first_seen)
    try:
        stored = answer_sheet.parse(_as_utf8(file.data))
    except ValueError as error:
        if is_practice(file.data):
            return entry._replace(reason="practice, which does not count"), None
        if not _meant_as_sheet(file):
            return entry._replace(reason="it is not an answer sheet"), None
        return entry._replace(status=DAMAGED, reason=shown(str(error), 200)), None
    entry = entry._replace(student=shown(stored["student"]), exercise=shown(stored["exercise"], 60))
    if stored["course"] != course.name:  # to the letter: the numbers are drawn from it
        return entry._replace(status=WRONG_COURSE, reason=f"it is for the course {shown(stored['course'], 80)!r}"), None
    exercise = course.exercise(stored["exercise"])
    if exercise is None:
        return entry._replace(status=WRONG_COURSE, reason="this exercise is not set in the course"), None
    party = course.party(stored["student"])
    if party is None:
        return entry._replace(status=UNKNOWN, reason=course.not_in_roster(stored["student"])), None
    if exercise not in course.set_for(party):
        return entry._replace(status=WRONG_COURSE, reason=f"this exercise is not set for {shown(party.id)}"), None
    key = course.signing_key(party.id)
    if not (key and answer_sheet.is_signed(stored, key)):
        if stored["signature"] and answer_sheet.is_signed(stored, course.typed_in_key(party.id)):
            entry = entry._replace(typed_in=stored["saved"])
        elif key:
            return entry._replace(status=NOT_SIGNED, reason=f"not signed by {shown(party.id)}"), None
    known = (known or {}).get((party.id, exercise.name))
    try:
        # The instructor vouches for the times that were typed in: when the sheet was written says nothing.
        absent = 0.0 if entry.typed_in else file.absent
        mark = mark_sheet(course, party, stored, file.first_seen, absent, known)
    except Exception as error:  # a mistake in an exercise costs this sheet, never the whole marking
        return entry._replace(status=NOT_MARKED, reason=shown(f"the exercise is at fault: {error}", 300)), None
    if entry.typed_in:
        mark = mark._replace(moments=())  # a whole class may have handed in at one moment
    return entry._replace(status=MARKED, student=party.id), mark


def _as_utf8(data):
    # An editor may have saved the sheet in UTF-16 or UTF-32, which begins with a mark of its own.
    marks = {b"\xff\xfe\0\0": "utf-32", b"\0\0\xfe\xff": "utf-32", b"\xff\xfe": "utf-16", b"\xfe\xff": "utf-16"}
    for mark, encoding in marks.items():
        if data.startswith(mark):
            return data.decode(encoding).encode("utf-8", "surrogatepass")
    return data


def _meant_as_sheet(file):
    return file.place.casefold().endswith(answer_sheet.ENDING) or answer_sheet.FORMAT.encode() in file.data[:2000]


def _choose(course, sheets, choices):
    """Which copy of each party's exercise counts, by the course's rule; the others are superseded.

    Where sheets are not signed, anyone can have made them: copies that contradict each other wait for the instructor.
    """
    by_party: dict[tuple[str, str], list[tuple[FileEntry, SheetMark]]] = {}
    for entry, mark in sheets:
        by_party.setdefault((mark.party, mark.exercise), []).append((entry, mark))
    rule, entries, chosen, undecided = course.file.copies, [], {}, []
    better = {BEST: "better", FIRST: "earlier"}.get(rule, "later")
    for key, copies in by_party.items():
        contradicting: list[tuple[FileEntry, SheetMark]] = []
        typed = sorted((c for c in copies if c[0].typed_in), key=lambda c: (c[0].typed_in, c[0].digest))
        if len(typed) > 1:
            reason = f"typed in again: {typed[-1][0].place}"
            entries += [e._replace(status=SUPERSEDED, reason=reason) for e, _ in typed[:-1]]
            copies = [c for c in copies if c not in typed[:-1]]
        if course.file.hand_out == ONE_FOR_ALL and not _one_story(copies):
            copies, contradicting = _believed(copies, choices.get(key))
            status = SUPERSEDED if copies and choices.get(key) else TO_CHOOSE
            reason = f"you chose {copies[0][0].place}" if status == SUPERSEDED else "only one can be right: choose"
            entries += [e._replace(status=status, reason=reason) for e, _ in contradicting]
            if not copies:
                undecided.append(key)
                continue
        # The digest last, so that the choice is the same in every run.
        in_time = sorted(copies, key=lambda c: (c[1].last_at, c[1].tries, c[0].digest))
        if rule == BEST:
            entry, mark = max(in_time, key=lambda c: c[1].points)
        else:
            entry, mark = in_time[0 if rule == FIRST else -1]
        others = [(e, other) for e, other in copies if e is not entry]
        reason = f"a copy counts that is {better}: {entry.place}"
        entries += [entry, *(e._replace(status=SUPERSEDED, reason=reason) for e, _ in others)]
        elsewhere = {moment for _, other in others for moment in other.moments} - set(mark.moments)
        if elsewhere and rule != FIRST:
            tries = number_of(len(elsewhere), "try", "tries")
            why = "one of them is typed in from paper" if any(e.typed_in for e, _ in copies) else "begun anew?"
            remark = f"another copy holds {tries} that the one counted lacks: {why}"
            mark = mark._replace(remarks=(*mark.remarks, remark))
        if contradicting and status == TO_CHOOSE:
            remark = "another sheet contradicts this one, which came first and counts until you choose"
            mark = mark._replace(remarks=(*mark.remarks, remark))
        chosen[key] = mark
    return entries, chosen, undecided


def _one_story(copies):
    """Whether each of some copies goes on from those with fewer tries."""
    marks = sorted((mark for _, mark in copies), key=SheetMark.length)
    return all(after.goes_on_from(before) for before, after in pairwise(marks))


def _believed(copies, wanted):
    """Part copies that contradict each other into those that may count, and the others.

    The instructor's choice counts, without one what was collected first; then what goes on from it, or it from them.
    """
    first = min(e.first_seen for e, _ in copies)
    base = [c for c in copies if c[0].digest == wanted] or [c for c in copies if c[0].first_seen == first]
    if not _one_story(base):
        return [], copies
    base = max(base, key=lambda c: c[1].length())
    story = [c for c in copies if c[1].goes_on_from(base[1]) or base[1].goes_on_from(c[1])]
    if not _one_story(story):
        story = [c for c in story if base[1].goes_on_from(c[1])]
    story.sort(key=lambda c: c is not base)
    return story, [c for c in copies if c not in story]


def _misnamed(course, files):
    named_for = {answer_sheet.file_name(e.name, p.id): p.id for p in course.parties for e in course.exercises}
    for f in files:
        id_in_name = named_for.get(f.place.replace("\\", "/").split(" › ")[-1].split("/")[-1].casefold())
        marked = f.status in (MARKED, SUPERSEDED) and f.student
        if marked and id_in_name and same_name(id_in_name) != same_name(f.student):
            yield Misnamed(f.place, id_in_name, f.student)
