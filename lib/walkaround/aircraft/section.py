"""What every section of an aircraft file is built on: kinds of values, and a section that refuses unknown keys."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

Name = Annotated[str, Field(min_length=1, max_length=60)]
Positive = Annotated[float, Field(gt=0, allow_inf_nan=False, strict=True)]
NotNegative = Annotated[float, Field(ge=0, allow_inf_nan=False, strict=True)]
Arm = Annotated[float, Field(allow_inf_nan=False, strict=True)]


class Section(BaseModel):
    """Base of every section: an unknown key is an error, a value never changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True)
