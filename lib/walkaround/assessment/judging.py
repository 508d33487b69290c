"""Marking one answer, and the score of a question from its record of tries. Nothing here trusts a score that is claimed."""

import math
from dataclasses import dataclass

from walkaround.assessment import typed
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER

# Made once: a class's answers are asked a million times whether they are one of these.
_NUMBERS, _SEVERAL = (str, int, float), (list, tuple, set, frozenset)


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


def mark(question, given, rules=AT_HOME):
    """Mark one answer as it was given: a typed text, an option's key, or a list of keys. Never raises for what was given.

    A wrong answer that matches a wrong turn gets told which slip it was.
    """
    try:
        right, turn, answer = judge(question, given, rules)
    except ValueError as error:
        return Mark(None, f"Not marked: {error}.")
    read_as = f", read as {answer:,.10g} {question.unit}".rstrip() if question.kind == NUMBER else ""
    if right:
        return Mark(True, f"Right{read_as}.")
    if turn is not None:
        return Mark(False, f"Not right{read_as}. {turn.says}", turn.slip)
    return Mark(False, f"Not right{read_as}. {_how_far(question, answer)}".rstrip())


def judge(question, given, rules=AT_HOME):
    """Whether one answer is right, the wrong turn that it matches or None, and what it was read as; without a word of it.

    Raises ValueError in words for an answer that can't be read, which is not a try.
    """
    answer = _read(question, given)
    if _matches(question, answer, question.answer, rules):
        return True, None, answer
    for turn in question.wrong_turns:
        if _is_slip(question, answer, turn.answer, rules):
            return False, turn, answer
    return False, None, answer


def _read(question, given):
    if question.kind == NUMBER:
        if isinstance(given, bool) or not isinstance(given, _NUMBERS):
            raise ValueError("a number is wanted here")
        try:
            value = typed.number(given if isinstance(given, str) else repr(given), question.unit)
        except OverflowError:
            value = math.inf
        if not math.isfinite(value):
            raise ValueError("the number is out of all bounds")
        other = typed.other_reading(given) if isinstance(given, str) else None
        if other is not None and _size(other, question.answer) < 1 < _size(value, question.answer):
            raise ValueError(
                f"“{given.strip()}” can be read as {value:,.10g} or as {other:,.10g}: write it without a mark between thousands"
            )
        return value
    keys = [k for k, _ in question.options]
    if question.kind == CHOICE:
        if given not in keys:
            raise ValueError("choose one of the answers first")
        return given
    if not isinstance(given, _SEVERAL) or not all(isinstance(k, str) and k in keys for k in given):
        raise ValueError("some of what was chosen is not among the answers of this question")
    if question.kind == CHOICES:
        if not given:
            raise ValueError("choose at least one of the answers first")
        return frozenset(given)
    if sorted(given) != sorted(keys):
        raise ValueError("every step has to stand in the order once")
    return tuple(given)


def _size(value, answer):
    """Orders of magnitude between a number and the answer; which of two readings is meant shows in this alone."""
    return abs(math.log10(abs(value) or 1e-30) - math.log10(abs(answer) or 1e-30))


def _matches(question, answer, wanted, rules):
    if question.kind == NUMBER:
        # The last digits of a sum differ between machines: that much more than the tolerance is still within it.
        allowed = question.tolerance * rules.tolerance_factor
        return abs(answer - wanted) <= allowed + 1e-9 * max(1.0, abs(wanted))
    return answer == wanted


def _is_slip(question, answer, wrong, rules):
    """Whether an answer is this wrong turn: nearer than its own rounding, or a small one would take in every small number."""
    if question.kind != NUMBER:
        return answer == wrong
    near = min(question.tolerance * rules.tolerance_factor, 0.02 * abs(wrong) + 0.05)
    return abs(answer - wrong) <= near + 1e-9 * max(1.0, abs(wrong))


def _how_far(question, answer):
    if question.kind == CHOICES:
        missed, extra = len(question.answer - answer), len(answer - question.answer)
        parts = [f"{missed} missing"] * bool(missed) + [f"{extra} too many"] * bool(extra)
        return f"Among your choices: {' and '.join(parts)}."
    if question.kind == NUMBER:
        return "Check each step, and the units, once more."
    if question.kind == CHOICE:
        return ""
    right = sum(a == b for a, b in zip(answer, question.answer, strict=True))
    return f"{right} of {len(answer)} steps stand where they should."


@dataclass(frozen=True)
class Score:
    """Score of one question: points earned, tries that counted, the slips made, and whether it is closed.

    `right_at` is the place in the record of the try that was right, None without one.
    """

    earned: int
    right: bool
    tries: int
    slips: tuple
    closed: bool
    right_at: int | None = None


def score(question, record, rules=AT_HOME):
    """Score a question from its record: {"tries": [{"given": …}, …], "hint": bool, "worked_after": tries made or None}.

    The points are earned by a right answer among the tries allowed, before the worked answer was seen. Whatever does not
    fit in the record is passed over.
    """
    record = record if isinstance(record, dict) else {}
    tries = record.get("tries")
    worked_after = record.get("worked_after")
    if isinstance(worked_after, bool) or not isinstance(worked_after, int) or worked_after < 0:
        worked_after = None
    earned, right_at, counted, slips = 0, None, 0, []
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
    right = right_at is not None
    closed = right or worked_after is not None or counted >= rules.tries
    return Score(earned, right, counted, tuple(slips), closed, right_at)
