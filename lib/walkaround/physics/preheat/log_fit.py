"""Loss and heating coefficients of an engine from its thermometer log, and how sure they are.

What is fitted are the loss to the outside, what the warm air gives the engine, and the link between oil and metal, by
least squares on the exact solution between readings. The engine's heat capacities are taken from its file. If a log
can't tell one of the coefficients, that is said instead of naming a number.
"""

from dataclasses import dataclass, replace

import numpy as np

from walkaround import checks
from walkaround.numerics.least_squares import standard_errors
from walkaround.numerics.student_t import student_t
from walkaround.physics.preheat.heat_transfer import FLOW_EXPONENT, flow_w_per_k
from walkaround.physics.preheat.log_model import HEATING, LINK, LOSS, STEPS_C, LogModel, written_step_c

NAMES = {
    LOSS: "how much the engine loses",
    HEATING: "how much the warm air gives",
    LINK: "the link between oil and metal",
}
_LEAST_MOVE_C = 2.0
_SCATTER_C = 0.3  # standard deviation of a reading, before it is known
_WIDEST = 4.0  # from half to twice
_WHAT_HELPS = {
    LOSS: "log the engine cooling by itself for an hour or more as well",
    HEATING: "log it with the heater on, from cold, and its air temperature with it",
    LINK: "log it while oil and metal are at different temperatures, such as soon after the heater is turned on or off",
}


class LogCannotTellError(ValueError):
    """A log does not hold what is asked of it.

    >>> raise LogCannotTellError("4 readings can't tell anything")
    Traceback (most recent call last):
    ...
    walkaround.physics.preheat.log_fit.LogCannotTellError: 4 readings can't tell anything
    """


@dataclass(frozen=True)
class Coefficient:
    """A fitted coefficient in W/K, and the interval that holds the true one at least 95 times in 100 (see `fit`).

    >>> Coefficient(w_per_k=11.2, low_w_per_k=9.4, high_w_per_k=13.3).w_per_k
    11.2
    """

    w_per_k: float
    low_w_per_k: float
    high_w_per_k: float


@dataclass(frozen=True)
class Errors:
    """Errors that no log shows, each as one standard deviation: about one in three is larger.

    `probe_c`, how far a thermometer is off, the same throughout a log, in °C; `capacity`, how far a heat capacity in
    the engine's file is off, and the link between cylinders and metal, as a share of it. Raises ValueError for a
    negative error, a thermometer that is off by more than 20 °C or a heat capacity by more than 0.9 of it.

    >>> Errors(probe_c=0.2)
    Errors(probe_c=0.2, capacity=0.2)
    """

    probe_c: float = 0.5
    capacity: float = 0.2

    def __post_init__(self):
        """Check both numbers."""
        checks.number("probe_c", self.probe_c, 0, 20, "°C")
        checks.number("capacity", self.capacity, 0, 0.9)


@dataclass(frozen=True)
class Fit:
    """A fit: coefficients by name, the engine with them put in, and how far readings and model are apart.

    "loss": of all parts together to the outside, as it was while logging; "heating": what warm air gives all parts for
    each K, at the flow of the log; "link": between oil and metal. `engine` has the loss and the link, and the heating
    if the flow was given, each as it fits best with the engine's own heat capacities. `residual_c`: root mean square of
    reading minus model; `readings`, how many there were; `step_c`, the step in which they were written down, 0 if there
    is none; `errors`, the `Errors` that the intervals allow for; `cannot_tell`: what the log leaves open, in words.
    Only the link may be left open, and the engine then keeps its own.

    >>> from walkaround.physics.preheat.engine import Engine, Part
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> Fit({}, engine, residual_c=0.3, readings=24, step_c=1.0).errors
    Errors(probe_c=0.5, capacity=0.2)
    """

    coefficients: dict
    engine: object
    residual_c: float
    readings: int
    step_c: float
    errors: Errors = Errors()
    cannot_tell: tuple = ()


def fit(logs, engine, flow_m3_h=None, cover=False, wind_kt=0.0, errors=Errors()):
    """Fit loss, heating and link to one or several thermometer logs of an engine: a `Fit`.

    Parameters: `logs`, a `log.Log` or a list of them; `engine`, an `engine.Engine` with heat capacities, and
    coefficients at which the search begins; `flow_m3_h`, the heater's flow, if it is known; `cover` and `wind_kt`, as
    they were while logging; `errors`, an `Errors`.

    Outside and heater air are taken to change evenly between two readings. Least squares by Gauss and Newton, damped
    after Levenberg and Marquardt. Besides the coefficients, the temperatures at the first reading, the errors of
    thermometers and of heat capacities are unknown; the errors are held near 0 by their standard deviations. The
    interval is that of Student's t with the covariance (JᵀJ)⁻¹ of readings and errors together (G. A. F. Seber and C.
    J. Wild, Nonlinear Regression). The standard deviation of a reading is how far readings and model are apart, but at
    least what rounding leaves, step/√12, and a run of equal readings counts as one. Outside and heater air may hardly
    change, so that rounding is an error of the thermometer: half a step is added to theirs.

    An error that all heat capacities share changes every coefficient in the same ratio, and no reading shows it. With
    errors that are independent only 1/n of its variance counts, where there are n parts. The intervals of loss and
    heating still hold the true value if all capacities are off by `capacity` the same way; that of the link, which is
    named only where it happens to be narrow, might not, so it gets the other 1 − 1/n as well.

    So the 95 % assume that thermometers and heat capacities are as good as `errors` says, that readings err
    independently beyond that, and that the model is right, with loss and warm air divided among the parts as in the
    engine's file. tests/benchmarks/fit_coverage.py counts how often the interval holds.

    Raises LogCannotTellError, a ValueError, for a log that is too short or too flat, or that leaves loss or heating
    open by more than a factor of two. The link may stay open: most logs say little about it. Raises ValueError for no
    log at all, or one that lacks a part of this engine.

    >>> from walkaround.physics.preheat.engine import Engine, Part, warming
    >>> from walkaround.physics.preheat.log import Log
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> minutes = np.arange(0.0, 200.0, 5.0)
    >>> cooling, off = warming(engine, -10.0, start_c={"metal": 40.0, "oil": 30.0}), np.zeros(40, bool)
    >>> parts = {part: cooling.temperature_c(part, minutes).round(1) for part in engine.parts}
    >>> found = fit(Log("cooling", minutes, parts, np.full(40, -10.0), np.full(40, np.nan), off), engine)
    >>> {name: round(c.w_per_k) for name, c in found.coefficients.items()}
    {'loss': 8, 'link': 14}
    """
    logs = [logs] if hasattr(logs, "parts_c") else list(logs)
    if not logs:
        raise ValueError("logs is empty; allowed: one thermometer log or more")
    for log in logs:
        _check(log, engine)
    step_c = max(written_step_c(log) for log in logs)
    model = LogModel(logs, engine, cover, wind_kt, errors, step_c)
    if model.spare < 3:
        raise LogCannotTellError(
            f"{model.temperatures} temperatures can't tell {model.of_readings} unknowns; log more readings"
        )
    parameters, scatter_c = model.begin, _SCATTER_C
    for _ in range(2):  # how much the readings scatter is known only after a first fit
        parameters, jacobian, residuals = model.fitted(parameters, scatter_c)
        residuals_c = scatter_c * residuals[: model.temperatures]
        scatter_c = model.scatter(residuals_c)
    times = student_t(model.spare)
    half = times * standard_errors(jacobian)
    by_chance = times * standard_errors(jacobian[:, : model.of_readings])
    found, open_ = {}, []
    for i, name in enumerate(model.names):
        middle, low, high, at_edge = model.interval(i, parameters, half[i])
        if name == LINK:
            shared = times * np.log1p(-errors.capacity) * np.sqrt(1 - 1 / len(engine.parts))
            low = float(middle / np.exp(np.hypot(np.log(middle / low), shared)))
            high = float(middle * np.exp(np.hypot(np.log(high / middle), shared)))
        if not at_edge and high <= _WIDEST * low:
            found[name] = Coefficient(middle, low, high)
            continue
        _, low, high, at_edge = model.interval(i, parameters, by_chance[i])
        by_chance_only = at_edge or high > _WIDEST * low
        says = _cannot_tell(name) if by_chance_only else _cannot_tell_with(name, errors)
        if name != LINK:
            raise LogCannotTellError(says)
        open_.append(says)
    # For the engine, what fits best with its own heat capacities.
    own = LogModel(logs, engine, cover, wind_kt, replace(errors, capacity=0.0), step_c)
    best = own.fitted(np.append(parameters[: own.of_readings], own.begin[own.of_readings :]), scatter_c)[0]
    values = {name: own.interval(i, best, 0.0)[0] for i, name in enumerate(own.names) if name in found}
    rms = float(np.sqrt(np.mean(residuals_c**2)))
    fitted = _engine_with(engine, values, model.losses, flow_m3_h)
    return Fit(found, fitted, rms, int(residuals_c.size), step_c, errors, tuple(open_))


def fit_words(result):
    """Say what a fit found and what its intervals allow for, a line each.

    >>> from walkaround.physics.preheat.engine import Engine, Part
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> print(fit_words(Fit({"loss": Coefficient(8.03, 6.11, 10.5)}, engine, 0.31, readings=80, step_c=1.0)))
    loss to the outside: 8.03 W/K, with 95 % confidence between 6.11 and 10.5
    the 95 % allow for thermometers off by 0.5 °C, heat capacities off by 20 % and readings in steps of 1 °C
    readings and model are 0.31 °C apart, over 80 readings
    """
    says = {LOSS: "loss to the outside", HEATING: "heating by the warm air", LINK: "link between oil and metal"}
    lines = [
        f"{says[name]}: {c.w_per_k:.3g} W/K, with 95 % confidence between {c.low_w_per_k:.3g} and {c.high_w_per_k:.3g}"
        for name, c in result.coefficients.items()
    ]
    lines += result.cannot_tell
    allows = [f"thermometers off by {result.errors.probe_c:g} °C"] if result.errors.probe_c else []
    allows += [f"heat capacities off by {100 * result.errors.capacity:g} %"] if result.errors.capacity else []
    allows += [f"readings in steps of {_step_in_words(result.step_c)}"] if result.step_c >= 0.5 else []
    if allows:
        lines.append(f"the 95 % allow for {' and '.join([', '.join(allows[:-1]), allows[-1]][len(allows) < 2 :])}")
    lines.append(f"readings and model are {result.residual_c:.2f} °C apart, over {result.readings} readings")
    return "\n".join(lines)


def _step_in_words(step_c):
    return f"{step_c:g} °C" if step_c in STEPS_C else f"{1.8 * step_c:g} °F"


def _check(log, engine):
    wrong = [part for part in engine.parts if part not in log.parts_c]
    if wrong:
        raise ValueError(
            f"{log.name}: column {wrong[0]}_c is missing, a part of this engine; allowed: a log of every part"
        )
    checks.numbers("minutes", log.minutes)
    if log.minutes.size < 5:
        raise LogCannotTellError(
            f"{log.name}: {log.minutes.size} readings can't tell anything; allowed: 5 or more, over about an hour"
        )
    move = max(np.ptp(log.parts_c[part]) for part in engine.parts)
    if move < _LEAST_MOVE_C:
        raise LogCannotTellError(
            f"{log.name}: the log can't tell: no temperature moves by more than {move:.1f} °C; log while the engine "
            "warms or cools by many degrees"
        )


def _cannot_tell(name):
    return f"the log can't tell {NAMES[name]} to within a factor of two: {_WHAT_HELPS[name]}"


def _cannot_tell_with(name, errors):
    off = f"thermometers may be off by {errors.probe_c:g} °C and heat capacities by {100 * errors.capacity:g} %"
    return (
        f"the log can't tell {NAMES[name]} to within a factor of two if {off}: use thermometers or heat capacities "
        "that are known better"
    )


def _engine_with(engine, values, losses, flow_m3_h):
    """The engine with fitted values in W/K in place of its own."""
    more_loss = values[LOSS] / losses.sum()
    more_air = 1.0
    if HEATING in values and flow_m3_h is not None:
        checks.numbers("flow_m3_h", flow_m3_h, above=0, unit="m³/h")
        carries = float(flow_w_per_k(flow_m3_h))
        if values[HEATING] >= carries:
            raise ValueError(
                f"flow_m3_h is {flow_m3_h:g} m³/h, which carries {carries:.0f} W for each K, but the log shows "
                f"{values[HEATING]:.0f} W/K in the engine; allowed: the flow that the heater really moved"
            )
        conductance = -np.log1p(-values[HEATING] / carries) * carries
        at_engine_flow = conductance * (engine.air_flow_m3_h / flow_m3_h) ** FLOW_EXPONENT
        more_air = at_engine_flow / engine.stacked("air_w_per_k").sum()
    parts = {}
    for name in engine.parts:
        part = getattr(engine, name)
        parts[name] = replace(
            part, loss_w_per_k=float(part.loss_w_per_k * more_loss), air_w_per_k=float(part.air_w_per_k * more_air)
        )
    if LINK in values:
        parts["oil"] = replace(parts["oil"], to_metal_w_per_k=values[LINK])
    return replace(engine, **parts)
