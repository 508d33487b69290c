"""The demonstrations of loading: verdict, sentence and picture say the same, and what the library says."""

import random
import re
from itertools import pairwise, product

import pytest
from walkaround import aircraft
from walkaround.lessons.loading import demos as loading
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.loading.loadsheet import cg_shifts, load_sheet
from walkaround.physics.loading.planning import filled
from walkaround.physics.loading.two_holds import loads_inside
from walkaround.physics.loading.words import fix_words, reasons, say, sentence, smallest_fix


def loads_of(made, craft):
    """Station loads, fuel, and the rest that `load_sheet` takes, as the demonstration's controls stand."""
    stations = {s.name: made.values[s.name] for s in craft.stations}
    fuel = {t.name: made.values[t.name] for t in craft.fuel.tanks}
    return stations, fuel, 0, made.values["trip fuel"], made.values.get("category")


def grid(craft, size=100):
    """Settings of the controls: corners and middles of every slider, as many as there is time for."""
    ends = {s.name: (0, s.maximum // 2, s.maximum) for s in craft.stations}
    ends |= {t.name: (0.0, t.usable // 2, t.usable) for t in craft.fuel.tanks}
    ends |= {"used": (0, 0.5, 1), "category": [e.name for e in craft.envelopes]}
    every = list(product(*ends.values()))
    nothing, everything = every[0], every[-1]
    for setting in [nothing, everything, *random.Random(1).sample(every, size)]:
        values = dict(zip(ends, setting, strict=True))
        total = sum(values[t.name] for t in craft.fuel.tanks)
        values["trip fuel"] = values.pop("used") * total // 0.5 * 0.5
        if len(craft.envelopes) == 1:
            del values["category"]
        yield values


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_every_preset_says_what_the_library_says(name):
    made, craft = loading.demo(name), aircraft.demo(name)
    verdicts = set()
    for values in made.presets.values():
        made.set(**values)
        assert {k: made.values[k] for k in values} == values
        load = loads_of(made, craft)
        sheet = load_sheet(craft, *load)
        fix = None if sheet.loadable else smallest_fix(craft, *load)
        if len(reasons(sheet)) < 2:
            assert made.said == f"{sentence(sheet)} {fix_words(fix, craft.units) if fix else ''}".strip()
        assert all(why in made.said for why in reasons(sheet))
        assert fix is None or made.more.endswith(fix_words(fix, craft.units))
        verdicts.add(made.verdict)
    assert verdicts == {OK, STOP}


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_verdict_sentence_and_picture_say_the_same_everywhere(name):
    made, craft = loading.demo(name), aircraft.demo(name)
    picture, unit, verdicts = made.live.picture, craft.units, set()
    (left, right), (bottom, top) = picture.limits.get_xlim(), picture.limits.get_ylim()
    for values in grid(craft):
        made.set(**values)
        stations, fuel, *flight = loads_of(made, craft)
        sheet = load_sheet(craft, stations, fuel, *flight)
        good = bool(sheet.loadable)
        assert (made.verdict != STOP) == good == ("Inside" in made.words) == ("Not loadable" not in made.words), values
        assert (made.verdict == NOTE) == (good and not stations[craft.stations[0].name])
        verdicts.add(made.verdict)
        # What the picture says of the margin stands in the sentence, number and limit.
        margin = picture.distance.get_text()
        amount, rest = re.fullmatch(r"([\d,.]+ \S+) (.*)", margin).groups()
        limit = rest.removesuffix(" limit").split(" the ")[-1].split(": ")[-1].removesuffix(" weight")
        assert amount in made.said, (margin, made.said)
        assert limit in made.said
        assert ("to the" in margin) == good, margin
        assert len(made.words.split()) <= 30
        # The points are where the numbers of the sentence are, and nothing leaves the picture.
        for moment, point in picture.points.items():
            condition = sheet.condition(moment)
            assert (point.get_xdata()[0], point.get_ydata()[0]) == (float(condition.cg), float(condition.weight))
            assert left < condition.cg < right
            assert bottom < condition.weight < top
            if good and moment != "zero fuel":
                assert f"{say(condition.weight, unit.weight)} with CG {say(condition.cg, unit.arm)}" in made.words
        span = picture.bars.axes.get_xlim()[1]
        assert all(abs(shift) <= span for _, _, shift in cg_shifts(sheet, stations, fuel))
        # Labels stand above the axis and apart from each other.
        heights = sorted(label.get_position()[1] for label in picture.labels.values())
        letters = 0.045 * (top - bottom)
        assert heights[0] - letters / 2 > bottom
        assert min(b - a for a, b in pairwise(heights)) > letters
    assert verdicts >= {OK, STOP}


def test_more_trip_fuel_than_is_aboard_is_a_sentence():
    made = loading.demo()
    made.controls["trip fuel"].value = 49
    assert made.verdict == STOP
    assert "fuel used in flight is 49 US gal; allowed: up to what the tanks hold" in made.words


def test_an_aircraft_file_of_ones_own(tmp_path):
    path = tmp_path / "mine.toml"
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    path.write_text(text.replace("Tansy Two", "My Own"), encoding="utf-8")
    assert "My Own" in loading.demo(path).title


def test_limits_of_every_control_come_from_the_file():
    made, craft = loading.demo(), aircraft.demo("morrowlark_four")
    for s in craft.stations:
        assert made.controls[s.name].max == s.maximum
    for t in craft.fuel.tanks:
        assert made.controls[t.name].max == t.usable
    assert made.controls["category"].spec()["options"] == ["normal", "utility"]


def test_the_limits_of_the_other_category_are_the_ones_drawn():
    made = loading.demo()
    before = made.pixels.copy()
    made.controls["category"].value = "utility"
    assert (made.pixels != before).any()
    assert "utility" in made.words


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_holds_are_judged_as_the_load_sheet_judges_them(name):
    made, craft = loading.holds(name), aircraft.demo(name)
    first, second = (h.name for h in craft.holds)
    picture, verdicts = made.live.picture, set()
    seat, total = craft.stations[0], sum(t.usable for t in craft.fuel.tanks)
    thirds = [[i * craft.station(n).maximum // 3 for i in range(4)] for n in (first, second)]
    for people, one, two, fuel in product((0, seat.maximum), *thirds, (total // 3, total // 1)):
        made.set(**{seat.name: people, first: one, second: two, "fuel": fuel, "trip fuel": fuel // 2})
        stations, tanks = {s.name: made.values[s.name] for s in craft.stations}, filled(craft, made.values["fuel"])
        flight = tanks, 0, made.values["trip fuel"]
        good = bool(load_sheet(craft, stations, *flight).loadable)
        assert made.verdict == ((OK if people else NOTE) if good else STOP)
        assert ("are inside all the way" in made.words) == good
        assert len(made.words.split()) <= 30
        assert picture.label.get_text() == f"now: {'inside' if good else 'outside'}"
        # The point lies in the area exactly when the verdict is good.
        area = loads_inside(craft, first, second, stations, *flight)
        assert (bool(area.pieces) and bool(area.contains(one, two))) == good
        verdicts.add(good)
    assert verdicts == {True, False}


def test_the_most_that_is_named_fits_and_one_pound_more_does_not():
    made, craft = loading.holds(), aircraft.demo("morrowlark_four")
    made.set(**{"rear seats": 390, "hold A": 40, "hold B": 50})
    most = int(made.more.split("hold A could hold ")[1].split(" lb")[0])
    assert 40 < most < 130
    stations = {s.name: made.values[s.name] for s in craft.stations}
    fuel, trip = filled(craft, made.values["fuel"]), made.values["trip fuel"]
    assert load_sheet(craft, {**stations, "hold A": most}, fuel, 0, trip).loadable
    assert not load_sheet(craft, {**stations, "hold A": most + 1}, fuel, 0, trip).loadable
