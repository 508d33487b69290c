"""The picture: forces to scale, ropes where the file has them, nothing stale, cut off or over other words."""

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from walkaround import aircraft
from walkaround.lessons import securing as lesson
from walkaround.lessons.securing.picture import METRES_PER_WEIGHT, arrow, rope_line
from walkaround.live.controls import Choice


@pytest.fixture(scope="module", params=aircraft.demo_names())
def stage(request):
    return lesson.demo(request.param)


def settings(stage):
    """Presets, the ends of every slider and every choice, in the storm."""
    yield from stage.presets.values()
    storm = stage.presets["the storm, and thin manila rope"]
    for name, control in stage.controls.items():
        choices = [v for _, v in control._options] if isinstance(control, Choice) else (control.min, control.max)
        yield from ({**storm, name: value} for value in choices)
    worst = {**storm, "wind": 60, "gust": 20, "rope": "nylon 1/2 in"}
    yield from (
        {**worst, "nose": nose, "from": side, "fuel": 100} for nose in (-3.0, 6.0, 12.0) for side in (-90, 0, 60)
    )
    yield {**worst, "nose": 12.0, "tied": "all three slack", "elevator": "locked"}


def length(corners):
    return float(np.hypot(*(np.array(corners[3]) - (np.array(corners[0]) + corners[6]) / 2)))


def test_an_arrow_is_as_long_as_its_force():
    assert length(arrow(1.0, 2.0, 0.0, 1.5)) == pytest.approx(1.5)
    assert length(arrow(1.0, 2.0, -0.3, 0.4)) == pytest.approx(0.5)
    assert len(set(arrow(1.0, 2.0, 0.0, 0.001))) == 1


def test_arrows_are_to_one_scale(stage):
    stage.take_preset("nose high, and stakes in wet grass")
    at, picture = stage._work(stage.values).said, stage.live.picture
    craft = aircraft.demo("tansy_two" if "Tansy" in stage.title else "morrowlark_four")
    weight = craft.empty.weight * at.force
    for view, forces in (
        (picture.ahead, (at.there.wind.left_n, at.there.wind.right_n, *at.there.wheels_n[1:])),
        (picture.side, (at.there.wind.left_n + at.there.wind.right_n, abs(at.there.wind.tail_n), at.parked.weight_n)),
    ):
        drawn = [path.vertices[:7] for path in view.arrows.get_paths()]
        for corners, force in zip(drawn, forces, strict=False):
            expected = METRES_PER_WEIGHT * float(force) / weight
            assert length(corners) == pytest.approx(expected if expected >= 0.02 else 0.0, abs=1e-6)


def test_a_rope_that_has_gone_differs_in_shape_and_word_and_not_in_colour_only(stage):
    whole, torn, loose = (
        rope_line((0.0, 2.0), (1.5, 0.0), *how) for how in ((False, False), (False, True), (True, False))
    )
    assert np.isnan(torn).any()
    assert not np.isnan(whole).any()
    assert loose[6, 1] < whole[6, 1]
    stage.take_preset("the storm, and thin manila rope")
    ropes = stage.live.picture.ahead.ropes
    assert all(dash for _, dash in ropes.get_linestyles())
    stage.take_preset("a storm, all as it should be")
    assert not any(dash for _, dash in ropes.get_linestyles())


def test_ropes_end_at_their_anchors(stage):
    stage.take_preset("a storm, all as it should be")
    parked, picture = stage._work(stage.values).said.parked, stage.live.picture
    ends = [segment[-1].tolist() for segment in picture.ahead.ropes.get_segments()]
    assert np.array(ends) == pytest.approx(np.array([[-rope.anchor_m[1], 0.0] for rope in parked.ropes[:2]]))
    assert picture.side.ropes.get_segments()[-1][-1].tolist() == pytest.approx([parked.ropes[2].anchor_m[0], 0.0])


def test_no_words_are_cut_off_or_over_each_other(stage):
    figure = stage.live.picture.figure
    renderer = FigureCanvasAgg(figure).get_renderer()
    width, height = figure.canvas.get_width_height()
    moving, faults = set(stage.live.picture.moving), set()
    for setting in settings(stage):
        stage.set(**setting)
        boxes = []
        for text in figure.findobj(Text):
            shown = text in moving or text.axes is None or text.axes.axison
            if shown and text.get_text().strip():
                box = text.get_window_extent(renderer)
                if min(box.x0, box.y0) < 0 or box.x1 > width or box.y1 > height:
                    faults.add(("cut", text.get_text()))
                if text in moving:
                    boxes.append((text.get_text(), box))
        for i, (one, box) in enumerate(boxes):
            faults |= {("over", one, other) for other, another in boxes[i + 1 :] if box.overlaps(another)}
    assert not faults, sorted(faults)[:12]


def test_nothing_is_stale(stage):
    for preset in stage.presets:
        stage.take_preset(preset)
        seen = stage.pixels.copy()
        fresh = lesson.demo("tansy_two" if "Tansy" in stage.title else "morrowlark_four")
        fresh.set(**stage.values)
        assert np.array_equal(seen, fresh.pixels), preset
