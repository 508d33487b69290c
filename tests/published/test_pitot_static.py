"""What blocked openings do, against the published symptoms, over whole climbs and descents.

Source: FAA Pilot's Handbook of Aeronautical Knowledge (FAA-H-8083-25), flight-instruments chapter; read in
secondary texts that agree with each other.
"""

import numpy as np
import pytest
from walkaround.physics.air.flight import climb, descent, join, level
from walkaround.physics.pitot_static.instruments import EVERY_COMBINATION, Openings, indications
from walkaround.physics.pitot_static.over_flight import Blockage, blockage, indications_over

BLOCKED_FT, BLOCKED_KT = 5000.0, 90.0
ABOVE, BELOW = np.linspace(5010.0, 11000.0, 600), np.linspace(-500.0, 4990.0, 600)
SPEEDS = np.array([40.0, 90.0, 160.0])[:, None]
STATIC_BLOCKED = [o for o in EVERY_COMBINATION if not o.static_clear]
STATIC_CLEAR = [o for o in EVERY_COMBINATION if o.static_clear]


def shown(openings, altitude_ft, cas_kt=SPEEDS, **more):
    return indications(altitude_ft, cas_kt, openings, BLOCKED_FT, BLOCKED_KT, **more)


@pytest.mark.parametrize("drain_clear", [True, False])
@pytest.mark.parametrize("altitude_ft", [ABOVE, BELOW], ids=["above", "below"])
def test_inlet_clear_the_drain_makes_no_difference(drain_clear, altitude_ft):
    seen = shown(Openings(True, drain_clear, True), altitude_ft, climb_fpm=-300.0)
    assert np.allclose(seen.airspeed_kt, SPEEDS, atol=1e-6)
    assert np.allclose(seen.altitude_ft, altitude_ft, atol=1e-6)
    assert np.all(seen.vertical_speed_fpm == -300.0)
    assert not np.any(seen.on_stop)


@pytest.mark.parametrize("altitude_ft", [ABOVE, BELOW], ids=["above", "below"])
def test_inlet_blocked_drain_clear_airspeed_falls_to_zero_at_any_altitude(altitude_ft):
    seen = shown(Openings(False, True, True), altitude_ft)
    assert np.all(seen.airspeed_kt == 0.0)
    assert np.allclose(seen.altitude_ft, altitude_ft, atol=1e-6)


def test_inlet_and_drain_blocked_airspeed_reads_higher_above_and_lower_below():
    blocked = Openings(False, False, True)
    above, below = shown(blocked, ABOVE).airspeed_kt, shown(blocked, BELOW).airspeed_kt
    assert np.all(above > BLOCKED_KT)
    assert np.all(below < BLOCKED_KT)
    assert np.all(np.diff(above) > 0)
    assert np.all(above == above[0])  # it no longer follows speed
    assert np.all(below == below[0])
    assert shown(blocked, BLOCKED_FT).airspeed_kt == pytest.approx(np.full((3, 1), BLOCKED_KT))


@pytest.mark.parametrize("drain_clear", [True, False])
def test_static_blocked_airspeed_is_low_above_and_high_below(drain_clear):
    blocked = Openings(True, drain_clear, False)
    above, below = shown(blocked, ABOVE), shown(blocked, BELOW)
    assert np.all(above.airspeed_kt < SPEEDS)
    assert np.all(below.airspeed_kt > SPEEDS)
    assert shown(blocked, BLOCKED_FT).airspeed_kt == pytest.approx(SPEEDS)
    assert above.on_stop[0, -1]  # 40 kt of impact pressure is soon less than what the climb has taken away


@pytest.mark.parametrize("openings", STATIC_BLOCKED, ids=str)
@pytest.mark.parametrize("climb_fpm", [700.0, -700.0])
def test_static_blocked_altimeter_freezes_and_vertical_speed_shows_zero(openings, climb_fpm):
    seen = shown(openings, np.concatenate([BELOW, ABOVE]), climb_fpm=climb_fpm)
    assert np.allclose(seen.altitude_ft, BLOCKED_FT, atol=1e-6)
    assert np.all(seen.vertical_speed_fpm == 0.0)


@pytest.mark.parametrize("openings", STATIC_CLEAR, ids=str)
@pytest.mark.parametrize("climb_fpm", [700.0, -700.0])
def test_static_clear_altimeter_and_vertical_speed_are_right(openings, climb_fpm):
    seen = shown(openings, ABOVE, climb_fpm=climb_fpm)
    assert np.allclose(seen.altitude_ft, ABOVE, atol=1e-6)
    assert np.all(seen.vertical_speed_fpm == climb_fpm)


def test_all_three_blocked_everything_is_frozen():
    # Follows from the rows above: each line keeps what it held.
    seen = shown(Openings(False, False, False), np.concatenate([BELOW, ABOVE]), climb_fpm=500.0)
    assert np.allclose(seen.airspeed_kt, BLOCKED_KT)
    assert np.allclose(seen.altitude_ft, BLOCKED_FT, atol=1e-6)
    assert np.all(seen.vertical_speed_fpm == 0.0)


def test_inlet_and_static_blocked_with_the_drain_clear():
    # Follows from the rows above: the pitot line is at the pressure outside, the static line at the old one.
    blocked = Openings(False, True, False)
    assert np.all(shown(blocked, ABOVE).on_stop)
    assert np.all(shown(blocked, ABOVE).airspeed_kt == 0.0)
    below = shown(blocked, BELOW).airspeed_kt
    assert np.all(below > 0.0)
    assert np.all(np.diff(below) < 0)


def test_alternate_source_reads_a_little_high():
    seen = shown(Openings(), ABOVE, alternate_open=True, cabin_below_hpa=2.0)
    assert np.all((seen.altitude_ft > ABOVE) & (seen.altitude_ft < ABOVE + 100.0))
    assert np.all((seen.airspeed_kt > SPEEDS) & (seen.airspeed_kt < SPEEDS + 20.0))


def test_alternate_source_gives_a_momentary_climb():
    along = level(5000.0, 90.0, minutes=2.0)
    seen = indications_over(along, Blockage(60.0, alternate_open=True), cabin_below_hpa=2.0).vertical_speed_fpm
    assert np.allclose(seen[:60], 0.0, atol=1e-6)
    assert seen[60] > 200.0
    assert np.all(np.diff(seen[60:]) < 0)
    assert abs(seen[-1]) < 1.0


UP = climb(2000.0, 8000.0, 90.0, climb_fpm=600.0)
DOWN = descent(8000.0, 2000.0, 90.0, descent_fpm=600.0)
UP_AND_DOWN = join(UP, DOWN)


@pytest.mark.parametrize("openings", EVERY_COMBINATION, ids=str)
@pytest.mark.parametrize(("flight", "rising"), [(UP, 1), (DOWN, -1)], ids=["climb", "descent"])
def test_signs_over_a_whole_climb_and_a_whole_descent(openings, flight, rising):
    at = 200
    seen = indications_over(flight, blockage(openings, at_s=flight.time_s[at]))
    after = slice(at + 1, None)
    error_kt = (seen.airspeed_kt - flight.cas_kt)[after]
    error_ft = (seen.altitude_ft - flight.altitude_ft)[after]
    if openings.static_clear:
        assert np.allclose(error_ft, 0.0, atol=1e-6)
        assert np.all(rising * seen.vertical_speed_fpm > 590.0)
    else:
        assert np.all(rising * error_ft < 0)  # frozen: too low in a climb, too high in a descent
        assert np.all(abs(seen.vertical_speed_fpm[at + 30 :]) < 1.0)
    pitot_held = not openings.pitot_clear and not openings.drain_clear
    if pitot_held and openings.static_clear:
        assert np.all(rising * error_kt > 0)
    elif openings.pitot_clear and not openings.static_clear:
        assert np.all(rising * error_kt < 0)
    elif openings.pitot_clear or pitot_held:
        assert np.allclose(error_kt, 0.0, atol=1e-6)  # right, or frozen at a speed that does not change here
    elif openings.static_clear:
        assert np.all(seen.airspeed_kt[after] == 0.0)
    else:
        assert np.all(seen.on_stop[after] == (rising > 0))


@pytest.mark.parametrize("openings", EVERY_COMBINATION, ids=str)
def test_blocked_and_back_at_the_same_altitude_the_reading_is_back(openings):
    seen = indications_over(UP_AND_DOWN, blockage(openings, at_s=0.0))
    back = 0.0 if not openings.pitot_clear and openings.drain_clear else 90.0
    assert seen.airspeed_kt[-1] == pytest.approx(back, abs=1e-6)
    assert seen.altitude_ft[-1] == pytest.approx(2000.0, abs=1e-6)
