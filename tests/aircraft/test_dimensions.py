"""The [dimensions] section: what is read, what follows from it, and every mistake named."""

import tomllib

import pytest
from walkaround import aircraft

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_demo_sections_say_that_they_are_invented(name):
    assert "invented" in aircraft.demo(name).dimensions.note.lower()


def test_areas_and_wheelbase():
    here = aircraft.demo("morrowlark_four").dimensions
    assert here.wheelbase == 119 - 54
    assert here.wing_area == pytest.approx(428 * 55)
    assert here.tailplane_area == pytest.approx(132 * 37)


def test_in_metres_inches_are_turned_and_metres_stay():
    four, two = (aircraft.demo(name) for name in ("morrowlark_four", "tansy_two"))
    assert four.dimensions.metres(four.units).span == pytest.approx(428 * 0.0254)
    assert four.dimensions.metres(four.units).wing == "high"
    assert two.dimensions.metres(two.units) == two.dimensions


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"nose_wheel": 7}, "dimensions.nose_wheel is 7.0; allowed: more than nose, 8"),
        ({"tail": 292}, "dimensions.tail is 292.0; allowed: more than tailplane_arm, 292"),
        (
            {"main_wheels": 112},
            "dimensions.main_wheels is 112.0; allowed: more than the aft-most CG of the limits, 112",
        ),
        ({"cg_height": -1}, "dimensions.cg_height is -1; allowed: more than 0"),
        ({"track": 0}, "dimensions.track is 0; allowed: more than 0"),
        ({"wing": "mid"}, "dimensions.wing is 'mid'"),
        ({"fin": 3}, "dimensions.fin is 3; allowed: no such key here"),
    ],
)
def test_each_mistake_in_the_section_is_named(change, says):
    with pytest.raises(aircraft.AircraftFileError) as caught:
        aircraft.check(FOUR | {"dimensions": FOUR["dimensions"] | change}, "four.toml")
    (problem,) = caught.value.problems
    assert says in problem
