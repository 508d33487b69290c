"""An exercise worked out by hand, step by step, as in the solutions notebooks: ask, compute, answer, see the points."""

import re

from IPython.display import HTML

from walkaround.assessment.judging import mark, score
from walkaround.assessment.questions import paper
from walkaround.exercises import markup
from walkaround.lessons import table


class WorkedSolution:
    """One student's exercise, to be worked out: `ask` shows a question, `answer` marks an answer, `result` adds up.

    >>> w = WorkedSolution("loading", "Example Student")
    >>> w.answer("fuel weight", w.givens.fuel * 6)
    'Right, read as 180 lb. 2 of 2 points.'
    """

    def __init__(self, exercise, student):
        self.paper = paper(table.find(exercise).questions, student)
        self.givens = self.paper.givens
        self._records = {q.key: {"tries": []} for q in self.paper.questions}

    def scene(self):
        """Show the scene and its table."""
        return _Shown(self.paper.scene, self.paper.scene_table)

    def ask(self, key):
        """Show a question's text, table and options."""
        q = self.paper.question(key)
        options = (("answer", "key"), *((text, option) for option, text in q.options)) if q.options else ()
        return _Shown(q.text, q.table, options)

    def numbers(self, key, *patterns):
        """Read numbers off a question's text: each pattern is a piece of it with # in place of the number.

        Raises ValueError when the text has no such piece.

        >>> WorkedSolution("loading", "Example Student").numbers("fuel weight", "hold # US gallons")
        (30.0,)
        """
        text = self.paper.question(key).text
        found = []
        for pattern in patterns:
            piece = re.search(re.escape(pattern).replace(r"\#", r"(-?[\d,]*\.?\d+)"), text)
            if not piece:
                raise ValueError(f"question {key!r} has no text like {pattern!r}")
            found.append(float(piece[1].replace(",", "")))
        return tuple(found)

    def number_or_0(self, key, pattern):
        """Read one number off a question's text; 0 if it is not there."""
        try:
            return self.numbers(key, pattern)[0]
        except ValueError:
            return 0.0

    def options(self, key):
        """Return the options of a question: a dict from key to text."""
        return dict(self.paper.question(key).options)

    def answer(self, key, given):
        """Mark an answer (a number, an option's key, or a list of keys), and say what it is worth."""
        q = self.paper.question(key)
        given = given if isinstance(given, str) else list(given) if hasattr(given, "__iter__") else repr(float(given))
        self._records[key]["tries"].append({"given": given})
        earned = score(q, self._records[key]).earned
        return f"{mark(q, given).says} {earned} of {q.points} points."

    def result(self):
        """Say how many points the answers have earned."""
        earned = sum(score(q, self._records[q.key]).earned for q in self.paper.questions)
        full = ": full marks" if earned == self.paper.points else ""
        return f"{earned} of {self.paper.points} points{full}."


class _Shown(HTML):
    """A text and its tables; only the text where HTML can't be shown."""

    def __init__(self, text, *tables):
        self.text = text
        super().__init__(markup.paragraph(text) + "".join(markup.table(rows) for rows in tables))

    def __repr__(self):
        return self.text


def worked_solution(exercise, student):
    """Return a lesson's exercise for a student, to be worked out by hand; `exercise` is the lesson's name."""
    return WorkedSolution(exercise, student)
