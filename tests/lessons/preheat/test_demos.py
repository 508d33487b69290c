"""The demonstration of preheating says what the library computes; the hangar table; a thermometer log in words."""

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.lessons.preheat import demos as preheat
from walkaround.lessons.preheat import hangar_demos
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.electrical.battery import capacity_share
from walkaround.physics.oil.viscosity import times_thicker
from walkaround.physics.preheat import words as preheat_words
from walkaround.physics.preheat.engine import warming
from walkaround.physics.preheat.plans import plan, spent
from walkaround.units import celsius, fahrenheit

FOUR = aircraft.demo("morrowlark_four").engine


@pytest.fixture(scope="module")
def one():
    stage = preheat.demo()
    return stage, stage.values


@pytest.fixture
def made(one):
    """The demonstration as it opens; made once, since making one takes a second."""
    stage, begins = one
    stage.controls["thermostat"].min = 20
    stage.controls["degrees"].value = "°C"
    stage.set(**begins)
    assert stage.values == begins
    return stage


def by_the_library(values, section=FOUR):
    """The plan that the controls ask for, and its heater's kind."""
    v = values
    kind = None if v["heater"] == preheat.NO_HEATER else demo_heaters().air_heater(v["heater"])
    heater = kind and kind.set_to("high" if v["fast"] else "low", v["thermostat"], v["power"])
    pad = demo_heaters().pads[0].set_to() if v["pad"] else None
    settings = v["outside"], v["heat"], heater, pad, v["cover"], v["wind"], v["wait"], v["left_on"]
    return plan(section.engine(), section.ready_c, *settings), kind


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_every_preset_says_what_the_library_says(name):
    made, section = preheat.demo(name), aircraft.demo(name).engine
    marks = set()
    for values in made.presets.values():
        made.set(**values)
        assert {k: made.values[k] for k in values} == values
        worked, kind = by_the_library(made.values, section)
        used = spent(worked.heat, demo_heaters().fuel_of(kind))
        for words in (
            preheat_words.readiness_words(worked),
            preheat_words.missing_words(worked),
            preheat_words.start_words(worked),
            preheat_words.wait_words(worked),
            preheat_words.limit_words(worked.warming),
            preheat_words.outlay_words(worked, used, demo_heaters().cost(used, kind), "€"),
        ):
            assert words in made.said
        ready = bool(worked.ready_at_start)
        assert (made.verdict == OK) == ready
        assert (made.verdict == STOP) == (not ready)
        marks.add(ready)
    assert marks == {True, False}


def test_the_cautions_stand_at_the_top(made):
    head = made.caution
    dangers = ("fire", "carbon monoxide", "clear of fuel", "extinguisher at hand", "Never refuel it while it runs")
    handling = (
        "never leave one alone",
        "no hot air on fabric covers, hoses",
        "leave the air a way out",
        "extension lead",
    )
    for word in (*dangers, *handling, "propeller as live", "engine maker's limits", "the aircraft's own handbook"):
        assert word in head, word


def test_warm_oil_alone_is_not_an_engine_ready(made):
    made.set(heater=preheat.NO_HEATER, pad=True, heat=90)
    assert "the engine is not ready: it takes" in made.words
    assert made.more.startswith("Don't start it like this.")
    assert "The oil is ready, but the metal is at " in made.more
    assert made.verdict == STOP


def test_a_cold_start_says_how_thick_the_oil_is_and_what_the_battery_has(made):
    made.set(heat=0, outside=-15)
    times = float(times_thicker(-15, FOUR.ready_oil_c, FOUR.oil.viscosity_40_mm2_s, FOUR.oil.viscosity_100_mm2_s))
    assert f"meets oil {times:.0f} times thicker than when it is ready" in made.said
    assert f"a battery with {100 * float(capacity_share(-15)):.0f} % of its capacity" in made.said
    made.set(outside=-30)  # below the pour point, where there is no such number
    assert "times thicker" not in made.said
    assert "meets oil that does not flow" in made.said


def test_above_the_makers_line_it_is_a_note_and_not_a_stop(made):
    made.set(heat=0, outside=-6)
    assert "may be started cold: below −7 °C (19 °F) this engine asks for preheating" in made.words
    assert made.verdict == NOTE
    made.set(outside=-8)
    assert "Don't start it" in made.said


def test_the_other_fan_is_named_when_it_would_be_better(made):
    made.set(fast=False)
    slow, fast = (float(by_the_library({**made.values, "fast": f})[0].ready_minutes) for f in (False, True))
    assert preheat_words.fan_words(slow, fast) in made.said
    made.set(fast=True)
    assert "fan is ready" not in made.said
    made.set(outside=-12, power=1000)
    slow, fast = (float(by_the_library({**made.values, "fast": f})[0].ready_minutes) for f in (False, True))
    assert slow < fast
    assert preheat_words.fan_words(slow, fast) in made.said


def test_fahrenheit_and_back(made):
    before, words = made.values, made.said
    made.controls["degrees"].value = "°F"
    assert made.values["outside"] == round(float(fahrenheit(before["outside"])))
    assert made.controls["outside"].description == "outside, °F"
    assert made.controls["thermostat"].max == 158
    worked, _ = by_the_library(
        {**made.values, **{n: float(celsius(made.values[n])) for n in ("outside", "thermostat")}}
    )
    assert preheat_words.readiness_words(worked, "°F") in made.said
    made.set(outside=-20)  # ready-made values are in °C
    assert made.values["outside"] == -4
    made.set(outside=before["outside"])
    made.controls["degrees"].value = "°C"
    assert made.values == before
    assert made.said == words


def test_sliders_follow_the_heater_and_the_time(made):
    made.controls["heater"].value = "kerosene heater"
    assert made.controls["power"].max == made.values["power"] == 9000
    assert "L of fuel" in made.said
    made.set(heater="electric air heater", power=1200)
    assert (made.controls["power"].max, made.values["power"]) == (3000, 1200)
    made.set(heat=30, wait=50)
    assert made.controls["moment"].max == 80
    made.controls["moment"].value = 70
    made.controls["wait"].value = 20
    assert made.controls["moment"].max == made.values["moment"] == 50


def test_the_time_slider_changes_the_shade_of_the_engine(made):
    cold, warm = (_sketch(made, moment) for moment in (0, 45))
    # Warmer is darker.
    assert cold.mean() > warm.mean() + 10
    made.controls["moment"].value = 20
    oil = float(by_the_library(made.values)[0].temperatures_c(20.0)[1])
    assert "shown after 20 min: metal" in made.said
    assert f"oil {preheat_words.degrees(oil)}" in made.said


def _sketch(made, moment):
    made.controls["moment"].value = moment
    picture = np.asarray(made.image().convert("L")).astype(float)
    return picture[60:220, 600:800]


def test_a_setting_that_makes_no_sense_is_a_sentence_and_the_next_one_is_drawn_again(made):
    before = made.pixels.copy()
    made.controls["thermostat"].min = -40
    made.controls["thermostat"].value = -20
    assert "This can't be worked out: thermostat_c is -20 °C with -15 °C outside" in made.words
    assert "allowed: a setting above the outside temperature" in made.said
    assert made.verdict == STOP
    made.controls["thermostat"].value = 52
    assert (made.pixels == before).all()
    assert "can't" not in made.said


def test_the_hangar_table_is_the_physics_and_prints(tmp_path):
    table = hangar_demos.hangar_table(outside_c=(-5, -15, -40), wind_kt=10.0)
    kind, engine = demo_heaters().air_heaters[0], FOUR.engine()
    column = 0
    for fan in ("low", "high"):
        for cover in (True, False):
            for row, outside in enumerate((-5, -15, -40)):
                alone = warming(engine, outside, kind.set_to(fan), None, cover, 10.0).ready_minutes(FOUR.ready_c)
                assert table.minutes[row, column] == pytest.approx(float(alone), rel=1e-9)
            assert table.columns[column] == f"{fan} fan\n{'cover on' if cover else 'no cover'}"
            column += 1
    assert np.isinf(table.minutes).any()
    said = " ".join(text.get_text() for text in table.figure.axes[0].texts)
    for rule in (
        "aircraft's handbook",
        "extinguisher",
        "never refuel",
        "No oil pressure after the start: stop",
        "fabric",
    ):
        assert rule in said
    renderer, width = table.figure.canvas.get_renderer(), table.figure.bbox.width
    assert all(text.get_window_extent(renderer).x1 <= width for text in table.figure.axes[0].texts)
    assert "at −15 °C (5 °F) " in repr(table)
    assert "print it" in table.save(tmp_path / "table.pdf")
    assert (tmp_path / "table.pdf").read_bytes().startswith(b"%PDF")
    with pytest.raises(ValueError, match="'stove' is not in the heater file"):
        hangar_demos.hangar_table(heater="stove")


def fading(degrees, minutes):
    """A part that was so many degrees above −10 °C, after some minutes."""
    return f"{degrees * 0.99**minutes - 10:.2f}"


ROWS = (f"{m},{fading(20, m)},{fading(21, m)},{fading(20, m)},-10" for m in range(0, 120, 10))
LOG = "\n".join(["minutes,metal_c,oil_c,cylinders_c,outside_c", *ROWS])


def test_a_log_says_what_it_found_or_why_it_can_not_tell(tmp_path):
    path = tmp_path / "log.csv"
    path.write_text(LOG, encoding="utf-8")
    found = hangar_demos.fit(path)
    loss = found.fit.coefficients["loss"].w_per_k
    assert f"Loss to the outside: {loss:.3g} W/K" in found.words
    assert f"loss_w_per_k = {found.fit.engine.metal.loss_w_per_k:.3g}" in found.words
    blower, outside = demo_heaters().air_heaters[0].set_to("high"), FOUR.preheat_below_c - 5
    fitted, filed = (
        preheat_words.duration(float(warming(e, outside, blower).ready_minutes(FOUR.ready_c)))
        for e in (found.fit.engine, FOUR.engine())
    )
    assert fitted != filed
    assert f"this engine is ready after {fitted}; by the aircraft file as it is, ready after {filed}" in found.words

    path.write_text("\n".join(LOG.splitlines()[:4]), encoding="utf-8")
    assert "Nothing could be learned" in hangar_demos.fit(path).words
    assert "readings can't tell anything" in hangar_demos.fit(path).words
    path.write_text(LOG.replace("oil_c", "soil_c"), encoding="utf-8")
    assert "column 'soil_c' is not known" in hangar_demos.fit(path).words
    path.write_text(LOG.replace("\n20,", "\n20,,"), encoding="utf-8")
    assert "log.csv: line 4" in hangar_demos.fit(path).words
    assert hangar_demos.fit(tmp_path / "none.csv").words.startswith("There is no file 'none.csv'")
    assert "double" in hangar_demos.fit(path)._repr_html_()
