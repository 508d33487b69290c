"""The questions that follow a load sheet: how much more, how much less, what to move, how much fuel.

The answers are exact, not searched. A change of s units adds u·s to the weight and x·s to the moment throughout the
flight. So at each point of the flight that can be critical the distance to a limit is a quadratic in s, and the loads
that stay inside begin and end at roots of quadratics. Between neighbouring roots nothing changes, so one test there
decides.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from walkaround import checks
from walkaround.physics.loading.envelope import quadratic_roots
from walkaround.physics.loading.loadsheet import load_sheet, one_load

ACTIONS = ("move", "leave behind", "add")


@dataclass(frozen=True)
class Fix:
    """One way to bring a load inside: what is done, the least amount of it, from where and to where.

    >>> Fix(action="move", amount=12.5, source="hold B", target="hold A")
    Fix(action='move', amount=12.5, source='hold B', target='hold A')
    """

    action: str  # one of ACTIONS
    amount: float
    source: str | None
    target: str | None


def critical_points(sheet, band):
    """Points of the flight that can come nearest to the limits of a band of the envelope.

    Yields (weight, moment, fixed weight or None, arm of the fuel): nodes of the flight, whose weight grows with the
    load, and the points at which burning fuel passes a fixed weight, whatever the load.

    >>> from walkaround import aircraft
    >>> sheet = load_sheet(aircraft.demo("tansy_two"), {"seats": 150}, {"wing tank": 40}, trip=30)
    >>> points = critical_points(sheet, sheet.envelope.bands[0])
    >>> [(round(float(weight), 1), fixed) for weight, _, fixed, _ in points]
    [(575.1, None), (575.1, None), (553.5, None), (575.1, 400.0), (575.1, 540.0)]
    """
    weights, moments = sheet.path_weights, sheet.path_moments
    for w, m in zip(weights, moments, strict=True):
        yield w, m, None, 0.0
    for heavy, light, m, n in zip(weights, weights[1:], moments, moments[1:], strict=False):
        if heavy > light:
            arm = (m - n) / (heavy - light)
            turning = [(arm - at_zero) / (2 * slope) for _, at_zero, slope in band.lines if slope]
            for fixed in (band.low, band.high, *turning):
                if band.low <= fixed <= band.high:
                    yield heavy, m, fixed, arm


def amounts_inside(sheet, weight_per_unit, moment_per_unit, low, high):
    """Every amount from `low` to `high` of a change that leaves the flight inside, as (from, to) intervals.

    `sheet` is the load sheet of one load before the change. Limits of single stations are for the caller, who sets
    `low` and `high` by them. Raises ValueError for several loads, or a bound that is not finite.

    >>> from walkaround import aircraft
    >>> load = {"front seats": 170, "rear seats": 410, "hold A": 85}
    >>> sheet = load_sheet(aircraft.demo("morrowlark_four"), load, {})
    >>> [(low, round(high, 1)) for low, high in amounts_inside(sheet, 1.0, 182.0, 0.0, 60.0)]  # in hold B
    [(0.0, 28.2)]
    """
    one_load(sheet)
    u, x = weight_per_unit, moment_per_unit
    low, high = (checks.number(name, value) for name, value in (("low", low), ("high", high)))
    cuts = {low, high}
    for band in sheet.envelope.bands:
        for _, at_zero, slope in band.lines:
            for w, m, fixed, arm in critical_points(sheet, band):
                if fixed is None:
                    margin = m - at_zero * w - slope * w * w, x - (at_zero + 2 * slope * w) * u, -slope * u * u
                    cuts |= {(edge - w) / u for edge in (band.low, band.high) if u}
                else:
                    margin = m + arm * (fixed - w) - (at_zero + slope * fixed) * fixed, x - arm * u, 0
                cuts |= set(quadratic_roots(*margin))
    for c in sheet.conditions[1:]:
        if u and c.weight_limit is not None:
            cuts.add((c.weight_limit - c.weight) / u)
    cuts = sorted(float(c) for c in cuts if low <= c <= high)
    tries = np.array(sorted({*cuts, *((a + b) / 2 for a, b in pairwise(cuts))}))
    good = sheet.envelope.stays_inside(sheet.path_weights + u * tries[:, None], sheet.path_moments + x * tries[:, None])
    for c in sheet.conditions[1:]:
        if c.weight_limit is not None:
            good &= checks.at_most(c.weight + u * tries, c.weight_limit)
    # Where each run of good amounts begins, and the place after its last.
    runs = np.flatnonzero(np.diff([False, *good, False])).reshape(-1, 2)
    return [(float(tries[first]), float(tries[after - 1])) for first, after in runs]


def room_in(aircraft, station, others):
    """Weight that the limits of a station, alone and together with others, leave for it beside what lies in the others.

    >>> from walkaround import aircraft
    >>> room_in(aircraft.demo("morrowlark_four"), "hold B", {"hold A": 100})
    50.0
    """
    together = [limit for limit in aircraft.combined_limits if station in limit.holds]
    rooms = [limit.maximum - sum(others.get(h, 0.0) for h in limit.holds) for limit in together]
    return max(min([aircraft.station(station).maximum, *rooms]), 0.0)


def most_in_station(aircraft, station, stations, fuel, taxi=0.0, trip=0.0, category=None):
    """Most weight that one station can take with the rest of the load fixed, or None if no weight there is possible.

    What `stations` has for this station is ignored. The limits of the station and of holds together count. Raises
    ValueError for arrays, and as `load_sheet` does.

    >>> from walkaround import aircraft
    >>> load = {"front seats": 170, "rear seats": 410, "hold A": 85}
    >>> round(most_in_station(aircraft.demo("morrowlark_four"), "hold B", load, {}), 1)
    28.2
    """
    others = {name: weight for name, weight in stations.items() if name != station}
    sheet = one_load(load_sheet(aircraft, others, fuel, taxi, trip, category))
    if not sheet.stations_within:
        return None
    intervals = amounts_inside(sheet, 1.0, aircraft.station(station).arm, 0.0, room_in(aircraft, station, others))
    return intervals[-1][1] if intervals else None


def most_fuel(aircraft, stations, taxi=0.0, trip=0.0, category=None):
    """Most usable fuel at start-up with this cabin, or None if no amount is possible; a volume in the file's unit.

    The tanks are filled as `filled` fills them. From then on, weight and moment depend only on the fuel that is left,
    so every flight is a stretch of one known line. Raises ValueError for arrays, a volume that is below 0 or not
    finite, and as `load_sheet` does.

    >>> from walkaround import aircraft
    >>> round(most_fuel(aircraft.demo("morrowlark_four"), {"front seats": 400, "rear seats": 400}, taxi=1, trip=20), 1)
    46.0
    """
    full = {t.name: t.usable for t in aircraft.fuel.tanks}
    total, unit = sum(full.values()), aircraft.units.volume
    taxi = checks.number("taxi fuel", taxi, low=0, unit=unit)
    used = taxi + checks.number("trip fuel", trip, low=0, unit=unit)
    sheet = one_load(load_sheet(aircraft, stations, full, 0.0, total, category))
    if not sheet.stations_within:
        return None
    density, empty_tanks = aircraft.fuel.density, float(sheet.path_weights[-1])
    limit = {c.name: np.inf if c.weight_limit is None else c.weight_limit for c in sheet.conditions}
    if not checks.at_most(empty_tanks, limit["zero fuel"]):
        return None
    most = min(
        total,
        (limit["ramp"] - empty_tanks) / density,
        (limit["take-off"] - empty_tanks) / density + taxi,
        (limit["landing"] - empty_tanks) / density + used,
    )
    # A part's ends are taken within the slack, so that the fuel at which it is touched counts as inside.
    for upper, lower in sheet.envelope.outside_parts(sheet.path_weights, sheet.path_moments, slack_share=0.5):
        # In flight the fuel goes from (most − taxi) down to (most − used); it may touch this part but not enter it.
        begins, ends = (lower - empty_tanks) / density, (upper - empty_tanks) / density
        if not checks.at_most(most - taxi, begins, total) and not checks.at_least(most - used, ends, total):
            most = begins + taxi
    if not checks.at_least(most, used) or not _point_inside(sheet, empty_tanks, most - taxi, density):
        return None
    return float(most)


def filled(aircraft, total):
    """Volumes by tank of an amount of usable fuel (any shape), a dict.

    Tanks that are drawn together are filled in proportion to their size; tanks that are drawn in order are filled from
    the last one drawn to the first.

    >>> from walkaround import aircraft
    >>> {name: float(volume) for name, volume in filled(aircraft.demo("tansy_two"), 80).items()}
    {'rear tank': 10.0, 'wing tank': 70.0}
    """
    tanks = aircraft.fuel.tanks
    capacity = sum(t.usable for t in tanks)
    left = checks.numbers("total", total, 0, capacity, aircraft.units.volume)
    if aircraft.fuel.drawn == "together":
        return {t.name: left * t.usable / capacity for t in tanks}
    volumes = {}
    for tank in reversed(tanks):
        volumes[tank.name] = np.minimum(left, tank.usable)
        left = left - volumes[tank.name]
    return {t.name: volumes[t.name] for t in tanks}


def ways_to_fix(aircraft, stations, fuel, taxi=0.0, trip=0.0, category=None, actions=ACTIONS):
    """Ways to bring a load inside with one change: move, leave behind or add (ballast), with the least amount of each.

    Baggage and other loose load may be moved; anything but fuel may be left behind; ballast goes where baggage goes. A
    list of `Fix`, smallest amounts first; empty if the load is inside already or no single change is enough. Raises
    ValueError for arrays, an unknown action, and as `load_sheet` does.

    >>> from walkaround import aircraft
    >>> load = {"front seats": 170, "rear seats": 410, "hold A": 85, "hold B": 60}
    >>> ways = ways_to_fix(aircraft.demo("morrowlark_four"), load, {})
    >>> [(way.action, way.source, round(way.amount, 1)) for way in ways[:2]]
    [('leave behind', 'hold B', 31.8), ('leave behind', 'hold A', 43.7)]
    """
    if unknown := [action for action in actions if action not in ACTIONS]:
        raise ValueError(f"actions has {unknown[0]!r}; allowed: {', '.join(ACTIONS)}")
    sheet = one_load(load_sheet(aircraft, stations, fuel, taxi, trip, category))
    if sheet.loadable:
        return []
    carried = {s.name: float(stations.get(s.name, 0.0)) for s in aircraft.stations}
    loose = [s for s in aircraft.stations if s.kind in ("hold", "other")]
    tries = []
    for s in aircraft.stations:
        if carried[s.name]:
            tries.append(("leave behind", s, None, -1.0, -s.arm, carried[s.name]))
    for t in loose:
        tries.append(("add", None, t, 1.0, t.arm, t.maximum - carried[t.name]))
        for s in loose:
            if s is not t and carried[s.name]:
                most = min(carried[s.name], t.maximum - carried[t.name])
                tries.append(("move", s, t, 0.0, t.arm - s.arm, most))
    fixes = []
    for action, source, target, u, x, most in tries:
        low = max(0.0, *(float(o) for o in sheet.station_over.values())) if source else 0.0
        if action not in actions or most < low:
            continue
        for least, _ in amounts_inside(sheet, u, x, low, most):
            after = dict(carried)
            if source:
                after[source.name] = max(0.0, after[source.name] - least)
            if target:
                after[target.name] += least
            if load_sheet(aircraft, after, fuel, taxi, trip, category).loadable:
                fixes.append(Fix(action, least, source and source.name, target and target.name))
                break
    return sorted(fixes, key=lambda f: f.amount)


def _point_inside(sheet, empty_tanks, fuel, density):
    weight = empty_tanks + fuel * density
    # Reversed, since interpolation needs rising weights.
    moment = np.interp(weight, sheet.path_weights[::-1], sheet.path_moments[::-1])
    return bool(sheet.envelope.inside(weight, moment / weight))
