"""A question set of an instructor's own: the template works, and every mistake is shown with its line."""

from pathlib import Path

import pytest
import walkaround.classroom
from walkaround.assessment.judging import mark
from walkaround.assessment.question_file import QuestionFile, QuestionFileError
from walkaround.assessment.questions import paper
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
    for name in ("wind_2", "Wind", "../x", "loading", ""):
        with pytest.raises(ValueError, match=r"is there already|the name is"):
            question_sets.new(tmp_path, name)


def line_of(text, piece):
    return text[: text.index(piece)].count("\n") + 1


@pytest.mark.parametrize(
    ("old", "new", "line_at", "says"),
    [
        ("pounds = kilograms / POUND_KG", "pounds = kilograms / 0", "pounds = kilograms / 0", "ZeroDivisionError"),
        ("pounds = kilograms / POUND_KG", "pounds = kilogram / POUND_KG", "pounds = kilogram /", "NameError: name 'kilogram'"),
        ("def write(variant):", "def write(variant)", "def write(variant)", "expected ':'"),
        ("tolerance=0.5", "tolerance=0", 'key="pounds"', "tolerance is 0; allowed: a number above 0"),
        ("answer=pounds", 'answer="pounds"', 'key="pounds"', "answer is 'pounds'; allowed: a number"),
        ("answer=pounds", 'answer=float("nan")', 'key="pounds"', "answer is nan"),
        ("points=2", "points=0", 'key="pounds"', "points is 0; allowed: a whole number from 1"),
        ("kind=CHOICE", 'kind="guess"', 'key="placard"', "kind is 'guess'"),
        ('"yes" if fits else "no") if clear', '"yse" if fits else "nay") if clear', 'key="placard"', "is not among the options"),
        ('WrongTurn(kilograms, "kilo', 'WrongTurn(pounds + 0.1, "kilo', 'key="pounds"', "the wrong turn “kilograms taken as pounds”"),
        ('key="placard"', 'key="pounds"', 'key="pounds"', "stands twice"),
        ('NAME = "bags"', 'NAME = "My bags"', 'NAME = "My', "NAME is 'My bags'"),
        ('TITLE = "Bags in two units"', "TITLE = 3", "TITLE = 3", "TITLE is 3"),
        ("    return Paper(", "    return (", "def write", "allowed: a Paper"),
        ('worked=(f"{kilograms:g} kg ÷ 0.4536 kg/lb = {pounds:.1f} lb",)', 'worked="divide"', 'key="pounds"', "worked is not a tuple"),
        ("POUND_KG = 0.45359237", "raise SystemExit(3)\nPOUND_KG = 0.4", "raise SystemExit", "SystemExit"),
        ("def write", "def writes", "", "there is no function write"),
    ],
)  # fmt: skip
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
