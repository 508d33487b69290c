"""Numbers as people type them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.assessment.typed import number


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("41.9", 41.9), ("41,9", 41.9), (" 41.9 ", 41.9), ("1 240", 1240), ("1,240", 1240), ("1'240", 1240),
        ("1\u202f240,5", 1240.5), ("1\u00a0240", 1240), ("1,240.5", 1240.5), ("1.240,5", 1240.5), ("1,240,000", 1_240_000),
        ("1.240", 1.24), ("0,240", 0.24), ("12,40", 12.4), ("1240,", 1240), (".5", 0.5), (",5", 0.5), ("-3,5", -3.5),
        ("−7", -7), ("– 7", -7), ("+7", 7), ("3/4", 0.75), ("1 1/2", 1.5), ("-1 1/2", -1.5), ("½", 0.5), ("1½", 1.5),
        ("1e3", 1000), ("1.5E-1", 0.15), ("007", 7), ("41.9 in", 41.9), ("41.9in", 41.9), ("41,9 Inches", 41.9),
        ('41.9"', 41.9), ("41.9 in.", 41.9), ("٤١", 41),
    ],
)  # fmt: skip
def test_what_is_taken(text, value):
    assert number(text, "in") == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "nothing to mark yet"),
        ("   ", "nothing to mark yet"),
        ("abc", "“abc” is not a number"),
        ("nan", "is not a number"),
        ("inf", "is not a number"),
        ("12 40", "thousands stand in groups of three"),
        ("1,24,000", "thousands stand in groups of three"),
        ("1.2.3", "thousands stand in groups of three"),
        ("1,2.3,4", "more than one decimal mark"),
        ("1/0", "divides by zero"),
        ("41.9 mm", "asks for in, you wrote mm: give the number in in"),
        ("41.9 lb", "asks for in, you wrote lb"),
        ("41.9 apples", "not “apples” after it; give the number in in"),
        ("5 -", "not “-” after it"),
        ("1e99", "out of all bounds"),
        ("5; drop", "after it"),
    ],
)
def test_what_is_wrong_is_said(text, says):
    with pytest.raises(ValueError, match=says):
        number(text, "in")


@given(st.floats(-1e6, 1e6).map(lambda x: round(x, 3)))
def test_every_way_of_writing_a_number_is_read_as_that_number(x):
    point = f"{x:.3f}"
    assert number(point) == x
    if abs(x) < 1000 and not point.lstrip("-")[0].isdigit():
        return
    assert number(f"{x:,.3f}") == x
    assert number(f"{x:,.3f}".replace(",", " ")) == x
    swapped = f"{x:,.3f}".translate(str.maketrans(",.", ".,"))
    if "." in swapped:
        assert number(swapped) == x
    assert number(f"{x:.2f}".replace(".", ",")) == float(f"{x:.2f}")


@given(st.text(max_size=30))
def test_any_text_gives_a_number_or_words(text):
    try:
        assert isinstance(number(text, "lb"), float)
    except ValueError as error:
        assert str(error)  # noqa: PT017 - both ways are right
