"""How long the fuel lasts, what a flight needs, and how much to order so that load, balance and reserve all hold."""

from dataclasses import dataclass

import numpy as np

from walkaround import checks
from walkaround.physics.loading.loadsheet import load_sheet
from walkaround.physics.loading.planning import most_fuel

RESERVE_MIN = {"day": 30.0, "night": 45.0}  # VFR, at normal cruise: 14 CFR 91.151 (recalled)


@dataclass(frozen=True)
class Order:
    """How much fuel to order, from `least` to `most`, and the usable fuel that the flight `needs` at start-up.

    All in the aircraft file's unit of volume.

    >>> Order(least=10.0, most=22.5, needs=30.0).most
    22.5
    """

    least: float
    most: float
    needs: float


def endurance_h(usable, per_hour, reserve_min=0.0):
    """Hours that usable fuel lasts before the reserve is touched; 0 if it is touched already (shapes broadcast).

    usable/per_hour − reserve, in one unit of volume. Raises ValueError for anything below 0, a consumption that is not
    above 0, or shapes that don't fit.

    >>> float(endurance_h(usable=40.0, per_hour=10.0, reserve_min=45.0))
    3.25
    """
    usable = checks.numbers("usable", usable, low=0)
    per_hour = checks.numbers("per_hour", per_hour, above=0)
    reserve = checks.numbers("reserve_min", reserve_min, low=0, unit="min")
    checks.same_shape(usable=usable, per_hour=per_hour, reserve_min=reserve)
    return np.maximum(usable / per_hour - reserve / 60.0, 0.0)


def needed(taxi, trip_min, per_hour, reserve_min):
    """Usable fuel that a flight needs at start-up: taxi, the trip and the reserve (shapes broadcast).

    taxi + (trip_min + reserve_min)/60 · per_hour, in one unit of volume. For the reserve, take the rule's or
    your own, whichever is longer. Raises ValueError for anything below 0, or shapes that don't fit.

    >>> float(needed(taxi=1.0, trip_min=90.0, per_hour=8.0, reserve_min=60.0))
    21.0
    """
    given = {"taxi": taxi, "trip_min": trip_min, "per_hour": per_hour, "reserve_min": reserve_min}
    arrays = {name: checks.numbers(name, value, low=0) for name, value in given.items()}
    taxi, trip, per_hour, reserve = checks.same_shape(**arrays)
    return taxi + (trip + reserve) / 60.0 * per_hour


def to_order(aircraft, stations, aboard, taxi, trip, reserve, category=None):
    """How much fuel to order so that the reserve is there at landing and load and balance hold: an `Order`, or None.

    `aircraft` as read from a file; `stations`, weights by name; `aboard`, the usable fuel that is there; `taxi`, `trip`
    and `reserve`, volumes. None if no amount does it: then leave something behind, or land on the way. With what is
    ordered the tanks are filled as `loading.filled` fills them, and any amount from `least` to `most` is good. Raises
    ValueError as `loading.most_fuel` does, and for fuel aboard or a reserve below 0.

    >>> from walkaround import aircraft
    >>> four, cabin = aircraft.demo("morrowlark_four"), {"front seats": 340, "rear seats": 340}
    >>> order = to_order(four, cabin, aboard=12, taxi=1, trip=20, reserve=9)
    >>> order.needs, order.least, round(order.most, 1)
    (30.0, 18.0, 37.0)
    """
    unit, fuel = aircraft.units.volume, aircraft.fuel
    aboard = checks.number("fuel aboard", aboard, low=0, unit=unit)
    reserve = checks.number("reserve", reserve, low=0, unit=unit)
    most = most_fuel(aircraft, stations, taxi, trip, category)
    if most is None:
        return None
    full = {tank.name: tank.usable for tank in fuel.tanks}
    used, total = float(taxi + trip), sum(full.values())
    least = max(used + reserve, aboard)
    # What a full aircraft passes on its way to empty tanks: between two fuels it may be outside, see `most_fuel`.
    sheet = load_sheet(aircraft, stations, full, 0.0, total, category)
    empty = float(sheet.path_weights[-1])
    parts = sheet.envelope.outside_parts(sheet.path_weights, sheet.path_moments, slack_share=0.5)
    for upper, lower in sorted(parts, key=lambda part: part[1]):
        begins, ends = (lower - empty) / fuel.density, (upper - empty) / fuel.density
        # A part that begins at empty tanks goes on below them: no flight stays under it.
        if not checks.at_most(begins, 0.0, total) and checks.at_most(least - taxi, begins, total):
            most = min(most, begins + taxi)
        elif not checks.at_least(least - used, ends, total):
            least = ends + used
    if not checks.at_most(least, most, total):
        return None
    return Order(float(least - aboard), float(max(most, least) - aboard), float(used + reserve))
