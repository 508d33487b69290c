"""What the class got wrong: each question's difficulty and discrimination, the slips, the time, who is missing."""

import math
import statistics
from collections import Counter
from dataclasses import dataclass
from typing import NamedTuple

from walkaround.classroom.course import Party
from walkaround.classroom.gradebook import MISSING

FEW = 10  # with fewer sheets, a discrimination says nothing
SMALL = 50  # with fewer, it needs a caution


class Slip(NamedTuple):
    """A named slip, the title of the question in which it was made, and how many students made it at least once."""

    name: str
    question: str
    students: int


@dataclass(frozen=True)
class Item:
    """One question over the class: `sheets` were handed in, `right` of them earned its points.

    `discrimination` is None where it says nothing; `slips` begin with the commonest; `hints` and `worked` count the
    students who read the hint and the worked answer; `minutes` is the median of those who took time.
    """

    key: str
    title: str
    sheets: int
    right: int
    discrimination: float | None
    slips: tuple[Slip, ...]
    hints: int
    worked: int
    minutes: float | None

    @property
    def difficulty(self):
        """Share of the sheets that earned the points: 1 is easy for everybody."""
        return self.right / self.sheets if self.sheets else math.nan


@dataclass(frozen=True)
class Exercise:
    """One exercise over the class: percentages of those who handed in, questions, commonest slips, who is missing."""

    name: str
    title: str
    percents: tuple[float, ...]
    items: tuple[Item, ...]
    slips: tuple[Slip, ...]
    minutes: float | None
    missing: tuple[Party, ...]

    @property
    def hardest(self):
        """The question whose points the fewest earned, or None where everybody earned all."""
        return min((i for i in self.items if i.right < i.sheets), key=lambda i: i.difficulty, default=None)

    @property
    def commonest(self):
        """The slip that most students made, or None."""
        return self.slips[0] if self.slips else None

    @property
    def chance_band(self):
        """How far from 0 a discrimination lies by chance in 19 of 20 classes of this size: 1.96 / √(n − 1)."""
        n = len(self.percents)
        return 1.96 / math.sqrt(n - 1) if n > 1 else math.inf


def point_biserial(passed, scores):
    """Point-biserial correlation of a yes-or-no with a score; None where one of them is the same for all.

    (M₁ − M₀) / s · √(p q), with the mean scores of those who passed and did not, and the standard deviation of all
    (J. Lev, "The point biserial coefficient of correlation", Annals of Mathematical Statistics 20, 1949; from memory).

    >>> round(point_biserial([True, True, False, False], [4, 3, 2, 1]), 4)
    0.8944
    """
    yes = [s for p, s in zip(passed, scores, strict=True) if p]
    no = [s for p, s in zip(passed, scores, strict=True) if not p]
    spread = statistics.pstdev(scores) if scores else 0.0
    if not yes or not no or spread < 1e-12:
        return None
    share = len(yes) / len(scores)
    return (statistics.fmean(yes) - statistics.fmean(no)) / spread * math.sqrt(share * (1 - share))


def analyse(course, rows):
    """Return an `Exercise` for each of the course's; a group that hands in together counts once."""
    parties = {r.party.id: r for r in rows}.values()
    return tuple(_exercise(course, place, e, parties) for place, e in enumerate(course.exercises))


def _exercise(course, place, exercise, rows):
    standings = [(r, r.standings[place]) for r in rows]
    marks = [s.mark for _, s in standings if s.mark]
    items = tuple(_item(question, marks) for question in course.paper(exercise.name, "anyone").questions)
    return Exercise(
        exercise.name,
        course.title(exercise.name),
        percents=tuple(100 * s.points / s.of for _, s in standings if s.status != MISSING and s.of),
        items=items,
        slips=_commonest_first(slip for item in items for slip in item.slips),
        minutes=_median([m.minutes for m in marks if m.minutes > 0]),
        missing=tuple(r.party for r, s in standings if s.status == MISSING),
    )


def _item(question, marks):
    of_all = [next(q for q in m.questions if q.key == question.key) for m in marks]
    # The score without the question itself: with it, every question would seem to tell good from weak.
    rest = [sum(q.earned for q in m.questions if q.key != question.key) for m in marks]
    passed = [q.earned > 0 for q in of_all]
    slips = Counter(slip for q in of_all for slip in set(q.slips))
    return Item(
        question.key,
        question.title,
        sheets=len(of_all),
        right=sum(passed),
        discrimination=point_biserial(passed, rest) if len(of_all) >= FEW else None,
        slips=_commonest_first(Slip(name, question.title, students) for name, students in slips.items()),
        hints=sum(q.hint for q in of_all),
        worked=sum(q.worked for q in of_all),
        minutes=_median([q.minutes for q in of_all if q.minutes > 0]),
    )


def _commonest_first(slips):
    return tuple(sorted(slips, key=lambda slip: (-slip.students, slip.name, slip.question)))


def _median(values):
    return statistics.median(values) if values else None
