"""Numbers as people type them."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround import measures
from walkaround.assessment.typed import WRITTEN, in_unit, is_converted, number, two_readings


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("41.9", 41.9), ("41,9", 41.9), (" 41.9 ", 41.9), ("1 240", 1240), ("1,240", 1240), ("1'240", 1240),
        ("1’240", 1240), ("1\u202f240,5", 1240.5), ("1\u00a0240", 1240), ("1,240.5", 1240.5), ("1.240,5", 1240.5),
        ("1,240,000", 1_240_000), ("1.240.000", 1_240_000), ("1.240", 1.24), ("0,240", 0.24), ("12,40", 12.4),
        ("1234,567", 1234.567), ("1240,", 1240), (".5", 0.5), (",5", 0.5), ("-3,5", -3.5), ("−7", -7), ("– 7", -7),
        ("+7", 7), ("- 1,240", -1240), ("3/4", 0.75), ("3 / 4", 0.75), ("3⁄4", 0.75), ("1 1/2", 1.5), ("-1 1/2", -1.5),
        ("+1/2", 0.5), ("½", 0.5), ("1½", 1.5), ("1e3", 1000), ("1.5E-1", 0.15), ("2e+2", 200), ("1e30", 1e30),
        ("007", 7), ("41.9 in", 41.9), ("41.9in", 41.9), ("41,9 Inches", 41.9), ('41.9"', 41.9), ("41.9 in.", 41.9),
        ("1/2 inch", 0.5), ("٤١", 41), ("９.５", 9.5), ("1,234,567,890.5", 1_234_567_890.5), ("9" * 60, float("9" * 60)),
    ],
)  # fmt: skip
def test_what_is_taken(text, value):
    assert number(text, "in") == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "there is nothing to mark yet: type a number"),
        (" \t ", "there is nothing to mark yet: type a number"),
        ("abc", "“abc” is not a number: type figures, such as 41.9 or 1,240"),
        ("nan", "“nan” is not a number"),
        ("inf", "“inf” is not a number"),
        ("9" * 61, f"“{'9' * 39}…” is not a number"),
        ("x" * 40, f"“{'x' * 40}” is not a number"),
        ("x" * 41, f"“{'x' * 39}…” is not a number"),
        ("12 40", "“12 40” is not one number: thousands stand in groups of three, as in 1 240"),
        ("1,24,000", "thousands stand in groups of three"),
        ("1234 567", "thousands stand in groups of three"),
        ("1.2.3", "thousands stand in groups of three"),
        ("1,2.3,4", "“1,2.3,4” has more than one decimal mark"),
        ("1.240 5", "“1.240 5” is not one number: there is a gap after the decimal mark"),
        ("1/0", "“1/0” divides by zero"),
        ("41.9 mm", "this question asks for in, you wrote mm: give the number in in"),
        ("41.9 lb", "this question asks for in, you wrote lb"),
        ("1,240 apples", "I can read the number 1,240, but not “apples” after it; give the number in in"),
        ("5 -", "not “-” after it"),
        ("1e31", "“1e31” is out of all bounds"),
        ("1e-31", "“1e-31” is out of all bounds"),
        ("5; drop", "I can read the number 5, but not “; drop” after it"),
        ("1/2/3", "I can read the number 1, but not “/2/3” after it"),
    ],
)
def test_what_is_wrong_is_said(text, says):
    with pytest.raises(ValueError) as error:  # noqa: PT011 - the words are compared below, whole
        number(text, "in")
    assert str(error.value).startswith(says) or str(error.value).endswith(says) or says in str(error.value)


def test_without_a_unit_none_is_taken():
    assert number("7") == 7
    with pytest.raises(ValueError, match=r"^I can read the number 7, but not “lb” after it; give the number alone$"):
        number("7 lb")


def test_a_unit_without_other_ways_to_write_it_is_taken_as_it_is_written():
    assert number("7 Volts", "volts") == 7
    with pytest.raises(ValueError, match="give the number in volts"):
        number("7 amps", "volts")


def test_every_way_to_write_a_unit():
    for unit, ways in WRITTEN.items():
        for written in (unit, *ways):
            assert number(f"7 {written}", unit) == number(f"7{written.upper()}", unit) == 7, (unit, written)


@given(st.floats(-1e6, 1e6).map(lambda x: round(x, 3)))
def test_every_way_of_writing_a_number_is_read_as_that_number(x):
    point = f"{x:.3f}"
    assert number(point) == x
    assert number(f"{x:,.3f}") == x
    assert number(f"{x:,.3f}".replace(",", " ")) == x
    swapped = f"{x:,.3f}".translate(str.maketrans(",.", ".,"))
    if "." in swapped:
        assert number(swapped) == x
    assert number(f"{x:.2f}".replace(".", ",")) == float(f"{x:.2f}")


def test_both_readings_of_every_shape():
    signs, wholes, rests = (
        ("", "-", "−", "– ", "+"),
        ("1", "51", "158", "10", "100", "98"),
        ("000", "240", "500", "655"),
    )
    for sign, whole, mark, rest in product(signs, wholes, ".,", (*rests, "005", "378")):
        minus = -1 if sign.strip() in ("-", "−", "–") else 1
        for text in (f"{sign}{whole}{mark}{rest}", f" {sign}{whole}{mark}{rest} lb"):
            first, second = two_readings(text)
            # The whole number keeps its figures, the other the mark that was typed; each is read in one way.
            assert first == f"{'-' if minus < 0 else sign.strip()}{whole}{rest}"
            assert number(first) == minus * int(whole + rest)
            assert number(second) == minus * float(f"{whole}.{rest}")
            assert mark in second or rest == "000"
            assert two_readings(first) is two_readings(second) is None
            # And the text itself is read as one of the two.
            assert number(text, "lb") == number(second if mark == "." else first)


def test_what_has_one_reading():
    plain = ("", "abc", "0,240", "0.240", ",240", "007,240", "1,24", "1.24", "1,2400", "1234,567")
    for text in (*plain, "1 240", "1'240", "1,240.5", "1,240,000", "1,240 500", "1.240e3"):
        assert two_readings(text) is None, text


@given(st.text(max_size=30))
def test_any_text_gives_a_number_or_words(text):
    two_readings(text)
    try:
        assert isinstance(number(text, "lb"), float)
    except ValueError as error:
        assert str(error)  # noqa: PT017 - both ways are right


@pytest.mark.parametrize("text", ["1e" + "9" * 5000, "9" * 5000 + "/3", "1" * 5000])
def test_a_text_without_end_is_refused_in_words(text):
    with pytest.raises(ValueError, match="is not a number: type figures"):
        number(text)


@pytest.mark.parametrize("unit", sorted({u for us, metric, *_ in measures.PAIRS for u in (us, metric)}))
def test_a_number_is_read_with_any_unit_that_may_be_kept_with_it(unit):
    assert number(in_unit("1,5", unit), unit, converts=True) == 1.5


def test_degrees_of_the_other_scale_are_asked_back_and_never_multiplied():
    with pytest.raises(ValueError, match="asks for °C, you wrote °F"):
        number("59 °F", "°C", converts=True)
    assert not is_converted("59 °F", "°C")
    assert number("10 kg", "lb", converts=True) == pytest.approx(22.046, abs=0.001)  # NIST SP 811, Appendix B
