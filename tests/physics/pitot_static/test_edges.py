"""The instruments at their edges: what is left out, and the ends of what is allowed."""

from contextlib import nullcontext

import pytest
from walkaround.physics.air import airspeed
from walkaround.physics.pitot_static import Openings, indications
from walkaround.physics.pitot_static.instruments import cabin_below, feet_per_hpa, read

BLOCKED = Openings(pitot_clear=False, drain_clear=False, static_clear=False)


def told(shown):
    return [float(shown.airspeed_kt), float(shown.altitude_ft), float(shown.vertical_speed_fpm)]


def test_without_a_place_the_openings_were_blocked_at_sea_level_at_rest():
    assert told(indications(3000.0, 90.0, BLOCKED, climb_fpm=500.0)) == [0.0, 0.0, 0.0]
    half = Openings(static_clear=False)
    assert told(indications(2000.0, 90.0, half)) == told(indications(2000.0, 90.0, half, blocked_at_ft=0.0))
    iced = Openings(pitot_clear=False, drain_clear=False)
    assert told(indications(2000.0, 90.0, iced)) == told(indications(2000.0, 90.0, iced, 0.0, 0.0))


def test_without_a_cabin_the_alternate_source_has_the_outside_pressure():
    shown = indications(4000.0, 100.0, Openings(static_clear=False), climb_fpm=300.0, alternate_open=True)
    assert told(shown) == pytest.approx([100.0, 4000.0, 300.0])


def test_without_a_climb_the_indicator_rests():
    assert told(indications(4000.0, 100.0, Openings()))[2] == 0.0


@pytest.mark.parametrize("setting_hpa", [850.0, 1100.0])
def test_the_ends_of_the_altimeters_scale_are_allowed(setting_hpa):
    assert indications(0.0, 100.0, Openings(), setting_hpa=setting_hpa).airspeed_kt == pytest.approx(100.0)


@pytest.mark.parametrize("below_hpa", [-20.0, 50.0])
def test_the_ends_of_what_a_cabin_may_be_below_are_allowed(below_hpa):
    assert cabin_below(below_hpa) == below_hpa


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (
            lambda: indications(0.0, 90.0, Openings(), setting_hpa=849.9),
            "setting_hpa is 849.9 hPa; allowed: 850 to 1,100",
        ),
        (lambda: indications(0.0, 90.0, Openings(), setting_hpa=1100.1), "setting_hpa is 1,100.1 hPa; allowed: 850 to"),
        (lambda: cabin_below(-20.1), "cabin_below_hpa is -20.1 hPa; allowed: -20 to 50 hPa"),
        (lambda: cabin_below(50.1), "cabin_below_hpa is 50.1 hPa; allowed: -20 to 50 hPa"),
        (lambda: indications(0.0, -0.1, Openings()), "cas_kt is -0.1 kt; allowed: 0 to 661"),
        (lambda: indications(0.0, 9.0, Openings(), 0.0, -0.1), "blocked_at_kt is -0.1 kt; allowed: 0 to 661"),
        (lambda: indications(0.0, 9.0, Openings(), climb_fpm=float("nan")), "allowed: a number in ft/min"),
        (
            lambda: indications([0.0] * 2, [9.0] * 3, Openings()),
            r"altitude_ft has shape \(2,\), cas_kt has shape \(3,\)",
        ),
    ],
)
def test_beyond_them_the_argument_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()


def test_one_pitot_line_of_several_that_would_show_a_supersonic_speed_is_named():
    with pytest.raises(ValueError, match="the pitot line is 1,487 hPa above the static line"):
        read([1013.0, 2500.0], 1013.0)


@pytest.mark.parametrize(("beyond_hpa", "allowed"), [(1.4e-6, True), (1.6e-6, False)])
def test_a_difference_is_as_sure_as_the_pressures_that_it_is_made_of(beyond_hpa, allowed):
    most_hpa = airspeed.impact_pressure_hpa(airspeed.GREATEST_CAS_KT)
    with nullcontext() if allowed else pytest.raises(ValueError, match="supersonic speed"):
        assert read(1500.0 + most_hpa + beyond_hpa, 1500.0)[0] == pytest.approx(airspeed.GREATEST_CAS_KT)


def test_one_hectopascal_at_sea_level_is_27_feet():
    # Common practice, no source: “30 feet to a hectopascal” near the ground; hydrostatics gives 27.3.
    assert feet_per_hpa(1013.25) == pytest.approx(27.3, abs=0.05)
