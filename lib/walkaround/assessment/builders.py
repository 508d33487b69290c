"""Builders of questions, so that a file of questions reads like a list.

Wrong turns are rows: (the wrong answer, the slip in a few words, what to say to the student). A row that is None is
left out, for a slip that a student's numbers don't allow.
"""

from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, Question, WrongTurn


def number(key, title, text, *, answer, unit, tolerance, points, hint, worked, wrong=(), table=()):
    """Return a question that asks for a number; `tolerance` is in the answer's `unit`.

    `worked` is one line, or a tuple of lines.

    >>> number("fuel", "Fuel", "What do 10 US gal of avgas weigh?", answer=60.0, unit="lb", tolerance=1, points=2,
    ...     hint="Pounds in a gallon?", worked="10 × 6 = 60 lb", wrong=[(68.0, "jet fuel", "Avgas is lighter.")]).kind
    'number'
    """
    return Question(
        key=key,
        kind=NUMBER,
        title=title,
        text=text,
        answer=answer,
        points=points,
        hint=hint,
        worked=_lines(worked),
        unit=unit,
        tolerance=tolerance,
        wrong_turns=_turns(wrong),
        table=tuple(table),
    )


def choice(key, title, text, *, answer, options, points, hint, worked, wrong=(), table=()):
    """Return a question with one right option; `options` holds (key, text) pairs as they are shown, `answer` a key.

    >>> choice("go", "Go?", "May we go?", answer="no", options=[("yes", "Yes"), ("no", "No")], points=1,
    ...     hint="Look at the limit.", worked="It is over the limit.").answer
    'no'
    """
    return _with_options(CHOICE, key, title, text, answer, options, points, hint, worked, wrong, table)


def choices(key, title, text, *, answer, options, points, hint, worked, wrong=(), table=()):
    """Return a question with several right options; `answer` holds their keys."""
    wrong = [row and (frozenset(row[0]), *row[1:]) for row in wrong]
    return _with_options(CHOICES, key, title, text, frozenset(answer), options, points, hint, worked, wrong, table)


def order(key, title, text, *, steps, shown, points, hint, worked=None, wrong=(), table=()):
    """Return a question that asks for an order: `steps` has (key, text) pairs in the right order, `shown` as they are shown.

    Without `worked` the worked answer numbers the steps.

    >>> tow = [("brake", "Parking brake off"), ("bar", "Tow bar on"), ("pull", "Pull")]
    >>> order("tow", "Tow", "In which order?", steps=tow, shown=tow[::-1], points=1, hint="What holds it?").worked
    ('1. Parking brake off', '2. Tow bar on', '3. Pull')
    """
    if worked is None:
        worked = tuple(f"{n}. {step}" for n, (_, step) in enumerate(steps, 1))
    answer = tuple(k for k, _ in steps)
    wrong = [row and (tuple(row[0]), *row[1:]) for row in wrong]
    return _with_options(ORDER, key, title, text, answer, shown, points, hint, worked, wrong, table)


def _with_options(kind, key, title, text, answer, options, points, hint, worked, wrong, table):
    return Question(
        key=key,
        kind=kind,
        title=title,
        text=text,
        answer=answer,
        points=points,
        hint=hint,
        worked=_lines(worked),
        options=tuple(options),
        wrong_turns=_turns(wrong),
        table=tuple(table),
    )


def _lines(worked):
    return (worked,) if isinstance(worked, str) else tuple(worked)


def _turns(rows):
    return tuple(WrongTurn(*row) for row in rows if row is not None)
