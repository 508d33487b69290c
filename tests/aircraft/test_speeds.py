"""The sections speeds and take_off of an aircraft file: what is read, and speeds out of order named one by one."""

import copy
import tomllib

import pytest
from walkaround import aircraft

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))


def problems(change):
    data = copy.deepcopy(FOUR)
    change(data)
    try:
        aircraft.check(data, "mine.toml")
    except aircraft.AircraftFileError as error:
        return list(error.problems)
    return []


def test_the_sections_are_optional():
    data = copy.deepcopy(FOUR)
    del data["speeds"], data["take_off"]
    found = aircraft.check(data, "mine.toml")
    assert found.speeds is None
    assert found.take_off is None


def test_the_ground_roll_is_in_the_files_unit_of_length():
    four, two = aircraft.demo("morrowlark_four"), aircraft.demo("tansy_two")
    assert four.take_off.ground_roll_ft(four.units) == four.take_off.ground_roll
    # 1 ft is 0.3048 m: NIST Special Publication 811, appendix B (read).
    assert two.take_off.ground_roll_ft(two.units) == pytest.approx(two.take_off.ground_roll / 0.3048)


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_demo_speeds_make_a_dial(name):
    speeds = aircraft.demo(name).speeds
    assert speeds.vs0 < speeds.vs1 < speeds.vfe < speeds.vno < speeds.vne
    assert speeds.first_mark < speeds.lift_off < speeds.climb < speeds.cruise


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"vs0": 55}, "speeds.vs1 is 51.0; allowed: at least vs0, 55 kt"),
        ({"vfe": 40}, "speeds.vfe is 40.0; allowed: more than vs0, 46 kt"),
        ({"vfe": 130}, "speeds.vno is 122.0; allowed: at least vfe, 130 kt"),
        ({"vs1": 122}, "speeds.vno is 122.0; allowed: more than vs1, 122 kt"),
        ({"vne": 122}, "speeds.vne is 122.0; allowed: more than vno, 122 kt"),
        ({"first_mark": 56}, "speeds.lift_off is 55.0; allowed: at least first_mark, 56 kt"),
        ({"lift_off": 80}, "speeds.climb is 74.0; allowed: at least lift_off, 80 kt"),
        ({"climb": 123}, "speeds.vno is 122.0; allowed: at least climb, 123 kt"),
        ({"cruise": 51}, "speeds.cruise is 51.0; allowed: more than vs1, 51 kt"),
        ({"cruise": 160}, "speeds.vne is 151.0; allowed: at least cruise, 160 kt"),
        ({"approach": 46}, "speeds.approach is 46.0; allowed: more than vs0, 46 kt"),
        ({"approach": 123}, "speeds.vno is 122.0; allowed: at least approach, 123 kt"),
        ({"vno": "fast"}, "speeds.vno is 'fast'; allowed: number"),
        ({"vne": -1}, "speeds.vne is -1; allowed: more than 0"),
        ({"v_top": 3}, "speeds.v_top is 3; allowed: no such key here (known: vs1, vno, vne"),
    ],
)
def test_speeds_out_of_order(change, says):
    assert any(f"mine.toml: {says}" in line for line in problems(lambda d: d["speeds"].update(change)))


def test_stall_and_limit_speed_with_flaps_come_together():
    assert "mine.toml: speeds.vfe is 85.0; allowed: only together with vs0" in problems(
        lambda d: d["speeds"].pop("vs0")
    )
    assert "mine.toml: speeds.vs0 is 46.0; allowed: only together with vfe" in problems(
        lambda d: d["speeds"].pop("vfe")
    )
    assert problems(lambda d: (d["speeds"].pop("vs0"), d["speeds"].pop("vfe"))) == []


def test_the_roll():
    assert "mine.toml: take_off.ground_roll is 0; allowed: more than 0" in problems(
        lambda d: d["take_off"].update(ground_roll=0)
    )
    assert "mine.toml: take_off.reaction_s is -1; allowed: at least 0" in problems(
        lambda d: d["take_off"].update(reaction_s=-1)
    )
    assert any(
        "take_off.deceleration_kt_s is missing" in line
        for line in problems(lambda d: d["take_off"].pop("deceleration_kt_s"))
    )


def test_a_demo_or_a_file_with_the_sections_that_are_needed(tmp_path):
    assert aircraft.with_sections("tansy_two", "speeds", "take_off").name == "Tansy Two"
    path = tmp_path / "mine.toml"
    path.write_text((aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8"), encoding="utf-8")
    assert aircraft.with_sections(path, "speeds").name == "Tansy Two"
