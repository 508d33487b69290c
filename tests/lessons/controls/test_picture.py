"""Pictures of the controls: a reversed control and a correct one never look alike, nothing stale, no words cut off."""

from dataclasses import astuple
from itertools import combinations

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from walkaround import aircraft
from walkaround.lessons import controls as lesson
from walkaround.lessons.controls.faults import fault_of
from walkaround.lessons.controls.picture import ControlsPicture, Shown
from walkaround.lessons.controls.words import NAMES, written
from walkaround.live.picture import LivePicture
from walkaround.physics.controls import FAULTS, Fault, Hands, linkage, positions

REVERSED = {
    linkage.AILERONS_CROSSED: ("left_aileron", "right_aileron"),
    linkage.ELEVATOR_REVERSED: ("elevator",),
    linkage.RUDDER_REVERSED: ("rudder",),
    linkage.TAB_REVERSED: ("tab",),
}
MOVED = st.floats(0.4, 1.0).flatmap(lambda share: st.sampled_from([share, -share]))
CRAFTS = {name: aircraft.demo(name) for name in aircraft.demo_names()}
LIVE = {name: LivePicture(ControlsPicture(craft)) for name, craft in CRAFTS.items()}


def drawn(name, hands, fault):
    """Grey pixels of the picture without a single word about the surfaces (luma of ITU-R BT.601)."""
    there = positions(CRAFTS[name].control_surfaces.rigging, hands, fault)
    pixels = LIVE[name].draw(Shown(there, hands.yaw, hands.trim, angles=False))
    return pixels[:, :, :3] @ (0.299, 0.587, 0.114)


def differ(one, other):
    """How many pixels anyone can tell apart."""
    return int((np.abs(one - other) > 40).sum())


@pytest.mark.parametrize("name", CRAFTS)
@settings(
    max_examples=8, deadline=None, phases=[Phase.explicit, Phase.generate]
)  # drawing is slow: none is made smaller
@given(MOVED, st.one_of(MOVED, st.just(1.0)), MOVED, MOVED, st.booleans())
def test_no_two_faults_look_alike(name, roll, pitch, yaw, trim, on_left):
    hands = Hands(roll, pitch, yaw, trim, CRAFTS[name].control_surfaces.rigging.flap)
    # An elevator that is short of travel shows at its stop only, which is what the lesson says.
    kinds = [kind for kind in FAULTS if kind != linkage.ELEVATOR_SHORT or pitch == 1.0]
    pictures = {kind: drawn(name, hands, fault_of(kind, 0, on_left)) for kind in kinds}
    for one, other in combinations(kinds, 2):
        assert differ(pictures[one], pictures[other]) >= 60, (one, other, hands)


@pytest.mark.parametrize("name", CRAFTS)
@pytest.mark.parametrize("kind", REVERSED)
def test_a_reversed_control_and_a_correct_one_differ_at_every_share_from_a_tenth_on(name, kind):
    flap = CRAFTS[name].control_surfaces.rigging.flap
    for share in (0.1, -0.1, 0.25, -0.25, 0.6, -0.6, 1.0, -1.0):
        hands = Hands(share, share, share, share, flap)
        assert differ(drawn(name, hands, Fault()), drawn(name, hands, Fault(kind))) >= 15, share


@pytest.mark.parametrize("name", CRAFTS)
def test_edges_are_where_the_angles_put_them(name):
    section, picture = CRAFTS[name].control_surfaces, LIVE[name].picture
    r = section.rigging
    for hands in (Hands(1, 1, 1, 1, r.flap), Hands(-1, -1, -1, -1, 0), Hands(0.5, -0.3, -0.7, 0.2, r.flap / 2)):
        there = positions(r, hands)
        picture.show(Shown(there, hands.yaw, hands.trim))
        behind = dict(zip(picture._from_behind({n: 0 for n in NAMES}), picture._behind.get_paths(), strict=True))
        scale = picture._d.span / CRAFTS[name].dimensions.span * picture._px * 3
        for surface, chord in (
            ("left_aileron", section.aileron.chord), ("right_aileron", section.aileron.chord),
            ("left_flap", section.flap.chord), ("elevator", section.elevator.chord), ("rudder", section.rudder.chord),
        ):  # fmt: skip
            corners = behind[surface].vertices
            axis = 0 if surface == "rudder" else 1
            moved = corners[3][axis] - corners[0][axis]
            up = -getattr(there, surface) if surface == "left_flap" else getattr(there, surface)
            assert moved == pytest.approx(scale * chord * np.sin(np.radians(float(up))), abs=1e-6)
        for place, surface in enumerate(("left_aileron", "right_aileron", "left_flap", "right_flap")):
            hinge, *_, end = picture._cut.get_paths()[place].vertices[:5]
            angle = np.degrees(np.arctan2(end[1] - hinge[1], end[0] - hinge[0]))
            way = -1 if surface.endswith("flap") else 1
            assert angle == pytest.approx(way * float(getattr(there, surface)), abs=8)


def all_settings(stage):
    yield from stage.presets.values()
    for name in ("roll", "pitch", "yaw", "trim"):
        for end in (-100, 100):
            yield {"fault": linkage.NOTHING, name: end}
    yield {"roll": -100, "pitch": -100, "yaw": -100, "trim": -100, "flap": stage.controls["flap"]._options[-1][1]}


@pytest.mark.parametrize("name", CRAFTS)
@pytest.mark.parametrize("function", ["demo", "drill"])
def test_no_words_are_cut_off_or_over_each_other(name, function):
    stage = getattr(lesson, function)(name)
    figure = stage.live.picture.figure
    renderer = FigureCanvasAgg(figure).get_renderer()
    width, height = figure.canvas.get_width_height()
    states = (
        all_settings(stage) if function == "demo" else [{"round": n, "answer": ((0, 1),) * n} for n in range(1, 14)]
    )
    for state in states:
        stage.set(**state)
        boxes = []
        for text in figure.findobj(Text):
            if text.get_text().strip() and (text in stage.live.picture.moving or text in stage.live.picture.axes.texts):
                box = text.get_window_extent(renderer)
                assert box.x0 >= 0, text.get_text()
                assert box.y0 >= 0, text.get_text()
                assert box.x1 <= width, text.get_text()
                assert box.y1 <= height, text.get_text()
                boxes.append((text.get_text(), box))
        for (one, box), (other, another) in combinations(boxes, 2):
            assert not box.overlaps(another), (state, one, other)


@pytest.mark.parametrize("name", CRAFTS)
def test_nothing_is_stale(name):
    used = lesson.demo(name)
    for preset in used.presets:
        used.take_preset(preset)
    fresh = lesson.demo(name)
    fresh.take_preset(preset)
    assert np.array_equal(used.pixels, fresh.pixels)


def test_labels_say_what_the_surfaces_do():
    live, r = LIVE["tansy_two"], CRAFTS["tansy_two"].control_surfaces.rigging
    for hands in (Hands(1, 1, 1, 1, r.flap), Hands(-0.5, 0, 0.2, -1, 0)):
        there = positions(r, hands)
        live.draw(Shown(there, hands.yaw, hands.trim))
        for name, label in live.picture._labels.items():
            assert label.get_text() == f"{NAMES[name]} {written(name, getattr(there, name))}"


def test_the_lock_holds_the_wheel_in_the_picture():
    hands = Hands(roll=1.0, pitch=1.0)
    for name in CRAFTS:
        held, picture = CRAFTS[name].control_surfaces.rigging, LIVE[name].picture
        parts = {}
        for kind, pull in ((linkage.NOTHING, hands), (linkage.LOCKED, hands), (linkage.NOTHING, Hands())):
            picture.show(Shown(positions(held, pull, Fault(kind))))
            parts[kind, astuple(pull)[0]] = [path.vertices.copy() for path in picture._hands.get_paths()]
        assert all(
            np.allclose(a, b) for a, b in zip(parts[linkage.LOCKED, 1.0], parts[linkage.NOTHING, 0.0], strict=True)
        )
        assert not np.allclose(parts[linkage.LOCKED, 1.0][0], parts[linkage.NOTHING, 1.0][0])
