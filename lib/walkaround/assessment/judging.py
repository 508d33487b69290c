"""Marking one answer, and the score of a question from its record of tries; no score that a record claims counts."""

import math
from dataclasses import dataclass

from walkaround.assessment import typed
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, Answer, Question, WrongTurn, as_number


@dataclass(frozen=True)
class Rules:
    """How a course counts: tries that earn points, whether worked answers may be seen, a factor on every tolerance."""

    tries: int = 3
    worked_answers: bool = True
    tolerance_factor: float = 1.0


AT_HOME = Rules()


@dataclass(frozen=True)
class Mark:
    """What became of one answer: `right` is None when it could not be read, and then it is not a try."""

    right: bool | None
    says: str
    slip: str | None = None


def mark(question: Question, given: object, rules: Rules = AT_HOME) -> Mark:
    """Mark one answer as it was given: a typed text, an option's key, or a list of keys.

    A wrong answer that matches a wrong turn is told which slip it was. Never raises for what was given.

    >>> from walkaround.assessment.builders import number
    >>> q = number("fuel", "Fuel", "What do 10 US gal weigh?", answer=60, unit="lb", tolerance=1, points=2, hint="",
    ...     worked="10 × 6 = 60 lb", wrong=[(68, "jet fuel", "Avgas is lighter.")])
    >>> mark(q, "60.5 lb").says
    'Right, read as 60.5 lb.'
    >>> mark(q, "68").says
    'Not right, read as 68 lb. Avgas is lighter.'
    """
    try:
        right, turn, answer = judge(question, given, rules)
    except ValueError as error:
        return Mark(None, f"Not marked: {error}.")
    read_as = f", read as {answer:,.10g} {question.unit}".rstrip() if isinstance(answer, float) else ""
    if right:
        return Mark(True, f"Right{read_as}.")
    if turn is not None:
        return Mark(False, f"Not right{read_as}. {turn.says}", turn.slip)
    return Mark(False, f"Not right{read_as}. {_how_far(question, answer)}".rstrip())


def judge(question: Question, given: object, rules: Rules = AT_HOME) -> tuple[bool, WrongTurn | None, Answer]:
    """Return whether an answer is right, the wrong turn that it matches or None, and what it was read as.

    Raises ValueError in words for an answer that can't be read, which is not a try.

    >>> from walkaround.assessment.builders import choice
    >>> q = choice("go", "Go?", "May we go?", answer="no", options=[("yes", "Yes"), ("no", "No")], points=1, hint="",
    ...     worked="It is over the limit.")
    >>> judge(q, "no")
    (True, None, 'no')
    """
    answer = _read(question, given)
    if _same(answer, question.answer, question.tolerance * rules.tolerance_factor):
        return True, None, answer
    for turn in question.wrong_turns:
        if _is_slip(question, answer, turn.answer, rules):
            return False, turn, answer
    return False, None, answer


def _read(question: Question, given: object) -> Answer:
    if question.kind == NUMBER:
        return _read_number(question, given)
    keys = [key for key, _ in question.options]
    if question.kind == CHOICE:
        if not isinstance(given, str) or given not in keys:
            raise ValueError("choose one of the answers first")
        return given
    if not isinstance(given, list | tuple | set | frozenset) or not all(
        isinstance(k, str) and k in keys for k in given
    ):
        raise ValueError("some of what was chosen is not among the answers of this question")
    if question.kind == CHOICES:
        if not given:
            raise ValueError("choose at least one of the answers first")
        return frozenset(given)
    if sorted(given) != sorted(keys):
        raise ValueError("every step has to stand in the order once")
    return tuple(given)


def _read_number(question: Question, given: object) -> float:
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        raise ValueError("a number is wanted here")
    try:
        text = given if isinstance(given, str) else repr(float(given))
        value = typed.number(text, question.unit)
    except OverflowError:
        raise ValueError("the number is out of all bounds") from None
    if not math.isfinite(value):
        raise ValueError("the number is out of all bounds")
    other, answer = typed.other_reading(text), as_number(question.answer)
    if isinstance(given, str) and other is not None and _apart(other, answer) < 1 < _apart(value, answer):
        raise ValueError(
            f"“{text.strip()}” can be read as {value:,.10g} or as {other:,.10g}: "
            "write it without a mark between thousands"
        )
    return value


def _apart(value: float, answer: float) -> float:
    """Orders of magnitude between two numbers: which of two readings is meant shows in this only."""
    return abs(math.log10(abs(value) or 1e-30) - math.log10(abs(answer) or 1e-30))


def _same(answer: Answer, wanted: Answer, allowed: float) -> bool:
    """Whether two answers are the same; numbers may be `allowed` apart, and differ in the last digits of a sum."""
    if isinstance(answer, float):
        wanted = as_number(wanted)
        return abs(answer - wanted) <= allowed + 1e-9 * max(1.0, abs(wanted))
    return answer == wanted


def _is_slip(question: Question, answer: Answer, wrong: Answer, rules: Rules) -> bool:
    """Whether an answer is this wrong turn: a small one must not take in every small number that is typed."""
    if not isinstance(answer, float):
        return answer == wrong
    near = 0.02 * abs(as_number(wrong)) + 0.05
    return _same(answer, wrong, min(question.tolerance * rules.tolerance_factor, near))


def _how_far(question: Question, answer: Answer) -> str:
    right = question.answer
    if isinstance(answer, frozenset) and isinstance(right, frozenset):
        missed, extra = len(right - answer), len(answer - right)
        parts = [f"{missed} missing"] * bool(missed) + [f"{extra} too many"] * bool(extra)
        return f"Among your choices: {' and '.join(parts)}."
    if isinstance(answer, tuple) and isinstance(right, tuple):
        placed = sum(a == b for a, b in zip(answer, right, strict=True))
        return f"{placed} of {len(answer)} steps stand where they should."
    return "Check each step, and the units, once more." if question.kind == NUMBER else ""


@dataclass(frozen=True)
class Score:
    """Score of one question: points earned, tries that counted, the slips made, and whether it is closed.

    `right_at` is the place in the record of the try that was right, None without one.
    """

    earned: int
    right: bool
    tries: int
    slips: tuple[str, ...]
    closed: bool
    right_at: int | None = None


def score(question: Question, record: object, rules: Rules = AT_HOME) -> Score:
    """Score a question from its record: {"tries": [{"given": …}, …], "hint": bool, "worked_after": tries made or None}.

    The points are earned by a right answer among the tries allowed, before the worked answer was seen. What does not
    belong in a record is passed over.

    >>> from walkaround.assessment.builders import choice
    >>> q = choice("go", "Go?", "May we go?", answer="no", options=[("yes", "Yes"), ("no", "No")], points=1, hint="",
    ...     worked="It is over the limit.")
    >>> score(q, {"tries": [{"given": "yes"}, {"given": "no"}]})
    Score(earned=1, right=True, tries=2, slips=(), closed=True, right_at=1)
    """
    record = record if isinstance(record, dict) else {}
    tries = record.get("tries")
    worked_after = record.get("worked_after")
    if isinstance(worked_after, bool) or not isinstance(worked_after, int) or worked_after < 0:
        worked_after = None
    earned, right_at, counted = 0, None, 0
    slips: list[str] = []
    for place, entry in enumerate(tries if isinstance(tries, list) else []):
        try:
            right, turn, _ = judge(question, entry.get("given") if isinstance(entry, dict) else None, rules)
        except ValueError:
            continue
        counted += 1
        if turn is not None and turn.slip:
            slips.append(turn.slip)
        if right:
            right_at = place
            if counted <= rules.tries and (worked_after is None or counted <= worked_after):
                earned = question.points
            break
    closed = right_at is not None or worked_after is not None or counted >= rules.tries
    return Score(earned, right_at is not None, counted, tuple(slips), closed, right_at)
