"""The [towing] section of an aircraft file: how far the nose wheel may be turned, and how hard the nose leg pulled.

A force is in the file's own unit of weight.
"""

from typing import Annotated

from pydantic import Field

from walkaround.aircraft.section import Finite, Positive, Section


class Towing(Section):
    """Limits of the nose leg.

    `turning_limit_deg` is how far the nose wheel may be turned each way, as the marks on the leg have it;
    `nose_leg_limit` is the greatest pull along the aircraft at the nose wheel's axle.
    """

    note: str = ""
    turning_limit_deg: Annotated[Finite, Field(gt=0, lt=90)]
    nose_leg_limit: Positive
