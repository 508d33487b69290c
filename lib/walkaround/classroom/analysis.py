"""What the class got wrong: each question's difficulty and discrimination, the slips, the time, who has not handed in."""

import math
import statistics
from collections import Counter
from dataclasses import dataclass

from walkaround.classroom.gradebook import MISSING

FEW = 10  # with fewer, a discrimination says nothing
SMALL = 50  # with fewer, it needs a caution


@dataclass(frozen=True)
class Item:
    """One question over the class.

    `sheets` were handed in, `right` earned its points; `difficulty` is their share; `discrimination` None where it says nothing;
    `slips` has (name, students) pairs; `minutes` is the median of those who took time.
    """

    key: str
    title: str
    sheets: int
    right: int
    discrimination: float | None
    slips: tuple
    hints: int
    worked: int
    minutes: float | None

    @property
    def difficulty(self):
        """Share of the sheets that earned the points: 1 is easy for everybody."""
        return self.right / self.sheets if self.sheets else math.nan


@dataclass(frozen=True)
class Exercise:
    """One exercise over the class: percentages of those who handed in, its `Item`s, the commonest slips, who is missing."""

    name: str
    title: str
    percents: tuple
    items: tuple
    slips: tuple
    minutes: float | None
    missing: tuple

    @property
    def chance_band(self):
        """How far from 0 a discrimination lies by chance in 19 of 20 classes of this size: 1.96 / √(n − 1)."""
        n = len(self.percents)
        return 1.96 / math.sqrt(n - 1) if n > 1 else math.inf


def point_biserial(passed, scores):
    """Point-biserial correlation of a yes-or-no with a score; None where one of them is the same for all.

    (M₁ − M₀) / s · √(p q), with the means of the scores of those who passed and did not, and the standard deviation of all
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
    parties = {r.party.id: r for r in rows}
    return tuple(_exercise(course, place, e, list(parties.values())) for place, e in enumerate(course.exercises))


def _exercise(course, place, exercise, rows):
    standings = [(r, r.standings[place]) for r in rows]
    marked = [s for _, s in standings if s.mark]
    author = course.paper(exercise.name, "anyone")
    items, slips = [], Counter()
    for q in author.questions:
        of_all = [next(m for m in s.mark.questions if m.key == q.key) for s in marked]
        # The score without the question itself: with it, every question would seem to tell good from weak.
        rest = [sum(m.earned for m in s.mark.questions if m.key != q.key) for s in marked]
        passed = [m.earned > 0 for m in of_all]
        here = Counter(slip for m in of_all for slip in set(m.slips))
        slips.update({(slip, q.title): n for slip, n in here.items()})
        items.append(
            Item(
                q.key, q.title, len(of_all), sum(passed), point_biserial(passed, rest) if len(of_all) >= FEW else None,
                tuple(sorted(here.items(), key=lambda x: (-x[1], x[0]))), sum(m.hint for m in of_all), sum(m.worked for m in of_all),
                _median([m.minutes for m in of_all if m.minutes > 0]),
            )
        )  # fmt: skip
    ordered = sorted(slips.items(), key=lambda x: (-x[1], x[0]))
    return Exercise(
        exercise.name, course.title(exercise.name),
        tuple(100 * s.points / s.of for _, s in standings if s.status != MISSING and s.of),
        tuple(items), tuple((slip, title, n) for (slip, title), n in ordered),
        _median([s.mark.minutes for s in marked if s.mark.minutes > 0]),
        tuple(r.party for r, s in standings if s.status == MISSING),
    )  # fmt: skip


def _median(values):
    return statistics.median(values) if values else None
