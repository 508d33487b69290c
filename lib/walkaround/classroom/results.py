"""One round of marking, from what was collected to gradebook, feedback and report; what the command line and the notebook call."""

from dataclasses import dataclass

from walkaround.classroom import class_report, feedback, gradebook, overrides
from walkaround.classroom import mark_collected as marking
from walkaround.classroom.texts import shown


@dataclass(frozen=True)
class Round:
    """What a round of marking found: the outcome of every file, a `gradebook.Row` for every student, notices in words."""

    course: object
    outcome: marking.Outcome
    rows: tuple
    notices: tuple


def mark(course, folders=None, now=None, progress=lambda what, done, total: None, workers=None):
    """Mark everything below some folders (the course's own without any) and write all results.

    Raises ValueError in words for what the instructor has to mend, OSError when results can't be written.
    """
    if not folders:
        course.collected.mkdir(exist_ok=True)
        folders = [course.collected]
    by_hand, notices = overrides.read(course)
    outcome = marking.mark_all(
        course, folders, gradebook.first_seen(course), now, lambda done, total: progress("files", done, total), workers
    )
    rows = gradebook.rows(course, outcome, by_hand)
    found = Round(course, outcome, rows, (*course.roster.notices, *notices))
    feedback.write(course, rows, progress=lambda done, total: progress("pages", done, total))
    class_report.write(course, outcome, rows, found.notices)
    gradebook.write(course, outcome, rows)
    return found


def overview(found):
    """Say what came of a round, line by line."""
    o = found.outcome
    lines = [class_report.summary(found.course, o, found.rows)]
    counted = ", ".join(f"{o.count(s)} {s}" for s in marking.STATUSES if o.count(s))
    lines.append(f"{len(o.files)} files: {counted}." if counted else "No file has come back yet.")
    lines += [
        f"  {f.place}: {f.status}, {f.reason}" for f in o.files if f.status not in (marking.MARKED, marking.SUPERSEDED)
    ][:20]
    return lines + [shown(n, 300) for n in found.notices]
