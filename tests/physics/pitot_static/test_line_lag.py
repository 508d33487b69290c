"""A line behind a small hole: against scipy, against its limits, against the law before simplification."""

import numpy as np
import pytest
from fluids import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy.integrate import solve_ivp
from walkaround.physics.pitot_static.line_lag import air_viscosity_pa_s, follow, time_constant_s

TAUS = st.floats(1e-3, 1e4)
PRESSURES = arrays(float, 9, elements=st.floats(-100.0, 100.0))
STEPS = arrays(float, 8, elements=st.floats(1e-2, 1e3))


def times_of(steps):
    return np.concatenate([[0.0], np.cumsum(steps)])


@pytest.mark.parametrize("tau_s", [0.05, 0.7, 5.0, 60.0, 900.0])
def test_agrees_with_scipy(tau_s):
    rng = np.random.default_rng(3)
    times = np.cumsum(rng.uniform(0.1, 6.0, 40))
    outside = 1000.0 + np.cumsum(rng.normal(0.0, 2.0, 40))
    mine = follow(times, outside, tau_s, start=1010.0)
    # Piece by piece, so that the solver does not step over the corners.
    held, theirs = 1010.0, [1010.0]
    for i in range(39):
        slope = (outside[i + 1] - outside[i]) / (times[i + 1] - times[i])

        def rate(t, p, i=i, slope=slope):
            return (outside[i] + slope * (t - times[i]) - p) / tau_s

        solved = solve_ivp(rate, times[i : i + 2], [held], method="Radau", rtol=1e-10, atol=1e-10)
        held = solved.y[0, -1]
        theirs.append(held)
    assert np.allclose(mine, theirs, atol=1e-6)


@given(STEPS, PRESSURES, TAUS)
def test_halving_the_steps_changes_nothing(steps, outside, tau_s):
    times = times_of(steps)
    finer_times = np.sort(np.concatenate([times, (times[1:] + times[:-1]) / 2]))
    finer = follow(finer_times, np.interp(finer_times, times, outside), tau_s, start=7.0)
    assert np.allclose(finer[::2], follow(times, outside, tau_s, start=7.0), atol=1e-8)


@given(STEPS, PRESSURES)
def test_no_hole_keeps_the_pressure_and_a_very_large_one_has_no_lag(steps, outside):
    times = times_of(steps)
    assert np.allclose(follow(times, outside, np.inf, start=7.0), 7.0, atol=1e-9)
    assert np.array_equal(follow(times, outside, 0.0, start=7.0), outside)
    assert np.allclose(follow(times, outside, 1e-12, start=7.0)[1:], outside[1:], atol=1e-6)
    assert np.allclose(follow(times, outside, 1e12, start=7.0), 7.0, atol=1e-5)


@given(STEPS, PRESSURES, TAUS)
def test_the_line_is_never_beyond_what_it_has_seen(steps, outside, tau_s):
    held = follow(times_of(steps), outside, tau_s)
    assert np.all(held <= np.maximum.accumulate(outside) + 1e-9)
    assert np.all(held >= np.minimum.accumulate(outside) - 1e-9)


@given(STEPS, PRESSURES, TAUS, st.integers(1, 7))
def test_stopping_and_going_on_is_the_same_as_not_stopping(steps, outside, tau_s, at):
    times = times_of(steps)
    whole = follow(times, outside, tau_s, start=3.0)
    rest = follow(times[at:], outside[at:], tau_s, start=whole[at])
    assert np.allclose(rest, whole[at:], atol=1e-9)


@pytest.mark.parametrize("tau_s", [1e-300, 1e-9, 1e-3, 1.0, 1e3, 1e9, 1e300])
def test_ten_thousand_steps_stay_finite_for_any_time_constant(tau_s):
    times = np.arange(10000.0)
    outside = 1000.0 - times / 30.0
    held = follow(times, outside, tau_s)
    # Under a steady fall the line lags by τ times the slope, as soon as it has settled.
    expected = np.minimum(tau_s / 30.0 * -np.expm1(-times / tau_s), times / 30.0)
    assert np.allclose(held - outside, expected, atol=1e-6)


def test_broadcasting_equals_looping():
    times, taus = np.array([0.0, 1.0, 4.0, 9.0]), np.array([0.0, 0.5, 20.0, np.inf])
    outside = np.array([[0.0, 1.0, 5.0, 2.0], [3.0, 3.0, 0.0, 1.0], [1.0, 2.0, 3.0, 4.0]])
    table = follow(times, outside[:, None, :], taus, start=np.array([[1.0], [2.0], [3.0]]))
    assert table.shape == (3, 4, 4)
    for i in range(3):
        for j in range(4):
            assert np.allclose(table[i, j], follow(times, outside[i], taus[j], start=i + 1.0), atol=1e-12)


def test_after_one_and_three_time_constants_of_a_sudden_change():
    held = follow([0.0, 1e-9, 5.0, 15.0], [0.0, 1.0, 1.0, 1.0], 5.0, start=0.0)
    assert held[2:] == pytest.approx([1 - np.exp(-1), 1 - np.exp(-3)], abs=1e-6)


def test_time_constant_is_poiseuille_before_simplification():
    # The whole law: mass flow π d⁴ (p1² − p2²) / (256 µ L R T) through the hole fills V at one temperature.
    bore_m, length_m, volume_m3 = 0.1e-3, 2e-3, 50e-6
    viscosity, outside_pa, before_pa = float(air_viscosity_pa_s(15.0)), 101325.0, 101325.0 - 1000.0

    def rate(_, p):
        return np.pi * bore_m**4 * (outside_pa**2 - p**2) / (256 * viscosity * length_m * volume_m3)

    times = np.linspace(0.0, 20.0, 41)
    whole = solve_ivp(rate, (0.0, 20.0), [before_pa], t_eval=times, rtol=1e-10, atol=1e-6).y[0]
    tau_s = time_constant_s(0.1, 2.0, 50.0)
    simple = follow(times, np.full_like(times, outside_pa), tau_s, start=before_pa)
    # 10 hPa of difference is 1 % of the pressure; the simplification is out by half of that at most.
    assert np.max(np.abs(whole - simple)) < 0.005 * 1000.0


@given(st.floats(0.01, 1.0), st.floats(0.1, 20.0), st.floats(1.0, 500.0))
def test_time_constant_scales(bore_mm, length_mm, volume_ml):
    tau_s = time_constant_s(bore_mm, length_mm, volume_ml)
    assert time_constant_s(2 * bore_mm, length_mm, volume_ml) == pytest.approx(tau_s / 16)
    assert time_constant_s(bore_mm, 2 * length_mm, volume_ml) == pytest.approx(tau_s * 2)
    assert time_constant_s(bore_mm, length_mm, 2 * volume_ml) == pytest.approx(tau_s * 2)
    assert time_constant_s(bore_mm, length_mm, volume_ml, holes=40) == pytest.approx(tau_s / 40)
    assert time_constant_s(bore_mm, length_mm, volume_ml, pressure_hpa=506.625) == pytest.approx(tau_s * 2)


def test_no_bore_is_a_blocked_opening():
    assert time_constant_s(0.0, 2.0, 50.0) == np.inf
    assert time_constant_s(5.0, 2.0, 50.0) < 1e-5


@pytest.mark.parametrize("altitude_m", [0.0, 2000.0, 10000.0])
def test_viscosity_agrees_with_fluids(altitude_m):
    other = ATMOSPHERE_1976(altitude_m)
    assert air_viscosity_pa_s(other.T - 273.15) == pytest.approx(other.mu, rel=1e-4)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: follow([0.0, 2.0, 2.0], [1.0, 1.0, 1.0], 1.0), r"time_s\[2\] is 2 s, after time_s\[1\], 2 s"),
        (lambda: follow([0.0, 1.0], [1.0, 1.0, 1.0], 1.0), r"outside has shape \(3,\), time_s has shape \(2,\)"),
        (lambda: follow([0.0, 1.0], [1.0, 1.0], -1.0), "time_constant_s is -1 s; allowed: 0 s or more"),
        (lambda: follow([0.0, 1.0], [1.0, 1.0], np.nan), "time_constant_s is not a number"),
        (lambda: follow([0.0, 1.0], [1.0, np.nan], 1.0), r"outside\[1\] is not a number"),
        (lambda: follow([], [], 1.0), "time_s has shape"),
        (lambda: time_constant_s(-0.1, 2.0, 50.0), "bore_mm is -0.1 mm"),
        (lambda: time_constant_s(0.1, 0.0, 50.0), "length_mm is 0 mm; allowed: more than 0 mm"),
        (lambda: time_constant_s(0.1, [1.0, 2.0], [1.0, 2.0, 3.0]), "do not fit together"),
        (lambda: time_constant_s(0.1, 2.0, 50.0, temperature_c=500.0), "temperature_c is 500 °C"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
