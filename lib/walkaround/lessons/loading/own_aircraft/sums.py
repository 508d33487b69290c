"""Sums over the load that a student is given: a moment, the fuel's weight, the weight and the CG at take-off."""

from walkaround.assessment.builders import number
from walkaround.lessons.loading.own_aircraft.givens import apart
from walkaround.physics.loading import basic_weight_and_moment
from walkaround.units import POUND_KG


def moment(v, g):
    """Ask for the moment of what lies at one station."""
    a, u = g.aircraft, g.aircraft.units
    station = a.station(v.pick("item", g.drawn.aircraft.stations).name)
    # To the digit that the moment needs, where it was drawn in other units.
    weight, arm = g.weight(g.drawn.stations[station.name], 2 if u.weight == "kg" else 1), station.arm
    answer, tolerance, d = weight * arm, g.fine.item_moment, g.fine.decimals
    figures = f"{weight:,.10g}" if g.own else f"{weight:,.0f}"
    rows = [
        (weight + arm, "added weight and arm", "You added weight and arm. A moment is their product."),
        (weight, "weight for moment", "That is the weight. The moment is weight times arm."),
    ]
    for s in a.stations:
        if s.arm != arm:
            rows.append((weight * s.arm, "arm of the wrong station", f"That is the arm of “{s.name}”."))
    return number(
        "moment",
        "The moment of one item",
        f"What moment do the {figures} {u.weight} at the station “{station.name}” make about the datum?",
        answer=answer,
        unit=u.moment,
        tolerance=tolerance,
        points=2,
        hint="A moment is how strongly a weight turns the aircraft about the datum: weight times arm.",
        worked=f"moment = weight × arm = {figures} × {arm:.{d}f} = {weight * round(arm, d):,.1f} {u.moment}",
        wrong=apart(answer, tolerance, rows),
    )


def fuel_weight(g):
    """Ask what the fuel weighs."""
    u, volume, density = g.aircraft.units, g.volume, g.aircraft.fuel.density
    weight = volume * density
    in_other_unit = weight * (POUND_KG if u.weight == "lb" else 1 / POUND_KG)
    rows = [
        (volume, "volume taken as weight", "That is the volume. Multiply it by the density."),
        (volume / density, "divided by the density", "You divided by the density: multiply."),
        (in_other_unit, "weight in the other unit", f"That is the weight in another unit; {u.weight} is asked for."),
    ]
    return number(
        "fuel weight",
        "What the fuel weighs",
        f"The tanks hold {volume:g} {u.volume} together. What does the fuel weigh?",
        answer=weight,
        unit=u.weight,
        tolerance=g.fine.fuel,
        points=2,
        hint=f"Fuel weighs {density:g} {u.weight} per {u.volume}.",
        worked=f"weight = volume × density = {volume:g} × {density:g} = {weight:,.1f} {u.weight}",
        wrong=apart(weight, g.fine.fuel, rows),
    )


def take_off_weight(g):
    """Ask for the weight of everything aboard."""
    u, density = g.aircraft.units, g.aircraft.fuel.density
    weight, empty = float(g.sheet.condition("take-off").weight), basic_weight_and_moment(g.aircraft)[0]
    aboard, fuel = sum(g.stations.values()), g.volume * density
    # What the numbers of the worked answer give as they are printed.
    shown = round(empty, 1) + aboard + round(fuel, 1)
    volume_added = "You added a volume to weights. Turn the fuel into a weight first."
    rows = [
        (weight - empty, "forgot the empty aircraft", "That is the load alone: the empty aircraft weighs too."),
        (empty + aboard, "forgot the fuel", "That is the weight without fuel."),
        (empty + aboard + g.volume, "volume taken as weight", volume_added),
        (weight - g.trip * density, "landing for take-off", "That is the weight at landing."),
    ]
    return number(
        "take-off weight",
        "Take-off weight",
        "What does the aircraft weigh at take-off, with everything in the table aboard?",
        answer=weight,
        unit=u.weight,
        tolerance=g.fine.weight,
        points=2,
        table=g.table,
        hint="Empty aircraft, people, baggage and all the fuel, in one unit.",
        worked=f"{empty:,.1f} + {g.figures(aboard)} + {fuel:,.1f} = {shown:,.1f} {u.weight}",
        wrong=apart(weight, g.fine.weight, rows),
    )


def take_off_cg(g):
    """Ask for the centre of gravity with everything aboard."""
    a, u, off = g.aircraft, g.aircraft.units, g.sheet.condition("take-off")
    weight, moment, cg, d = float(off.weight), float(off.moment), float(off.cg), g.fine.decimals
    empty, empty_moment = basic_weight_and_moment(a)
    arms = [empty_moment / empty, *(s.arm for s in a.stations), *(t.arm for t in a.fuel.tanks)]
    has_moment = "The empty aircraft has a moment too."
    rows = [
        (moment, "moment for CG", "That is the total moment. Divide it by the total weight to get the CG."),
        ((moment - empty_moment) / (weight - empty), "forgot the empty aircraft", "You left out the empty aircraft."),
        ((moment - empty_moment) / weight, "forgot the empty aircraft's moment", has_moment),
        (sum(arms) / len(arms), "average of the arms", "You averaged the arms: weigh each arm with its weight."),
    ]
    return number(
        "take-off cg",
        "Centre of gravity at take-off",
        "Where is the centre of gravity at take-off, measured from the datum?",
        answer=cg,
        unit=u.arm,
        tolerance=g.fine.cg,
        points=4,
        table=g.table,
        hint="Work out each moment, add them up, and divide by the total weight.",
        worked=(
            f"total moment {moment:,.{d}f} {u.moment}, total weight {weight:,.1f} {u.weight}",
            f"CG = {moment:,.{d}f} ÷ {weight:,.1f} = {g.arm_text(round(moment, d) / round(weight, 1))}",
        ),
        wrong=apart(cg, g.fine.cg, rows),
    )
