"""Coefficients from a thermometer log: found again from made logs, and refused where the log can't tell."""

import importlib.util
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from walkaround.physics.preheat.air_heater import AirHeater
from walkaround.physics.preheat.engine import Engine, Part, warming
from walkaround.physics.preheat.log import Log, log_from_text
from walkaround.physics.preheat.log_fit import Errors, LogCannotTellError, fit, fit_words
from walkaround.physics.preheat.log_model import written_step_c

BENCHMARK = Path(__file__).resolve().parents[2] / "benchmarks" / "fit_coverage.py"
spec = importlib.util.spec_from_file_location("fit_coverage", BENCHMARK)
fit_coverage = importlib.util.module_from_spec(spec)
spec.loader.exec_module(fit_coverage)

EXACT = Errors(probe_c=0.0, capacity=0.0)
FLOW = 200.0
OUTSIDE_C, AIR_C = -12.0, 45.0


def made(draw, heated_minutes=60.0, minutes=150.0, noise_c=0.5, link=None):
    """A log of a known engine: heated by air of one temperature, then left to cool; and the engine."""
    engine = Engine(
        metal=Part(60e3, draw.uniform(4.0, 9.0), 30.0),
        oil=Part(11e3, draw.uniform(1.0, 3.0), 6.0, draw.uniform(8.0, 25.0) if link is None else link),
    )
    at = np.arange(0.0, minutes + 1e-9, 3.0)
    held = AirHeater(50e3, FLOW, AIR_C, 0.0, core_j_per_k=1.0)  # at 45 °C from the first second
    heating = warming(engine, OUTSIDE_C, held)
    cooling = warming(engine, OUTSIDE_C, start_c=heating.at(heated_minutes))
    on = at < heated_minutes
    warm = {p: heating.temperature_c(p, np.minimum(at, heated_minutes)) for p in engine.parts}
    cold = {p: cooling.temperature_c(p, np.maximum(at - heated_minutes, 0.0)) for p in engine.parts}
    readings = {p: np.where(on, warm[p], cold[p]) + draw.normal(0.0, noise_c, at.size) for p in engine.parts}
    air = np.where(on, AIR_C, np.nan)
    return Log("made.csv", at, readings, np.full(at.size, OUTSIDE_C), air, on), engine


def guess(engine, factor=2.0):
    """The engine with coefficients that are off by a factor, as a file's might be."""
    oil = replace(
        engine.oil, loss_w_per_k=engine.oil.loss_w_per_k * factor, air_w_per_k=6.0 / factor, to_metal_w_per_k=14.0
    )
    metal = replace(engine.metal, loss_w_per_k=engine.metal.loss_w_per_k * factor, air_w_per_k=30.0 / factor)
    return replace(engine, metal=metal, oil=oil)


def true_values(engine):
    return {
        "loss": engine.losses_w_per_k().sum(),
        "heating": engine.heating_w_per_k(FLOW).sum(),
        "link": engine.oil.to_metal_w_per_k,
    }


@pytest.mark.parametrize("label", fit_coverage.ERRORS)
def test_the_interval_holds_the_true_coefficient_whatever_is_wrong(label):
    # A few logs of each kind; the benchmark counts more of them.
    for cylinders in (False, True):
        found = fit_coverage.coverage(15, 3, cylinders, **fit_coverage.ERRORS[label])
        for name in ("loss", "heating"):
            named, held, width = found[name]
            assert named == 15
            assert held >= 0.9, (name, cylinders)
            assert width < 0.8


def test_known_coefficients_are_inside_the_stated_interval():
    draw, inside, stated = np.random.default_rng(7), {}, {}
    for _ in range(100):
        log, engine = made(draw)
        found = fit(log, guess(engine), errors=EXACT).coefficients
        for name, value in true_values(engine).items():
            if name in found:
                hit = found[name].low_w_per_k <= value <= found[name].high_w_per_k
                inside[name], stated[name] = inside.get(name, 0) + hit, stated.get(name, 0) + 1
    assert stated["loss"] == stated["heating"] == 100
    assert stated["link"] > 50
    for name, count in stated.items():
        assert inside[name] >= 0.9 * count, name
    # With thermometers and heat capacities exactly known it is not needlessly wide: a few per cent for loss and
    # heating.
    assert found["loss"].high_w_per_k < 1.1 * found["loss"].low_w_per_k
    assert found["heating"].high_w_per_k < 1.1 * found["heating"].low_w_per_k


def test_without_noise_the_engine_comes_back():
    log, engine = made(np.random.default_rng(1), noise_c=0.0)
    found = fit(log, guess(engine), flow_m3_h=FLOW)
    for name, value in true_values(engine).items():
        assert found.coefficients[name].w_per_k == pytest.approx(value, rel=1e-4)
    for part in engine.parts:
        assert getattr(found.engine, part).loss_w_per_k == pytest.approx(getattr(engine, part).loss_w_per_k, rel=1e-3)
        assert getattr(found.engine, part).air_w_per_k == pytest.approx(getattr(engine, part).air_w_per_k, rel=1e-3)
    assert found.residual_c < 1e-3


def test_what_may_be_wrong_widens_the_interval_and_is_said():
    log, engine = made(np.random.default_rng(1), noise_c=0.2)

    def width(log=log, **errors):
        c = fit(log, guess(engine), errors=Errors(**errors)).coefficients["loss"]
        return np.log(c.high_w_per_k / c.low_w_per_k)

    exact = width(probe_c=0.0, capacity=0.0)
    assert width(probe_c=0.5, capacity=0.0) > 1.5 * exact
    assert width(probe_c=0.0, capacity=0.2) > 5 * exact
    rounded = replace(log, parts_c={p: np.round(c) for p, c in log.parts_c.items()}, air_c=np.round(log.air_c))
    assert width(rounded, probe_c=0.0, capacity=0.0) > 1.5 * exact
    words = fit_words(fit(rounded, guess(engine))).splitlines()
    allows = "the 95 % allow for thermometers off by 0.5 °C, heat capacities off by 20 % and readings in steps of 1 °C"
    assert words[-2] == allows
    words = fit_words(fit(log, guess(engine), errors=Errors(probe_c=0.0))).splitlines()
    assert words[-2] == "the 95 % allow for heat capacities off by 20 %"
    assert "the 95 %" not in fit_words(fit(log, guess(engine), errors=EXACT))


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize(("too_low", "held"), [(1.25, ("loss", "heating", "link")), (1.5, ("link",))])
def test_an_error_that_all_heat_capacities_share(seed, too_low, held):
    log, engine = made(np.random.default_rng(seed), noise_c=0.1)
    told = guess(engine)
    for name in told.parts:
        part = getattr(told, name)
        told = replace(told, **{name: replace(part, heat_j_per_k=part.heat_j_per_k / too_low)})
    found = fit(log, told, errors=Errors(probe_c=0.0, capacity=0.2)).coefficients
    for name, value in true_values(engine).items():
        # Everything divided by one factor gives the same temperatures, so no reading shows it.
        assert found[name].w_per_k == pytest.approx(value / too_low, rel=0.05)
        if name in held:
            assert found[name].low_w_per_k < value < found[name].high_w_per_k


def test_what_may_be_too_wrong_leaves_it_open_and_says_why():
    log, engine = made(np.random.default_rng(1), noise_c=0.2)
    with pytest.raises(
        LogCannotTellError, match=r"how much the engine loses .* if thermometers may be off by 0\.5 °C and"
    ):
        fit(log, guess(engine), errors=Errors(capacity=0.5))


@pytest.mark.parametrize(
    ("temperatures", "step_c"),
    [([20.0, -3.0, 7.0], 1.0), ([20.5, 3.0], 0.5), ([20.1, 3.0], 0.1), ([20.123, 3.0], 0.0), ([0.0, 100.0, 37.0], 1.0)],
)
def test_the_step_in_which_a_log_is_written(temperatures, step_c):
    flat = np.full(len(temperatures), -12.0)
    off = np.zeros(len(temperatures), bool)

    def log(values):
        return Log("log", np.arange(len(values)), {"oil": np.array(values)}, flat, np.full(len(values), np.nan), off)

    assert written_step_c(log(temperatures)) == step_c
    in_f = replace(log((np.array([20.0, -3.0, 71.0]) - 32) / 1.8), outside_c=(np.array([10.0] * 3) - 32) / 1.8)
    assert written_step_c(replace(in_f, air_c=np.full(3, np.nan), heater_on=np.zeros(3, bool))) == 1 / 1.8


def test_cover_and_wind_while_logging_are_taken_out_again():
    draw = np.random.default_rng(2)
    log, engine = made(draw, noise_c=0.0)
    covered = replace(engine, cover_loss_left=0.5, wind_share=0.2, cover_wind_left=0.5)
    found = fit(log, guess(covered), cover=True, wind_kt=8.0)
    in_wind = found.engine.losses_w_per_k(True, 8.0).sum()
    assert in_wind == pytest.approx(engine.losses_w_per_k().sum(), rel=1e-3)


def test_outside_and_air_that_change_between_readings():
    # Readings an hour apart with the outside warming in a straight line, against a quarter of an hour's steps.
    draw = np.random.default_rng(4)
    _, engine = made(draw)
    fine = np.arange(0.0, 300.1, 0.25)
    outside = -15.0 + fine / 30
    state, states = np.array([30.0, 40.0]), []
    for k, minute in enumerate(fine):
        states.append(state)
        if k + 1 < fine.size:
            step = warming(
                engine, (outside[k] + outside[k + 1]) / 2, start_c=dict(zip(engine.parts, state, strict=True))
            )
            state = step.temperatures_c(fine[k + 1] - minute)[:-1]
    states = np.array(states)
    rows = slice(None, None, 40)
    parts = {p: states[rows, i] for i, p in enumerate(engine.parts)}
    log = Log("slow.csv", fine[rows], parts, outside[rows], np.full(31, np.nan), np.zeros(31, dtype=bool))
    found = fit(log, guess(engine)).coefficients
    assert found["loss"].w_per_k == pytest.approx(true_values(engine)["loss"], rel=1e-3)
    assert "heating" not in found


def test_two_logs_together_tell_what_one_does_not():
    draw = np.random.default_rng(5)
    log, engine = made(draw, heated_minutes=21.0, minutes=18.0, noise_c=0.8)
    with pytest.raises(LogCannotTellError, match=r"can't tell how much the engine loses .* log the engine cooling"):
        fit(log, guess(engine))
    cooling = warming(engine, OUTSIDE_C, start_c=40.0)
    at = np.arange(0.0, 121.0, 5.0)
    readings = {p: cooling.temperature_c(p, at) + draw.normal(0.0, 0.5, at.size) for p in engine.parts}
    second = Log(
        "cooling.csv", at, readings, np.full(at.size, OUTSIDE_C), np.full(at.size, np.nan), np.zeros(at.size, bool)
    )
    together = fit([log, second], guess(engine)).coefficients
    for name in ("loss", "heating"):
        assert together[name].low_w_per_k <= true_values(engine)[name] <= together[name].high_w_per_k


def test_a_link_that_the_log_leaves_open_is_said_and_kept():
    log, engine = made(np.random.default_rng(6), noise_c=1.5, link=40.0)
    found = fit(log, guess(engine))
    assert "link" not in found.coefficients
    assert found.engine.oil.to_metal_w_per_k == 14.0
    assert "can't tell the link between oil and metal" in fit_words(found)


@pytest.mark.parametrize("noise_c", [0.0, 0.3])
def test_a_flat_log_can_not_tell(noise_c):
    draw = np.random.default_rng(8)
    at = np.arange(0.0, 120.0, 5.0)
    readings = {p: np.full(at.size, 11.0) + draw.normal(0.0, noise_c, at.size) for p in ("metal", "oil")}
    log = Log("flat.csv", at, readings, np.full(at.size, 11.0), np.full(at.size, np.nan), np.zeros(at.size, bool))
    with pytest.raises(LogCannotTellError, match="the log can't tell: no temperature moves by more than"):
        fit(log, Engine(metal=Part(60e3, 6.0), oil=Part(11e3, 2.0, to_metal_w_per_k=14.0)))


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda log, e: fit([], e), "logs is empty; allowed: one thermometer log or more"),
        (lambda log, e: fit(log, e, errors=Errors(probe_c=-1.0)), "probe_c is -1 °C; allowed: 0 to 20 °C"),
        (lambda log, e: fit(log, e, errors=Errors(capacity=1.0)), "capacity is 1; allowed: 0 to 0.9"),
        (
            lambda log, e: fit(
                replace(log, **{f: getattr(log, f)[:4] for f in ("minutes", "outside_c", "air_c", "heater_on")}), e
            ),
            "4 readings can't tell anything",
        ),
        (
            lambda log, e: fit(log, replace(e, cylinders=Part(9e3, 1.0, 5.0, 10.0))),
            "made.csv: column cylinders_c is missing",
        ),
        (
            lambda log, e: fit(log, e, flow_m3_h=30.0),
            "flow_m3_h is 30 m³/h, which carries 10 W for each K, but the log shows",
        ),
        (
            lambda log, e: fit(
                log, replace(e, metal=replace(e.metal, air_w_per_k=0.0), oil=replace(e.oil, air_w_per_k=0.0))
            ),
            "air_w_per_k is 0 for every part",
        ),
    ],
)
def test_bad_input_is_named(call, words):
    log, engine = made(np.random.default_rng(9))
    with pytest.raises(ValueError, match=words):
        call(log, engine)


def test_from_a_file_to_words():
    log, engine = made(np.random.default_rng(10), noise_c=0.2)
    rows = zip(log.minutes, log.parts_c["oil"], log.parts_c["metal"], log.air_c, log.heater_on, strict=True)
    lines = [f"{m:g};{o:.1f};{t:.1f};-12;{'' if np.isnan(a) else a};{'on' if on else 'off'}" for m, o, t, a, on in rows]
    text = "\n".join(["minutes;oil_c;metal_c;outside_c;air_c;heater", *lines]).replace(".", ",")
    words = fit_words(fit(log_from_text(text), guess(engine))).splitlines()
    assert words[0].startswith("loss to the outside: ")
    assert "with 95 % confidence between" in words[1]
    assert words[-1].startswith("readings and model are 0.")
