"""The wires that a lead may have, by gauge number, and what they are called."""

from walkaround import measures
from walkaround.physics.electrical import area_mm2

_NAMES = {8: "No. 8", 6: "No. 6", 4: "No. 4", 2: "No. 2", 0: "1/0"}
GAUGES = tuple(_NAMES)


def wire(gauge):
    """What a wire is called; in metric units with its cross-section, which a gauge number does not tell.

    >>> with measures.shown_in(measures.METRIC):
    ...     wire(4)
    'No. 4 (21 mm²)'
    """
    if measures.chosen() != measures.METRIC:
        return _NAMES[gauge]
    return f"{_NAMES[gauge]} ({float(area_mm2(gauge)):.2g} mm²)"
