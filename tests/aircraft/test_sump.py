"""The [engine.oil.sump] section: what it says of the demo aircraft, and every mistake named."""

import copy
import tomllib

import pytest
from walkaround import aircraft
from walkaround.physics.oil import from_dipstick, holds_on_slope

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_sumps_belong_to_their_dipsticks(name):
    oil = aircraft.demo(name).engine.oil
    lowest = oil.dipstick_quantities[0]
    # With oil at the lowest mark the floor is covered on any slope that is parked on.
    depth = oil.sump.depth(oil.litres(lowest))
    assert holds_on_slope(oil.sump.length, oil.sump.width, depth, 8.0, 8.0)
    # On a slope of 3° the stick of either aircraft is wrong by a third of a quart or about as much in litres.
    middle = (oil.dipstick_marks[0] + oil.dipstick_marks[-1]) / 2
    reads = [from_dipstick(middle + oil.sump.rise(deg), oil.dipstick_marks, oil.dipstick_quantities) for deg in (0, 3)]
    assert 0.03 < abs(reads[1] - reads[0]) / oil.full < 0.06


def test_a_quart_and_a_litre_have_their_volume():
    four, two = aircraft.demo("morrowlark_four").engine.oil, aircraft.demo("tansy_two").engine.oil
    # A US gallon has 231 cubic inches, [SP811].
    assert four.sump.depth(four.litres(4.0)) * 11.1 * 8.0 == pytest.approx(231.0)
    assert two.sump.depth(two.litres(2.0)) * 22.2 * 15 == pytest.approx(2000.0)
    assert four.sump.still_up(8.0) == pytest.approx(0.3)


def test_the_greatest_consumption_is_in_the_aircrafts_own_unit():
    # By hand: 0.006 · 95 / 7.5 · 4 = 0.304 qt/h, and a US quart is 0.946353 L.
    assert aircraft.demo("tansy_two").engine.greatest_oil_per_hour == pytest.approx(0.304 * 0.946353, rel=1e-6)
    assert aircraft.demo("morrowlark_four").engine.greatest_oil_per_hour == pytest.approx(0.576)


def test_an_engine_needs_no_sump():
    data = copy.deepcopy(FOUR)
    del data["engine"]["oil"]["sump"]
    assert aircraft.check(data, "four.toml").engine.oil.sump is None


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"refill_at": 4.5}, "engine.oil: sump.refill_at 4.5; allowed: from minimum, 5, to usual, 7"),
        ({"stick_forward": 6.0}, "engine.oil: sump.stick_forward 6, stick_right 2.5; allowed: inside the sump, 5.55"),
        ({"stick_right": -4.5}, "sump.stick_forward -4, stick_right -4.5; allowed: inside the sump"),
        ({"stick_right": 4.5}, "sump.stick_forward -4, stick_right 4.5; allowed: inside the sump"),
        ({"stick_forward": -6.0}, "sump.stick_forward -6, stick_right 2.5; allowed: inside the sump"),
        ({"length_unit": "cm"}, "engine.oil: sump of 11.1 by 8 cm would rise 43 from the lowest mark to the highest"),
        (
            {"width": 5.0},
            "sump of 11.1 by 5 in would rise 4.2 from the lowest mark to the highest, which are 2.6 apart",
        ),
        ({"width": 6.2}, "sump of 11.1 by 6.2 in would rise 3.4 from the lowest mark to the highest"),
        ({"bottle": 0}, "engine.oil.sump.bottle is 0; allowed: more than 0"),
        ({"depth": 3.0}, "engine.oil.sump.depth is 3.0; allowed: no such key here"),
    ],
)
def test_each_mistake_is_named(change, says):
    data = copy.deepcopy(FOUR)
    data["engine"]["oil"]["sump"].update(change)
    with pytest.raises(aircraft.AircraftFileError) as caught:
        aircraft.check(data, "four.toml")
    assert says in str(caught.value)
