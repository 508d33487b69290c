"""An aircraft as it is towed: its outline from above in feet, by its dimensions, with a name for each part."""

from typing import NamedTuple

from walkaround.aircraft.dimensions import Dimensions
from walkaround.units import FOOT_M

# Shares of the span, for the outline of a fuselage that the aircraft file does not give.
HALF_FUSELAGE, HALF_TAIL_CONE = 0.05, 0.012


class Corner(NamedTuple):
    """A corner of the outline: the part that it belongs to, and the part whose side begins here, going clockwise."""

    part: str
    side: str
    ahead: float
    right: float


class Airframe:
    """Outline and wheels of an aircraft in feet; places are `ahead` of the main wheels and `right` of the middle."""

    def __init__(self, craft):
        here: Dimensions = craft.dimensions.metres(craft.units)
        feet = {name: value / FOOT_M for name, value in here if isinstance(value, float)}
        self.limit_deg, self.wheelbase = craft.towing.turning_limit_deg, here.wheelbase / FOOT_M
        self.span, self.track, self.wing_sq_ft = feet["span"], feet["track"], here.wing_area / FOOT_M**2

        def ahead(arm):
            return feet["main_wheels"] - arm

        self.nose, self.tail = ahead(feet["nose"]), ahead(feet["tail"])
        quarter = feet["wing_leading_edge"] + feet["wing_root_chord"] / 4
        tip, tip_chord, root = feet["span"] / 2, feet["wing_tip_chord"], feet["wing_leading_edge"]
        at, chord, half = feet["tailplane_arm"], feet["tailplane_chord"], feet["tailplane_span"] / 2
        body, cone, blade = HALF_FUSELAGE * self.span, HALF_TAIL_CONE * self.span, feet["propeller_diameter"] / 2
        rows = (
            ("propeller", "propeller", self.nose, blade),
            ("nose", "nose", self.nose - 0.5, 0.6 * body),
            ("wing", "wing", ahead(root), body),
            ("wing tip", "wing tip", ahead(quarter - tip_chord / 4), tip),
            ("wing tip", "wing", ahead(quarter + 0.75 * tip_chord), tip),
            ("wing", "fuselage", ahead(root + feet["wing_root_chord"]), body),
            ("fuselage", "tailplane", ahead(at - chord / 4), cone),
            ("tailplane", "tailplane", ahead(at - chord / 4), half),
            ("tailplane", "tailplane", ahead(at + 0.75 * chord), half),
            ("tail", "tail", self.tail, cone / 2),
        )
        right = [Corner(_name("right", part), _name("right", side), x, y) for part, side, x, y in rows]
        # On the left the way round is forwards: a side begins where on the right it ends.
        sides = [side for _, side, *_ in rows]
        left = [
            Corner(_name("left", part), _name("left", side), x, -y)
            for (part, _, x, y), side in zip(rows[::-1], [*sides[-2::-1], "propeller"], strict=True)
        ]
        self.corners = (*right, *left)
        self.outline = tuple((corner.ahead, corner.right) for corner in self.corners)
        self.tips = tuple((ahead(quarter), sign * tip) for sign in (-1, 1))

    def part(self, miss):
        """Name the part of the aircraft where a `physics.towing.Miss` is nearest."""
        corner = self.corners[miss.side]
        return corner.part if miss.corner else corner.side


def _name(side, part):
    return f"the {side} {part}" if part in ("wing", "wing tip", "tailplane") else f"the {part}"
