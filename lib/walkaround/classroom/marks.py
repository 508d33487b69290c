"""Marking one answer sheet: its variant is made anew, every try is marked anew, and what can't be believed is passed over."""

import math
from datetime import datetime, timedelta
from itertools import pairwise
from typing import NamedTuple

from walkaround.exercises import typed
from walkaround.exercises.marking import score
from walkaround.exercises.questions import NUMBER

EARLIEST = datetime.fromisoformat("2000-01-01T00:00:00+00:00").timestamp()
CLOCK_SLACK_S = (
    86_400.0  # a sheet can't be from later than when it was first seen, but time zones get mixed up
)
PAUSE_S = 1200.0  # a longer gap between two answers is taken for a pause
DAY_S = 86_400.0


class QuestionMark(NamedTuple):
    """What became of one question; times are seconds since 1970 or None, `given` the last answer as it was given.

    `earned` is before, `counted` after what lateness takes off. `right_number`, `unit` and `tolerance` are there for numbers alone.
    """

    key: str
    of: int
    earned: int
    counted: float
    right: bool
    tries: int
    slips: tuple
    hint: bool
    worked: bool
    given: object
    minutes: float
    days_late: int
    right_number: float | None = None
    unit: str = ""
    tolerance: float = 0.0

    @property
    def given_number(self):
        """The last answer as a number, None when it is none."""
        return _number(self.given, self.unit)


class SheetMark(NamedTuple):
    """What one sheet is worth: `points` of `of`, as the course counts; `last_at` the time of the last answer that is believed."""

    party: str
    exercise: str
    points: float
    of: float
    questions: tuple
    last_at: float
    tries: int
    minutes: float
    remarks: tuple
    moments: tuple  # (question's key, time, answer) of every try, to find two sheets with the same ones


def mark_sheet(course, party, stored, first_seen):
    """Mark what `sheet.parse` read for a party; `first_seen` is when these bytes were first collected (seconds).

    Raises ValueError when the course can't make the variant. Never raises for what the sheet says.
    """
    exercise = course.exercise(stored["exercise"])
    paper = course.paper(exercise.name, party.id)
    due = course.due(exercise)
    due_at = due.timestamp() if due else math.inf
    earliest = course.file.starts.timestamp() if course.file.starts else EARLIEST
    latest = first_seen + CLOCK_SLACK_S
    late, rules = course.file.late, course.rules
    closes_at = due_at + late.accepted_days * DAY_S
    remarks, marks, tries_by_key, after_close, misfit = [], [], {}, 0, 0
    for q in paper.questions:
        kept, seen = [], set()
        for entry in stored["answers"].get(q.key, {}).get("tries", ()):
            same = (entry["at"], str(entry["given"]))
            if same in seen:
                continue  # one answer at one moment is one answer
            seen.add(same)
            at = _time(entry["at"], earliest, latest)
            misfit += at is None
            if at is not None and at > closes_at:
                after_close += 1
                continue
            kept.append((at, entry))
        tries_by_key[q.key] = kept
    minutes = _minutes(tries_by_key)
    for q in paper.questions:
        record = stored["answers"].get(q.key, {})
        kept = tries_by_key[q.key]
        s = score(q, {"tries": [e for _, e in kept], "worked_after": record.get("worked_after")}, rules)
        days_late, counted = 0, float(s.earned)
        if s.earned and kept[s.right_at][0] is not None and kept[s.right_at][0] > due_at:
            days_late = math.ceil((kept[s.right_at][0] - due_at) / DAY_S)
            counted *= max(0.0, 1 - days_late * late.loses_percent_per_day / 100)
        last = kept[s.right_at if s.right_at is not None else -1][1]["given"] if kept else None
        marks.append(
            QuestionMark(
                q.key, q.points, s.earned, counted, s.right, s.tries, s.slips, record.get("hint") is True,
                record.get("worked_after") is not None, last, minutes.get(q.key, 0.0), days_late,
                *((float(q.answer), q.unit, q.tolerance) if q.kind == NUMBER else ()),
            )
        )  # fmt: skip
    known = {q.key for q in paper.questions}
    others = [k for k in stored["answers"] if k not in known]
    if others:
        remarks.append(f"{len(others)} answered questions are not in this exercise and are passed over")
    if misfit:
        remarks.append(f"{misfit} answers have a time that does not fit; they count, and as on time")
    if after_close:
        remarks.append(f"{after_close} answers came when none were accepted any more; they do not count")
    days = max((m.days_late for m in marks), default=0)
    if days:
        remarks.append(f"answers up to {days} {'day' if days == 1 else 'days'} late")
    of = exercise.points or float(paper.points)
    points = sum(m.counted for m in marks) / paper.points * of
    times = [at for kept in tries_by_key.values() for at, _ in kept if at is not None]
    moments = tuple(
        (k, e["at"], str(e["given"])) for k, kept in tries_by_key.items() for _, e in kept if e["at"]
    )
    return SheetMark(
        party.id, exercise.name, points, of, tuple(marks), max(times, default=0.0),
        sum(m.tries for m in marks), sum(minutes.values()), tuple(remarks), moments,
    )  # fmt: skip


def _time(text, earliest, latest):
    try:
        moment = datetime.fromisoformat(text)
        if moment.utcoffset() is None:
            return None
        at = moment.timestamp()
    except (ValueError, OverflowError):
        return None
    return at if earliest <= at <= latest else None


def _minutes(tries_by_key):
    """Minutes spent on each question: the gaps before its answers, pauses left out; the first answer of all has no gap."""
    events = sorted((at, key) for key, kept in tries_by_key.items() for at, _ in kept if at is not None)
    spent = {}
    for (before, _), (at, key) in pairwise(events):
        if at - before <= PAUSE_S:
            spent[key] = spent.get(key, 0.0) + (at - before) / 60
    return spent


def _number(given, unit):
    if not isinstance(given, str):
        return None
    try:
        value = typed.number(given, unit)
    except (ValueError, OverflowError):
        return None
    return value if math.isfinite(value) else None


def when(seconds):
    """Write a time as people read it, in UTC.

    >>> when(0.0)
    '1970-01-01 00:00 UTC'
    """
    moment = datetime.fromisoformat("1970-01-01T00:00:00+00:00") + timedelta(seconds=seconds)
    return f"{moment:%Y-%m-%d %H:%M} UTC"
