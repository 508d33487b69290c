"""Questions that bring numbers of their own: another flight, another weighing, a load that is moved."""

from walkaround.assessment.builders import number
from walkaround.lessons.loading.questions.givens import ARMS, LB_PER_GAL, TANK_ARM
from walkaround.physics.loading import weighed, weight_to_shift


def landing_moment(v):
    """Ask for the moment left at landing, of another flight, so that no other question's answer stands in the text."""
    gallons = v.number("burnt", 12, 22, 1)
    weight = v.number("landing flight weight", 2250, 2550, 10)
    moment = round(weight * v.number("landing flight cg", 103.5, 110.5, 0.5))
    burnt = gallons * LB_PER_GAL
    burnt_moment, left = burnt * TANK_ARM, weight - burnt
    answer = moment - burnt_moment
    fuel_added = "You added the fuel's moment: it has been burnt."
    gallons_used = "You used gallons as if they were pounds. Turn the fuel into pounds first."
    weight_taken_off = "You took the fuel's weight off the moment. Its moment is weight times arm."
    return number(
        "landing moment",
        "The moment left at landing",
        f"Another flight: at take-off the total moment is {moment:,.0f} lb-in and the weight {weight:,.0f} lb. The "
        f"flight uses {gallons:.0f} US gallons from tanks at {TANK_ARM:.1f} in. What is the total moment at landing?",
        answer=answer,
        unit="lb-in",
        tolerance=150,
        points=3,
        hint="Fuel that is burnt takes its weight away, and its moment with it.",
        worked=(
            f"fuel burnt: {gallons:.0f} × 6 = {burnt:.0f} lb, "
            f"its moment {burnt:.0f} × {TANK_ARM:.1f} = {burnt_moment:,.0f} lb-in",
            f"{moment:,.0f} − {burnt_moment:,.0f} = {answer:,.0f} lb-in",
            f"so the CG at landing is {answer:,.0f} ÷ {left:,.0f} = {answer / left:.1f} in",
        ),
        wrong=[
            (moment + burnt_moment, "fuel added instead of taken off", fuel_added),
            (moment - gallons * TANK_ARM, "gallons taken as pounds", gallons_used),
            (moment - burnt, "weight for moment", weight_taken_off),
            (answer / left, "CG for moment", "That is the CG at landing; the moment is asked for."),
            (burnt_moment, "only the part burnt", "That is the moment of the fuel burnt: take it off the total."),
        ],
    )


def scales(v):
    """Ask for the empty CG of an aircraft that stands on three scales."""
    nose, main = v.number("nose scale", 300, 380, 5), v.number("main scales", 590, 640, 5)
    nose_arm, main_arm = 38.0, 117.0
    total, moment, cg = (float(x) for x in weighed([nose, main, main], [nose_arm, main_arm, main_arm]))
    one_wheel = "You counted one main wheel. Two stand on scales."
    averaged = "You averaged the arms. Weigh each arm with the reading on its scale."
    from_the_wheels = "That is the distance ahead of the main wheels, not from the datum."
    return number(
        "scales",
        "From three scales to the empty CG",
        f"Another Morrowlark stands level on three scales. Nose wheel, at {nose_arm:.0f} in: {nose:.0f} lb. Each main "
        f"wheel, at {main_arm:.0f} in: {main:.0f} lb. Where is its empty centre of gravity?",
        answer=cg,
        unit="in",
        tolerance=0.15,
        points=3,
        hint="Each wheel is an item with a weight and an arm. There are two main wheels.",
        worked=(
            f"weight {nose:.0f} + {main:.0f} + {main:.0f} = {total:,.0f} lb",
            f"moment {nose:.0f} × {nose_arm:.0f} + 2 × {main:.0f} × {main_arm:.0f} = {moment:,.0f} lb-in",
            f"CG = {moment:,.0f} ÷ {total:,.0f} = {cg:.1f} in",
        ),
        wrong=[
            ((nose * nose_arm + main * main_arm) / (nose + main), "one main wheel left out", one_wheel),
            (moment, "moment for CG", "That is the moment. Divide it by the weight."),
            ((nose_arm + 2 * main_arm) / 3, "average of the arms", averaged),
            (main_arm - cg, "measured from the main wheels", from_the_wheels),
        ],
    )


def shift(v):
    """Ask how much baggage has to move forward to bring the CG to the aft limit."""
    weight, beyond = v.number("shift weight", 2380, 2540, 10), v.number("beyond the limit", 0.2, 0.6, 0.1)
    aft, hold, seat = 112.0, ARMS["hold A"], ARMS["rear seats"]
    cg, way = aft + beyond, hold - seat
    answer = float(weight_to_shift(weight, cg, aft, hold, seat))
    by_arm = "You divided by the arm of hold A. What counts is how far the weight moves: from one arm to the other."
    left_behind = "That is roughly what to leave behind. Moving a weight changes its arm, not the total."
    needs_weight = "The heavier the aircraft, the more it takes: the total weight has to come in."
    return number(
        "shift",
        "Weight to shift",
        f"A Morrowlark at {weight:,.0f} lb has its CG at {cg:.1f} in; the aft limit is {aft:.1f} in. How much baggage "
        f"has to move from hold A ({hold:.0f} in) to an empty rear seat ({seat:.1f} in), strapped down, to bring the "
        "CG to the limit?",
        answer=answer,
        unit="lb",
        tolerance=0.8,
        points=3,
        hint="Weight to move ÷ total weight = distance the CG must move ÷ distance the weight moves.",
        worked=(
            f"CG has to move {beyond:.1f} in; the weight moves {hold:.0f} − {seat:.1f} = {way:.1f} in",
            f"{weight:,.0f} × {beyond:.1f} ÷ {way:.1f} = {answer:.1f} lb; to be inside, round up",
        ),
        wrong=[
            (-answer, "wrong sign of a shift", "The amount is right, its sign is not: this much moves forward."),
            (weight * beyond / hold, "arm for distance moved", by_arm),
            (weight * beyond / (hold - cg), "taken off instead of moved", left_behind),
            (beyond * way, "forgot the aircraft's weight", needs_weight),
        ],
    )
