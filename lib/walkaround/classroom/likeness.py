"""Two students with each other's numbers: found, and shown side by side, as a question to ask and never as a verdict.

Three signs are looked for: answers that fit another's numbers and not one's own, two sheets with answers at the same
moments, and a file whose name says one student and its content another.
"""

import math
from collections import Counter, defaultdict
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

LEAST_FITTING = 3  # answers that have to fit the other's numbers
MOST_BY_CHANCE = 0.01  # students expected to fit as well by chance
LEAST_MOMENTS = 2  # answers given at the same millisecond
QUESTION = (
    "What could explain it? Two who worked at one screen, a folder unzipped for the wrong person, a file sent on by "
    "mistake, or help that went too far. Ask both before you think anything."
)


class FittingAnswer(NamedTuple):
    """An answer of one student that is right for the other; all texts, `question` is the question's key."""

    question: str
    answer: str
    right_for_one: str
    right_for_other: str


@dataclass(frozen=True)
class Likeness:
    """Two students (their parties' ids) whose sheets are alike in one exercise, in words; `lines` are the answers."""

    one: str
    other: str
    exercise: str
    says: str
    lines: tuple[FittingAnswer, ...] = ()


def find(course, outcome):
    """Return a `Likeness` for every pair worth asking about, in an order that does not change."""
    found = []
    for exercise in course.exercises:
        sheets = [m for (_, name), m in outcome.marks.items() if name == exercise.name]
        found += _other_numbers(exercise.name, sheets) + _same_moments(exercise.name, sheets)
    for place, named, inside in outcome.misnamed:
        says = f"The file {place} is named as {named} would name it; the sheet in it is {inside}'s, and counts as such."
        found.append(Likeness(inside, named, "", says))
    return sorted(found, key=lambda x: (x.exercise, x.one, x.other, x.says))


def _other_numbers(exercise, sheets):
    if len(sheets) < 2:
        return []
    keys = [q.key for q in sheets[0].questions if q.right_number is not None]
    right = np.array([[_by_key(s)[k].right_number for k in keys] for s in sheets])
    tolerance = np.array([[_by_key(s)[k].tolerance for k in keys] for s in sheets])
    found = []
    for i, s in enumerate(sheets):
        questions = _by_key(s)
        given = np.full(len(keys), np.nan)
        for column, key in enumerate(keys):
            q = questions[key]
            # A named slip explains itself: it was made with one's own numbers.
            if q.tries and not q.right and not q.slips:
                number = q.given_number
                given[column] = math.nan if number is None else number
        if np.count_nonzero(np.isfinite(given)) < LEAST_FITTING:
            continue
        # A NaN fits nothing, and a number that both have been given is no sign.
        fits = (np.abs(right - given) <= tolerance) & (np.abs(right - right[i]) > tolerance)
        share = np.maximum(fits.sum(axis=0), 1) / len(sheets)
        with np.errstate(divide="ignore"):
            by_chance = len(sheets) * np.exp(np.where(fits, np.log(share), 0.0).sum(axis=1))
        for j in np.flatnonzero((fits.sum(axis=1) >= LEAST_FITTING) & (by_chance < MOST_BY_CHANCE)):
            lines = tuple(
                FittingAnswer(key, str(questions[key].given), f"{right[i, c]:,.6g}", f"{right[j, c]:,.6g}")
                for c, key in enumerate(keys)
                if fits[j, c]
            )
            one, other = s.party, sheets[j].party
            says = f"{len(lines)} answers of {one} are wrong for {one}'s own numbers and right for {other}'s."
            found.append(Likeness(one, other, exercise, says, lines))
    return found


def _by_key(mark):
    return {q.key: q for q in mark.questions}


def _same_moments(exercise, sheets):
    at = defaultdict(set)
    for s in sheets:
        for moment in s.moments:
            at[moment].add(s.party)
    pairs: Counter[tuple[str, str]] = Counter()
    for parties in at.values():
        if 1 < len(parties) <= 10:  # more than that is no pair
            ordered = sorted(parties)
            pairs.update((a, b) for i, a in enumerate(ordered) for b in ordered[i + 1 :])
    return [
        Likeness(a, b, exercise, f"{count} answers of {a} and {b} are the same and were given at the same millisecond.")
        for (a, b), count in pairs.items()
        if count >= LEAST_MOMENTS
    ]
