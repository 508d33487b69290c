"""Ropes: how strong they are, what a knot leaves, the tension at an angle, and the jerk when a slack one comes taut."""

from dataclasses import dataclass

import numpy as np

from walkaround import checks

# Least breaking load in lb: a rope maker's table. Stretch at the breaking load as a share of the length: rules of
# thumb for each fibre (recalled).
ROPES = {
    "manila 3/8 in": (1220.0, 0.13),
    "manila 1/2 in": (2380.0, 0.13),
    "polypropylene 3/8 in": (2440.0, 0.20),
    "polypropylene 1/2 in": (3780.0, 0.20),
    "nylon 3/8 in": (3340.0, 0.30),
    "nylon 1/2 in": (5750.0, 0.30),
}


def rope_tension(upward, angle_deg):
    """Tension in a rope that holds an upward pull, in the unit of `upward` (shapes broadcast).

    `angle_deg` is the rope's angle to the ground. T = F / sin θ. Raises ValueError for a negative pull or an angle
    outside 5 to 90°.

    >>> rope_tension(300.0, [90.0, 45.0, 30.0]).round().tolist()
    [300.0, 424.0, 600.0]
    """
    upward = checks.numbers("upward", upward, low=0)
    angle = np.radians(checks.numbers("angle_deg", angle_deg, 5, 90, "°"))
    checks.same_shape(upward=upward, angle_deg=angle)
    return upward / np.sin(angle)


def line_strength(breaking, anchor, knot_share=0.5, condition=1.0):
    """The least of what rope and anchor hold, in their unit (shapes broadcast).

    Parameters: `breaking`, the new rope's breaking load; `anchor`, what the anchor holds; `knot_share` left by the
    knots (about half: common practice, no source); `condition`, the share left by age, sun and chafing. Raises
    ValueError for a negative load or a share outside 0 to 1.

    >>> line_strength([2380.0, 7000.0], 3000.0).tolist()
    [1190.0, 3000.0]
    """
    breaking, anchor = checks.numbers("breaking", breaking, low=0), checks.numbers("anchor", anchor, low=0)
    knot, condition = checks.numbers("knot_share", knot_share, 0, 1), checks.numbers("condition", condition, 0, 1)
    checks.same_shape(breaking=breaking, anchor=anchor, knot_share=knot, condition=condition)
    return np.minimum(breaking * knot * condition, anchor)


def snatch(pull, stiffness, slack):
    """Greatest load in a rope of some slack when a pull comes all at once and stays (shapes broadcast).

    Parameters in any consistent units: `pull`; `stiffness`, load for each unit of stretch; `slack`, how far the ring
    moves before the rope is taut. The work of the pull over slack and stretch is in the stretched rope:
    T²/2k = F (s + T/k), so T = F + √(F² + 2 k F s): twice the pull without slack (the impact factor of any textbook on
    strength of materials). No damping: an upper limit. Raises ValueError for a negative value or a stiffness of 0.

    >>> snatch(100.0, 50.0, [0.0, 2.0, 6.0]).round().tolist()
    [200.0, 273.0, 365.0]
    """
    pull, slack = checks.numbers("pull", pull, low=0), checks.numbers("slack", slack, low=0)
    stiffness = checks.numbers("stiffness", stiffness, above=0)
    checks.same_shape(pull=pull, stiffness=stiffness, slack=slack)
    return pull + np.sqrt(pull**2 + 2 * stiffness * pull * slack)


@dataclass(frozen=True)
class Rope:
    """A rope from a ring to the ground: newtons and metres.

    `ring_m` is (aft, right, up) of the ring; `leads` the direction on the ground in which the rope leads away from it,
    (aft, right), of length 1; `angle_deg` its angle to the ground; `breaking_n` and `stretch` at the breaking load;
    `holds_n`, what the weakest of rope, knot and anchor holds; `slack_m` more rope than it needs. Raises ValueError for
    a value out of range.

    >>> rope = Rope((2.5, -3.0, 2.0), (0.0, -1.0), 45.0, 10000.0, 0.2, 5000.0)
    >>> [round(float(v), 3) for v in rope.anchor_m]
    [2.5, -5.0]
    """

    ring_m: tuple
    leads: tuple
    angle_deg: float
    breaking_n: float
    stretch: float
    holds_n: float
    slack_m: float = 0.0

    def __post_init__(self):
        checks.number("angle_deg", self.angle_deg, 5, 90, "°")
        for name in ("breaking_n", "stretch", "holds_n"):
            checks.number(name, getattr(self, name), above=0)
        checks.number("slack_m", self.slack_m, low=0, unit="m")
        for name, ways in (("ring_m", 3), ("leads", 2)):
            if np.shape(getattr(self, name)) != (ways,):
                raise ValueError(f"{name} has shape {np.shape(getattr(self, name))}; allowed: {ways} numbers")
            checks.numbers(name, getattr(self, name))
        checks.number("ring_m[2]", self.ring_m[2], above=0, unit="m")
        if abs(np.hypot(*self.leads) - 1) > 1e-6:
            raise ValueError(f"leads has length {np.hypot(*self.leads):g}; allowed: 1")

    @property
    def sine(self):
        """Sine of the angle to the ground."""
        return float(np.sin(np.radians(self.angle_deg)))

    @property
    def level_share(self):
        """Pull along the ground for each newton of downward pull."""
        return float(1 / np.tan(np.radians(self.angle_deg))) if self.angle_deg < 90 else 0.0

    @property
    def anchor_m(self):
        """Where the rope meets the ground, (aft, right)."""
        run = self.ring_m[2] * self.level_share
        return self.ring_m[0] + run * self.leads[0], self.ring_m[1] + run * self.leads[1]

    @property
    def stiffness_n_m(self):
        """Tension for each metre of stretch: EA/length."""
        return self.breaking_n / self.stretch / self.ring_m[2] * self.sine

    @property
    def upward_stiffness_n_m(self):
        """Downward pull for each metre that the ring rises: EA/length · sin²θ."""
        return self.stiffness_n_m * self.sine**2
