"""Verdict, words and picture of each demonstration agree, whatever its controls say: a sweep over a grid of them.

Nothing here asks the library what is right: the test reads the figures in the picture, judges by them alone, and holds
the verdict and the sentence against that.
"""

import re
from itertools import product

import numpy as np
import pytest
from walkaround import aircraft, measures
from walkaround.aircraft.airfield import planned_flight
from walkaround.lessons import pitot_static
from walkaround.lessons.pitot_static.flight_demos import ALTERNATE, CAUSES, COMBINATIONS, MELTS, NOTHING_MORE, secret
from walkaround.lessons.pitot_static.roll_demo import NO_COVER, POROUS, SOLID
from walkaround.live.status import NOTE, OK, STOP

NAMES = ("airspeed", "the altimeter", "the vertical speed indicator")
BLOCKED = {"inlet": "pitot_clear", "drain": "drain_clear", "static": "static_clear"}


def swept(grid, count):
    """About so many settings of a grid, spread over all of it, each value of a control among them."""
    values = list(product(*grid.values()))
    step = max(1, len(values) // count) | 1
    while any(len(v) > 1 and step % len(v) == 0 for v in grid.values()):
        step += 2
    chosen = values[::step]
    for place, wanted in enumerate(grid.values()):
        assert {v[place] for v in chosen} == set(wanted)
    return [dict(zip(grid, v, strict=True)) for v in chosen]


def judged_by_figures(dials, words):
    """Hold sentence and rings against the figures under the dials; returns how many of the three are wrong."""
    wrong = 0
    for dial, name in zip(dials, NAMES, strict=True):
        reading, right = dial.reading.get_text(), dial.right.get_text().removeprefix("right: ")
        is_wrong = reading.removeprefix("shows ") != right and not (reading == "on its stop at 0" and right == "0 kt")
        wrong += is_wrong
        assert dial.ring.get_visible() == is_wrong, (reading, right)
        said = re.search(rf"(?:^|[.,] ){name} ([^.]*?)(?: where | in (?:a|level)|$)", words, flags=re.IGNORECASE)
        if not is_wrong:
            assert said is None, words
            continue
        tells = said[1].removeprefix("shows ")
        if reading == "off the scale":
            assert tells.startswith("is off the scale, over "), words
        else:
            assert {"rests on its stop at zero": "on its stop at 0"}.get(tells, f"shows {tells}") == reading, words
        if name != NAMES[2]:
            assert f"where {right} is right" in words
        elif right != "0 ft/min":
            assert re.search(rf"in a (climb|descent) of {right.removeprefix('−')}", words), words
    assert ("All three instruments are right" in words) == (wrong == 0)
    return wrong


def on_scale(dial, reading):
    """The needle points to the reading, or beyond the last mark."""
    x, y = max(dial.needle.get_xy(), key=lambda corner: np.hypot(*corner))
    points = np.degrees(np.arctan2(x, y)) % 360.0
    if reading.startswith("shows"):
        value = float(reading.split()[1].replace(",", "").replace("−", "-"))
        apart = abs((points - dial.angle(value) + 180.0) % 360.0 - 180.0)
        assert apart < dial.angle(dial.instrument.step / 2) - dial.angle(0) + 0.5, reading


def test_dials():
    made = pitot_static.dials()
    grid = {
        "altitude": (0, 3000, 10000),
        "speed": (0, 50, 74, 155),
        "climb": (-1500, 0, 50, 500),
        "inlet": (False, True),
        "drain": (False, True),
        "static": (False, True),
        "alternate": (False, True),
        "blocked_ft": (0, 2900, 10000),
        "blocked_kt": (0, 73, 155),
        "setting": (28.0, 29.92, 30.37, 31.0),
        "cabin": (0.0, 0.1, 1.5, 5.0),
    }
    picture, verdicts, off = made.live.picture, set(), 0
    dials = (picture.airspeed, picture.altitude, picture.vertical_speed)
    for values in swept(grid, 700):
        made.set(**values)
        wrong = judged_by_figures(dials, made.said)
        for dial in dials:
            on_scale(dial, dial.reading.get_text())
        clear = not any(values[name] for name in BLOCKED)
        for name, opening in BLOCKED.items():
            assert (picture.lines._openings[opening][2].get_text() == "blocked") == values[name]
        flies = values["climb"] == 0 or values["speed"] >= 46
        assert flies == ("No aircraft flies" not in made.said)
        nothing_wrong = OK if clear and not values["alternate"] and flies else NOTE
        assert made.verdict == (STOP if wrong else nothing_wrong), made.said
        verdicts.add(made.verdict)
        off += "off the scale" in made.said
    assert verdicts == {OK, STOP, NOTE}
    assert off > 20


def flight_agrees(made, clear):
    picture = made.live.picture
    wrong = judged_by_figures(picture.dials, made.said)
    for dial, chart in zip(picture.dials, picture.charts, strict=True):
        reading = dial.reading.get_text()
        on_scale(dial, reading)
        assert (chart.words["shows"].get_text() == "off the\nscale") == (reading == "off the scale")
        low, high = chart.axes.get_ylim()
        last = float(chart.now.get_ydata()[0])
        if reading.startswith("shows"):
            value = float(reading.split()[1].replace(",", "").replace("−", "-"))
            assert abs(last - np.clip(value, low, high)) <= dial.instrument.step / 2 + 1e-6
    assert ("All openings are clear" in made.said or "still settling" in made.said) == clear
    return wrong


def test_flight():
    made, plan = pitot_static.flight(), planned_flight(aircraft.demo("morrowlark_four"))
    end = made.controls["moment"].max
    grid = {
        "blocked": tuple(COMBINATIONS),
        "at_s": (0, 20, 150, 400, 980),
        "pinhole": (0.0, 0.03, 0.12),
        "then": (NOTHING_MORE, ALTERNATE, MELTS),
        "moment": (0, 22, 60, 212, 216, 260, 400, 620, end),
    }
    verdicts = set()
    for values in swept(grid, 500):
        made.set(**values)
        then_s = values["at_s"] + 60
        done = values["then"] if values["moment"] >= then_s and then_s < end else NOTHING_MORE
        blocked = values["moment"] >= values["at_s"] and values["blocked"] != "nothing"
        clear = (done == MELTS or not blocked) and done != ALTERNATE
        wrong = flight_agrees(made, clear)
        assert made.verdict == (STOP if wrong and not clear else NOTE if wrong or not clear else OK), made.said
        assert f"{plan.part(values['moment'])}. " in made.said
        verdicts.add(made.verdict)
    assert verdicts == {OK, STOP, NOTE}


def test_guess():
    made, plan = pitot_static.guess(), planned_flight(aircraft.demo("morrowlark_four"))
    for number, moment in product((1, 2, 3, 4, 5, 6, 8), (60, 200, 400, 640, 980)):
        made.set(round=number)
        made.set(moment=moment, reveal=False)
        cause, at_s = secret(number, plan)
        speed, altitude, rate = (dial.reading.get_text().removeprefix("shows ") for dial in made.live.picture.dials)
        said = re.search(r"Airspeed (.+), altitude (.+), vertical speed (.+)\. The plan", made.said).groups()
        assert said[0].replace("at zero", "at 0").split(", over")[0] == speed
        assert (said[1], said[2].split(", over")[0]) == (altitude, rate)
        made.set(reveal=True)
        flight_agrees(made, clear=moment < at_s or CAUSES[cause][0] == "nothing")
        assert made.verdict == NOTE


@pytest.mark.parametrize(("units", "unit"), [(None, "ft"), (measures.METRIC, "m")])
@pytest.mark.parametrize("name", aircraft.demo_names())
def test_takeoff_roll(name, units, unit):
    with measures.shown_in(units):
        made = pitot_static.takeoff_roll(name)
    first_mark = aircraft.demo(name).speeds.first_mark
    longest = made.controls["runway"].max
    grid = {
        "cover": (NO_COVER, SOLID, POROUS),
        "holes_mm": (0.02, 0.12, 0.2),
        "field_ft": (-500, 600, 3700, 7000),
        "outside_c": (-20, 15, 40),
        "headwind_kt": (-5, 0, 12, 25),
        "runway": (*((1000, 1050, 1100, 1500, 2200) if unit == "ft" else (300, 320, 340, 460, 670)), longest),
        "later_s": (1, 7, 15),
    }
    picture, verdicts = made.live.picture, set()
    for values in swept(grid, 200):
        made.set(**values)
        drawn = []
        for tarmac, rolling, stopping, stands, words in picture.bars:
            told = rf"stops in ([\d,]+) {unit}, ([\d,]+ {unit} (?:left|past the end))"
            stop, end = re.search(told, words.get_text()).groups()
            stops, beyond = (int(n.split()[0].replace(",", "")) for n in (stop, end))
            fits = end.endswith("left")
            assert stops + (beyond if fits else -beyond) == values["runway"] == tarmac.get_width()
            assert stands.get_marker() == ("s" if fits else "X")
            assert words.get_fontweight() == ("normal" if fits else "bold")
            assert stopping.get_x() == rolling.get_width()
            assert stopping.get_x() + stopping.get_width() == stops <= picture.runway.get_xlim()[1]
            drawn.append((stop, end, fits))
        rolls = int(re.search(rf"lift-off, ([\d,]+) {unit}", picture.words["lift-off"].get_text())[1].replace(",", ""))
        (stop, end, fits), (_, later_end, later_fits) = drawn
        if rolls > values["runway"]:
            assert made.verdict == STOP
            has = f"the runway has {values['runway']:,} {unit}: no take-off"
            assert f"takes {rolls:,} {unit} or more and {has}" in made.said
        elif "Airspeed alive" in made.said:
            assert f"first mark, {first_mark:.0f} kt" in made.said
            assert made.verdict == (STOP if not fits else OK if values["cover"] == NO_COVER else NOTE)
            assert f"after {stop} {unit}" in made.said
            assert ("too short" in made.said) == (not fits)
            if not fits:
                assert end.replace("past the end", "beyond its end") in made.said
        else:
            assert values["cover"] != NO_COVER
            assert made.verdict == STOP
            shows = int(re.search(r"this one shows (\d+) kt", made.said)[1])
            assert shows != first_mark
            for ending, on_it in ((end, fits), (later_end, later_fits)):
                far = f"{ending.split()[0]} {unit}"
                assert (f"stops with {far} of runway left" if on_it else f"runs {far} off the end") in made.said
        alive_s, alive = re.search(rf"after (\d+) s and ([\d,]+) {unit}", picture.words["clear"].get_text()).groups()
        if rolls <= values["runway"]:
            assert f"{alive_s} s and {alive} {unit} after brakes off" in made.said
        verdicts.add(made.verdict)
    assert {OK, STOP} <= verdicts


def test_no_cover_on_a_runway_too_short_to_stop_on_gets_no_green_tick():
    made = pitot_static.takeoff_roll()
    made.set(cover=NO_COVER, runway=1050)
    assert made.verdict == STOP
    assert "would end after 1,115 ft, 65 ft beyond its end" in made.said


def test_the_roll_gives_the_same_verdict_in_feet_and_in_metres():
    stages = []
    for system in measures.SYSTEMS:
        with measures.shown_in(system):
            stages.append(pitot_static.takeoff_roll())
    us, metric = stages
    grid = {
        "cover": (NO_COVER, SOLID),
        "field_ft": (-500, 600, 5000),
        "outside_c": (-20, 30),
        "runway": (1000, 1300, 1600, 2200, 3200),
    }
    verdicts = []
    for values in map(dict, product(*([(name, v) for v in all_of] for name, all_of in grid.items()))):
        us.set(**values)
        metric.set(**values | {"runway": round(0.03048 * values["runway"]) * 10})
        bars = [words.get_text() for *_, words in us.live.picture.bars]
        lefts = [int(re.search(r"([\d,]+) ft (left|past)", text)[1].replace(",", "")) for text in bars]
        rolls = int(re.search(r"off, ([\d,]+) ft", us.live.picture.words["lift-off"].get_text())[1].replace(",", ""))
        if min(*lefts, abs(rolls - values["runway"])) > 25:  # half a step of 10 m, and what rounding does to the rest
            assert metric.verdict == us.verdict, (us.said, metric.said)
            assert metric.words[:12] == us.words[:12]
            verdicts.append(us.verdict)
    assert {OK, STOP} <= set(verdicts)
    assert len(verdicts) > 40
