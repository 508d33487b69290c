"""What an extension lead loses, against published resistances of copper wire and the two laws by hand."""

import numpy as np
import pytest
from walkaround.physics.electrical import lead_loss
from walkaround.units import FOOT_M


def gauge_area_mm2(gauge):
    """Cross-section of a wire of an American gauge: its diameter is 0.127 mm · 92^((36 − n)/39)."""
    # Source: ASTM B258, recalled.
    return np.pi / 4 * (0.127 * 92 ** ((36 - gauge) / 39)) ** 2


def test_a_thousand_feet_of_number_12():
    # Source: bare copper of No. 12 has 1.588 Ω per 1,000 ft (recalled); a lead has two wires of that length.
    loss = lead_loss(current_a=1.0, length_m=1000 * FOOT_M, area_mm2=gauge_area_mm2(12))
    assert float(loss.volts) == pytest.approx(2 * 1.588, rel=1e-3)


def test_no_thinner_than_the_tinned_wire_of_the_tables():
    # Source: 107 ft of tin-plated No. 6 at 20 A lose 0.942 V, 88 ft of No. 12 3.60 V (FAA AC 43.13-1B, table 11-7, read).
    # Bare solid copper loses a little less than tinned strands.
    for feet, gauge, volts in ((107, 6, 0.942), (88, 12, 3.60)):
        one_way = float(lead_loss(20.0, feet * FOOT_M, gauge_area_mm2(gauge)).volts) / 2
        assert 0.75 * volts < one_way < volts


def test_by_hand():
    # 2 · 40 m of 2.5 mm² have 80/58/2.5 = 0.551724 Ω; 10 A lose 5.51724 V and 55.1724 W.
    loss = lead_loss([0.0, 10.0], 40.0, 2.5)
    assert loss.volts.tolist() == pytest.approx([0.0, 5.51724])
    assert loss.watts.tolist() == pytest.approx([0.0, 55.1724])


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((-1.0, 10.0, 1.5), "current_a is -1 A"),
        ((10.0, np.nan, 1.5), "length_m is not a number"),
        ((10.0, 10.0, 0.0), "area_mm2 is 0 mm²"),
        ((10.0, [1.0, 2.0], [1.0, 2.0, 3.0]), "do not fit together: current_a"),
    ],
)
def test_bad_input_is_named(arguments, words):
    with pytest.raises(ValueError, match=words):
        lead_loss(*arguments)
