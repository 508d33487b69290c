"""Marking one answer, and the score of a question from its record of tries; no score that a record claims counts."""

import math
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass

from walkaround.assessment import typed
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, Answer, Question, WrongTurn, as_number
from walkaround.checks import SLACK


@dataclass(frozen=True)
class Rules:
    """How a course counts: tries that earn points, whether worked answers may be seen, a factor on every tolerance.

    Where answers are `kept`, nothing is marked: the paper has no answers.
    """

    tries: int = 3
    worked_answers: bool = True
    tolerance_factor: float = 1.0
    kept: bool = False


AT_HOME = Rules()


@dataclass(frozen=True)
class Mark:
    """What became of one answer: `right` is None when it was not marked. It is a try if it was marked or `kept`."""

    right: bool | None
    says: str
    slip: str | None = None
    kept: bool = False

    @property
    def is_try(self) -> bool:
        """Whether the answer has a place among the tries."""
        return self.kept or self.right is not None


def mark_typed(question: Question, given: object, rules: Rules = AT_HOME, counts: Question | None = None) -> Mark:
    """Mark an answer as it has just been entered: as `mark`, but a number in another unit is asked for in the unit.

    >>> from walkaround.assessment.builders import number
    >>> q = number("fuel", "Fuel", "What do 10 US gal weigh?", answer=60, unit="lb", tolerance=1, points=2, hint="",
    ...     worked="10 × 6 = 60 lb")
    >>> mark_typed(q, "27 kg").says
    'Not marked: this question asks for lb, you wrote kg: give the number in lb.'
    """
    if question.kind == NUMBER and isinstance(given, str):
        try:
            typed.number(given, question.unit)
        except (ValueError, OverflowError) as error:
            return Mark(None, f"Not {'kept' if rules.kept else 'marked'}: {error}.")
    return mark(question, given, rules, counts)


def mark(question: Question, given: object, rules: Rules = AT_HOME, counts: Question | None = None) -> Mark:
    """Mark one answer as it was given: a typed text, an option's key, or a list of keys.

    A wrong answer that matches a wrong turn is told which slip it was. Never raises for what was given. Where the
    question is shown in other units, `counts` is the one that decides what is right, as it will when it is marked.

    >>> from walkaround.assessment.builders import number
    >>> q = number("fuel", "Fuel", "What do 10 US gal weigh?", answer=60, unit="lb", tolerance=1, points=2, hint="",
    ...     worked="10 × 6 = 60 lb", wrong=[(68, "jet fuel", "Avgas is lighter.")])
    >>> mark(q, "60.5 lb").says
    'Right, read as 60.5 lb.'
    >>> mark(q, "68").says
    'Not right, read as 68 lb. Avgas is lighter.'
    >>> mark(q, "68", Rules(kept=True)).says
    'Kept. Read as 68 lb.'
    """
    if rules.kept:
        return _keep(question, given)
    try:
        right, turn, answer = judge(question, given, rules)
        if counts and isinstance(answer, float) and isinstance(given, str):
            right = judge(counts, typed.in_unit(given, question.unit), rules)[0]
    except ValueError as error:
        return Mark(None, f"Not marked: {error}.")
    read_as = _read_as(question, answer, given)
    if right:
        return Mark(True, f"Right{read_as}.")
    if turn is not None:
        return Mark(False, f"Not right{read_as}. {turn.says}", turn.slip)
    return Mark(False, f"Not right{read_as}. {_how_far(question, answer)}".rstrip())


def _keep(question: Question, given: object) -> Mark:
    try:
        answer = _read(question, given)
        ways = typed.two_readings(given) if isinstance(answer, float) and isinstance(given, str) else None
        if ways:
            raise ValueError(_two_ways(str(given), ways))
    except ValueError as error:
        return Mark(None, f"Not kept: {error}.")
    read_as = _read_as(question, answer, given).removeprefix(", ")
    return Mark(None, "Kept." + f" {read_as[:1].upper()}{read_as[1:]}." * bool(read_as), kept=True)


def _read_as(question: Question, answer: Answer, given: object) -> str:
    if not isinstance(answer, float):
        return ""
    if isinstance(given, str) and typed.is_converted(given, question.unit):
        # A figure more than decides; where nothing is known of that, four.
        last = question.tolerance or abs(answer) / 100
        answer = round(answer, max(0, 1 - math.floor(math.log10(last)))) if last else answer
    figures, space = f"{answer:,.10g}".replace("-", "−"), "" if question.unit == "°" else " "
    return f", read as {figures}{space}{question.unit}".rstrip()


def _two_ways(given: str, ways: tuple[str, str]) -> str:
    return f"“{given.strip()}” can be read in two ways: type {ways[0]} or {ways[1]}, whichever you mean"


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
    allowed = question.tolerance * rules.tolerance_factor
    if _same(answer, question.answer, allowed):
        return True, None, answer
    if isinstance(answer, float) and isinstance(given, str) and not typed.is_converted(given, question.unit):
        _ask_back(question, given, answer, allowed)
    return False, _slip(question, answer, allowed), answer


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
        raise ValueError("every step needs a place of its own: use each number once")
    return tuple(given)


def _read_number(question: Question, given: object) -> float:
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        raise ValueError("a number is wanted here")
    try:
        text = given if isinstance(given, str) else repr(float(given))
        value = typed.number(text, question.unit, converts=True)
    except OverflowError:
        raise ValueError("the number is out of all bounds") from None
    if not math.isfinite(value):
        raise ValueError("the number is out of all bounds")
    return value


def _apart(value: float, answer: float) -> float:
    """Orders of magnitude between two numbers."""
    return abs(math.log10(abs(value) or 1e-30) - math.log10(abs(answer) or 1e-30))


def _same(answer: Answer, wanted: Answer, allowed: float) -> bool:
    """Whether two answers are the same; numbers may be `allowed` apart, and differ in the last digits of a sum."""
    if isinstance(answer, float):
        wanted = as_number(wanted)
        return abs(answer - wanted) <= allowed + SLACK * max(1.0, abs(wanted))
    return answer == wanted


def _slip(question: Question, answer: Answer, allowed: float, scaled: bool = True) -> WrongTurn | None:
    """The wrong turn that an answer is, of several the nearest; for numbers `allowed` is what a right one may be off.

    A small wrong turn must not take in every small number that is typed. A large one, if `scaled`, takes in what is as
    far off for its size as a right answer may be: 0.4 of 13 hPa are 40 of 1,300 Pa.
    """
    if not isinstance(answer, float):
        return next((turn for turn in question.wrong_turns if turn.answer == answer), None)
    right, found = abs(as_number(question.answer)), []
    for turn in question.wrong_turns:
        wrong = as_number(turn.answer)
        size = max(1.0, abs(wrong) / right if right else math.inf) if scaled else 1.0
        if _same(answer, wrong, min(allowed * size, 0.02 * abs(wrong) + 0.05)):
            found.append((abs(answer - wrong), turn))
    return min(found, key=lambda each: each[0])[1] if found else None


def _ask_back(question: Question, given: str, value: float, allowed: float) -> None:
    """Raise ValueError for a number such as 1,655 that is wrong as it was read and may well mean another one."""
    ways = typed.two_readings(given)
    if ways is None:
        return
    other = next(number for number in map(typed.number, ways) if number != value)
    is_slip, would_be_slip = (_slip(question, number, allowed, scaled=False) for number in (value, other))
    far = _apart(value, as_number(question.answer)) > 1 - SLACK
    if _same(other, question.answer, allowed) or (is_slip is None and (far or would_be_slip)):
        raise ValueError(_two_ways(given, ways))


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

    `right_at` is the place in the record of the try that was right, None without one. Where answers are kept, a
    question is closed once it has one, which may still be changed.
    """

    earned: int
    right: bool
    tries: int
    slips: tuple[str, ...]
    closed: bool
    right_at: int | None = None


def tries_allowed(question: Question, rules: Rules) -> int:
    """Return how many tries at a question earn points: as the course has it, or fewer."""
    return min(rules.tries, question.most_tries or rules.tries)


def score(
    question: Question, record: object, rules: Rules = AT_HOME, in_other_units: Callable[[], Question] | None = None
) -> Score:
    """Score a question from its record: {"tries": [{"given": …}, …], "hint": bool, "worked_after": tries made or None}.

    The points are earned by a right answer among the tries allowed, before the worked answer was seen. What does not
    belong in a record is passed over. A wrong number in a unit of the other system may be a slip that only the question
    as it was shown then knows, such as pounds for kilograms: `in_other_units` returns that.

    >>> from walkaround.assessment.builders import choice
    >>> q = choice("go", "Go?", "May we go?", answer="no", options=[("yes", "Yes"), ("no", "No")], points=1, hint="",
    ...     worked="It is over the limit.")
    >>> score(q, {"tries": [{"given": "yes"}, {"given": "no"}]})
    Score(earned=1, right=True, tries=2, slips=(), closed=True, right_at=1)
    """
    record = record if isinstance(record, dict) else {}
    tries = record.get("tries")
    if rules.kept:
        kept = len(tries) if isinstance(tries, list) else 0
        return Score(0, False, kept, (), closed=kept > 0)
    worked_after = record.get("worked_after")
    if isinstance(worked_after, bool) or not isinstance(worked_after, int) or worked_after < 0:
        worked_after = None
    earned, right_at, counted, allowed = 0, None, 0, tries_allowed(question, rules)
    slips: list[str] = []
    for place, entry in enumerate(tries if isinstance(tries, list) else []):
        given = entry.get("given") if isinstance(entry, dict) else None
        try:
            right, turn, _ = judge(question, given, rules)
        except ValueError:
            continue
        counted += 1
        if in_other_units and not (right or turn) and question.kind == NUMBER and isinstance(given, str):
            with suppress(ValueError):  # where it can't be shown in other units, it has no slips in them
                turn = judge(in_other_units(), given, rules)[1] if typed.is_converted(given, question.unit) else None
        if turn is not None and turn.slip:
            slips.append(turn.slip)
        if right:
            right_at = place
            if counted <= allowed and (worked_after is None or counted <= worked_after):
                earned = question.points
            break
    closed = right_at is not None or worked_after is not None or counted >= allowed
    return Score(earned, right_at is not None, counted, tuple(slips), closed, right_at)
