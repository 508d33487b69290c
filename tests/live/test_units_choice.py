"""The choice of units: remembered, followed by all that is open, and the controls keep what they stand for."""

import pytest
from walkaround import measures
from walkaround.lessons import loading
from walkaround.live import units_choice


@pytest.fixture(autouse=True)
def _own_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("JUPYTER_CONFIG_DIR", str(tmp_path / "config"))
    monkeypatch.delenv(units_choice.VARIABLE)
    yield
    units_choice._unsaved.clear()


def test_a_choice_is_remembered_and_shown_by_all_that_is_open():
    first, other = loading.demo(), loading.holds()
    first.set(**{"front seats": 300, "left tank": 12.0})
    assert first.controls["front seats"].unit == "lb"
    units_choice.choose(measures.METRIC)
    assert units_choice.remembered() == measures.METRIC
    assert first.controls["front seats"].unit == "kg"
    assert " kg" in first.words
    assert " kg" in other.words
    assert loading.demo().controls["front seats"].unit == "kg"
    units_choice.choose(None)
    assert first.controls["front seats"].unit == "lb"


def test_the_controls_keep_the_quantities_that_they_stand_for():
    stage = loading.demo()
    stage.set(**{"front seats": 300, "rear seats": 100, "left tank": 12.0, "trip fuel": 5.0})
    before = stage.values
    units_choice.choose(measures.METRIC)
    assert stage.values["front seats"] == pytest.approx(300 * 0.45359237, abs=0.5)  # half a step of 1 kg
    assert stage.values["left tank"] == pytest.approx(12 * 3.785411784, abs=0.5)
    units_choice.choose(measures.US)
    for name, value in before.items():
        if isinstance(value, int | float):
            assert stage.values[name] == pytest.approx(value, abs=stage.controls[name].step / 2 + 1e-9)


def test_a_folder_that_cannot_be_written_keeps_the_choice_for_the_page(tmp_path):
    (tmp_path / "config").write_text("a file where a folder should be")
    units_choice.choose(measures.METRIC)
    assert units_choice.remembered() == measures.METRIC
    units_choice.choose(None)
    assert units_choice.remembered() is None


@pytest.mark.parametrize("text", ["furlongs", "", "\x00", "METRIC"])
def test_what_is_no_system_counts_as_no_choice(tmp_path, text):
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "walkaround-units.txt").write_text(text)
    assert units_choice.remembered() is None
