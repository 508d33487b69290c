"""A flight as a value: rows of time, pressure altitude and true airspeed; and functions that make flights.

They take the calibrated airspeed, which pilots fly by, and hold it while altitude and true airspeed change. There is no
wind: an instrument feels only the air around it.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from walkaround import checks
from walkaround.physics.air import airspeed, atmosphere

MOST_STEPS = 1_000_000


@dataclass(frozen=True, eq=False)
class Flight:
    """A flight: `time_s`, `altitude_ft` (pressure altitude) and `tas_kt`, rows of equal length.

    `isa_deviation_c` is how much warmer than the standard atmosphere the air is, the same at all altitudes. Raises
    ValueError for rows of unequal length or fewer than two samples, times that don't increase, an altitude outside
    −16,404 to 36,089 ft, or a speed that is negative or supersonic.

    >>> flight = Flight([0.0, 60.0], [0.0, 500.0], [80.0, 80.0])
    >>> flight.cas_kt.round(1)
    array([80. , 79.4])
    """

    time_s: np.ndarray
    altitude_ft: np.ndarray
    tas_kt: np.ndarray
    isa_deviation_c: float = 0.0

    def __post_init__(self):
        time_s = checks.increasing("time_s", self.time_s)
        altitude_ft = checks.numbers("altitude_ft", self.altitude_ft, unit="ft")
        tas_kt = checks.numbers("tas_kt", self.tas_kt, low=0, unit="kt")
        if not time_s.shape == altitude_ft.shape == tas_kt.shape:
            raise ValueError(
                f"the rows of a flight are not equally long: time_s has {time_s.size}, "
                f"altitude_ft has {altitude_ft.size}, tas_kt has {tas_kt.size}"
            )
        if time_s.size < 2:
            raise ValueError("time_s has 1 sample; allowed: a flight has 2 or more")
        checks.numbers("isa_deviation_c", self.isa_deviation_c, -60, 60, "°C")
        for name, row in (("time_s", time_s), ("altitude_ft", altitude_ft), ("tas_kt", tas_kt)):
            object.__setattr__(self, name, row)
        _ = self.total_hpa  # refuses what is supersonic or outside the atmosphere's range

    @cached_property
    def outside_c(self):
        """Outside temperature in °C at each sample."""
        return atmosphere.temperature_c(self.altitude_ft) + self.isa_deviation_c

    @cached_property
    def static_hpa(self):
        """Static pressure outside in hPa at each sample."""
        return atmosphere.pressure_hpa(self.altitude_ft)

    @cached_property
    def total_hpa(self):
        """Pressure in hPa in a clear pitot inlet at each sample: p (1 + 0.2 M²)^3.5."""
        mach = airspeed.mach_from_true(self.tas_kt, self.altitude_ft, self.outside_c)
        return self.static_hpa * (1 + airspeed.impact_ratio(mach))

    @cached_property
    def cas_kt(self):
        """Calibrated airspeed in kt at each sample: what an airspeed indicator with clear openings shows."""
        return airspeed.calibrated_airspeed_kt(self.total_hpa - self.static_hpa)


def from_calibrated(time_s, altitude_ft, cas_kt, isa_deviation_c=0.0):
    """Make a flight from rows of time in s, pressure altitude in ft and calibrated airspeed in kt.

    >>> from_calibrated([0.0, 60.0], [10000.0, 10000.0], [100.0, 100.0]).tas_kt.round(1)
    array([116.2, 116.2])
    """
    time_s, altitude_ft, cas_kt = checks.same_shape(time_s=time_s, altitude_ft=altitude_ft, cas_kt=cas_kt)
    outside_c = atmosphere.temperature_c(altitude_ft) + isa_deviation_c
    return Flight(time_s, altitude_ft, airspeed.true_airspeed_kt(cas_kt, altitude_ft, outside_c), isa_deviation_c)


def level(altitude_ft, cas_kt, minutes, step_s=1.0, isa_deviation_c=0.0):
    """Make a level flight at a pressure altitude in ft and a calibrated airspeed in kt.

    >>> level(3000.0, 100.0, minutes=2.0).time_s[-1]
    np.float64(120.0)
    """
    time_s = sample_times_s(60.0 * checks.number("minutes", minutes, above=0), step_s)
    return from_calibrated(time_s, altitude_ft, cas_kt, isa_deviation_c)


def climb(from_ft, to_ft, cas_kt, climb_fpm, step_s=1.0, isa_deviation_c=0.0):
    """Make a steady climb at a calibrated airspeed in kt and a rate in ft/min of pressure altitude.

    Raises ValueError for altitudes that do not rise or are outside −16,404 to 36,089 ft, a rate that is not above 0, or
    a climb of more than a million samples.

    >>> climb(1000.0, 3000.0, 80.0, climb_fpm=500.0).time_s[-1]
    np.float64(240.0)
    """
    rate = checks.number("climb_fpm", climb_fpm, above=0, unit="ft/min")
    from_ft, to_ft = _altitude("from_ft", from_ft), _altitude("to_ft", to_ft)
    if not to_ft > from_ft:
        raise ValueError(f"to_ft is {to_ft:,} ft; allowed in a climb: more than from_ft, {from_ft:,} ft")
    time_s = sample_times_s(60.0 * (to_ft - from_ft) / rate, step_s)
    return from_calibrated(time_s, from_ft + rate * time_s / 60.0, cas_kt, isa_deviation_c)


def descent(from_ft, to_ft, cas_kt, descent_fpm, step_s=1.0, isa_deviation_c=0.0):
    """Make a steady descent at a calibrated airspeed in kt and a rate in ft/min, given as a positive number.

    Raises ValueError as `climb` does.

    >>> descent(3000.0, 1000.0, 90.0, descent_fpm=500.0).altitude_ft[-1]
    np.float64(1000.0)
    """
    rate = checks.number("descent_fpm", descent_fpm, above=0, unit="ft/min")
    from_ft, to_ft = _altitude("from_ft", from_ft), _altitude("to_ft", to_ft)
    if not to_ft < from_ft:
        raise ValueError(f"to_ft is {to_ft:,} ft; allowed in a descent: less than from_ft, {from_ft:,} ft")
    time_s = sample_times_s(60.0 * (from_ft - to_ft) / rate, step_s)
    return from_calibrated(time_s, from_ft - rate * time_s / 60.0, cas_kt, isa_deviation_c)


def roll_and_climb(
    field_ft, to_ft, lift_off_kt, climb_kt, climb_fpm, roll_s, standing_s=5.0, step_s=1.0, isa_deviation_c=0.0
):
    """Make a take-off: stand, roll with constant acceleration, lift off, climb from the field to an altitude.

    Parameters: pressure altitudes `field_ft` and `to_ft`; calibrated airspeeds at lift-off and in the climb,
    `lift_off_kt` and `climb_kt`, between which the aircraft goes on accelerating as in the roll while it climbs;
    `climb_fpm` in ft/min; `roll_s` from brakes off to lift-off; `standing_s` before it.

    >>> flight = roll_and_climb(500.0, 3500.0, 55.0, 75.0, climb_fpm=600.0, roll_s=20.0)
    >>> flight.altitude_ft[0], flight.altitude_ft[-1], flight.cas_kt[25].round(1)
    (np.float64(500.0), np.float64(3500.0), np.float64(55.0))
    """
    roll_s = checks.number("roll_s", roll_s, above=0, unit="s")
    standing_s = checks.number("standing_s", standing_s, low=0, unit="s")
    rate = checks.number("climb_fpm", climb_fpm, above=0, unit="ft/min")
    lift_off_kt = checks.number("lift_off_kt", lift_off_kt, above=0, unit="kt")
    climb_kt = checks.number("climb_kt", climb_kt, low=lift_off_kt, unit="kt")
    field_ft, to_ft = _altitude("field_ft", field_ft), _altitude("to_ft", to_ft)
    if not to_ft > field_ft:
        raise ValueError(f"to_ft is {to_ft:,} ft; allowed: more than field_ft, {field_ft:,} ft")
    airborne_s = standing_s + roll_s
    # Each corner of the profile is a sample: standing, lift-off, climb speed reached, the end.
    end_s = airborne_s + 60.0 * (to_ft - field_ft) / rate
    faster_s = min(airborne_s + roll_s * (climb_kt / lift_off_kt - 1.0), end_s)
    corners = np.unique([0.0, standing_s, airborne_s, faster_s, end_s])
    pieces = [begin + sample_times_s(end - begin, step_s)[:-1] for begin, end in pairwise(corners)]
    time_s = np.append(np.concatenate(pieces), end_s)
    altitude_ft = field_ft + rate * np.maximum(time_s - airborne_s, 0.0) / 60.0
    cas_kt = np.clip(lift_off_kt * (time_s - standing_s) / roll_s, 0.0, climb_kt)
    return from_calibrated(time_s, altitude_ft, cas_kt, isa_deviation_c)


def join(*flights, change_s=20.0, step_s=1.0):
    """Join flights end to end, with `change_s` in s between them in which speed and altitude change at an even rate.

    >>> up, along = climb(0.0, 1000.0, 80.0, climb_fpm=500.0), level(1000.0, 100.0, minutes=1.0)
    >>> join(up, along).time_s[-1]
    np.float64(200.0)
    """
    if not flights:
        raise ValueError("there is nothing to join; allowed: one flight or more")
    if len({flight.isa_deviation_c for flight in flights}) > 1:
        raise ValueError("these flights have different isa_deviation_c; allowed: the same in all of them")
    change_s = checks.numbers("change_s", change_s, above=0, unit="s")
    time_s, altitude_ft, tas_kt = (getattr(flights[0], row) for row in ("time_s", "altitude_ft", "tas_kt"))
    for flight in flights[1:]:
        between = sample_times_s(change_s, step_s)[1:-1]
        later = time_s[-1] + change_s - flight.time_s[0]
        gap = [0.0, change_s]
        altitudes = np.interp(between, gap, [altitude_ft[-1], flight.altitude_ft[0]])
        speeds = np.interp(between, gap, [tas_kt[-1], flight.tas_kt[0]])
        time_s = np.concatenate([time_s, time_s[-1] + between, flight.time_s + later])
        altitude_ft = np.concatenate([altitude_ft, altitudes, flight.altitude_ft])
        tas_kt = np.concatenate([tas_kt, speeds, flight.tas_kt])
    return Flight(time_s, altitude_ft, tas_kt, flights[0].isa_deviation_c)


def sample_times_s(duration_s, step_s):
    """Evenly spaced times in s from 0 to a duration, in the longest steps up to `step_s` that fit.

    Raises ValueError for more than a million steps.

    >>> sample_times_s(10.0, 4.0)
    array([ 0.        ,  3.33333333,  6.66666667, 10.        ])
    """
    step_s = checks.number("step_s", step_s, above=0, unit="s")
    steps = np.ceil(duration_s / step_s * (1 - checks.SLACK))
    if not steps <= MOST_STEPS:
        raise ValueError(
            f"{checks.with_unit(duration_s, 's')} in steps of {checks.with_unit(step_s, 's')} are more than "
            f"{MOST_STEPS:,} steps; allowed: a shorter flight or longer steps"
        )
    return np.linspace(0.0, float(duration_s), max(int(steps), 1) + 1)


def _altitude(name, altitude_ft):
    return checks.number(name, altitude_ft, atmosphere.LOWEST_FT, atmosphere.TROPOPAUSE_FT, "ft")
