"""The table of lessons, in the order of the walkaround, and how far a student is. A new lesson is a row here."""

from dataclasses import dataclass
from pathlib import Path

import ipywidgets as widgets

from walkaround.exercises import show
from walkaround.exercises.marking import AT_HOME, score
from walkaround.exercises.questions import paper
from walkaround.exercises.sheet import AnswerSheet, sheets_in


@dataclass(frozen=True)
class Lesson:
    """One lesson: its place in the walkaround, its name in every folder, its title and how long it takes."""

    number: int
    name: str
    title: str
    question: str
    minutes: int

    @property
    def file(self):
        """File name of its notebook in each of the folders notebooks, exercises and solutions."""
        return f"{self.number:02d}-{self.name}.ipynb"


LESSONS = (
    Lesson(
        1,
        "loading",
        "Weight and balance",
        "How far does a bag move the centre of gravity, and may we go?",
        45,
    ),
    Lesson(
        3,
        "pitot_static",
        "Pitot and static",
        "What does a forgotten cover make the instruments say, and when does it give itself away?",
        60,
    ),
    Lesson(
        8,
        "preheat",
        "Preheat and oil",
        "When is a cold engine ready to start, and what did it cost to get it there?",
        50,
    ),
)


class Table:
    """The lessons as a table with links, for a notebook in the folder notebooks."""

    def _repr_markdown_(self):
        lines = ["| | lesson | the question it answers | time | practise |", "|---|---|---|---|---|"]
        lines += [
            f"| {x.number} | [{x.title}]({x.file}) | {x.question} | {x.minutes} min | [exercise](../exercises/{x.file}) |"
            for x in LESSONS
        ]
        return "\n".join(lines)

    def __repr__(self):
        return "\n".join(f"{x.number} {x.title}: {x.question}" for x in LESSONS)


def table():
    """Return the table of lessons."""
    return Table()


class Progress(widgets.HTML):
    """How far everyone who answered on this computer is, lesson by lesson."""

    def __init__(self, folder):
        super().__init__(value=_progress(Path(folder)))

    def _repr_mimebundle_(self, **kwargs):
        data = super()._repr_mimebundle_(**kwargs)
        # The same text whoever opens it: a stored notebook names nobody.
        data["text/plain"] = "How far you are: run the cell to see it."
        return data


def progress(folder="../exercises"):
    """Show how far each student with answers in the folder of exercises is."""
    return Progress(folder)


def _progress(folder):
    rows = [("lesson", "who", "questions answered", "points")]
    for lesson in LESSONS:
        for student in sheets_in(folder, lesson.name):
            questions = paper(lesson.name, student)
            sheet = AnswerSheet(folder, lesson.name, student)
            scores = [score(q, sheet.answers.get(q.key), AT_HOME) for q in questions.questions]
            rows.append(
                (
                    lesson.title,
                    student,
                    f"{sum(s.tries > 0 for s in scores)} of {len(scores)}",
                    f"{sum(s.earned for s in scores)} of {questions.points}",
                )
            )
    if len(rows) == 1:
        return show.paragraph("No exercise has been begun on this computer yet.")
    return show.table(rows)
