"""The walkaround as a list for the pocket: one page to print, with what each lesson takes out to the aircraft."""

import re
from html import escape
from pathlib import Path

import nbformat

from walkaround.lessons.table import LESSONS
from walkaround.live.screen import sources

TAKEN_OUT = "## Take this out to the aircraft"  # the heading in a lesson
CAUTION = (
    "A training aid, no checklist: the aircraft's own handbook and checklist, the local rules and licensed people come "
    "first."
)


def page(drawing, standings, student, notebooks):
    """Return the page as HTML: a drawing (SVG), and the stops with what the lessons in a folder say to look at.

    `standings` has what the `student` has done by the lesson's name; it may be empty.
    """
    who = f"<p>{escape(student)}</p>" if student else ""
    stops = "".join(_stop(lesson, standings.get(lesson.name), notebooks) for lesson in LESSONS)
    title = "The walkaround, stop by stop"
    return (
        f'<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>{title}</title><style>'
        f"{_source('pocket_list.css')}</style></head><body><main><h1>{title}</h1>{who}<p>{CAUTION}</p>{drawing}"
        f"<ol>{stops}</ol></main><script>{_source('pocket_list.js')}</script></body></html>"
    )


def _source(file):
    return sources(file, folder=Path(__file__).parent)


def _stop(lesson, standing, notebooks):
    state = f' <span class="state">({escape(standing.says)})</span>' if standing else ""
    looked_at = taken_out(Path(notebooks) / lesson.file) or [escape(lesson.question)]
    points = "".join(f"<li>{point}</li>" for point in looked_at)
    return f'<li value="{lesson.number}"><h2>{lesson.number} · {escape(lesson.title)}{state}</h2><ul>{points}</ul></li>'


def taken_out(path):
    """Return what a lesson's notebook says to take out to the aircraft, as pieces of HTML; none if it can't be read."""
    try:
        cells = nbformat.read(path, as_version=4).cells
    except (OSError, ValueError):
        return []
    text = next((cell.source for cell in cells if cell.source.startswith(TAKEN_OUT)), "")
    return [_bold(escape(point)) for point in re.findall(r"^- (.*)$", text, re.MULTILINE)]


def _bold(text):
    """The stars of Markdown as tags."""
    return re.sub(r"\*(.+?)\*", r"<i>\1</i>", re.sub(r"\*\*(.+?)\*\*", r"<b>\1</b>", text))
