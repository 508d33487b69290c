"""The choice of units: remembered, followed by all that is open, and the controls keep what they stand for."""

import re

import pytest
from matplotlib.text import Text
from walkaround import measures
from walkaround.lessons import controls, loading, pitot_static
from walkaround.live import units_choice

pytestmark = pytest.mark.usefixtures("own_choice_of_units")


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


def test_an_open_takeoff_roll_loses_its_feet_when_metric_is_chosen():
    roll = pitot_static.takeoff_roll()
    picture = roll.live.picture
    assert picture.runway.get_xlabel() == "distance from brakes off, ft"
    units_choice.choose(measures.METRIC)
    picture = roll.live.picture
    texts = [roll.said, picture.runway.get_xlabel()] + [t.get_text() for t in picture.figure.findobj(Text)]
    assert not [text for text in texts if re.search(r"\bft\b|\bfeet\b", text)]
    assert picture.runway.get_xlabel() == "distance from brakes off, m"
    assert (roll.controls["runway"].unit, roll.values["runway"]) == ("m", 670)  # 2,200 ft
    assert "340 m" in "".join(texts)
    units_choice.choose(measures.US)
    assert (roll.controls["runway"].unit, roll.values["runway"]) == ("ft", 2200)


def test_the_standard_altimeter_setting_stays_the_standard_one():
    dials = pitot_static.dials()
    before = dials.words
    for system, unit, setting in ((measures.METRIC, "hPa", 1013), (measures.US, "inHg", 29.92)):
        units_choice.choose(system)
        assert (dials.controls["setting"].unit, dials.values["setting"]) == (unit, setting)
        assert dials.words == before == "All three instruments are right."
    dials.set(setting=30.12)
    units_choice.choose(measures.METRIC)
    assert dials.values["setting"] == 1020


def test_a_new_round_hides_its_fault_in_the_units_chosen_later_too():
    guess = pitot_static.guess()
    guess.set(round=2, moment=400, reveal=True)
    units_choice.choose(measures.METRIC)
    assert (guess.values["round"], guess.values["moment"], guess.values["reveal"]) == (2, 400, True)
    shown = []
    guess.live.draw = lambda worked, draw=guess.live.draw: shown.append(worked[2:]) or draw(worked)
    guess.set(round=3)
    assert shown == [(60, [], False)]  # the moment, the changes, whether to reveal


def test_a_number_sent_before_the_screen_had_the_other_units_is_not_taken_in_them():
    loads, sent = loading.demo(), []
    loads.send = lambda content, buffers=None: sent.append(content)
    loads._take(loads, {"set": {"front seats": 345}, "units": 0}, [])
    loads._take(loads, {"units": 2}, [])
    assert loads.values["front seats"] == 156  # kg: 345 lb
    loads._take(loads, {"set": {"front seats": 350}, "units": 0}, [])
    assert loads.values["front seats"] == sent[-1]["values"]["front seats"] == 156
    loads._take(loads, {"set": {"front seats": 157}, "units": 2}, [])
    assert loads.values["front seats"] == sent[-1]["values"]["front seats"] == 157


def test_a_drill_keeps_its_answers():
    drill = controls.drill()
    drill.set(clock=20)
    for answer in (1, 0, -1):
        drill.controls["answer"].take(answer)
    told = drill.live.picture._told.get_text()
    units_choice.choose(measures.METRIC)
    assert len(drill.values["answer"]) == 2
    assert drill.live.picture._told.get_text() == told


def test_what_was_opened_long_ago_is_left_alone():
    class Opened:
        shows = None

        def show_units(self, system):
            self.shows = system

    opened = [Opened() for _ in range(100)]
    for thing in opened:
        units_choice.follow(thing)
    units_choice.choose(measures.METRIC)
    assert [thing.shows for thing in opened] == [None] * 60 + [measures.METRIC] * 40
