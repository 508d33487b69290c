"""A control surface by tape measure: from the travel of its trailing edge to degrees and back, and against limits."""

import numpy as np

from walkaround import checks


def travel(chord, deflection_deg):
    """Straight distance of a trailing edge from its neutral place, in the chord's unit (shapes broadcast).

    Parameters: `chord`, from hinge line to trailing edge; `deflection_deg`, up to 90 either way, whose sign the result
    keeps. travel = 2 chord sin(deflection/2), the chord of a circle about the hinge. Raises ValueError for a chord that
    is not above 0, a deflection beyond 90°, or shapes that don't fit.

    >>> round(float(travel(chord=14.0, deflection_deg=28.0)), 2)
    6.77
    """
    chord = checks.numbers("chord", chord, above=0)
    deflection = checks.numbers("deflection_deg", deflection_deg, -90, 90, "°")
    checks.same_shape(chord=chord, deflection_deg=deflection)
    return 2 * chord * np.sin(np.radians(deflection) / 2)


def deflection_deg(chord, travel):
    """Deflection in degrees of a surface whose trailing edge has moved by `travel` (shapes broadcast).

    Both lengths in one unit. The inverse of `travel`: 2 asin(travel/(2 chord)). Raises ValueError for a chord that is
    not above 0, a travel that no deflection of up to 90° gives, or shapes that don't fit.

    >>> round(float(deflection_deg(chord=14.0, travel=6.77)), 1)
    28.0
    """
    chord = checks.numbers("chord", chord, above=0)
    moved = checks.numbers("travel", travel)
    chord, moved = checks.same_shape(chord=chord, travel=moved)
    share = checks.numbers("travel / chord", moved / chord, -np.sqrt(2), np.sqrt(2))
    return np.degrees(2 * np.arcsin(share / 2))


def off_limit_deg(measured_deg, limit_deg, tolerance_deg):
    """Degrees by which a measured travel is outside its tolerance: above 0 too far, below 0 short (shapes broadcast).

    0 from limit − tolerance to limit + tolerance, both included. Raises ValueError for a limit or a tolerance below 0,
    or shapes that don't fit.

    >>> off_limit_deg([25.0, 27.0, 29.5], limit_deg=28.0, tolerance_deg=1.0)
    array([-2. ,  0. ,  0.5])
    """
    measured = checks.numbers("measured_deg", measured_deg, unit="°")
    limit = checks.numbers("limit_deg", limit_deg, low=0, unit="°")
    tolerance = checks.numbers("tolerance_deg", tolerance_deg, low=0, unit="°")
    measured, limit, tolerance = checks.same_shape(measured_deg=measured, limit_deg=limit, tolerance_deg=tolerance)
    off = measured - limit
    return np.where(checks.at_most(np.abs(off), tolerance, limit), 0.0, off - np.sign(off) * tolerance)
