"""Sums over the load that a student is given: a moment, the fuel's weight, the weight and the CG at take-off."""

from walkaround import measures
from walkaround.assessment.builders import number
from walkaround.lessons.loading.questions.givens import arms, cg_sum, figures, four, fuel_words, moment_figures, words
from walkaround.physics.loading import balance
from walkaround.units import POUND_KG, US_GALLON_L

JET_LB_PER_GAL = 6.8  # FAA-H-8083-25, weight and balance: the density of jet fuel, a slip here


def moment(g):
    """Ask for the moment of a bag."""
    at, bag, unit = arms(), g.bag, measures.unit("lb-in")
    arm, bag_words = at["hold A"], f"{bag:g} {measures.unit('lb')}"
    rear_arm = "That is the arm of the rear seats; the bag lies in hold A."
    return number(
        "moment",
        "The moment of one item",
        f"A bag of {bag_words} goes into hold A, at {words(arm, 'arm')}. What moment does it make about the datum?",
        answer=bag * arm,
        unit=unit,
        tolerance=measures.value(20, "lb-in"),
        points=2,
        hint="A moment is how strongly a weight turns the aircraft about the datum: weight times arm.",
        worked=f"moment = weight × arm = {bag_words} × {words(arm, 'arm')} = {words(bag * arm, 'lb-in')}",
        wrong=[
            (bag + arm, "added weight and arm", "You added weight and arm. A moment is their product."),
            (arm / bag, "divided arm by weight", "You divided. A moment is weight times arm."),
            (bag / arm, "divided weight by arm", "You divided. A moment is weight times arm."),
            (bag * at["rear seats"], "arm of the wrong station", rear_arm),
            (bag * at["hold B"], "arm of the wrong station", "That is the arm of hold B; the bag lies in hold A."),
            (bag, "weight for moment", "That is the weight. The moment is weight times arm."),
        ],
    )


def fuel_weight(g):
    """Ask what the fuel weighs."""
    weight, density, unit, fuel = g.fuel_weight, four().fuel.density, measures.unit("lb"), fuel_words(g.fuel)
    gallons, one, pounds = measures.name("US gal"), measures.name("US gal", one=True).split()[-1], measures.name("lb")
    metric = unit == "kg"
    several, other = gallons.split()[-1], "pounds" if metric else "kilograms"
    in_litres = "That is the volume in litres. A litre is not a kilogram, and pounds are asked for."
    jet = measures.given(JET_LB_PER_GAL, "lb/US gal", 1)
    volume_taken = f"That is the number of {several}. Each {one} weighs {density:g} {unit}."
    other_unit = f"That is the weight in {other}; {pounds} are asked for."
    return number(
        "fuel weight",
        "What the fuel weighs",
        f"The tanks hold {g.fuel:.0f} {gallons} of aviation gasoline. What does it weigh?",
        answer=weight,
        unit=unit,
        tolerance=measures.value(2, "lb"),
        points=2,
        hint=f"Aviation gasoline weighs {density:g} {unit} per {measures.name('US gal', one=True)}.",
        worked=f"weight = volume × density = {fuel} × {density:g} {measures.unit('lb/US gal')} = {words(weight, 'lb')}",
        wrong=[
            (g.fuel, f"{several} taken as {pounds}", volume_taken),
            (g.fuel * jet, "jet fuel's density", f"That is the weight of jet fuel ({jet:g} {unit} per {one})."),
            (
                g.fuel / density,
                "divided by the density",
                f"You divided by {density:g}. Each {one} weighs {density:g} {unit}: multiply.",
            ),
            None if metric else (g.fuel * US_GALLON_L, "litres taken as kilograms", in_litres),
            (weight / POUND_KG if metric else weight * POUND_KG, f"{other} for {pounds}", other_unit),
        ],
    )


def take_off_weight(g):
    """Ask for the weight of everything aboard."""
    fuel, density, load = g.fuel_weight, four().fuel.density, g.front + g.rear + g.hold_a
    weight = g.empty_weight + load + fuel
    sum_of = " + ".join(figures(w, "lb") for w in (g.empty_weight, g.front, g.rear, g.hold_a, fuel))
    gallons, pounds = measures.name("US gal").split()[-1], measures.name("lb")
    gallons_added = f"You added {gallons} to {pounds}. Turn the fuel into {pounds} first."
    at_landing = "That is the weight at landing: at take-off the trip fuel is still aboard."
    return number(
        "take-off weight",
        "Take-off weight",
        "What does the aircraft weigh at take-off, with everything in the table aboard?",
        answer=weight,
        unit=measures.unit("lb"),
        tolerance=measures.value(3, "lb"),
        points=2,
        table=g.table,
        hint=f"Empty aircraft, people, baggage and all the fuel, in {pounds}.",
        worked=(f"fuel: {g.fuel:.0f} × {density:g} = {words(fuel, 'lb')}", f"{sum_of} = {words(weight, 'lb')}"),
        wrong=[
            (load + fuel, "forgot the empty aircraft", "That is the load alone: the empty aircraft weighs too."),
            (g.empty_weight + load + g.fuel, f"{gallons} taken as {pounds}", gallons_added),
            (g.empty_weight + load, "forgot the fuel", "That is the weight without fuel."),
            (weight - g.trip * density, "landing for take-off", at_landing),
        ],
    )


def take_off_cg(g):
    """Ask for the centre of gravity with everything aboard."""
    items = g.weights_and_arms
    weights, at = zip(*items, strict=True)
    weight, moment, cg = (float(x) for x in balance(weights, at))
    total = sum(round(w * x, 2) for w, x in items)
    empty_moment, unit = g.empty_weight * g.empty_arm, measures.unit("lb-in")
    in_gallons = (moment - (g.fuel_weight - g.fuel) * at[-1]) / weight
    gallons, pounds = measures.name("US gal").split()[-1], measures.name("lb")
    no_empty = "You left out the empty aircraft: it has the largest moment of all."
    no_empty_moment = "You counted the empty weight but left out the moment of the empty aircraft."
    averaged = "You averaged the arms. A heavy item counts for more: weigh each arm with its weight."
    moment_of_gallons = f"The fuel's moment was worked out with {gallons}. Turn the fuel into {pounds} first."
    return number(
        "take-off cg",
        "Centre of gravity at take-off",
        f"Where is the centre of gravity at take-off, in {measures.name('arm')} aft of the datum?",
        answer=cg,
        unit=measures.unit("arm"),
        tolerance=measures.value(0.15, "arm"),
        points=4,
        table=g.table,
        hint="Work out each moment, add them up, and divide by the total weight.",
        worked=(
            *(f"{words(w, 'lb')} × {words(x, 'arm')} = {moment_figures(w * x)} {unit}" for w, x in items),
            f"total moment {moment_figures(total)} {unit}, total weight {words(weight, 'lb')}",
            cg_sum(total, weight),
        ),
        wrong=[
            (moment, "moment for CG", "That is the total moment. Divide it by the total weight to get the CG."),
            ((moment - empty_moment) / (weight - g.empty_weight), "forgot the empty aircraft", no_empty),
            ((moment - empty_moment) / weight, "forgot the empty aircraft's moment", no_empty_moment),
            (sum(at) / len(at), "average of the arms", averaged),
            (in_gallons, f"{gallons} taken as {pounds}", moment_of_gallons),
        ],
    )
