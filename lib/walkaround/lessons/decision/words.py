"""A flight in words: what is known of it, its limits, and what a number beside its limit says."""

from walkaround import measures
from walkaround.lessons.decision.findings import nose_leg_limit_lb, pull_words
from walkaround.lessons.decision.flight import (
    BALANCE,
    ENGINE,
    FUEL,
    OIL,
    ROUND,
    RUNWAY,
    RUNWAY_FACTOR,
    craft,
    density,
    oil_margin,
)
from walkaround.physics.fuel.order import RESERVE_MIN

RULE = f"{RUNWAY_FACTOR:g} times the take-off roll has to fit on the runway (a rule of thumb)"


def number_of(value, digits=0, unit=""):
    """Write a number with its unit, with the sign of mathematics.

    >>> number_of(-12.34, 1, "°C"), number_of(1234.0, 0, "ft")
    ('−12.3 °C', '1,234 ft')
    """
    return f"{value:,.{digits}f} {unit}".replace("-", "−").strip()


def weight(number):
    """Write a weight of the units shown without its unit.

    >>> weight(2610)
    '2,610'
    """
    return f"{number:,.{measures.places('lb', 0, metric=1)}f}"


def arm(number):
    """Write an arm of the units shown with its unit: as short as it is in inches, to the millimetre in metres."""
    return f"{number:g} in" if measures.unit("arm") == "in" else f"{number:.3f} m"


def length(number):
    """Write how far up the dipstick is wet, in the units shown, without its unit."""
    return f"{number:.{measures.places('in', 1, metric=2)}f}"


def wind(f):
    """The wind along the runway."""
    return f"{abs(f.headwind_kt)} kt from {'ahead' if f.headwind_kt > 0 else 'behind'}"


def day(f):
    """What is known of a flight: rows of a table."""
    pounds, gallons, inches, per_hour = (measures.unit(of) for of in ("lb", "US gal", "in", "qt/h"))
    return (
        ("this flight", "value"),
        *((name, f"{weight(load)} {pounds}") for name, load in f.stations.items()),
        ("fuel aboard, usable", f"{f.fuel:.1f} {gallons}"),
        ("flight", f"{f.hours:g} h by {'night' if f.night else 'day'}"),
        ("oil on the dipstick, level and run back", f"{length(f.stick)} {inches}"),
        ("oil burnt", f"{f.oil_per_hour:g} {per_hour}"),
        ("outside", number_of(f.outside_c, 0, "°C")),
        ("oil temperature", number_of(f.oil_c, 0, "°C")),
        ("metal temperature", number_of(f.metal_c, 0, "°C")),
        ("wind along the runway", wind(f)),
        ("runway that can be used", measures.words(f.runway_ft, "ft")),
        ("density of the air, sea level is 1", f"{density(f):.3f}"),
        ("the round found", f.found.words),
    )


def arms():
    """Where weight sits in the aircraft: rows of a table."""
    four = craft()
    tank, pounds, gallon = four.fuel.tanks[0], four.units.weight, four.units.volume
    return (
        ("the Morrowlark Four", "arm"),
        (f"empty, {weight(four.empty.weight)} {pounds}", arm(four.empty.arm)),
        *((s.name, arm(s.arm)) for s in four.stations),
        (f"fuel, {four.fuel.density:g} {pounds} for 1 {gallon}", arm(tank.arm)),
    )


def stick():
    """The dipstick: rows of a table."""
    oil = craft().engine.oil
    rows = zip(oil.dipstick_marks, oil.dipstick_quantities, strict=True)
    inches, quarts = measures.unit("in"), measures.unit("qt")
    return ("on the dipstick", "oil"), *((f"{length(mark)} {inches}", f"{oil:g} {quarts}") for mark, oil in rows)


def limits(*about):
    """Limits and rules, rows of a table: all of them, or those whose names begin with one of these."""
    four, limit = craft(), craft().limits
    engine, (low, high) = four.engine, sorted({w for _, w in four.envelopes[0].corners})[1:3]
    forward = {w: at for at, w in four.envelopes[0].corners[1:3]}
    aft = max(at for at, _ in four.envelopes[0].corners)
    pounds, gallons, quarts = four.units.weight, four.units.volume, measures.unit("qt")
    system = four.fuel_system
    rows = (
        ("take-off weight, at the most", f"{weight(limit.take_off)} {pounds}"),
        ("landing weight, at the most", f"{weight(limit.landing)} {pounds}"),
        ("weight without usable fuel, at the most", f"{weight(limit.zero_fuel)} {pounds}"),
        ("CG, forward limit", f"{arm(forward[low])} up to {weight(low)} {pounds}, then in a straight line to "
         f"{arm(forward[high])} at {weight(high)} {pounds}"),
        ("CG, aft limit", arm(aft)),
        ("fuel", f"{system.taxi:g} {gallons} to taxi, {system.per_hour:g} {gallons}/h, reserve "
         f"{RESERVE_MIN['day']:g} min by day, {RESERVE_MIN['night']:g} min by night"),
        ("oil, at the least", f"{engine.oil.minimum:g} {quarts}, what the flight burns, and {oil_margin():g} {quarts} "
         "to spare"),
        ("engine", f"below {number_of(engine.preheat_below_c)} °C outside it is heated first, until the oil is at "
         f"{engine.ready_oil_c:g} °C and the metal at {engine.ready_metal_c:g} °C, at the least"),
        ("runway", RULE),
        ("elevator up", f"{four.control_surfaces.elevator.up_deg:g}° ± {four.control_surfaces.tolerance_deg:g}°"),
        ("nose wheel turned", f"up to {four.towing.turning_limit_deg:g}°"),
        ("pull on the nose leg", f"up to {pull_words(nose_leg_limit_lb())}"),
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
