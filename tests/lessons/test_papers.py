"""Every exercise for fifty students: one right answer, no wrong turn within the tolerance, the same paper each time."""

import pytest
from walkaround.assessment.judging import mark, score
from walkaround.assessment.questions import CHOICE, CHOICES, KINDS, NUMBER, ORDER, paper, unsound
from walkaround.assessment.variant import Variant
from walkaround.lessons import table
from walkaround.lessons.table import LESSONS

NAMES = [lesson.name for lesson in LESSONS]
STUDENTS = [f"Student {i}" for i in range(50)]


def as_given(question, answer):
    """An answer as the form would hand it over."""
    if question.kind == NUMBER:
        return f"{answer:.6f}"
    return answer if question.kind == CHOICE else list(answer)


@pytest.mark.parametrize("name", NAMES)
def test_fifty_students(name):
    seen = set()
    for student in STUDENTS:
        sheet = paper(table.find(name).questions, student)
        seen.add(tuple(str(q.answer) for q in sheet.questions))
        for q in sheet.questions:
            assert unsound(q) == []
            assert mark(q, as_given(q, q.answer)).right is True
            assert score(q, {"tries": [{"given": as_given(q, q.answer)}]}).earned == q.points
            for turn in q.wrong_turns:
                result = mark(q, as_given(q, turn.answer))
                assert result.right is False
                assert result.slip in {t.slip for t in q.wrong_turns}
            if q.kind == NUMBER:
                for beyond in (q.answer + 1.01 * q.tolerance, q.answer - 1.01 * q.tolerance):
                    assert mark(q, repr(beyond)).right is False
                for within in (q.answer + 0.99 * q.tolerance, q.answer - 0.99 * q.tolerance):
                    assert mark(q, repr(within)).right is True
            if q.kind == CHOICE:
                assert [mark(q, key).right for key, _ in q.options].count(True) == 1
    assert len(seen) >= 45, "students hardly differ"


@pytest.mark.parametrize("name", NAMES)
def test_the_pattern_of_an_exercise(name):
    sheet = paper(table.find(name).questions, "Example Student")
    assert len(sheet.questions) >= 8
    kinds = {q.kind for q in sheet.questions}
    assert kinds <= set(KINDS)
    assert {NUMBER, CHOICE, CHOICES, ORDER} <= kinds
    assert len({q.key for q in sheet.questions}) == len(sheet.questions)
    for q in sheet.questions:
        assert q.text.strip()
        assert q.hint.strip()
        assert q.worked
        assert q.points >= 1
        assert not any("nan" in text.lower().split() for text in (q.text, q.hint, *q.worked))
        if q.kind == NUMBER:
            assert q.unit
            assert len(q.wrong_turns) >= 2
    quick = table.find(name).questions.quick(Variant("lesson", "everyone", name))
    assert 3 <= len(quick) <= 5
    assert all(unsound(q) == [] for q in quick)


@pytest.mark.parametrize("name", NAMES)
def test_a_paper_is_the_same_every_time(name):
    def whole(*student, **key):
        return repr(paper(table.find(name).questions, *student, **key).questions)

    assert whole("Ines Okafor") == whole(" ines  OKAFOR")
    assert whole("Ines Okafor") != whole("Ines Okafor", "other course")
    assert whole("Ines Okafor") != whole("Ines Okafor", key="k")
