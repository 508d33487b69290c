"""Preheating in metric units: only °C is left, and it is the same morning."""

import pytest
from walkaround import aircraft, measures
from walkaround.lessons import preheat
from walkaround.physics.preheat.words import CELSIUS, FAHRENHEIT


def made(system, name="morrowlark_four"):
    with measures.shown_in(system):
        return preheat.demo(name)


def test_a_morning_in_fahrenheit_is_as_cold_in_metric_units():
    stage = made(measures.US)
    stage.controls["degrees"].value = FAHRENHEIT
    stage.controls["outside"].value, stage.controls["thermostat"].value = -4, 122
    stage.show_units(measures.METRIC)
    assert "degrees" not in stage.controls
    # −4 °F is −20 °C, and 122 °F is 50 °C.
    assert [(stage.controls[name].value, stage.controls[name].unit) for name in ("outside", "thermostat")] == [
        (-20, CELSIUS),
        (50, CELSIUS),
    ]
    assert "°F" not in stage.said
    stage.show_units(measures.US)
    assert (stage.values["degrees"], stage.values["outside"], "°F" in stage.said) == (CELSIUS, -20, True)


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_every_morning_is_judged_alike(name):
    us, metric = made(measures.US, name), made(measures.METRIC, name)
    for preset in us.presets:
        for stage in (us, metric):
            stage.take_preset(preset)
        assert us.verdict == metric.verdict, preset


def test_the_hangars_table_has_the_same_minutes_in_one_scale():
    with measures.shown_in(measures.US):
        both = preheat.hangar_table(outside_c=(0, -20))
    with measures.shown_in(measures.METRIC):
        celsius = preheat.hangar_table(outside_c=(0, -20))
    # The oil's 7 qt are 6.62 L, and not 6.624, where all is in litres: seconds of a long preheat.
    assert celsius.minutes == pytest.approx(both.minutes, abs=0.1)
    letters = [text.get_text() for text in celsius.figure.axes[0].texts]
    assert "−20 °C" in letters
    assert not any("°F" in text for text in letters)
    assert "−4 °F" in [text.get_text() for text in both.figure.axes[0].texts]
    assert repr(celsius).count("°F") == 0
    assert repr(both).count("°F") == 2
