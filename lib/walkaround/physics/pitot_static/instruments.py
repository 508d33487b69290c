"""Airspeed indicator, altimeter and vertical speed indicator, and what blocked openings make them show.

The airspeed indicator shows the difference between the pressures in two lines; the altimeter and the vertical speed
indicator are connected to the static line only.

- The pitot line ends in the inlet, which faces the airflow (total pressure), and in a small drain (static pressure
  outside). With the inlet clear the drain makes no difference. With the inlet blocked the pressure in the line falls
  through a clear drain to the static pressure outside; with both blocked it stays as it was.
- The static line ends in the static port; when that is blocked, the pressure in the line stays as it was. The alternate
  source opens the line to the cabin, whether or not the port is blocked; the pressure in a cabin is usually a few hPa
  below the one outside.

Each of the three may be blocked or clear, and all eight cases follow from the two pressures, none from a table of
symptoms. Source of the symptoms that tests compare with them: FAA Pilot's Handbook of Aeronautical Knowledge
(FAA-H-8083-25), chapter on flight instruments.

Altitudes are pressure altitudes. The instruments have no error or lag of their own here; `over_flight` follows them
through a whole flight, with openings that are blocked on the way or let a little air through.
"""

from dataclasses import dataclass
from itertools import product

import numpy as np

from walkaround import checks
from walkaround.physics.air import airspeed, atmosphere
from walkaround.units import FOOT_M, kelvin

STANDARD_SETTING_HPA = atmosphere.SEA_LEVEL_PRESSURE_HPA  # 29.92 inHg
_LOWEST_SETTING_HPA, _HIGHEST_SETTING_HPA = 850.0, 1100.0


@dataclass(frozen=True)
class Openings:
    """Which openings are clear: True, False, or arrays of these that broadcast with everything else.

    >>> Openings(static_clear=False)
    Openings(pitot_clear=True, drain_clear=True, static_clear=False)
    """

    pitot_clear: bool = True
    drain_clear: bool = True
    static_clear: bool = True

    def __post_init__(self):
        """Refuse anything but True and False, since a "no" would count as clear."""
        for name in ("pitot_clear", "drain_clear", "static_clear"):
            checks.true_or_false(name, getattr(self, name))


EVERY_COMBINATION = tuple(Openings(*clear) for clear in product((True, False), repeat=3))


@dataclass(frozen=True)
class Indications:
    """What the three instruments show, and the pressures in the lines behind them.

    `on_stop`: the pressure in the pitot line is below that in the static line, and the airspeed needle rests on its
    stop at zero.

    >>> bool(indications(2000.0, 90.0, Openings()).on_stop)
    False
    """

    airspeed_kt: float
    altitude_ft: float
    vertical_speed_fpm: float
    on_stop: bool
    pitot_line_hpa: float | None = None
    static_line_hpa: float | None = None


def indications(
    altitude_ft,
    cas_kt,
    openings,
    blocked_at_ft=0.0,
    blocked_at_kt=0.0,
    climb_fpm=0.0,
    setting_hpa=STANDARD_SETTING_HPA,
    alternate_open=False,
    cabin_below_hpa=0.0,
):
    """What the instruments show at a pressure altitude in ft and a calibrated airspeed in kt.

    Parameters (all broadcast): `openings`, which are clear; `blocked_at_ft` and `blocked_at_kt`, how high and how fast
    the aircraft was when the others were blocked (for a cover that was left on, the altitude of the field and 0);
    `climb_fpm`, the rate of climb in ft/min, negative in a descent, held long enough for the instrument to settle;
    `setting_hpa` on the altimeter, 850 to 1,100 hPa (inHg times `units.INHG_HPA`); `alternate_open`, whether the static
    line is open to the cabin, where the pressure is `cabin_below_hpa` lower than outside.

    Raises ValueError for an altitude outside −16,404 to 36,089 ft, a negative or supersonic speed, pressures trapped in
    the lines that would show one, and shapes that don't fit.

    >>> iced = Openings(pitot_clear=False, drain_clear=False)
    >>> shown = indications(6000.0, 100.0, iced, blocked_at_ft=3000.0, blocked_at_kt=80.0)
    >>> round(float(shown.airspeed_kt)), round(float(shown.altitude_ft))
    (252, 6000)
    """
    checks.true_or_false("alternate_open", alternate_open)
    given = {"altitude_ft": altitude_ft, "cas_kt": cas_kt, **vars(openings)}
    given |= {"blocked_at_ft": blocked_at_ft, "blocked_at_kt": blocked_at_kt, "climb_fpm": climb_fpm}
    given |= {"setting_hpa": setting_hpa, "alternate_open": alternate_open, "cabin_below_hpa": cabin_below_hpa}
    altitude, cas, pitot_clear, drain_clear, static_clear, *rest = checks.same_shape(**given)
    then_ft, then_kt, climb, setting, alternate, below = rest
    static = atmosphere.pressure_hpa(altitude)
    total = static + _impact("cas_kt", cas, static)
    trapped_static = atmosphere.pressure_hpa(then_ft)
    trapped_total = trapped_static + _impact("blocked_at_kt", then_kt, trapped_static)

    pitot_line = np.where(pitot_clear, total, np.where(drain_clear, static, trapped_total))
    static_line = np.where(static_clear, static, trapped_static)
    static_line = np.where(alternate, static - cabin_below(below), static_line)

    climb = checks.numbers("climb_fpm", climb, unit="ft/min")
    moving = alternate | static_clear
    # Pressure falls more slowly with height in the cabin's thinner air, so the same climb shows as a little more there.
    stretch = feet_per_hpa(static_line) / feet_per_hpa(static)
    vertical_speed = np.where(moving, climb * np.where(alternate, stretch, 1.0), 0.0)
    speed, shown_ft, on_stop = read(pitot_line, static_line, setting)
    return Indications(speed, shown_ft, vertical_speed[()], on_stop, pitot_line[()], static_line[()])


def read(pitot_line_hpa, static_line_hpa, setting_hpa=STANDARD_SETTING_HPA):
    """Airspeed in kt, altitude in ft, and whether the needle is on its stop, from the pressures in the lines.

    Parameters: the pressures in the pitot line and the static line and the altimeter's setting, all in hPa; they
    broadcast. Returns three arrays. Airspeed by `airspeed.calibrated_airspeed_kt`; altitude by the standard atmosphere,
    shifted by the setting (14 CFR Part 43 Appendix E, Table IV). Raises ValueError for a static pressure outside the
    atmosphere's range, a difference that would show a supersonic speed, or a setting not from 850 to 1,100 hPa.

    >>> [round(float(shown), 1) for shown in read(1029.553, 1013.25)]
    [100.0, 0.0, 0.0]
    """
    setting = checks.numbers("setting_hpa", setting_hpa, _LOWEST_SETTING_HPA, _HIGHEST_SETTING_HPA, "hPa")
    altitude_ft = atmosphere.pressure_altitude_ft(static_line_hpa) - atmosphere.pressure_altitude_ft(setting)
    difference = np.subtract(pitot_line_hpa, static_line_hpa)
    most = airspeed.impact_pressure_hpa(airspeed.GREATEST_CAS_KT)
    if not np.all(np.isnan(difference) | checks.at_most(difference, most, size=np.abs(static_line_hpa))):
        raise ValueError(
            f"the pitot line is {checks.with_unit(np.max(difference), 'hPa')} above the static line, "
            f"which would show a supersonic speed; allowed: up to {most:.1f} hPa"
        )
    speed_kt = airspeed.calibrated_airspeed_kt(np.clip(difference, 0.0, most))
    return speed_kt, altitude_ft, ~checks.at_least(pitot_line_hpa, static_line_hpa)


def feet_per_hpa(static_hpa):
    """Height in ft over which the pressure of the standard atmosphere falls by 1 hPa, at a pressure in hPa (any shape).

    R T / (g p), the hydrostatic law (U.S. Standard Atmosphere 1976, eq. 2).

    >>> round(float(feet_per_hpa(1013.25)), 1)
    27.3
    """
    outside_k = kelvin(atmosphere.temperature_c(atmosphere.pressure_altitude_ft(static_hpa)))
    metres = atmosphere.GAS_CONSTANT_J_PER_KG_K * outside_k / (atmosphere.GRAVITY_M_S2 * static_hpa)
    return metres / FOOT_M


def cabin_below(cabin_below_hpa):
    """Check how far the pressure in a cabin is below the one outside, in hPa: −20 to 50; negative if it is above.

    >>> float(cabin_below(3.0))
    3.0
    """
    return checks.numbers("cabin_below_hpa", cabin_below_hpa, -20, 50, "hPa")


def _impact(name, cas_kt, static_hpa):
    """Impact pressure of the speed given by this name, or ValueError if it is supersonic at this static pressure."""
    cas = checks.numbers(name, cas_kt, 0, airspeed.GREATEST_CAS_KT, "kt")
    impact = airspeed.impact_pressure_hpa(cas)
    checks.numbers(f"Mach number at this {name}", airspeed.mach_from_ratio(impact / static_hpa), 0, 1)
    return impact
