"""The preheat picture: curves, moments and shades where the result says, nothing stale, nothing cut off."""

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.lessons.preheat.engine_sketch import shade
from walkaround.lessons.preheat.hangar_picture import hangar_table
from walkaround.lessons.preheat.picture import PreheatPicture
from walkaround.live.picture import LivePicture
from walkaround.physics.oil.viscosity import viscosity_mm2_s
from walkaround.physics.preheat.plans import plan

ELECTRIC, KEROSENE = demo_heaters().air_heaters
PAD = demo_heaters().pads[0].set_to()


def picture_of(name):
    section = aircraft.demo(name).engine
    return section, PreheatPicture(section.engine().parts, section.ready_c, section.oil)


def made(section, heat_minutes=60.0, outside_c=-15.0, **settings):
    return plan(section.engine(), section.ready_c, outside_c, heat_minutes, **settings)


def short_and_long(section):
    """Plans at the ends of what a slider can ask for."""
    return [
        made(section, 40.0, heater=KEROSENE.set_to("high"), wait_minutes=20.0, cover=True),
        made(section, 10.0, -30.0, heater=ELECTRIC.set_to("high")),
        made(section, 720.0, -35.0, pad=PAD, wait_minutes=120.0, wind_kt=20.0),
        made(section, 240.0, 5.0, heater=KEROSENE.set_to("low"), pad=PAD, cover=True),
        made(section, 0.0, 0.0),
    ]


def test_curves_are_the_temperatures_and_the_line_is_the_moment():
    section, picture = picture_of("morrowlark_four")
    p = made(section, 60.0, heater=KEROSENE.set_to("high"), wait_minutes=15.0)
    picture.show((p, 33.0))
    curves = picture.curves
    for i, part in enumerate(p.warming.parts):
        minutes, shown = curves.lines[part].T
        assert shown == pytest.approx(p.temperatures_c(minutes)[:, i])
        assert (minutes[0], minutes[-1]) == (0.0, 75.0)
        assert curves.marks[part].tolist() == [[float(p.reached_minutes[part]), float(p.ready_c[part])]]
    assert curves.lines["ready"][:, 0] == pytest.approx(float(p.ready_minutes))
    assert curves.now.get_xdata() == [33.0, 33.0]
    assert picture.engine.states.get_text() == "all parts ready"


def test_both_scales_of_the_curves_agree():
    section, picture = picture_of("morrowlark_four")
    picture.show((made(section, 60.0, heater=KEROSENE.set_to("high")), 0.0))
    celsius, fahrenheit = picture.curves.axes.get_ylim(), picture.curves.in_fahrenheit.get_ylim()
    assert np.allclose(fahrenheit, 1.8 * np.array(celsius) + 32)


def test_an_engine_that_never_gets_ready_says_so_and_shows_no_moment():
    section, picture = picture_of("morrowlark_four")
    picture.show((made(section, 60.0, heater=KEROSENE.set_to("high")), 60.0))
    picture.show((made(section, 10.0, -40.0, pad=PAD, wind_kt=30.0), 5.0))
    for nothing in (picture.curves.lines["ready"], picture.curves.lines["heater's air"]):
        assert np.isnan(nothing).all()
    assert all(np.isnan(mark).all() for mark in picture.curves.marks.values())
    assert picture.curves.ready_words.get_text() == "never ready like this"
    assert picture.engine.states.get_text().startswith("not ready: metal, oil")


def test_the_sketch_shows_what_is_on():
    section, picture = picture_of("tansy_two")
    p = made(section, 30.0, heater=KEROSENE.set_to("high"), pad=PAD, wait_minutes=30.0, cover_while_waiting=True)
    sketch = picture.engine
    picture.show((p, 10.0))
    assert sketch.shades["air"] == shade(float(p.temperatures_c(10.0)[-1]))
    assert [a.get_visible() for a in (sketch.pad, sketch.cover)] == [True, False]
    picture.show((p, 45.0))
    assert sketch.shades["air"] is None
    assert [a.get_visible() for a in (sketch.pad, sketch.cover)] == [False, True]
    assert sketch.shades["oil"] == shade(float(p.temperatures_c(45.0)[1]))


def test_shades_get_darker_in_grey():
    grey = [np.dot(shade(t)[:3], (0.299, 0.587, 0.114)) for t in range(-40, 91, 5)]
    assert np.all(np.diff(grey) < 0)


def test_the_dot_lies_on_the_oils_own_curve():
    section, picture = picture_of("morrowlark_four")
    picture.thickness.update(-12.0)
    x, y = (float(v[0]) for v in picture.thickness.now.get_data())
    oil = section.oil
    assert (x, y) == (
        -12.0,
        pytest.approx(float(viscosity_mm2_s(-12.0, oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s))),
    )
    assert "times thicker" in picture.thickness.words.get_text()
    picture.thickness.update(oil.pour_point_c - 1.0)
    assert "pour point" in picture.thickness.words.get_text()
    assert not picture.thickness.now.get_visible()


def test_nothing_is_stale():
    section, used = picture_of("morrowlark_four")
    live = LivePicture(used)
    for p in short_and_long(section):
        now = float(p.heat_minutes) / 2
        fresh = LivePicture(picture_of("morrowlark_four")[1])
        assert np.array_equal(live.draw((p, now)), fresh.draw((p, now)))


@pytest.mark.parametrize("name", aircraft.demo_names())
@pytest.mark.parametrize("case", range(5))
def test_no_words_are_cut_off_or_over_each_other(name, case):
    section, picture = picture_of(name)
    p = short_and_long(section)[case]
    picture.show((p, float(p.heat_minutes)))
    canvas = FigureCanvasAgg(picture.figure)
    canvas.draw()
    width, height = canvas.get_width_height()
    boxes = {}
    for artist in picture.moving:
        if isinstance(artist, Text) and artist.get_visible() and artist.get_text():
            box = artist.get_window_extent(canvas.get_renderer())
            assert box.x0 >= 0, artist.get_text()
            assert box.y0 >= 0, artist.get_text()
            assert box.x1 <= width, artist.get_text()
            assert box.y1 <= height, artist.get_text()
            boxes[artist] = box
    labels = [*picture.curves._names.values(), *picture.curves._needs.values()]
    labels = [boxes[t].shrunk(1.0, 0.8) for t in labels if t in boxes]
    for i, one in enumerate(labels):
        for other in labels[i + 1 :]:
            assert not one.overlaps(other)


def test_the_hangar_table_says_never_and_rounds_up():
    figure = hangar_table([-20.0, 0.0], ["low fan", "high fan"], [[np.inf, 44.2], [30.0, 18.0]], "Minutes", ["a note"])
    said = [t.get_text() for t in figure.axes[0].texts]
    for words in ("Minutes", "low fan", "never", "45 min", "30 min", "−20 °C", "−4 °F", "32 °F", "a note"):
        assert words in said
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    width, height = canvas.get_width_height()
    for text in figure.axes[0].texts:
        box = text.get_window_extent(canvas.get_renderer())
        assert box.x0 >= 0
        assert box.x1 <= width
        assert box.y0 >= 0
        assert box.y1 <= height
