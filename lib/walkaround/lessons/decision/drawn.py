"""A student's flight: drawn so that it is clearly on one side of every limit, before and after whatever is done."""

from dataclasses import dataclass, replace
from functools import cache, lru_cache
from itertools import pairwise

from walkaround import checks, measures
from walkaround.lessons.decision.findings import NOTHING, for_a_mechanic, harmless, on_the_spot
from walkaround.lessons.decision.flight import (
    BALANCE,
    ENGINE,
    FUEL,
    LANDING,
    OIL,
    ROUND,
    RUNWAY,
    TAKE_OFF,
    Flight,
    checked,
    craft,
    fuel_needed,
    most_fuel,
    oil_needed,
    reasons,
    runway_needed,
    sheet,
)
from walkaround.lessons.decision.mends import MECHANIC, NONE, mends, that_work
from walkaround.physics.oil import from_dipstick

GO, LOOKS_BAD, MEND, NOT_TODAY = SORTS = "go", "looks bad", "mend", "not today"
_DRAWN = (GO, MEND, *[LOOKS_BAD] * 3, *[MEND] * 3, NOT_TODAY)  # how often each
CLEAR = {TAKE_OFF: 8, LANDING: 8, BALANCE: 0.3, FUEL: 0.5, OIL: 0.2, ENGINE: 2, RUNWAY: 45}  # in the check's unit
RANKED = (TAKE_OFF, FUEL, OIL, RUNWAY)
_APART = 0.02  # share of the limit between one's room and the next one's
_TIGHT = 0.05  # a room that looks bad
_MOST = 10_000  # draws; a balance out of its limits takes 70 on average, and somebody will be unlucky


@dataclass(frozen=True)
class Drawn:
    """A flight, its sort, what may be done about it, and the keys of what works; the amounts of what may be done."""

    flight: Flight
    sort: str
    offered: tuple
    works: frozenset
    amounts: tuple


@lru_cache(maxsize=64)
def draw(v):
    """Draw a student's flight (`Drawn`), in US units; `v` is an `assessment.variant.Variant`.

    >>> from walkaround.assessment.variant import Variant
    >>> draw(Variant("home", "Ines Okafor", "decision")).sort in SORTS
    True
    """
    sort = v.pick("sort", _DRAWN)
    cause = v.pick("cause", ("bags", "balance", FUEL, OIL, ENGINE, RUNWAY, ROUND, "landing"))
    with measures.shown_in(None):
        for attempt in range(_MOST):
            drawn = _draw(_Again(v, attempt), sort, cause)
            if drawn is not None:
                return drawn
    raise ValueError(f"no flight of the sort {sort!r} in {_MOST} draws")


class _Again:
    """The draws of a student, anew with every attempt."""

    def __init__(self, v, attempt):
        self._v, self._attempt = v, attempt

    def number(self, label, *ends):
        return self._v.number(f"{label}/{self._attempt}", *ends)

    def pick(self, label, options):
        return self._v.pick(f"{label}/{self._attempt}", options)


def _draw(v, sort, cause):
    f = _flight(v, sort, cause)
    if f is None:
        return None
    failing = reasons(f)
    wanted = sort in (MEND, NOT_TODAY)
    if bool(failing) != wanted or not _fits(f) or not _ranks_clearly(f):
        return None
    if sort == MEND and not _is_cause(failing, cause):
        return None
    if sort in (GO, LOOKS_BAD) and (_looks(f) > 0) != (sort == LOOKS_BAD):
        return None
    amounts = (
        v.number("bags left", 40, 100, 10),
        v.number("forward", 30, 60, 10),
        v.number("gallons", 4, 12),
        v.number("qt", 1, 2),
    )
    offered = tuple(mends(f, *amounts))
    if not all(_clear(after) for after in (f, *(mend.done(f) for mend in offered))):
        return None
    if not all(_fits(mend.done(f)) for mend in offered):
        return None
    works = that_work(f, offered)
    if not works or (works == {NONE}) == wanted or (works == {MECHANIC}) != (sort == NOT_TODAY):
        return None
    return Drawn(f, sort, offered, works, amounts)


def _is_cause(failing, cause):
    by = {"bags": TAKE_OFF, "balance": BALANCE, "landing": LANDING}
    return by.get(cause, cause) in failing


def _flight(v, sort, cause):
    """A flight whose numbers are made from their limits: a little on the good side, and the cause's on the bad one."""
    bad = cause if sort == MEND else ""
    cold = bad == ENGINE or v.pick("season", (True, False, False))
    outside = int(v.number("cold", -18, -9) if cold else v.number("outside", -5, 33))
    found = {
        LOOKS_BAD: lambda: v.pick("alarm", (NOTHING, *[harmless(v, outside)] * 3)),
        NOT_TODAY: lambda: for_a_mechanic(v),
        MEND: lambda: on_the_spot(v, outside) if bad == ROUND else v.pick("alarm", (NOTHING, harmless(v, outside))),
    }.get(sort, lambda: NOTHING)()
    wind = v.pick("wind", (-9, -7, -5, -4) if bad == RUNWAY else (-7, -5, -4, 4, 6, 8, 10, 12))
    blank = Flight(
        front=0,
        rear=0,
        hold_a=0,
        hold_b=0,
        fuel=0.0,
        hours=v.number("hours", 0.5, 1.5 if bad == "landing" else 2.75, 0.25),
        night=v.pick("night", (False, False, True)),
        stick=0.0,
        oil_per_hour=v.number("oil per hour", 0.1, 0.3, 0.05),
        outside_c=outside,
        oil_c=outside,
        metal_c=outside,
        headwind_kt=int(wind),
        runway_ft=0,
        found=found,
    )
    spare = (-4, -1) if bad == FUEL else (8, 20) if bad in ("bags", "landing") else (0.5, 9)
    fuel = round(2 * (fuel_needed(blank) + v.number("fuel", *spare, 0.5))) / 2
    blank = replace(blank, fuel=fuel, **_engine(v, blank, bad))
    cabin = _load(v, blank, bad)
    most = craft().station("rear seats").maximum
    if not (cabin["rear"] == 0 or 100 <= cabin["rear"] <= most) or not checks.at_most(fuel, most_fuel()):
        return None
    return replace(blank, **cabin, runway_ft=_runway(v, blank, bad), stick=_stick(v, blank, bad))


def _engine(v, f, bad):
    engine = craft().engine
    if f.outside_c >= engine.preheat_below_c:
        return {}
    if bad == ENGINE:
        return {"oil_c": v.number("cold oil", 2, 8), "metal_c": v.number("cold metal", -6, 9)}
    return {"oil_c": v.number("oil c", 12, 24), "metal_c": v.number("metal c", 2, 14)}


def _runway(v, f, bad):
    asks = runway_needed(f)
    clear = [ft for ft in range(1200, 2201, 100) if checks.at_least(abs(ft - asks), CLEAR[RUNWAY])]
    here = [ft for ft in clear if (ft < asks) == (bad == RUNWAY)]
    return v.pick("runway", here[-5:] if bad == RUNWAY else here[:5]) if here else 2200


def _stick(v, f, bad):
    needs = oil_needed(f)
    more = {inches: quarts - needs for inches, quarts in _quarts().items()}
    clear = {inches: by for inches, by in more.items() if checks.at_least(abs(by), CLEAR[OIL], needs)}
    return v.pick("stick", [inches for inches, by in clear.items() if (by < 0) == (bad == OIL)])


@cache
def _quarts():
    """What the stick says, at every tenth of an inch."""
    oil, inches = craft().engine.oil, [n / 10 for n in range(11, 33)]
    read = from_dipstick(inches, oil.dipstick_marks, oil.dipstick_quantities)
    return {inch: float(quarts) for inch, quarts in zip(inches, read, strict=True)}


def _load(v, f, bad):
    """Weights in the cabin that make the take-off weight drawn, with as much behind as balance has room for."""
    if bad == BALANCE:
        ends = {"front": (140, 180), "rear": (380, 440), "hold_a": (70, 100), "hold_b": (30, 50)}
        return {name: int(v.number(name, *pair, 5)) for name, pair in ends.items()}
    weight = v.number("weight", *{"bags": (2620, 2680), "landing": (2540, 2600)}.get(bad, (2260, 2600)), 5)
    rest = weight - craft().empty.weight - craft().fuel.density * (f.fuel - craft().fuel_system.taxi)
    hold_a, hold_b = v.number("hold a", 0, 100, 5), v.number("hold b", 0, 50, 5)
    front = v.number("front", 250, 400, 5)
    rear = 5 * round((rest - front - hold_a - hold_b) / 5)
    if rear < 60:  # nobody sits there
        front, rear = front + rear, 0
    loads = {"front": front, "rear": rear, "hold_a": hold_a, "hold_b": hold_b}
    return {name: int(load) for name, load in loads.items()}


def _looks(f):
    """How many things look bad: little room, an alarm, deep frost."""
    tight = sum(0 < check.share < _TIGHT for check in checked(f) if check.key != ROUND)
    return tight + (f.found is not NOTHING) + (f.outside_c < craft().engine.preheat_below_c)


def _clear(f):
    """Whether every number is clear of its limit by more than a person reads wrongly."""
    held = (check for check in checked(f) if check.limit is not None)
    return all(checks.at_least(abs(check.room), CLEAR.get(check.key, 0), check.limit) for check in held)


def _fits(f):
    """Whether the limits that no question asks about are met, and the CG stays on its side all the way."""
    loaded = sheet(f)
    take_off_inside = bool(loaded.condition("take-off").inside) or loaded.condition("take-off").over > 0
    return bool(
        loaded.stations_within
        and checks.at_least(-loaded.condition("zero fuel").over, CLEAR[TAKE_OFF], craft().limits.zero_fuel)
        and (bool(loaded.stays_inside) == take_off_inside or loaded.condition("take-off").over > 0)
    )


def _ranks_clearly(f):
    shares = sorted(check.share for check in checked(f) if check.key in RANKED)
    return all(checks.at_least(b - a, _APART) for a, b in pairwise(shares))
