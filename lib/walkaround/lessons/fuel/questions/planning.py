"""Questions on planning: how long the fuel lasts, the least to order, and the most that the aircraft may carry."""

from functools import cache
from math import floor, nan

from walkaround.assessment.builders import number
from walkaround.lessons.fuel.questions.quantity import MORROWLARK
from walkaround.physics import fuel
from walkaround.physics.fuel.order import RESERVE_MIN
from walkaround.physics.loading import basic_weight_and_moment

TAXI, PER_HOUR = MORROWLARK.fuel_system.taxi, MORROWLARK.fuel_system.per_hour
USABLE = sum(tank.usable for tank in MORROWLARK.fuel.tanks)
DENSITY = MORROWLARK.fuel.density


def questions(v):
    """Questions on endurance and orders for a student's draws `v`."""
    return _endurance(v), _least(v), _most(v)


def _endurance(v):
    usable, per_hour, when = v.number("usable", 22, 44), v.number("burn", 8, 10, 0.5), v.pick("when", ("day", "night"))
    reserve, other = RESERVE_MIN[when], RESERVE_MIN["night" if when == "day" else "day"]
    answer = 60 * float(fuel.endurance_h(usable, per_hour, reserve))
    hours = answer / 60
    return number(
        "endurance",
        "How long it lasts",
        f"{usable:.0f} US gal of usable fuel are left in cruise by {when}, and the engine burns {per_hour:g} US gal an "
        f"hour. The rule (14 CFR 91.151) wants {RESERVE_MIN['day']:.0f} minutes in reserve by day and "
        f"{RESERVE_MIN['night']:.0f} by night. For how many minutes may you fly on before you touch the reserve?",
        answer=answer,
        unit="min",
        tolerance=2,
        points=2,
        hint="All of it first, in minutes. Then take the reserve off.",
        worked=(
            f"{usable:.0f} ÷ {per_hour:g} × 60 = {60 * usable / per_hour:.1f} min in all",
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
    rule = RESERVE_MIN[when]
    kept = (0.0, rule, own, own + rule)
    needs = dict(zip(kept, fuel.needed(TAXI, trip, PER_HOUR, kept).tolist(), strict=True))
    answer = needs[own] - aboard
    return number(
        "least",
        "The least to order",
        f"A flight by {when} takes {trip:.0f} minutes at {PER_HOUR:g} US gal an hour, and {TAXI:g} US gal for taxiing. "
        f"The rule wants {rule:.0f} minutes in reserve; your own minimum is {own:.0f} minutes. {aboard:.0f} US gal of "
        "usable fuel are aboard. How much do you order at least?",
        answer=answer,
        unit="US gal",
        tolerance=0.3,
        points=3,
        hint="Taxi, the trip and one reserve, the longer of the two. Some of that is aboard.",
        worked=(
            f"in flight: ({trip:.0f} + {own:.0f}) ÷ 60 × {PER_HOUR:g} = {needs[own] - TAXI:.2f} US gal",
            f"{TAXI:g} + {needs[own] - TAXI:.2f} − {aboard:.0f} = {answer:.2f} US gal",
        ),
        wrong=[
            (needs[rule] - aboard, "the shorter reserve", "That keeps the rule, but not your own minimum."),
            (needs[own + rule] - aboard, "both reserves", "You added both reserves. The longer one holds the other."),
            (needs[0.0] - aboard, "no reserve", "You would land with dry tanks."),
            (answer - TAXI, "taxi forgotten", "The fuel for taxiing is missing."),
            (needs[own], "fuel aboard forgotten", "That is what the flight needs. Some of it is aboard."),
        ],
    )


@cache
def _most_aboard(front, rear, hold):
    order = fuel.to_order(MORROWLARK, {"front seats": front, "rear seats": rear, "hold A": hold}, 0, TAXI, 20, 9)
    return order.most if order else nan


def _most(v):
    cabin = v.number("front", 350, 400, 10), v.number("rear", 350, 390, 10), v.number("hold", 85, 105, 5)
    aboard, limit = v.number("aboard then", 8, 14), MORROWLARK.limits.take_off
    (front, rear, hold), (empty, _) = cabin, basic_weight_and_moment(MORROWLARK)
    room = limit - empty - sum(cabin)
    total = room / DENSITY + TAXI
    # Where something other than the take-off weight sets the most, other numbers are drawn.
    answer = total - aboard if abs(_most_aboard(*cabin) - total) < 1e-6 else nan
    return number(
        "most",
        "The most that may go in",
        f"Empty {empty:,.0f} lb; {front:.0f} lb on the front seats, {rear:.0f} lb on the rear seats, {hold:.0f} lb in "
        f"hold A. At take-off the Morrowlark may weigh {limit:,.0f} lb; the CG and all other limits hold. {aboard:.0f} "
        f"US gal are aboard, {TAXI:g} US gal is burnt before take-off, and a gallon weighs {DENSITY:g} lb. How much "
        "may you order at most?",
        answer=answer,
        unit="US gal",
        tolerance=0.3,
        points=3,
        hint="How many pounds are left for fuel at take-off, and how many gallons are they?",
        worked=(
            f"{limit:,.0f} − {empty:,.0f} − {front:.0f} − {rear:.0f} − {hold:.0f} = {room:.0f} lb for fuel at take-off",
            f"{room:.0f} ÷ {DENSITY:g} + {TAXI:g} − {aboard:.0f} = {total - aboard:.2f} US gal",
        ),
        wrong=[
            (room, "pounds for gallons", f"That is in pounds, {DENSITY:g} to the gallon, and some fuel is aboard."),
            (total, "fuel aboard forgotten", "That is what may be aboard when you start. Some of it is there already."),
            (answer - TAXI, "taxi forgotten", "What is burnt before take-off no longer weighs anything there: add it."),
            (USABLE - aboard, "full tanks", "That fills the tanks. The aircraft would be too heavy at take-off."),
        ],
    )
