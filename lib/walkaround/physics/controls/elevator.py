"""What an elevator can do, and what is missing when it is short of travel: tail volume, and Δα = τ Δδ.

Thin aerofoils and a tailplane in undisturbed air: a real elevator, with its gap and its thick boundary layer, does less
than these say, and the fuselage and the propeller are left out. Lengths, areas, forces and pressures are in one
consistent set of units, such as ft, ft², lb and lb/ft².
"""

import numpy as np

from walkaround import checks

AERODYNAMIC_CENTRE = 0.25  # of the mean chord: thin-aerofoil theory


def effectiveness(chord_share):
    """Effectiveness τ of a plain flap: the change of angle of attack that a degree of it is worth (any shape).

    `chord_share` is the chord behind the hinge line over the whole chord, from 0 to 1. τ = 1 − (θ − sin θ)/π with
    cos θ = 2 chord_share − 1: H. Glauert, *The Elements of Aerofoil and Airscrew Theory* (recalled). Raises ValueError
    for a share outside 0 to 1.

    >>> round(float(effectiveness(0.2)), 2)
    0.55
    """
    share = checks.numbers("chord_share", chord_share, 0, 1)
    theta = np.arccos(2 * share - 1)
    return 1 - (theta - np.sin(theta)) / np.pi


def lift_slope_per_rad(aspect_ratio):
    """Lift slope of a straight wing or tailplane, per radian of angle of attack (any shape).

    2π A/(2 + √(A² + 4)): H. B. Helmbold, 1942 (recalled). Raises ValueError for an aspect ratio that is not above 0.

    >>> round(float(lift_slope_per_rad(4.0)), 2)
    3.88
    """
    ratio = checks.numbers("aspect_ratio", aspect_ratio, above=0)
    return 2 * np.pi * ratio / (2 + np.sqrt(ratio**2 + 4))


def mean_chord(root_chord, tip_chord):
    """Mean aerodynamic chord of a wing that tapers straight, in the chords' unit (shapes broadcast).

    2/3 (r + t − r t/(r + t)). Raises ValueError for a chord that is not above 0, or shapes that don't fit.

    >>> float(mean_chord(3.0, 3.0))
    3.0
    """
    root = checks.numbers("root_chord", root_chord, above=0)
    tip = checks.numbers("tip_chord", tip_chord, above=0)
    checks.same_shape(root_chord=root, tip_chord=tip)
    return 2 / 3 * (root + tip - root * tip / (root + tip))


def tail_volume(tail_area, tail_arm, wing_area, chord):
    """Tail volume: tailplane area times arm over wing area times mean chord, a plain number (shapes broadcast).

    `tail_arm` is from the point about which moments are taken to the tailplane's quarter chord. Raises ValueError for
    anything that is not above 0, or shapes that don't fit.

    >>> round(float(tail_volume(tail_area=43.0, tail_arm=16.0, wing_area=184.0, chord=5.7)), 2)
    0.66
    """
    given = {"tail_area": tail_area, "tail_arm": tail_arm, "wing_area": wing_area, "chord": chord}
    area, arm, wing, chord = checks.same_shape(**{k: checks.numbers(k, v, above=0) for k, v in given.items()})
    return area * arm / (wing * chord)


def downwash_slope(wing_slope_per_rad, aspect_ratio):
    """How much a degree of the wing's angle of attack turns the air down at the tail: 2 a/(π A) (shapes broadcast).

    Far behind a wing with elliptical lift (Prandtl). Raises ValueError for anything that is not above 0.

    >>> round(float(downwash_slope(4.3, 6.06)), 2)
    0.45
    """
    slope = checks.numbers("wing_slope_per_rad", wing_slope_per_rad, above=0, unit="/rad")
    ratio = checks.numbers("aspect_ratio", aspect_ratio, above=0)
    checks.same_shape(wing_slope_per_rad=slope, aspect_ratio=ratio)
    return 2 * slope / (np.pi * ratio)


def neutral_point(volume, wing_slope_per_rad, tail_slope_per_rad, downwash):
    """Neutral point, in shares of the mean chord behind its leading edge, of wing and tail (shapes broadcast).

    1/4 + V (a_t/a)(1 − dε/dα), with `volume` taken from the wing's quarter chord: any textbook on stability. Left out
    are the fuselage and what the tail adds to the lift, which moves the neutral point a little forward; `lift_lost`
    leaves the same out, and with a CG near the quarter chord its result holds to a few per cent. Raises ValueError for
    values that are not above 0, a downwash outside 0 to 1, or shapes that don't fit.

    >>> round(float(neutral_point(0.66, 4.3, 3.91, 0.45)), 2)
    0.58
    """
    given = {"volume": volume, "wing_slope_per_rad": wing_slope_per_rad, "tail_slope_per_rad": tail_slope_per_rad}
    arrays = {k: checks.numbers(k, v, above=0) for k, v in given.items()}
    arrays["downwash"] = checks.numbers("downwash", downwash, 0, 1)
    volume, wing, tail, downwash = checks.same_shape(**arrays)
    return AERODYNAMIC_CENTRE + volume * tail / wing * (1 - downwash)


def tail_force(pressure, tail_area, tail_slope_per_rad, tau, deflection_deg):
    """Force at the tail that so much elevator makes at a dynamic pressure: q S a τ δ (shapes broadcast).

    Raises ValueError for values below 0, a τ above 1, or shapes that don't fit.

    >>> round(float(tail_force(pressure=10.0, tail_area=30.0, tail_slope_per_rad=3.7, tau=0.7, deflection_deg=3.0)), 1)
    40.7
    """
    given = {"pressure": pressure, "tail_area": tail_area, "tail_slope_per_rad": tail_slope_per_rad}
    given["deflection_deg"] = deflection_deg
    arrays = {k: checks.numbers(k, v, low=0) for k, v in given.items()}
    arrays["tau"] = checks.numbers("tau", tau, 0, 1)
    q, area, slope, degrees, tau = checks.same_shape(**arrays)
    return q * area * slope * tau * np.radians(degrees)


def cg_worth(force, tail_arm, weight):
    """How far the centre of gravity would have to move to ask as much of the tail: force × arm / weight (broadcasts).

    In the arm's unit. Raises ValueError for a force below 0, anything else that is not above 0, or shapes that don't
    fit.

    >>> float(cg_worth(force=40.0, tail_arm=190.0, weight=2000.0))
    3.8
    """
    arrays = {"force": checks.numbers("force", force, low=0)}
    arrays |= {k: checks.numbers(k, v, above=0) for k, v in {"tail_arm": tail_arm, "weight": weight}.items()}
    force, arm, weight = checks.same_shape(**arrays)
    return force * arm / weight


def pitching_moment(volume, tail_slope_per_rad, tau, deflection_deg):
    """Pitching moment coefficient of so much elevator: V a τ δ, with V about the CG (shapes broadcast).

    Raises ValueError for values below 0, a τ above 1, or shapes that don't fit.

    >>> round(float(pitching_moment(0.7, 3.7, 0.7, 3.0)), 3)
    0.095
    """
    given = {"volume": volume, "tail_slope_per_rad": tail_slope_per_rad, "deflection_deg": deflection_deg}
    arrays = {k: checks.numbers(k, v, low=0) for k, v in given.items()}
    arrays["tau"] = checks.numbers("tau", tau, 0, 1)
    volume, slope, degrees, tau = checks.same_shape(**arrays)
    return volume * slope * tau * np.radians(degrees)


def lift_lost(moment, margin):
    """Lift coefficient that can no longer be held for want of a pitching moment: ΔCm/margin (shapes broadcast).

    `margin` is the static margin in shares of the mean chord: from CG to neutral point. Raises ValueError for a moment
    below 0, a margin that is not above 0, or shapes that don't fit.

    >>> round(float(lift_lost(moment=0.09, margin=0.3)), 2)
    0.3
    """
    moment = checks.numbers("moment", moment, low=0)
    margin = checks.numbers("margin", margin, above=0)
    checks.same_shape(moment=moment, margin=margin)
    return moment / margin


def speed_after(speed, lift_coefficient, lost):
    """The slowest speed once so much lift coefficient is lost: V √(C/(C − lost)), in the speed's unit (broadcasts).

    Raises ValueError for a speed below 0, a lift coefficient that is not above 0, a loss below 0 or as large as the
    coefficient, or shapes that don't fit.

    >>> float(speed_after(speed=46.0, lift_coefficient=2.0, lost=0.72))
    57.5
    """
    arrays = {
        "speed": checks.numbers("speed", speed, low=0),
        "lift_coefficient": checks.numbers("lift_coefficient", lift_coefficient, above=0),
        "lost": checks.numbers("lost", lost, low=0),
    }
    speed, lift, lost = checks.same_shape(**arrays)
    checks.numbers("lift_coefficient − lost", lift - lost, above=0)
    return speed * np.sqrt(lift / (lift - lost))
