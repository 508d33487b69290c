"""What tests of limits share."""

import numpy as np
import pytest


@pytest.fixture
def beside():
    """A function that returns a value, and one and two units in the last place on either side of it."""

    def values(value):
        up, down = np.nextafter(value, np.inf), np.nextafter(value, -np.inf)
        return [float(value), up, np.nextafter(up, np.inf), down, np.nextafter(down, -np.inf)]

    return values
