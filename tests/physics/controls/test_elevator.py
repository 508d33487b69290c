"""What elevator travel is worth: against numerical integration, against vortices, and by its laws."""

from functools import partial

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from walkaround.physics import controls

SHARE = st.floats(0.02, 0.98)


@given(SHARE)
def test_tau_by_integrating_the_camber_line(share):
    # Glauert's integrals: A0 = α − 1/π ∫ dz/dx dθ, A1 = 2/π ∫ dz/dx cos θ dθ, lift coefficient 2π (A0 + A1/2). Here
    # dz/dx is −1 behind the hinge, for a radian of flap at no angle of attack.
    hinge = np.arccos(1 - 2 * (1 - share))
    a0 = quad(lambda _: 1.0, hinge, np.pi)[0] / np.pi
    a1 = -2 / np.pi * quad(np.cos, hinge, np.pi)[0]
    assert float(controls.effectiveness(share)) == pytest.approx(a0 + a1 / 2, rel=1e-9)


@given(SHARE)
def test_tau_in_its_other_form(share):
    other = 2 / np.pi * (np.sqrt(share * (1 - share)) + np.arcsin(np.sqrt(share)))
    assert float(controls.effectiveness(share)) == pytest.approx(other, rel=1e-9)


@pytest.mark.parametrize("share", [0.2, 0.35, 0.5])
def test_tau_by_vortices_on_a_bent_plate(share):
    # A plate in n equal pieces, a vortex at each quarter and a point without flow through it at each three quarters.
    n = 200
    x = np.arange(n) / n
    slope = np.where(x + 0.75 / n > 1 - share, -1.0, 0.0)
    induced = 1 / (2 * np.pi * ((x + 0.75 / n)[:, None] - (x + 0.25 / n)))
    by_flap = np.linalg.solve(induced, -slope).sum()
    by_angle = np.linalg.solve(induced, np.ones(n)).sum()
    assert float(controls.effectiveness(share)) == pytest.approx(by_flap / by_angle, abs=0.01)


@pytest.mark.parametrize("ratio", [2.0, 3.57, 5.0, 7.78])
def test_lift_slope_by_a_lattice_of_horseshoes(ratio):
    # A flat rectangular wing of chord 1 and 60 strips, lifting at its quarter chord, no flow through three quarters. Its
    # lift is not spread as an ellipse, which Helmbold's formula takes it to be, so it has somewhat less.
    n = 60
    edges = np.linspace(-ratio / 2, ratio / 2, n + 1)
    y, (left, right) = (edges[1:] + edges[:-1]) / 2, (edges[:-1], edges[1:])
    down = np.zeros((n, n))
    for side, sign in ((right, 1), (left, -1)):
        away = y[:, None] - side
        down -= sign / (4 * np.pi * away) * (1 + np.hypot(0.5, away) / 0.5)
    circulation = np.linalg.solve(down, -np.ones(n))
    slope = 2 * np.abs(np.sum(circulation * (right - left))) / ratio
    assert slope < float(controls.lift_slope_per_rad(ratio)) < 1.08 * slope


def test_lift_slope_ends_at_the_sections_and_at_the_slender_wings():
    assert float(controls.lift_slope_per_rad(1e6)) == pytest.approx(2 * np.pi, rel=1e-5)
    assert float(controls.lift_slope_per_rad(1e-3)) == pytest.approx(np.pi / 2 * 1e-3, rel=1e-3)


@given(st.floats(0.5, 3), st.floats(0.5, 3))
def test_mean_chord_by_integration(root, tip):
    def chord(y, power):
        return (root + (tip - root) * y) ** power

    by_integral = quad(chord, 0, 1, (2,))[0] / quad(chord, 0, 1, (1,))[0]
    assert float(controls.mean_chord(root, tip)) == pytest.approx(by_integral, rel=1e-9)


@given(st.floats(0.3, 1), st.floats(0.3, 0.9), st.floats(0, 10), st.floats(500, 5000), st.floats(1, 60))
def test_the_force_and_the_coefficient_tell_the_same_story(volume, tau, degrees, weight, pressure):
    wing_area, chord, tail_area, slope = 15.0, 1.4, 3.0, 3.7
    arm = volume * wing_area * chord / tail_area
    force = controls.tail_force(pressure, tail_area, slope, tau, degrees)
    moment = controls.pitching_moment(volume, slope, tau, degrees)
    lift = weight / (pressure * wing_area)
    assert float(controls.cg_worth(force, arm, weight)) == pytest.approx(float(moment) / lift * chord, rel=1e-9)


@given(st.floats(0.1, 0.6), st.floats(1, 2.5), st.floats(0, 0.2))
def test_what_is_lost_is_lift_at_that_speed(margin, lift, moment):
    lost = float(controls.lift_lost(moment, margin))
    if lost < 0.9 * lift:
        faster = float(controls.speed_after(50.0, lift, lost))
        assert faster**2 * (lift - lost) == pytest.approx(50.0**2 * lift)
        assert faster >= 50.0 - 1e-9


@given(
    tail=st.floats(0.15, 0.3), arm=st.floats(2.2, 3.2), ratio=st.floats(5.5, 9.0), tail_ratio=st.floats(3.0, 5.0),
    cg=st.floats(0.2, 0.27), degrees=st.floats(0.5, 10.0),
)  # fmt: skip
def test_lift_lost_with_all_the_tails_lift_counted(tail, arm, ratio, tail_ratio, cg, degrees):
    # Wing and tail in balance about the CG (statics): Cm = a α (cg − 1/4) − V a_t ((1 − ε) α + τ δ) + constant, and
    # CL = a α + S_t/S a_t ((1 − ε) α + τ δ). `tail` is S_t/S, `arm` from the quarter chord in mean chords.
    a, a_t, tau = (float(controls.lift_slope_per_rad(ratio)), float(controls.lift_slope_per_rad(tail_ratio)), 0.65)
    past = 1 - float(controls.downwash_slope(a, ratio))
    volume, less = tail * (arm + 0.25 - cg), tau * np.radians(degrees)
    alpha = volume * a_t * less / (a * (cg - 0.25) - volume * a_t * past)
    lost = -(a + tail * a_t * past) * alpha - tail * a_t * less
    moment = controls.pitching_moment(volume, a_t, tau, degrees)
    margin = controls.neutral_point(tail * arm, a, a_t, 1 - past) - cg
    assert float(controls.lift_lost(moment, margin)) == pytest.approx(lost, rel=0.05)


def test_nothing_missing_costs_nothing():
    assert float(controls.tail_force(7.0, 30.0, 3.7, 0.7, 0.0)) == 0.0
    assert float(controls.speed_after(46.0, 2.0, controls.lift_lost(0.0, 0.3))) == 46.0


@settings(max_examples=20)
@given(st.lists(st.floats(0.1, 5), min_size=2, max_size=3), st.lists(st.floats(0.1, 0.9), min_size=2, max_size=3))
def test_arrays_are_loops(some, shares):
    grid = np.array(some)[:, None]
    for function in (
        lambda a, t: controls.tail_force(a, 2.0, 3.0, t, 4.0),
        lambda a, t: controls.pitching_moment(a, 3.0, t, 4.0),
        lambda a, t: controls.tail_volume(a, t, 3.0, 4.0),
        lambda a, t: controls.neutral_point(a, 4.0, 3.0, t),
        lambda a, t: controls.lift_lost(a, t),
        lambda a, t: controls.mean_chord(a, t),
        lambda a, t: controls.downwash_slope(a, t),
        lambda a, t: controls.cg_worth(a, t, 2.0),
        lambda a, t: controls.speed_after(a, 2.0, t),
        lambda a, t: controls.effectiveness(t) * controls.lift_slope_per_rad(a),
    ):
        one_by_one = [[float(function(a, t)) for t in shares] for a in some]
        assert function(grid, shares) == pytest.approx(np.array(one_by_one), rel=1e-12)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (partial(controls.effectiveness, 1.2), "chord_share is 1.2; allowed: 0 to 1"),
        (partial(controls.lift_slope_per_rad, 0.0), "aspect_ratio is 0; allowed: more than 0"),
        (partial(controls.mean_chord, 1.0, -1.0), "tip_chord is -1; allowed: more than 0"),
        (partial(controls.tail_volume, 1.0, 2.0, 0.0, 1.0), "wing_area is 0; allowed: more than 0"),
        (partial(controls.downwash_slope, 4.0, 0.0), "aspect_ratio is 0"),
        (partial(controls.neutral_point, 0.7, 4.0, 3.0, 1.5), "downwash is 1.5; allowed: 0 to 1"),
        (partial(controls.tail_force, 1.0, 1.0, 1.0, 2.0, 1.0), "tau is 2; allowed: 0 to 1"),
        (partial(controls.tail_force, 1.0, 1.0, 1.0, 0.5, -1.0), "deflection_deg is -1; allowed: 0 or more"),
        (partial(controls.pitching_moment, -1.0, 1.0, 0.5, 1.0), "volume is -1"),
        (partial(controls.cg_worth, 1.0, 1.0, 0.0), "weight is 0; allowed: more than 0"),
        (partial(controls.lift_lost, 0.1, 0.0), "margin is 0; allowed: more than 0"),
        (partial(controls.speed_after, 46.0, 1.0, 1.0), "lift_coefficient − lost is 0; allowed: more than 0"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()


GOOD = {
    controls.mean_chord: {"root_chord": 2.0, "tip_chord": 1.0},
    controls.tail_volume: {"tail_area": 3.0, "tail_arm": 5.0, "wing_area": 15.0, "chord": 1.4},
    controls.downwash_slope: {"wing_slope_per_rad": 4.8, "aspect_ratio": 7.0},
    controls.neutral_point: {
        "volume": 0.7, "wing_slope_per_rad": 4.8, "tail_slope_per_rad": 3.7, "downwash": 0.4,
    },
    controls.tail_force: {
        "pressure": 7.0, "tail_area": 30.0, "tail_slope_per_rad": 3.7, "tau": 0.7, "deflection_deg": 3.0,
    },
    controls.cg_worth: {"force": 40.0, "tail_arm": 190.0, "weight": 2000.0},
    controls.pitching_moment: {"volume": 0.7, "tail_slope_per_rad": 3.7, "tau": 0.7, "deflection_deg": 3.0},
    controls.lift_lost: {"moment": 0.1, "margin": 0.3},
    controls.speed_after: {"speed": 46.0, "lift_coefficient": 2.0, "lost": 0.3},
}  # fmt: skip


@pytest.mark.parametrize(("function", "name"), [(f, n) for f, given in GOOD.items() for n in given])
def test_every_argument_is_checked(function, name):
    for wrong in (-1.0, np.nan, np.inf):
        with pytest.raises(ValueError, match=f"^{name} is "):
            function(**GOOD[function] | {name: wrong})
    for other in GOOD[function]:
        if other != name:
            pair = {name: np.full(2, GOOD[function][name]), other: np.full(3, GOOD[function][other])}
            with pytest.raises(ValueError, match="these do not fit together"):
                function(**GOOD[function] | pair)
