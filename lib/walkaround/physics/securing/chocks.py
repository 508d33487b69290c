"""A wheel against a chock: the push that makes it climb."""

import numpy as np

from walkaround import checks


def chock_force(weight, wheel_radius, chock_height, slope_deg=0.0):
    """Force at the axle, along the ground, at which a wheel climbs its chock, in the unit of `weight` (broadcasts).

    Parameters: `weight` on the wheel; `wheel_radius` and `chock_height`, both in one unit of length; `slope_deg`, by
    which the ground falls towards the chock: the wheel then leans on it already. The wheel turns about the chock's
    edge: P (r − h) = W cos θ √(2 r h − h²) − W sin θ (r − h), statics of any mechanics textbook. The edge is taken to
    be sharp and the chock not to slip. Never below 0; infinite for a chock as high as the axle.

    Raises ValueError for a negative weight or height, a radius that is not above 0, or a slope outside 0 to 45°.

    >>> round(float(chock_force(1000.0, 8.0, 2.0))), round(float(chock_force(1000.0, 8.0, 4.0)))
    (882, 1732)
    """
    given = {
        "weight": checks.numbers("weight", weight, low=0),
        "wheel_radius": checks.numbers("wheel_radius", wheel_radius, above=0),
        "chock_height": checks.numbers("chock_height", chock_height, low=0),
        "slope_deg": np.radians(checks.numbers("slope_deg", slope_deg, 0, 45, "°")),
    }
    weight, r, height, slope = checks.same_shape(**given)
    h = np.minimum(height, r)
    below = h < r
    steep = np.where(below, np.sqrt(h * (2 * r - h)) / np.where(below, r - h, 1.0), np.inf)
    least = np.where(below, np.cos(slope) * np.where(below, steep, 0.0) - np.sin(slope), np.inf)
    return np.where(weight > 0, np.where(weight > 0, weight, 1.0) * np.maximum(least, 0.0), 0.0)
