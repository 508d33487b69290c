"""What the instruments show over a whole flight when openings are blocked, or half blocked, on the way.

Each blockage gives every opening a time constant from a moment on: 0 s is clear, infinity is blocked, and anything
between lets a little air through (`line_lag.time_constant_s`). A line starts with the pressure it has at that moment.
Pressures outside change evenly between the samples of the flight, and each line follows them exactly.

The pitot line has two holes, inlet and drain. With air seeping through both, each counts in proportion to its own 1/τ,
so the line tends to a mean of total and static pressure, with 1/τ = 1/τ_inlet + 1/τ_drain.
"""

from dataclasses import dataclass, fields, replace
from itertools import pairwise
from math import inf

import numpy as np

from walkaround import checks
from walkaround.physics.pitot_static import instruments
from walkaround.physics.pitot_static.line_lag import follow

# A vertical speed indicator takes 6 to 9 s to settle (FAA Instrument Flying Handbook, FAA-H-8083-15, recalled). That is
# three time constants of its own small hole, after which it has made 95 % of a change.
VERTICAL_SPEED_LAG_S = 7.5 / 3


@dataclass(frozen=True)
class Blockage:
    """The state of the openings from the moment `at_s` of a flight until the next blockage.

    `pitot_lag_s`, `drain_lag_s`, `static_lag_s`: the time constant of each opening in s; 0 is clear, `math.inf`
    blocked. `alternate_open`: the static line is open to the cabin. With all of them left out everything is clear
    again, as when pitot heat has melted the ice.

    >>> Blockage(at_s=60.0, pitot_lag_s=inf)
    Blockage(at_s=60.0, pitot_lag_s=inf, drain_lag_s=0.0, static_lag_s=0.0, alternate_open=False)
    """

    at_s: float = 0.0
    pitot_lag_s: float = 0.0
    drain_lag_s: float = 0.0
    static_lag_s: float = 0.0
    alternate_open: bool = False

    def __post_init__(self):
        """Refuse what is not a time, a time constant, or True or False: a "no" would count as open."""
        checks.number("at_s", self.at_s, unit="s")
        checks.true_or_false("alternate_open", self.alternate_open)
        for field in fields(self):
            if shape := np.shape(getattr(self, field.name)):
                raise ValueError(f"{field.name} has shape {shape}; allowed: a single value")
        for name in ("pitot_lag_s", "drain_lag_s", "static_lag_s"):
            checks.zero_to_infinity(name, getattr(self, name), "s")


def blockage(openings, at_s=0.0, alternate_open=False):
    """Make the blockage of openings (`pitot_static.Openings`) that are each either clear or blocked.

    >>> from walkaround.physics.pitot_static.instruments import Openings
    >>> blockage(Openings(static_clear=False), at_s=30.0).static_lag_s
    inf
    """
    lags = [0.0 if clear else inf for clear in (openings.pitot_clear, openings.drain_clear, openings.static_clear)]
    return Blockage(at_s, *lags, alternate_open)


def indications_over(
    flight,
    blockages=(),
    setting_hpa=instruments.STANDARD_SETTING_HPA,
    cabin_below_hpa=0.0,
    vertical_speed_lag_s=VERTICAL_SPEED_LAG_S,
):
    """What the instruments show at each sample of a flight on which openings are blocked.

    Parameters: `flight`, a `flight.Flight`; `blockages`, a `Blockage` or several in order of time, before the first of
    which everything is clear; `setting_hpa` on the altimeter; `cabin_below_hpa`, how far the pressure in the cabin is
    below the one outside, for when the alternate source is open; `vertical_speed_lag_s`, the time constant of the
    vertical speed indicator. Returns `Indications` with one value for each sample.

    The vertical speed indicator measures how far the pressure behind a small hole of its own lags the static line,
    (p_case − p_line)/τ, graduated in ft/min by the standard atmosphere. It has settled by the start of the flight.
    Raises ValueError for a blockage outside the flight or out of order.

    >>> from walkaround.physics.air.flight import climb
    >>> up = climb(1000.0, 4000.0, 80.0, climb_fpm=500.0)
    >>> shown = indications_over(up, Blockage(at_s=120.0, pitot_lag_s=inf, drain_lag_s=inf))
    >>> shown.airspeed_kt[[0, 120, 360]].round()
    array([ 80.,  80., 216.])
    """
    blockages = _in_order(flight, blockages)
    vsi_lag_s = float(checks.numbers("vertical_speed_lag_s", vertical_speed_lag_s, above=0, unit="s"))
    below = float(instruments.cabin_below(cabin_below_hpa))
    # The moments of the blockages become samples of their own, on the lines between their neighbours.
    time_s = np.union1d(flight.time_s, [b.at_s for b in blockages])
    static_hpa = np.interp(time_s, flight.time_s, flight.static_hpa)
    total_hpa = np.interp(time_s, flight.time_s, flight.total_hpa)
    pitot, static, case_rate = (np.empty_like(time_s) for _ in range(3))

    pitot_then, static_then = total_hpa[0], static_hpa[0]
    first_slope = (flight.static_hpa[1] - flight.static_hpa[0]) / (flight.time_s[1] - flight.time_s[0])
    case_then = static_hpa[0] - vsi_lag_s * first_slope
    for i, now in enumerate(blockages):
        first = np.searchsorted(time_s, now.at_s)
        last = np.searchsorted(time_s, blockages[i + 1].at_s) if i + 1 < len(blockages) else time_s.size - 1
        part = slice(first, last + 1)
        times, outside = time_s[part], static_hpa[part]
        pitot[part] = _pitot_line(times, total_hpa[part], outside, now, pitot_then)
        source, lag_s = (outside - below, 0.0) if now.alternate_open else (outside, now.static_lag_s)
        static[part], case_rate[part], case_then = _static_line(times, source, lag_s, static_then, vsi_lag_s, case_then)
        pitot_then, static_then = pitot[last], static[last]

    kept = np.searchsorted(time_s, flight.time_s)
    pitot, static, case_rate = pitot[kept], static[kept], case_rate[kept]
    speed_kt, altitude_ft, on_stop = instruments.read(pitot, static, setting_hpa)
    vertical_speed_fpm = -60.0 * case_rate * instruments.feet_per_hpa(static)
    return instruments.Indications(speed_kt, altitude_ft, vertical_speed_fpm, on_stop, pitot, static)


def _in_order(flight, blockages):
    """The blockages as a list whose first begins with the flight, each within the flight and after the one before."""
    blockages = [blockages] if isinstance(blockages, Blockage) else list(blockages)
    begin, end = float(flight.time_s[0]), float(flight.time_s[-1])
    blockages = [replace(b, at_s=checks.number("at_s", b.at_s, begin, end, "s")) for b in blockages]
    for before, b in pairwise(blockages):
        if b.at_s <= before.at_s:
            raise ValueError(f"at_s is {b.at_s:g} s, after {before.at_s:g} s; allowed: in order of time")
    return blockages if blockages and blockages[0].at_s == begin else [Blockage(begin), *blockages]


def _pitot_line(times, total_hpa, static_hpa, now, start):
    """Pressure in the pitot line, which begins at `start` and has the two holes of the blockage `now`."""
    if now.pitot_lag_s == 0:
        return total_hpa
    if now.drain_lag_s == 0:
        return static_hpa
    through_inlet, through_drain = 1 / now.pitot_lag_s, 1 / now.drain_lag_s
    through_both = through_inlet + through_drain
    if through_both == 0:
        return np.full_like(times, start)
    tends_to = (through_inlet * total_hpa + through_drain * static_hpa) / through_both
    return follow(times, tends_to, 1 / through_both, start)


def _static_line(times, outside, lag_s, start, vsi_lag_s, case_start):
    """Pressure in the static line, how fast that in the case follows it (hPa/s), and the last in the case."""
    if lag_s == 0 or lag_s == inf:
        line = outside if lag_s == 0 else np.full_like(times, start)
        case = follow(times, line, vsi_lag_s, case_start)
        return line, (line - case) / vsi_lag_s, case[-1]
    # Two lags in series, the line's τ1 and the case's τ2. Let y follow the outside directly with τ2. Then dp_case/dt =
    # (p_line − p_case)/τ2 = (y − p_line)/(τ1 − τ2) at all times, if y begins where this is true at the first moment.
    # Equal lags are moved slightly apart.
    if abs(lag_s - vsi_lag_s) < 1e-5 * vsi_lag_s:
        vsi_lag_s *= 1 + 1e-5
    line = follow(times, outside, lag_s, start)
    apart_s = lag_s - vsi_lag_s
    directly = follow(times, outside, vsi_lag_s, (lag_s * start - apart_s * case_start) / vsi_lag_s)
    case_rate = (directly - line) / apart_s
    return line, case_rate, line[-1] - vsi_lag_s * case_rate[-1]
