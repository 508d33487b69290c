"""Builders of questions, so that a file of questions reads like a list.

Wrong turns are rows: (the wrong answer, the slip in a few words, what to say to the student). A row that is None is
left out, for a slip that a student's numbers don't allow. `worked` is one line of text, or several.
"""

from collections.abc import Iterable

from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, Answer, Question, Table, WrongTurn

Lines = str | Iterable[str]
Options = Iterable[tuple[str, str]]
Rows = Iterable[tuple[Answer, str, str] | None]
KeysRows = Iterable[tuple[Iterable[str], str, str] | None]


def number(
    key: str,
    title: str,
    text: str,
    *,
    answer: float,
    unit: str,
    tolerance: float,
    points: int,
    hint: str,
    worked: Lines,
    wrong: Rows = (),
    table: Table = (),
) -> Question:
    """Return a question that asks for a number; `tolerance` is in the answer's `unit`.

    >>> number("fuel", "Fuel", "What do 10 US gal of avgas weigh?", answer=60.0, unit="lb", tolerance=1, points=2,
    ...     hint="Pounds in a gallon?", worked="10 × 6 = 60 lb", wrong=[(68.0, "jet fuel", "Avgas is lighter.")]).kind
    'number'
    """
    turns = _turns(wrong)
    return Question(
        key,
        NUMBER,
        title,
        text,
        answer,
        points,
        hint,
        _lines(worked),
        unit=unit,
        tolerance=tolerance,
        wrong_turns=turns,
        table=tuple(table),
    )


def choice(
    key: str,
    title: str,
    text: str,
    *,
    answer: str,
    options: Options,
    points: int,
    hint: str,
    worked: Lines,
    wrong: Rows = (),
    table: Table = (),
) -> Question:
    """Return a question with one right option; `options` holds (key, text) pairs as they are shown, `answer` a key.

    >>> choice("go", "Go?", "May we go?", answer="no", options=[("yes", "Yes"), ("no", "No")], points=1,
    ...     hint="Look at the limit.", worked="It is over the limit.").answer
    'no'
    """
    lines, turns = _lines(worked), _turns(wrong)
    return Question(
        key,
        CHOICE,
        title,
        text,
        answer,
        points,
        hint,
        lines,
        options=tuple(options),
        wrong_turns=turns,
        table=tuple(table),
    )


def choices(
    key: str,
    title: str,
    text: str,
    *,
    answer: Iterable[str],
    options: Options,
    points: int,
    hint: str,
    worked: Lines,
    wrong: KeysRows = (),
    table: Table = (),
) -> Question:
    """Return a question with several right options; `answer` holds their keys, in any order.

    >>> places = [("seat", "On a seat"), ("hold", "In the hold"), ("lap", "On a lap")]
    >>> q = choices("bag", "Bag", "Where may a bag lie?", answer=["seat", "hold"], options=places, points=1,
    ...     hint="What holds it?", worked="Where it can be tied down.")
    >>> q.answer == {"hold", "seat"}
    True
    """
    turns = _turns((frozenset(row[0]), *row[1:]) for row in wrong if row)
    right, lines = frozenset(answer), _lines(worked)
    return Question(
        key,
        CHOICES,
        title,
        text,
        right,
        points,
        hint,
        lines,
        options=tuple(options),
        wrong_turns=turns,
        table=tuple(table),
    )


def order(
    key: str,
    title: str,
    text: str,
    *,
    steps: Options,
    shown: Options,
    points: int,
    hint: str,
    worked: Lines | None = None,
    wrong: KeysRows = (),
    table: Table = (),
) -> Question:
    """Return a question that asks for an order; without `worked`, the worked answer numbers the steps.

    `steps` holds (key, text) pairs in the right order, `shown` the same pairs as they are shown.

    >>> tow = [("brake", "Parking brake off"), ("bar", "Tow bar on"), ("pull", "Pull")]
    >>> order("tow", "Tow", "In which order?", steps=tow, shown=tow[::-1], points=1, hint="What holds it?").worked
    ('1. Parking brake off', '2. Tow bar on', '3. Pull')
    """
    steps = tuple(steps)
    lines = _lines(worked if worked is not None else [f"{n}. {step}" for n, (_, step) in enumerate(steps, 1)])
    turns = _turns((tuple(row[0]), *row[1:]) for row in wrong if row)
    right = tuple(k for k, _ in steps)
    return Question(
        key, ORDER, title, text, right, points, hint, lines, options=tuple(shown), wrong_turns=turns, table=tuple(table)
    )


def _lines(worked: Lines) -> tuple[str, ...]:
    return (worked,) if isinstance(worked, str) else tuple(worked)


def _turns(rows: Rows) -> tuple[WrongTurn, ...]:
    return tuple(WrongTurn(*row) for row in rows if row)
