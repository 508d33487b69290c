"""What every thermometer of a log should have shown, from an engine's coefficients and the errors there may be.

This is the model that `log_fit` fits: the exact solution of the engine's network between readings, outside and heater
air changing evenly from one reading to the next.
"""

import numpy as np

from walkaround.numerics.least_squares import least_squares
from walkaround.physics.preheat.network import modes

LOSS, HEATING, LINK = "loss", "heating", "link"
STEPS_C = (1.0, 0.5, 0.1)  # in which thermometers in °C show, and
STEPS_F = (1.0, 0.5, 0.1)  # those in °F
_FARTHEST = np.log(1000.0)
_EDGE = 0.002
_LEAST_SCATTER_C = 0.01


class LogModel:
    """Temperatures at every reading of several logs, and errors over their sizes, from a batch of parameters.

    Parameters are the logarithm of how many times what they begin with loss and heating are; for the link, its share u
    in link/begin = u/(1 − u), so that a link too tight or too loose to tell changes the model evenly to the end; the
    temperatures at the first reading of each log; then the errors: of the thermometers in the parts, outside and in the
    heater's air in °C; and as logarithms those of the heat capacities and of the links with the metal but the oil's.

    >>> from walkaround.physics.preheat.engine import Engine, Part
    >>> from walkaround.physics.preheat.log import log_from_text
    >>> from walkaround.physics.preheat.log_fit import Errors
    >>> log = log_from_text("minutes,oil_c,metal_c,outside_c\\n0,40,40,0\\n60,30,28,0\\n120,22,20,0")
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> model = LogModel([log], engine, cover=False, wind_kt=0.0, errors=Errors(), step_c=1.0)
    >>> shown = 0.3 * model.weighed(scatter_c=0.3)(model.begin[np.newaxis])[0, : model.temperatures]
    >>> shown.round(1).tolist()  # metal, then oil
    [40.0, 27.1, 18.2, 40.0, 25.8, 17.3]
    >>> round(float(model.scatter(model.readings[: model.temperatures] - shown)), 2)
    4.67
    >>> best = model.fitted(model.begin, 0.3)[0]
    >>> model.interval(0, model.begin, half=np.log(2.0))
    (8.0, 4.0, 16.0, False)
    """

    def __init__(self, logs, engine, cover, wind_kt, errors, step_c):
        self.logs, self.engine, self.step_c = logs, engine, step_c
        self.heated = any(log.heater_on[:-1].any() for log in logs)
        self.names = [LOSS, HEATING, LINK] if self.heated else [LOSS, LINK]
        self.losses, shares = engine.losses_w_per_k(cover, wind_kt), engine.stacked("air_w_per_k")
        if self.losses.sum() == 0:
            raise ValueError("loss_w_per_k is 0 for every part; allowed: more than 0, to begin the search with")
        if self.heated and shares.sum() == 0:
            raise ValueError("air_w_per_k is 0 for every part; allowed: more than 0 for those that warm air reaches")
        self.shares = shares / max(shares.sum(), 1e-300)
        values = {LOSS: self.losses.sum(), HEATING: 0.6 * shares.sum(), LINK: float(engine.oil.to_metal_w_per_k)}
        self.values = np.array([values[name] for name in self.names])
        parts, count = len(engine.parts), len(self.names)
        read = np.concatenate([np.concatenate([log.parts_c[p] for p in engine.parts]) for log in logs])
        starts = np.concatenate([[log.parts_c[p][0] for p in engine.parts] for log in logs])
        sizes = [errors.probe_c] * parts + [errors.probe_c + step_c / 2] * (1 + self.heated)
        self.sizes = np.array(sizes + [-np.log1p(-errors.capacity)] * (2 * parts - 2))
        self.free = self.sizes > 0
        self.temperatures, self.of_readings = read.size, count + starts.size
        self.spare = read.size - self.of_readings
        errors_begin = np.zeros(np.count_nonzero(self.free))
        self.readings = np.concatenate([read, errors_begin])
        self.begin = np.concatenate([np.zeros(count - 1), [0.5], starts, errors_begin])
        farthest = 10 * self.sizes[self.free]
        self.low = np.concatenate([np.full(count - 1, -_FARTHEST), [_EDGE], starts - 300, -farthest])
        self.high = np.concatenate([np.full(count - 1, _FARTHEST), [1 - _EDGE], starts + 300, farthest])

    def fitted(self, begin, scatter_c):
        """Best parameters if a reading's standard deviation is `scatter_c`; weighed Jacobian and residuals."""
        return least_squares(self.weighed(scatter_c), begin, self.readings / scatter_c, self.low, self.high)

    def weighed(self, scatter_c):
        """The model as least squares take it: temperatures over their scatter, errors over their sizes."""

        def values(batch):
            given = np.zeros((len(batch), self.sizes.size))
            given[:, self.free] = batch[:, self.of_readings :]
            over_sizes = given[:, self.free] / self.sizes[self.free]
            return np.concatenate([self._temperatures(batch, given) / scatter_c, over_sizes], axis=1)

        return values

    def _temperatures(self, batch, errors):
        count, parts = len(self.names), len(self.engine.parts)
        values = self.values * _times(batch[:, :count])
        heating = values[:, 1] if self.heated else 0.0 * values[:, 0]
        times = np.exp(errors[:, -(2 * parts - 2) :])
        links = np.concatenate([values[:, -1:], self.engine.stacked("to_metal_w_per_k")[2:] * times[:, parts:]], axis=1)
        capacities = self.engine.stacked("heat_j_per_k") * times[:, :parts]
        network = _Network(self, values[:, 0], heating, links, capacities)
        starts = batch[:, count : self.of_readings].reshape(len(batch), len(self.logs), -1)
        outside_c, air_c = errors[:, parts], errors[:, parts + 1] if self.heated else 0.0 * errors[:, parts]
        found = []
        for i, log in enumerate(self.logs):
            true = network.temperatures(log, starts[:, i] - errors[:, :parts], outside_c, air_c)
            found.append((true + errors[:, :parts, np.newaxis]).reshape(len(batch), -1))
        return np.concatenate(found, axis=1)

    def scatter(self, residuals_c):
        """Standard deviation in °C of a reading, so that a run of equal readings counts as one."""
        parts = self.engine.parts
        runs = sum(1 + np.count_nonzero(np.diff(log.parts_c[part])) for log in self.logs for part in parts)
        found_c = np.sqrt(residuals_c @ residuals_c / self.spare)
        return max(found_c, self.step_c / np.sqrt(12), _LEAST_SCATTER_C) * np.sqrt(residuals_c.size / runs)

    def interval(self, i, parameters, half):
        """Coefficient number i, its interval, and whether that reaches the end of what is searched."""
        count = len(self.names)
        rows = np.tile(parameters[:count], (3, 1))
        rows[:, i] = np.clip(parameters[i] + np.array([0.0, -half, half]), self.low[i], self.high[i])
        middle, low, high = (float(v) for v in (self.values * _times(rows))[:, i])
        return middle, low, high, bool(rows[1, i] <= self.low[i] or rows[2, i] >= self.high[i])


def _times(parameters):
    """How many times what it begins with each coefficient is, from the parameters of the search."""
    share = parameters[..., -1:]
    return np.concatenate([np.exp(parameters[..., :-1]), share / (1 - share)], axis=-1)


def written_step_c(log):
    """Coarsest step in °C in which every temperature of a log is written; 0 if there is none.

    >>> from walkaround.physics.preheat.log import log_from_text
    >>> written_step_c(log_from_text("minutes,oil_c,metal_c,outside_c\\n0,40,38,0\\n60,30,28,-1"))
    1.0
    """
    values = np.concatenate([*log.parts_c.values(), log.outside_c, log.air_c[log.heater_on]])
    in_c = [(step_c, values / step_c) for step_c in STEPS_C]
    in_f = [(step_f / 1.8, (1.8 * values + 32) / step_f) for step_f in STEPS_F]
    for step_c, steps in sorted(in_c + in_f, key=lambda each: -each[0]):
        if np.allclose(steps, np.round(steps), rtol=0, atol=1e-6):
            return step_c
    return 0.0


class _Network:
    """The engine with a batch of coefficients and heat capacities."""

    def __init__(self, model, loss, heating, to_metal, capacities):
        links = np.zeros((*capacities.shape, capacities.shape[1]))
        links[:, 0, 1:] = links[:, 1:, 0] = to_metal
        self.losses = loss[:, np.newaxis] * model.losses / model.losses.sum()
        self.heating = heating[:, np.newaxis] * model.shares
        self.off = modes(capacities, links, self.losses)
        self.on = modes(capacities, links, self.losses + self.heating)

    def temperatures(self, log, start, outside_off_c, air_off_c):
        """Temperatures of the parts at the readings of a log, shape (batch, parts, readings).

        Thermometers outside and in the heater's air read `outside_off_c` and `air_off_c` too much, shape (batch,).
        """
        steps = 60 * np.diff(log.minutes)[:, np.newaxis, np.newaxis]
        outside = log.outside_c[:, np.newaxis, np.newaxis] - outside_off_c[:, np.newaxis]
        air = np.where(log.heater_on, log.air_c, 0.0)[:, np.newaxis, np.newaxis] - air_off_c[:, np.newaxis]
        # If the heater goes off at the next reading, the air stays as warm as it was until then.
        ends = np.where(log.heater_on[1:, np.newaxis, np.newaxis], air[1:], air[:-1])
        carried = []
        for network, heating in ((self.off, 0 * self.heating), (self.on, self.heating)):
            by_outside, by_air = network.driven_by(self.losses), network.driven_by(heating)
            first, last = by_outside * outside[:-1] + by_air * air[:-1], by_outside * outside[1:] + by_air * ends
            z = network.rates * steps
            whole = -np.expm1(-z) / z
            late = np.where(z < 1e-4, 0.5 - z / 6, (1 - whole) / z)
            carried.append((network, np.exp(-z), steps * (first * (whole - late) + last * late)))
        temperatures = [start]
        for k, on in enumerate(log.heater_on[:-1]):
            network, kept, gained = carried[int(on)]
            amounts = kept[k] * network.amounts(temperatures[-1]) + gained[k]
            temperatures.append(np.einsum("bpm,bm->bp", network.shapes, amounts))
        return np.stack(temperatures, axis=-1)
