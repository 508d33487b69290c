"""The [towing] section of an aircraft file: how far the nose wheel may be turned, and how hard the nose leg pulled.

Lengths and forces are in the file's own units of arm and weight.
"""

from typing import Annotated

from pydantic import Field

from walkaround.aircraft.section import Finite, Positive, Section


class Towing(Section):
    """Limits of the nose leg, and the height of the centre of gravity above the ground.

    `turning_limit_deg` is how far the nose wheel may be turned each way, as the marks on the leg have it;
    `nose_leg_limit` is the greatest pull along the aircraft at the nose wheel's axle.
    """

    note: str = ""
    turning_limit_deg: Annotated[Finite, Field(gt=0, lt=90)]
    nose_leg_limit: Positive
    cg_height: Positive
