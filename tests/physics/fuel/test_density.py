"""Density of fuel: warmer is lighter, one curve from gasoline to jet fuel, and what is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from walkaround.physics.fuel import density_kg_l, lb_per_us_gal

BASE = st.floats(0.653, 0.8385)
DEGREES = st.floats(-50.0, 95.0)


@given(BASE, DEGREES, DEGREES)
def test_warmer_is_never_heavier(base, one, other):
    cold, warm = sorted((one, other))
    assert density_kg_l(base, warm) <= density_kg_l(base, cold) + 1e-15


@given(BASE)
def test_at_15_degrees_it_is_what_it_was_given(base):
    assert float(density_kg_l(base, 15.0)) == pytest.approx(base, rel=1e-15)


@pytest.mark.parametrize("kg_m3", [770.5, 787.5])
def test_the_three_formulas_meet(kg_m3):
    # At each end of the middle one the standard's formulas agree to its digits, so none of the three is misremembered.
    below, above = (float(density_kg_l((kg_m3 + step) / 1000, 40.0)) for step in (-1e-6, 1e-6))
    assert below == pytest.approx(above, abs=5e-5)


def test_alpha_by_hand():
    # 720 kg/m³: α = 346.4228/518400 + 0.4388/720 = 0.000668254 + 0.000609444 = 0.001277698; 20 °C more make 0.02555396,
    # 0.02555396 · (1 + 0.8 · 0.02555396) = 0.02607637, and 0.72 · exp(−0.02607637) = 0.7014677.
    assert float(density_kg_l(0.72, 35.0)) == pytest.approx(0.7014677, abs=1e-7)


def test_shapes_broadcast():
    found = density_kg_l(np.array([[0.7], [0.8]]), [0.0, 15.0, 30.0])
    assert found.shape == (2, 3)
    assert found[1, 2] == density_kg_l(0.8, 30.0)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: density_kg_l(720.0, 15.0), "density_15c_kg_l is 720 kg/L; allowed: 0.653 to 0.8385 kg/L"),
        (lambda: density_kg_l(0.72, [0.0, 96.0]), r"temperature_c\[1\] is 96 °C; allowed: -50 to 95 °C"),
        (lambda: density_kg_l([0.7, 0.72], [1.0, 2.0, 3.0]), "do not fit together"),
        (lambda: lb_per_us_gal(0.0), "density is 0 kg/L; allowed: more than 0"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
