"""The ramp of an airfield with its hangar: what an aircraft that is towed must not touch. Lengths in feet."""

from typing import Annotated

from pydantic import Field, model_validator

from walkaround.aircraft.section import Finite, Name, Positive, Section

Side = tuple[Finite, Finite]  # from, to


class Obstacle(Section):
    """Something that stands on the ramp, as a rectangle: x from west to east, y from south to north."""

    name: Name
    x: Side
    y: Side

    @model_validator(mode="after")
    def _has_two_sides(self):
        for name, (low, high) in (("x", self.x), ("y", self.y)):
            if high <= low:
                raise ValueError(f"{name} is {low:g} to {high:g}; allowed: the smaller number first")
        return self

    @property
    def corners(self):
        """Its corners (x, y), one after the other."""
        (west, east), (south, north) = self.x, self.y
        return ((west, south), (east, south), (east, north), (west, north))


class Ramp(Section):
    """A hangar whose door faces west, what else stands about, where an aircraft waits, and the airfield's own rule.

    `hangar_x` and `hangar_y` are its outside; the door, `door_y`, is in its west wall; walls are `wall` thick.
    `waits_at` is where the middle between the main wheels stands, the nose to the north. An aircraft that passes nearer
    than `keep_clear` to anything is too near.
    """

    hangar_x: Side
    hangar_y: Side
    door_y: Side
    wall: Positive
    waits_at: tuple[Finite, Finite]
    keep_clear: Positive
    obstacles: Annotated[list[Obstacle], Field(min_length=1)]

    @model_validator(mode="after")
    def _door_fits(self):
        (south, north), (low, high) = self.hangar_y, self.door_y
        if not south + self.wall < low < high < north - self.wall:
            raise ValueError(f"door_y is {low:g} to {high:g}; allowed: between the walls of the hangar, in order")
        return self

    @property
    def door_middle(self):
        """Where the middle of the door is, from south to north."""
        return sum(self.door_y) / 2

    @property
    def inside_x(self):
        """How far in an aircraft may stand, from the door to the rear wall."""
        west, east = self.hangar_x
        return west, east - self.wall

    @property
    def everything(self):
        """Every obstacle, the hangar's walls and the posts of its door among them."""
        (west, east), (south, north), wall = self.hangar_x, self.hangar_y, self.wall
        walls = {
            "the south post of the door": ((west, west + wall), (south, self.door_y[0])),
            "the north post of the door": ((west, west + wall), (self.door_y[1], north)),
            "the south wall": ((west, east), (south, south + wall)),
            "the north wall": ((west, east), (north - wall, north)),
            "the rear wall": ((east - wall, east), (south, north)),
        }
        return [*self.obstacles, *(Obstacle(name=name, x=x, y=y) for name, (x, y) in walls.items())]
