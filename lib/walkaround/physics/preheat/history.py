"""How warm each part of an engine is at any moment, and when all of them are warm enough.

A `History` holds the exact solution that `engine.warming` finds: until the thermostat first switches off, one sum of
exponentials for each temperature; from then on, a sum that repeats with every cycle plus a remainder that fades. So any
moment is computed directly, after hours of cycling as easily as in the first minute.
"""

from dataclasses import dataclass

import numpy as np

from walkaround import checks
from walkaround.numerics.cycles import first_in_cycles
from walkaround.numerics.exponentials import first_at_or_above, integral
from walkaround.physics.preheat.air_heater import Cycle
from walkaround.units import KELVIN_AT_0C

AIR = "air"
# Temperatures in °C are differences of absolute ones, which give the size for their slack. A search for the moment at
# which a part is warm enough aims a quarter of the slack below the temperature wanted, one for the moment at which it
# no longer is three quarters. So at both moments it is warm enough, however they are rounded, and at the first one it
# still stays so.
_SLACK_C = checks.SLACK * KELVIN_AT_0C
_WARM_C, _COOL_C = 0.25 * _SLACK_C, 0.75 * _SLACK_C


def warm_enough(temperature_c, wanted_c):
    """Whether a temperature in °C is at or above the one wanted, rounding aside (shapes broadcast).

    >>> warm_enough([9.9, 10.0, 10.1], 10.0).tolist()
    [False, True, True]
    """
    return checks.at_least(temperature_c, wanted_c, size=KELVIN_AT_0C)


@dataclass(frozen=True)
class History:
    """Every temperature from a first moment on, as `engine.warming` returns it.

    Moments are minutes from 0 on, of any shape that broadcasts with the settings. For a curve of each of several
    settings give the moments an axis of their own in front: `minutes[:, np.newaxis]`.

    >>> from walkaround.physics.preheat.engine import Engine, Part, SumpPad, warming
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> padded = warming(engine, -10.0, pad=SumpPad(250.0))
    >>> round(float(padded.temperature_c("oil", 60.0)), 1), padded.temperatures_c(60.0).round(1).tolist()
    (8.2, [-1.6, 8.2, -10.0])
    >>> after_an_hour = padded.at(60.0)
    >>> {part: round(float(minutes)) for part, minutes in padded.reached_by_part({"oil": 10.0, "metal": 5.0}).items()}
    {'metal': 118, 'oil': 74}
    >>> round(float(padded.reached_minutes("metal", 10.0))), round(float(padded.settles_c("metal")))
    (184, 19)
    >>> padded.areas_k_s(60.0).round(-2).tolist()
    [14500.0, 44000.0, 0.0]
    >>> padded.on_minutes(60.0), padded.switchings_minutes(60.0)  # a pad has no thermostat
    (array(0.), array([], dtype=float64))
    """

    parts: tuple
    outside_c: np.ndarray
    rates: np.ndarray  # (..., terms), 1/s: constant, air, then modes
    stages: tuple  # coefficients (..., parts + air, terms): first way up; then, in a cycle, off and on
    fading: np.ndarray | None  # coefficients (..., parts, modes) of what fades beside the cycle
    cycle: Cycle | None
    capacities_j_per_k: np.ndarray
    losses_w_per_k: np.ndarray
    heating_w_per_k: np.ndarray
    flow_w_per_k: np.ndarray
    core_j_per_k: np.ndarray
    power_w: np.ndarray
    fan_w: np.ndarray
    pad_w: np.ndarray

    @property
    def shape(self):
        """Shape of the settings, all broadcast together."""
        return np.broadcast_shapes(self.outside_c.shape, *(stage.shape[:-2] for stage in self.stages))

    def temperature_c(self, part, minutes):
        """Temperature in °C of a part, or of the "air" that leaves the heater, at moments in minutes."""
        return self.temperatures_c(minutes)[..., self._row(part)]

    def temperatures_c(self, minutes):
        """Temperatures in °C at moments in minutes: all parts, then the heater's air, on a new last axis."""
        seconds = _seconds(minutes)
        first, since, phase = self._when(seconds)
        rises = self._sum(self.stages[0], first)
        if self.cycle is not None:
            off = np.minimum(phase, self.cycle.off_s)
            still_off = (phase < self.cycle.off_s)[..., np.newaxis]
            in_cycle = np.where(still_off, self._sum(self.stages[1], off), self._sum(self.stages[2], phase - off))
            fading = np.exp(-self.rates[..., 2:] * since[..., np.newaxis])
            in_cycle[..., :-1] += np.einsum("...pm,...m->...p", self.fading, fading)
            rises = np.where((since > 0)[..., np.newaxis], in_cycle, rises)
        return rises + self.outside_c[..., np.newaxis]

    def at(self, minutes):
        """Temperatures in °C at moments in minutes, a dict by part that `engine.warming` takes as its start."""
        temperatures = self.temperatures_c(minutes)
        return {part: temperatures[..., i] for i, part in enumerate(self.parts)}

    def reached_minutes(self, part, temperature_c):
        """First moment in minutes at which a part is at or above a temperature in °C; infinite if it never is."""
        return self._next_s([part], [temperature_c])[0] / 60

    def ready_minutes(self, ready_c, reached=None):
        """First moment in minutes at which all parts are at or above their temperatures at once; infinite if never.

        A part that was warm enough before and has cooled by that moment is not ready: all wait until it has warmed up
        again. `ready_c` is a dict in °C by part; cylinders that are not in it have to be as warm as the metal.
        `reached` is what `reached_by_part` returns, if it is at hand: it saves half of the search.

        >>> from walkaround.physics.preheat.engine import Engine, Part, SumpPad, warming
        >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
        >>> warm_oil = warming(engine, -10.0, pad=SumpPad(250.0), start_c={"oil": 12.0, "metal": -10.0})
        >>> {part: round(float(m)) for part, m in warm_oil.reached_by_part({"oil": 10.0, "metal": -8.0}).items()}
        {'metal': 6, 'oil': 0}
        >>> round(float(warm_oil.ready_minutes({"oil": 10.0, "metal": -8.0})))  # by then the oil is too cold again
        55
        """
        wanted = ready_by_part(self.parts, ready_c)
        parts, temperatures = list(wanted), list(wanted.values())
        moment = 60 * np.max(list((reached or self.reached_by_part(ready_c)).values()), axis=0)
        # After this a cycle only repeats: parts that take turns in it will never be warm together. By
        # then nothing is left of what fades: exp(−40) is below the last digit of any temperature.
        fading_s, c = 40.0 / self.rates[..., 2:].min(axis=-1), self.cycle
        settled_s = np.inf if c is None else c.first_off_s + c.period_s + fading_s
        while True:
            comes = np.isfinite(moment)
            now = self.temperatures_c(np.where(comes, moment, 0.0) / 60)
            warm = np.stack([warm_enough(now[..., self._row(part)], c) for part, c in wanted.items()])
            cold = comes & ~warm.all(axis=0)
            if not cold.any():
                return moment / 60
            later = self._next_s(parts, temperatures, np.where(cold, moment, 0.0))
            later = np.where(warm, moment, later).max(axis=0)
            moment = np.where(cold, np.where(moment > settled_s, np.inf, later), moment)

    def reached_by_part(self, ready_c):
        """First moment in minutes at which each part by itself is at or above its temperature in °C, a dict by part."""
        wanted = ready_by_part(self.parts, ready_c)
        return dict(zip(wanted, self._next_s(list(wanted), list(wanted.values())) / 60, strict=True))

    def settles_c(self, part):
        """Temperature in °C at which a part settles in the end; the mean of a cycle if a thermostat switches."""
        row = self._row(part)
        rise = self.stages[0][..., row, 0]
        if self.cycle is not None:
            c, cycles = self.cycle, np.isfinite(self.cycle.period_s)
            off_s, on_s = np.where(cycles, c.off_s, 0.0), np.where(cycles, c.on_s, 1.0)
            areas = (integral(self.stages[k][..., row, :], self.rates, s) for k, s in ((1, off_s), (2, on_s)))
            rippling = np.where(cycles, sum(areas) / (off_s + on_s), self.stages[1][..., row, 0])
            rise = np.where(np.isfinite(c.first_off_s), rippling, rise)
        return rise + self.outside_c

    def stays_minutes(self, ready_c):
        """How long in minutes every part stays at or above its temperature in °C, from the first moment on.

        Zero where a part is too cold to begin with, infinite where none ever gets too cold. For an engine on which no
        air heater runs.

        >>> from walkaround.physics.preheat.engine import Engine, Part, warming
        >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
        >>> round(float(warming(engine, -10.0, start_c=20.0).stays_minutes({"oil": 10.0, "metal": 5.0})))
        55
        """
        if self.cycle is not None:
            raise ValueError("a heater is running; allowed: the history of an engine without an air heater")
        wanted = ready_by_part(self.parts, ready_c)
        levels = [np.asarray(c - self.outside_c - _COOL_C) for c in wanted.values()]
        falling = np.moveaxis(-self.stages[0][..., : len(self.parts), :], -2, 0)
        levels = np.stack([np.broadcast_to(level, self.shape) for level in levels])
        return first_at_or_above(falling, self.rates, np.inf, -levels).min(axis=0) / 60

    def on_minutes(self, minutes):
        """How long in minutes the element has been on by moments in minutes."""
        if self.cycle is None:
            return np.zeros_like(np.asarray(minutes, dtype=float))
        c = self.cycle
        first, since, phase = self._when(_seconds(minutes))
        cycling = (since - phase) / c.period_s * np.where(np.isfinite(c.on_s), c.on_s, 0.0)
        cycling += np.maximum(phase - c.off_s, 0.0)
        return (first + np.where(c.held, since * c.duty, cycling)) / 60

    def switchings_minutes(self, until_minutes):
        """Moments in minutes, up to a last one, at which the element switches, off first; for one setting only."""
        if self.cycle is None:
            return np.zeros(0)
        c, until = self.cycle, float(_seconds(until_minutes))
        if c.off_at.size != 1:
            raise ValueError(f"there are {c.off_at.size} settings; allowed: the history of one")
        off, period = (float(np.ravel(s)[0]) for s in (c.first_off_s, c.period_s))
        if not checks.at_most(off, until):
            return np.zeros(0)
        if not np.isfinite(period):
            return np.zeros(0) if np.all(c.held) else np.array([off / 60])
        offs = off + period * np.arange(int((until - off) / period + checks.SLACK) + 1)
        moments = np.sort(np.concatenate([offs, offs + float(np.ravel(c.off_s)[0])]))
        return moments[checks.at_most(moments, until)] / 60

    def areas_k_s(self, minutes):
        """Integrals in K·s, up to moments in minutes, of how far each temperature is above the outside.

        All parts, then the heater's air, on a new last axis.
        """
        seconds = _seconds(minutes)

        def area(coefficients, rates, until):
            return integral(coefficients, rates[..., np.newaxis, :], np.asarray(until)[..., np.newaxis])

        first, since, phase = self._when(seconds)
        total = area(self.stages[0], self.rates, first)
        if self.cycle is None:
            return total
        c = self.cycle
        off = np.minimum(phase, c.off_s)
        total = total + area(self.stages[1], self.rates, off) + area(self.stages[2], self.rates, phase - off)
        cycles = np.round((since - phase) / c.period_s)[..., np.newaxis]
        whole_off, whole_on = (np.where(np.isfinite(c.period_s), s, 0.0) for s in (c.off_s, c.on_s))
        whole = area(self.stages[1], self.rates, whole_off) + area(self.stages[2], self.rates, whole_on)
        total = total + cycles * whole
        total[..., :-1] += area(self.fading, self.rates[..., 2:], since)
        return total

    def _row(self, part):
        names = (*self.parts, AIR)
        if part not in names:
            raise ValueError(f"part is {part!r}; allowed: {', '.join(names)}")
        return names.index(part)

    def _when(self, seconds):
        """Time before the first switching off, time since then, and time since its cycle began."""
        if self.cycle is None:
            return seconds, np.zeros_like(seconds), np.zeros_like(seconds)
        since = np.maximum(seconds - self.cycle.first_off_s, 0.0)
        return np.minimum(seconds, self.cycle.first_off_s), since, np.fmod(since, self.cycle.period_s)

    def _sum(self, coefficients, seconds):
        fading = np.exp(-self.rates * seconds[..., np.newaxis])
        return np.einsum("...pm,...m->...p", coefficients, fading)

    def _next_s(self, parts, temperatures_c, start_s=0.0):
        """First moment in s from `start_s` on at which each part by itself is at or above its temperature.

        Parts on the first axis; `start_s` broadcasts with the settings.
        """
        named = [
            checks.numbers(f"{p} temperature", c, -90, 300, "°C") for p, c in zip(parts, temperatures_c, strict=True)
        ]
        shape = np.broadcast_shapes(self.shape, np.shape(start_s), *(c.shape for c in named))
        wanted = np.stack([np.broadcast_to(c - self.outside_c - _WARM_C, shape) for c in named]).ravel()
        rows = [self._row(part) for part in parts]

        def spread(values, axes=0):
            # The same for every part: settings in the order of `wanted`.
            values = np.broadcast_to(values, (len(rows), *shape, *np.shape(values)[np.ndim(values) - axes :]))
            return values.reshape(wanted.size, *values.shape[1 + len(shape) :])

        def of_rows(coefficients):
            each = [np.broadcast_to(coefficients[..., r, :], (*shape, coefficients.shape[-1])) for r in rows]
            return np.stack(each).reshape(wanted.size, -1)

        rates, start = spread(self.rates, 1), spread(start_s)
        until = np.inf if self.cycle is None else spread(self.cycle.first_off_s)
        passed = np.minimum(start, until)
        first = of_rows(self.stages[0]) * np.exp(-rates * passed[:, np.newaxis])
        found = passed + first_at_or_above(first, rates, until - passed, wanted)
        if self.cycle is not None:
            later = (np.isinf(found) | (found < start)) & np.isfinite(until)
            if later.any():
                fading = np.zeros((*self.shape, len(self.parts) + 1, self.rates.shape[-1]))
                fading[..., :-1, 2:] = self.fading
                off, on, fading = (of_rows(c)[later] for c in (*self.stages[1:], fading))
                off_s, on_s = spread(self.cycle.off_s)[later], spread(self.cycle.on_s)[later]
                since = np.maximum(start - until, 0.0)[later]
                found[later] = until[later] + first_in_cycles(
                    rates[later], off, on, fading, off_s, on_s, wanted[later], since
                )
        return found.reshape(len(rows), *shape)


def ready_by_part(parts, ready_c):
    """Temperature in °C that each part needs; cylinders that are left out have to be as warm as the metal.

    >>> ready_by_part(("metal", "oil", "cylinders"), {"oil": 20.0, "metal": 10.0})
    {'metal': 10.0, 'oil': 20.0, 'cylinders': 10.0}
    """
    wanted = {"cylinders": ready_c.get("metal"), **ready_c}
    missing = [part for part in parts if wanted.get(part) is None]
    unknown = [part for part in ready_c if part not in ("metal", "oil", "cylinders")]
    if missing or unknown:
        raise ValueError(f"ready_c has {', '.join(ready_c) or 'nothing'}; allowed: {', '.join(parts)}")
    return {part: wanted[part] for part in parts}


def _seconds(minutes):
    return 60 * checks.numbers("minutes", minutes, low=0, unit="min")
