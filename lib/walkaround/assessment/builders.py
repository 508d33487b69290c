"""Builders of questions, so that a file of questions reads like a list.

Wrong turns are rows: (the wrong answer, the slip in a few words, what to say to the student). A row that is None is
left out, for a slip that a student's numbers don't allow. `worked` is one line of text, or several. The other fields of
a `Question` go in by their names: points, hint, table, and unit and tolerance for a number.
"""

from collections.abc import Iterable
from typing import Any

from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, Answer, Question, WrongTurn

Keys = Iterable[str]
Lines = str | Iterable[str]
Pairs = Iterable[tuple[str, str]]
Rows = Iterable[tuple[Any, str, str] | None]


def number(
    key: str, title: str, text: str, *, answer: float, worked: Lines, wrong: Rows = (), **fields: Any
) -> Question:
    """Return a question that asks for a number.

    >>> number("fuel", "Fuel", "What do 10 US gal of avgas weigh?", answer=60.0, unit="lb", tolerance=1, points=2,
    ...     hint="Pounds in a gallon?", worked="10 × 6 = 60 lb", wrong=[(68.0, "jet fuel", "Avgas is lighter.")]).kind
    'number'
    """
    return _question(NUMBER, key, title, text, answer, worked, wrong, fields)


def choice(
    key: str, title: str, text: str, *, answer: str, options: Pairs, worked: Lines, wrong: Rows = (), **fields: Any
) -> Question:
    """Return a question with one right option; `options` holds (key, text) pairs as they are shown, `answer` a key.

    >>> choice("go", "Go?", "May we go?", answer="no", options=[("yes", "Yes"), ("no", "No")], points=1,
    ...     hint="Look at the limit.", worked="It is over the limit.").answer
    'no'
    """
    return _question(CHOICE, key, title, text, answer, worked, wrong, fields | {"options": tuple(options)})


def choices(
    key: str, title: str, text: str, *, answer: Keys, options: Pairs, worked: Lines, wrong: Rows = (), **fields: Any
) -> Question:
    """Return a question with several right options; `answer` holds their keys, in any order.

    >>> places = [("seat", "On a seat"), ("hold", "In the hold"), ("lap", "On a lap")]
    >>> q = choices("bag", "Bag", "Where may a bag lie?", answer=["seat", "hold"], options=places, points=1,
    ...     hint="What holds it?", worked="Where it can be tied down.")
    >>> q.answer == {"hold", "seat"}
    True
    """
    rows = [(frozenset(row[0]), *row[1:]) for row in wrong if row]
    return _question(CHOICES, key, title, text, frozenset(answer), worked, rows, fields | {"options": tuple(options)})


def order(
    key: str, title: str, text: str, *, steps: Pairs, shown: Pairs, worked: Lines = (), wrong: Rows = (), **fields: Any
) -> Question:
    """Return a question that asks for an order; without `worked`, the worked answer numbers the steps.

    `steps` holds (key, text) pairs in the right order, `shown` the same pairs as they are shown.

    >>> tow = [("brake", "Parking brake off"), ("bar", "Tow bar on"), ("pull", "Pull")]
    >>> order("tow", "Tow", "In which order?", steps=tow, shown=tow[::-1], points=1, hint="What holds it?").worked
    ('1. Parking brake off', '2. Tow bar on', '3. Pull')
    """
    keys, texts = zip(*steps, strict=True)
    rows = [(tuple(row[0]), *row[1:]) for row in wrong if row]
    worked = worked or [f"{n}. {step}" for n, step in enumerate(texts, 1)]
    return _question(ORDER, key, title, text, keys, worked, rows, fields | {"options": tuple(shown)})


def _question(
    kind: str, key: str, title: str, text: str, answer: Answer, worked: Lines, wrong: Rows, fields: dict[str, Any]
) -> Question:
    fields["worked"] = (worked,) if isinstance(worked, str) else tuple(worked)
    fields["wrong_turns"] = tuple(WrongTurn(*row) for row in wrong if row)
    fields["table"] = tuple(fields.get("table", ()))
    return Question(key, kind, title, text, answer, **fields)
