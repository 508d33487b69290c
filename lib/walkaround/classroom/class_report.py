"""The class report: one page on how the class did, which questions and which slips need another lesson, and whom to ask."""

from walkaround.classroom import analysis, likeness, marks_figure
from walkaround.classroom.gradebook import write_if_new
from walkaround.classroom.mark_collected import MARKED, STATUSES
from walkaround.classroom.pages import page, table, text
from walkaround.classroom.sheet_marks import when

FILE = "class-report.html"
MOST_SLIPS = 12


def write(course, outcome, rows, notices=()):
    """Write the report into the results folder unless it holds just that already; returns its path."""
    path = course.results / FILE
    write_if_new(path, report_page(course, outcome, rows, notices))
    return path


def report_page(course, outcome, rows, notices=()):
    """Return the report as bytes."""
    exercises, alike = analysis.analyse(course, rows), likeness.find(course, outcome)
    names = {r.party.id: r.party.name for r in rows}
    titles = {(e.name, i.key): i.title for e in exercises for i in e.items}
    parts = [f"<h1>Class report: {text(course.name)}</h1>", f"<p>{text(summary(course, outcome, rows))}</p>"]
    if len(course.exercises) > 1:
        parts.append(marks_figure.histogram([r.percent for r in rows]))
    parts += [exercise_part(e) for e in exercises]
    parts.append(f"<h2>Worth asking about</h2>{alike_part(alike, names, titles)}")
    parts.append(f"<h2>Files</h2>{files_part(outcome)}")
    if notices:
        parts.append("<h2>Notices</h2><ul>" + "".join(f"<li>{text(n)}</li>" for n in notices) + "</ul>")
    return page(f"Class report: {course.name}", "\n".join(parts))


def summary(course, outcome, rows):
    """Say in one or two sentences where the class stands."""
    handed_in = sum(any(s.mark or s.override for s in r.standings) for r in rows)
    last = max((m.last_at for m in outcome.marks.values()), default=0.0)
    mean = sum(r.percent for r in rows) / len(rows) if rows else 0.0
    words = f"{handed_in} of {len(rows)} students have handed in something; the whole class has {mean:.0f} % of full marks on average."
    return words + (f" The last answer is from {when(last)}." if last else "")


def exercise_part(e):
    """Return the part of one exercise as HTML."""
    out = [f"<h2>{text(e.title)}</h2>"]
    if not e.percents:
        return out[0] + "<p>Nobody has handed it in yet.</p>"
    out.append(marks_figure.histogram(e.percents))
    if e.items and e.items[0].sheets:
        out.append(marks_figure.right_shares([i.title for i in e.items], [i.difficulty for i in e.items]))
        out.append(items_table(e))
        out.append(f'<p class="small">{text(caution(e))}</p>')
        out.append("<h3>The commonest slips</h3>" + slips_table(e))
    if e.minutes is not None:
        out.append(
            f"<p>Time from the first answer to the last, pauses above 20 minutes left out: {e.minutes:.0f} minutes in the middle of the class "
            "(median), by the clocks of the students' computers.</p>"
        )
    missing = ", ".join(f"{p.name} ({p.id})" if p.name != p.id else p.id for p in e.missing)
    out.append(f"<p><b>Not handed in ({len(e.missing)}):</b> {text(missing) or 'nobody is missing'}</p>")
    return "\n".join(out)


def items_table(e):
    """Return the table of questions as HTML."""
    rows = [
        (
            i.title, f"{100 * i.difficulty:.0f} %", "–" if i.discrimination is None else f"{i.discrimination:+.2f}",
            f"{i.slips[0][0]} ({i.slips[0][1]})" if i.slips else "–", i.hints, "–" if i.minutes is None else f"{i.minutes:.0f}",
        )
        for i in e.items
    ]  # fmt: skip
    return table(
        ("question", "earned it", "tells strong from weak", "commonest slip", "hints", "minutes"), rows, {1, 2, 4, 5}
    )


def slips_table(e):
    """Return the commonest slips as HTML."""
    if not e.slips:
        return "<p>No answer matched a slip that is known by name.</p>"
    rows = [(slip, title, count) for slip, title, count in e.slips[:MOST_SLIPS]]
    return table(("slip", "question", "students"), rows, {2})


def caution(e):
    """Say how far the discrimination can be believed in a class of this size."""
    n = e.items[0].sheets
    words = (
        "“Tells strong from weak” is the point-biserial correlation of earning the question's points with the points of all the "
        "others: near 0 it tells nothing, below 0 the stronger students missed it, and the question deserves a look. "
    )
    if n < analysis.FEW:
        return words + f"With {n} sheets it would say nothing, and is left out below {analysis.FEW}."
    words += f"With {n} sheets, anything between −{e.chance_band:.2f} and +{e.chance_band:.2f} may well be chance."
    if n < analysis.SMALL:
        words += f" Below {analysis.SMALL} sheets, take even the rest as a hint to read the answers, no more."
    return words


def alike_part(alike, names, titles):
    """Return the pairs to ask about, side by side, as HTML."""
    if not alike:
        return "<p>No two sheets are alike in a way that needs asking.</p>"
    out = [f'<p class="ask">{text(likeness.QUESTION)}</p>']
    for a in alike:
        where = f", {text(a.exercise)}" if a.exercise else ""
        out.append(
            f"<h3>{text(names.get(a.one, a.one))} ({text(a.one)}) and {text(names.get(a.other, a.other))} ({text(a.other)}){where}</h3>"
        )
        out.append(f"<p>{text(a.says)}</p>")
        if a.lines:
            out.append(
                table(
                    ("question", f"{a.one} answered", f"right for {a.one}", f"right for {a.other}"),
                    [(titles.get((a.exercise, key), key), *rest) for key, *rest in a.lines],
                    {1, 2, 3},
                )
            )
    return "\n".join(out)


def files_part(outcome):
    """Return what became of the files as HTML: how many, and each that was not marked."""
    counted = ", ".join(f"{outcome.count(s)} {s}" for s in STATUSES if outcome.count(s))
    odd = [f for f in outcome.files if f.status != MARKED]
    rows = [(f.place, f.status, f.student, f.reason) for f in odd[:200]]
    more = f"<p>And {len(odd) - 200} more: they stand in files.csv.</p>" if len(odd) > 200 else ""
    return (
        f"<p>{text(counted or 'no file was found')}.</p>"
        + (table(("file", "status", "student", "why"), rows) if rows else "")
        + more
    )
