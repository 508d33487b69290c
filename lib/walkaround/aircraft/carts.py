"""The invented ground power carts of Quillmoor."""

from functools import cache
from pathlib import Path
from typing import Annotated

from pydantic import Field

from walkaround.aircraft.section import Name, Positive, Section, by_name
from walkaround.aircraft.toml_file import read_as

FILE = Path(__file__).parent / "carts.toml"


class Cart(Section):
    """A cart that gives ground power: volts at rest, and the resistance inside it in Ω."""

    name: Name
    volts: Positive
    ohm: Positive


class Carts(Section):
    """All carts of the field."""

    note: str = ""
    carts: Annotated[list[Cart], Field(min_length=1)]

    def cart(self, name):
        """Return the cart of that name, or raise ValueError listing the names there are."""
        return by_name(self.carts, name, "cart", "the file of carts")


@cache
def demo_carts():
    """Return the invented carts.

    >>> [cart.volts for cart in demo_carts().carts]
    [14.2, 28.5]
    """
    return read_as(Carts, FILE)
