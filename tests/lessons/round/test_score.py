"""The rule for points can't be gamed: what you believe is what it pays to say."""

import numpy as np
import pytest
from walkaround.lessons.round.rounds import by_number
from walkaround.lessons.round.score import (
    FOUND,
    IMAGINED,
    MISSED,
    NAMED_WRONGLY,
    OPEN,
    PASSED,
    Said,
    points,
    score,
    without_looking,
)
from walkaround.lessons.round.things import AS_IT_SHOULD_BE

SURE = range(0, 101, 10)


def expected(belief, sure):
    return belief * points(True, sure) + (1 - belief) * points(False, sure)


@pytest.mark.parametrize("belief", SURE)
def test_it_pays_most_to_say_how_sure_one_is(belief):
    worth = {sure: expected(belief / 100, sure) for sure in SURE}
    assert max(worth, key=worth.get) == belief
    assert sorted(worth.values())[-1] > sorted(worth.values())[-2]


def test_it_pays_most_to_name_what_one_believes_in_most():
    best = [max(expected(belief / 100, sure) for sure in SURE) for belief in SURE]
    assert np.all(np.diff(best) > 0)
    assert best[0] == 0.0  # nothing is to be had by naming what is surely wrong


def test_saying_nothing_is_never_better_than_an_honest_finding():
    assert all(expected(belief / 100, belief) >= 0 for belief in SURE)


def test_what_somebody_gets_who_never_looks():
    for level in (1, 2, 3):
        rounds = [by_number(n, level) for n in range(1, 401)]
        share = 1 - sum(len(r.faults) for r in rounds) / sum(len(r.found) for r in rounds)
        got = [sum(points(f.kind is None, 100 * share) for f in r.found) for r in rounds]
        assert np.mean(got) == pytest.approx(without_looking(level), abs=0.25)
        assert without_looking(level) < 18


def test_each_thing_comes_out_as_it_should():
    played = by_number(3, 2)
    fault, sound = next(f for f in played.found if f.kind), next(f for f in played.found if not f.kind)
    name, cases = fault.kind.name, {}
    for found, finding in ((fault, name), (fault, "oil leak"), (fault, AS_IT_SHOULD_BE), (fault, "")):
        cases[finding] = score([found], [Said(finding, 60)])
    assert [cases[name].outcomes, cases["oil leak"].outcomes] == [(FOUND,), (NAMED_WRONGLY,)]
    assert [cases[AS_IT_SHOULD_BE].outcomes, cases[""].outcomes] == [(MISSED,), (MISSED,)]
    assert [c.points for c in cases.values()] == pytest.approx([0.84, -0.36, -0.36, 0.0])
    for finding, outcome, got in ((AS_IT_SHOULD_BE, PASSED, 0.84), ("oil low", IMAGINED, -0.36), ("", OPEN, 0.0)):
        scored = score([sound], [Said(finding, 60)])
        assert (scored.outcomes, scored.points) == ((outcome,), pytest.approx(got))
