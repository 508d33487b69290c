"""How far each student has come whose answers are on this computer, lesson by lesson."""

from pathlib import Path

import ipywidgets as widgets

from walkaround.assessment.answer_sheet import AnswerSheet, sheets_in
from walkaround.assessment.judging import AT_HOME, score
from walkaround.assessment.questions import paper
from walkaround.exercises import markup
from walkaround.lessons.table import LESSONS


class Progress(widgets.HTML):
    """A table of how far everyone has come whose answers are in a folder."""

    def __init__(self, folder):
        super().__init__(value=_table(Path(folder)))

    def _repr_mimebundle_(self, **kwargs):
        data = super()._repr_mimebundle_(**kwargs)
        # The same text whoever opens it: a stored notebook names nobody.
        data["text/plain"] = "How far you have come: run the cell to see it."
        return data


def progress(folder="../exercises"):
    """Show how far each student has come whose answers are in the folder of exercises."""
    return Progress(folder)


def _table(folder):
    rows = [("lesson", "who", "questions answered", "points")]
    for lesson in LESSONS:
        for student in sheets_in(folder, lesson.name):
            questions = paper(lesson.questions, student)
            sheet = AnswerSheet(folder, lesson.name, student)
            scores = [score(q, sheet.answers.get(q.key), AT_HOME) for q in questions.questions]
            answered = f"{sum(s.tries > 0 for s in scores)} of {len(scores)}"
            earned = f"{sum(s.earned for s in scores)} of {questions.points}"
            rows.append((lesson.title, student, answered, earned))
    if len(rows) == 1:
        return markup.paragraph("No exercise has been begun on this computer yet.")
    return markup.table(rows)
