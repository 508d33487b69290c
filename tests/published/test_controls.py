"""Tail and elevator against the figures of textbooks."""

import pytest
from walkaround import aircraft
from walkaround.physics import controls
from walkaround.units import FOOT_M


@pytest.mark.parametrize(
    ("share", "tau"), [(0.0, 0.0), (0.1, 0.396), (0.2, 0.550), (0.3, 0.661), (0.4, 0.748), (0.5, 0.818), (1.0, 1.0)]
)
def test_effectiveness_of_a_thin_aerofoils_flap(share, tau):
    # Theoretical curve of I. H. Abbott and A. E. von Doenhoff, "Theory of Wing Sections", 1959, chapter on flaps
    # (recalled; the values agree with the integration in tests/physics/controls/test_elevator.py).
    assert float(controls.effectiveness(share)) == pytest.approx(tau, abs=0.001)


def test_a_textbooks_light_aircraft():
    # R. C. Nelson, "Flight Stability and Automatic Control", 2nd edition, the example of a general aviation aircraft in
    # chapter 2 (recalled): tail 43 ft² at 16 ft, wing 184 ft² of 5.7 ft mean chord and aspect ratio 6.06, lift slopes
    # 4.3 and 3.91 per radian; tail volume 0.66, downwash 0.45, the tail's share of dCm/dα −1.42 per radian.
    volume = float(controls.tail_volume(43.0, 16.0, 184.0, 5.7))
    downwash = float(controls.downwash_slope(4.3, 6.06))
    assert volume == pytest.approx(0.66, abs=0.005)
    assert downwash == pytest.approx(0.45, abs=0.005)
    assert -volume * 3.91 * (1 - downwash) == pytest.approx(-1.42, abs=0.02)
    # Its tail's slope is 5.73 per radian of the section in the lifting-line formula, at aspect ratio 4.
    assert float(controls.lift_slope_per_rad(4.0)) == pytest.approx(3.91, rel=0.01)
    # Wing and tail put the neutral point at 0.25 + 1.42/4.3 of the chord.
    found = float(controls.neutral_point(volume, 4.3, 3.91, downwash))
    assert found == pytest.approx(0.25 + 1.42 / 4.3, abs=0.005)


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_demo_aircraft_have_the_tail_volume_of_their_kind(name):
    # D. P. Raymer, "Aircraft Design: A Conceptual Approach", typical tail volumes (recalled): home-built 0.50,
    # general aviation with one engine 0.70.
    d = aircraft.demo(name).dimensions
    chord = controls.mean_chord(d.wing_root_chord, d.wing_tip_chord)
    arm = d.tailplane_arm - d.wing_leading_edge - d.wing_root_chord / 4
    assert 0.45 <= float(controls.tail_volume(d.tailplane_area, arm, d.wing_area, chord)) <= 0.75


def test_the_tape_measure_by_the_cosine_rule():
    # Any geometry: two sides of 14 in with 28° between them, 2 · 14² (1 − cos 28°), cos 28° = 0.882948 from tables.
    assert float(controls.travel(14.0, 28.0)) ** 2 == pytest.approx(2 * 14.0**2 * (1 - 0.882948), rel=1e-4)
    assert float(controls.travel(14.0 * FOOT_M, 28.0)) == pytest.approx(FOOT_M * float(controls.travel(14.0, 28.0)))
