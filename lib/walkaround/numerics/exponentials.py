"""Sums of decaying exponentials: their values, their integrals, and every moment at which they pass zero.

    f(t) = Σ c_m · exp(−r_m t),      r_m ≥ 0,

is the solution of every linear network: one term for each mode in which it evens out, and a constant (rate 0) for the
value at which it settles. In arrays the terms are on the last axis, and all axes before it broadcast.

A sum counts as zero where it is smaller than 1e-12 of its terms added up without their signs: less than that is lost in
rounding. At every moment that is found here the sum differs from the level asked for by no more than this.
"""

import numpy as np

_ROUNDING = 1e-12
_AT_ONCE = 4 * _ROUNDING  # a search that goes on from a moment found by another begins no farther below the level
_SETTLED = 60.0  # exp(−60) is below the last digit of a double


def value(coefficients, rates, time):
    """Value of the sums at `time` (any shape that broadcasts with the axes before the terms).

    >>> round(float(value([1.0, -1.0], [0.0, 1.0], 1.0)), 4)
    0.6321
    """
    fading = np.exp(-np.multiply(np.asarray(time)[..., np.newaxis], rates))
    return np.einsum("...m,...m->...", coefficients, fading)


def integral(coefficients, rates, time):
    """Integral of the sums from 0 to `time`: each term gives c·(1 − exp(−r t))/r, a constant c·t.

    >>> round(float(integral([1.0, -1.0], [0.0, 1.0], 1.0)), 4)
    0.3679
    """
    time, rates = np.broadcast_arrays(np.asarray(time, dtype=float)[..., np.newaxis], rates)
    still = rates == 0
    weights = np.where(still, time, -np.expm1(-rates * time) / np.where(still, 1.0, rates))
    return np.einsum("...m,...m->...", coefficients, weights)


def zeros(coefficients, rates, end):
    """Every moment from 0 to `end` at which the sums change sign.

    Parameters: coefficients and rates, shape (..., terms), the rates of one sum all different; `end`, shape (...),
    which may be infinite. Returns shape (..., terms − 1), rising; rows with fewer zeros are filled up with infinity.

    Nothing is stepped, so nothing can be missed. A sum times exp(r t), where r is its slowest rate, has a slope that is
    again such a sum with one term fewer, and between two zeros of the slope there is at most one zero. So the search
    climbs a ladder from the last term, which has no zero, to the sum itself (the argument behind Descartes' rule for
    exponential sums: G. Pólya and G. Szegő, Problems and Theorems in Analysis II, part V, no. 77; recalled). By
    Laguerre's sharper rule (no. 80 there; recalled) a sum has no more zeros after 0 than its partial sums, in the order
    of rising rates, have changes of sign. Mostly that settles the matter without the ladder.

    >>> zeros([1.0, -3.0, 1.0], [0.0, 1.0, 2.0], np.inf).round(4).tolist()
    [0.9624, inf]
    """
    coefficients, rates = np.broadcast_arrays(np.asarray(coefficients, dtype=float), rates)
    shape, terms = coefficients.shape[:-1], coefficients.shape[-1]
    if terms < 2:
        return np.zeros((*shape, 0))
    # Inside, terms stand on the first axis: numpy adds up a few long rows much faster than many short ones.
    coefficients, rates = (np.ascontiguousarray(a.reshape(-1, terms).T) for a in (coefficients, rates))
    order = np.argsort(rates, axis=0)
    coefficients, rates = (np.take_along_axis(a, order, axis=0) for a in (coefficients, rates))
    end = np.broadcast_to(np.asarray(end, dtype=float), shape).ravel()

    slowest = np.where(rates[0] > 0, rates[0], rates[1])
    ends = np.stack([np.zeros_like(end), np.minimum(end, _SETTLED / slowest)])
    found = np.full((terms - 1, end.size), np.inf)
    found[:1] = _zeros_between(coefficients, rates - rates[0], ends)
    # There are no more zeros than changes of sign, and an odd number of zeros where the two ends differ in sign. A sum
    # that starts at zero, or may end at zero, has no sign there that would help.
    changes, unsigned = _sign_changes(coefficients), (_signs(coefficients) == 0) | (coefficients[0] == 0)
    open_ = np.flatnonzero((changes > 1 + np.isfinite(found[0])) | (unsigned & (changes > 0)))
    if open_.size:
        found[:, open_] = _by_ladder(coefficients[:, open_], rates[:, open_], ends[:, open_])
    return found.T.reshape(*shape, terms - 1)


def _sign_changes(coefficients):
    """How often the sign changes from one partial sum to the next, terms on the first axis; zeros are left out."""
    signs = np.sign(np.cumsum(coefficients, axis=0))
    changes, last = np.zeros(signs.shape[1], int), signs[0]
    for sign in signs[1:]:
        changes += sign * last < 0
        last = np.where(sign == 0, last, sign)
    return changes


def _by_ladder(coefficients, rates, ends):
    """Every zero between the ends, terms and zeros on the first axis."""
    ladder = [coefficients]
    for m in range(len(rates) - 2):
        ladder.append(ladder[-1][1:] * (rates[m] - rates[m + 1 :]))
    knots = ends
    for m in reversed(range(len(rates) - 1)):
        found = _zeros_between(ladder[m], rates[m:] - rates[m], knots)
        # A piece without a zero gets a knot at its end, which makes an empty piece on the next rung and does no harm.
        filled = np.where(np.isfinite(found), found, knots[1:])
        knots = np.concatenate([knots[:1], filled, knots[-1:]])
    return np.sort(found, axis=0)


def first_at_or_above(coefficients, rates, end, level=0.0):
    """First moment from 0 to `end` at which the sums are at or above `level`; infinity where they never are.

    Shapes as in `zeros`; the first rate has to be 0. A sum that starts above the level, or at it but for rounding,
    gives 0.

    >>> round(float(first_at_or_above([1.0, -1.0], [0.0, 1.0], np.inf, level=0.5)), 4)
    0.6931
    """
    coefficients, rates = np.broadcast_arrays(np.asarray(coefficients, dtype=float), rates)
    start = coefficients.sum(axis=-1) - level
    rounding = _AT_ONCE * (np.abs(coefficients).sum(axis=-1) + np.abs(level))
    found = np.where(start >= -rounding, 0.0, np.inf)
    end = np.broadcast_to(end, start.shape)
    # Only negative terms can raise a sum, each by as much as it fades. Mostly that shows at once that it stays below.
    faded = -np.expm1(-np.where(rates > 0, np.minimum(rates * _finite(end), _SETTLED), 0.0))
    may = (start < -rounding) & (start + (np.maximum(-coefficients, 0.0) * faded).sum(axis=-1) >= 0)
    if may.any():
        wanted = coefficients[may]
        wanted[:, 0] -= np.broadcast_to(level, start.shape)[may]
        found[may] = zeros(wanted, rates[may], end[may])[:, 0]
    return found[()]


def highest(coefficients, rates, end):
    """Greatest value of the sums from 0 to `end`, which may be infinite, to rounding; the first rate has to be 0.

    >>> round(float(highest([0.0, 1.0, -1.0], [0.0, 1.0, 2.0], np.inf)), 4)
    0.25
    """
    coefficients, rates = np.broadcast_arrays(np.asarray(coefficients, dtype=float), rates)
    moments = zeros(-rates[..., 1:] * coefficients[..., 1:], rates[..., 1:], end)
    end = np.broadcast_to(np.asarray(end, dtype=float), moments.shape[:-1])
    last = value(coefficients[..., 1:], rates[..., 1:], end) - coefficients[..., 1:].sum(axis=-1)
    top = np.array(np.maximum(last, 0.0))
    turns = np.isfinite(moments)
    if turns.any():
        place = turns.any(axis=-1)
        at = np.where(turns[place], moments[place], 0.0)
        fading = np.exp(-rates[place][:, np.newaxis, 1:] * at[..., np.newaxis])
        rises = np.einsum("nm,nkm->nk", coefficients[place][:, 1:], fading - 1.0).max(axis=-1)
        top[place] = np.maximum(top[place], rises)
    return (coefficients.sum(axis=-1) + top)[()]


def _finite(moments):
    # 0·1e300 stays 0 where 0·∞ would not.
    return np.minimum(moments, 1e300)[..., np.newaxis]


def _zeros_between(coefficients, rates, knots):
    """The zero inside each piece between knots, infinity where the ends have one sign; the first rate is 0."""
    signs = np.empty_like(knots)
    signs[0] = _signs(coefficients)
    for k in range(1, len(knots)):
        signs[k] = signs[k - 1]
        moved = np.flatnonzero(knots[k] != knots[k - 1])  # most pieces are empty
        if not moved.size:
            continue
        terms = coefficients[:, moved] * np.exp(-rates[:, moved] * knots[k, moved])
        here = _signs(terms)
        # Where rounding hides the sign at a knot, the knot belongs to the piece before it.
        signs[k, moved] = np.where(here == 0, signs[k - 1, moved], here)
    found = np.full(signs[1:].shape, np.inf)
    piece, sum_ = np.nonzero(signs[1:] * signs[:-1] < 0)
    if piece.size:
        low, high, rising = knots[piece, sum_], knots[piece + 1, sum_], signs[piece + 1, sum_] > 0
        found[piece, sum_] = _one_zero(coefficients[:, sum_], rates[:, sum_], low, high, rising)
    return found


def _signs(terms):
    total = terms.sum(axis=0)
    return np.where(np.abs(total) > _ROUNDING * np.abs(terms).sum(axis=0), np.sign(total), 0.0)


def _one_zero(coefficients, rates, low, high, rising):
    """Newton's method kept inside a shrinking bracket; every sixth step halves the bracket, so that it always ends.

    Newton's step is taken in exp(−ρ t), where ρ is the slowest rate above 0: late in time a sum is almost straight in
    it.
    """
    found = np.empty_like(low)
    left = np.arange(low.size)
    time = low + np.minimum((high - low) / 2, 1 / rates[1])
    for count in range(1, 300):
        terms = coefficients * np.exp(-rates * time)
        height = terms.sum(axis=0)
        found[left] = time
        go = (np.abs(height) > _ROUNDING * np.abs(terms).sum(axis=0)) & (high - low > 1e-15 * high)
        if not go.any():
            break
        if not go.all():
            left, time, low, high, rising, height = left[go], time[go], low[go], high[go], rising[go], height[go]
            coefficients, rates, terms = coefficients[:, go], rates[:, go], terms[:, go]
        after = (height > 0) == rising
        high, low = np.where(after, time, high), np.where(after, low, time)
        with np.errstate(all="ignore"):
            newton = time - np.log1p(-rates[1] * height / (terms * rates).sum(axis=0)) / rates[1]
        good = (newton >= low) & (newton <= high) & (count % 6 > 0)
        time = np.where(good, newton, (low + high) / 2)
    return found
