"""Aircraft files: what is read, and every mistake named at once with file, key, value and what is allowed."""

import copy
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround import aircraft
from walkaround.aircraft.heaters import read_heaters

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))


def broken(change):
    data = copy.deepcopy(FOUR)
    change(data)
    with pytest.raises(aircraft.AircraftFileError) as caught:
        aircraft.check(data, "mine.toml")
    for line in caught.value.problems:
        assert line.startswith("mine.toml: ")
        assert "\n" not in line
    return caught.value.problems


def test_the_demo_aircraft_are_sound():
    assert aircraft.demo("morrowlark_four").units.moment == "lb-in"
    assert aircraft.demo("tansy_two").empty.cg == pytest.approx(119.56 / 392)
    assert [h.name for h in aircraft.demo("morrowlark_four").holds] == ["hold A", "hold B"]
    for name in aircraft.demo_names():
        assert "invented" in aircraft.demo(name).note.lower()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda d: d["units"].pop("arm"), "units.arm is missing; allowed: 'in' or 'm'"),
        (
            lambda d: d["units"].update(arm="m"),
            "units: weight is 'lb', arm 'm', volume 'US gal'; allowed: lb, in and US gal",
        ),
        (lambda d: d.update(colour="red"), "colour is 'red'; allowed: no such key here (known: name, note"),
        (lambda d: d["stations"][0].update(wide=3), "stations[0].wide is 3; allowed: no such key here"),
        (lambda d: d["stations"][1].update(name="Front Seats"), "[1].name is 'Front Seats'; allowed: each name"),
        (lambda d: d["stations"][2].update(kind="boot"), "[2].kind is 'boot'; allowed: 'seat', 'hold', 'fuel' or"),
        (lambda d: d["stations"][2].update(arm="far"), "stations[2].arm is 'far'; allowed: number"),
        (lambda d: d["stations"][2].update(maximum=True), "stations[2].maximum is True; allowed: number"),
        (lambda d: d["stations"][2].update(maximum=float("nan")), "stations[2].maximum is nan"),
        (lambda d: d["empty"].update(moment=5), "empty: arm is 101.2, moment is 5.0; allowed: one of the two"),
        (lambda d: d["empty"].update(weight=0), "empty.weight is 0; allowed: more than 0"),
        (lambda d: d["empty"].update(weight=3000), "weight is 3000.0; allowed: less than the take-off limit, 2610"),
        (lambda d: d["fuel"]["tanks"][1].update(usable=25), "usable 25 and unusable 1.5 make 26.5; allowed: up to"),
        (lambda d: d["fuel"].update(density=0.72), "fuel.density is 0.72; allowed: 5 to 7.5 lb per US gal"),
        (lambda d: d["envelopes"][0]["corners"].insert(1, [112.0, 2000]), "envelopes[0].corners: normal: side"),
        (lambda d: d["envelopes"][0]["corners"][3].__setitem__(1, 2650), "corners is 2650.0; allowed: weights up"),
        (lambda d: d["combined_limits"][0]["holds"].append("attic"), "'attic'; allowed: the name of a hold: hold"),
        (lambda d: d["limits"].update(landing=2620), "limits.landing is 2620.0; allowed: the take-off limit"),
        (lambda d: d["limits"].update(ramp=2500), "limits.ramp is 2500.0; allowed: the take-off limit, 2610, or more"),
        (lambda d: d.pop("fuel"), "fuel is missing"),
    ],
)
def test_each_mistake_is_named(change, says):
    problems = broken(change)
    assert any(says in line for line in problems), problems


def test_all_mistakes_at_once():
    def change(d):
        d["envelopes"][0]["corners"][1:3] = d["envelopes"][0]["corners"][2:0:-1]
        d["stations"][1]["name"] = "front seats"
        d["stations"][3]["arm"] = "far"
        d["fuel"]["tanks"][0]["usable"] = 30
        d["colour"] = "red"
        del d["units"]["arm"]
        d["limits"]["ramp"] = 100

    problems = broken(change)
    for key in (
        "envelopes[0]",
        "stations[1].name",
        "stations[3].arm",
        "fuel.tanks[0]",
        "colour",
        "units.arm",
        "limits.ramp",
    ):
        assert sum(key in line for line in problems) == 1, key


def test_files_that_are_no_aircraft_file(tmp_path):
    with pytest.raises(aircraft.AircraftFileError, match=r"gone.toml: there is no such file"):
        aircraft.read(tmp_path / "gone.toml")
    bad = tmp_path / "bad.toml"
    bad.write_text("name = 5 5\n", encoding="utf-8")
    with pytest.raises(aircraft.AircraftFileError, match=r"bad.toml, line 1: not TOML: .* in 'name = 5 5'; allowed: "):
        aircraft.read(bad)
    bad.write_bytes(b"name = '\xff'")
    with pytest.raises(aircraft.AircraftFileError, match=r"bad.toml, line 1: byte 8 is not UTF-8"):
        aircraft.read(bad)
    with pytest.raises(aircraft.AircraftFileError, match="can't be read"):
        aircraft.read(tmp_path)
    with pytest.raises(ValueError, match=r"demo aircraft 'nessie' is not there; allowed: morrowlark_four, tansy_two"):
        aircraft.demo("nessie")


scalars = st.none() | st.booleans() | st.integers(-5, 5000) | st.floats() | st.text(max_size=5)
values = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=6), inner, max_size=3),
    max_leaves=6,
)


@given(st.sampled_from(sorted(FOUR)), values)
def test_any_section_replaced_by_anything_gives_words_or_an_aircraft(key, value):
    data = copy.deepcopy(FOUR)
    data[key] = value
    try:
        aircraft.check(data, "mine.toml")
    except aircraft.AircraftFileError as error:
        problems = error.problems
    else:
        problems = ["none"]
    assert all(problems)


def test_a_folder_in_place_of_a_heater_file_is_a_sentence(tmp_path):
    with pytest.raises(aircraft.AircraftFileError, match="can't be read"):
        read_heaters(tmp_path)
