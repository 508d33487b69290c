"""A take-off roll: when the airspeed indicator should come alive, and whether there is room to reject it.

The aircraft accelerates evenly from brakes off to lift-off. It lifts off at the same calibrated airspeed everywhere, so
in thin air it needs a higher true airspeed, V = V0/√σ with σ = ρ/ρ0; this much is exact. Ground roll is V²/2a, so at
the same acceleration it would grow as 1/σ.

The rest is a simple model: acceleration falls with density, as the thrust of an engine without a supercharger does, so
the ground roll grows as 1/σ². That is the least growth that H. H. Hurt, Aerodynamics for Naval Aviators, NAVWEPS
00-80T-80, gives for such an engine in the section on take-off performance (recalled). Slope, surface, weight and
technique are left out: the performance table of the aircraft's own handbook comes first.
"""

from dataclasses import dataclass

import numpy as np

from walkaround import checks
from walkaround.physics.air import airspeed, atmosphere
from walkaround.physics.air.flight import Flight, sample_times_s
from walkaround.units import FOOT_M, KNOT_M_S

_FT_S_PER_KT = KNOT_M_S / FOOT_M  # 1.688 ft/s


@dataclass(frozen=True)
class TakeoffRoll:
    """A roll on one day at one field; each value a number or an array.

    `ground_roll_ft` and `lift_off_s`, distance and time from brakes off to lift-off; `lift_off_tas_kt` and
    `lift_off_ground_kt`, true airspeed and ground speed there; `acceleration_kt_s` in knots a second; `density_ratio`
    σ. `lift_off_cas_kt`, `field_ft`, `outside_c` and `headwind_kt` are what `takeoff_roll` was given.

    >>> round(float(takeoff_roll(900.0, 55.0, field_ft=5000.0).density_ratio), 2)
    0.86
    """

    ground_roll_ft: float
    lift_off_s: float
    lift_off_tas_kt: float
    lift_off_ground_kt: float
    acceleration_kt_s: float
    density_ratio: float
    lift_off_cas_kt: float
    field_ft: float
    outside_c: float
    headwind_kt: float


@dataclass(frozen=True)
class Stop:
    """A rejected roll; each value a number or an array.

    `decided_s` and `decided_ft`, when and where the roll is rejected; `top_ground_kt`, the greatest ground speed, when
    the brakes begin to work; `stop_ft`, from brakes off to standstill; `fits`, whether it stops on the runway;
    `runway_left_ft`, what is then left ahead of it, negative if it runs off the end; `past_lift_off`, whether it was
    rejected at or above lift-off speed.

    >>> bool(rejected(takeoff_roll(900.0, 55.0), 10.0, 2000.0, deceleration_kt_s=4.0).past_lift_off)
    False
    """

    decided_s: float
    decided_ft: float
    top_ground_kt: float
    stop_ft: float
    runway_left_ft: float
    fits: bool
    past_lift_off: bool


def takeoff_roll(
    standard_roll_ft, lift_off_cas_kt, field_ft=0.0, outside_c=None, headwind_kt=0.0, acceleration_exponent=1.0
):
    """The take-off roll at a field, a temperature and a wind, from the one at sea level on a standard day.

    Parameters (all broadcast): `standard_roll_ft`, ground roll on a standard day at sea level in still air;
    `lift_off_cas_kt`; `field_ft`, pressure altitude; `outside_c`, left out: the standard temperature;
    `headwind_kt`, negative for a tailwind; `acceleration_exponent` n, acceleration falling as σⁿ: 1 without a
    supercharger, 0 for an engine that keeps its thrust. Returns a `TakeoffRoll`. a0 = V0²/2s0, a = a0 σⁿ and
    s = (V − wind)²/2a, V the true airspeed at lift-off.

    Raises ValueError for a roll or speed that is not above 0, an altitude outside −16,404 to 36,089 ft, a
    wind not from −20 to 60 kt or as fast as the lift-off speed.

    >>> roll = takeoff_roll(900.0, 55.0)
    >>> round(float(roll.ground_roll_ft)), round(float(roll.lift_off_s), 1)
    (900, 19.4)
    >>> round(float(takeoff_roll(900.0, 55.0, field_ft=5000.0, outside_c=25.0).ground_roll_ft))
    1391
    """
    given = {
        "standard_roll_ft": checks.numbers("standard_roll_ft", standard_roll_ft, above=0, unit="ft"),
        "lift_off_cas_kt": checks.numbers("lift_off_cas_kt", lift_off_cas_kt, above=0, unit="kt"),
        "field_ft": field_ft,
        "outside_c": atmosphere.temperature_c(field_ft) if outside_c is None else outside_c,
        "headwind_kt": checks.numbers("headwind_kt", headwind_kt, -20, 60, "kt"),
        "acceleration_exponent": checks.numbers("acceleration_exponent", acceleration_exponent, 0, 3),
    }
    roll_ft, cas_kt, field_ft, outside_c, wind_kt, exponent = checks.same_shape(**given)
    sigma = atmosphere.density_kg_m3(field_ft, outside_c) / atmosphere.density_kg_m3(0.0)
    tas_kt = airspeed.true_airspeed_kt(cas_kt, field_ft, outside_c)
    ground_kt = np.where(checks.at_most(tas_kt, wind_kt), 0.0, tas_kt - wind_kt)
    checks.numbers("lift-off speed less headwind_kt", ground_kt, above=0, unit="kt")
    standard_acceleration_kt_s = cas_kt**2 * _FT_S_PER_KT / (2 * roll_ft)
    acceleration_kt_s = standard_acceleration_kt_s * sigma**exponent
    lift_off_s = ground_kt / acceleration_kt_s
    ground_roll_ft = 0.5 * ground_kt * lift_off_s * _FT_S_PER_KT
    return TakeoffRoll(
        ground_roll_ft, lift_off_s, tas_kt, ground_kt, acceleration_kt_s, sigma, cas_kt, field_ft, outside_c, wind_kt
    )


def distance_at_ft(roll, time_s):
    """Distance rolled in ft at a time in s after brakes off (shapes broadcast): a t²/2.

    >>> roll = takeoff_roll(900.0, 55.0)
    >>> round(float(distance_at_ft(roll, roll.lift_off_s)), 6)
    900.0
    """
    time_s = checks.numbers("time_s", time_s, low=0, unit="s")
    return 0.5 * roll.acceleration_kt_s * time_s**2 * _FT_S_PER_KT


def airspeed_at_kt(roll, time_s):
    """Calibrated airspeed in kt at a time in s after brakes off: what a clear indicator shows.

    Ground speed plus headwind, made calibrated; shapes broadcast. With a tailwind the needle waits at zero
    until the aircraft has overtaken the air.

    >>> round(float(airspeed_at_kt(takeoff_roll(900.0, 55.0, headwind_kt=10.0), 0.0)), 6)
    10.0
    """
    time_s = checks.numbers("time_s", time_s, low=0, unit="s")
    tas_kt = np.maximum(roll.acceleration_kt_s * time_s + roll.headwind_kt, 0.0)
    return airspeed.calibrated_from_true_kt(tas_kt, roll.field_ft, roll.outside_c)


def alive_s(roll, first_mark_kt):
    """When in s after brakes off a clear indicator reaches its first mark in kt: the call "airspeed alive".

    0 where the headwind is enough to reach it. Shapes broadcast. Raises ValueError for a mark above the lift-off speed.

    >>> roll = takeoff_roll(900.0, 55.0)
    >>> round(float(alive_s(roll, 40.0)), 1), round(float(distance_at_ft(roll, alive_s(roll, 40.0))))
    (14.1, 476)
    """
    checks.same_shape(first_mark_kt=first_mark_kt, lift_off_cas_kt=roll.lift_off_cas_kt)
    mark = checks.numbers("first_mark_kt", first_mark_kt, above=0, unit="kt")
    if not np.all(checks.at_most(mark, roll.lift_off_cas_kt)):
        raise ValueError(
            f"first_mark_kt is {checks.with_unit(np.max(mark), 'kt')}; allowed: up to the lift-off speed, "
            f"{checks.with_unit(np.min(roll.lift_off_cas_kt), 'kt')}"
        )
    tas_kt = airspeed.true_airspeed_kt(np.minimum(mark, roll.lift_off_cas_kt), roll.field_ft, roll.outside_c)
    return np.maximum(tas_kt - roll.headwind_kt, 0.0) / roll.acceleration_kt_s


def rejected(roll, decided_s, runway_ft, deceleration_kt_s, reaction_s=0.0):
    """Where the aircraft stops if the roll is rejected at a time in s after brakes off (shapes broadcast).

    Parameters: `decided_s`, when; `runway_ft`, from brakes off to the end of the runway; `deceleration_kt_s`, braking
    in knots a second; `reaction_s`, until the throttle is closed and the brakes work, in which the aircraft is taken to
    go on accelerating, to be on the safe side. Returns a `Stop`: v = a (t + reaction), distance v²/2a + v²/2b.

    After lift-off the aircraft is taken to have stayed on the ground, and `past_lift_off` is true. Raises ValueError
    for a negative time, or a runway or deceleration that is not above 0.

    >>> roll = takeoff_roll(900.0, 55.0)
    >>> stop = rejected(roll, alive_s(roll, 40.0), 2000.0, deceleration_kt_s=4.0, reaction_s=2.0)
    >>> round(float(stop.stop_ft)), bool(stop.fits)
    (1061, True)
    """
    given = {
        "decided_s": checks.numbers("decided_s", decided_s, low=0, unit="s"),
        "runway_ft": checks.numbers("runway_ft", runway_ft, above=0, unit="ft"),
        "deceleration_kt_s": checks.numbers("deceleration_kt_s", deceleration_kt_s, above=0, unit="kt/s"),
        "reaction_s": checks.numbers("reaction_s", reaction_s, low=0, unit="s"),
        "roll": roll.lift_off_s,
    }
    decided_s, runway_ft, braking_kt_s, reaction_s, lift_off_s = checks.same_shape(**given)
    top_kt = roll.acceleration_kt_s * (decided_s + reaction_s)
    braking_ft = top_kt**2 / (2 * braking_kt_s) * _FT_S_PER_KT
    stop_ft = distance_at_ft(roll, decided_s + reaction_s) + braking_ft
    fits = checks.at_most(stop_ft, runway_ft)
    return Stop(
        decided_s=decided_s,
        decided_ft=distance_at_ft(roll, decided_s),
        top_ground_kt=top_kt,
        stop_ft=stop_ft,
        runway_left_ft=np.where(fits, np.maximum(runway_ft - stop_ft, 0.0), runway_ft - stop_ft),
        fits=fits,
        past_lift_off=checks.at_least(decided_s, lift_off_s),
    )


def as_flight(roll, until_s=None, step_s=0.1):
    """The roll as a flight (`flight.Flight`), to lift-off or to a time in s after brakes off; one roll, no arrays.

    `pitot_static.indications_over` shows what a covered indicator does on it.

    >>> as_flight(takeoff_roll(900.0, 55.0)).cas_kt[-1].round(6)
    np.float64(55.0)
    """
    if np.ndim(roll.lift_off_s):
        raise ValueError(f"this roll is an array of shape {np.shape(roll.lift_off_s)}; allowed: one roll")
    until_s = float(roll.lift_off_s) if until_s is None else checks.numbers("until_s", until_s, above=0, unit="s")
    time_s = sample_times_s(until_s, step_s)
    tas_kt = np.maximum(roll.acceleration_kt_s * time_s + roll.headwind_kt, 0.0)
    warmer_c = float(roll.outside_c - atmosphere.temperature_c(roll.field_ft))
    return Flight(time_s, np.full_like(time_s, roll.field_ft), tas_kt, warmer_c)
