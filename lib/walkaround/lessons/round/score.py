"""What a finding is worth, and what was found, missed and imagined on a round."""

from typing import NamedTuple

from walkaround.lessons.round.rounds import FAULTS, places
from walkaround.lessons.round.things import AS_IT_SHOULD_BE

FOUND, MISSED, NAMED_WRONGLY, IMAGINED, PASSED, OPEN = (
    "found", "missed", "named wrongly", "imagined", "rightly passed", "not judged",
)  # fmt: skip


def points(right, sure_percent):
    """Points for a finding, `right` or not, of which someone was `sure_percent` sure.

    2c − c² if it is right and −c² if it is wrong, with c the share. Whoever believes in it by p expects 2pc − c², most
    at c = p, and there p²: so it never pays to say more or less than one believes, nor to name what one believes in
    less (a quadratic scoring rule: G. W. Brier, 1950, recalled).

    >>> points(True, 100), points(False, 100), points(True, 50), points(False, 50), points(True, 0)
    (1.0, -1.0, 0.75, -0.25, 0.0)
    """
    c = sure_percent / 100
    return (2 * c if right else 0.0) - c * c


class Said(NamedTuple):
    """What is said of a thing: a kind's name, or `things.AS_IT_SHOULD_BE`, or "" for nothing; and how sure, in %."""

    finding: str = ""
    sure: int = 80


def outcome(found, said):
    """What became of a thing (`rounds.Found`), one of the words above, for what was said of it."""
    if found.kind is None:
        return PASSED if said.finding == AS_IT_SHOULD_BE else IMAGINED if said.finding else OPEN
    if said.finding in ("", AS_IT_SHOULD_BE):
        return MISSED
    return FOUND if said.finding == found.kind.name else NAMED_WRONGLY


class Score(NamedTuple):
    """The outcome of each thing, and the points of all findings together."""

    outcomes: tuple[str, ...]
    points: float

    def count(self, outcome):
        """How many things had this outcome."""
        return self.outcomes.count(outcome)


def score(found, said):
    """Score what was `said`, a `Said` for each of the things `found`."""
    outcomes = tuple(outcome(f, s) for f, s in zip(found, said, strict=True))
    judged = zip(outcomes, said, strict=True)
    return Score(outcomes, sum(points(o in (FOUND, PASSED), s.sure) for o, s in judged if s.finding))


def without_looking(level):
    """Points, on average, of someone who never looks: "as it should be" of everything, as sure as the level's share.

    >>> round(without_looking(1), 1)
    16.7
    """
    count, faulty = len(places()), sum(FAULTS[level]) / 2
    return count * (1 - faulty / count) ** 2
