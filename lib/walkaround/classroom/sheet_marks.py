"""Marking one answer sheet: its variant is made anew, every try is marked anew, and what can't be believed is passed over."""

import math
from datetime import datetime, timedelta
from hashlib import blake2b
from itertools import pairwise
from typing import NamedTuple

from walkaround.assessment import typed
from walkaround.assessment.judging import score
from walkaround.assessment.questions import NUMBER

EARLIEST = datetime.fromisoformat("2000-01-01T00:00:00+00:00").timestamp()
CLOCK_SLACK_S = 86_400.0  # a sheet can't be from later than when it was first seen, but time zones get mixed up
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
    moments: tuple  # a hash of question, time and answer for every try, to find two sheets with the same ones


class Clock(NamedTuple):
    """Times that matter to a sheet, in seconds: which are believed, when it is due, when nothing is accepted any more."""

    earliest: float
    latest: float
    due: float
    closes: float


def mark_sheet(course, party, stored, first_seen):
    """Mark what `sheet.parse` read for a party; `first_seen` is when these bytes were first collected (seconds).

    Raises ValueError when the course can't make the variant. Never raises for what the sheet says.
    """
    exercise, answers = course.exercise(stored["exercise"]), stored["answers"]
    paper = course.paper(exercise.name, party.id)
    due, starts = course.due(exercise), course.file.starts
    due_at = due.timestamp() if due else math.inf
    clock = Clock(
        starts.timestamp() if starts else EARLIEST, first_seen + CLOCK_SLACK_S,
        due_at, due_at + course.file.late.accepted_days * DAY_S,
    )  # fmt: skip
    tries = {q.key: _tries(answers[q.key], clock) for q in paper.questions if q.key in answers}
    minutes, rules, per_day = _minutes(tries), course.rules, course.file.late.loses_percent_per_day / 100
    marks = tuple(
        _question_mark(q, answers.get(q.key, {}), tries.get(q.key, ((), 0, 0))[0], minutes, clock, per_day, rules)
        for q in paper.questions
    )
    of = exercise.points or float(paper.points)
    kept = [(key, at, entry) for key, (entries, _, _) in tries.items() for at, entry in entries]
    return SheetMark(
        party.id, exercise.name, sum(m.counted for m in marks) / paper.points * of, of, marks,
        max((at for _, at, _ in kept if at is not None), default=0.0), sum(m.tries for m in marks), sum(minutes.values()),
        tuple(_remarks(marks, len(answers.keys() - tries.keys()), tries.values())),
        tuple(_moment(key, entry) for key, _, entry in kept if entry["at"]),
    )  # fmt: skip


def _tries(record, clock):
    """Tries of one question as (time or None, entry), how many had a time that does not fit, how many came too late."""
    kept, seen, misfit, too_late = [], set(), 0, 0
    for entry in record["tries"]:
        same = (entry["at"], str(entry["given"]))
        if same in seen:
            continue  # one answer at one moment is one answer
        seen.add(same)
        at = _time(entry["at"], clock.earliest, clock.latest)
        misfit += at is None
        if at is not None and at > clock.closes:
            too_late += 1
        else:
            kept.append((at, entry))
    return kept, misfit, too_late


def _question_mark(q, record, kept, minutes, clock, per_day, rules):
    worked_after = record.get("worked_after")
    s = score(q, {"tries": [entry for _, entry in kept], "worked_after": worked_after}, rules)
    days_late, counted = 0, float(s.earned)
    at = kept[s.right_at][0] if s.earned else None
    if at is not None and at > clock.due:
        days_late = math.ceil((at - clock.due) / DAY_S)
        counted *= max(0.0, 1 - days_late * per_day)
    last = kept[-1 if s.right_at is None else s.right_at][1]["given"] if kept else None
    number = (float(q.answer), q.unit, q.tolerance) if q.kind == NUMBER else ()
    return QuestionMark(
        q.key, q.points, s.earned, counted, s.right, s.tries, s.slips, record.get("hint") is True,
        worked_after is not None, last, minutes.get(q.key, 0.0), days_late, *number,
    )  # fmt: skip


def _remarks(marks, others, tries):
    misfit, too_late = sum(m for _, m, _ in tries), sum(t for _, _, t in tries)
    days = max((m.days_late for m in marks), default=0)
    if others:
        yield f"{others} answered questions are not in this exercise and are passed over"
    if misfit:
        yield f"{misfit} answers have a time that does not fit; they count, and as on time"
    if too_late:
        yield f"{too_late} answers came when none were accepted any more; they do not count"
    if days:
        yield f"answers up to {days} {'day' if days == 1 else 'days'} late"


def _moment(key, entry):
    text = f"{key}\0{entry['at']}\0{entry['given']}"
    return blake2b(text.encode("utf-8", "surrogatepass"), digest_size=8).digest()


def _time(text, earliest, latest):
    try:
        moment = datetime.fromisoformat(text)
        if moment.utcoffset() is None:
            return None
        at = moment.timestamp()
    except (ValueError, OverflowError):
        return None
    return at if earliest <= at <= latest else None


def _minutes(tries):
    """Minutes spent on each question: the gaps before its answers, pauses left out; the first answer of all has no gap."""
    events = sorted((at, key) for key, (kept, _, _) in tries.items() for at, _ in kept if at is not None)
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
