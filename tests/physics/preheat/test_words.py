"""A preheat in plain words: each sentence fits its plan, and no rounding contradicts it."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.physics.preheat import words
from walkaround.physics.preheat.air_heater import AirHeater
from walkaround.physics.preheat.engine import Engine, Part, SumpPad, warming
from walkaround.physics.preheat.plans import Spent, plan
from walkaround.physics.preheat.words import CELSIUS, FAHRENHEIT, degrees, duration, on_scale

ENGINE = Engine(
    metal=Part(49e3, 4.0, 16.0),
    oil=Part(11e3, 1.5, 8.0, 16.0),
    cylinders=Part(27e3, 3.5, 22.0, 30.0),
    wind_share=0.15,
    cover_loss_left=0.4,
    cover_wind_left=0.2,
)
READY = {"oil": 15.0, "metal": 5.0}
BURNER = AirHeater(9000.0, 360.0, 52.0, 8.0, 6000.0, 140.0)
WEAK = AirHeater(2000.0, 180.0, 52.0, 5.0, 1800.0, 55.0)


def test_when_it_is_ready_and_what_is_last():
    p = plan(ENGINE, READY, -15.0, 60.0, BURNER, wait_minutes=10.0)
    assert words.readiness_words(p) == "Metal, oil and cylinders are ready after 19 min, the oil last."
    assert words.missing_words(p) == ""
    assert words.wait_words(p) == "After 10 min of waiting it is still ready to start."
    assert words.readiness_words(plan(ENGINE, READY, 20.0, 0.0)) == "Metal, oil and cylinders are ready from the start."


def test_what_is_missing_when_the_heating_ends_too_early():
    p = plan(ENGINE, READY, -15.0, 10.0, BURNER)
    assert words.readiness_words(p) == "After 10 min of heating the engine is not ready: it takes 19 min."
    warm = {part: degrees(float(c)) for part, c in p.at_end_of_heating.items()}
    assert words.missing_words(p) == (
        f"The cylinders are ready, but the metal is at {warm['metal']} instead of 5 °C (41 °F) and the oil is at "
        f"{warm['oil']} instead of 15 °C (59 °F)."
    )
    assert "Don't start it" in words.start_words(p)


def test_the_part_that_lacks_most_says_why_it_never_gets_ready():
    p = plan(ENGINE, READY, -25.0, 240.0, WEAK)
    settles = {part: float(p.warming.settles_c(part)) for part in p.ready_c}
    worst = max(settles, key=lambda part: p.ready_c[part] - settles[part])
    assert words.readiness_words(p).startswith("This never gets the engine ready, however long it runs: the ")
    assert f"the {worst} would settle at {degrees(settles[worst], below=p.ready_c[worst])}" in words.readiness_words(p)


def test_without_a_heater_nothing_is_said_of_heat_that_runs():
    p = plan(ENGINE, READY, -15.0, 45.0)
    assert words.readiness_words(p) == "Nothing heats the engine, so it never gets ready."
    assert not words.heats(p)
    assert not words.heats(plan(ENGINE, READY, -15.0, 0.0, BURNER))
    assert words.heats(plan(ENGINE, READY, -15.0, 45.0, pad=SumpPad(200.0)))


def test_ready_means_every_part_at_once():
    # Oil that starts warm has cooled below what it needs by the time the metal is warm.
    start = {"metal": -15.0, "oil": 25.0, "cylinders": -15.0}
    p = plan(ENGINE, READY, -15.0, 600.0, AirHeater(3300.0, 180.0, 52.0, 5.0, 1800.0, 55.0), start_c=start)
    by_itself = max(float(minutes) for minutes in p.reached_minutes.values())
    assert float(p.ready_minutes) > by_itself + 5
    then = p.warming.at(p.ready_minutes)
    last = min(p.ready_c, key=lambda part: then[part] - p.ready_c[part])
    assert words.readiness_words(p).endswith(f"are ready after {duration(p.ready_minutes)}, the {last} last.")
    assert then[last] == pytest.approx(p.ready_c[last], abs=1e-3)


def test_a_wait_that_is_too_long_and_one_that_helps():
    p = plan(ENGINE, READY, -15.0, 20.0, BURNER, wait_minutes=60.0)
    assert words.wait_words(p).startswith("Don't start it: after 1 h 0 min of waiting the oil is down to ")
    p = plan(ENGINE, READY, -15.0, 0.0, wait_minutes=15.0, start_c={"metal": 60.0, "oil": 5.0, "cylinders": 60.0})
    said = "After 15 min of waiting it is ready to start: the warmer parts have warmed the others."
    assert words.wait_words(p) == said
    assert "Don't start" not in words.start_words(p)


def test_how_long_the_warmth_lasts_is_said_once_where_it_is_the_same():
    frost = words.start_words(plan(ENGINE, READY, -15.0, 30.0, BURNER))
    assert " with the cover on and " in frost
    mild = words.start_words(plan(ENGINE, READY, 20.0, 0.0))
    forever = "the warmth lasts as long as it stays this warm outside, with the cover on or without."
    assert forever in mild


@pytest.mark.parametrize("p", [plan(ENGINE, READY, 20.0, 0.0), plan(ENGINE, READY, -15.0, 19.0, BURNER)])
def test_nothing_is_not_a_number(p):
    said = f"{words.readiness_words(p)} {words.missing_words(p)} {words.start_words(p)} {words.wait_words(p)}"
    assert "nan" not in said
    assert "inf" not in said


def test_a_handbook_is_the_aircrafts():
    for p in (plan(ENGINE, READY, 20.0, 0.0), plan(ENGINE, READY, -15.0, 5.0, BURNER)):
        assert "The aircraft's handbook comes first." in words.start_words(p)


@given(st.floats(-80, 200), st.floats(-60, 140), st.sampled_from([CELSIUS, FAHRENHEIT]))
def test_rounding_never_says_that_a_temperature_is_reached_or_left(temperature_c, level_c, scale):
    def number(text):
        return int(text.removesuffix(f" {scale}").replace("−", "-"))

    level = number(on_scale(level_c, scale))
    if temperature_c < level_c - 1e-3:
        assert number(on_scale(temperature_c, scale, below=level_c)) < level
    if temperature_c > level_c:
        assert number(on_scale(temperature_c, scale, above=level_c)) > level
    assert abs(number(on_scale(temperature_c, scale, level_c, level_c)) - number(on_scale(temperature_c, scale))) <= 1


def test_the_scale_that_was_chosen_stands_first_everywhere():
    p = plan(ENGINE, READY, -25.0, 240.0, WEAK, wait_minutes=5.0)
    cold, hot = (
        plan(ENGINE, READY, -15.0, 10.0, BURNER),
        plan(ENGINE, READY, 0.0, 900.0, pad=SumpPad(600.0), cover=True),
    )
    waited = plan(ENGINE, READY, -15.0, 20.0, BURNER, wait_minutes=60.0)
    for said in (
        words.readiness_words(p, FAHRENHEIT),
        words.missing_words(cold, FAHRENHEIT),
        words.wait_words(waited, FAHRENHEIT),
        words.oil_words(hot, 110.0, FAHRENHEIT),
        words.limit_words(p.warming, FAHRENHEIT),
        words.limit_words(cold.warming, FAHRENHEIT),
    ):
        assert "°F (" in said
        assert "°C (" not in said


def test_settling_just_below_is_not_said_as_equal():
    level = float(warming(ENGINE, -15.0, WEAK).settles_c("oil"))
    wanted = round(level) + 0.3 if round(level) > level else round(level) + 0.4
    p = plan(ENGINE, {"oil": wanted, "metal": -20.0}, -15.0, 60.0, WEAK)
    if level < wanted:
        assert f"settle at {degrees(wanted)}" not in words.readiness_words(p)


def test_oil_that_gets_too_hot_is_warned_of():
    strong = SumpPad(600.0)
    p = plan(ENGINE, READY, 0.0, 60.0, pad=strong, cover=True)
    assert "the oil would pass the limit of 110 °C (230 °F)" in words.oil_words(p, 110.0)
    late = plan(ENGINE, READY, 0.0, 900.0, pad=strong, cover=True)
    assert words.oil_words(late, 110.0).startswith("Too hot: the oil is at")
    assert words.oil_words(plan(ENGINE, READY, 0.0, 60.0, BURNER), 110.0) == ""


def test_what_it_used_is_said():
    p = plan(ENGINE, READY, -15.0, 60.0, BURNER)
    said = words.outlay_words(p, Spent(0.1, 1.0), 1.93, "€")
    assert said == "1 h 0 min of heating took 0.1 kWh and 1.0 L of fuel, 1.93 €."
    assert words.outlay_words(p, Spent(0.021, 0.0), 0.01, "€") == "1 h 0 min of heating took 0.021 kWh, 0.01 €."
    assert words.outlay_words(p, Spent(0.0, 0.0), 0.0) == ""


def test_which_fan():
    assert words.fan_words(30.0, 20.0).startswith("The high fan is ready 10 min sooner")
    assert words.fan_words(20.0, 30.0).startswith("The low fan is ready 10 min sooner: the power is the limit")
    assert words.fan_words(np.inf, 30.0) == "Only the high fan gets the engine ready; the low one never does."
    assert words.fan_words(30.0, np.inf) == "Only the low fan gets the engine ready; the high one never does."
    assert words.fan_words(np.inf, np.inf) == "Neither fan gets the engine ready."
    assert words.fan_words(20.0, 20.3) == "Low and high fan are ready at the same time."


def test_what_holds_the_heater_back():
    history = warming(ENGINE, -15.0, BURNER)
    share = (history.on_minutes(600.0) - history.on_minutes(300.0)) / 300
    said = words.limit_words(history)
    assert f"between 44 °C (111 °F) and 52 °C (126 °F), with the heat on {100 * float(share):.0f} % of the time" in said
    held = words.limit_words(warming(ENGINE, -15.0, AirHeater(9000.0, 360.0, 52.0, 0.0, 6000.0, 140.0)))
    assert "it holds the air at 52 °C (126 °F), with" in held
    assert "The heater's power is the limit" in words.limit_words(warming(ENGINE, -15.0, WEAK))


def test_durations_are_long_enough_and_temperatures_are_on_both_scales():
    assert [duration(m) for m in (0.0, 18.01, 60.0, 3000.0)] == ["0 min", "19 min", "1 h 0 min", "50 h"]
    assert degrees(-40.0) == "−40 °C (−40 °F)"


def test_a_cold_start():
    said = words.cold_start_words(31.0, 0.53)
    assert (
        said == "A start now meets oil 31 times thicker than when it is ready, and a battery with 53 % of its capacity."
    )
    assert words.cold_start_words(np.inf) == "A start now meets oil that does not flow."
