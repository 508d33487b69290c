"""A question set of an instructor's own: the template works, and every mistake is shown with its line."""

import tomllib
from pathlib import Path

import numpy as np
import pytest
import walkaround.classroom
from walkaround.assessment import question_file
from walkaround.assessment.judging import mark
from walkaround.assessment.question_file import QuestionFile, QuestionFileError, malformed
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, Question, WrongTurn, paper
from walkaround.classroom import question_sets
from walkaround.units import POUND_KG

TEMPLATE = Path(walkaround.classroom.__file__).parent / "question_template.py"


def test_the_template_works_and_its_numbers_are_right():
    found = QuestionFile(TEMPLATE)
    found.check()
    assert {paper(found, f"s{i}").question("placard").answer for i in range(20)} == {"yes", "no"}
    for i in range(20):
        q = paper(found, f"s{i}").question("pounds")
        kilograms = float(q.text.split(" weighs ")[1].split(" kg")[0])
        assert mark(q, f"{kilograms / POUND_KG:.1f}").right  # the exact pound of 1959, from units.py
        assert mark(q, f"{kilograms * POUND_KG:.2f}").slip == "multiplied instead of divided"


def test_a_copy_has_its_own_name_and_works(tmp_path):
    path = question_sets.new(tmp_path, "wind_2")
    found = QuestionFile(path)
    found.check()
    assert found.NAME == "wind_2"
    for name in ("wind_2", "Wind", "../x", "loading", "", "argparse", "json", "walkaround", "numpy"):
        with pytest.raises(ValueError, match=r"already|the name is"):
            question_sets.new(tmp_path, name)


def line_of(text, piece):
    return text[: text.index(piece)].count("\n") + 1


@pytest.mark.parametrize(
    ("old", "new", "line_at", "says"),
    [
        ("pounds = kilograms / POUND_KG", "pounds = kilograms / 0", "pounds = kilograms / 0", "ZeroDivisionError"),
        ("= kilograms / POUND_KG", "= kilogram / POUND_KG", "= kilogram /", "NameError: name 'kilogram'"),
        ("def write(variant):", "def write(variant)", "def write(variant)", "expected ':'"),
        ("tolerance=0.5", "tolerance=0", 'key="pounds"', "tolerance is 0; allowed: a number above 0"),
        ("answer=pounds", 'answer="pounds"', 'key="pounds"', "answer is 'pounds'; allowed: a number"),
        ("answer=pounds", 'answer=float("nan")', 'key="pounds"', "answer is nan"),
        ("points=2", "points=0", 'key="pounds"', "points is 0; allowed: a whole number from 1"),
        ('"yes" if fits else "no") if', '"yse" if fits else "nay") if', 'key="placard"', "is not among the options"),
        ("(kilograms, ", "(pounds + 0.1, ", 'key="pounds"', "the wrong turn “kilograms taken as pounds”"),
        ('key="placard"', 'key="pounds"', 'key="pounds"', "stands twice"),
        (
            '"no") if clear else "unclear"',
            '"no") if clear else 5',
            'key="placard"',
            "answer is 5; allowed: an option's key",
        ),
        ('NAME = "bags"', 'NAME = "My bags"', 'NAME = "My', "NAME is 'My bags'"),
        ('TITLE = "Bags in two units"', "TITLE = 3", "TITLE = 3", "TITLE is 3"),
        ("    return Paper(", "    return (", "def write", "allowed: a Paper"),
        ("POUND_KG = 0.45359237", "raise SystemExit(3)\nPOUND_KG = 0.4", "raise SystemExit", "SystemExit"),
        ("def write", "def writes", "", "there is no function write"),
    ],
)
def test_a_mistake_is_shown_with_its_line(tmp_path, old, new, line_at, says):
    text = TEMPLATE.read_text(encoding="utf-8")
    assert old in text
    text = text.replace(old, new)
    (tmp_path / "mine.py").write_text(text, encoding="utf-8")
    with pytest.raises(QuestionFileError) as error:
        QuestionFile(tmp_path / "mine.py").check()
    assert says in str(error.value)
    place, line = str(error.value).split(":")[0].split(", line ")
    at = line_of(text, line_at) if line_at else 1
    # A question's line is the one on which it begins, at most one above its key.
    assert place == "mine.py"
    assert at - 1 <= int(line) <= at


SOUND = Question("q", NUMBER, "t", "?", 5.0, 1, "h", ("w",), "lb", 0.5, wrong_turns=(WrongTurn(9.0, "s", "x"),))
PAIRS = (("a", "first"), ("b", "second"))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"title": " "}, "title is ' '; allowed: a text"),
        ({"hint": None}, "hint is None; allowed: a text"),
        ({"kind": "guess"}, "kind is 'guess'; allowed: 'number', 'choice', 'several choices', 'order'"),
        ({"points": True}, "points is True; allowed: a whole number from 1"),
        ({"points": 1.0}, "points is 1.0; allowed"),
        ({"most_tries": -1}, "most_tries is -1; allowed: a whole number from 0"),
        ({"worked": "divide"}, "worked is not a tuple of texts"),
        ({"worked": (5,)}, "worked is not a tuple of texts"),
        ({"options": ["a"]}, "options is not a tuple of (key, text) pairs"),
        ({"options": (("a", 5),)}, "options is not a tuple of (key, text) pairs"),
        (
            {"kind": CHOICE, "answer": "a", "options": PAIRS[:1], "wrong_turns": ()},
            "the number of options is 1; allowed: two",
        ),
        ({"wrong_turns": [9.0]}, "wrong_turns is not a tuple"),
        ({"wrong_turns": (9.0,)}, "a wrong turn is 9.0; allowed: WrongTurn(answer, slip, says)"),
        ({"wrong_turns": (WrongTurn("9", "s", "x"),)}, "the wrong turn “s” is '9'; allowed: a number"),
        ({"answer": True}, "answer is True; allowed: a number"),
        ({"answer": np.int64(5)}, "answer is np.int64(5); allowed: a number, a float or an int"),
        ({"answer": float("inf")}, "answer is inf; allowed: a number"),
        ({"tolerance": "wide"}, "tolerance is 'wide'; allowed: a number above 0"),
        ({"kind": CHOICE, "answer": 5, "options": PAIRS, "wrong_turns": ()}, "answer is 5; allowed: an option's key"),
        ({"kind": CHOICES, "answer": "a", "options": PAIRS, "wrong_turns": ()}, "allowed: a frozenset of keys"),
        ({"kind": ORDER, "answer": ("a", 2), "options": PAIRS, "wrong_turns": ()}, "allowed: a tuple of keys"),
    ],
)
def test_a_field_of_the_wrong_kind_is_named(change, says):
    assert malformed(SOUND) == []
    (problem,) = malformed(SOUND._replace(**change))
    assert says in problem


def test_files_that_are_no_question_set(tmp_path):
    (tmp_path / "latin.py").write_bytes("# \n# é".encode("latin-1"))
    (tmp_path / "zero.py").write_bytes(b"x = 1\0")
    (tmp_path / "large.py").write_bytes(b"#" * 600_000)
    for name, says in (
        ("latin", "line 2: not UTF-8"),
        ("zero", "null"),
        ("large", "larger than"),
        ("none", "can't be read"),
    ):
        with pytest.raises(QuestionFileError, match=says):
            QuestionFile(tmp_path / f"{name}.py")


@pytest.mark.parametrize("name", ["argparse", "random", "Json", "walkaround", "numpy"])
def test_a_set_can_not_carry_the_name_of_a_module(tmp_path, name):
    path = tmp_path / f"{name}.py"
    path.write_text("raise SystemExit\n")
    with pytest.raises(QuestionFileError, match=f"{name}.py, line 1: the file has the name of a module"):
        QuestionFile(path)


def test_every_module_that_the_workbook_needs_is_taken():
    settings = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text(encoding="utf-8"))
    needed = {line.partition(">")[0].replace("-", "_") for line in settings["project"]["dependencies"]}
    # Two are imported under another name, in capitals, which no question set can have.
    assert needed - {"ipython", "pillow"} <= question_file.TAKEN


@pytest.mark.parametrize(
    ("old", "new", "line_at", "says"),
    [
        ("points=2", 'points=variant.pick("p", (1, 2))', 'key="pounds"', "points of 'pounds' is"),
        ('key="pounds"', 'key=variant.pick("k", ("pounds", "lb"))', "def write", "allowed: the same for all"),
        ("pounds = kilograms / POUND_KG", "pounds = kilograms / POUND_KG * random.random()", 'key="pounds"', "again"),
        (
            "pounds = kilograms / POUND_KG",
            "seen.append(1)\n    pounds = kilograms + len(seen)",
            'key="pounds"',
            "again",
        ),
        ("    kilograms = ", "    kilograms = START + ", 'key="pounds"', "is another question when the same paper"),
        ("pounds = kil", 'pounds = 1 / variant.number("n", 0, 60) * kil', "pounds = 1", "ZeroDivisionError"),
    ],
)
def test_every_student_gets_the_same_questions_and_the_same_paper_each_time(tmp_path, old, new, line_at, says):
    text = TEMPLATE.read_text(encoding="utf-8")
    assert old in text
    text = text.replace(old, new).replace("NAME =", "import random\n\nseen = []\nSTART = random.random()\nNAME =")
    (tmp_path / "mine.py").write_text(text, encoding="utf-8")
    with pytest.raises(QuestionFileError, match=says) as error:
        QuestionFile(tmp_path / "mine.py").check()
    line, at = int(str(error.value).split(":")[0].split(", line ")[1]), line_of(text, line_at)
    assert at - 1 <= line <= at
