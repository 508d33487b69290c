"""Viscosity of oil against its standards, a package that holds one of them, and a textbook's table."""

import numpy as np
import pytest
from chemicals.viscosity import viscosity_index as independent_index
from walkaround.physics.oil.viscosity import viscosity_index, viscosity_mm2_s

# ASTM D2270, worked examples: viscosity at 40 and 100 °C in mm²/s, viscosity index. Recalled.
D2270 = [(73.30, 8.86, 92), (22.83, 5.05, 156)]


@pytest.mark.parametrize(("at_40", "at_100", "index"), D2270)
def test_viscosity_index_of_the_standards_examples(at_40, at_100, index):
    assert round(float(viscosity_index(at_40, at_100))) == index


def test_viscosity_index_against_the_chemicals_package():
    # The package looks the standard's table up; the library uses the standard's quadratic fits to it, which the
    # standard gives as good to half a unit over most of the range.
    hot = np.concatenate([np.arange(2.2, 30.0, 0.37), np.arange(30.0, 120.0, 3.3)])
    for thickening in (4.0, 6.0, 9.0, 12.0):
        warm = hot * thickening
        ours = viscosity_index(warm, hot)
        theirs = np.array([independent_index(w * 1e-6, h * 1e-6) for w, h in zip(warm, hot, strict=True)])
        usual = (theirs > 0) & (theirs < 250)
        assert usual.sum() > 10
        assert np.abs(ours - theirs)[usual].max() < 0.75


# Incropera and DeWitt, table A.5, engine oil (unused): temperature in K, kinematic viscosity in mm²/s. Recalled.
ENGINE_OIL = [
    (300, 550), (310, 288), (320, 161), (330, 96.6), (340, 61.7), (350, 41.7), (360, 29.7), (370, 22.0), (380, 16.9),
    (390, 13.3), (400, 10.6),
]  # fmt: skip


@pytest.mark.parametrize(("kelvin", "viscosity"), ENGINE_OIL)
def test_straight_line_of_d341_through_two_points_meets_a_table(kelvin, viscosity):
    # 40 and 100 °C lie between rows; these two make the line pass through the rows of 310 and 370 K.
    found = float(viscosity_mm2_s(kelvin - 273.15, 238.13, 20.09))
    assert found == pytest.approx(viscosity, rel=0.03)
