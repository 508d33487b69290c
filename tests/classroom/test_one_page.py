"""Load sheet, warm-up table and the round's list: each on exactly one page, on either sheet, with the right numbers."""

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from walkaround import aircraft, measures
from walkaround.classroom import load_figure, one_page, to_pdf
from walkaround.classroom.pages import SHEETS
from walkaround.lessons import preheat
from walkaround.lessons.table import LESSONS

NAMES = {"load-sheet.pdf", "load-sheet-blank.pdf", "warm-up-table.pdf", "round.pdf"}


@pytest.mark.skipif(not to_pdf.chromium(), reason="no Chromium")
@pytest.mark.parametrize("sheet", SHEETS)
def test_each_is_one_page(sheet, tmp_path):
    written = one_page.print_all(tmp_path, sheet)
    assert {path.name for path in written} == NAMES
    for path in written:
        # Chromium writes each page as an object of its own (ISO 32000, 7.7.3.3); a point is 1/72 in.
        data = path.read_bytes()
        assert len(re.findall(rb"/Type\s*/Page\b", data)) == 1, path.name
        box = sorted(float(x) for x in re.search(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", data).groups())
        assert box == pytest.approx([595.3, 841.9] if sheet == "A4" else [612, 792], abs=1), path.name
        assert (path.name == "warm-up-table.pdf") == (float(re.search(rb"\[0 0 ([\d.]+)", data)[1]) > 700)


def rows(page):
    soup = BeautifulSoup(page, "html.parser")
    return [[cell.get_text() for cell in row.find_all("td")] for row in soup.select("table.load tbody tr")]


def number(text):
    return float(text.replace(",", ""))


@pytest.mark.parametrize(
    ("name", "units"), [("morrowlark_four", None), ("tansy_two", None), ("morrowlark_four", measures.METRIC)]
)
def test_the_load_sheet_adds_up(name, units):
    """Each line and each sum, from the numbers that are printed, as someone does it by hand."""
    with measures.shown_in(units):
        found = rows(one_page.load_sheet_page(name))
        craft = aircraft.with_sections(name)
    near = {"lb": 1.0, "kg": 0.15}[craft.units.weight]
    weight = moment = 0.0
    for what, *cells in found:
        w, arm, m = map(number, cells)
        if what in ("zero fuel", "take-off", "landing"):
            assert w == pytest.approx(weight, abs=2 * near)
            assert m == pytest.approx(moment, rel=2e-3)
            assert arm == pytest.approx(m / w, rel=2e-3)
        else:
            sign = -1 if what.startswith("less") else 1
            weight, moment = weight + sign * w, moment + sign * m
            assert m == pytest.approx(w * arm, rel=5e-3, abs=near)
    assert [what for what, *_ in found if what in ("zero fuel", "take-off", "landing")] == [
        "zero fuel",
        "take-off",
        "landing",
    ]
    assert len(found) == 1 + len(craft.stations) + len(craft.fuel.tanks) + 4


def test_the_blank_sheet_leaves_what_is_to_be_worked_out():
    page = one_page.load_sheet_page(blank=True).decode()
    filled = {what: cells for what, *cells in rows(page)}
    craft = aircraft.demo("morrowlark_four")
    assert filled.pop("empty aircraft") == ["1,540", "101.2", "155,848"]
    for s in craft.stations:
        assert filled.pop(f"{s.name} (at most {s.maximum:g} lb)") == ["", f"{s.arm:.1f}", ""]
    assert all(weight == moment == "" for weight, _, moment in filled.values())
    for text in ("take-off 2,610 lb", "hold A and hold B together 150 lb", "normal", "utility", "landing limit"):
        assert text in page


@pytest.mark.parametrize("units", measures.SYSTEMS)
def test_no_condition_s_name_stands_on_the_upper_limit_of_an_envelope(units, monkeypatch):
    drawn = []
    monkeypatch.setattr(load_figure, "svg_of", lambda figure: drawn.append(figure) or "")
    with measures.shown_in(units):
        one_page.load_sheet_page()
        tops = [max(e.envelope.weights) for e in aircraft.with_sections(one_page.AIRCRAFT).envelopes]
    axes = drawn[0].axes[0]
    heights = [axes.transData.transform((axes.get_xlim()[0], top))[1] for top in tops]
    names = [text.get_window_extent() for text in axes.texts if text.get_text() in load_figure.MARKS]
    assert len(names) == 3
    # The line and the white behind a name take 3 px.
    assert all(box.y1 < height - 4 or box.y0 > height + 4 for box in names for height in heights)


def test_the_warm_up_table_is_the_library_s():
    page = BeautifulSoup(one_page.warm_up_page(), "html.parser")
    assert page.figure["aria-label"] == repr(preheat.hangar_table())
    drawn = [text.get_text() for text in page.find_all("text")]
    assert {
        "0 °C",
        "−30 °C",
        "204 min",
        "Fire: keep clear of fuel, extinguisher at hand; never refuel a running heater.",
    } <= set(drawn)


def test_the_round_has_every_stop_and_is_whole_without_scripts():
    soup = BeautifulSoup(one_page.round_page(), "html.parser")
    assert [h2.get_text() for h2 in soup.find_all("h2")] == [f"{x.number} · {x.title}" for x in LESSONS]
    assert "overflow:visible" in str(soup.noscript)
    assert all(item.find("li") for item in soup.select("main > ol > li"))


def test_a_path_of_an_aircraft_file_will_do(tmp_path):
    path = tmp_path / "ours.toml"
    path.write_text(Path(aircraft.__file__).with_name("tansy_two.toml").read_text(encoding="utf-8"), encoding="utf-8")
    assert rows(one_page.load_sheet_page(str(path))) == rows(one_page.load_sheet_page("tansy_two"))
