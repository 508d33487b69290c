"""The demonstration of loading says what the library says, for every ready-made load and both aircraft."""

import pytest
from walkaround import aircraft
from walkaround.lessons.loading import demos as loading
from walkaround.physics.loading.loadsheet import load_sheet
from walkaround.physics.loading.planning import filled
from walkaround.physics.loading.words import sentence, smallest_fix


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_every_preset_says_what_the_library_says(name):
    made, craft = loading.demo(name), aircraft.demo(name)
    verdicts = set()
    for _, values in made.preset.options[1:]:
        made.set(**values)
        assert {k: made.values[k] for k in values} == values
        stations = {s.name: made.values[s.name] for s in craft.stations}
        fuel = {t.name: made.values[t.name] for t in craft.fuel.tanks}
        flight = (0, made.values["trip fuel"], made.values.get("category"))
        sheet = load_sheet(craft, stations, fuel, *flight)
        fix = None if sheet.loadable else smallest_fix(craft, stations, fuel, *flight)
        assert made.words == sentence(sheet, fix)
        verdicts.add(bool(sheet.loadable))
    assert verdicts == {True, False}


def test_more_trip_fuel_than_is_aboard_is_a_sentence():
    made = loading.demo()
    made.controls["trip fuel"].value = 49
    assert "fuel used in flight is 49 US gal; allowed: up to what the tanks hold" in made.words


def test_an_aircraft_file_of_ones_own(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text(
        (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8").replace("Tansy Two", "My Own"),
        encoding="utf-8",
    )
    assert "My Own" in loading.demo(path).children[0].value


def test_limits_of_every_control_come_from_the_file():
    made, craft = loading.demo(), aircraft.demo("morrowlark_four")
    for s in craft.stations:
        assert made.controls[s.name].max == s.maximum
    for t in craft.fuel.tanks:
        assert made.controls[t.name].max == t.usable
    assert list(made.controls["category"].options) == ["normal", "utility"]


def test_the_limits_of_the_other_category_are_the_ones_drawn():
    made = loading.demo()
    before = made.image.value
    made.controls["category"].value = "utility"
    assert made.image.value != before
    assert "utility" in made.words


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_what_may_still_go_into_the_holds(name):
    made, craft = loading.holds(name), aircraft.demo(name)
    first, second = (h.name for h in craft.holds)
    verdicts = set()
    for one in (0, craft.station(first).maximum // 2, craft.station(first).maximum):
        for two in (0, craft.station(second).maximum):
            made.set(**{first: one, second: two})
            stations = {s.name: made.values[s.name] for s in craft.stations}
            fuel = filled(craft, made.values["fuel"])
            good = bool(load_sheet(craft, stations, fuel, 0, made.values["trip fuel"]).loadable)
            assert ("are inside all the way" in made.words) == good
            verdicts.add(good)
    assert verdicts == {True, False}


def test_the_most_that_is_named_fits_and_one_pound_more_does_not():
    made, craft = loading.holds(), aircraft.demo("morrowlark_four")
    made.set(**{"rear seats": 390, "hold A": 40, "hold B": 50})
    most = int(made.words.split("hold A could hold ")[1].split(" lb")[0])
    assert 40 < most < 130
    stations = {s.name: made.values[s.name] for s in craft.stations}
    fuel, trip = filled(craft, made.values["fuel"]), made.values["trip fuel"]
    assert load_sheet(craft, {**stations, "hold A": most}, fuel, 0, trip).loadable
    assert not load_sheet(craft, {**stations, "hold A": most + 1}, fuel, 0, trip).loadable
