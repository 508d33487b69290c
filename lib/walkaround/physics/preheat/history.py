"""How warm each part of an engine is at any moment, and when it is ready.

A `History` holds the exact solution that `preheat.warming` made: until the thermostat first switches off, one
sum of exponentials for each temperature; from then on a sum that repeats with every cycle plus a remainder
that fades. So any moment is worked out directly, hours of cycling like the first minute.
"""

from dataclasses import dataclass, fields, replace

import numpy as np

from walkaround import checks
from walkaround.numerics.broadcasting import pick
from walkaround.numerics.cycles import first_in_cycles
from walkaround.numerics.exponentials import first_at_or_above, integral
from walkaround.physics.preheat.air_heater import Cycle

AIR = "air"
_TOUCHES_C = 1e-6


@dataclass(frozen=True)
class History:
    """Every temperature from a first moment on. Made by `preheat.warming`.

    Moments are minutes from 0 on, of any shape that broadcasts with the settings: for a curve of each of
    several settings give the moments an axis of their own in front, `minutes[:, np.newaxis]`.
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

    def setting(self, index):
        """The history of one of several settings, if they have shape (n,)."""
        own_axes = {"rates": 1, "capacities_j_per_k": 1, "losses_w_per_k": 1, "heating_w_per_k": 1}
        arrays = {
            f.name: pick(getattr(self, f.name), index, own_axes.get(f.name, 0))
            for f in fields(self)
            if f.name not in ("parts", "stages", "fading", "cycle")
        }
        return replace(
            self,
            **arrays,
            stages=tuple(pick(stage, index, 2) for stage in self.stages),
            fading=None if self.fading is None else pick(self.fading, index, 2),
            cycle=self.cycle and self.cycle.setting(index),
        )

    def temperature_c(self, part, minutes):
        """Temperature in °C of a part, or of the "air" that leaves the heater, after so many minutes."""
        return self.temperatures_c(minutes)[..., self._row(part)]

    def temperatures_c(self, minutes):
        """Temperatures in °C of all parts and of the heater's air, in this order on a new last axis."""
        seconds = _seconds(minutes)
        first, since, phase = self._when(seconds)
        rises = self._sum(self.stages[0], first)
        if self.cycle is not None:
            off = np.minimum(phase, self.cycle.off_s)
            in_cycle = np.where(
                (phase < self.cycle.off_s)[..., np.newaxis],
                self._sum(self.stages[1], off),
                self._sum(self.stages[2], phase - off),
            )
            fading = np.exp(-self.rates[..., 2:] * since[..., np.newaxis])
            in_cycle[..., :-1] += np.einsum("...pm,...m->...p", self.fading, fading)
            rises = np.where((since > 0)[..., np.newaxis], in_cycle, rises)
        return rises + self.outside_c[..., np.newaxis]

    def at(self, minutes):
        """Temperatures in °C by part after so many minutes, as `preheat.warming` takes them for its start."""
        temperatures = self.temperatures_c(minutes)
        return {part: temperatures[..., i] for i, part in enumerate(self.parts)}

    def reached_minutes(self, part, temperature_c):
        """First moment in minutes at which a part is at or above a temperature in °C; infinite if it never is."""
        return self._reached_s([part], [temperature_c])[0] / 60

    def ready_minutes(self, ready_c):
        """First moment in minutes by which every part has reached its temperature in °C, infinite if never.

        `ready_c` is a dict by part; cylinders that are not in it have to be as warm as the metal.
        """
        return np.max(list(self.reached_by_part(ready_c).values()), axis=0)

    def reached_by_part(self, ready_c):
        """First moment in minutes at which each part has reached its temperature in °C, a dict by part."""
        wanted = ready_by_part(self.parts, ready_c)
        return dict(zip(wanted, self._reached_s(list(wanted), list(wanted.values())) / 60, strict=True))

    def settles_c(self, part):
        """Temperature in °C at which a part settles in the end; where it ripples with the thermostat, the mean of a cycle."""
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

        Zero where a part is too cold to begin with, infinite where none ever gets too cold. For an engine that is
        left alone (no heater with a thermostat running).
        """
        if self.cycle is not None:
            raise ValueError("a heater is running; allowed: the history of an engine without an air heater")
        wanted = ready_by_part(self.parts, ready_c)
        # A part that has just reached its temperature is ready, though rounding may put it a hair below.
        levels = [np.asarray(c - self.outside_c - _TOUCHES_C) for c in wanted.values()]
        falling = np.moveaxis(-self.stages[0][..., : len(self.parts), :], -2, 0)
        levels = np.stack([np.broadcast_to(level, self.shape) for level in levels])
        return first_at_or_above(falling, self.rates, np.inf, -levels).min(axis=0) / 60

    def on_minutes(self, minutes):
        """How long in minutes the element has been on during the first so many minutes."""
        if self.cycle is None:
            return np.zeros_like(np.asarray(minutes, dtype=float))
        c = self.cycle
        first, since, phase = self._when(_seconds(minutes))
        cycling = (since - phase) / c.period_s * np.where(np.isfinite(c.on_s), c.on_s, 0.0)
        cycling += np.maximum(phase - c.off_s, 0.0)
        return (first + np.where(c.held, since * c.duty, cycling)) / 60

    def switchings_minutes(self, until_minutes):
        """Moments in minutes at which the element switches, off first; of one setting, up to a moment."""
        if self.cycle is None:
            return np.zeros(0)
        c, until = self.cycle, float(_seconds(until_minutes))
        if c.off_at.size != 1:
            raise ValueError(f"there are {c.off_at.size} settings; allowed: the history of one")
        off, period = (float(np.ravel(s)[0]) for s in (c.first_off_s, c.period_s))
        if off > until:
            return np.zeros(0)
        if not np.isfinite(period):
            return np.zeros(0) if np.all(c.held) else np.array([off / 60])
        offs = off + period * np.arange(int((until - off) / period) + 1)
        moments = np.sort(np.concatenate([offs, offs + float(np.ravel(c.off_s)[0])]))
        return moments[moments <= until] / 60

    def areas_k_s(self, minutes):
        """Integrals in K·s of how far all parts and the heater's air are above the outside, on a new last axis."""
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
        """Time on the first way up, time since then, and time since the cycle began in which it lies."""
        if self.cycle is None:
            return seconds, np.zeros_like(seconds), np.zeros_like(seconds)
        since = np.maximum(seconds - self.cycle.first_off_s, 0.0)
        return np.minimum(seconds, self.cycle.first_off_s), since, np.fmod(since, self.cycle.period_s)

    def _sum(self, coefficients, seconds):
        fading = np.exp(-self.rates * seconds[..., np.newaxis])
        return np.einsum("...pm,...m->...p", coefficients, fading)

    def _reached_s(self, parts, temperatures_c):
        """First moment in s at which each of several parts is at or above its temperature, parts on the first axis."""
        named = [
            checks.numbers(f"{p} temperature", c, -90, 300, "°C") for p, c in zip(parts, temperatures_c, strict=True)
        ]
        shape = np.broadcast_shapes(self.shape, *(c.shape for c in named))
        # A hair below counts as reached, so that a part that starts at its temperature does not miss it by rounding.
        wanted = np.stack([np.broadcast_to(c - self.outside_c - _TOUCHES_C, shape) for c in named]).ravel()
        rows = [self._row(part) for part in parts]

        def spread(values, axes=0):
            # The same for every part: settings in the order of `wanted`.
            values = np.broadcast_to(values, (len(rows), *shape, *np.shape(values)[np.ndim(values) - axes :]))
            return values.reshape(wanted.size, *values.shape[1 + len(shape) :])

        def of_rows(coefficients):
            each = [np.broadcast_to(coefficients[..., r, :], (*shape, coefficients.shape[-1])) for r in rows]
            return np.stack(each).reshape(wanted.size, -1)

        rates = spread(self.rates, 1)
        until = np.inf if self.cycle is None else spread(self.cycle.first_off_s)
        found = first_at_or_above(of_rows(self.stages[0]), rates, until, wanted)
        if self.cycle is not None:
            later = np.isinf(found) & np.isfinite(until)
            if later.any():
                fading = np.zeros((*self.shape, len(self.parts) + 1, self.rates.shape[-1]))
                fading[..., :-1, 2:] = self.fading
                off, on, fading = (of_rows(c)[later] for c in (*self.stages[1:], fading))
                off_s, on_s = spread(self.cycle.off_s)[later], spread(self.cycle.on_s)[later]
                found[later] = until[later] + first_in_cycles(rates[later], off, on, fading, off_s, on_s, wanted[later])
        return found.reshape(len(rows), *shape)


def ready_by_part(parts, ready_c):
    """Temperature in °C that each part has to reach; cylinders left out have to be as warm as the metal.

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
