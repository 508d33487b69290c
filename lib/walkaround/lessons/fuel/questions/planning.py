"""Questions on planning: how long the fuel lasts, the least to order, and the most that the aircraft may carry."""

from functools import cache
from math import floor, nan

from walkaround import aircraft, measures
from walkaround.assessment.builders import number
from walkaround.lessons.fuel.questions.quantity import MORROWLARK
from walkaround.physics import fuel
from walkaround.physics.fuel.order import RESERVE_MIN
from walkaround.physics.loading import basic_weight_and_moment

TAXI, PER_HOUR = MORROWLARK.fuel_system.taxi, MORROWLARK.fuel_system.per_hour


def questions(v):
    """Questions on endurance and orders for a student's draws `v`."""
    return _endurance(v), _least(v), _most(v)


def _endurance(v):
    usable, per_hour, when = v.number("usable", 22, 44), v.number("burn", 8, 10, 0.5), v.pick("when", ("day", "night"))
    reserve, other = RESERVE_MIN[when], RESERVE_MIN["night" if when == "day" else "day"]
    unit, digits = measures.unit("US gal"), measures.places("US gal", 0, 1)
    usable, per_hour = (measures.given(x, "US gal", metric=1) for x in (usable, per_hour))
    answer = 60 * float(fuel.endurance_h(usable, per_hour, reserve))
    hours = answer / 60
    return number(
        "endurance",
        "How long it lasts",
        f"{usable:.{digits}f} {unit} of usable fuel are left in cruise by {when}, and the engine burns {per_hour:g} "
        f"{unit} an hour. The rule (14 CFR 91.151) wants {RESERVE_MIN['day']:.0f} minutes in reserve by day and "
        f"{RESERVE_MIN['night']:.0f} by night. For how many minutes may you fly on before you touch the reserve?",
        answer=answer,
        unit="min",
        tolerance=2,
        points=2,
        hint="All of it first, in minutes. Then take the reserve off.",
        worked=(
            f"{usable:.{digits}f} ÷ {per_hour:g} × 60 = {60 * usable / per_hour:.1f} min in all",
            f"{60 * usable / per_hour:.1f} − {reserve:.0f} = {answer:.1f} min",
        ),
        wrong=[
            (answer + reserve, "reserve forgotten", "That is to dry tanks. The reserve stays."),
            (answer + reserve - other, "the other reserve", f"That is with {other:.0f} minutes. It is {when}."),
            (hours, "hours for minutes", "That is in hours."),
            (60 * floor(hours) + 100 * (hours % 1), "decimals of an hour as minutes", "0.5 h are 30 minutes, not 50."),
        ],
    )


def _least(v):
    aboard, trip, when = v.number("aboard", 8, 14), v.number("trip", 90, 150, 5), v.pick("flown", ("day", "night"))
    own = v.number("own reserve", 60, 75, 5)
    rule, unit, digits = RESERVE_MIN[when], measures.unit("US gal"), measures.places("US gal", 0, 1)
    aboard, system = measures.given(aboard, "US gal", metric=1), aircraft.shown(MORROWLARK).fuel_system
    taxi, per_hour, kept = system.taxi, system.per_hour, (0.0, rule, own, own + rule)
    needs = dict(zip(kept, fuel.needed(taxi, trip, per_hour, kept).tolist(), strict=True))
    answer, left = needs[own] - aboard, f"{aboard:.{digits}f}"
    in_flight = round(needs[own] - taxi, 2)
    return number(
        "least",
        "The least to order",
        f"A flight by {when} takes {trip:.0f} minutes at {per_hour:g} {unit} an hour, and {taxi:g} {unit} for taxiing. "
        f"The rule wants {rule:.0f} minutes in reserve; your own minimum is {own:.0f} minutes. {left} {unit} of "
        "usable fuel are aboard. How much do you order at least?",
        answer=answer,
        unit=unit,
        tolerance=measures.given(0.3, "US gal", 1),
        points=3,
        hint="Taxi, the trip and one reserve, the longer of the two. Some of that is aboard.",
        worked=(
            f"in flight: ({trip:.0f} + {own:.0f}) ÷ 60 × {per_hour:g} = {in_flight:.2f} {unit}",
            f"{taxi:g} + {in_flight:.2f} − {left} = {taxi + in_flight - aboard:.2f} {unit}",
        ),
        wrong=[
            (needs[rule] - aboard, "the shorter reserve", "That keeps the rule, but not your own minimum."),
            (needs[own + rule] - aboard, "both reserves", "You added both reserves. The longer one holds the other."),
            (needs[0.0] - aboard, "no reserve", "You would land with dry tanks."),
            (answer - taxi, "taxi forgotten", "The fuel for taxiing is missing."),
            (needs[own], "fuel aboard forgotten", "That is what the flight needs. Some of it is aboard."),
        ],
    )


@cache
def _most_aboard(front, rear, hold):
    order = fuel.to_order(MORROWLARK, {"front seats": front, "rear seats": rear, "hold A": hold}, 0, TAXI, 20, 9)
    return order.most if order else nan


def _most(v):
    drawn = v.number("front", 350, 400, 10), v.number("rear", 350, 390, 10), v.number("hold", 85, 105, 5)
    aboard, craft = measures.given(v.number("aboard then", 8, 14), "US gal", metric=1), aircraft.shown(MORROWLARK)
    cabin = [measures.given(x, "lb", metric=1) for x in drawn]
    limit, density, taxi = craft.limits.take_off, craft.fuel.density, craft.fuel_system.taxi
    # An empty weight has the decimals of the aircraft's papers.
    empty, usable = round(basic_weight_and_moment(craft)[0], 1), sum(tank.usable for tank in craft.fuel.tanks)
    room = limit - empty - sum(cabin)
    total = room / density + taxi
    answer = total - aboard
    # Where something other than the take-off weight sets the most, other numbers are drawn.
    if measures.chosen() is None and abs(_most_aboard(*drawn) - total) >= 1e-6:
        answer = nan
    lb, gal = measures.unit("lb"), measures.unit("US gal")
    lbs, gals = measures.name("lb"), measures.name("US gal").removeprefix("US ")
    digits, tolerance = measures.places("lb", 0, 1), measures.given(0.3, "US gal", 1)
    left = f"{aboard:.{measures.places('US gal', 0, 1)}f}"
    limit, empty, front, rear, hold, room_for = (f"{x:,.{digits}f}" for x in (limit, empty, *cabin, room))
    return number(
        "most",
        "The most that may go in",
        f"Empty {empty} {lb}; {front} {lb} on the front seats, {rear} {lb} on the rear seats, {hold} {lb} in "
        f"hold A. At take-off the Morrowlark may weigh {limit} {lb}; the CG and all other limits hold. {left} {gal} "
        f"are aboard, {taxi:g} {gal} is burnt before take-off, and a {gals.removesuffix('s')} weighs {density:g} {lb}. "
        "How much may you order at most?",
        answer=answer,
        unit=gal,
        tolerance=tolerance,
        points=3,
        hint=f"How many {lbs} are left for fuel at take-off, and how many {gals} are they?",
        worked=(
            f"{limit} − {empty} − {front} − {rear} − {hold} = {room_for} {lb} for fuel at take-off",
            f"{room_for} ÷ {density:g} + {taxi:g} − {left} = {answer:.2f} {gal}",
        ),
        wrong=[
            (
                room,
                f"{lbs} for {gals}",
                f"That is in {lbs}, {density:g} to the {gals.removesuffix('s')}, and some fuel is aboard.",
            )
            # As many kilograms as litres, now and then.
            if not abs(room - answer) < 3 * tolerance
            else None,
            (total, "fuel aboard forgotten", "That is what may be aboard when you start. Some of it is there already."),
            (answer - taxi, "taxi forgotten", "What is burnt before take-off no longer weighs anything there: add it."),
            (usable - aboard, "full tanks", "That fills the tanks. The aircraft would be too heavy at take-off."),
        ],
    )
