"""Every demonstration and question in metric units: no US unit is left, and it is the same physical case."""

import importlib
import re

import pytest
from matplotlib.text import Text
from walkaround import measures
from walkaround.assessment.judging import mark, score
from walkaround.assessment.questions import NUMBER, paper, unsound
from walkaround.lessons.table import LESSONS
from worked_sums import keys_of_sums

# What a person would read as a US unit. Feet of height stay (ICAO Annex 5, recalled): lessons that show heights may have
# the letters ft.
US_UNITS = re.compile(
    r"(?<![\w·])(lbs?|lb-in|lb-ft|US gal(lons?)?|gallons?|qt|quarts?|inch(es)?|inHg|°F|sq ft|sq in|hp|pounds?)(?!\w)"
)
INCHES = re.compile(r"\d in\b(?! [a-z]* ?(the|a|an|all|every|each|\d))")
FEET = re.compile(r"(?<=\d )(ft|feet)\b|\bft$")
SHOW_HEIGHTS = {"pitot_static", "cooling", "round"}
DEMONSTRATIONS = [(lesson, function) for lesson in LESSONS for function, _ in lesson.demonstrations]


def texts(stage):
    """All that a stage shows in words now, its picture's letters included."""
    yield from (stage.title, stage.caution, stage.said, *stage.presets)
    for control in stage._all.values():
        yield from (control.description, control.tooltip, *control._details().get("options", ()))
    yield from (text.get_text() for text in stage.live.picture.figure.findobj(Text) if text.get_visible())


@pytest.mark.parametrize(("lesson", "function"), DEMONSTRATIONS, ids=[f"{x.name}.{f}" for x, f in DEMONSTRATIONS])
def test_a_demonstration_in_metric_units_shows_no_us_unit(lesson, function):
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


# Questions about converting units: °F to °C, and US quarts to the litres that bottles are sold by.
ABOUT_UNITS = {("preheat", "difference"), ("preheat", "litres")}


def said(q):
    """All that a student reads of a question before a slip: what a slip says may name the other system's unit."""
    yield from (q.title, q.text, q.hint, q.unit, *q.worked, *(text for _, text in q.options))
    yield from (cell for row in q.table for cell in row)


@pytest.mark.parametrize("lesson", LESSONS, ids=[x.name for x in LESSONS])
def test_a_paper_in_metric_units_is_the_same_case(lesson):
    papers = []
    for student in ("Ines Okafor", "Tomas Brandvold", "Wren Nest", "Student 4", "Student 5"):
        with measures.shown_in(measures.US):
            us = paper(lesson.questions, student)
        with measures.shown_in(measures.METRIC):
            metric = paper(lesson.questions, student)
        papers.append(metric)
        asked = [q for q in metric.questions if (lesson.name, q.key) not in ABOUT_UNITS]
        texts = [t for q in asked for t in said(q)] + [metric.scene, *(c for r in metric.scene_table for c in r)]
        assert not [t for t in texts if US_UNITS.search(t) or INCHES.search(t)]
        assert lesson.name in SHOW_HEIGHTS or not [t for t in texts if FEET.search(t)]
        for one, other in zip(us.questions, metric.questions, strict=True):
            assert (one.key, one.kind, one.points, one.most_tries) == (
                other.key,
                other.kind,
                other.points,
                other.most_tries,
            )
            if one.kind != NUMBER:
                assert one.answer == other.answer
                assert [k for k, _ in one.options] == [k for k, _ in other.options]
                continue
            # The numbers that are given are rounded in each system, so the two answers differ by a little of what is
            # allowed; the right answer of either is right in the other.
            in_us = measures.converted(other.answer, other.unit, one.unit)
            assert abs(in_us - one.answer) <= 0.5 * one.tolerance, (one.key, in_us, one.answer, one.tolerance)
            allowed = abs(measures.converted(other.tolerance, other.unit, one.unit))
            assert 0.7 * one.tolerance <= allowed <= 1.4 * one.tolerance, (one.key, allowed, one.tolerance)
            assert unsound(other) == []
            assert mark(other, f"{other.answer:.6f}", counts=one).right
            assert score(one, {"tries": [{"given": f"{other.answer:.6f} {other.unit}"}]}).earned == one.points
    if lesson.name != "pitot_static":  # its own tests read its sums, which have roots and squares
        keys_of_sums(papers)
