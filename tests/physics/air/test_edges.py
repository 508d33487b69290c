"""Airspeeds at their edges: exactly Mach 1, just beyond it, below nothing, and shapes that do not fit."""

import pytest
from walkaround.physics.air import airspeed, atmosphere


def test_mach_1_itself_is_allowed():
    assert airspeed.calibrated_from_mach_kt(1.0, 0.0) == pytest.approx(airspeed.SPEED_OF_SOUND_0_KT)
    assert airspeed.mach_from_true(airspeed.sound_speed_kt(20000.0) * (1 - 1e-12), 20000.0) == pytest.approx(1.0)


def test_the_greatest_speed_and_the_greatest_impact_pressure_belong_together():
    greatest = airspeed.impact_pressure_hpa(airspeed.GREATEST_CAS_KT)
    assert airspeed.calibrated_airspeed_kt(greatest) == pytest.approx(airspeed.GREATEST_CAS_KT, abs=1e-9)
    # 1.2^3.5 − 1 is the ratio at Mach 1.
    assert greatest == pytest.approx(atmosphere.SEA_LEVEL_PRESSURE_HPA * (1.2**3.5 - 1), rel=1e-5)


def test_impact_ratio_and_its_inverse():
    # (1 + 0.2 · 0.25)^3.5 − 1, by a calculator.
    assert airspeed.impact_ratio(0.5) == pytest.approx(0.186213, abs=1e-6)
    assert airspeed.mach_from_ratio(0.186213) == pytest.approx(0.5, abs=1e-6)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: airspeed.calibrated_from_mach_kt(1.001, 0.0), "mach is 1.001; allowed: 0 to 1"),
        (lambda: airspeed.calibrated_from_mach_kt(-0.001, 0.0), "mach is -0.001; allowed: 0 to 1"),
        (lambda: airspeed.calibrated_from_mach_kt(float("nan"), 0.0), "mach is not a number"),
        (lambda: airspeed.calibrated_from_equivalent_kt(-0.5, 0.0), "eas_kt is -0.5 kt; allowed: 0 kt or more"),
        (lambda: airspeed.mach_from_true(-0.5, 0.0), "tas_kt is -0.5 kt; allowed: 0 kt or more"),
        (lambda: airspeed.mach_number([0.0] * 2, [0.0] * 3), r"cas_kt has shape \(2,\), altitude_ft has shape \(3,\)"),
        (lambda: airspeed.calibrated_from_mach_kt([0.1] * 2, [0.0] * 3), r"mach has shape \(2,\), altitude_ft has sha"),
        (lambda: airspeed.mach_from_true([9.0] * 2, [0.0] * 3), r"tas_kt has shape \(2,\), altitude_ft has shape \(3"),
        (lambda: airspeed.calibrated_from_equivalent_kt([9.0] * 2, [0.0] * 3), r"eas_kt has shape \(2,\), altitude_ft"),
        (lambda: airspeed.sound_speed_kt([0.0] * 3, [9.0] * 2), r"altitude_ft has shape \(3,\), temperature_c has sha"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
