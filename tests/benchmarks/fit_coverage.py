"""How often the interval of a fitted coefficient holds the true one, over made logs with each kind of error.

    python tests/benchmarks/fit_coverage.py [number of logs]

Each log is of an engine whose coefficients are drawn at random, heated for an hour and left to cool for an hour and a
half or more; the fit begins from coefficients that are off by a factor of two.
"""

import sys
from dataclasses import replace

import numpy as np
from walkaround.physics.preheat.air_heater import AirHeater
from walkaround.physics.preheat.engine import Engine, Part, warming
from walkaround.physics.preheat.log import Log
from walkaround.physics.preheat.log_fit import LogCannotTellError, fit
from walkaround.units import celsius, fahrenheit

FLOW_M3_H, OUTSIDE_C, AIR_C, HEATED_MINUTES = 200.0, -12.0, 45.0, 60.0
# What is wrong with the readings, or with what is taken for known.
ERRORS = {
    "tenths of a degree, noise 0.5 °C": {"noise_c": 0.5, "step_c": 0.1},
    "whole degrees": {"noise_c": 0.0, "step_c": 1.0},
    "whole degrees, noise 0.3 °C": {"noise_c": 0.3, "step_c": 1.0},
    "whole degrees Fahrenheit": {"noise_c": 0.0, "step_f": 1.0},
    "probes off by 0.5 °C either way": {"noise_c": 0.2, "step_c": 0.1, "probe_c": 0.5},
    "probes off by 0.5 °C, whole degrees": {"noise_c": 0.2, "step_c": 1.0, "probe_c": 0.5},
    "heat capacities 20 % off, each either way": {"noise_c": 0.2, "step_c": 0.1, "capacity": 0.2},
    "heat capacities all 20 % too high": {"noise_c": 0.2, "step_c": 0.1, "capacity": 0.2, "same": 1.0},
    "heat capacities all 20 % too low": {"noise_c": 0.2, "step_c": 0.1, "capacity": 0.2, "same": -1.0},
    "all of these": {"noise_c": 0.3, "step_c": 1.0, "probe_c": 0.5, "capacity": 0.2},
}


def made(draw, cylinders, noise_c, step_c=0.0, step_f=0.0, probe_c=0.0, capacity=0.0, same=0.0):
    """A log of an engine that is known, the engine, and what the fit is told of it."""

    def part(heat_j_per_k, loss, air, link=0.0):
        return Part(heat_j_per_k, loss, air, link)

    engine = Engine(
        metal=part(60e3, draw.uniform(4.0, 9.0), 30.0),
        oil=part(11e3, draw.uniform(1.0, 3.0), 6.0, draw.uniform(8.0, 25.0)),
        cylinders=part(30e3, draw.uniform(3.0, 6.0), 25.0, 22.0) if cylinders else None,
    )
    at = np.arange(0.0, draw.uniform(150.0, 240.0), draw.choice([2.0, 3.0, 5.0]))
    held = AirHeater(50e3, FLOW_M3_H, AIR_C, 0.0, core_j_per_k=1.0)  # at 45 °C from the first second
    heating = warming(engine, OUTSIDE_C, held)
    cooling = warming(engine, OUTSIDE_C, start_c=heating.at(HEATED_MINUTES))
    on = at < HEATED_MINUTES
    warm = heating.temperatures_c(np.minimum(at, HEATED_MINUTES))
    true = np.where(on[:, np.newaxis], warm, cooling.temperatures_c(np.maximum(at - HEATED_MINUTES, 0.0)))

    def read(values):
        values = values + probe_c * draw.choice([-1.0, 1.0]) + draw.normal(0.0, noise_c, at.size)
        if step_f:
            return celsius(step_f * np.round(fahrenheit(values) / step_f))
        return step_c * np.round(values / step_c) if step_c else values

    parts = {name: read(true[:, i]) for i, name in enumerate(engine.parts)}
    air = np.where(on, read(np.full(at.size, AIR_C)), np.nan)
    log = Log("made.csv", at, parts, read(np.full(at.size, OUTSIDE_C)), air, on)
    told = {}
    for name in engine.parts:
        p = getattr(engine, name)
        off = 1 + capacity * (same or draw.choice([-1.0, 1.0]))
        link = 14.0 if name == "oil" else p.to_metal_w_per_k
        told[name] = Part(p.heat_j_per_k * off, 2 * p.loss_w_per_k, p.air_w_per_k / 2, link)
    return log, engine, replace(engine, **told)


def true_values(engine):
    """The coefficients that a fit is to find."""
    return {
        "loss": float(engine.losses_w_per_k().sum()),
        "heating": float(engine.heating_w_per_k(FLOW_M3_H).sum()),
        "link": float(engine.oil.to_metal_w_per_k),
    }


def coverage(count, seed, cylinders, **errors):
    """For each coefficient: how often it was named, how often its interval held the true one, and its mean width."""
    draw = np.random.default_rng(seed)
    named = {"loss": [], "heating": [], "link": []}
    for _ in range(count):
        log, engine, told = made(draw, cylinders, **errors)
        try:
            found = fit(log, told).coefficients
        except LogCannotTellError:
            continue
        for name, c in found.items():
            value = true_values(engine)[name]
            inside = c.low_w_per_k <= value <= c.high_w_per_k
            named[name].append((inside, (c.high_w_per_k - c.low_w_per_k) / c.w_per_k))
    return {name: (len(rows), *np.mean(rows, axis=0)) for name, rows in named.items() if rows}


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    print(f"{count} logs each. Named: how many fits name the coefficient. Held: how many of these hold the true one.")
    for label, errors in ERRORS.items():
        for cylinders in (False, True):
            print(f"{label}, {'three parts' if cylinders else 'two parts'}")
            for name, (times, held, width) in coverage(count, 1, cylinders, **errors).items():
                print(f"    {name:<8} named {times:>4}   held {100 * held:5.1f} %   mean width {100 * width:5.1f} %")


if __name__ == "__main__":
    main()
