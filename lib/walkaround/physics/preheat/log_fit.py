"""Loss and heating coefficients of an engine from its thermometer log, with how sure they are.

The engine's heat capacities are taken from its file; what is fitted are the loss to the outside, what the
warm air gives the engine, and the link between oil and metal, by least squares on the exact solution between
readings. A log that can't tell one of them says so instead of naming a number.
"""

from dataclasses import dataclass, replace

import numpy as np

from walkaround import checks
from walkaround.numerics.least_squares import least_squares, standard_errors, student_t_95
from walkaround.physics.preheat.heat_transfer import FLOW_EXPONENT, flow_w_per_k
from walkaround.physics.preheat.network import modes

LOSS, HEATING, LINK = "loss", "heating", "link"
_LEAST_MOVE_C = 2.0
_WIDEST = 4.0  # from half to twice
_FARTHEST = np.log(1000.0)
_EDGE = 0.002
_WHAT_HELPS = {
    LOSS: "log the engine cooling by itself for an hour or more as well",
    HEATING: "log it with the heater on, from cold, and its air temperature with it",
    LINK: "log it while oil and metal are at different temperatures, such as soon after the heater is turned on or off",
}


class LogCannotTellError(ValueError):
    """A log that does not hold what is asked of it."""


@dataclass(frozen=True)
class Coefficient:
    """A fitted coefficient in W/K, with the interval that holds the true one 95 times in 100."""

    w_per_k: float
    low_w_per_k: float
    high_w_per_k: float


@dataclass(frozen=True)
class Fit:
    """A fit: coefficients by name, the engine with them put in, and how far readings and model are apart.

    "loss": of all parts together to the outside, as it was while logging; "heating": what warm air gives all parts
    for each K, at the flow of the log; "link": between oil and metal. `engine` carries the loss, and the heating
    if the flow was named. `residual_c`: root mean square of reading minus model. `cannot_tell`: what the log leaves
    open, in words; only the link may be, and the engine then keeps its own.
    """

    coefficients: dict
    engine: object
    residual_c: float
    readings: int
    cannot_tell: tuple = ()


def fit(logs, engine, flow_m3_h=None, cover=False, wind_kt=0.0):
    """Fit loss, heating and link to one or several thermometer logs of an engine: a `Fit`.

    Parameters: `logs`, a `thermometer_log.Log` or a list of them; `engine`, a `preheat.Engine` whose heat
    capacities hold and whose coefficients are where the search begins; `flow_m3_h`, the heater's flow, if it is
    known; `cover` and `wind_kt`, how it stood while logging.

    Between two readings outside and heater air are taken to go straight from one value to the next. Least
    squares by Gauss and Newton, damped after Levenberg and Marquardt, with the temperatures at the first reading
    as unknowns too; the interval is the one of Student's t with the covariance s² (JᵀJ)⁻¹ (G. A. F. Seber and
    C. J. Wild, Nonlinear Regression). It trusts that the reading errors are independent and the model is right.

    Raises LogCannotTellError, a ValueError, for a log that is too short or too flat, or that leaves loss or heating
    open by more than a factor of two. The link may stay open: most logs say little about it.
    """
    logs = [logs] if hasattr(logs, "parts_c") else list(logs)
    for log in logs:
        _check(log, engine)
    heated = any(log.heater_on[:-1].any() for log in logs)
    names = [LOSS, HEATING, LINK] if heated else [LOSS, LINK]
    losses = engine.losses_w_per_k(cover, wind_kt)
    shares = engine.stacked("air_w_per_k")
    if losses.sum() == 0:
        raise ValueError("loss_w_per_k is 0 for every part; allowed: more than 0, to begin the search with")
    if heated and shares.sum() == 0:
        raise ValueError("air_w_per_k is 0 for every part; allowed: more than 0 for those that the warm air reaches")
    shares = shares / max(shares.sum(), 1e-300)
    begin = [losses.sum(), 0.6 * engine.stacked("air_w_per_k").sum(), float(engine.oil.to_metal_w_per_k)]
    begin = np.array(begin if heated else [begin[0], begin[2]])
    count = len(names)
    # Loss and heating as logarithms of how many times what they begin with; the link as its share u, for
    # link/begin = u/(1 − u): a link too tight or too loose to tell then changes the model evenly to the end.
    parameters = np.concatenate(
        [[0.0] * (count - 1), [0.5], *([log.parts_c[p][0] for p in engine.parts] for log in logs)]
    )
    low = np.concatenate([[-_FARTHEST] * (count - 1), [_EDGE], parameters[count:] - 300])
    high = np.concatenate([[_FARTHEST] * (count - 1), [1 - _EDGE], parameters[count:] + 300])
    readings = np.concatenate([np.concatenate([log.parts_c[p] for p in engine.parts]) for log in logs])
    spare = readings.size - parameters.size
    if spare < 3:
        raise LogCannotTellError(
            f"{readings.size} temperatures can't tell {parameters.size} unknowns; log more readings"
        )

    def model(batch):
        values = begin * _times(batch[:, :count])
        heating = values[:, 1] if heated else 0.0 * values[:, 0]
        worked = _Network(engine, values[:, 0], heating, values[:, -1], losses / losses.sum(), shares)
        starts = batch[:, count:].reshape(len(batch), len(logs), -1)
        return np.concatenate([worked.temperatures(log, starts[:, i]) for i, log in enumerate(logs)], axis=1)

    parameters, jacobian, residuals = least_squares(model, parameters, readings, low, high)
    half = student_t_95(spare) * standard_errors(jacobian, residuals)[:count]
    found, open_ = {}, []
    inside = [np.clip(parameters[:count] + shift, low[:count], high[:count]) for shift in (0.0, -half, half)]
    at_edge = (inside[1] <= low[:count]) | (inside[2] >= high[:count])
    middle, least, most = (begin * _times(i) for i in inside)
    for i, name in enumerate(names):
        if not at_edge[i] and most[i] <= _WIDEST * least[i]:
            found[name] = Coefficient(float(middle[i]), float(least[i]), float(most[i]))
        elif name == LINK:
            open_.append(_cannot_tell(name))
        else:
            raise LogCannotTellError(_cannot_tell(name))
    rms = float(np.sqrt(np.mean(residuals**2)))
    return Fit(found, _engine_with(engine, found, losses, flow_m3_h), rms, int(readings.size), tuple(open_))


def fit_words(result):
    """Say what a fit found, a line for each coefficient."""
    says = {LOSS: "loss to the outside", HEATING: "heating by the warm air", LINK: "link between oil and metal"}
    lines = [
        f"{says[name]}: {c.w_per_k:.3g} W/K, with 95 % confidence between {c.low_w_per_k:.3g} and {c.high_w_per_k:.3g}"
        for name, c in result.coefficients.items()
    ]
    lines += result.cannot_tell
    return "\n".join(
        [*lines, f"readings and model are {result.residual_c:.2f} °C apart, over {result.readings} readings"]
    )


def _times(parameters):
    """How many times what it begins with each coefficient is, from the parameters of the search."""
    share = parameters[..., -1:]
    return np.concatenate([np.exp(parameters[..., :-1]), share / (1 - share)], axis=-1)


class _Network:
    """The engine with a batch of coefficients tried at once."""

    def __init__(self, engine, loss, heating, link, loss_shares, air_shares):
        links = np.zeros((link.size, *engine.links_w_per_k.shape)) + engine.links_w_per_k
        links[:, 0, 1] = links[:, 1, 0] = link
        self.losses = loss[:, np.newaxis] * loss_shares
        self.heating = heating[:, np.newaxis] * air_shares
        capacities = engine.stacked("heat_j_per_k")
        self.off = modes(capacities, links, self.losses)
        self.on = modes(capacities, links, self.losses + self.heating)

    def temperatures(self, log, start):
        """Temperatures at the readings of a log, shape (batch, parts · readings)."""
        steps = 60 * np.diff(log.minutes)
        begins = np.where(log.heater_on, log.air_c, log.outside_c)[:-1]
        # Where the heater goes off at the next reading the air stays as warm as it was until then.
        ends = np.where(log.heater_on[1:], log.air_c[1:], begins)
        carried = []
        for network, heating in ((self.off, 0 * self.heating), (self.on, self.heating)):
            driven = network.driven_by(self.losses), network.driven_by(heating)
            first = (
                driven[0] * log.outside_c[:-1, np.newaxis, np.newaxis] + driven[1] * begins[:, np.newaxis, np.newaxis]
            )
            last = driven[0] * log.outside_c[1:, np.newaxis, np.newaxis] + driven[1] * ends[:, np.newaxis, np.newaxis]
            z = network.rates * steps[:, np.newaxis, np.newaxis]
            whole = -np.expm1(-z) / z
            late = np.where(z < 1e-4, 0.5 - z / 6, (1 - whole) / z)
            gained = steps[:, np.newaxis, np.newaxis] * (first * (whole - late) + last * late)
            carried.append((network, np.exp(-z), gained))
        temperatures = [start]
        for k, on in enumerate(log.heater_on[:-1]):
            network, kept, gained = carried[int(on)]
            amounts = kept[k] * network.amounts(temperatures[-1]) + gained[k]
            temperatures.append(np.einsum("bpm,bm->bp", network.shapes, amounts))
        return np.stack(temperatures, axis=-1).reshape(len(start), -1)


def _check(log, engine):
    wrong = [part for part in engine.parts if part not in log.parts_c]
    if wrong:
        raise ValueError(
            f"{log.name}: column {wrong[0]}_c is missing, which this engine has apart; allowed: every part logged"
        )
    checks.numbers("minutes", log.minutes)
    if log.minutes.size < 5:
        raise LogCannotTellError(
            f"{log.name}: {log.minutes.size} readings can't tell anything; allowed: 5 or more, over an hour or so"
        )
    move = max(np.ptp(log.parts_c[part]) for part in engine.parts)
    if move < _LEAST_MOVE_C:
        raise LogCannotTellError(
            f"{log.name}: the log can't tell: no temperature moves by more than {move:.1f} °C; log while the engine "
            "warms or cools by many degrees"
        )


def _cannot_tell(name):
    says = {
        LOSS: "how much the engine loses",
        HEATING: "how much the warm air gives",
        LINK: "the link between oil and metal",
    }
    return f"the log can't tell {says[name]} to within a factor of two: {_WHAT_HELPS[name]}"


def _engine_with(engine, found, losses, flow_m3_h):
    """The engine with the fitted coefficients in place of its own."""
    more_loss = found[LOSS].w_per_k / losses.sum()
    more_air = 1.0
    if HEATING in found and flow_m3_h is not None:
        checks.numbers("flow_m3_h", flow_m3_h, above=0, unit="m³/h")
        carries = float(flow_w_per_k(flow_m3_h))
        if found[HEATING].w_per_k >= carries:
            raise ValueError(
                f"flow_m3_h is {flow_m3_h:g} m³/h, which carries {carries:.0f} W for each K, but the log shows "
                f"{found[HEATING].w_per_k:.0f} W/K in the engine; allowed: the flow that the heater really moved"
            )
        conductance = -np.log1p(-found[HEATING].w_per_k / carries) * carries
        at_engine_flow = conductance * (engine.air_flow_m3_h / flow_m3_h) ** FLOW_EXPONENT
        more_air = at_engine_flow / engine.stacked("air_w_per_k").sum()
    parts = {}
    for name in engine.parts:
        part = getattr(engine, name)
        parts[name] = replace(
            part, loss_w_per_k=float(part.loss_w_per_k * more_loss), air_w_per_k=float(part.air_w_per_k * more_air)
        )
    if LINK in found:
        parts["oil"] = replace(parts["oil"], to_metal_w_per_k=found[LINK].w_per_k)
    return replace(engine, **parts)
