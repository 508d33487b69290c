"""The questions that follow a load sheet: how much more, how much less, what to move, how much fuel.

Exact, not searched. A change of `s` units adds u·s to the weight and x·s to the moment at every moment of the
flight. The distance to a limit is then a quadratic in s at each moment that can be critical, so the loads
that stay inside begin and end at roots of quadratics. Between two neighbouring roots nothing changes, and one test there decides.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from walkaround import checks
from walkaround.physics.loading.envelope import quadratic_roots
from walkaround.physics.loading.loadsheet import load_sheet


@dataclass(frozen=True)
class Fix:
    """One way to bring a load inside: what is done, from where, to where, and the least amount of it."""

    action: str  # "move", "leave behind", "add"
    amount: float
    source: str | None
    target: str | None


def critical_moments(sheet, band):
    """Moments of the flight that can come nearest to a band's limits.

    Yields (weight, moment, fixed weight or None, fuel arm) : nodes of the flight, whose weight grows with the
    load, and the points where a burning tank passes a given weight, whose weight does not.
    """
    weights, moments = sheet.path_weights, sheet.path_moments
    for w, m in zip(weights, moments, strict=True):
        yield w, m, None, 0.0
    for heavy, light, m, n in zip(weights, weights[1:], moments, moments[1:], strict=False):
        if heavy > light:
            arm = (m - n) / (heavy - light)
            turning = [
                (arm - at_zero) / (2 * slope)
                for at_zero, slope in ((band.forward_at_zero, band.forward_slope), (band.aft_at_zero, band.aft_slope))
                if slope
            ]
            for fixed in (band.low, band.high, *turning):
                if band.low <= fixed <= band.high:
                    yield heavy, m, fixed, arm


def amounts_inside(sheet, weight_per_unit, moment_per_unit, low, high):
    """Every amount from `low` to `high` of a change that leaves the flight inside, as (from, to) intervals.

    `sheet` is the load sheet (of one load) before the change. Limits of single stations are for the caller:
    they bound `low` and `high`.
    """
    u, x = weight_per_unit, moment_per_unit
    cuts = {low, high}
    for band in sheet.envelope.bands:
        for at_zero, slope in ((band.forward_at_zero, band.forward_slope), (band.aft_at_zero, band.aft_slope)):
            for w, m, fixed, arm in critical_moments(sheet, band):
                if fixed is None:
                    cuts |= set(
                        quadratic_roots(
                            m - at_zero * w - slope * w * w, x - (at_zero + 2 * slope * w) * u, -slope * u * u
                        )
                    )
                    cuts |= {(edge - w) / u for edge in (band.low, band.high) if u}
                else:
                    cuts |= set(
                        quadratic_roots(m + arm * (fixed - w) - (at_zero + slope * fixed) * fixed, x - arm * u, 0)
                    )
    for c in sheet.conditions[1:]:
        if u and c.weight_limit is not None:
            cuts.add((c.weight_limit - c.weight) / u)
    cuts = sorted(float(c) for c in cuts if low <= c <= high)
    tries = np.array(sorted({*cuts, *((a + b) / 2 for a, b in pairwise(cuts))}))
    good = sheet.envelope.stays_inside(sheet.path_weights + u * tries[:, None], sheet.path_moments + x * tries[:, None])
    for c in sheet.conditions[1:]:
        if c.weight_limit is not None:
            good &= checks.at_most(c.weight + u * tries, c.weight_limit)
    intervals, start = [], None
    for i, amount in enumerate(tries):
        if good[i] and start is None:
            start = amount
        if start is not None and (i + 1 == len(tries) or not good[i + 1]):
            intervals.append((float(start), float(amount)))
            start = None
    return intervals


def most_in_station(aircraft, station, stations, fuel, taxi=0.0, trip=0.0, category=None):
    """Most weight one station can take with the rest of the load fixed, or None when no weight there will do.

    What `stations` says of this station is ignored. Limits of the station and of holds together count.
    """
    others = {name: weight for name, weight in stations.items() if name != station}
    sheet = load_sheet(aircraft, others, fuel, taxi, trip, category)
    if _over(sheet):
        return None
    intervals = amounts_inside(sheet, 1.0, aircraft.station(station).arm, 0.0, _room(aircraft, station, others))
    return intervals[-1][1] if intervals else None


def most_fuel(aircraft, stations, taxi=0.0, trip=0.0, category=None):
    """Most usable fuel at start-up with this cabin, or None when no amount will do; volume in the file's unit.

    The tanks are filled as `filled` does. What is on board after that depends on the fuel left alone, so the flight is a stretch of one known line.
    """
    full = {t.name: t.usable for t in aircraft.fuel.tanks}
    total = sum(full.values())
    used = taxi + trip
    sheet = load_sheet(aircraft, stations, full, 0.0, total, category)
    if _over(sheet):
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
    for upper, lower in sheet.envelope.outside_parts(sheet.path_weights, sheet.path_moments):
        # The flight covers the fuel from (most − used) to (most − taxi); it may touch this part, not enter it.
        begins, ends = (lower - empty_tanks) / density, (upper - empty_tanks) / density
        if not checks.at_most(most - taxi, begins, total) and not checks.at_least(most - used, ends, total):
            most = begins + taxi
    if not checks.at_least(most, used) or not _point_inside(sheet, empty_tanks, most - taxi, density):
        return None
    return float(most)


def filled(aircraft, total):
    """Share an amount of usable fuel (any shape) among the tanks: a dict of volumes by tank.

    Tanks drawn together are filled in proportion to their size; tanks drawn in order from the last one drawn on.

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


def ways_to_fix(aircraft, stations, fuel, taxi=0.0, trip=0.0, category=None, actions=("move", "leave behind", "add")):
    """Ways to bring a load inside with one change: move, leave behind or add (ballast), least amount of each.

    Baggage and other loose load may be moved; anything but fuel may be left behind; ballast goes where baggage goes.
    Smallest amounts first. An empty list when the load is inside already, or no single change will do.
    """
    sheet = load_sheet(aircraft, stations, fuel, taxi, trip, category)
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


def _over(sheet):
    return not all(sheet.within(over) for over in sheet.station_over.values())


def _point_inside(sheet, empty_tanks, fuel, density):
    weight = empty_tanks + fuel * density
    # The path runs from heavy to light; interpolation wants it rising.
    moment = np.interp(weight, sheet.path_weights[::-1], sheet.path_moments[::-1])
    return bool(sheet.envelope.inside(weight, moment / weight))


def _room(aircraft, station, others):
    room = aircraft.station(station).maximum
    for limit in aircraft.combined_limits:
        if station in limit.holds:
            room = min(room, limit.maximum - sum(others.get(h, 0.0) for h in limit.holds))
    return max(room, 0.0)
