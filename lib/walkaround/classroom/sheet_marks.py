"""Marking one answer sheet: its variant is made and every try is marked anew; what can't be believed does not count."""

import math
from contextlib import suppress
from datetime import datetime
from functools import cache, partial
from hashlib import blake2b
from itertools import pairwise
from typing import NamedTuple

from walkaround import measures
from walkaround.assessment import typed
from walkaround.assessment.answer_sheet import Record, Try
from walkaround.assessment.judging import Score, score
from walkaround.assessment.kept_paper import by_key
from walkaround.assessment.questions import NUMBER
from walkaround.classroom.course_file import KEPT, ONE_FOR_ALL
from walkaround.classroom.texts import number_of, shown

EARLIEST = datetime.fromisoformat("2000-01-01T00:00:00+00:00").timestamp()
CLOCK_SLACK_S = 86_400.0  # a sheet can't be younger than when it was first collected, but time zones get mixed up
PAUSE_S = 1200.0  # a longer gap between two answers is taken for a pause
DAY_S = 86_400.0


class QuestionMark(NamedTuple):
    """What became of one question: points `earned`, and `counted` after what lateness takes off.

    It is `closed` when no further answer can earn points. `given` is the right answer, or else the last, as it was
    given. Only a question that asks for a number has a `right_number`, a `unit` and a `tolerance`. `fault` says why the
    question could not be marked, if so.
    """

    key: str
    of: int
    earned: int
    counted: float
    right: bool
    tries: int
    slips: tuple[str, ...]
    hint: bool
    worked: bool
    closed: bool
    given: str | list[str] | None
    minutes: float
    days_late: int
    right_number: float | None = None
    unit: str = ""
    tolerance: float = 0.0
    fault: str = ""

    @property
    def given_number(self):
        """The last answer as a number, None when it is none."""
        return _number(self.given, self.unit)


class SheetMark(NamedTuple):
    """What one sheet is worth: `points` of `of`, as the course counts.

    `last_at` is the time of the last answer whose time is believed (seconds since 1970); `moments` has a hash of
    question, time and answer for every try, to find two sheets with the same ones. `trail` has for each question the
    hashes of all its tries, and after how many the worked answer was seen; it is empty where sheets are signed.
    """

    party: str
    exercise: str
    points: float
    of: float
    questions: tuple[QuestionMark, ...]
    last_at: float
    tries: int
    minutes: float
    remarks: tuple[str, ...]
    moments: tuple[bytes, ...]
    trail: dict[str, tuple[tuple[bytes, ...], int | None]]

    def length(self):
        """How much the sheet holds: tries, and worked answers that were seen."""
        return sum(len(t) for t, _ in self.trail.values()), sum(seen is not None for _, seen in self.trail.values())

    def goes_on_from(self, other):
        """Whether the sheet holds all that another holds, and at most further answers after it."""
        for key, (theirs, seen) in other.trail.items():
            ours, seen_here = self.trail.get(key, ((), None))
            later = seen is None and (seen_here is None or seen_here >= len(theirs))
            if ours[: len(theirs)] != theirs or not (seen_here == seen or later):
                return False
        return True


class Clock(NamedTuple):
    """Times that matter to a sheet, in seconds since 1970: when answers are believed, and the exercise's dates.

    `collected` is when the sheet was first collected, `absent` when it was found not to be there yet, 0 if never.
    Answers whose hash is in `known` came with an earlier sheet, which was absent when `known` says.
    """

    earliest: float
    latest: float
    due: float
    closes: float
    collected: float
    absent: float
    known: dict[bytes, float]


class _Tries(NamedTuple):
    """The tries of one question that count, each with its time or None, and when it counts as answered.

    Beside them how many are misfits, delayed or too late.
    """

    kept: tuple[tuple[float | None, float, Try], ...] = ()
    misfit: int = 0
    delayed: int = 0
    too_late: int = 0


def mark_sheet(course, party, stored, first_seen, absent=0.0, known=None):
    """Mark a sheet that `answer_sheet.parse` has read, for a party; returns a `SheetMark`.

    `first_seen` is when the sheet was first collected (seconds since 1970), `absent` when others were collected last
    and it was not there yet; `known` has, by the hashes of answers that came with earlier sheets, when those were
    absent. Raises ValueError when the course can't make the variant, and never for what the sheet says.
    """
    exercise, answers = course.exercise(stored["exercise"]), stored["answers"]
    paper = course.paper(exercise.name, party.id)
    due, starts = course.due(exercise), course.file.starts
    due_at = due.timestamp() if due else math.inf
    clock = Clock(
        earliest=starts.timestamp() if starts else EARLIEST,
        latest=first_seen + CLOCK_SLACK_S,
        due=due_at,
        closes=due_at + course.file.late.accepted_days * DAY_S,
        collected=first_seen,
        absent=absent if course.file.late.by_collection else 0.0,
        known=known or {},
    )
    tries = {q.key: _tries(q.key, answers[q.key], clock) for q in paper.questions if q.key in answers}
    kept = [(key, at, entry) for key, t in tries.items() for at, _, entry in t.kept]
    minutes = _minutes(tries)
    if exercise.kind == KEPT:
        tries = {q.key: _last(q, tries[q.key]) for q in paper.questions if q.key in tries}
    papers = cache(lambda units: course.paper(exercise.name, party.id, units))  # made only for an answer that needs one

    def in_other_units(q):
        with suppress(Exception):  # a mistake in other units costs nothing
            return next(other for units in measures.SYSTEMS if (other := papers(units).question(q.key)).unit != q.unit)
        return q

    marks = tuple(
        _question_mark(
            course, q, answers.get(q.key), tries.get(q.key, _Tries()).kept, minutes, clock, partial(in_other_units, q)
        )
        for q in paper.questions
    )
    of = exercise.points or float(paper.points)
    return SheetMark(
        party.id,
        exercise.name,
        points=sum(m.counted for m in marks) / paper.points * of,
        of=of,
        questions=marks,
        last_at=max((at for _, at, _ in kept if at is not None), default=0.0),
        tries=sum(m.tries for m in marks),
        minutes=sum(minutes.values()),
        remarks=tuple(_remarks(marks, len(answers.keys() - tries.keys()), tries.values())),
        moments=tuple(_hash(key, entry) for key, _, entry in kept if entry["at"]),
        trail={k: (tuple(_hash(k, t) for t in r["tries"]), r["worked_after"]) for k, r in answers.items()}
        if course.file.hand_out == ONE_FOR_ALL
        else {},
    )


def _last(q, tries):
    """Of answers that were kept without a mark only the last counts."""
    kept = [(*times, entry | {"given": by_key(q, entry["given"])}) for *times, entry in tries.kept[-1:]]
    return tries._replace(kept=tuple(kept))


def _tries(key, record, clock):
    kept, seen, misfit, delayed, too_late = [], set(), 0, 0, 0
    for entry in record["tries"]:
        same = (entry["at"], str(entry["given"]))
        if same in seen:
            continue  # one answer at one moment is one answer
        seen.add(same)
        at = _time(entry["at"], clock)
        misfit += at is None
        counts_at = clock.collected if at is None else at
        absent = clock.absent and clock.known.get(_hash(key, entry), clock.absent)
        if absent > max(clock.due, counts_at):
            delayed, counts_at = delayed + 1, absent
        if counts_at > clock.closes:
            too_late += 1
        else:
            kept.append((at, counts_at, entry))
    return _Tries(tuple(kept), misfit, delayed, too_late)


def _question_mark(course, q, record: Record | None, kept, minutes, clock, in_other_units):
    worked_after = record["worked_after"] if record else None
    fault = ""
    try:
        tries = {"tries": [entry for *_, entry in kept], "worked_after": worked_after}
        s = score(q, tries, course.rules, in_other_units)
    except Exception as error:  # a mistake in a question costs this question, never the whole marking
        s, fault = Score(0, False, len(kept), (), True), f"{type(error).__name__}: {error}"
    days_late, counted = 0, float(s.earned)
    at = kept[s.right_at][1] if s.earned else 0.0
    if at > clock.due:
        days_late = math.ceil((at - clock.due) / DAY_S)
        counted *= max(0.0, 1 - days_late * course.file.late.loses_percent_per_day / 100)
    is_number = q.kind == NUMBER
    return QuestionMark(
        q.key,
        q.points,
        s.earned,
        counted,
        s.right,
        s.tries,
        s.slips,
        hint=bool(record and record["hint"]),
        worked=worked_after is not None,
        closed=s.closed,
        given=kept[-1 if s.right_at is None else s.right_at][2]["given"] if kept else None,
        minutes=minutes.get(q.key, 0.0),
        days_late=days_late,
        right_number=float(q.answer) if is_number else None,
        unit=q.unit if is_number else "",
        tolerance=q.tolerance if is_number else 0.0,
        fault=fault,
    )


def _remarks(marks, others, tries):
    _, misfit, delayed, too_late = (sum(n) for n in zip((0,) * 4, *((0, *t[1:]) for t in tries), strict=True))
    days = max((m.days_late for m in marks), default=0)
    for m in marks:
        if m.fault:
            yield f"the question {m.key!r} could not be marked and counts nothing ({shown(m.fault, 200)})"
    if others:
        yield f"answers to {number_of(others, 'question')} that this exercise does not have are left out"
    if misfit:
        yield f"{number_of(misfit, 'answer')} with a time that can't be right: counted as given when first collected"
    if delayed:
        yield f"{number_of(delayed, 'answer')} not there yet at a marking after the due date: counted as given then"
    if too_late:
        yield f"{number_of(too_late, 'answer')} after the last day on which any were accepted: not counted"
    if days:
        yield f"answers up to {number_of(days, 'day')} late"


def _hash(key, entry):
    text = f"{key}\0{entry['at']}\0{entry['given']}"
    return blake2b(text.encode("utf-8", "surrogatepass"), digest_size=8).digest()


def _time(text, clock):
    try:
        moment = datetime.fromisoformat(text)
        if moment.utcoffset() is None:
            return None
        at = moment.timestamp()
    except (ValueError, OverflowError):
        return None
    return at if clock.earliest <= at <= clock.latest else None


def _minutes(tries):
    """Minutes spent on each question: the gaps before its answers, without pauses; none before the first of all."""
    events = sorted((at, key) for key, t in tries.items() for at, *_ in t.kept if at is not None)
    spent: dict[str, float] = {}
    for (before, _), (at, key) in pairwise(events):
        if at - before <= PAUSE_S:
            spent[key] = spent.get(key, 0.0) + (at - before) / 60
    return spent


def _number(given, unit):
    if not isinstance(given, str):
        return None
    try:
        value = typed.number(given, unit, converts=True)
    except (ValueError, OverflowError):
        return None
    return value if math.isfinite(value) else None
