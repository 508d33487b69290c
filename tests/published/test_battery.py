"""Battery capacity in the cold against a standard."""

import pytest
from walkaround.physics.electrical.battery import capacity_share
from walkaround.units import celsius

# IEEE Std 485, temperature correction for sizing lead-acid batteries: °F, factor. Recalled.
FACTORS = [(25, 1.52), (40, 1.30), (50, 1.19), (60, 1.11), (77, 1.00)]


@pytest.mark.parametrize(("fahrenheit", "factor"), FACTORS)
def test_capacity_is_the_factor_turned_over(fahrenheit, factor):
    assert 1 / float(capacity_share(celsius(fahrenheit))) == pytest.approx(factor, abs=0.005)


def test_half_and_less_in_hard_frost():
    # Common practice, no source: about 40 % of the capacity is left at 0 °F.
    assert float(capacity_share(celsius(0.0))) == pytest.approx(0.40, abs=0.01)
