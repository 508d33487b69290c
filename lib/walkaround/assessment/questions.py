"""What a question is, what an exercise is, and making one student's paper out of it.

A question's answer and its wrong turns are computed by the library from one scenario. A paper is sound when every
question has one right answer and no wrong turn falls within the tolerance; numbers that fail are drawn again.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from walkaround.assessment.variant import Variant

NUMBER, CHOICE, CHOICES, ORDER = "number", "choice", "several choices", "order"
KINDS = (NUMBER, CHOICE, CHOICES, ORDER)
MOST_DRAWS = 400


class WrongTurn(NamedTuple):
    """A wrong answer that is expected: `slip` names it in a few words, `says` explains it to the student."""

    answer: object
    slip: str
    says: str


class Later(Sequence):
    """Lines that are made when somebody looks at them: marking a class never does, which saves a seventh of its time.

    >>> lines = Later(lambda: ("two and two", "make four"))
    >>> lines == ("two and two", "make four"), lines[1]
    (True, 'make four')
    """

    def __init__(self, make):
        self._make = make

    @cached_property
    def _lines(self):
        return tuple(self._make())

    def __getitem__(self, place):
        return self._lines[place]

    def __len__(self):
        return len(self._lines)

    def __eq__(self, other):
        return self._lines == (other._lines if isinstance(other, Later) else other)

    def __hash__(self):
        return hash(self._lines)

    def __repr__(self):
        return repr(self._lines)


class Question(NamedTuple):
    """One question.

    `answer` is a float for a number, an option's key for a choice, a frozenset of keys for several choices, a
    tuple of all keys for an order. `options` holds (key, text) pairs. `tolerance` is in the answer's `unit`. `table`
    has a row of texts for each line, the first row being the head. `worked` has a line for each step (a
    tuple or `Later`).
    """

    key: str
    kind: str
    title: str
    text: str
    answer: object
    points: int
    hint: str
    worked: Sequence
    unit: str = ""
    tolerance: float = 0.0
    options: tuple = ()
    wrong_turns: tuple = ()
    table: tuple = ()


@dataclass(frozen=True)
class Paper:
    """One student's questions, and the scene they share: `scene` a text, `scene_table` rows as in a question."""

    exercise: str
    title: str
    student: str
    course: str
    questions: tuple
    scene: str = ""
    scene_table: tuple = ()
    givens: object = None

    @property
    def points(self):
        """Points of all questions together."""
        return sum(q.points for q in self.questions)

    def question(self, key):
        """Return the question of that key, or raise ValueError listing the keys there are."""
        for q in self.questions:
            if q.key == key:
                return q
        raise ValueError(
            f"question {key!r} is not in this exercise; allowed: {', '.join(q.key for q in self.questions)}"
        )


def paper(author, student, course="home", key=""):
    """Make a student's paper for an exercise, the same every time.

    `author` is a lesson's module of questions or another object with a `NAME` and `write(variant)` that returns a
    `Paper`; one that also has `draft(variant)` may stop there at the first
    unsound question, which saves time. Raises ValueError when no draw makes a sound paper, which is a
    mistake in the exercise.
    """
    write, problems = getattr(author, "draft", author.write), []
    for attempt in range(MOST_DRAWS):
        draft = write(Variant(course, student, author.NAME, key, attempt))
        problems = [p for q in draft.questions for p in unsound(q)]
        if not problems:
            return draft
    raise ValueError(f"exercise {author.NAME!r} has no sound numbers for {student!r}: {'; '.join(problems)}")


def unsound(question):
    """Problems that make a question unfair, a sentence each: an answer that is no answer, a wrong turn too near to it.

    >>> q = Question("q", NUMBER, "t", "?", 5.0, 1, "", (), "lb", 0.5, wrong_turns=(WrongTurn(5.4, "s", ""),))
    >>> unsound(q)
    ['q: the wrong turn “s” gives 5.4, within 0.5 of the answer 5']
    """
    q, found = question, []
    if q.kind == NUMBER:
        if not q.tolerance > 0 or q.answer != q.answer:
            found.append(f"{q.key}: a number needs a tolerance above 0 and an answer")
        too_near = 2 * q.tolerance
        for turn in q.wrong_turns:
            # Twice the tolerance apart, so that no answer is both nearly right and a slip.
            if abs(turn.answer - q.answer) <= too_near:
                found.append(
                    f"{q.key}: the wrong turn “{turn.slip}” gives {turn.answer:g}, within {q.tolerance:g} "
                    f"of the answer {q.answer:g}"
                )
        return found
    keys = [k for k, _ in q.options]
    if len(set(keys)) != len(keys) or len({t for _, t in q.options}) != len(keys):
        found.append(f"{q.key}: two options are the same")
    elif q.kind == CHOICE and q.answer not in keys:
        found.append(f"{q.key}: the answer {q.answer!r} is not among the options")
    elif q.kind == CHOICES and not (q.answer and q.answer <= set(keys)):
        found.append(f"{q.key}: the right choices {sorted(q.answer)} are none or not among the options")
    elif q.kind == ORDER and sorted(q.answer) != sorted(keys):
        found.append(f"{q.key}: the order does not hold every option once")
    found += [f"{q.key}: the wrong turn “{t.slip}” is the answer" for t in q.wrong_turns if t.answer == q.answer]
    return found
