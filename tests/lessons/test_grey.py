"""No meaning by colour alone: where a picture changes in colour, it changes in grey as well."""

import importlib
from itertools import combinations

import numpy as np
import pytest
from walkaround.lessons.table import LESSONS
from walkaround.live.controls import Slider

DEMONSTRATIONS = [(lesson.name, name) for lesson in LESSONS for name, _ in lesson.demonstrations]


def grey(picture):
    """The picture as a printer without colour shows it (luma of ITU-R BT.601)."""
    return picture @ (0.299, 0.587, 0.114)


@pytest.mark.parametrize(("lesson", "name"), DEMONSTRATIONS)
def test_what_changes_in_colour_changes_in_grey(lesson, name):
    stage = getattr(importlib.import_module(f"walkaround.lessons.{lesson}"), name)()
    ends = {name: {name: control.max} for name, control in stage.controls.items() if isinstance(control, Slider)}
    seen = [("at first", stage.pixels[:, :, :3].astype(float))]
    for setting, values in {**ends, **stage.presets}.items():
        stage.set(**values)
        seen.append((setting, stage.pixels[:, :, :3].astype(float)))
    for (one, picture), (other, picture_then) in combinations(seen, 2):
        in_colour = (np.abs(picture - picture_then).max(axis=2) > 40).sum()
        in_grey = (np.abs(grey(picture) - grey(picture_then)) > 20).sum()
        assert in_grey >= in_colour / 2, (one, other)
