"""The [towing] section of an aircraft file: how far the nose wheel may be turned, and how hard the nose leg pulled.

A force is in the file's own unit of weight.
"""

from typing import Annotated

from pydantic import Field

from walkaround.aircraft.section import Finite, Positive, Section
from walkaround.units import GRAVITY_M_S2


def force_unit(craft):
    """Unit of forces for an aircraft, and what the file's weights are multiplied by to get it.

    >>> from walkaround import aircraft
    >>> force_unit(aircraft.demo("morrowlark_four")), force_unit(aircraft.demo("tansy_two"))
    (('lb', 1.0), ('N', 9.80665))
    """
    return ("lb", 1.0) if craft.units.weight == "lb" else ("N", GRAVITY_M_S2)


class Towing(Section):
    """Limits of the nose leg.

    `turning_limit_deg` is how far the nose wheel may be turned each way, as the marks on the leg have it;
    `nose_leg_limit` is the greatest pull along the aircraft at the nose wheel's axle.
    """

    note: str = ""
    turning_limit_deg: Annotated[Finite, Field(gt=0, lt=90)]
    nose_leg_limit: Positive
