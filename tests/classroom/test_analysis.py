"""Difficulty, discrimination and slips against scipy, and sheets that are alike."""

import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from walkaround.classroom import analysis, class_report, demo_course, likeness, marks_figure


@given(st.lists(st.tuples(st.booleans(), st.integers(0, 40)), min_size=3, max_size=60))
def test_point_biserial_is_scipy_s(pairs):
    passed, scores = zip(*pairs, strict=True)
    found = analysis.point_biserial(passed, scores)
    if len(set(passed)) < 2 or len(set(scores)) < 2:
        assert found is None
    else:
        assert found == pytest.approx(stats.pointbiserialr(passed, scores).statistic, abs=1e-12)


def test_the_band_of_chance_holds_19_of_20_classes_without_any_relation():
    band, draw = 1.96 / np.sqrt(39), np.random.default_rng(1)
    found = [stats.pointbiserialr(draw.random(40) < 0.5, draw.normal(size=40)).statistic for _ in range(1500)]
    assert np.mean(np.abs(found) > band) == pytest.approx(0.05, abs=0.02)
    e = analysis.Exercise("x", "x", tuple(range(40)), (), (), None, ())
    assert e.chance_band == pytest.approx(band)


def test_too_few_sheets_say_nothing_about_discrimination(school):
    school.hand_in("S1", school.answers("S1", ["moment"], ["go"]))
    found = analysis.analyse(school.course, school.mark().rows)[0]
    assert [i.discrimination for i in found.items] == [None] * 11
    assert found.items[0].difficulty == 1.0
    assert [p.id for p in found.missing] == ["S3", "S2"]  # by group


def test_time_is_counted_between_answers_and_pauses_are_not(school):
    answers = school.answers("S1", ["moment", "fuel weight", "go", "steps"])
    for key, minute in (("moment", 0), ("fuel weight", 4), ("go", 90), ("steps", 91.5)):
        answers[key]["tries"][0]["at"] = demo_course.stamp(
            school.due.replace(hour=8) + minute * (school.due - school.due.replace(minute=59, hour=17))
        )
    school.hand_in("S1", answers)
    found = analysis.analyse(school.course, school.mark().rows)[0]
    assert found.minutes == pytest.approx(5.5)
    assert {i.key: i.minutes for i in found.items if i.minutes} == {
        "fuel weight": pytest.approx(4),
        "steps": pytest.approx(1.5),
    }


def test_histogram_counts_are_numpy_s_own_reading_of_the_edges():
    percents = [0, 10, 19.99, 20, 55, 90, 99.9, 100, 100]
    assert marks_figure.counts(percents).tolist() == [1, 2, 1, 0, 0, 1, 0, 0, 0, 4]
    assert marks_figure.histogram(percents) == marks_figure.histogram(percents)


@pytest.fixture
def big(new_school):
    return new_school([(f"S{i}", f"Student {i}", "") for i in range(40)])


def hand_in_all(school, leave_out=()):
    for i, party in enumerate(school.course.parties):
        if party.id not in leave_out:
            answers = demo_course.made_answers(school.paper(party.id), 0.5, random.Random(i), school.due.replace(day=1))
            school.hand_in(party.id, answers)


def alike(school):
    return likeness.find(school.course, school.outcome())


def test_an_honest_class_raises_no_question(big):
    hand_in_all(big)
    assert alike(big) == []


def test_a_sheet_copied_and_renamed_is_found_and_shown_side_by_side(big):
    hand_in_all(big, ["S7"])
    numbers = [q.key for q in big.paper("S3").questions if q.kind == "number"]
    big.hand_in("S7", big.answers("S7", numbers, paper=big.paper("S3")))
    [found] = alike(big)
    assert (found.one, found.other, found.exercise) == ("S7", "S3", "loading")
    assert len(found.lines) >= 6
    right = {q.key: q.answer for q in big.paper("S3").questions}
    for key, given_text, _, right_for_other in found.lines:
        assert float(given_text) == pytest.approx(right[key], rel=1e-5)
        assert float(right_for_other.replace(",", "")) == pytest.approx(right[key], rel=1e-5)


def test_nobody_is_like_themselves(big):
    big.write_course("tolerance_factor = 0.1")
    hand_in_all(big, ["S7"])
    answers = big.answers("S7", [q.key for q in big.paper("S7").questions if q.kind == "number"])
    for q in big.paper("S7").questions:
        if q.key in answers:
            # Too far off for this course's tolerance, and near enough to one's own numbers.
            answers[q.key]["tries"][0]["given"] = f"{q.answer + q.tolerance / 2:.8g}"
    big.hand_in("S7", answers)
    assert alike(big) == []


def test_answers_at_the_same_milliseconds_are_found(big):
    hand_in_all(big, ["S7"])
    copied = demo_course.made_answers(big.paper("S3"), 0.5, random.Random(3), big.due.replace(day=1))
    big.hand_in("S7", copied)
    assert any({a.one, a.other} == {"S3", "S7"} and "millisecond" in a.says for a in alike(big))


def test_a_file_named_for_another_is_a_question(big):
    big.hand_in("S3", big.answers("S3", ["moment"]), name="loading-s7.answers.json")
    [found] = alike(big)
    assert "named as S7 would name it" in found.says


def test_it_is_a_question_and_never_a_verdict(big):
    big.hand_in("S3", big.answers("S3", ["moment"]), name="loading-s7.answers.json")
    big.mark()
    page = big.results()["class-report.html"].decode()
    assert likeness.QUESTION in page.replace("&#x27;", "'")
    assert not any(word in page.casefold() for word in ("cheat", "fraud", "plagiar", "guilty", "dishonest"))


def test_the_last_answer_s_time_is_told_in_the_time_zone_of_the_due_dates(school):
    school.write_course(exercises='[[exercises]]\nname = "loading"\ndue = 2026-03-27T19:00:00+01:00\n')
    school.hand_in("S1", school.answers("S1", [school.paper("S1").questions[0].key]))  # a day and 1 min before it
    done = school.mark()
    assert class_report.summary(school.course, done.outcome, done.rows).endswith(
        " The last answer is from 26 March 2026, 19:01 UTC+01:00."
    )
