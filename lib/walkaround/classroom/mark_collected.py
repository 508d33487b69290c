"""Marking all that was collected: every file gets a status, every party its mark; on both processors when there is much.

Running it again over the same files gives the same result.
"""

import gc
import multiprocessing
import os
import sys
import threading
import time
from collections import deque
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from hashlib import sha256
from itertools import chain, islice
from multiprocessing.connection import wait
from pathlib import Path
from typing import NamedTuple

from walkaround.assessment import answer_sheet as sheet
from walkaround.assessment.variant import same_name
from walkaround.classroom import collect
from walkaround.classroom import course as courses
from walkaround.classroom import sheet_marks as marks
from walkaround.classroom.collect import DAMAGED, NOT_A_SHEET
from walkaround.classroom.course_file import BEST, FIRST
from walkaround.classroom.large import no_search_for_cycles
from walkaround.classroom.texts import shown

MARKED, SUPERSEDED, UNKNOWN, WRONG_COURSE, NOT_MARKED = (
    "marked", "superseded", "unknown student", "wrong course", "not marked",
)  # fmt: skip
STATUSES = (MARKED, SUPERSEDED, UNKNOWN, WRONG_COURSE, DAMAGED, NOT_A_SHEET, collect.TOO_LARGE, NOT_MARKED)
CHUNK = 30
_AHEAD = 3  # chunks handed to each helper at a time: enough to keep it busy, few to wait for at the end
FEW = 400  # so many sheets are marked sooner here than processes are started


class FileEntry(NamedTuple):
    """What became of one file; `digest` is its SHA-256, `first_seen` when it was first collected (seconds)."""

    place: str
    status: str
    student: str = ""
    exercise: str = ""
    reason: str = ""
    digest: str = ""
    first_seen: float = 0.0


@dataclass(frozen=True)
class Outcome:
    """Result of marking: `files` a `FileEntry` for every file, `marks` a SheetMark by (party's id, exercise).

    `misnamed` has (place, id in the file's name, id in the sheet) of sheets whose name says another student.
    """

    files: tuple
    marks: dict
    misnamed: tuple = ()

    def count(self, status):
        """How many files have a status."""
        return sum(f.status == status for f in self.files)


@no_search_for_cycles()
def mark_all(course, folders, seen_before=None, now=None, progress=lambda done, total: None, workers=None):
    """Mark every answer sheet below some folders (or files).

    `seen_before` maps the digest of a file to when it was first collected; `progress` is called with files done and files in
    all. Raises ValueError when a folder is not there or a question set can't be used.
    """
    now, seen_before = float(int(time.time() if now is None else now)), seen_before or {}
    for exercise in course.exercises:
        course.author(exercise.name)
    ours = (course.results, course.handed_out)
    paths = [(p, Path(top).expanduser()) for top in folders for p in collect.files_below(top, ours)]
    several = len(folders) > 1
    done, entries, sheets = 0, [], []
    places, first_place = _places_of(course), {}

    def fresh():
        """Every new sheet; what needs no marking goes to the entries at once."""
        nonlocal done
        for path, top in paths:
            for found in collect.read(path, top.parent if several else top):
                if found.data is None:
                    entries.append(FileEntry(found.place, found.status, reason=found.reason))
                    continue
                digest = sha256(found.data).hexdigest()
                seen = seen_before.get(digest, now)
                if digest in first_place:
                    same = first_place[digest]
                    entries.append(
                        FileEntry(found.place, SUPERSEDED, reason=f"the same as {same}", digest=digest, first_seen=seen)
                    )
                    continue
                first_place[digest] = found.place
                yield found.place, found.data, digest, seen
            done += 1
            if done % CHUNK == 0:
                progress(done, len(paths))

    for entry, mark in _mark_each(course, fresh(), workers, len(paths) >= FEW):
        if mark is None:
            entries.append(entry)
        else:
            sheets.append((entry, mark))
    kept, chosen = _choose(course, sheets)
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
    return Outcome(tuple(files), chosen, tuple(_misnamed(files, places)))


def _mark_each(course, fresh, workers, many):
    """Yield (entry, mark or None) for every sheet, in this process when they are few; few files may be zips of many sheets."""
    first = [] if many else list(islice(fresh, FEW))
    workers = min(workers or os.cpu_count() or 1, 8)
    fresh = chain(first, fresh)
    if workers < 2 or (not many and len(first) < FEW):
        yield from (mark_one(course, item) for item in fresh)
        return
    context, helpers = multiprocessing.get_context(_start_method()), workers - 1
    # A copy of this process has the course already, and what it was read from may not be fit to be sent to another.
    begins_with = course if context.get_start_method() == "fork" else str(course.folder)
    with ProcessPoolExecutor(helpers, context, _start_worker, (begins_with,)) as pool:
        waiting = deque()
        while chunk := list(islice(fresh, CHUNK)):
            # Helpers get as much as keeps them busy; the rest is marked here, while they start up too.
            future = _handed_to(pool, chunk) if len(waiting) < _AHEAD * helpers else None
            if future is None:
                yield from (mark_one(course, item) for item in chunk)
            else:
                waiting.append((chunk, future))
            while waiting and waiting[0][1].done():
                yield from _result(course, *waiting.popleft())
        while waiting:
            yield from _result(course, *waiting.popleft())


def _start_method():
    """How helpers are started: as copies of this process, which are there at once, or else as new interpreters.

    A copy of a process that has threads, as a notebook's has, can stop for ever; and only Linux copies without surprises.
    """
    return "fork" if sys.platform == "linux" and threading.active_count() == 1 else "spawn"


def _handed_to(pool, chunk):
    """The future of a chunk that helpers mark, None when none of them is left."""
    try:
        return pool.submit(_mark_chunk, chunk)
    except (BrokenProcessPool, RuntimeError):
        return None


def _result(course, chunk, future):
    try:
        return future.result()
    except BrokenProcessPool:  # a helper was ended from outside: its work is done here
        return [mark_one(course, item) for item in chunk]


_course = None


def _start_worker(course):
    """Begin a helper with the course or, in a new interpreter, with its folder."""
    global _course
    parent = multiprocessing.parent_process()
    # When the marking is killed, its helpers end too.
    threading.Thread(target=lambda: (wait([parent.sentinel]), os._exit(1)), daemon=True).start()
    gc.disable()  # as in `mark_all`, and this process ends with it
    _course = courses.read(course) if isinstance(course, str) else course


def _mark_chunk(chunk):
    return [mark_one(_course, item) for item in chunk]


def mark_one(course, item):
    """Mark one sheet from (place, bytes, digest, first seen); returns its `FileEntry` and its mark, None without one."""
    place, data, digest, seen = item
    entry = FileEntry(place, NOT_A_SHEET, digest=digest, first_seen=seen)
    try:
        stored = sheet.parse(_as_utf8(data))
    except ValueError as error:
        if not _meant_as_sheet(place, data):
            return entry._replace(reason="it is not an answer sheet"), None
        return entry._replace(status=DAMAGED, reason=shown(str(error), 200)), None
    entry = entry._replace(student=shown(stored["student"]), exercise=shown(stored["exercise"], 60))
    if same_name(stored["course"]) != same_name(course.name):
        return entry._replace(status=WRONG_COURSE, reason=f"it is for the course {shown(stored['course'], 80)!r}"), None
    exercise = course.exercise(stored["exercise"])
    if exercise is None:
        return entry._replace(status=WRONG_COURSE, reason="this exercise is not set in the course"), None
    party = course.party(stored["student"])
    if party is None:
        return entry._replace(status=UNKNOWN, reason="this id is not in the roster"), None
    if exercise not in course.set_for(party):
        return entry._replace(status=WRONG_COURSE, reason=f"this exercise is not set for {shown(party.id)}"), None
    try:
        mark = marks.mark_sheet(course, party, stored, seen)
    except ValueError as error:
        return entry._replace(status=NOT_MARKED, reason=shown(f"the exercise is at fault: {error}", 300)), None
    return entry._replace(status=MARKED, student=party.id), mark


def _as_utf8(data):
    # An editor may have saved the sheet in UTF-16, which begins with a mark of its own.
    for mark, encoding in (
        (b"\xff\xfe\0\0", "utf-32"),
        (b"\0\0\xfe\xff", "utf-32"),
        (b"\xff\xfe", "utf-16"),
        (b"\xfe\xff", "utf-16"),
    ):
        if data.startswith(mark):
            return data.decode(encoding).encode("utf-8", "surrogatepass")
    return data


def _meant_as_sheet(place, data):
    return place.casefold().endswith((".answers.json", sheet.ENDING)) or sheet.FORMAT.encode() in data[:2000]


def _choose(course, sheets):
    """Which copy of each party's exercise counts, by the course's rule; the others are superseded."""
    by_party = {}
    for entry, mark in sheets:
        by_party.setdefault((mark.party, mark.exercise), []).append((entry, mark))
    rule, entries, chosen = course.file.copies, [], {}
    for key, copies in by_party.items():
        # The digest last, so that the choice is the same in every run.
        in_time = sorted(copies, key=lambda c: (c[1].last_at, c[1].tries, c[0].digest))
        if rule == BEST:
            entry, mark = max(in_time, key=lambda c: c[1].points)
        else:
            entry, mark = in_time[0 if rule == FIRST else -1]
        of = {"best": "better", "first": "earlier"}.get(rule, "later")
        entries.append(entry)
        entries += [
            e._replace(status=SUPERSEDED, reason=f"a copy counts that is {of}: {entry.place}")
            for e, _ in copies
            if e is not entry
        ]
        elsewhere = {m for e, other in copies if e is not entry for m in other.moments} - set(mark.moments)
        if elsewhere and rule != FIRST:
            mark = mark._replace(
                remarks=(
                    *mark.remarks,
                    f"another copy holds {len(elsewhere)} tries that the one counted lacks: begun anew?",
                )
            )
        chosen[key] = mark
    return entries, chosen


def _places_of(course):
    """File name of a sheet, as the form makes it, to (party's id, exercise)."""
    return {sheet.file_name(e.name, p.id): (p.id, e.name) for p in course.parties for e in course.exercises}


def _misnamed(files, places):
    for f in files:
        named = places.get(f.place.replace("\\", "/").split(" › ")[-1].split("/")[-1].casefold())
        if named and f.status in (MARKED, SUPERSEDED) and f.student and same_name(named[0]) != same_name(f.student):
            yield f.place, named[0], f.student
