"""The exercise: each fault found, missed, imagined or taken for another is told as such, and the worked sums hold."""

from walkaround.assessment.judging import AT_HOME, mark, tries_allowed
from walkaround.assessment.questions import CHOICE, paper
from walkaround.assessment.variant import Variant
from walkaround.lessons.round import questions
from walkaround.lessons.round.rounds import stops
from walkaround.lessons.round.things import AS_IT_SHOULD_BE
from worked_sums import keys_of_sums

PAPERS = [paper(questions, f"Student {i}") for i in range(20)]


def test_every_answer_at_a_stop_is_right_or_a_slip_of_its_own():
    met = set()
    for asked in PAPERS:
        faulty = {f.stop.name: f.kind.name for f in asked.givens.faults}
        for stop in stops():
            question, right = asked.question(stop.name), faulty.get(stop.name, AS_IT_SHOULD_BE)
            assert question.answer == right
            for given, _ in question.options:
                slip = mark(question, given).slip
                if given == right:
                    assert slip is None
                elif given == AS_IT_SHOULD_BE:
                    assert slip == f"missed: {right}"
                else:
                    assert slip == (f"{right}, taken for: {given}" if stop.name in faulty else f"imagined: {given}")
                met.add((slip or "right").partition(":")[0].rpartition(", ")[2])
    assert met == {"right", "missed", "imagined", "taken for"}


def test_what_looks_wrong_and_is_right_is_told_from_faults():
    for asked in PAPERS:
        question = asked.question("alarms")
        assert (len(question.answer), len(question.options)) == (3, 6)
        slips = [turn.slip.partition(":")[0] for turn in question.wrong_turns]
        assert sorted(slips) == ["imagined"] * 3 + ["missed"] * 3


def test_nobody_clicks_through_the_options_to_the_points():
    for question in (q for q in PAPERS[0].questions if q.kind == CHOICE):
        tries = tries_allowed(question, AT_HOME)
        assert tries < len(question.options), question.key
        assert ("two tries" in question.text) == (tries < AT_HOME.tries)


def test_worked_sums_hold():
    assert keys_of_sums(PAPERS) >= {"oil left"}


def test_what_was_faulty_at_a_stop_is_not_asked_again_among_the_alarms():
    for asked in PAPERS:
        faulty = {fault.thing.name for fault in asked.givens.faults}
        assert not faulty & {key for key, _ in asked.question("alarms").options}


def test_a_quick_stop_may_be_as_it_should_be():
    firsts = [questions.quick(Variant("tests", str(i), "round"))[0] for i in range(20)]
    assert 0 < sum(q.answer == AS_IT_SHOULD_BE for q in firsts) < 20
    assert len({q.key for q in firsts}) > 3


def test_the_scene_says_all_that_the_faults_hang_on():
    for asked in PAPERS[:3]:
        for part in ("by night", "reserve is 45 minutes", "holds it by the nose wheel", "belongs in the hold"):
            assert part in asked.scene
        # In the lesson this question stands without the scene.
        assert all(part in asked.question("alarms").text for part in ("lands by night", "about to be towed"))
        # The scene and the stop round what is needed the same way.
        assert f"{asked.givens.seen['oil']['needed']:.1f} qt" == asked.scene_table[-1][-1]
        assert f"{asked.givens.seen['tanks']['needed']:.1f} US gal" == asked.scene_table[1][-1]
