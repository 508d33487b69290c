"""The picture of a load: nothing hides a limit, and the axes hold every load there can be."""

from itertools import product

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.lessons.loading.picture import LoadingPicture
from walkaround.live.picture import LivePicture
from walkaround.physics.loading import load_sheet


def test_no_label_hides_the_aft_limit():
    craft = aircraft.demo("morrowlark_four")
    picture = LoadingPicture(craft)
    live = LivePicture(picture)
    # Behind the aft limit and ahead of it, so that labels are close to the line on either side.
    for front, rear in product((180, 220, 260), (350, 385, 420)):
        stations = {"front seats": front, "rear seats": rear, "hold A": 85, "hold B": 55}
        fuel = {"left tank": 15, "right tank": 15}
        pixels = live.draw((load_sheet(craft, stations, fuel, 0, 12), stations, fuel))
        x, high = picture.limits.transData.transform((112.0, 2600))
        _, low = picture.limits.transData.transform((112.0, 1510))
        line = pixels[round(pixels.shape[0] - high) : round(pixels.shape[0] - low), round(x), :3]
        assert not (line == 255).all(axis=1).any(), (front, rear)


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_axes_reach_as_far_as_any_load(name):
    craft = aircraft.demo(name)
    picture = LoadingPicture(craft)
    (left, right), (bottom, top) = picture.limits.get_xlim(), picture.limits.get_ylim()
    full = {s.name: s.maximum for s in craft.stations}, {t.name: t.usable for t in craft.fuel.tanks}
    for shares in product((0, 1), repeat=len(full[0]) + len(full[1])):
        stations = {n: w * share for (n, w), share in zip(full[0].items(), shares, strict=False)}
        fuel = {n: v * share for (n, v), share in zip(full[1].items(), shares[len(stations) :], strict=True)}
        take_off = load_sheet(craft, stations, fuel).condition("take-off")
        assert left < take_off.cg < right
        assert bottom < take_off.weight < top
        picture.show((load_sheet(craft, stations, fuel), stations, fuel))
        bars = np.concatenate([path.vertices[:, 0] for path in picture.bars.get_paths()])
        assert np.abs(bars).max() < picture.bars.axes.get_xlim()[1]
