"""Pictures of fuel: shapes where the geometry has them, nothing stale, nothing cut off, no labels over each other."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from scipy.spatial import ConvexHull
from walkaround.lessons import fuel as lesson
from walkaround.lessons.fuel.picture import outline, polygon_below

POINT = st.tuples(st.integers(-50, 50), st.integers(-50, 50))


def area(corners):
    x, y = np.transpose(corners)
    return abs(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1))) / 2


@given(st.lists(POINT, min_size=8, max_size=8, unique=True))
def test_the_outline_is_scipys_hull(points):
    spread = np.linalg.svd(np.array(points) - np.mean(points, axis=0), compute_uv=False)
    if spread[1] > 0.1:
        assert area(outline(points)) == pytest.approx(ConvexHull(points).volume, rel=1e-6)


@given(st.lists(st.floats(-10, 10), min_size=2, max_size=2), st.floats(-30, 30))
def test_a_cut_square_keeps_what_is_below(slope, level):
    square = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]
    heights = [slope[0] * x + slope[1] * y for x, y in square]
    assume(min(abs(h - level) for h in heights) > 1e-6)
    kept = polygon_below(square, heights, level)
    rest = polygon_below(square, [-h for h in heights], -level)
    assert (area(kept) if len(kept) > 2 else 0) + (area(rest) if len(rest) > 2 else 0) == pytest.approx(4.0, abs=1e-6)
    for x, y in kept:
        assert slope[0] * x + slope[1] * y <= level + 1e-9


STAGES = [
    ("demo", "morrowlark_four", None),
    ("demo", "tansy_two", "wing tank"),
    ("demo", "tansy_two", "rear tank"),
    ("night", "morrowlark_four", None),
    ("night", "tansy_two", "wing tank"),
]


def settings(stage):
    """Presets, and the ends of every slider."""
    yield from stage.presets.values()
    for name, control in stage.controls.items():
        for end in (control.min, control.max):
            yield {**stage.presets[next(iter(stage.presets))], name: end}
    if "nose" in stage.controls:
        yield from ({"water": 2000, "nose": nose, "wing": wing} for nose in (-6, 10) for wing in (-6, 1.5, 6))


@pytest.mark.parametrize(("function", "name", "tank"), STAGES)
def test_no_words_are_cut_off_or_over_each_other(function, name, tank):
    stage = getattr(lesson, function)(name, tank)
    figure = stage.live.picture.figure
    renderer = FigureCanvasAgg(figure).get_renderer()
    width, height = figure.canvas.get_width_height()
    for setting in settings(stage):
        stage.set(**setting)
        moving, boxes = stage.live.picture.moving, {}
        for text in figure.findobj(Text):
            shown = text in moving or (text.axes is not None and text.axes.axison)
            if shown and text.get_text().strip():
                box = text.get_window_extent(renderer)
                assert min(box.x0, box.y0) >= 0, text.get_text()
                assert box.x1 <= width, text.get_text()
                assert box.y1 <= height, text.get_text()
                if text in moving:
                    boxes[text] = box
        boxes = list(boxes.items())
        for i, (one, box) in enumerate(boxes):
            for other, another in boxes[i + 1 :]:
                assert not box.overlaps(another), (setting, one.get_text(), other.get_text())


@pytest.mark.parametrize(("function", "name", "tank"), STAGES[:2])
def test_nothing_is_stale(function, name, tank):
    used = getattr(lesson, function)(name, tank)
    for preset in used.presets:
        used.take_preset(preset)
        fresh = getattr(lesson, function)(name, tank)
        fresh.set(**used.values)
        fresh.refresh()
        assert np.array_equal(used.pixels, fresh.pixels)


@pytest.mark.parametrize("name", ["morrowlark_four", "tansy_two"])
def test_the_tank_stays_in_its_views(name):
    stage = lesson.demo(name)
    picture = stage.live.picture
    for nose in (-6, 0, 10):
        for wing in (-6, 0, 6):
            stage.set(nose=nose, wing=wing)
            for axes in (picture.behind, picture.beside):
                (x0, x1), (y0, y1) = axes.get_xlim(), axes.get_ylim()
                corners = picture._bodies[axes].get_paths()[0].vertices
                assert corners[:, 0].min() > x0
                assert corners[:, 0].max() < x1
                assert corners[:, 1].min() > y0
                assert corners[:, 1].max() < y1
