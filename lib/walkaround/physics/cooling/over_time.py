"""How hot a running engine gets: at any moment of a flight made of stretches, and in the end."""

from dataclasses import dataclass

import numpy as np

from walkaround import checks
from walkaround.numerics.exponentials import first_at_or_above, value
from walkaround.physics.cooling.engine import PARTS
from walkaround.physics.preheat.network import Air, after, modes, rates_of, response


@dataclass(frozen=True)
class Run:
    """Every temperature of an engine from its start on, as `run` returns it: exact, a sum of exponentials a stretch.

    `begins` are the minutes at which stretches begin; the last one goes on for ever. `coefficients`, shape (..., parts,
    terms), and `rates`, shape (..., terms), hold the rises above the outside in each stretch.

    >>> from walkaround.physics.cooling import Engine, Setting, Stream
    >>> engine = Engine(180, 0.27, 0.16, 0.04, 30e3, 46e3, 11e3, 60, 250, 5,
    ...     Stream(3000, 700), Stream(1200, 330), at_kt=74, slipstream_kt=40, intake_ratio=1.2, leak=0.05, shared=0.5)
    >>> climb = run(engine, [(0.0, Setting(0.1, 0.0)), (6.0, Setting(1.0, 74.0))], outside_c=15.0)
    >>> climb.temperatures_c([6.0, 20.0]).round().tolist()
    [[92.0, 92.0, 51.0, 46.0], [153.0, 153.0, 101.0, 108.0]]
    >>> round(float(climb.reached_minutes("oil", 80.0)), 1), round(float(climb.temperature_c("oil", 8.3)))
    (8.3, 80)
    """

    begins: tuple
    outside_c: np.ndarray
    coefficients: tuple
    rates: tuple

    def temperatures_c(self, minutes):
        """Temperatures in °C at moments in minutes from 0 on (broadcast with the settings), parts on a new last axis.

        Raises ValueError for a moment before 0.
        """
        minutes = checks.numbers("minutes", minutes, low=0, unit="min")
        rises = None
        for begin, coefficients, rates in zip(self.begins, self.coefficients, self.rates, strict=True):
            # Before it begins, a stretch stands still at its beginning; what it gives there is not used.
            since = 60.0 * np.maximum(minutes - begin, 0.0)
            here = value(coefficients, rates[..., np.newaxis, :], since[..., np.newaxis])
            rises = here if rises is None else np.where((minutes >= begin)[..., np.newaxis], here, rises)
        return rises + self.outside_c[..., np.newaxis]

    def temperature_c(self, part, minutes):
        """Temperature in °C of one of `PARTS` at moments in minutes."""
        return self.temperatures_c(minutes)[..., _row(part)]

    def reached_minutes(self, part, limit_c):
        """First moment in minutes at which a part is as hot as a limit in °C; infinite if it never is (broadcasts)."""
        level = checks.numbers("limit_c", limit_c, -90, 1000, "°C") - self.outside_c
        found = np.inf
        ends = 60.0 * np.diff([*self.begins, np.inf])
        for begin, end, coefficients, rates in zip(self.begins, ends, self.coefficients, self.rates, strict=True):
            at = first_at_or_above(coefficients[..., _row(part), :] + 0 * level[..., np.newaxis], rates, end, level)
            found = np.minimum(found, begin + at / 60.0)
        return found


def run(engine, stretches, outside_c, start_c=None):
    """How hot an engine gets from its start on: a `Run`.

    `stretches` are (minutes at which it begins, `Setting`) pairs in order, the first at 0; `outside_c` is the
    temperature outside in °C, and `start_c` that of each part at first, shape (..., 4) in the order of `PARTS` (left
    out: as cold as the outside). Settings and temperatures broadcast. Raises ValueError for moments that don't rise
    from 0, or a temperature out of range.

    >>> from walkaround.physics.cooling import Engine, Setting, Stream
    >>> engine = Engine(180, 0.27, 0.16, 0.04, 30e3, 46e3, 11e3, 60, 250, 5,
    ...     Stream(3000, 700), Stream(1200, 330), at_kt=74, slipstream_kt=40, intake_ratio=1.2, leak=0.05, shared=0.5)
    >>> run(engine, [(0.0, Setting(1.0, 74.0))], outside_c=[0.0, 15.0]).temperature_c("left", 1.0).round()
    array([ 92., 107.])
    """
    outside = checks.numbers("outside_c", outside_c, -90, 60, "°C")
    begins = checks.increasing("stretches", [60.0 * begin for begin, _ in stretches]) / 60.0
    if begins[0] != 0:
        raise ValueError(f"the first of stretches begins at {begins[0]:g} min; allowed: 0 min")
    start = outside[..., np.newaxis] * np.ones(len(PARTS)) if start_c is None else np.asarray(start_c)
    start = checks.numbers("start_c", start, -90, 300, "°C")
    if start.shape[-1:] != (len(PARTS),):
        raise ValueError(f"start_c has shape {start.shape}; allowed: {len(PARTS)} temperatures on the last axis")
    capacities, coefficients, rates = engine.capacities_j_per_k, [], []
    rise = start - outside[..., np.newaxis]
    for (begin, setting), end in zip(stretches, [*begins[1:], np.inf], strict=True):
        losses = engine.losses_w_per_k(setting)
        network = modes(capacities, engine.links_w_per_k, losses)
        heat, no_air = network.driven_by(engine.heat_w(setting)), np.zeros(())
        amounts = network.amounts(rise)
        # Nothing blows in but what is as cold as the outside; its rate only has to differ from all the others.
        still = Air(no_air, no_air, 2 * network.rates[..., -1])
        given = (network, amounts, heat, np.zeros_like(heat), still)
        coefficients.append(response(*given)[..., : len(PARTS), :])
        rates.append(rates_of(network, still.rate))
        if np.isfinite(end):
            seconds = np.asarray(60.0 * (end - begin))
            rise = np.einsum("...pm,...m->...p", network.shapes, after(*given, seconds))
    return Run(tuple(begins.tolist()), outside, tuple(coefficients), tuple(rates))


def settled_c(engine, setting, outside_c):
    """Temperatures in °C at which the parts settle at a `Setting`, shape (..., 4): heat in equals heat out.

    >>> from walkaround.physics.cooling import Engine, Setting, Stream
    >>> engine = Engine(180, 0.27, 0.16, 0.04, 30e3, 46e3, 11e3, 60, 250, 5,
    ...     Stream(3000, 700), Stream(1200, 330), at_kt=74, slipstream_kt=40, intake_ratio=1.2, leak=0.05, shared=0.5)
    >>> settled_c(engine, Setting(1.0, 74.0, right_open=[1.0, 0.0]), 15.0).round().tolist()
    [[153.0, 153.0, 103.0, 111.0], [174.0, 277.0, 139.0, 153.0]]
    """
    outside = checks.numbers("outside_c", outside_c, -90, 60, "°C")
    losses, links = engine.losses_w_per_k(setting), engine.links_w_per_k
    conductances = np.eye(len(PARTS)) * (losses + links.sum(axis=-1))[..., np.newaxis] - links
    rises = np.linalg.solve(conductances, engine.heat_w(setting)[..., np.newaxis])[..., 0]
    return outside[..., np.newaxis] + rises


def _row(part):
    if part not in PARTS:
        raise ValueError(f"part {part!r} is not in the engine; allowed: {', '.join(PARTS)}")
    return PARTS.index(part)
