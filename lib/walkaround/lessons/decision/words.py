"""A flight in words: what is known of it, its limits, and what a number beside its limit says."""

from walkaround.lessons.decision.flight import (
    BALANCE,
    ENGINE,
    FUEL,
    OIL,
    OIL_MARGIN,
    ROUND,
    RUNWAY,
    RUNWAY_FACTOR,
    craft,
    density,
)
from walkaround.physics.fuel.order import RESERVE_MIN

RULE = f"{RUNWAY_FACTOR:g} times the take-off roll has to fit on the runway (a rule of thumb)"


def number_of(value, digits=0, unit=""):
    """Write a number with its unit, with the sign of mathematics.

    >>> number_of(-12.34, 1, "°C"), number_of(1234.0, 0, "ft")
    ('−12.3 °C', '1,234 ft')
    """
    return f"{value:,.{digits}f} {unit}".replace("-", "−").strip()


def wind(f):
    """The wind along the runway."""
    return f"{abs(f.headwind_kt)} kt from {'ahead' if f.headwind_kt > 0 else 'behind'}"


def day(f):
    """What is known of a flight: rows of a table."""
    return (
        ("this flight", "value"),
        *((name, f"{weight} lb") for name, weight in f.stations.items()),
        ("fuel aboard, usable", f"{f.fuel:.1f} US gal"),
        ("flight", f"{f.hours:g} h by {'night' if f.night else 'day'}"),
        ("oil on the dipstick, level and run back", f"{f.stick:.1f} in"),
        ("oil burnt", f"{f.oil_per_hour:g} qt/h"),
        ("outside", number_of(f.outside_c, 0, "°C")),
        ("oil temperature", number_of(f.oil_c, 0, "°C")),
        ("metal temperature", number_of(f.metal_c, 0, "°C")),
        ("wind along the runway", wind(f)),
        ("runway that can be used", f"{f.runway_ft:,} ft"),
        ("density of the air, sea level is 1", f"{density(f):.3f}"),
        ("the round found", f.found.words),
    )


def arms():
    """Where weight sits in the aircraft: rows of a table."""
    four = craft()
    tank = four.fuel.tanks[0]
    return (
        ("the Morrowlark Four", "arm"),
        (f"empty, {four.empty.weight:,.0f} lb", f"{four.empty.arm:g} in"),
        *((s.name, f"{s.arm:g} in") for s in four.stations),
        (f"fuel, {four.fuel.density:g} lb for 1 US gal", f"{tank.arm:g} in"),
    )


def stick():
    """The dipstick: rows of a table."""
    oil = craft().engine.oil
    rows = zip(oil.dipstick_marks, oil.dipstick_quantities, strict=True)
    return ("on the dipstick", "oil"), *((f"{mark:.1f} in", f"{quarts:g} qt") for mark, quarts in rows)


def limits(*about):
    """Limits and rules, rows of a table: all of them, or those whose names begin with one of these."""
    four, limit = craft(), craft().limits
    engine, (low, high) = four.engine, sorted({w for _, w in four.envelopes[0].corners})[1:3]
    forward = {w: arm for arm, w in four.envelopes[0].corners[1:3]}
    aft = max(arm for arm, _ in four.envelopes[0].corners)
    rows = (
        ("take-off weight, at the most", f"{limit.take_off:,.0f} lb"),
        ("landing weight, at the most", f"{limit.landing:,.0f} lb"),
        ("weight without usable fuel, at the most", f"{limit.zero_fuel:,.0f} lb"),
        ("CG, forward limit", f"{forward[low]:g} in up to {low:,.0f} lb, then in a straight line to "
         f"{forward[high]:g} in at {high:,.0f} lb"),
        ("CG, aft limit", f"{aft:g} in"),
        ("fuel", f"{four.fuel_system.taxi:g} US gal to taxi, {four.fuel_system.per_hour:g} US gal/h, reserve "
         f"{RESERVE_MIN['day']:g} min by day, {RESERVE_MIN['night']:g} min by night"),
        ("oil, at the least", f"{engine.oil.minimum:g} qt, what the flight burns, and {OIL_MARGIN:g} qt to spare"),
        ("engine", f"below {number_of(engine.preheat_below_c)} °C outside it is heated first, until the oil is at "
         f"{engine.ready_oil_c:g} °C and the metal at {engine.ready_metal_c:g} °C, at the least"),
        ("runway", RULE),
        ("elevator up", f"{four.control_surfaces.elevator.up_deg:g}° ± {four.control_surfaces.tolerance_deg:g}°"),
        ("nose wheel turned", f"up to {four.towing.turning_limit_deg:g}°"),
        ("pull on the nose leg", f"up to {four.towing.nose_leg_limit:g} lb"),
        ("winter kit", f"off above {number_of(four.cooling.kit.off_above_c)} °C outside"),
    )  # fmt: skip
    return ("limit or rule", "value"), *(row for row in rows if not about or row[0].startswith(about))


def beside(check):
    """A number beside its limit, in words."""
    if check.limit is None:
        return "no limit today" if check.key == ENGINE else ("in order" if check.met else "not in order")
    value, limit = (number_of(v, check.digits) for v in (check.value, check.limit))
    return f"{value} {check.unit}, {'needs' if check.key in (FUEL, OIL) else 'limit'} {limit}"


NAMES = {BALANCE: "CG", ENGINE: "engine", ROUND: "the round", RUNWAY: "runway needed"}


def name_of(key):
    """What a check is called in front of its number."""
    return NAMES.get(key, key)
