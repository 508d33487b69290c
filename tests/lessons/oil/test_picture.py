"""The oil picture: dots, line, limits and sump where the check says, nothing stale, nothing cut off or overlapping."""

import itertools

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from walkaround import aircraft
from walkaround.lessons.oil import logs
from walkaround.lessons.oil.check import Check
from walkaround.lessons.oil.picture import END_H, OilPicture
from walkaround.live.picture import LivePicture

FOUR = aircraft.demo("morrowlark_four").engine


def made(preset=logs.STEADY, engine=FOUR, count=8, flight_h=3.0, minutes=30, nose_up_deg=0.0):
    there = [logs.level(engine, q) for q in preset[0]]
    log = logs.log(there, logs.scaled(engine, preset[1]), count)
    return Check(engine, log, flight_h, minutes, nose_up_deg), there


def cases(engine):
    presets = (logs.STEADY, logs.THIRSTY, logs.CARELESS, logs.CHANGED)
    for preset, count, (minutes, nose_up) in itertools.product(
        presets, (3, 5, 8), ((30, 0), (1, 0), (30, 5), (30, -5))
    ):
        yield made(preset, engine, count, 3.0, minutes, nose_up)


def shown(check_and_there, engine=FOUR):
    picture = OilPicture(engine)
    picture.show(check_and_there)
    return picture


def test_line_and_limits_are_those_of_the_fit():
    picture = shown(result := made())
    check, trend = result[0], result[0].trend
    pieces = picture._lines.get_segments()
    for h, oil in pieces[1]:
        assert oil == pytest.approx(float(trend.quantity(h)))
    for h, oil in pieces[0]:  # before the bottle went in
        assert oil == pytest.approx(float(trend.quantity(h)) - 1.0)
    band = picture._band.get_paths()[1].vertices
    for h, oil in band[:10]:
        assert oil == pytest.approx(float(trend.quantity(h) - trend.within(h)))
    (early, level), (late, _) = pieces[2]
    assert (level, early, late) == pytest.approx((6.0, 21 + check.due_in[1], 21 + check.due_in[2]))
    assert pieces[3].tolist() == [[21.0, check.needed], [24.0, 5.0]]


def test_dots_are_the_readings_and_a_ring_what_there_really_is():
    picture = shown(made(count=5))
    assert picture.readings.get_ydata()[-1] == 7.2
    assert len(picture.not_yet.get_xdata()) == 3
    assert len(picture.real.get_xdata()) == 0
    picture.show(made(minutes=2))
    assert list(picture.real.get_ydata()) == [6.5]
    assert picture.readings.get_ydata()[-1] == 5.7
    assert picture._film.get_paths()[0].vertices[:, 1].max() == pytest.approx(5.7)


def test_a_bend_that_is_found_is_drawn():
    picture = shown(result := made(logs.CHANGED))
    change = result[0].change
    line = picture._lines.get_segments()[1]
    assert line[1].tolist() == [float(change.at_h), pytest.approx(float(change.at_quantity))]
    slopes = -np.diff(line[:, 1]) / np.diff(line[:, 0])
    assert slopes == pytest.approx([change.before, change.after])
    assert picture.due_words.get_text() == "burns more from here"
    picture.show(made())
    assert picture.due_words.get_text() == "due in 6 h"


@pytest.mark.parametrize("name", aircraft.demo_names())
@pytest.mark.parametrize("nose_up", [-5.0, 0.0, 3.0])
def test_the_oil_in_the_sump_is_level_and_as_much(name, nose_up):
    engine = aircraft.demo(name).engine
    check, there = made(engine=engine, nose_up_deg=nose_up)
    box, oil, *_ = (p.vertices for p in shown((check, there), engine)._sump.get_paths())
    # Corners: floor at the nose, oil at the nose, oil at the tail, floor at the tail.
    assert oil[1, 1] == pytest.approx(oil[2, 1])
    x, y = oil[:4].T
    area = 0.5 * abs(x @ np.roll(y, 1) - y @ np.roll(x, 1))
    sump = engine.oil.sump
    assert area == pytest.approx(sump.length * sump.depth(engine.oil.litres(check.drained)))
    assert np.sign(box[0, 1] - box[3, 1]) == np.sign(nose_up)  # the floor at the nose is the higher


def test_nothing_is_stale():
    live = LivePicture(OilPicture(FOUR))
    for case in itertools.islice(cases(FOUR), 0, None, 5):
        assert np.array_equal(live.draw(case), LivePicture(OilPicture(FOUR)).draw(case))


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_no_words_are_cut_off_or_over_each_other(name):
    engine = aircraft.demo(name).engine
    picture = OilPicture(engine)
    canvas = FigureCanvasAgg(picture.figure)
    width, height = canvas.get_width_height()
    for case in cases(engine):
        picture.show(case)
        boxes = {}
        for artist in picture.moving:
            if isinstance(artist, Text) and artist.get_text():
                box = boxes[artist.get_text()] = artist.get_window_extent(canvas.get_renderer())
                assert min(box.x0, box.y0) >= 0, artist.get_text()
                assert box.x1 <= width - 4, artist.get_text()
                assert box.y1 <= height, artist.get_text()
        in_axes = [t.get_text() for t in (*picture._level_words, picture.due_words)]
        for one, other in itertools.combinations([boxes[t].shrunk(1.0, 0.8) for t in in_axes], 2):
            assert not one.overlaps(other), in_axes
        beside = [
            boxes[t.get_text()] for t in (picture._needs_words, picture._real_words, picture.words) if t.get_text()
        ]
        for one, other in itertools.combinations(beside, 2):
            assert not one.shrunk(1.0, 0.8).overlaps(other.shrunk(1.0, 0.8))
        assert boxes[picture.due_words.get_text()].x1 <= picture.axes.get_window_extent().x1
    assert picture.axes.get_xlim()[1] == END_H
