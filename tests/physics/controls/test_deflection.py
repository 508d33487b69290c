"""Deflection by tape measure: there and back, the tolerance to the last bit, and bad input in words."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walkaround.physics.controls import deflection_deg, off_limit_deg, travel

CHORD, ANGLE = st.floats(0.01, 100), st.floats(-60, 60)


@given(CHORD, ANGLE)
def test_there_and_back(chord, angle):
    assert float(deflection_deg(chord, travel(chord, angle))) == pytest.approx(angle, abs=1e-9)


@given(CHORD, ANGLE)
def test_it_is_the_distance_between_two_places_of_the_edge(chord, angle):
    edge = chord * np.exp(1j * np.radians(angle))
    assert abs(float(travel(chord, angle))) == pytest.approx(abs(edge - chord), rel=1e-9, abs=1e-12)
    if abs(angle) > 1e-12:
        assert np.sign(travel(chord, angle)) == np.sign(angle)


@settings(max_examples=30)
@given(st.lists(ANGLE, min_size=1, max_size=4), st.lists(CHORD, min_size=1, max_size=3))
def test_arrays_are_loops(angles, chords):
    whole = travel(np.array(chords)[:, None], angles)
    one_by_one = [[float(travel(c, a)) for a in angles] for c in chords]
    assert whole == pytest.approx(np.array(one_by_one), rel=1e-12)
    back = [[float(deflection_deg(c, t)) for t in row] for c, row in zip(chords, whole, strict=True)]
    assert deflection_deg(np.array(chords)[:, None], whole) == pytest.approx(np.array(back), rel=1e-12)


def test_the_tolerance_ends_where_it_says(beside):
    for edge in (27.0, 29.0):
        assert all(float(off_limit_deg(v, 28.0, 1.0)) == 0.0 for v in beside(edge))
    assert float(off_limit_deg(26.9, 28.0, 1.0)) == pytest.approx(-0.1)
    assert float(off_limit_deg(29.1, 28.0, 1.0)) == pytest.approx(0.1)


@given(st.floats(0, 60), st.floats(0, 40), st.floats(0, 3))
def test_short_is_below_and_too_far_above(measured, limit, tolerance):
    off = float(off_limit_deg(measured, limit, tolerance))
    assert off * (measured - limit) >= 0
    assert abs(off) <= abs(measured - limit)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: travel(0.0, 10.0), "chord is 0; allowed: more than 0"),
        (lambda: travel(10.0, [1.0, 91.0]), r"deflection_deg\[1\] is 91 °; allowed: -90 to 90 °"),
        (lambda: travel([1.0, 2.0], [1.0, 2.0, 3.0]), "these do not fit together: chord has shape"),
        (lambda: deflection_deg(10.0, 15.0), "travel / chord is 1.5; allowed: "),
        (lambda: deflection_deg(10.0, np.nan), "travel is not a number"),
        (lambda: off_limit_deg(10.0, -1.0, 1.0), "limit_deg is -1 °; allowed: 0 ° or more"),
        (lambda: off_limit_deg(10.0, 1.0, -1.0), "tolerance_deg is -1 °"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
