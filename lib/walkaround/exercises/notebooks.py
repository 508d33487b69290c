"""The notebook of an exercise, in the workbook and as it is handed out: what to do, and cells that show the form."""

import nbformat
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook

from walkaround.assessment.answer_sheet import ENDING
from walkaround.assessment.judging import AT_HOME, tries_allowed
from walkaround.assessment.questions import paper

METADATA = {
    "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}


RUN = "First open the menu **Run** and choose **Run All Cells**, each time you open this page: the form appears below."
RUNS_BY_ITSELF = "The form appears below. If it does not, open the menu **Run** and choose **Run All Cells**."


def exercise_notebook(
    stem, name, title, *, first="", run=RUN, asks_for="name", tries=AT_HOME.tries, fewer=False, more=(), last=""
):
    """Return the notebook of an exercise as an nbformat notebook; the same arguments give the same notebook.

    `stem` is its file name without the ending, `first` what stands below the title, `run` says how the form is shown,
    `asks_for` what a student has to type to begin (empty when the folder knows them), `tries` how many earn points (0
    where answers are kept, not marked), `fewer` whether some questions take fewer, `more` are further rules, `last` is
    a line at the end; texts are Markdown.

    >>> exercise_notebook("exercise-wind", "wind", "Wind").cells[2].source
    'exercise("wind")'
    """
    begin = f" Type your {asks_for} there and press Enter." if asks_for else ""
    rules = (
        f"{run}{begin}",
        "Type numbers as you like: `41.9`, `41,9`, `1 240`, `3/4`, with or without the unit.",
        f"Each question takes {tries} {'try' if tries == 1 else 'tries'} that earn points. A hint is free. The worked "
        "answer costs all the points of its question."
        if tries
        else "Answers are kept here; your instructor marks them. You can change an answer: the last one counts.",
        f"Every answer is saved at once, in a file beside this page that ends in `{ENDING}`. Close the page and come "
        "back when you like: your answers will be there.",
        *("A question with two or three answers to choose from takes fewer tries; it says how many.",) * fewer,
        *more,
    )
    own = "The numbers are your own. Have pencil, paper and a calculator at hand."
    aid = (
        "This is a training aid. Before a real flight the aircraft's own handbook, the local rules and licensed people "
        "come first."
    )
    text = [f"# {title}", first, own, "\n".join(f"- {r}" for r in rules), last, aid]
    cells = [
        new_markdown_cell("\n\n".join(filter(None, text))),
        new_code_cell("from walkaround.exercises import exercise"),
        new_code_cell(f'exercise("{name}")'),
    ]
    return tidied(new_notebook(cells=cells), stem)


def takes_fewer(paper, rules):
    """Whether some questions of a paper take fewer tries than the rest."""
    return any(tries_allowed(q, rules) < rules.tries for q in paper.questions)


def lesson_exercise(lesson):
    """Return the notebook of a lesson's exercise, as it stands in the workbook's folder of exercises."""
    return exercise_notebook(
        lesson.file.removesuffix(".ipynb"),
        lesson.name,
        f"Exercise {lesson.number} · {lesson.title}",
        first=f"*{lesson.question}*",
        run=RUNS_BY_ITSELF,
        fewer=takes_fewer(paper(lesson.questions, "Example Student"), AT_HOME),
        last=f"It belongs to the lesson [{lesson.title}](../notebooks/{lesson.file}).",
    )


def tidied(book, stem):
    """Return a notebook without what differs from run to run or from machine to machine in its cells and metadata."""
    for number, cell in enumerate(book.cells):
        cell["id"] = f"{stem[:40].lower().replace('_', '-')}-{number:02d}"
        cell["metadata"] = {k: v for k, v in cell.metadata.items() if k == "tags"}
    book["metadata"] = nbformat.from_dict(METADATA)
    nbformat.validate(book)
    return book


def data_of(book):
    """Return a notebook as the bytes of its file."""
    return (nbformat.writes(book) + "\n").encode("utf-8")
