"""Each lesson as a hand-out to print: its prose, the stored picture of each demonstration, its sums, its questions.

In units that a course has chosen, pictures and questions are made anew; prose and sums stay as they are written.
"""

import base64
import html
import importlib
import io
import re

import mistune
import nbformat
from IPython.core.formatters import DisplayFormatter
from matplotlib.mathtext import math_to_image

from walkaround import measures
from walkaround.assessment.judging import AT_HOME
from walkaround.assessment.variant import Variant
from walkaround.classroom import sums, to_pdf
from walkaround.classroom.on_paper import on_paper, right
from walkaround.classroom.pages import printed_page
from walkaround.exercises.own_folder import source
from walkaround.lessons.table import LESSONS

MM_PER_PX = 0.155  # the widest demonstration then fills a page
# What makes sense in front of a screen only: sentences outside the list of what to try there, and whole lines.
ON_SCREEN = re.compile(
    r"\b[Pp]ress (play|Play|Space)|\bClick\b|\bslider\b|in a (new )?cell|arrow keys|while Space|Without the clock|"
    r"^Move |^\*\*(Put|Load) .*watch|in a cell of your own"
)
WHOLE_LINES = re.compile(r"This page runs when|^- .*\bin a new cell\b")
WORDED = {
    "Marked on the spot, recorded nowhere. The hint is free.": "The answers are at the end.",
    "## The live demonstration": "## The demonstration",
    "**Try this**": "**To try with the demonstration on a screen**",
}


def print_all(folder, sheet="A4", progress=lambda what, done, total: None, units=None):
    """Print a hand-out of each lesson into a folder, in US or METRIC units or as it stands; returns the paths written.

    Raises ValueError in words when the lessons' notebooks can't be found or a page can't be printed.
    """
    documents = [
        to_pdf.Document(folder / f"lesson-{x.number:02d}-{x.name}", page(x, sheet, units=units)) for x in LESSONS
    ]
    return to_pdf.write(documents, lambda done, total: progress("lessons", done, total), tagged=True)


def page(lesson, sheet="A4", notebooks=None, units=None):
    """Return a lesson's hand-out as one page of HTML, as bytes, made from its notebook with its stored outputs.

    In US or METRIC units its pictures and questions are made anew.
    """
    path = (notebooks or source() / "notebooks") / lesson.file
    try:
        cells = nbformat.read(path, as_version=4).cells
    except (OSError, ValueError):
        raise ValueError(f"the notebook of lesson {lesson.number} can't be read: {path}") from None
    with measures.shown_in(units):
        asked = lesson.questions.quick(Variant("lesson", "everyone", lesson.name))
        cells = [_in_units(cell, lesson) for cell in cells] if units else cells
    asked = [q._replace(text=on_paper(q.text)) for q in asked]
    return printed_page(
        f"{lesson.number} {lesson.title}",
        "lesson.html",
        sheet,
        left=f"Lesson {lesson.number} · {lesson.title}",
        right="Walkaround workbook",
        parts=[part for cell in cells for part in _parts(cell, asked)],
        answers=[(number, q, right(q, AT_HOME)) for number, q in enumerate(asked, 1)],
    )


def _in_units(cell, lesson):
    """A cell with its picture made anew, if it is a call without arguments that shows one."""
    found = re.fullmatch(r"\w+\.(\w+)\(\)", cell.source.strip())
    if found and any("image/png" in output.get("data", {}) for output in cell.outputs):
        shown = getattr(importlib.import_module(f"walkaround.lessons.{lesson.name}"), found[1])()
        data, _ = DisplayFormatter().format(shown)
        data["image/png"] = _in_base64(data["image/png"])
        cell.outputs = [{"data": data}]
    return cell


def _in_base64(png):
    return base64.b64encode(png).decode("ascii") if isinstance(png, bytes) else png


def _parts(cell, asked):
    """What a cell leaves on paper, as (kind, content) pairs."""
    if cell.cell_type == "markdown":
        yield "prose", _MARKDOWN(for_paper(cell.source))
        return
    if found := re.fullmatch(r"quick\(\"\w+\", (\d+)\)", cell.source.strip()):
        yield "question", (int(found[1]), asked[int(found[1]) - 1])
        return
    for output in cell.outputs:
        data = output.get("data", {"text/plain": output.get("text", "")})
        if "image/png" in data:
            picture = data["image/png"].replace("\n", "")
            width_px = int.from_bytes(base64.b64decode(picture[:32])[16:20], "big")  # PNG, the IHDR chunk (ISO 15948)
            yield "picture", (picture, data["text/plain"], MM_PER_PX * width_px)
        elif "text/html" in data:
            yield "words", data["text/plain"]
        else:
            yield "sum", sums.on_paper(cell.source.strip(), data["text/plain"])


def for_paper(text):
    """Return a lesson's Markdown without what makes sense in front of a screen only.

    >>> for_paper("The curves show how warm each part gets. Press play, and watch.")
    'The curves show how warm each part gets.'
    """
    for on_screen, worded in WORDED.items():
        text = text.replace(on_screen, worded)
    text = re.sub(r"^\$\$(.+)\$\$$", r"$$\n\1\n$$", text, flags=re.MULTILINE)  # as every version of mistune reads it
    lines = [_sentences(line) for line in text.split("\n") if not WHOLE_LINES.search(line)]
    return "\n".join(lines)


def _sentences(line):
    if line.startswith(("- ", "#", "$", "|", ">")):
        return line
    sentences = re.split(r"(?<=[.!?)*:]) (?=[A-Z*(`])", line)
    return " ".join(s for s in sentences if not ON_SCREEN.search(s))


class _Renderer(mistune.HTMLRenderer):
    """Markdown for paper: links are their texts, formulas are drawn."""

    def link(self, text, url, title=None):
        return text

    def image(self, text, url, title=None):
        return html.escape(text)

    def block_math(self, text):
        return f'<span class="math">{_drawn(text)}</span>'

    def inline_math(self, text):
        return _drawn(text)


_MARKDOWN = mistune.create_markdown(renderer=_Renderer(), plugins=["table", "math", "strikethrough"])


def _drawn(formula):
    """A formula in TeX as a drawing, with its TeX for anyone who can't see it."""
    out = io.BytesIO()
    math_to_image(f"${formula.strip()}$".replace(r"\frac", r"\dfrac"), out, dpi=100, format="svg")
    drawing = out.getvalue().decode("utf-8")
    drawing = drawing[drawing.index("<svg") :]
    return drawing.replace("<svg", f'<svg role="img" aria-label="{html.escape(formula.strip())}"', 1)
