"""A page for each student: what was asked, what they answered, what came of it, and the worked answers once they may be seen."""

from datetime import UTC, datetime

from walkaround.assessment.judging import mark
from walkaround.classroom import gradebook
from walkaround.classroom.pages import page, text
from walkaround.classroom.texts import file_stem, shown
from walkaround.exercises import markup
from walkaround.live.status import NOTE, OK, STOP, status_html

FOLDER = "feedback"
CAUTION = (
    "A training aid. Before a real flight the aircraft's own handbook, the local rules and licensed people come first."
)


def write(course, rows, now=None, progress=lambda done, total: None):
    """Write every student's page into the results folder; what is the same is left alone. Returns how many were written."""
    folder = course.results / FOLDER
    gradebook.tidy(folder)
    written = 0
    for i, row in enumerate(rows, 1):
        written += gradebook.write_if_new(folder / f"{file_stem(row.student.id)}.html", student_page(course, row, now))
        progress(i, len(rows))
    return written


def student_page(course, row, now=None):
    """Return one student's page as bytes."""
    now = now or datetime.now(UTC)
    who = row.student.name if row.student.name == row.student.id else f"{row.student.name} ({row.student.id})"
    parts = [f"<h1>{text(who)}</h1><p>{text(course.name)}: <b>{row.points:g} of {row.of:g} points</b></p>"]
    for standing in row.standings:
        if standing.status != gradebook.NOT_SET:
            parts.append(_exercise(course, row, standing, now))
    parts.append(
        f'<p class="small">{CAUTION} Aircraft, people and numbers of the exercises are invented unless they are your own school\'s.</p>'
    )
    return page(f"{who}: {course.name}", "\n".join(parts))


def _exercise(course, row, standing, now):
    exercise = course.exercise(standing.exercise)
    due = course.due(exercise)
    head = f"<h2>{text(course.title(exercise.name))}: {standing.points:g} of {standing.of:g} points</h2>"
    if standing.override:
        head += f'<p class="note">Mark set by your instructor: {text(standing.override.reason)}.</p>'
    if standing.mark is None:
        when = f" It is due on {due:%d %B %Y at %H:%M} ({due.tzname()})." if due and now <= due else ""
        return f"{head}<p>{'Nothing has been handed in.' if not standing.override else ''}{text(when)}</p>"
    remarks = "".join(f"<p class='small'>{text(r[:1].upper() + r[1:])}.</p>" for r in standing.mark.remarks)
    worked_may_be_seen = course.file.worked_answers_before_due or due is None or now > due
    paper = course.paper(exercise.name, row.party.id)
    if paper.points != standing.of:
        remarks += f"<p class='small'>The questions have {paper.points} points together; the exercise counts {standing.of:g}.</p>"
    scene = markup.paragraph(paper.scene) + markup.table(paper.scene_table)
    sections = [
        _question(i, q, m, () if q.table == paper.scene_table else q.table, course.rules, worked_may_be_seen)
        for i, (q, m) in enumerate(zip(paper.questions, standing.mark.questions, strict=True), 1)
    ]
    return head + remarks + scene + "".join(sections)


def _question(number, q, m, table, rules, worked_may_be_seen):
    points = f"{m.counted:g} of {q.points} {'point' if q.points == 1 else 'points'}"
    out = f"<section><h3>{number}. {text(q.title)}: {points}</h3>{markup.paragraph(q.text)}{markup.table(table)}"
    if m.tries == 0:
        return f"{out}{status_html('Not answered.', NOTE)}{markup.worked(q) if worked_may_be_seen else ''}</section>"
    result = mark(q, m.given, rules)
    after = f" (answer {m.tries} of those that counted)" if m.tries > 1 else ""
    says = f"Your answer{after}: {_as_given(q, m.given)}. {result.says}"
    if m.days_late:
        says += f" It came {m.days_late} {'day' if m.days_late == 1 else 'days'} late."
    if m.right and not m.earned:
        says += " It was right after the tries that earn points, or after the worked answer was seen."
    out += status_html(says, {True: OK, False: STOP}.get(result.right, NOTE))
    return out + (markup.worked(q) if worked_may_be_seen else "") + "</section>"


def _as_given(q, given):
    texts = dict(q.options)
    if isinstance(given, list):
        return shown((" → " if q.kind == "order" else "; ").join(texts.get(k, k) for k in given), 400)
    return shown(texts.get(given, str(given)), 200)
