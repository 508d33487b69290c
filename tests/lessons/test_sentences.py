"""The sentence is one breath: verdict and number first, at most thirty words; what else matters fits in the line below it."""

import importlib
import random

import pytest
from walkaround.lessons.table import LESSONS
from walkaround.live.controls import Choice, Slider, Switch

MOST_WORDS = 30
MOST_LETTERS = 230  # of the line below it: three lines on a laptop's screen
DEMONSTRATIONS = [(lesson.name, name) for lesson in LESSONS for name, _ in lesson.demonstrations]


def shaken(stage, dice):
    """Some other setting of a stage's controls, as a hand might leave them."""
    values = {}
    for name, control in stage.controls.items():
        if isinstance(control, Slider):
            steps = round((control.max - control.min) / control.step)
            values[name] = type(control.value)(control.min + dice.randint(0, steps) * control.step)
        elif isinstance(control, Switch):
            values[name] = dice.random() < 0.4
        elif isinstance(control, Choice):
            control.take(dice.randrange(len(control.spec()["options"])))
    return values


@pytest.mark.parametrize(("lesson", "name"), DEMONSTRATIONS)
def test_the_sentence_is_one_breath(lesson, name):
    stage = getattr(importlib.import_module(f"walkaround.lessons.{lesson}"), name)()
    dice, too_long, below = random.Random(name), {}, set()
    settings = [*stage.presets.values(), *(None for _ in range(40))]
    for setting in settings:
        stage.set(**(shaken(stage, dice) if setting is None else setting))
        assert stage.words.endswith((".", "?"))
        assert "fault of the workbook" not in stage.words, stage.values
        if len(stage.words.split()) > MOST_WORDS:
            too_long[stage.words] = len(stage.words.split())
        if len(stage.more) > MOST_LETTERS:
            below.add(stage.more)
    assert not too_long, sorted(too_long.items(), key=lambda item: -item[1])[:3]
    assert not below, max(below, key=len)
