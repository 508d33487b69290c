"""The [towing] section and the ramp of the airfield: what is read, what stands where, and every mistake named."""

import copy
import tomllib

import pytest
from walkaround import aircraft
from walkaround.aircraft import airfield as quillmoor
from walkaround.aircraft.ramp import Ramp
from walkaround.aircraft.toml_file import AircraftFileError, checked

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))
RAMP = tomllib.loads(quillmoor.FILE.read_text(encoding="utf-8"))["ramp"]


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_demo_sections_say_that_they_are_invented_and_fit_the_aircraft(name):
    craft = aircraft.demo(name)
    assert "invented" in craft.towing.note.lower()
    # An aircraft goes through the door with the airfield's own distance on both sides.
    ramp = quillmoor.airfield().ramp
    low, high = ramp.door_y
    assert craft.dimensions.metres(craft.units).span / 0.3048 + 2 * ramp.keep_clear < high - low


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda s: s.pop("nose_leg_limit"), "towing.nose_leg_limit is missing; allowed: a number"),
        (lambda s: s.update(turning_limit_deg=90), "towing.turning_limit_deg is 90; allowed: less than 90"),
        (lambda s: s.update(turning_limit_deg=0), "towing.turning_limit_deg is 0; allowed: more than 0"),
        (lambda s: s.update(nose_leg_limit=-1), "towing.nose_leg_limit is -1; allowed: more than 0"),
        (lambda s: s.update(tow_bar=1), "towing.tow_bar is 1; allowed: no such key here"),
    ],
)
def test_each_mistake_in_the_section_is_named(change, says):
    data = copy.deepcopy(FOUR)
    change(data["towing"])
    with pytest.raises(AircraftFileError) as caught:
        aircraft.check(data, "four.toml")
    (problem,) = caught.value.problems
    assert says in problem


def test_the_section_may_be_left_out_until_a_lesson_needs_it():
    data = {key: value for key, value in FOUR.items() if key != "towing"}
    assert aircraft.check(data, "four.toml").towing is None


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda r: r.update(door_y=[20, 70]), "door_y is 20 to 70; allowed: between the walls of the hangar, in order"),
        (lambda r: r.update(door_y=[70, 26]), "door_y is 70 to 26; allowed: between the walls"),
        (lambda r: r.update(obstacles=[]), "obstacles"),
        (lambda r: r["obstacles"][0].update(x=[14, 11]), "x is 14 to 11; allowed: the smaller number first"),
        (lambda r: r.update(keep_clear=0), "keep_clear is 0; allowed: more than 0"),
    ],
)
def test_each_mistake_in_the_ramp_is_named(change, says):
    data = copy.deepcopy(RAMP)
    change(data)
    _, problems = checked(Ramp, data, "field.toml")
    assert any(says in problem for problem in problems), problems


def test_the_hangar_is_closed_but_for_its_door():
    ramp = quillmoor.airfield().ramp
    walls = [o for o in ramp.everything if o not in ramp.obstacles]
    (west, east), (south, north) = ramp.hangar_x, ramp.hangar_y

    def solid(x, y):
        return any(o.x[0] <= x <= o.x[1] and o.y[0] <= y <= o.y[1] for o in walls)

    around = [(west + 0.5, y) for y in range(south.__ceil__(), int(north))]
    assert {y for x, y in around if not solid(x, y)} == set(range(int(ramp.door_y[0]) + 1, int(ramp.door_y[1])))
    assert all(solid(east - 0.5, y) for _, y in around)
    assert ramp.inside_x == (west, east - ramp.wall)
