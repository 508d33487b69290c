"""A page for each student: what was asked and answered, what came of it, and worked answers once they may be seen."""

from datetime import UTC, datetime

from walkaround.assessment.files import sync_folder
from walkaround.assessment.judging import mark
from walkaround.assessment.questions import ORDER
from walkaround.classroom import gradebook
from walkaround.classroom.course_file import KEPT
from walkaround.classroom.pages import page, part
from walkaround.classroom.texts import file_stem, number_of, shown
from walkaround.live.status import NOTE, OK, STOP

FOLDER = "feedback"


def write(course, rows, now=None, progress=lambda done, total: None):
    """Write every student's page into the results folder; what is the same is left alone.

    Pages of students who have left the course are removed. Returns how many were written.
    """
    folder = course.results / FOLDER
    gradebook.tidy(folder)
    written, pages = 0, [folder / f"{file_stem(row.student.id)}.html" for row in rows]
    for i, (path, row) in enumerate(zip(pages, rows, strict=True), 1):
        written += gradebook.write_if_new(path, student_page(course, row, now), private=True, sync=False)
        progress(i, len(rows))
    for left in {*folder.glob("*.html")} - {*pages}:
        left.unlink(missing_ok=True)
    sync_folder(folder)
    return written


def student_page(course, row, now=None):
    """Return one student's page as bytes."""
    values = _values(course, row, now)
    return page(f"{values['who']}: {course.name}", "student.html", **values)


def student_part(course, row, now=None):
    """Return what stands on one student's page, as HTML without the frame."""
    return part("student.html", **_values(course, row, now))


def _values(course, row, now):
    now = now or datetime.now(UTC)
    who = row.student.name if row.student.name == row.student.id else f"{row.student.name} ({row.student.id})"
    standings = [s for s in row.standings if s.status != gradebook.NOT_SET]
    exercises = [_exercise(course, row.party, s, now) for s in standings]
    return {"who": who, "course": course, "row": row, "exercises": exercises}


def _exercise(course, party, standing, now):
    exercise = course.exercise(standing.exercise)
    due = course.due(exercise)
    values = {"title": course.title(standing.exercise), "standing": standing}
    if standing.mark is None:
        undecided = standing.status == gradebook.UNDECIDED
        unsigned = "What came under your id was not signed by your folder, and does not count. Ask your instructor."
        nothing = unsigned if standing.unsigned else "Nothing has been handed in."
        missing = "Several sheets contradict each other: your instructor decides which one counts."
        missing = "" if standing.override else missing if undecided else nothing
        if due and now <= due:
            missing += f" It is due on {due:%d %B %Y at %H:%M} ({due.tzname()})."
        return values | {"missing": missing}
    paper = course.paper(standing.exercise, party.id)
    remarks = [f"{remark[:1].upper()}{remark[1:]}." for remark in standing.mark.remarks]
    if paper.points != standing.of:
        remarks.append(f"The questions have {paper.points} points together; the exercise counts {standing.of:g}.")
    marked = zip(paper.questions, standing.mark.questions, strict=True)
    return values | {
        "paper": paper,
        "remarks": remarks,
        "worked_may_be_seen": (course.file.worked_answers_before_due and exercise.kind != KEPT)
        or due is None
        or now > due,
        "questions": [_question(question, m, course.rules) for question, m in marked],
    }


def _question(question, m, rules):
    points = f"{m.counted:g} of {question.points} {'point' if question.points == 1 else 'points'}"
    values = {"asked": question, "points": points}
    if m.tries == 0:
        return values | {"says": "Not answered.", "verdict": NOTE}
    if m.fault:
        return values | {"says": "This question could not be marked: ask your instructor.", "verdict": NOTE}
    result = mark(question, m.given, rules)
    after = f" (answer {m.tries} of those that counted)" if m.tries > 1 else ""
    says = f"Your answer{after}: {_as_given(question, m.given)}. {result.says}"
    if m.days_late:
        says += f" It came {number_of(m.days_late, 'day')} late."
    if m.right and not m.earned:
        says += " It was right after the tries that earn points, or after the worked answer was seen."
    return values | {"says": says, "verdict": {True: OK, False: STOP, None: NOTE}[result.right]}


def _as_given(question, given):
    texts = dict(question.options)
    if isinstance(given, list):
        return shown((" → " if question.kind == ORDER else "; ").join(texts.get(str(k), str(k)) for k in given), 400)
    return shown(texts.get(given, str(given)), 200)
