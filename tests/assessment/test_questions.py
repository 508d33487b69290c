"""Questions and papers: what is unfair is named, and drawn again."""

import pytest
from walkaround.assessment.builders import choice, choices, number, order
from walkaround.assessment.questions import CHOICE, CHOICES, MOST_DRAWS, ORDER, Paper, WrongTurn, paper, unsound

OPTIONS = (("a", "first"), ("b", "second"), ("c", "third"))
Q = number("q", "t", "?", answer=41.9, unit="in", tolerance=0.2, points=3, hint="h", worked="w")
CLEAR = (WrongTurn(419.0, "far", ""), WrongTurn(42.31, "near", ""), WrongTurn(41.49, "near", ""))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"tolerance": 0}, "q: a number needs a tolerance above 0 and an answer"),
        ({"tolerance": -1}, "q: a number needs a tolerance above 0 and an answer"),
        ({"answer": float("nan")}, "q: a number needs a tolerance above 0 and an answer"),
        (
            {"wrong_turns": (WrongTurn(42.2, "s", ""),)},
            "q: the wrong turn “s” gives 42.2, within 0.2 of the answer 41.9",
        ),
        # Twice the tolerance is too near, and it does not hang on the last digit: 42.3 − 41.9 is not 0.4 exactly.
        (
            {"wrong_turns": (WrongTurn(42.3, "s", ""),)},
            "q: the wrong turn “s” gives 42.3, within 0.2 of the answer 41.9",
        ),
        (
            {"wrong_turns": (WrongTurn(41.5, "s", ""),)},
            "q: the wrong turn “s” gives 41.5, within 0.2 of the answer 41.9",
        ),
        ({"kind": CHOICE, "options": OPTIONS, "answer": "z"}, "q: the answer 'z' is not among the options"),
        ({"kind": CHOICE, "options": (("a", "x"), ("b", "x")), "answer": "a"}, "q: two options are the same"),
        ({"kind": CHOICE, "options": (("a", "x"), ("a", "y")), "answer": "a"}, "q: two options are the same"),
        (
            {"kind": CHOICES, "options": OPTIONS, "answer": frozenset()},
            "q: the right choices [] are none or not among the options",
        ),
        (
            {"kind": CHOICES, "options": OPTIONS, "answer": frozenset("az")},
            "q: the right choices ['a', 'z'] are none or not among the options",
        ),
        ({"kind": ORDER, "options": OPTIONS, "answer": ("a", "b")}, "q: the order does not hold every option once"),
        ({"kind": ORDER, "options": OPTIONS, "answer": tuple("abcc")}, "q: the order does not hold every option once"),
        (
            {"kind": CHOICE, "options": OPTIONS, "answer": "a", "wrong_turns": (WrongTurn("a", "s", ""),)},
            "q: the wrong turn “s” is the answer",
        ),
    ],
)
def test_unsound_questions_are_named(change, says):
    assert unsound(Q._replace(**change)) == [says]


def test_sound_questions():
    rest = {"points": 1, "hint": "h", "worked": "w"}
    assert unsound(Q._replace(wrong_turns=CLEAR)) == []
    assert unsound(choice("q", "t", "?", answer="a", options=OPTIONS, wrong=[("b", "s", "x")], **rest)) == []
    assert unsound(choices("q", "t", "?", answer="ab", options=OPTIONS, wrong=[("c", "s", "x")], **rest)) == []
    assert unsound(order("q", "t", "?", steps=OPTIONS, shown=OPTIONS[::-1], wrong=[("cba", "s", "x")], **rest)) == []


class Author:
    """An exercise whose numbers are unclear in its first draws."""

    NAME = "made up"

    def __init__(self, unclear):
        self.unclear, self.seen = unclear, []

    def write(self, variant):
        self.seen.append(variant)
        tolerance = 0 if variant.attempt < self.unclear else 0.2
        questions = (Q, Q._replace(key="r", points=4, tolerance=tolerance))
        return Paper(self.NAME, "Made up", variant.student, variant.course, questions)


def test_unclear_numbers_are_drawn_again():
    author = Author(unclear=3)
    made = paper(author, "Ines", "Spring", "secret")
    assert [v.attempt for v in author.seen] == [0, 1, 2, 3]
    assert {(v.course, v.student, v.exercise, v.key) for v in author.seen} == {("Spring", "Ines", "made up", "secret")}
    assert (made.student, made.course, made.points) == ("Ines", "Spring", 7)
    assert paper(Author(0), "Ines").course == "home"


def test_an_exercise_without_sound_numbers_is_a_mistake_in_words():
    author = Author(unclear=10**6)
    with pytest.raises(ValueError, match=r"'made up' has no sound numbers for 'Ines': r: a number needs a tolerance"):
        paper(author, "Ines")
    assert len(author.seen) == MOST_DRAWS


def test_a_question_is_found_by_its_key():
    made = paper(Author(0), "Ines")
    assert made.question("r").points == 4
    with pytest.raises(ValueError, match=r"^question 's' is not in this exercise; allowed: q, r$"):
        made.question("s")
