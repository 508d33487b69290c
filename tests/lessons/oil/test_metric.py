"""The oil log in quarts and in litres: the same case, read to a step that a hand can read."""

import pytest
from walkaround import aircraft, measures
from walkaround.lessons import oil
from walkaround.live.status import STOP


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_a_log_says_the_same_in_quarts_and_in_litres(name):
    with measures.shown_in(measures.US):
        stage = oil.demo(name)
    with measures.shown_in(measures.METRIC):
        made = oil.demo(name)
    for preset in ("steady", "a thirsty engine", "read too soon", "parked nose up", "it burns more than it did"):
        stage.show_units(measures.US)
        stage.take_preset(preset)
        quarts, first = stage.verdict, stage.values
        stage.show_units(measures.METRIC)
        assert stage.verdict == quarts, preset
        # A quart is 0.946 L, and a slider takes the nearest of its steps.
        step = stage.controls["at_0"].step
        for hour in ("at_0", "at_9", "at_21"):
            assert abs(stage.values[hour] - 0.946353 * first[hour]) <= 0.5 * step + 1e-6
        made.take_preset(preset)
        assert (made.verdict == STOP) == (quarts == STOP), preset


def test_a_stick_is_read_to_a_round_step():
    steps = {}
    for name in aircraft.demo_names():
        for system in measures.SYSTEMS:
            with measures.shown_in(system):
                stage = oil.demo(name)
            steps[name, system] = stage.controls["at_0"].step, stage.controls["at_0"].unit
    assert steps == {
        ("morrowlark_four", "US"): (0.1, "qt"),
        ("morrowlark_four", "metric"): (0.1, "L"),
        ("tansy_two", "US"): (0.05, "qt"),
        ("tansy_two", "metric"): (0.05, "L"),
    }
