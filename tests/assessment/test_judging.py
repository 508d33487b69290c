"""Marking and scoring, and that no claim in a record is trusted."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.assessment.judging import Rules, mark, score
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, Question, WrongTurn, unsound

OPTIONS = (("a", "first"), ("b", "second"), ("c", "third"))
NUMBERQ = Question(
    "n",
    NUMBER,
    "t",
    "?",
    41.9,
    3,
    "h",
    ("w",),
    "in",
    0.2,
    wrong_turns=(WrongTurn(419.0, "moment for CG", "Divide it."),),
)
CHOICEQ = Question(
    "c", CHOICE, "t", "?", "b", 2, "h", ("w",), options=OPTIONS, wrong_turns=(WrongTurn("c", "slip c", "No c."),)
)
CHOICESQ = Question("s", CHOICES, "t", "?", frozenset("ab"), 2, "h", ("w",), options=OPTIONS)
ORDERQ = Question("o", ORDER, "t", "?", ("a", "b", "c"), 2, "h", ("w",), options=OPTIONS)


def test_the_words_of_a_mark():
    assert mark(NUMBERQ, "41,9").says == "Right, read as 41.9 in."
    wrong = mark(NUMBERQ, "419 in")
    assert (wrong.right, wrong.slip, wrong.says) == (False, "moment for CG", "Not right, read as 419 in. Divide it.")
    assert mark(NUMBERQ, "five").says.startswith("Not marked: “five” is not a number")
    assert mark(CHOICEQ, "c").slip == "slip c"
    assert mark(CHOICEQ, "a").slip is None
    assert mark(CHOICESQ, ["b", "a"]).right is True
    assert mark(CHOICESQ, ["a", "c"]).says == "Not right. Among your choices: 1 missing and 1 too many."
    assert mark(ORDERQ, ["b", "a", "c"]).says == "Not right. 1 of 3 steps stand where they should."


@pytest.mark.parametrize(
    ("question", "given"),
    [
        (NUMBERQ, ""), (NUMBERQ, None), (NUMBERQ, True), (NUMBERQ, float("nan")), (NUMBERQ, ["41.9"]), (NUMBERQ, {"x": 1}),
        (CHOICEQ, ""), (CHOICEQ, "z"), (CHOICEQ, None), (CHOICEQ, ["b"]), (CHOICESQ, []), (CHOICESQ, ["z"]), (CHOICESQ, "ab"),
        (CHOICESQ, [["a"]]), (ORDERQ, ["a", "b"]), (ORDERQ, ["a", "a", "b"]), (ORDERQ, None),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_no_try(question, given):
    assert mark(question, given).right is None
    assert score(question, {"tries": [{"given": given}]}).tries == 0


def test_a_small_wrong_turn_does_not_take_in_every_small_number():
    q = Question(
        "n",
        NUMBER,
        "t",
        "?",
        9780.0,
        2,
        "h",
        ("w",),
        "lb-in",
        20,
        wrong_turns=(WrongTurn(0.37, "divided", "You divided."),),
    )
    assert mark(q, "0.4").slip == "divided"
    assert mark(q, "5").slip is None


@pytest.mark.parametrize(("typed", "answer"), [("2.409", 2410.0), ("107,071", 107.1)])
def test_a_number_with_two_readings_is_asked_for_again(typed, answer):
    q = Question("n", NUMBER, "t", "?", answer, 2, "h", ("w",), "lb", 0.5)
    assert "can be read as" in mark(q, typed).says
    assert mark(q, typed).right is None
    # The usual reading stands where its size fits.
    assert mark(Question("n", NUMBER, "t", "?", 2.4, 2, "h", ("w",), "m", 0.05), "2.409").right is True
    assert mark(Question("n", NUMBER, "t", "?", 1240.0, 2, "h", ("w",), "lb", 5), "1,240").right is True


def record(*given, worked_after=None):
    return {"tries": [{"given": g} for g in given], "hint": False, "worked_after": worked_after}


def test_scores():
    assert score(NUMBERQ, record("41.9")).earned == 3
    assert score(NUMBERQ, record("1", "x", "2", "41.9")).earned == 3  # x is no number and so no try
    late = score(NUMBERQ, record("1", "2", "3", "41.9"))
    assert (late.earned, late.right, late.closed) == (0, True, True)
    assert score(NUMBERQ, record("1", "2")).closed is False
    assert score(NUMBERQ, record("1", "2", "3")).closed is True
    assert score(NUMBERQ, record("419", "419")).slips == ("moment for CG", "moment for CG")


def test_the_worked_answer_costs_the_points():
    assert score(NUMBERQ, record("41.9", worked_after=0)).earned == 0
    assert score(NUMBERQ, record("1", "41.9", worked_after=1)).earned == 0
    assert score(NUMBERQ, record("41.9", worked_after=1)).earned == 3
    assert score(NUMBERQ, record(worked_after=0)).closed


def test_rules_of_a_course():
    assert score(NUMBERQ, record("1", "41.9"), Rules(tries=1)).earned == 0
    assert mark(NUMBERQ, "42.2").right is False
    assert mark(NUMBERQ, "42.2", Rules(tolerance_factor=2)).right is True


def test_the_last_digit_of_a_sum_does_not_decide():
    q = Question("n", NUMBER, "t", "?", 0.3, 1, "h", ("w",), "m", 0.1)
    assert mark(q, "0.4").right is True
    assert mark(q, "0.2").right is True


claims = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=6),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(
            st.sampled_from(["tries", "given", "hint", "worked_after", "score", "earned", "points"]), inner, max_size=5
        )
    ),
    max_leaves=12,
)


@given(claims)
def test_no_claim_earns_a_point(claim):
    for question in (NUMBERQ, CHOICEQ, CHOICESQ, ORDERQ):
        result = score(question, claim)
        assert result.earned in (0, question.points)
        if result.earned:
            assert any(mark(question, t.get("given")).right for t in claim["tries"] if isinstance(t, dict))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (dict(tolerance=0), "needs a tolerance above 0"),
        (dict(answer=float("nan")), "needs a tolerance above 0 and an answer"),
        (dict(wrong_turns=(WrongTurn(42.2, "near", ""),)), "the wrong turn “near” gives 42.2, within 0.2"),
        (dict(kind=CHOICE, options=OPTIONS, answer="z"), "the answer 'z' is not among the options"),
        (dict(kind=CHOICE, options=(("a", "x"), ("b", "x")), answer="a"), "two options are the same"),
        (dict(kind=CHOICES, options=OPTIONS, answer=frozenset()), "none or not among the options"),
        (dict(kind=ORDER, options=OPTIONS, answer=("a", "b")), "does not hold every option once"),
        (
            dict(kind=CHOICE, options=OPTIONS, answer="a", wrong_turns=(WrongTurn("a", "same", ""),)),
            "“same” is the answer",
        ),
    ],
)
def test_unsound_questions_are_named(change, says):
    assert any(says in problem for problem in unsound(NUMBERQ._replace(**change)))
