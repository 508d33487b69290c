"""Letters in pictures stand out from what is behind them: WCAG 2.2, success criterion 1.4.3, 4.5 to 1, large letters 3 to 1."""

import importlib
from collections import Counter

import numpy as np
import pytest
from matplotlib.colors import to_rgb
from matplotlib.text import Text
from walkaround.lessons.table import LESSONS

LARGE_PX, LARGE_BOLD_PX = 24.0, 18.7  # WCAG 2.2, "large scale": 18 pt, or 14 pt bold, at 96 pixels to the inch
DEMONSTRATIONS = [(lesson.name, name) for lesson in LESSONS for name, _ in lesson.demonstrations]


def luminance(colour):
    """Relative luminance of red, green and blue from 0 to 1 (WCAG 2.2, definition)."""
    parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(one, other):
    """Contrast ratio of two colours (WCAG 2.2, definition).

    Black on white is 21 to 1, and a colour on itself 1 to 1.
    """
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def faint(stage):
    """Texts of a stage's picture that stand out too little, each with its contrast."""
    figure, pixels = stage.live.picture.figure, stage.pixels
    renderer = figure.canvas.get_renderer()
    for text in figure.findobj(Text):
        words = text.get_text().strip()
        if not words or not text.get_visible():
            continue
        box = text.get_window_extent(renderer)
        left, right = max(int(box.x0), 0), min(int(box.x1) + 1, pixels.shape[1])
        top, below = max(int(pixels.shape[0] - box.y1), 0), min(int(pixels.shape[0] - box.y0) + 1, pixels.shape[0])
        inside = pixels[top:below, left:right, :3].reshape(-1, 3)
        if not inside.size:
            continue
        own = np.array(to_rgb(text.get_color()))
        # What most of the letters' box shows is what is behind them.
        ground = np.array(Counter(map(tuple, inside.tolist())).most_common(1)[0][0]) / 255
        if not np.abs(inside / 255 - own).max(axis=1).min() < 0.1:
            continue  # an axis that is hidden keeps its texts, which are not drawn
        size = text.get_fontsize() * 100 / 72
        large = size >= LARGE_PX or (size >= LARGE_BOLD_PX and text.get_weight() in ("bold", 700))
        if contrast(own, ground) < (3.0 if large else 4.5):
            yield f"“{words}” {contrast(own, ground):.1f}"


def test_contrast_is_as_the_standard_has_it():
    assert contrast((0, 0, 0), (1, 1, 1)) == pytest.approx(21.0)
    assert contrast((0.5, 0.5, 0.5), (0.5, 0.5, 0.5)) == pytest.approx(1.0)
    # #767676 on white is the lightest grey that passes, as the working group's examples have it (recalled).
    assert contrast(to_rgb("#767676"), (1, 1, 1)) >= 4.5 > contrast(to_rgb("#777777"), (1, 1, 1))


@pytest.mark.parametrize(("lesson", "name"), DEMONSTRATIONS)
def test_letters_stand_out(lesson, name):
    stage = getattr(importlib.import_module(f"walkaround.lessons.{lesson}"), name)()
    found = set(faint(stage))
    for preset in stage.presets:
        stage.take_preset(preset)
        found |= set(faint(stage))
    if "reveal" in stage.controls:
        stage.set(reveal=True)
        found |= set(faint(stage))
    assert not found, sorted(found)
