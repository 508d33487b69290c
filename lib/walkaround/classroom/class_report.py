"""The class report: one page on how the class did, which questions and slips need another lesson, and whom to ask."""

from datetime import UTC, datetime
from itertools import groupby

from walkaround.classroom import analysis, in_class, likeness, marks_figure
from walkaround.classroom.gradebook import write_if_new
from walkaround.classroom.mark_collected import MARKED, STATUSES
from walkaround.classroom.pages import page, part
from walkaround.classroom.roster import by_group_and_name
from walkaround.classroom.texts import sort_key
from walkaround.live.colours import ORANGE

FILE = "class-report.html"


def write(course, outcome, rows, notices=()):
    """Write the report into the results folder unless it holds just that already; returns its path."""
    path = course.results / FILE
    write_if_new(path, report_page(course, outcome, rows, notices), private=True)
    return path


def report_page(course, outcome, rows, notices=()):
    """Return the report as bytes."""
    exercises = analysis.analyse(course, rows)
    return page(
        f"Class report: {course.name}",
        "class_report.html",
        course=course,
        summary=summary(course, outcome, rows),
        percents=[r.percent for r in rows],
        exercises=[(e, in_class.showings(course, e)) for e in exercises],
        notices=notices,
        **_exercise_values(),
        **_alike_values(course, outcome, rows, exercises),
        **_files_values(course, outcome),
    )


def exercise_part(exercise):
    """Return how the class did in an `analysis.Exercise`, as HTML, without what to show in class."""
    return part("exercise.html", e=exercise, shows=(), **_exercise_values())


def alike_part(course, outcome, rows, exercises):
    """Return the pairs of sheets to ask about, side by side, as HTML."""
    return part("alike.html", **_alike_values(course, outcome, rows, exercises))


def files_part(course, outcome):
    """Return what became of the files, as HTML: how many, and each that was not marked."""
    return part("files.html", **_files_values(course, outcome))


def _exercise_values():
    return {"grouped": _grouped, "histogram": marks_figure.histogram, "bar": ORANGE, "caution": caution}


def _alike_values(course, outcome, rows, exercises):
    titles = {(e.name, i.key): i.title for e in exercises for i in e.items}
    named = {e.name: e.title for e in exercises}
    return {
        "question": likeness.QUESTION,
        "names": {r.party.id: r.party.name for r in rows},
        "alike": [
            (a, named.get(a.exercise, ""), [(titles.get((a.exercise, key), key), *rest) for key, *rest in a.lines])
            for a in likeness.find(course, outcome)
        ],
    }


def by_student(course, file):
    """Return what sorts files by their student's group and name; those of nobody come last."""
    party = course.party(file.student)
    return (0, by_group_and_name(party.members[0])) if party else (1, sort_key(file.place))


def _files_values(course, outcome):
    files = sorted((f for f in outcome.files if f.status != MARKED), key=lambda f: by_student(course, f))
    odd = [(f.place, f.status, f.student, f.reason) for f in files]
    return {"counted": ", ".join(f"{outcome.count(s)} {s}" for s in STATUSES if outcome.count(s)), "odd": odd}


def _grouped(parties):
    """Parties in their order by group, as (heading, parties); whoever hands in as a group needs none."""
    for _, some in groupby(parties, lambda p: sort_key(p.group)[0]):
        together = list(some)
        first = together[0]
        yield (first.group if first.group != first.name else ""), together


def summary(course, outcome, rows):
    """Say in one or two sentences where the class stands."""
    handed_in = sum(any(s.mark or s.override for s in r.standings) for r in rows)
    last = max((m.last_at for m in outcome.marks.values()), default=0.0)
    mean = sum(r.percent for r in rows) / len(rows) if rows else 0.0
    words = (
        f"{handed_in} of {len(rows)} students have handed in something; the whole class has {mean:.0f} % of full marks "
        "on average."
    )
    return words + (f" The last answer is from {_when(course, last)}." if last else "")


def _when(course, seconds):
    """Write a time as the course's dates are written, in their time zone; in this computer's without any."""
    dates = (*(course.due(e) for e in course.exercises), course.file.starts)
    moment = datetime.fromtimestamp(seconds, UTC).astimezone(next((date.tzinfo for date in dates if date), None))
    return f"{moment:%d %B %Y, %H:%M} {moment.tzname()}"


def caution(exercise):
    """Say how far the discrimination of its questions can be believed in a class of this size."""
    n = exercise.items[0].sheets
    words = (
        "“Tells strong from weak” is the point-biserial correlation of earning the question's points with the points "
        "of all the others: near 0 it tells nothing; below 0 the stronger students missed it, and the question "
        "deserves a look. "
    )
    if n < analysis.FEW:
        return words + f"With {n} sheets it would say nothing, and is left out below {analysis.FEW}."
    band = exercise.chance_band
    words += f"With {n} sheets, anything between −{band:.2f} and +{band:.2f} may well be chance."
    if n < analysis.SMALL:
        words += f" Below {analysis.SMALL} sheets, take even the rest as a hint to read the answers, no more."
    return words
