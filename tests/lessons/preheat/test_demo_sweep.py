"""Verdict, words and picture of the demonstration agree wherever its controls stand."""

import itertools
import re

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.lessons.preheat import demos as preheat
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.preheat.plans import plan
from walkaround.physics.preheat.words import FAHRENHEIT, duration
from walkaround.units import celsius

GRID = {
    "degrees": ("°C", "°F"),
    "heater": (preheat.NO_HEATER, "electric air heater", "kerosene heater"),
    "heat": (0, 5, 15, 45, 240),
    "outside": (-35, -22, -8, -7, 0, 10),
    "fast": (True, False),
    "thermostat": (20, 52, 70),
    "power": (500, 1200, 3000),
    "pad": (False, True),
    "cover": (True, False),
    "wait": (0, 20, 240),
    "left_on": (True, False),
    "wind": (0, 20),
}
EVERY = 797  # of the settings of the grid; a prime, so that each control meets each other one at all of its places
NOT_TO_BE_STARTED = ("is not ready", "never gets", "Don't start it", "Too hot", "no longer ready")


@pytest.fixture(scope="module", params=aircraft.demo_names())
def stage(request):
    return request.param, preheat.demo(request.param)


def plan_of(section, v):
    """The plan that the controls ask for, from the library by itself."""
    into_c = celsius if v["degrees"] == FAHRENHEIT else float
    outside, thermostat = (float(into_c(v[name])) for name in ("outside", "thermostat"))
    kind = None if v["heater"] == preheat.NO_HEATER else demo_heaters().air_heater(v["heater"])
    heater = kind and kind.set_to("high" if v["fast"] else "low", thermostat, v["power"])
    pad = demo_heaters().pads[0].set_to() if v["pad"] else None
    rest = v["cover"], v["wind"], v["wait"], v["left_on"]
    return plan(section.engine(), section.ready_c, outside, v["heat"], heater, pad, *rest)


def test_verdict_words_and_picture_agree_everywhere(stage):
    name, made = stage
    section, seen = aircraft.demo(name).engine, set()
    for setting in itertools.islice(itertools.product(*GRID.values()), 0, None, EVERY):
        values = dict(zip(GRID, setting, strict=True))
        made.controls["degrees"].value = values.pop("degrees")
        made.set(**values, moment=values["heat"] + values["wait"])
        p = plan_of(section, made.values)
        check_verdict(made, p, section)
        check_words(made, p)
        check_picture(made, p)
        seen.add(made.verdict)
    assert seen == {OK, STOP, NOTE}


def check_verdict(made, p, section):
    ready = all(p.at_start[part] >= c - 1e-6 for part, c in p.ready_c.items())
    too_hot = p.at_end_of_heating["oil"] > section.oil_limit_c
    asked = p.warming.outside_c < section.preheat_below_c
    expected = STOP if too_hot or (asked and not ready) else OK if ready else NOTE
    assert made.verdict == expected, made.said
    said_no = any(words in made.words for words in NOT_TO_BE_STARTED) or "Nothing heats" in made.words
    assert said_no == (made.verdict == STOP), made.words
    assert ("may be started cold" in made.words) == (made.verdict == NOTE)


def check_words(made, p):
    scale = made.values["degrees"]
    assert len(made.words.split()) <= 30, made.words
    assert f"°{'C' if scale == FAHRENHEIT else 'F'} (" not in made.said, made.said
    for nonsense in ("nan", "inf ", " None", "  ", "for ever", "as long as it stays this warm outside with"):
        assert nonsense not in made.said, made.said
    # No temperature that is too low is rounded up to the one that it lacks.
    for short, wanted in re.findall(r"at (\S+ °[CF]) \(\S+ °[CF]\) instead of (\S+ °[CF])", made.said):
        assert short != wanted, made.said
    heats = made.values["heat"] > 0 and (made.values["heater"] != preheat.NO_HEATER or made.values["pad"])
    assert ("of heating took" in made.said) == heats
    assert ("is the limit" in made.said) == (heats and p.warming.cycle is not None)


def check_picture(made, p):
    picture, v = made.live.picture, made.values
    curves, sketch = picture.curves, picture.engine
    # The moment shown is that of the start.
    ready = bool(p.ready_at_start)
    assert (sketch.states.get_text() == "all parts ready") == ready
    # Every part's number is the one of the words.
    shown = {part: text.get_text().split("\n")[1] for part, text in sketch._degrees.items()}
    for part, number in shown.items():
        assert re.search(rf"shown after .*\b{part} {re.escape(number)} \(", made.said), (part, number, made.said)
    times = re.search(r"meets oil (\S+ times thicker)", made.said)
    thickness = picture.thickness.words.get_text()
    if times:
        assert thickness.startswith(times[1]), (thickness, made.said)
    elif "does not flow" in made.said:
        assert "pour point" in thickness
    # When it is ready.
    words, minutes = curves.ready_words.get_text(), float(p.ready_minutes)
    if words == "ready from the start":
        assert minutes == 0
    elif words == "never ready like this":
        assert np.isinf(minutes)
        assert "never" in made.said or made.verdict == NOTE
    else:
        found = re.fullmatch(r"(?:ready: |not ready: takes )(.+)", words)[1]
        assert found == duration(minutes)
        assert words.startswith("ready") == (minutes <= v["heat"])
        assert f"after {found}" in made.said or f"it takes {found}" in made.said, (words, made.said)
    # What is on.
    heats = v["heat"] > 0 and (v["heater"] != preheat.NO_HEATER or v["pad"])
    width = curves._heating.get_width()
    assert width == (v["heat"] if heats else 0)
    assert not (curves._heating_words.get_visible() and not heats)
    assert (sketch.shades["air"] is not None) == (heats and v["heater"] != preheat.NO_HEATER and v["wait"] == 0)
    # The heater's air: as many teeth as there are, or a band between the numbers that the words name.
    line = curves.lines["heater's air"]
    if p.warming.cycle is None or not heats:
        assert np.isnan(line).all()
        assert not curves.band.get_visible()
        return
    turns = p.warming.switchings_minutes(v["heat"])
    if curves.band.get_visible():
        low, high = curves.band.get_y(), curves.band.get_y() + curves.band.get_height()
        span = curves.axes.get_xlim()[1]
        assert turns.size / 2 > 30 * v["heat"] / span
        later = p.warming.temperature_c("air", np.linspace(curves.band.get_x(), v["heat"], 400))
        assert later.min() >= low - 1e-6
        assert later.max() <= high + 1e-6
    else:
        assert drawn_turns(line) == turns[turns < v["heat"]].size
        assert np.isin(turns, line[:, 0]).all()
    assert curves.left.get_text() == v["degrees"]


def drawn_turns(line):
    """How often a curve turns round, by the slopes of its pieces."""
    slopes = np.sign(np.diff(line[:, 1]))
    slopes = slopes[np.abs(np.diff(line[:, 1])) > 1e-9]
    return int(np.count_nonzero(np.diff(slopes)))
