"""What every section of a file is built on: kinds of values, and a section that refuses unknown keys."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

Name = Annotated[str, Field(min_length=1, max_length=60)]
Finite = Annotated[float, Field(allow_inf_nan=False, strict=True)]
Positive = Annotated[Finite, Field(gt=0)]
NotNegative = Annotated[Finite, Field(ge=0)]
Share = Annotated[Finite, Field(ge=0, le=1)]
Celsius = Annotated[Finite, Field(ge=-60, le=300)]


class Section(BaseModel):
    """Base of every section: an unknown key is an error, and a value never changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def by_name(items, name, what, where):
    """Return the item of that name, or raise ValueError listing the names there are.

    `what` the items are, and `where` they stand, are for the message.

    >>> by_name([], "nose tank", "tank", "the file of Tansy Two")
    Traceback (most recent call last):
    ...
    ValueError: tank 'nose tank' is not in the file of Tansy Two; allowed: none
    """
    for item in items:
        if item.name == name:
            return item
    names = ", ".join(item.name for item in items) or "none"
    raise ValueError(f"{what} {name!r} is not in {where}; allowed: {names}")
