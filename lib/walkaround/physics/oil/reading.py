"""What makes a dipstick lie: oil that has not run back yet, and ground that slopes. Lengths in the stick's own unit."""

import numpy as np

from walkaround import checks


def still_up(held_up, half_back_minutes, minutes):
    """Oil not yet back in the sump some minutes after the engine was shut down (all shapes broadcast).

    held_up · 0.5^(minutes/half_back_minutes): of what hung in the engine, half of the rest comes back in each half
    time. A rule of thumb; common practice is to wait ten to fifteen minutes, no source. Raises ValueError for anything
    below 0, or a half time that is not above it.

    >>> still_up(1.2, 4.0, [0.0, 4.0, 12.0]).round(2).tolist()
    [1.2, 0.6, 0.15]
    """
    half = checks.numbers("half_back_minutes", half_back_minutes, above=0, unit="min")
    held, minutes = checks.numbers("held_up", held_up, low=0), checks.numbers("minutes", minutes, low=0, unit="min")
    held, half, minutes = checks.same_shape(held_up=held, half_back_minutes=half, minutes=minutes)
    return held * 0.5 ** (minutes / half)


def wait_minutes(held_up, half_back_minutes, missing):
    """Minutes from shut-down until no more than `missing` is still up, by the rule of `still_up` (shapes broadcast).

    half_back_minutes · log₂(held_up/missing), or 0. Raises ValueError for `missing` not above 0.

    >>> float(wait_minutes(1.2, 4.0, 0.15))
    12.0
    """
    missing = checks.numbers("missing", missing, above=0)
    held, half, missing = checks.same_shape(
        held_up=checks.numbers("held_up", held_up, low=0),
        half_back_minutes=checks.numbers("half_back_minutes", half_back_minutes, above=0, unit="min"),
        missing=missing,
    )
    return half * np.log2(np.maximum(held / missing, 1.0))


def rise_on_slope(forward, right, nose_up_deg, right_wing_down_deg=0.0):
    """How much higher than on level ground the oil stands at the stick, along the stick (all shapes broadcast).

    Oil stays level while the aircraft tilts, and turns about the middle of its surface as long as that meets only the
    sump's upright walls (`holds_on_slope`). `forward` and `right` are where the stick stands, from that middle; with
    pitch θ and roll φ the surface is z = −forward tan θ/cos φ + right tan φ. Raises ValueError beyond ±30°.

    >>> float(rise_on_slope(-4.0, 0.0, nose_up_deg=3.0).round(2)), float(rise_on_slope(4.0, 0.0, 3.0).round(2))
    (0.21, -0.21)
    """
    pitch, roll = _radians(nose_up_deg=nose_up_deg, right_wing_down_deg=right_wing_down_deg)
    forward, right = checks.numbers("forward", forward), checks.numbers("right", right)
    checks.same_shape(forward=forward, right=right, nose_up_deg=pitch, right_wing_down_deg=roll)
    return right * np.tan(roll) - forward * np.tan(pitch) / np.cos(roll)


def holds_on_slope(length, width, depth, nose_up_deg, right_wing_down_deg=0.0):
    """Whether a box-shaped sump with oil of that depth keeps its whole floor covered on a slope (shapes broadcast).

    Then `rise_on_slope` is exact. Raises ValueError for sizes not above 0, and beyond ±30°.

    >>> bool(holds_on_slope(11.0, 8.0, 4.0, nose_up_deg=5.0)), bool(holds_on_slope(11.0, 8.0, 0.4, nose_up_deg=5.0))
    (True, False)
    """
    sizes = {"length": length, "width": width, "depth": depth}
    length, width, depth = (checks.numbers(name, value, above=0) for name, value in sizes.items())
    pitch, roll = _radians(nose_up_deg=nose_up_deg, right_wing_down_deg=right_wing_down_deg)
    checks.same_shape(length=length, width=width, depth=depth, nose_up_deg=pitch, right_wing_down_deg=roll)
    return checks.at_most(length / 2 * np.abs(np.tan(pitch)) / np.cos(roll) + width / 2 * np.abs(np.tan(roll)), depth)


def _radians(**degrees):
    return (np.radians(checks.numbers(name, value, -30, 30, "°")) for name, value in degrees.items())
