"""The [starting] section and the carts: what is read, what the physics gets of it, and every mistake named."""

import copy
import tomllib

import pytest
from walkaround import aircraft
from walkaround.aircraft.carts import FILE, demo_carts
from walkaround.physics.electrical import Battery, Drag, Starter, resistance_ohm

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_demo_sections_say_that_they_are_invented(name):
    assert "invented" in aircraft.demo(name).starting.note.lower()


def test_the_carts_say_that_they_are_invented_and_are_found_by_name():
    assert "invented" in FILE.read_text(encoding="utf-8").lower()
    assert demo_carts().cart("28 V cart").volts > 28
    with pytest.raises(ValueError, match="cart 'cart' is not in the file of carts; allowed: 14 V cart, 28 V cart"):
        demo_carts().cart("cart")


def test_what_the_physics_gets():
    section = aircraft.demo("morrowlark_four").starting
    assert section.battery == Battery(6, 30.0, 0.006)
    assert section.starter == Starter(0.7, 0.01)
    assert section.drag == Drag(55.0, 60.0)
    assert float(section.cable_ohm(-15.0)) == pytest.approx(0.0015 + float(resistance_ohm(2, 5.0, -15.0)))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda s: s.pop("rated_ah"), "starting.rated_ah is missing; allowed: a number"),
        (lambda s: s.update(cells=0), "starting.cells is 0; allowed: at least 1"),
        (lambda s: s.update(cells=6.5), "starting.cells is 6.5"),
        (lambda s: s.update(cable_awg=40), "starting.cable_awg is 40; allowed: "),
        (lambda s: s.update(inner_ohm=-1), "starting.inner_ohm is -1; allowed: more than 0"),
        (lambda s: s.update(volts=12), "starting.volts is 12; allowed: no such key here"),
        (lambda s: s.update(most_v=14), "starting: most_v 14; allowed: more than external_v, 14"),
    ],
)
def test_each_mistake_in_the_section_is_named(change, says):
    data = copy.deepcopy(FOUR)
    change(data["starting"])
    with pytest.raises(aircraft.AircraftFileError) as caught:
        aircraft.check(data, "four.toml")
    (problem,) = caught.value.problems
    assert says in problem


def test_the_section_may_be_left_out_until_a_lesson_needs_it(tmp_path):
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    path = tmp_path / "own.toml"
    path.write_text(text.split("[starting]")[0], encoding="utf-8")
    assert aircraft.read(path).starting is None
    with pytest.raises(ValueError, match=r"no section \[starting\]; this needs it"):
        aircraft.with_sections(path, "engine", "starting")
