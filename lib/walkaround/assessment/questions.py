"""What a question is, what an exercise is, and making one student's paper.

A question's answer and its wrong turns are computed by the library from one scenario. A paper is sound when every
question has one right answer and no wrong turn falls within the tolerance; numbers that fail are drawn again.
"""

from dataclasses import dataclass, replace
from typing import NamedTuple, Protocol

from walkaround import measures
from walkaround.assessment.variant import Variant
from walkaround.checks import SLACK

NUMBER, CHOICE, CHOICES, ORDER = "number", "choice", "several choices", "order"
KINDS = (NUMBER, CHOICE, CHOICES, ORDER)
MOST_DRAWS = 400

# A number, an option's key, the keys of several options, or the keys of all options in an order.
Answer = float | str | frozenset[str] | tuple[str, ...]
# Rows of texts, the first row being the head.
Table = tuple[tuple[str, ...], ...]


class WrongTurn(NamedTuple):
    """A wrong answer that is expected: `slip` names it in a few words, `says` explains it to the student."""

    answer: Answer
    slip: str
    says: str


class Question(NamedTuple):
    """One question.

    `answer` is a float for a number, an option's key for a choice, a frozenset of keys for several choices, a tuple of
    all keys for an order. `options` holds (key, text) pairs. `tolerance` is in the answer's `unit`. `worked` has a line
    for each step of the worked answer. `most_tries` earn points, at most, if it is above 0: where there are two
    options, a second try is no answer.
    """

    key: str
    kind: str
    title: str
    text: str
    answer: Answer
    points: int
    hint: str
    worked: tuple[str, ...]
    unit: str = ""
    tolerance: float = 0.0
    options: tuple[tuple[str, str], ...] = ()
    wrong_turns: tuple[WrongTurn, ...] = ()
    table: Table = ()
    most_tries: int = 0


@dataclass(frozen=True)
class Paper:
    """One student's questions and the scene they share: `scene` a text, `scene_table` rows as in a question.

    `givens` is the lesson's own record of what was drawn, for solutions that are worked out by hand.
    """

    exercise: str
    title: str
    student: str
    course: str
    questions: tuple[Question, ...]
    scene: str = ""
    scene_table: Table = ()
    givens: object = None

    @property
    def points(self) -> int:
        """Points of all questions together."""
        return sum(q.points for q in self.questions)

    def question(self, key: str) -> Question:
        """Return the question of that key, or raise ValueError listing the keys there are."""
        for q in self.questions:
            if q.key == key:
                return q
        raise ValueError(
            f"question {key!r} is not in this exercise; allowed: {', '.join(q.key for q in self.questions)}"
        )


class Author(Protocol):
    """Whoever writes an exercise: a lesson's module of questions, or another object with these two."""

    NAME: str

    def write(self, variant: Variant) -> Paper:
        """Write one student's paper from their draws."""


def paper(author: Author, student: str, course: str = "home", key: str = "", practice: str = "") -> Paper:
    """Make a student's paper for an exercise, the same every time.

    `key` is the course's secret for this student; `practice` names a round of practice, which has numbers of its own.
    It is written in the units that things are shown in (`measures.chosen`), and is the same case in all of them. Raises
    ValueError when no draw makes a sound paper, which is a mistake in the exercise.

    >>> class Fuel:
    ...     NAME = "fuel"
    ...     def write(self, variant):
    ...         gallons = variant.number("gallons", 20, 40)
    ...         q = Question("lb", NUMBER, "Fuel", f"{gallons} gal?", gallons * 6.0, 1, "", (), "lb", 1.0)
    ...         return Paper(self.NAME, "Fuel", variant.student, variant.course, (q,))
    >>> paper(Fuel(), "Ines Okafor").question("lb").text
    '27 gal?'
    """
    problems: list[str] = []
    for attempt in range(MOST_DRAWS):
        variant = Variant(course, student, author.NAME, key, attempt, practice)
        with measures.shown_in(None):
            written = author.write(variant)
        problems = [p for q in written.questions for p in unsound(q)]
        if not problems:
            return _in_order(author.write(variant), written) if measures.chosen() else written
    raise ValueError(f"exercise {author.NAME!r} has no sound numbers for {student!r}: {'; '.join(problems)}")


def _in_order(shown: Paper, written: Paper) -> Paper:
    """A paper with its options in the order of the same paper in other units: they are drawn by their texts."""
    questions = []
    for q, first in zip(shown.questions, written.questions, strict=True):
        texts = dict(q.options)
        questions.append(q._replace(options=tuple((key, texts[key]) for key, _ in first.options)))
    return replace(shown, questions=tuple(questions))


def unsound(question: Question) -> list[str]:
    """Problems that make a question unfair, a sentence each: an answer that is no answer, a wrong turn too near to it.

    >>> q = Question("q", NUMBER, "t", "?", 5.0, 1, "", (), "lb", 0.5, wrong_turns=(WrongTurn(5.4, "s", ""),))
    >>> unsound(q)
    ['q: the wrong turn “s” gives 5.4, within 0.5 of the answer 5']
    """
    return _unsound_number(question) if question.kind == NUMBER else _unsound_options(question)


def _unsound_number(q: Question) -> list[str]:
    found, answer = [], as_number(q.answer)
    if not q.tolerance > 0 or answer != answer:
        found.append(f"{q.key}: a number needs a tolerance above 0 and an answer")
    for turn in q.wrong_turns:
        wrong = as_number(turn.answer)
        # Twice the tolerance apart, so that no answer is both nearly right and a slip.
        if abs(wrong - answer) <= 2 * q.tolerance + SLACK * max(1.0, abs(answer)):
            near = f"within {q.tolerance:g} of the answer {answer:g}"
            found.append(f"{q.key}: the wrong turn “{turn.slip}” gives {wrong:g}, {near}")
    return found


def _unsound_options(q: Question) -> list[str]:
    found, keys = [], [key for key, _ in q.options]
    right = (
        [q.answer] if isinstance(q.answer, str) else sorted(q.answer) if isinstance(q.answer, frozenset | tuple) else []
    )
    if len(set(keys)) != len(keys) or len({text for _, text in q.options}) != len(keys):
        found.append(f"{q.key}: two options are the same")
    elif q.kind == CHOICE and q.answer not in keys:
        found.append(f"{q.key}: the answer {q.answer!r} is not among the options")
    elif q.kind == CHOICES and not (right and set(right) <= set(keys)):
        found.append(f"{q.key}: the right choices {right} are none or not among the options")
    elif q.kind == ORDER and right != sorted(keys):
        found.append(f"{q.key}: the order does not hold every option once")
    found += [f"{q.key}: the wrong turn “{t.slip}” is the answer" for t in q.wrong_turns if t.answer == q.answer]
    return found


def as_number(answer: Answer) -> float:
    """Return the answer to a question that asks for a number; raises ValueError for an answer of another kind.

    >>> as_number(41.9)
    41.9
    """
    if isinstance(answer, float | int):
        return answer
    raise ValueError(f"the answer is {answer!r}; allowed: a number")
