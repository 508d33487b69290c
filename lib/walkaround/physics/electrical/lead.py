"""What an extension lead loses: volts at its far end, and watts of heat along its way."""

from dataclasses import dataclass

import numpy as np

from walkaround import checks

# International Annealed Copper Standard: 58 m of copper wire of 1 mm² have 1 Ω at 20 °C (recalled).
COPPER_OHM_MM2_PER_M = 1 / 58


@dataclass(frozen=True)
class LeadLoss:
    """What a lead loses, as `lead_loss` returns it: `volts` at its far end, and `watts` of heat along its way.

    >>> float(lead_loss(current_a=10.0, length_m=29.0, area_mm2=1.0).watts)
    100.0
    """

    volts: np.ndarray
    watts: np.ndarray


def lead_loss(current_a, length_m, area_mm2):
    """Volts and watts that a lead with two copper wires loses (shapes broadcast): a `LeadLoss`.

    Parameters: `current_a` in A; `length_m` of the lead, along which the current runs out and back; `area_mm2`, the
    cross-section of each wire. R = ρ · 2 L/A, volts = I R, watts = I² R (Ohm's and Joule's laws), with copper at 20 °C;
    a warm lead loses more, 0.4 % for each °C. Raises ValueError for a negative current or length, or a cross-section
    that is not above 0.

    >>> loss = lead_loss(current_a=13.0, length_m=50.0, area_mm2=1.5)
    >>> round(float(loss.volts), 1), round(float(loss.watts))
    (14.9, 194)
    """
    current = checks.numbers("current_a", current_a, low=0, unit="A")
    length = checks.numbers("length_m", length_m, low=0, unit="m")
    area = checks.numbers("area_mm2", area_mm2, above=0, unit="mm²")
    checks.same_shape(current_a=current, length_m=length, area_mm2=area)
    volts = current * COPPER_OHM_MM2_PER_M * 2 * length / area
    return LeadLoss(volts, current * volts)
