"""Weight, moment and centre of gravity: the arithmetic of loading an aircraft.

Any consistent set of units works: pounds and inches, kilograms and metres. Arms are measured from the
aircraft's datum, aft positive. Source of every equation here: FAA-H-8083-25, Pilot's Handbook of Aeronautical
Knowledge, chapter on weight and balance.
"""

from typing import NamedTuple

import numpy as np

from walkaround import checks


class Balance(NamedTuple):
    """A total: weight, moment about the datum and the arm of the centre of gravity, numbers or arrays of one shape.

    >>> balance([60.0, 40.0], [1.0, 2.0]).cg
    np.float64(1.4)
    """

    weight: np.ndarray
    moment: np.ndarray
    cg: np.ndarray


def balance(weights, arms):
    """Total weight, moment and CG of items whose weights and arms lie along the last axis.

    W = Σ wᵢ, M = Σ wᵢ xᵢ, CG = M / W. `weights` and `arms` broadcast; the result has their shape without
    the last axis. Raises ValueError when a value is not finite or a total weight is not above zero.

    >>> balance([2100, 340, 350, 450, 80], [78.3, 85.0, 121.0, 75.0, 150.0])
    Balance(weight=np.float64(3320.0), moment=np.float64(281430.0), cg=np.float64(84.76807228915662))
    """
    weights, arms = checks.numbers("weights", weights), checks.numbers("arms", arms)
    if not (weights.ndim and arms.ndim):
        weights, arms = np.atleast_1d(weights, arms)
    if weights.shape[-1] != arms.shape[-1]:
        checks.same_shape(weights=weights, arms=arms)
        weights, arms = np.broadcast_arrays(weights, arms)
    weight = weights.sum(axis=-1)
    checks.numbers("total weight", weight, above=0)
    moment = weights @ arms if arms.ndim == 1 else np.einsum("...i,...i->...", weights, arms)
    return Balance(weight, moment, moment / weight)


def cg_after_shift(weight, cg, moved, from_arm, to_arm):
    """CG after moving a weight that is already on board from one arm to another (shapes broadcast).

    ΔCG = moved · (to − from) / weight.

    >>> round(float(cg_after_shift(7800, 81.5, 65, 150, 30)), 3)
    80.5
    """
    weight, cg, moved, from_arm, to_arm = _finite(weight=weight, cg=cg, moved=moved, from_arm=from_arm, to_arm=to_arm)
    return cg + moved * (to_arm - from_arm) / weight


def weight_to_shift(weight, cg, target_cg, from_arm, to_arm):
    """Weight to move from one arm to another so that the CG lands on a target (shapes broadcast).

    moved = weight · (target − CG) / (to − from); if it is negative, move that much the other way. Raises ValueError
    when the two arms are the same.

    >>> float(weight_to_shift(7800, 81.5, 80.5, 150, 30))
    65.0
    """
    weight, cg, target_cg, from_arm, to_arm = _finite(
        weight=weight, cg=cg, target_cg=target_cg, from_arm=from_arm, to_arm=to_arm
    )
    same = checks.equal(from_arm, to_arm)
    if same.any():
        raise ValueError(f"to_arm equals from_arm ({_first(to_arm, same)}); allowed: two different arms")
    return weight * (target_cg - cg) / (to_arm - from_arm)


def cg_after_change(weight, cg, change, arm):
    """CG after a weight is added (change > 0) or removed (change < 0) at an arm (shapes broadcast).

    CG' = (W · CG + change · arm) / (W + change). Raises ValueError when nothing would be left.

    >>> round(float(cg_after_change(6860, 80.0, 140, 150)), 2)
    81.4
    """
    weight, cg, change, arm = _finite(weight=weight, cg=cg, change=change, arm=arm)
    after = np.where(checks.at_most(weight, -change), 0.0, weight + change)
    checks.numbers("weight after the change", after, above=0)
    return (weight * cg + change * arm) / after


def weight_to_add(weight, cg, target_cg, arm):
    """Weight to add at an arm so that the CG lands on a target (shapes broadcast).

    added = W · (target − CG) / (arm − target); if it is negative, remove that much there. Raises ValueError when the
    arm is the target itself, since no weight there moves the CG so far.

    >>> round(float(weight_to_add(6860, 80.0, 81.4, 150)), 6)
    140.0
    """
    weight, cg, target_cg, arm = _finite(weight=weight, cg=cg, target_cg=target_cg, arm=arm)
    same = checks.equal(arm, target_cg)
    if same.any():
        raise ValueError(f"arm equals target_cg ({_first(arm, same)}); allowed: an arm ahead of or behind the target")
    return weight * (target_cg - cg) / (arm - target_cg)


def percent_mac(cg, lemac, mac):
    """CG as a percentage of the mean aerodynamic chord, from its leading edge and length (shapes broadcast).

    100 · (CG − LEMAC) / MAC (FAA-H-8083-1, Aircraft Weight and Balance Handbook).

    >>> float(percent_mac(45.0, 30.0, 60.0))
    25.0
    """
    cg, lemac = checks.numbers("cg", cg), checks.numbers("lemac", lemac)
    return 100.0 * (cg - lemac) / checks.numbers("mac", mac, above=0)


def cg_from_percent_mac(percent, lemac, mac):
    """Arm of the CG from a percentage of the mean aerodynamic chord, the inverse of `percent_mac` (shapes broadcast).

    >>> float(cg_from_percent_mac(25.0, 30.0, 60.0))
    45.0
    """
    percent, lemac = checks.numbers("percent", percent), checks.numbers("lemac", lemac)
    return lemac + percent / 100.0 * checks.numbers("mac", mac, above=0)


def weighed(readings, arms, tares=0.0):
    """Weight, moment and CG from scale readings under the wheels, less the tare of each scale.

    `readings`, `arms` and `tares` have one entry for each wheel along the last axis (three for most light aircraft).
    Raises ValueError when a tare is more than the reading.

    >>> weighed([420, 610, 600], [20.0, 110.0, 110.0], tares=[5, 5, 5]).weight
    np.float64(1615.0)
    """
    readings, tares = checks.numbers("readings", readings, low=0), checks.numbers("tares", tares, low=0)
    readings, tares = checks.same_shape(readings=readings, tares=tares)
    net = np.where(checks.equal(readings, tares), 0.0, readings - tares)
    return balance(checks.numbers("reading less tare", net, low=0), arms)


def _finite(weight, **others):
    values = {"weight": checks.numbers("weight", weight, above=0)}
    values |= {name: checks.numbers(name, value) for name, value in others.items()}
    return checks.same_shape(**values) if any(value.ndim for value in values.values()) else list(values.values())


def _first(values, where):
    return checks.with_unit(np.broadcast_to(values, where.shape)[where].flat[0])
