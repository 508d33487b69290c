"""Questions on the wind's load: how it grows, when it lifts the aircraft, and what a free elevator does."""

from functools import cache

from walkaround import aircraft, measures
from walkaround.aircraft import tie_down
from walkaround.assessment.builders import choice, number
from walkaround.physics.loading import basic_weight_and_moment
from walkaround.physics.securing import standing, wind_loads

MORROWLARK = aircraft.demo("morrowlark_four")
POUND_N = tie_down.newton(MORROWLARK.units)
EMPTY = float(basic_weight_and_moment(MORROWLARK)[0])
USABLE, DENSITY = sum(tank.usable for tank in MORROWLARK.fuel.tanks), MORROWLARK.fuel.density
ELEVATOR = MORROWLARK.control_surfaces.elevator


def force(pounds):
    """A force in lb as it is given to a student: in N, in metric units."""
    return measures.given(pounds, "lbf")


def questions(v):
    """Questions on the wind for a student's draws `v`."""
    return _times(v), _lifts(v), _tanks(v), _elevator(v)


def _times(v):
    steady, more = v.number("steady", 16, 30), v.number("gusts", 9, 20)
    gust = steady + more
    answer = (gust / steady) ** 2
    return number(
        "times",
        "A gust",
        f"The wind blows steadily at {steady:.0f} kt, with gusts of {gust:.0f} kt from the same side. How many "
        "times as large are lift and drag in such a gust as in the steady wind?",
        answer=answer,
        unit="times",
        tolerance=0.05,
        points=1,
        hint="Twice the wind is four times the force.",
        worked=f"{gust:.0f} ÷ {steady:.0f} × {gust:.0f} ÷ {steady:.0f} = {answer:.2f} times",
        wrong=[
            (gust / steady, "not squared", "That is how many times as fast it blows. The force goes with the square."),
            ((more / steady) ** 2, "only the difference squared", "Square each wind, not what lies between them."),
            (answer - 1, "how much more", "That is by how much it is more. How many times as much is it?"),
            ((gust / steady) ** 3, "cubed", "That is the cube. Lift and drag go with the square of the wind."),
        ],
    )


@cache
def lift_lb(wind_kt, nose_up_deg):
    """Lift of the Morrowlark's wing in whole lb, in a wind from ahead.

    >>> lift_lb(40, 4)
    640
    """
    wind = wind_loads(tie_down.airframe(MORROWLARK), wind_kt, nose_up_deg=nose_up_deg)
    return round(float(wind.left_n + wind.right_n) / POUND_N)


def _lifts(v):
    wind, nose = v.pick("at", (30, 35, 40)), v.number("nose", 0, 6)
    lift, empty, unit = force(lift_lb(wind, nose)), force(EMPTY), measures.unit("lbf")
    ratio = round(empty / lift, 3)
    answer = wind * (empty / lift) ** 0.5
    stands = f"with its nose {nose:.0f}° up" if nose else "level"
    root = round(ratio**0.5, 3)
    return number(
        "lifts",
        "When the wing carries it",
        f"The Morrowlark stands {stands} on its wheels, with no rope on it. In a wind of {wind} kt from ahead its wing "
        f"lifts {lift:,.0f} {unit}; empty it weighs {empty:,.0f} {unit}. At which wind does the wing lift "
        "as much as the aircraft weighs? Leave the tail out.",
        answer=answer,
        unit="kt",
        tolerance=0.6,
        points=3,
        hint="How many times as much lift is needed? The wind goes with the square root of that.",
        worked=(
            f"{empty:,.0f} ÷ {lift:,.0f} = {ratio:.3f} times as much lift",
            f"√{ratio:.3f} = {root:.3f} times the wind",
            f"{wind} × {root:.3f} = {wind * root:.1f} kt",
        ),
        wrong=[
            (wind * empty / lift, "root forgotten", "That wind would lift far more: lift goes with its square."),
            (wind * (empty / lift - 1) ** 0.5, "only what is missing", "Compare the whole weight with the lift."),
            (
                wind * (lift / empty) ** 0.5,
                "turned round",
                "You divided the wrong way round: more lift needs more wind.",
            ),
        ],
    )


def _tanks(v):
    wind, gallons = v.number("empty lifts at", 52, 72), measures.given(v.number("in the tanks", 30, 49), "US gal")
    empty, decimals = measures.given(EMPTY, "lb", metric=1), measures.places("lb", metric=1)
    density = measures.given(DENSITY, "lb/US gal", 1)
    full = round(empty + gallons * density, decimals)
    ratio = round(full / empty, 4)
    root = round(ratio**0.5, 4)
    answer = wind * (full / empty) ** 0.5
    unit, each, of_fuel = measures.unit("lb"), measures.name("US gal", one=True).split()[-1], measures.unit("US gal")
    return number(
        "tanks",
        "Full tanks hold it down",
        f"Empty, at {empty:,.{decimals}f} {unit}, the Morrowlark would be lifted off its wheels by a wind of "
        f"{wind:.0f} kt. Now {gallons:.0f} {of_fuel} of fuel at {density:g} {unit} to the {each} are in its tanks, and "
        "it stands as before. Which wind does it take now?",
        answer=answer,
        unit="kt",
        tolerance=0.4,
        points=2,
        hint="The lift must grow as the weight does, and the wind as its square root.",
        worked=(
            f"{empty:,.{decimals}f} + {gallons:.0f} × {density:g} = {full:,.{decimals}f} {unit}",
            f"{full:,.{decimals}f} ÷ {empty:,.{decimals}f} = {ratio:.4f}",
            f"√{ratio:.4f} = {root:.4f}",
            f"{wind:.0f} × {root:.4f} = {wind * root:.1f} kt",
        ),
        wrong=[
            (wind * full / empty, "root forgotten", "The weight grows so much, the wind only by the root of it."),
            (wind, "fuel forgotten", "That is with empty tanks. The fuel's weight has to be lifted, too."),
            (
                wind * ((empty + gallons) / empty) ** 0.5,
                f"{each}s for {measures.name('lb')}",
                f"You added {each}s to {measures.name('lb')}: a {each} weighs {density:g} {unit}.",
            ),
        ],
    )


@cache
def pulled(wind_kt, elevator_deg):
    """Which end a wind from ahead lifts with the elevator somewhere, well tied: "nose", "tail" or "" if neither.

    >>> pulled(65, -28.0), pulled(65, 23.0), pulled(40, 0.0)
    ('nose', 'tail', '')
    """
    parked = tie_down.parked(
        MORROWLARK, tie_down.ropes(MORROWLARK, "nylon 3/8 in"), elevators_deg=(float(elevator_deg),)
    )
    there = standing(parked, wind_kt)
    nose, mains = there.wheels_n[0], there.wheels_n[1:].sum()
    left, right, tail = there.ropes_n
    if nose < 1 and min(left, right) > 1 > tail:
        return "nose"
    return "tail" if mains < 1 < tail and max(left, right) < 1 else ""


def _elevator(v):
    wind, way = v.pick("elevator's wind", (60, 65, 70)), v.pick("way", ("up", "down"))
    answer = pulled(wind, -ELEVATOR.up_deg if way == "up" else ELEVATOR.down_deg)
    options = {
        "nose": "The nose comes up, and the wing ropes hold it",
        "tail": "The tail comes up, and the tail rope holds it",
        "same": "Nothing much: the elevator is small",
        "roll": "The left wing comes up, and the left rope holds it",
    }
    turned = f"With the elevator {way} the air pushes the tail {'down' if way == 'up' else 'up'}."
    much = "a thousand newtons and more" if measures.chosen() == measures.METRIC else "some hundreds of pounds"
    small = f"It is small, but far behind the wheels: in this wind the tail pulls with {much}."
    return choice(
        "elevator",
        "The lock was left out",
        f"Nobody put the control lock in. In a gust of {wind} kt from ahead the Morrowlark's elevator swings fully "
        f"{way} and stays there. The aircraft is tied at both wings and the tail. What does the gust do?",
        answer=answer,
        options=v.shuffled("elevator options", options.items()),
        points=2,
        hint="Which way does the air push a tail whose elevator stands like that?",
        worked=(f"elevator {way}: the air pushes the tail {'down' if way == 'up' else 'up'}", options[answer].lower()),
        wrong=[
            ("tail" if way == "up" else "nose", "elevator turned round", turned),
            ("same", "elevator taken for small", small),
        ],
    )
