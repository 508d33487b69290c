"""Sums over the load that a student is given: a moment, the fuel's weight, the weight and the CG at take-off."""

from walkaround.assessment.builders import number
from walkaround.lessons.loading.questions.givens import ARMS, LB_PER_GAL
from walkaround.physics.loading import balance
from walkaround.units import POUND_KG, US_GALLON_L

JET_LB_PER_GAL = 6.8  # FAA-H-8083-25, weight and balance: the density of jet fuel, a slip here


def moment(g):
    """Ask for the moment of a bag."""
    bag, arm = g.hold_a, ARMS["hold A"]
    rear_arm = "That is the arm of the rear seats; the bag lies in hold A."
    return number(
        "moment",
        "The moment of one item",
        f"A bag of {bag:.0f} lb goes into hold A, at {arm:.1f} in. What moment does it make about the datum?",
        answer=bag * arm,
        unit="lb-in",
        tolerance=20,
        points=2,
        hint="A moment is how strongly a weight turns the aircraft about the datum: weight times arm.",
        worked=f"moment = weight × arm = {bag:.0f} lb × {arm:.1f} in = {bag * arm:,.0f} lb-in",
        wrong=[
            (bag + arm, "added weight and arm", "You added weight and arm. A moment is their product."),
            (arm / bag, "divided arm by weight", "You divided. A moment is weight times arm."),
            (bag / arm, "divided weight by arm", "You divided. A moment is weight times arm."),
            (bag * ARMS["rear seats"], "arm of the wrong station", rear_arm),
            (bag * ARMS["hold B"], "arm of the wrong station", "That is the arm of hold B; the bag lies in hold A."),
            (bag, "weight for moment", "That is the weight. The moment is weight times arm."),
        ],
    )


def fuel_weight(g):
    """Ask what the fuel weighs."""
    weight = g.fuel * LB_PER_GAL
    in_litres = "That is the volume in litres. A litre is not a kilogram, and pounds are asked for."
    return number(
        "fuel weight",
        "What the fuel weighs",
        f"The tanks hold {g.fuel:.0f} US gallons of aviation gasoline. What does it weigh?",
        answer=weight,
        unit="lb",
        tolerance=2,
        points=2,
        hint="Aviation gasoline weighs 6 lb per US gallon.",
        worked=f"weight = volume × density = {g.fuel:.0f} US gal × {LB_PER_GAL:.0f} lb/US gal = {weight:.0f} lb",
        wrong=[
            (g.fuel, "gallons taken as pounds", "That is the number of gallons. Each gallon weighs 6 lb."),
            (g.fuel * JET_LB_PER_GAL, "jet fuel's density", "That is the weight of jet fuel (6.8 lb per gallon)."),
            (g.fuel / LB_PER_GAL, "divided by the density", "You divided by 6. Each gallon weighs 6 lb: multiply."),
            (g.fuel * US_GALLON_L, "litres taken as kilograms", in_litres),
            (weight * POUND_KG, "kilograms for pounds", "That is the weight in kilograms; pounds are asked for."),
        ],
    )


def take_off_weight(g):
    """Ask for the weight of everything aboard."""
    fuel, load = g.fuel * LB_PER_GAL, g.front + g.rear + g.hold_a
    weight = g.empty_weight + load + fuel
    sum_of = f"{g.empty_weight:,.0f} + {g.front:.0f} + {g.rear:.0f} + {g.hold_a:.0f} + {fuel:.0f}"
    gallons_added = "You added gallons to pounds. Turn the fuel into pounds first."
    at_landing = "That is the weight at landing: at take-off the trip fuel is still aboard."
    return number(
        "take-off weight",
        "Take-off weight",
        "What does the aircraft weigh at take-off, with everything in the table aboard?",
        answer=weight,
        unit="lb",
        tolerance=3,
        points=2,
        table=g.table,
        hint="Empty aircraft, people, baggage and all the fuel, in pounds.",
        worked=(f"fuel: {g.fuel:.0f} × 6 = {fuel:.0f} lb", f"{sum_of} = {weight:,.0f} lb"),
        wrong=[
            (load + fuel, "forgot the empty aircraft", "That is the load alone: the empty aircraft weighs too."),
            (g.empty_weight + load + g.fuel, "gallons taken as pounds", gallons_added),
            (g.empty_weight + load, "forgot the fuel", "That is the weight without fuel."),
            (weight - g.trip * LB_PER_GAL, "landing for take-off", at_landing),
        ],
    )


def take_off_cg(g):
    """Ask for the centre of gravity with everything aboard."""
    items = g.weights_and_arms
    weights, arms = zip(*items, strict=True)
    weight, moment, cg = (float(x) for x in balance(weights, arms))
    empty_moment = g.empty_weight * g.empty_arm
    in_gallons = (moment - (g.fuel * LB_PER_GAL - g.fuel) * arms[-1]) / weight
    no_empty = "You left out the empty aircraft: it has the largest moment of all."
    no_empty_moment = "You counted the empty weight but left out the moment of the empty aircraft."
    averaged = "You averaged the arms. A heavy item counts for more: weigh each arm with its weight."
    moment_of_gallons = "The fuel's moment was worked out with gallons. Turn the fuel into pounds first."
    return number(
        "take-off cg",
        "Centre of gravity at take-off",
        "Where is the centre of gravity at take-off, in inches aft of the datum?",
        answer=cg,
        unit="in",
        tolerance=0.15,
        points=4,
        table=g.table,
        hint="Work out each moment, add them up, and divide by the total weight.",
        worked=(
            *(f"{w:,.0f} lb × {x:.1f} in = {w * x:,.10g} lb-in" for w, x in items),
            f"total moment {moment:,.10g} lb-in, total weight {weight:,.0f} lb",
            f"CG = {moment:,.10g} ÷ {weight:,.0f} = {cg:.1f} in",
        ),
        wrong=[
            (moment, "moment for CG", "That is the total moment. Divide it by the total weight to get the CG."),
            ((moment - empty_moment) / (weight - g.empty_weight), "forgot the empty aircraft", no_empty),
            ((moment - empty_moment) / weight, "forgot the empty aircraft's moment", no_empty_moment),
            (sum(arms) / len(arms), "average of the arms", averaged),
            (in_gallons, "gallons taken as pounds", moment_of_gallons),
        ],
    )
