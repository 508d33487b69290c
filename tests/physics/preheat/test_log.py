"""Thermometer logs: what a spreadsheet writes is read, and a mistake is named by line and column."""

import numpy as np
import pytest
from walkaround.physics.preheat.log import log_from_text, read_log

PLAIN = """minutes,oil_c,metal_c,outside_c,air_c,heater
0,-9.5,-10,-12,45,on
5,-7,-8.5,-12,46,on
10,-5,-6.25,-11.5,,off
"""


def test_plain_log():
    log = log_from_text(PLAIN)
    assert log.minutes.tolist() == [0.0, 5.0, 10.0]
    assert log.parts_c["metal"].tolist() == [-10.0, -8.5, -6.25]
    assert log.outside_c.tolist() == [-12.0, -12.0, -11.5]
    assert log.heater_on.tolist() == [True, True, False]
    assert log.air_c[:2].tolist() == [45.0, 46.0]
    assert np.isnan(log.air_c[2])


@pytest.mark.parametrize("divider", [";", "\t"])
def test_decimal_commas_and_other_dividers(divider):
    text = PLAIN.replace(",", divider).replace(".", ",")
    log = log_from_text("# made in a hangar\n\n" + text)
    assert log.parts_c["metal"].tolist() == [-10.0, -8.5, -6.25]


def test_fahrenheit_columns_in_any_order_and_case():
    log = log_from_text("Outside_F,note,Metal_C,Minutes,OIL_F\n14,cold,−3.5,0,32\n14,,-4,1,33.8\n")
    assert log.parts_c["oil"] == pytest.approx([0.0, 1.0])
    assert log.parts_c["metal"].tolist() == [-3.5, -4.0]
    assert log.outside_c == pytest.approx([-10.0, -10.0])
    assert not log.heater_on.any()


def test_file_with_a_byte_order_mark(tmp_path):
    path = tmp_path / "log.csv"
    path.write_text(PLAIN, encoding="utf-8-sig")
    log = read_log(path)
    assert (log.name, log.minutes.size) == ("log.csv", 3)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (PLAIN.replace("5,-7,", "5,,"), "log: line 3, column oil_c is empty; allowed: a number"),
        (PLAIN.replace("-6.25", "warm"), "line 4, column metal_c is 'warm'; allowed: a number"),
        (PLAIN.replace("-6.25", "nan"), "line 4, column metal_c is 'nan'; allowed: a number"),
        (PLAIN.replace("46,on", ",on"), "line 3, column air_c is empty"),
        (PLAIN.replace("5,-7,-8.5,-12,46,on", "5,-7,-8.5,-12"), "line 3 has 4 columns; allowed: 6, as line 1 has"),
        (PLAIN.replace("oil_c", "oil"), "line 1: column 'oil' is not known; allowed: minutes, heater"),
        (PLAIN.replace("outside_c", "note"), "column outside_c or outside_f is missing; there are: minutes, oil_c"),
        (PLAIN.replace("minutes", "note"), "column minutes is missing"),
        (PLAIN.replace("air_c", "oil_f"), "columns oil_c and oil_f; allowed: one column for oil"),
        (PLAIN.replace("10,-5", "5,-5"), "line 4, column minutes is 5, after 5; allowed: later"),
        (PLAIN.replace("-12,45", "-120,45"), "line 2, column outside_c is -120; allowed: −90 to 300 °C"),
        (PLAIN.replace("off", "cold"), "line 4, column heater is 'cold'; allowed: on or off"),
        (PLAIN.replace("air_c", "note"), "the heater is on, but there is no column air_c"),
        ("", "nothing in it"),
    ],
)
def test_a_mistake_is_named_by_line_and_column(text, words):
    with pytest.raises(ValueError, match=words):
        log_from_text(text)


def test_missing_and_unreadable_files(tmp_path):
    with pytest.raises(ValueError, match=r"none\.csv: there is no such file"):
        read_log(tmp_path / "none.csv")
    (tmp_path / "odd.csv").write_bytes(b"minutes;oil_c\n0;\xff\xfe")
    with pytest.raises(ValueError, match=r"odd\.csv is not UTF-8"):
        read_log(tmp_path / "odd.csv")
