"""Questions that bring numbers of their own: another flight, another weighing, a load that is moved."""

from walkaround import measures
from walkaround.assessment.builders import number
from walkaround.lessons.loading.questions.givens import (
    arms,
    cg_sum,
    figures,
    four,
    moment_figures,
    told,
    told_arm,
    words,
)
from walkaround.physics.loading import weighed, weight_to_shift


def landing_moment(v):
    """Ask for the moment left at landing, of another flight, so that no other question's answer stands in the text."""
    volume = measures.given(v.number("burnt", 12, 22, 1), "US gal", metric=1)
    weight = v.number("landing flight weight", 2250, 2550, 10)
    moment = measures.given(round(weight * v.number("landing flight cg", 103.5, 110.5, 0.5)), "lb-in")
    weight, tank, density = told(weight), arms()["tanks"], four().fuel.density
    burnt = round(volume * density, 1)
    burnt_moment, left = round(burnt * tank, 2), weight - burnt
    answer = moment - burnt_moment
    fuel_added = "You added the fuel's moment: it has been burnt."
    unit, gallons, pounds = measures.unit("lb-in"), measures.name("US gal"), measures.name("lb")
    short = gallons.split()[-1]
    gallons_used = f"You used {short} as if they were {pounds}. Turn the fuel into {pounds} first."
    weight_taken_off = "You took the fuel's weight off the moment. Its moment is weight times arm."
    return number(
        "landing moment",
        "The moment left at landing",
        f"Another flight: at take-off the total moment is {moment_figures(moment)} {unit} and the weight "
        f"{words(weight, 'lb')}. The flight uses {volume:g} {gallons} from tanks at {words(tank, 'arm')}. What is the "
        "total moment at landing?",
        answer=answer,
        unit=unit,
        tolerance=measures.value(150, "lb-in"),
        points=3,
        hint="Fuel that is burnt takes its weight away, and its moment with it.",
        worked=(
            f"fuel burnt: {volume:g} × {density:g} = {words(burnt, 'lb')}, "
            f"its moment {figures(burnt, 'lb')} × {figures(tank, 'arm')} = {moment_figures(burnt_moment)} {unit}",
            f"{moment_figures(moment)} − {moment_figures(burnt_moment)} = {moment_figures(answer)} {unit}",
            cg_sum(answer, left).replace("CG =", "so the CG at landing is"),
        ),
        wrong=[
            (moment + burnt_moment, "fuel added instead of taken off", fuel_added),
            (moment - volume * tank, f"{short} taken as {pounds}", gallons_used),
            (moment - burnt, "weight for moment", weight_taken_off),
            (answer / left, "CG for moment", "That is the CG at landing; the moment is asked for."),
            (burnt_moment, "only the part burnt", "That is the moment of the fuel burnt: take it off the total."),
        ],
    )


def scales(v):
    """Ask for the empty CG of an aircraft that stands on three scales."""
    nose, main = told(v.number("nose scale", 300, 380, 5)), told(v.number("main scales", 590, 640, 5))
    nose_arm, main_arm = told_arm(38.0), told_arm(117.0)
    inches = measures.unit("arm")
    total, moment, cg = (float(x) for x in weighed([nose, main, main], [nose_arm, main_arm, main_arm]))
    one_wheel = "You counted one main wheel. Two stand on scales."
    averaged = "You averaged the arms. Weigh each arm with the reading on its scale."
    from_the_wheels = "That is the distance ahead of the main wheels, not from the datum."
    return number(
        "scales",
        "From three scales to the empty CG",
        f"Another Morrowlark stands level on three scales. Nose wheel, at {nose_arm:g} {inches}: {words(nose, 'lb')}. "
        f"Each main wheel, at {main_arm:g} {inches}: {words(main, 'lb')}. Where is its empty centre of gravity?",
        answer=cg,
        unit=inches,
        tolerance=measures.value(0.15, "arm"),
        points=3,
        hint="Each wheel is an item with a weight and an arm. There are two main wheels.",
        worked=(
            f"weight {' + '.join(figures(w, 'lb') for w in (nose, main, main))} = {words(total, 'lb')}",
            f"moment {figures(nose, 'lb')} × {nose_arm:g} + 2 × {figures(main, 'lb')} × {main_arm:g} = "
            f"{words(moment, 'lb-in')}",
            cg_sum(moment, total),
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
    weight, beyond = told(weight), measures.given(beyond, "arm", 1, metric=4)
    at, inches = arms(), measures.unit("arm")
    aft, hold, seat = told_arm(112.0), at["hold A"], at["rear seats"]
    cg, way, fine = aft + beyond, hold - seat, measures.places("arm", 1, metric=4)
    answer = float(weight_to_shift(weight, cg, aft, hold, seat))
    by_arm = "You divided by the arm of hold A. What counts is how far the weight moves: from one arm to the other."
    left_behind = "That is roughly what to leave behind. Moving a weight changes its arm, not the total."
    needs_weight = "The heavier the aircraft, the more it takes: the total weight has to come in."
    return number(
        "shift",
        "Weight to shift",
        f"A Morrowlark at {words(weight, 'lb')} has its CG at {cg:.{fine}f} {inches}; the aft limit is "
        f"{words(aft, 'arm')}. How much baggage has to move from hold A ({hold:g} {inches}) to an empty rear seat "
        f"({words(seat, 'arm')}), strapped down, to bring the CG to the limit?",
        answer=answer,
        unit=measures.unit("lb"),
        tolerance=measures.value(0.8, "lb"),
        points=3,
        hint="Weight to move ÷ total weight = distance the CG must move ÷ distance the weight moves.",
        worked=(
            f"CG has to move {beyond:.{fine}f} {inches}; the weight moves {hold:g} − {figures(seat, 'arm')} = "
            f"{words(way, 'arm')}",
            f"{figures(weight, 'lb')} × {beyond:.{fine}f} ÷ {figures(way, 'arm')} = {answer:.1f} "
            f"{measures.unit('lb')}; to be inside, round up",
        ),
        wrong=[
            (-answer, "wrong sign of a shift", "The amount is right, its sign is not: this much moves forward."),
            (weight * beyond / hold, "arm for distance moved", by_arm),
            (weight * beyond / (hold - cg), "taken off instead of moved", left_behind),
            (beyond * way, "forgot the aircraft's weight", needs_weight),
        ],
    )
