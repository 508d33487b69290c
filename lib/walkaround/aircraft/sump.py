"""The [engine.oil.sump] section of an aircraft file: the box the oil lies in, the stick in it, and when to refill.

Lengths in the unit of the dipstick's marks, which the section names; quantities in the oil's own unit.
"""

from typing import Literal

from walkaround import checks
from walkaround.aircraft.section import Finite, NotNegative, Positive, Section
from walkaround.physics import oil
from walkaround.units import US_GALLON_L

_CUBIC_PER_L = {"in": 231.0 / US_GALLON_L, "cm": 1000.0}  # 231 cubic inches in a US gallon, [SP811]


class Sump(Section):
    """A box-shaped sump, where the stick stands from its middle, what stays up in the engine, and the refill rule.

    `held_up` is what hangs in the engine at shut-down; half of the rest is back every `half_back_minutes`. The stick is
    read to the nearest `read_to`. Oil is due when it is down to `refill_at`, and comes in bottles of `bottle`.
    """

    length_unit: Literal["in", "cm"]
    length: Positive
    width: Positive
    stick_forward: Finite
    stick_right: Finite
    held_up: NotNegative
    half_back_minutes: Positive
    read_to: Positive
    refill_at: Positive
    bottle: Positive

    def depth(self, litres):
        """Depth of the oil on level ground: volume over floor area."""
        return litres * _CUBIC_PER_L[self.length_unit] / (self.length * self.width)

    def still_up(self, minutes):
        """Oil not yet back in the sump, by a rule of thumb (`physics.oil.still_up`)."""
        return oil.still_up(self.held_up, self.half_back_minutes, minutes)

    def rise(self, nose_up_deg, right_wing_down_deg=0.0):
        """How much higher the oil stands at the stick on a slope (`physics.oil.rise_on_slope`)."""
        return oil.rise_on_slope(self.stick_forward, self.stick_right, nose_up_deg, right_wing_down_deg)


def sump_problem(section):
    """What does not fit between a sump and the rest of the oil's section, as a sentence, or nothing."""
    sump, marks, quantities = section.sump, section.dipstick_marks, section.dipstick_quantities
    if not section.minimum <= sump.refill_at <= section.usual:
        return (
            f"sump.refill_at {sump.refill_at:g}; allowed: from minimum, {section.minimum:g}, "
            f"to usual, {section.usual:g}"
        )
    if not (-1 <= 2 * sump.stick_forward / sump.length <= 1 and -1 <= 2 * sump.stick_right / sump.width <= 1):
        return (
            f"sump.stick_forward {sump.stick_forward:g}, stick_right {sump.stick_right:g}; "
            f"allowed: inside the sump, {sump.length / 2:g} and {sump.width / 2:g} from its middle either way"
        )
    # The marks say how large the floor is: a sump that is far from that has its unit wrong, or a length.
    rise, between = sump.depth(section.litres(quantities[-1] - quantities[0])), marks[-1] - marks[0]
    if not checks.at_most(abs(rise / between - 1), 0.25):
        return (
            f"sump of {sump.length:g} by {sump.width:g} {sump.length_unit} would rise {rise:.2g} from the lowest mark "
            f"to the highest, which are {between:.2g} apart; allowed: within a quarter of that"
        )
    return ""
