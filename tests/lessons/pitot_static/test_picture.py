"""Pictures of the pitot and static lesson: needles point where they should, nothing stale, nothing cut off."""

from math import inf

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.patches import Wedge
from matplotlib.text import Text
from walkaround.lessons.pitot_static.dial_faces import AirspeedDial, AltimeterDial, VerticalSpeedDial
from walkaround.lessons.pitot_static.flight_picture import FlightPicture
from walkaround.lessons.pitot_static.picture import InstrumentsPicture
from walkaround.lessons.pitot_static.roll_picture import Ending, RollPicture
from walkaround.live.picture import LivePicture
from walkaround.live.style import new_figure
from walkaround.physics.air.flight import join, level, roll_and_climb
from walkaround.physics.air.takeoff import alive_s, as_flight, rejected, takeoff_roll
from walkaround.physics.pitot_static.instruments import EVERY_COMBINATION, Openings, indications
from walkaround.physics.pitot_static.over_flight import Blockage, indications_over

SPEEDS = {"vs1": 50, "vno": 120, "vne": 150, "vs0": 44, "vfe": 85}  # invented
FLIGHT = join(roll_and_climb(500.0, 3000.0, 52.0, 72.0, 700.0, 20.0), level(3000.0, 105.0, 2.0))


def pointing(polygon):
    """Direction in degrees, clockwise from the top, from the middle to the corner that is farthest out."""
    x, y = max(polygon.get_xy(), key=lambda corner: np.hypot(*corner))
    return np.degrees(np.arctan2(x, y)) % 360.0


def moment(openings, alternate_open=False, altitude_ft=3000.0):
    more = {"alternate_open": alternate_open, "cabin_below_hpa": 2.0}
    shown = indications(altitude_ft, 90.0, openings, 2500.0, 80.0, 500.0, **more)
    right = indications(altitude_ft, 90.0, Openings(), climb_fpm=500.0)
    return openings, shown, right, alternate_open


def over_flight(at_s, reveal=True):
    shown = indications_over(FLIGHT, Blockage(60.0, inf, inf))
    return shown, indications_over(FLIGHT), at_s, [60.0], reveal


def on_the_roll(seconds_later=10.0, runway_ft=2000, field_ft=1500.0):
    roll = takeoff_roll(900.0, 55.0, field_ft, 25.0)
    flight, call = as_flight(roll, until_s=30.0), float(alive_s(roll, 40.0))
    covered = indications_over(flight, Blockage(0.0, inf)).airspeed_kt
    endings = [
        Ending.of(f"{n:.0f} s after the call", rejected(roll, call + n, runway_ft, 4.0, 2.0), runway_ft)
        for n in (0.0, seconds_later)
    ]
    return roll, (flight.time_s, covered), runway_ft, 40.0, call, endings


PICTURES = {
    "instruments": (
        lambda: InstrumentsPicture(SPEEDS),
        [moment(EVERY_COMBINATION[-1]), moment(EVERY_COMBINATION[1], True, 9500.0), moment(Openings())],
    ),
    "flight": (
        lambda: FlightPicture(FLIGHT, SPEEDS),
        [over_flight(200.0), over_flight(0.0), over_flight(330.0, False)],
    ),
    "roll": (
        lambda: RollPicture(80.0),
        [on_the_roll(), on_the_roll(15.0, 3500, 9000.0), on_the_roll(3.0, 1200), on_the_roll(1.0, 1000, 0.0)],
    ),
}


@pytest.mark.parametrize("name", PICTURES)
def test_redrawing_what_moved_leaves_nothing_stale(name):
    make, results = PICTURES[name]
    live = LivePicture(make())
    first, *others = [live.draw(result).copy() for result in results]
    again = live.draw(results[0])
    assert np.array_equal(first, again)
    assert not any(np.array_equal(first, other) for other in others)


@pytest.mark.parametrize("name", PICTURES)
def test_what_is_not_listed_as_moving_stays_as_it_is(name):
    make, results = PICTURES[name]
    live = LivePicture(make())  # leaves the moving artists out of a whole drawing
    canvas = live.picture.figure.canvas
    seen = {}
    for result in results:
        live.picture.show(result)
        canvas.draw()
        still = live.picture.still(result) if hasattr(live.picture, "still") else None
        seen.setdefault(still, []).append(np.asarray(canvas.buffer_rgba()).copy())
    for first, *others in seen.values():
        assert all(np.array_equal(first, other) for other in others)
    assert len(seen) == len({image.tobytes() for images in seen.values() for image in images})


@pytest.mark.parametrize("name", PICTURES)
def test_no_words_are_cut_off(name):
    make, results = PICTURES[name]
    picture = make()
    canvas = FigureCanvasAgg(picture.figure)
    for result in results:
        picture.show(result)
        canvas.draw()
        width, height = canvas.get_width_height()
        for text in picture.figure.findobj(Text):
            if text.get_visible() and text.get_text() and text.axes is not None:
                box = text.get_window_extent()
                assert box.x0 >= -1, text.get_text()
                assert box.x1 <= width + 1, text.get_text()
                assert box.y0 >= -1, text.get_text()
                assert box.y1 <= height + 1, text.get_text()


def test_airspeed_needle_goes_clockwise_from_the_top_and_stays_near_the_scale():
    dial = AirspeedDial(new_figure(300, 300).subplots(), **SPEEDS)
    seen = []
    for speed in (0.0, 40.0, 90.0, 150.0, dial.top, 400.0):
        dial.update(speed)
        seen.append(pointing(dial.needle))
    assert seen[0] == pytest.approx(0.0, abs=1e-6)
    assert seen[2] / seen[1] == pytest.approx(90.0 / 40.0)
    assert np.all(np.diff(seen) > 0)
    assert seen[-1] < 345.0


def test_beyond_the_last_mark_a_dial_says_that_it_is_off_the_scale():
    dial = AirspeedDial(new_figure(300, 300).subplots(), **SPEEDS)
    for speed, says in (
        (dial.top, f"shows {dial.top:.0f} kt"),
        (dial.top + 1, "off the scale"),
        (295.0, "off the scale"),
    ):
        dial.update(speed, right=74.0)
        assert dial.reading.get_text() == says
        assert (pointing(dial.needle) > dial.angle(dial.top) + 0.5) == (says == "off the scale")
        assert dial.ring.get_visible()


def test_names_of_speeds_stay_clear_of_the_triangle_that_points_to_what_is_right():
    picture = InstrumentsPicture(SPEEDS)
    FigureCanvasAgg(picture.figure).draw()
    axes = picture.airspeed.axes
    names = [text for text in axes.texts if text.get_text().startswith("$V")]
    assert len(names) == 5
    for text in names:
        (left, low), (right, high) = axes.transData.inverted().transform(text.get_window_extent())
        nearest = np.hypot(np.clip(0.0, left, right), np.clip(0.0, low, high))
        assert nearest > np.hypot(*picture.airspeed.right_mark.get_xy().T).max() - 0.03, text.get_text()


def test_arcs_run_between_the_speeds_of_the_rule():
    # 14 CFR 23.1545(b): white VS0 to VFE, green VS1 to VNO, yellow VNO to VNE.
    dial = AirspeedDial(new_figure(300, 300).subplots(), **SPEEDS)
    arcs = [
        sorted(90.0 - angle for angle in (wedge.theta1, wedge.theta2))
        for wedge in dial.axes.patches
        if isinstance(wedge, Wedge)
    ]
    expected = [(50, 120), (120, 150), (44, 85)]
    for arc, (low, high) in zip(arcs, expected, strict=True):
        assert arc == pytest.approx([dial.angle(low), dial.angle(high)])


def test_altimeter_hands():
    dial = AltimeterDial(new_figure(300, 300).subplots())
    dial.update(6250.0, right=5000.0)
    assert pointing(dial.needle) == pytest.approx(90.0)  # 250 ft past the thousand
    assert pointing(dial.short) == pytest.approx(225.0)  # six and a quarter tenths of a turn
    assert dial.ring.get_visible()
    dial.update(-100.0)
    assert pointing(dial.needle) == pytest.approx(324.0)


def test_vertical_speed_needle_rises_in_a_climb():
    dial = VerticalSpeedDial(new_figure(300, 300).subplots())
    tips = {}
    for rate in (-9000.0, -500.0, 0.0, 500.0, 9000.0):
        dial.update(rate)
        tips[rate] = pointing(dial.needle)
    assert tips[0.0] == pytest.approx(270.0)
    assert 270.0 < tips[500.0] < 360.0
    assert 180.0 < tips[-500.0] < 270.0
    assert tips[9000.0] < 450.0
    assert dial.reading.get_text() == "off the scale"
    dial.update(-500.0)
    assert dial.reading.get_text() == "shows −500 ft/min"


def test_ring_appears_only_when_the_reading_is_wrong():
    dial = AirspeedDial(new_figure(300, 300).subplots(), **SPEEDS)
    dial.update(90.0, right=90.4)
    assert not dial.ring.get_visible()
    dial.update(90.0, right=95.0)
    assert dial.ring.get_visible()
    dial.update(0.0, right=95.0, on_stop=True)
    assert dial.reading.get_text() == "on its stop at 0"


def test_a_secret_is_kept():
    flight = FlightPicture(FLIGHT, SPEEDS)
    flight.show(over_flight(200.0, reveal=False))
    said = " ".join(t.get_text() for t in flight.figure.findobj(Text) if t.get_visible())
    assert "right" not in said
    assert not any(chart.right.get_visible() or chart.uprights[0].get_visible() for chart in flight.charts)
    assert not any(dial.right_mark.get_visible() or dial.ring.get_visible() for dial in flight.dials)


def test_plugs_stand_in_the_blocked_openings():
    picture = InstrumentsPicture(SPEEDS)
    for openings in EVERY_COMBINATION:
        picture.show(moment(openings))
        for name, (_, plug, state) in picture.lines._openings.items():
            assert plug.get_visible() == (not getattr(openings, name))
            assert state.get_text() == ("clear" if getattr(openings, name) else "blocked")


def test_flight_so_far_ends_now_and_shows_what_the_dial_shows():
    picture = FlightPicture(FLIGHT, SPEEDS)
    picture.show(over_flight(80.0))
    minutes, readings = picture.charts[0].now.get_data()
    assert minutes[0] == pytest.approx(80.0 / 60.0, abs=0.02)
    assert pointing(picture.dials[0].needle) == pytest.approx(picture.dials[0].angle(readings[0]), abs=1.0)


def test_roll_says_where_it_stops():
    picture, result = RollPicture(80.0), on_the_roll()
    picture.show(result)
    (*_, at_once), (*_, stands, later) = picture.bars
    assert "ft left" in at_once.get_text()
    assert f"ft, {-result[-1][1].left:,} ft past the end" in later.get_text()
    assert stands.get_marker() == "X"


def test_a_chart_says_that_its_reading_is_off_the_scale():
    picture = FlightPicture(FLIGHT, SPEEDS)
    for at_s, off in ((100.0, False), (330.0, True)):
        picture.show(over_flight(at_s))
        assert (picture.dials[0].reading.get_text() == "off the scale") == off
        assert (picture.charts[0].words["shows"].get_text() == "off the\nscale") == off


@pytest.mark.parametrize("seconds_later", [0.0, 5.0, 15.0])
@pytest.mark.parametrize("runway_ft", [1000, 2200, 3500])
@pytest.mark.parametrize("field_ft", [-500.0, 7000.0])
def test_no_bar_is_cut_off_and_no_end_of_runway_runs_through_words(seconds_later, runway_ft, field_ft):
    picture, result = RollPicture(80.0), on_the_roll(seconds_later, runway_ft, field_ft)
    picture.show(result)
    FigureCanvasAgg(picture.figure).draw()
    for (tarmac, _, stopping, stands, words), ending in zip(picture.bars, result[-1], strict=True):
        assert stopping.get_x() + stopping.get_width() == ending.stop == stands.get_xdata()[0]
        assert max(ending.stop, tarmac.get_width()) <= picture.runway.get_xlim()[1]
        assert not any(words.get_window_extent().overlaps(bar[0].get_window_extent()) for bar in picture.bars)
        assert not words.get_window_extent().overlaps(picture.heading.get_window_extent())


def test_the_scale_of_distance_is_drawn_anew_when_it_has_to_grow():
    live = LivePicture(RollPicture(80.0))
    near = live.draw(on_the_roll(1.0, 1000, 0.0)).copy()
    live.draw(on_the_roll(15.0, 3500, 7000.0))
    assert live.picture.runway.get_xlim()[1] >= 3500
    assert np.array_equal(live.draw(on_the_roll(1.0, 1000, 0.0)), near)
