"""What a demonstration works out a step ahead of the hand is what it shows when the hand comes there."""

import importlib

import numpy as np
import pytest
from walkaround.lessons.table import LESSONS
from walkaround.live.controls import Slider

DEMONSTRATIONS = [(row.name, function) for row in LESSONS for function, _ in row.demonstrations]


def made(lesson, function):
    stage = getattr(importlib.import_module(f"walkaround.lessons.{lesson}"), function)()
    stage.send = lambda content, buffers=None: stage.sent.append(content)
    stage.sent = []
    return stage


@pytest.mark.parametrize(("lesson", "function"), DEMONSTRATIONS)
def test_a_step_ahead_and_the_step_itself_are_the_same(lesson, function):
    stage, afresh = made(lesson, function), made(lesson, function)
    sliders = [name for name, control in stage.controls.items() if isinstance(control, Slider)][:3]
    for name in sliders:
        control = stage.controls[name]
        for step in range(3):
            here = control.min + step * control.step
            asked = {"set": {name: here}, "next": {name: here + control.step}}
            stage._take(stage, asked, [])
            afresh._take(afresh, {"set": {name: here}}, [])
            assert stage.values == afresh.values
            assert (stage.verdict, stage.said) == (afresh.verdict, afresh.said)
            assert np.array_equal(stage.pixels, afresh.pixels), (name, here)
    assert sum("came" in content for content in stage.sent) >= len(sliders)
