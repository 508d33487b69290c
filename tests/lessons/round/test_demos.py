"""The game: what is said is kept for each place, handing in ends a round, and the time is shown and marks nothing."""

import numpy as np
from walkaround import measures
from walkaround.lessons.round.demos import FINDINGS, demo
from walkaround.lessons.round.rounds import by_number
from walkaround.lessons.round.things import AS_IT_SHOULD_BE


class Clock:
    at = 0.0

    def __call__(self):
        return self.at


def taken(stage, **shown):
    for name, value in shown.items():
        stage._take(stage, {"set": {name: value}}, [])


def undrawn(stage):
    """The same stage, which draws nothing from now on: that takes most of the time."""
    stage.live.draw = lambda shown: stage.pixels
    return stage


def everywhere(stage, number, level, judge):
    """Go to every place and take what `judge` returns for what is found there: a finding, and how sure."""
    played = by_number(number, level)
    stage.set(number=number, level=level)
    for stop in range(len(played.stops)):
        for look, found in enumerate(played.at(stop)):
            taken(stage, stop=stop + 1, look=look + 1)
            finding, sure = judge(found)
            taken(stage, finding=FINDINGS.index(finding), sure=sure)
    return played


def truth(found):
    return found.kind.name if found.kind else AS_IT_SHOULD_BE, 100


def test_a_perfect_round_and_one_of_somebody_who_sees_nothing():
    for level in (1, 3):
        stage = undrawn(demo(now=Clock()))
        played = everywhere(stage, 5, level, truth)
        assert stage.verdict == "note"
        assert f"Judged so far: {len(played.found)} of {len(played.found)}." in stage.said
        taken(stage, done=True)
        n = len(played.faults)
        assert f"{n} of {n} found, 0 missed, 0 imagined; 24.0 points of 24" in stage.said
        stage = undrawn(demo(now=Clock()))
        everywhere(stage, 5, level, lambda found: (AS_IT_SHOULD_BE, 100))
        taken(stage, done=True)
        assert f"0 of {n} found, {n} missed, 0 imagined; {24 - 2 * n:.1f} points of 24" in stage.said


def test_before_the_round_is_handed_in_nothing_tells_what_is_there():
    right, wrong = demo(now=Clock()), demo(now=Clock())
    played = everywhere(right, 4, 2, truth)
    everywhere(wrong, 4, 2, lambda found: ("oil leak under the engine", 100))
    for stop in range(len(played.stops)):
        taken(right, stop=stop + 1, look=1)
        taken(wrong, stop=stop + 1, look=1)
        assert np.array_equal(right.pixels, wrong.pixels)
        assert (right.verdict, right.more) == (wrong.verdict, wrong.more)


def test_what_was_said_is_there_again_and_belongs_to_its_aircraft():
    stage = demo(now=Clock())
    taken(stage, stop=7, look=1, finding=FINDINGS.index("oil low"), sure=40)
    assert "You say: oil low, 40 % sure." in stage.words
    taken(stage, stop=8)
    assert stage.controls["finding"].shown() == 0
    taken(stage, stop=7)
    assert (stage.controls["finding"].shown(), stage.controls["sure"].shown()) == (FINDINGS.index("oil low"), 40)
    taken(stage, number=2)
    assert stage.controls["finding"].shown() == 0
    taken(stage, number=1, level=1)
    assert "oil low" not in stage.words
    taken(stage, level=0)
    assert "oil low" in stage.words


def test_a_round_that_is_handed_in_can_no_longer_be_changed():
    clock = Clock()
    stage = undrawn(demo(now=clock))
    played = everywhere(stage, 3, 1, lambda found: (AS_IT_SHOULD_BE, 80))
    taken(stage, done=True)
    result = stage.said
    clock.at = 99.0
    taken(stage, finding=FINDINGS.index("oil low"), sure=0, done=False)
    taken(stage, done=True)
    assert stage.said == result
    assert stage.controls["done"].shown() is True
    missed = next(i for i in range(len(played.stops)) if any(f.kind for f in played.at(i)))
    fault = next(f for f in played.at(missed) if f.kind)
    taken(stage, stop=missed + 1, look=1 + played.at(missed).index(fault))
    assert stage.verdict == "stop"
    assert stage.words.startswith(f"Missed: {fault.kind.name}. What shows it:")
    assert stage.more.startswith(fault.kind.would(played.craft, played.day, fault.seen))
    taken(stage, number=4)
    assert stage.controls["done"].shown() is False


def test_time_is_shown_and_not_marked():
    said = []
    for seconds in (65.0, 2000.0):
        clock = Clock()
        stage = undrawn(demo(now=clock))
        clock.at = 500.0  # a page that lies open is not a round that is played
        everywhere(stage, 2, 1, truth)
        clock.at = 500.0 + seconds
        taken(stage, done=True)
        said.append(stage.said)
    assert "1 min 5 s." in said[0]
    assert "33 min 20 s." in said[1]
    assert said[0].replace("1 min 5 s", "") == said[1].replace("33 min 20 s", "")


def test_what_was_said_and_the_time_stay_when_other_units_are_chosen():
    clock = Clock()
    stage = demo(now=clock)
    played = everywhere(stage, 6, 2, truth)
    taken(stage, stop=1, look=2)
    assert " lb" in played.at(0)[1].thing.sees(played.at(0)[1].seen)
    clock.at = 60.0
    stage.show_units(measures.METRIC)
    assert (stage.values["number"], stage.values["stop"], stage.values["look"]) == (6, 1, 2)
    assert f"Judged so far: {len(played.found)} of {len(played.found)}." in stage.said
    taken(stage, words=True)
    assert " kg" in stage.more
    clock.at = 90.0
    taken(stage, done=True)
    assert f"{len(played.faults)} of {len(played.faults)} found, 0 missed, 0 imagined" in stage.said
    assert "1 min 30 s" in stage.said
    stage.show_units(measures.US)
    assert "1 min 30 s" in stage.said


def test_every_sentence_is_short_enough_after_handing_in():
    stage = undrawn(demo(now=Clock()))
    for level in (1, 2, 3):
        for number in range(1, 12):
            names = list(FINDINGS[1:])
            played = everywhere(
                stage, number, level, lambda found, names=names: (names[len(found.thing.title) % len(names)], 50)
            )
            taken(stage, done=True)
            for stop in range(len(played.stops)):
                for look in range(len(played.at(stop))):
                    taken(stage, stop=stop + 1, look=look + 1)
                    assert len(stage.words.split()) <= 30, stage.words
                    assert len(stage.more) <= 230, stage.more


def test_in_words_for_anyone_who_cannot_see_the_picture():
    stage = demo(now=Clock())
    assert "in each tank" not in stage.said
    stage.set(words=True, stop=6, look=2)
    assert "in each tank" in stage.more


def test_a_place_looks_the_same_however_often_one_has_been_there():
    stage = demo(now=Clock())
    door, tank = (1, 1, 1), (1, 6, 2)
    for number, stop, look in (door, tank, tank, door, door, (9, 1, 1), (9, 6, 2), tank, tank, door):
        stage.set(number=number, stop=stop, look=look)
        afresh = demo(now=Clock())
        afresh.set(number=number, stop=stop, look=look)
        assert np.array_equal(stage.pixels, afresh.pixels), (number, stop, look)


def test_the_other_aircraft_has_its_round_too():
    stage = demo("tansy_two", now=Clock())
    for stop in range(1, 11):
        stage.set(stop=stop)
        for look in range(1, stage.controls["look"].max + 1):
            stage.set(look=look)
            assert "can't be worked out" not in stage.words, stage.words
