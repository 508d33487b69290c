"""Every demonstration and question in metric units: no US unit is left, and it is the same physical case."""

import importlib
import re

import pytest
from matplotlib.text import Text
from walkaround import measures
from walkaround.lessons.table import LESSONS

# What a person would read as a US unit. Feet of height stay (ICAO Annex 5, recalled): lessons that show heights may have
# the letters ft.
US_UNITS = re.compile(
    r"(?<![\w·])(lbs?|lb-in|lb-ft|US gal(lons?)?|gallons?|qt|quarts?|inch(es)?|inHg|°F|sq ft|sq in|hp|pounds?)(?!\w)"
)
INCHES = re.compile(r"\d in\b(?! [a-z]* ?(the|a|an|all|\d))")
FEET = re.compile(r"(?<=\d )(ft|feet)\b|\bft$")
SHOW_HEIGHTS = {"pitot_static", "cooling", "decision", "round"}
DEMONSTRATIONS = [(lesson, function) for lesson in LESSONS for function, _ in lesson.demonstrations]
NOT_YET = {"securing", "pitot_static", "preheat", "towing", "decision"}


def texts(stage):
    """All that a stage shows in words now, its picture's letters included."""
    yield from (stage.title, stage.caution, stage.said, *stage.presets)
    for control in stage._all.values():
        yield from (control.description, control.tooltip, *control._details().get("options", ()))
    yield from (text.get_text() for text in stage.live.picture.figure.findobj(Text) if text.get_visible())


@pytest.mark.parametrize(("lesson", "function"), DEMONSTRATIONS, ids=[f"{x.name}.{f}" for x, f in DEMONSTRATIONS])
def test_a_demonstration_in_metric_units_shows_no_us_unit(lesson, function):
    if lesson.name in NOT_YET:
        pytest.skip("not in metric units yet")
    build = getattr(importlib.import_module(f"walkaround.lessons.{lesson.name}"), function)
    with measures.shown_in(measures.METRIC):
        stage = build()
    found = set()
    for preset in (None, *stage.presets):
        if preset is not None:
            stage.take_preset(preset)
        found |= set(texts(stage))
    assert not {t for t in found if US_UNITS.search(t) or INCHES.search(t)}
    assert lesson.name in SHOW_HEIGHTS or not {t for t in found if FEET.search(t)}
