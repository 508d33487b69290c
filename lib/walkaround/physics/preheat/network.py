"""A linear network of heat capacities, solved exactly.

Parts with one temperature each (lumped capacitances: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, ch.
5) are linked to each other and to the outside. For the rise θ of the parts above the outside

    C dθ/dt = −G θ + q + g θ_air

where C are the capacities, G the links and losses, q steady heat, and g the conductances to a flow of warm air whose
own temperature changes exponentially. Nothing is stepped: dividing by √C on both sides makes the matrix symmetric, so
it has real rates and independent modes, and every temperature is a sum of exponentials.

In arrays the parts are on the last axis. All axes before it broadcast, with one network at each place.
"""

from dataclasses import dataclass

import numpy as np

from walkaround import checks

_APART = 1e-5


@dataclass(frozen=True)
class Modes:
    """The modes of a network: the independent ways in which it evens out.

    `rates`, shape (..., modes), in 1/s; `shapes`, shape (..., parts, modes), each part's share of the mode; `weights`,
    shape (..., modes, parts), which turns temperatures into amounts of each mode.

    >>> one = modes([1000.0], [[0.0]], [20.0])
    >>> kelvin, kelvin_per_s = one.shapes[0] @ one.amounts([7.0]), one.shapes[0] @ one.driven_by([100.0])
    >>> round(float(kelvin), 6), round(float(kelvin_per_s), 6)
    (7.0, 0.1)
    """

    rates: np.ndarray
    shapes: np.ndarray
    weights: np.ndarray

    def amounts(self, temperatures):
        """Amount of each mode in the temperatures of the parts, shape (..., parts)."""
        return np.einsum("...mp,...p->...m", self.weights, temperatures)

    def driven_by(self, heat_w):
        """Rate in 1/s at which steady heat in W into the parts, shape (..., parts), adds to each mode."""
        return np.einsum("...pm,...p->...m", self.shapes, heat_w)


def modes(capacities_j_per_k, links_w_per_k, losses_w_per_k):
    """Modes of a network from its capacities, the links between parts, and their losses to the outside.

    Parameters: capacities and losses, shape (..., parts), in J/K and W/K; links, shape (..., parts, parts), symmetric
    with zeros on the diagonal, in W/K. With S = C^(−½) G C^(−½) = Q Λ Qᵀ the rates are Λ, the shapes C^(−½) Q and the
    weights Qᵀ C^(½). Raises ValueError for a capacity that is not above 0, a negative link or loss, a link that is not
    the same both ways, or a network that heat can't leave.

    >>> one = modes([1000.0], [[0.0]], [20.0])  # 1,000 J/K losing 20 W/K: time constant 50 s
    >>> float(1 / one.rates[0])
    50.0
    """
    capacities = checks.numbers("capacities_j_per_k", capacities_j_per_k, above=0, unit="J/K")
    links = checks.numbers("links_w_per_k", links_w_per_k, low=0, unit="W/K")
    losses = checks.numbers("losses_w_per_k", losses_w_per_k, low=0, unit="W/K")
    if not np.array_equal(links, np.swapaxes(links, -1, -2)):
        raise ValueError("links_w_per_k is not the same both ways; allowed: a symmetric matrix")
    root = np.sqrt(capacities)
    leaving = losses + links.sum(axis=-1)
    conductances = np.eye(root.shape[-1]) * leaving[..., np.newaxis] - links
    rates, turned = np.linalg.eigh(conductances / (root[..., :, np.newaxis] * root[..., np.newaxis, :]))
    if np.any(rates[..., 0] <= 1e-12 * rates[..., -1]):
        raise ValueError("no heat can leave a part of the network; allowed: links and losses that lead outside")
    shapes = turned / root[..., :, np.newaxis]
    return Modes(rates, shapes, np.swapaxes(turned, -1, -2) * root[..., np.newaxis, :])


def kept_apart(rate, rates):
    """Return `rate`, moved by a few hundred-thousandths where it all but equals one of `rates`.

    Two equal rates would make a term t·exp(−r t), which a sum of exponentials can't hold.

    >>> kept_apart(2.0, [1.0, 3.0]).tolist(), kept_apart(3.0, [1.0, 3.0]).round(5).tolist()
    (2.0, 3.00006)
    """
    rate = np.asarray(rate, dtype=float)
    close = np.abs(np.asarray(rates) - rate[..., np.newaxis]) < _APART * rate[..., np.newaxis]
    return np.where(close.any(axis=-1), rate * (1 + 2 * _APART), rate)


@dataclass(frozen=True)
class Air:
    """A rise of warm air above the outside that goes exponentially from `start` to `settles`, at `rate` in 1/s.

    >>> Air(start=0.0, settles=40.0, rate=0.05)
    Air(start=0.0, settles=40.0, rate=0.05)
    """

    start: np.ndarray
    settles: np.ndarray
    rate: np.ndarray


def response(modes, amounts, heat, air_drive, air):
    """Every temperature of a stretch without switching, as coefficients of a sum of exponentials.

    Parameters: `amounts` of each mode at the beginning, shape (..., modes); `heat` and `air_drive`, what steady heat
    and 1 K of the warm air add to each mode (`Modes.driven_by`); `air`, an `Air`. Returns coefficients, shape (...,
    parts + 1, modes + 2), with the air in the last row; the terms are constant, air, modes, and `rates_of` returns
    their rates.

    Each mode follows dy/dt = −λ y + b + a θ_air, so y = (b + a θ_∞)/λ + a (θ_0 − θ_∞)/(λ − µ) e^(−µt) + K e^(−λt).

    >>> part, air = modes([1000.0], [[0.0]], [20.0]), Air(*np.array([0.0, 40.0, 0.05]))
    >>> heat, air_drive = part.driven_by([0.0]), part.driven_by([10.0])  # 10 of the 20 W/K are to the air
    >>> response(part, part.amounts([0.0]), heat, air_drive, air).round(2).tolist()
    [[20.0, 13.33, -33.33], [40.0, -40.0, 0.0]]
    """
    steady, with_air, own = _terms(modes, amounts, heat, air_drive, air)
    parts, count = modes.shapes.shape[-2:]
    coefficients = np.zeros((*own.shape[:-1], parts + 1, count + 2))
    coefficients[..., :parts, 0] = np.einsum("...pm,...m->...p", modes.shapes, steady)
    coefficients[..., :parts, 1] = np.einsum("...pm,...m->...p", modes.shapes, with_air)
    coefficients[..., :parts, 2:] = modes.shapes * own[..., np.newaxis, :]
    coefficients[..., parts, 0] = air.settles
    coefficients[..., parts, 1] = air.start - air.settles
    return coefficients


def after(modes, amounts, heat, air_drive, air, seconds):
    """Amount of each mode at a time in s into a stretch without switching (parameters as in `response`).

    >>> part, still = modes([1000.0], [[0.0]], [20.0]), Air(*np.array([0.0, 0.0, 1.0]))
    >>> cooled = after(part, part.amounts([10.0]), part.driven_by([0.0]), part.driven_by([0.0]), still, 50.0)
    >>> round(float(part.shapes[0] @ cooled), 2)  # a part at 10 K after one time constant
    3.68
    """
    steady, with_air, own = _terms(modes, amounts, heat, air_drive, air)
    seconds = np.asarray(seconds)[..., np.newaxis]
    return steady + with_air * np.exp(-air.rate[..., np.newaxis] * seconds) + own * np.exp(-modes.rates * seconds)


def _terms(modes, amounts, heat, air_drive, air):
    """The three terms of each mode: the value at which it settles, what follows the air, and what fades by itself."""
    steady = (heat + air_drive * air.settles[..., np.newaxis]) / modes.rates
    swing = (air.start - air.settles)[..., np.newaxis]
    with_air = air_drive * swing / (modes.rates - air.rate[..., np.newaxis])
    return steady, with_air, amounts - steady - with_air


def rates_of(modes, air_rate):
    """Rates in 1/s of the terms of `response`: 0, the air's, then the modes'; shape (..., modes + 2).

    >>> rates_of(modes([1000.0], [[0.0]], [20.0]), 0.05).tolist()
    [0.0, 0.05, 0.02]
    """
    air_rate = np.asarray(air_rate)[..., np.newaxis]
    shape = (*np.broadcast_shapes(air_rate.shape[:-1], modes.rates.shape[:-1]), 1)
    air_rate = np.broadcast_to(air_rate, shape)
    own = np.broadcast_to(modes.rates, (*shape[:-1], modes.rates.shape[-1]))
    return np.concatenate([np.zeros(shape), air_rate, own], axis=-1)
