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
        made(section, 45.0, heater=ELECTRIC.set_to("high"), wait_minutes=60.0),
        made(section, 120.0, -22.0, heater=ELECTRIC.set_to("high", power_w=1200), wait_minutes=60.0, cover=True),
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


def test_teeth_of_the_heaters_air_are_all_drawn_or_none():
    section, picture = picture_of("morrowlark_four")
    curves = picture.curves
    # Three quarters of an hour of the electric heater: 121 times off and on, of which a line would show fewer.
    p = made(section, 45.0, heater=ELECTRIC.set_to("high"), cover=True)
    turns = p.warming.switchings_minutes(45.0)
    assert turns[::2].size == 121
    picture.show((p, 45.0))
    assert curves.band.get_visible()
    assert (curves.band.get_y(), curves.band.get_height()) == (pytest.approx(47.0), pytest.approx(5.0))
    assert curves.band.get_x() == turns[0] == curves.lines["heater's air"][-1, 0]
    assert curves.band.get_x() + curves.band.get_width() == pytest.approx(45.0)
    # Five minutes of it: each time off and on has room.
    p = made(section, 5.0, heater=ELECTRIC.set_to("high"), cover=True)
    picture.show((p, 5.0))
    assert not curves.band.get_visible()
    minutes, air = curves.lines["heater's air"].T
    turns = p.warming.switchings_minutes(5.0)
    assert turns.size > 15
    assert np.isin(turns, minutes).all()
    assert air[np.isin(minutes, turns[::2])] == pytest.approx(52.0)
    assert air[np.isin(minutes, turns[1::2])] == pytest.approx(47.0)
    picture.show((made(section, 45.0, pad=PAD), 45.0))
    assert not curves.band.get_visible()


def test_heat_on_stands_only_where_something_heats():
    section, picture = picture_of("morrowlark_four")
    curves = picture.curves
    for settings, words in (({"heater": KEROSENE.set_to("high")}, True), ({"pad": PAD}, True), ({}, False)):
        picture.show((made(section, 60.0, **settings), 30.0))
        assert curves._heating_words.get_visible() == words
        assert (curves._heating.get_width() > 0) == words
    assert curves._waiting_words.get_text() == "no heat"
    # Nor does the heater blow when it is not switched on at all.
    picture.show((made(section, 0.0, heater=KEROSENE.set_to("high")), 0.0))
    assert picture.engine.shades["air"] is None


def test_the_scale_that_was_chosen_leads_in_the_whole_picture():
    section, picture = picture_of("morrowlark_four")
    p, curves = made(section, 60.0, heater=KEROSENE.set_to("high")), picture.curves
    for scale, other, leading, oil in (("°C", "°F", curves.axes, "−40"), ("°F", "°C", curves.in_fahrenheit, "200")):
        picture.show((p, 60.0, scale))
        assert (curves.left.get_text(), curves.right.get_text()) == (scale, other)
        assert [axis.yaxis.get_ticks_position() for axis in (curves.axes, curves.in_fahrenheit)] == (
            ["left", "right"] if leading is curves.axes else ["right", "left"]
        )
        assert picture.thickness.axes.get_xlabel() == f"oil, {scale}"
        assert oil in [label.get_text() for label in picture.thickness.axes.get_xticklabels()]
        for text in (*curves._needs.values(), *picture.engine._degrees.values()):
            assert other not in text.get_text()
        assert picture.still(None) == curves.spans
        assert scale in curves.spans


def test_a_part_that_just_misses_its_temperature_is_not_shown_as_having_it():
    section, picture = picture_of("morrowlark_four")
    ready = section.ready_c
    just = {part: c - 0.2 for part, c in ready.items()} | {"air": 0.0}
    picture.engine.update(just, ready)
    assert picture.engine.states.get_text() == "not ready: metal, oil, cylinders"
    assert picture.engine._degrees["oil"].get_text() == "oil\n9 °C"
    picture.engine.update(ready | {"air": 0.0}, ready)
    assert picture.engine.states.get_text() == "all parts ready"
    assert picture.engine._degrees["oil"].get_text() == "oil\n10 °C"


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
@pytest.mark.parametrize("case", range(7))
@pytest.mark.parametrize("scale", ["°C", "°F"])
def test_no_words_are_cut_off_or_over_each_other(name, case, scale):
    section, picture = picture_of(name)
    p = short_and_long(section)[case]
    picture.show((p, float(p.heat_minutes), scale))
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
    labels = [*picture.curves._names.values(), *picture.curves._needs.values(), picture.curves._air_words]
    labels = [boxes[t].shrunk(1.0, 0.8) for t in labels if t in boxes]
    for i, one in enumerate(labels):
        for other in labels[i + 1 :]:
            assert not one.overlaps(other)
    right = picture.curves.axes.get_window_extent().x1
    assert max(box.x1 for box in labels) <= right  # clear of the numbers of the right scale


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
