"""All results of a marking: gradebook, feedback pages and class report. The command line and the desk call this."""

from dataclasses import dataclass

from walkaround.classroom import class_report, feedback, gradebook, overrides
from walkaround.classroom.course import Course
from walkaround.classroom.lock import locked
from walkaround.classroom.mark_collected import MARKED, STATUSES, SUPERSEDED, Outcome, mark_folders
from walkaround.classroom.texts import shown


@dataclass(frozen=True)
class Results:
    """What was marked and written: what became of every file, a row for every student, notices in words."""

    course: Course
    outcome: Outcome
    rows: tuple[gradebook.Row, ...]
    notices: tuple[str, ...]


def mark_and_write(course, folders=None, now=None, progress=lambda what, done, total: None, workers=None):
    """Mark everything below some folders (without any, the course's own) and write all results; returns `Results`.

    Raises ValueError in words for what the instructor has to mend, OSError when results can't be written.
    """
    with locked(course.folder, "marking"):
        return _mark_and_write(course, folders, now, progress, workers)


def _mark_and_write(course, folders, now, progress, workers):
    if not folders:
        course.collected.mkdir(exist_ok=True)
        folders = [course.collected]
    by_hand, notices = overrides.read(course)
    outcome = mark_folders(
        course, folders, gradebook.first_seen(course), now, lambda done, total: progress("files", done, total), workers
    )
    results = Results(course, outcome, gradebook.rows(course, outcome, by_hand), (*course.roster.notices, *notices))
    feedback.write(course, results.rows, progress=lambda done, total: progress("pages", done, total))
    class_report.write(course, outcome, results.rows, results.notices)
    gradebook.write(course, outcome, results.rows)
    return results


def overview(results):
    """Say what came of a marking, line by line."""
    outcome = results.outcome
    lines = [class_report.summary(results.course, outcome, results.rows)]
    counted = ", ".join(f"{outcome.count(s)} {s}" for s in STATUSES if outcome.count(s))
    lines.append(f"{len(outcome.files)} files: {counted}." if counted else "No file has come back yet.")
    odd = [f for f in outcome.files if f.status not in (MARKED, SUPERSEDED)]
    lines += [f"  {f.place}: {f.status}, {f.reason}" for f in odd[:20]]
    return lines + [shown(notice, 300) for notice in results.notices]
