"""The section [fuel_system] of an aircraft file: what is read, and every mistake named."""

import copy
import tomllib

import pytest
from walkaround import aircraft
from walkaround.physics.fuel import capacity_l

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))


def test_the_demo_aircraft_have_tanks_with_drains():
    for name in aircraft.demo_names():
        system = aircraft.demo(name).fuel_system
        assert "Invented" in system.note
        assert {n for tank in system.tanks for n in tank.names} == {t.name for t in aircraft.demo(name).fuel.tanks}
    four = aircraft.demo("morrowlark_four").fuel_system
    assert capacity_l(four.tank("right tank").solid) == pytest.approx(26 * 3.785411784, rel=1e-3)
    with pytest.raises(ValueError, match=r"tank .nose tank. is not in \[fuel_system\]; allowed: left tank, right tank"):
        four.tank("nose tank")


def test_a_file_may_do_without():
    data = copy.deepcopy(FOUR)
    del data["fuel_system"]
    assert aircraft.check(data, "mine.toml").fuel_system is None


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda s, t: s.pop("per_hour"), "fuel_system.per_hour is missing; allowed: a number"),
        (lambda s, t: s.update(per_hour=0), "fuel_system.per_hour is 0; allowed: more than 0"),
        (lambda s, t: s.update(tanks=[]), "fuel_system.tanks is []"),
        (lambda s, t: t.update(dihedral_deg=20), "fuel_system.tanks[0].dihedral_deg is 20"),
        (lambda s, t: t["drains"][1].update(aft=1.2), "fuel_system.tanks[0].drains[1].aft is 1.2"),
        (lambda s, t: t["drains"].clear(), "fuel_system.tanks[0].drains is []"),
        (lambda s, t: t["outlet"].update(up_cm=14), "outlet.up_cm 14; allowed: up to depth_cm, 13.8"),
        (lambda s, t: t["dipstick"]["marks_cm"].append(15), "marks_cm has 6, quantities 5; allowed: one for each mark"),
        (lambda s, t: t["dipstick"]["marks_cm"].__setitem__(4, 15), "marks_cm up to 15; allowed: up to depth_cm"),
        (lambda s, t: t["dipstick"]["quantities"].__setitem__(1, 4), "quantities [5.0, 4.0"),
        (lambda s, t: t["dipstick"]["quantities"].__setitem__(4, 27), "dipstick.quantities is 27.0; allowed: up to 26"),
        (lambda s, t: t["names"].append("nose tank"), "names is 'nose tank'; allowed: the name of a tank: left tank"),
        (
            lambda s, t: t.update(depth_cm=16),
            "multiplied, is 30.1; allowed: within 2 % of the capacity of left tank, 26",
        ),
        (lambda s, t: t.update(colour="red"), "fuel_system.tanks[0].colour is 'red'; allowed: no such key here"),
    ],
)
def test_each_mistake_is_named(change, says):
    data = copy.deepcopy(FOUR)
    change(data["fuel_system"], data["fuel_system"]["tanks"][0])
    with pytest.raises(aircraft.AircraftFileError) as caught:
        aircraft.check(data, "mine.toml")
    assert any(says in line for line in caught.value.problems), caught.value.problems
    assert all(line.startswith("mine.toml: ") for line in caught.value.problems)
