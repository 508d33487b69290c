"""The [control_surfaces] section: what is read, what the physics gets of it, and every mistake named."""

import copy
import tomllib

import pytest
from walkaround import aircraft
from walkaround.physics.controls import Rigging

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_demo_sections_say_that_they_are_invented(name):
    assert "invented" in aircraft.demo(name).control_surfaces.note.lower()


def test_what_the_physics_gets():
    section = aircraft.demo("morrowlark_four").control_surfaces
    assert section.rigging == Rigging(20, 15, 28, 23, 18, 18, 16, 22, 30)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda s: s.pop("held"), "control_surfaces.held is missing"),
        (lambda s: s.update(held="yoke"), "control_surfaces.held is 'yoke'; allowed: "),
        (lambda s: s.update(tolerance_deg=0), "control_surfaces.tolerance_deg is 0; allowed: more than 0"),
        (lambda s: s["elevator"].update(up_deg=90), "control_surfaces.elevator.up_deg is 90; allowed: "),
        (lambda s: s["rudder"].update(up_deg=9), "control_surfaces.rudder.up_deg is 9; allowed: no such key here"),
        (lambda s: s["aileron"].update(chord=-9), "control_surfaces.aileron.chord is -9; allowed: more than 0"),
        (lambda s: s["flap"].update(settings_deg=[10, 20]), "settings_deg 10, 20; allowed: from 0 on, rising"),
        (lambda s: s["flap"].update(settings_deg=[0, 20, 20]), "settings_deg 0, 20, 20; allowed: from 0 on, rising"),
        (lambda s: s["tab"].update(chord=14), "tab.chord is 14.0; allowed: less than the elevator's chord, 14"),
        (lambda s: s["elevator"].update(chord=37), "elevator.chord is 37.0; allowed: less than the tailplane's, 37"),
        (
            lambda s: s["aileron"].update(chord=50),
            "aileron.chord is 50.0; allowed: less than the wing's at its tip, 47",
        ),
        (lambda s: s["flap"].update(chord=63), "flap.chord is 63.0; allowed: less than the wing's at its root, 63"),
    ],
)
def test_each_mistake_in_the_section_is_named(change, says):
    data = copy.deepcopy(FOUR)
    change(data["control_surfaces"])
    with pytest.raises(aircraft.AircraftFileError) as caught:
        aircraft.check(data, "four.toml")
    (problem,) = caught.value.problems
    assert says in problem


def test_the_section_may_be_left_out_until_a_lesson_needs_it():
    data = copy.deepcopy(FOUR)
    del data["control_surfaces"]
    assert aircraft.check(data, "own.toml").control_surfaces is None
