"""All results of a marking: gradebook, pages and reports. The command line and the desk call this."""

from dataclasses import dataclass

from walkaround.classroom import (
    choices,
    class_report,
    collected_before,
    feedback,
    gradebook,
    handout,
    overrides,
    standing,
)
from walkaround.classroom.collect import NOT_A_SHEET
from walkaround.classroom.course import Course
from walkaround.classroom.lock import locked
from walkaround.classroom.mark_collected import MARKED, STATUSES, SUPERSEDED, TO_CHOOSE, Outcome, mark_folders
from walkaround.classroom.texts import number_of, shown

MOST_LINES = 20  # of files that were not marked, on screen


@dataclass(frozen=True)
class Results:
    """What was marked and written: what became of every file, a row for every student, notices in words."""

    course: Course
    outcome: Outcome
    rows: tuple[gradebook.Row, ...]
    notices: tuple[str, ...]


class WouldVanishError(ValueError):
    """Marking would take marks away that the gradebook has; nothing was written."""


def mark_and_write(course, folders=None, now=None, progress=lambda what, done, total: None, workers=None, forget=False):
    """Mark everything below some folders (without any, the course's own) and write all results; returns `Results`.

    What was collected before still counts unless it is to be forgotten. Raises WouldVanishError when students' marks
    would vanish, ValueError in words for what the instructor has to mend, OSError when results can't be written.
    """
    with locked(course.folder, "marking"):
        return _mark_and_write(course, folders, now, progress, workers, forget)


def _mark_and_write(course, folders, now, progress, workers, forget):
    if renamed := course.renamed():
        raise ValueError(renamed)
    if asked := course.zeros_lost():
        raise ValueError(f"{asked} {handout.NEW_IDS}")
    if not folders:
        course.collected.mkdir(exist_ok=True)
        folders = [course.collected]
    by_hand, notices = overrides.read(course)
    outcome = mark_folders(
        course,
        folders,
        gradebook.first_seen(course),
        now,
        lambda done, total: progress("files", done, total),
        workers,
        {} if forget else collected_before.read(course, gradebook.places(course)),
        collected_before.keeper(course),
        choices.read(course),
    )
    rows = gradebook.rows(course, outcome, by_hand)
    vanish = _vanishing(course, rows)
    if vanish and not forget:
        raise WouldVanishError(
            f"these marks would vanish: {vanish}. Nothing was written. Look for the sheets, and at the course's name "
            "and secret; to let the marks go, mark with --forget, or tick “Forget” at the desk"
        )
    results = Results(course, outcome, rows, (*course.roster.notices, *notices, *_on_marks(outcome, vanish)))
    feedback.write(course, results.rows, progress=lambda done, total: progress("pages", done, total))
    class_report.write(course, outcome, results.rows, results.notices)
    standing.write(course, results.rows)
    gradebook.write(course, outcome, results.rows)
    if forget:
        collected_before.forget(course, {f.digest for f in outcome.files})
    return results


def _vanishing(course, rows):
    """Who has a mark in the gradebook and no longer has one now, in words."""
    kept = (gradebook.MARKED, gradebook.BY_HAND)
    now = {(r.student.id, s.exercise) for r in rows for s in r.standings if s.status not in kept}
    return _listed(sorted(gradebook.marked_before(course) & now))


def _on_marks(outcome, vanish):
    """Notices of marks that went, that rest on sheets no longer there, or that wait for a choice."""
    if vanish:
        yield f"These marks are gone: {vanish}."
    by_status = {
        s: sorted(
            {
                (f.student, f.exercise)
                for f in outcome.files
                if f.status == s and (s == TO_CHOOSE or f.place.endswith(collected_before.NOTE))
            }
        )
        for s in (MARKED, TO_CHOOSE)
    }
    if by_status[MARKED]:
        yield f"Marked from sheets collected before, which are no longer there: {_listed(by_status[MARKED])}."
    if by_status[TO_CHOOSE]:
        yield (
            f"Sheets contradict each other: {_listed(by_status[TO_CHOOSE])}. Choose the one that counts, at the desk "
            "or with: walkaround choose COURSE FILE"
        )


def _listed(marks):
    more = f" and {len(marks) - 10} more" if len(marks) > 10 else ""
    return ", ".join(f"{student} ({exercise})" for student, exercise in marks[:10]) + more


def overview(results):
    """Say what came of a marking, line by line."""
    outcome = results.outcome
    lines = [class_report.summary(results.course, outcome, results.rows)]
    by_status = ", ".join(f"{outcome.count(s)} {s}" for s in STATUSES if outcome.count(s))
    lines.append(
        f"{number_of(len(outcome.files), 'file')}: {by_status}." if by_status else "No file has come back yet."
    )
    odd = _grouped(f for f in outcome.files if f.status not in (MARKED, SUPERSEDED))
    lines += odd[:MOST_LINES]
    if len(odd) > MOST_LINES:
        lines.append(f"  and {number_of(len(odd) - MOST_LINES, 'more line')}; files.csv has all")
    return lines + [shown(notice, 300) for notice in results.notices]


def _grouped(files):
    """A line for each file, and one for all in the same archive or folder that were never meant as sheets."""
    groups: dict[tuple[str, ...], list[str]] = {}
    for f in files:
        inside, _, name = f.place.rpartition(" › " if " › " in f.place else "/")
        groups.setdefault((inside, f.status, f.reason, name * (f.status != NOT_A_SHEET)), []).append(f.place)
    lines = []
    for (inside, status, reason, _), places in groups.items():
        where = places[0] if len(places) == 1 else f"{inside or 'collected'}, {len(places)} files"
        enough = status == NOT_A_SHEET or status in reason  # said once
        lines.append(f"  {where}: {reason if enough else f'{status}, {reason}'}")
    return lines
