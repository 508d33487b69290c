"""Questions on weight and balance: from the moment of one item to a load that must be rearranged.

All numbers come from the invented Morrowlark Four, weighed anew for each student, with people and baggage drawn for them.
"""

from dataclasses import dataclass
from functools import cache, cached_property

from walkaround import aircraft
from walkaround.aircraft.people import PILOTS
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, Later, Paper, Question, WrongTurn, unsound
from walkaround.physics.loading import moments as loading
from walkaround.units import POUND_KG, US_GALLON_L

NAME = "loading"
TITLE = "Weight and balance"
JET_LB_PER_GAL = 6.8  # FAA-H-8083-25, weight and balance: the density of jet fuel, a slip here


@cache
def _base():
    return aircraft.demo("morrowlark_four")


# Asked thousands of times for a large class.
@cache
def _arm(station):
    return _base().station(station).arm


@cache
def _tank_arm():
    return _base().fuel.tanks[0].arm


@cache
def _fuel_density():
    return _base().fuel.density


@dataclass(frozen=True)
class Givens:
    """What a student is told: their aircraft as weighed, the load in lb, the fuel in US gal."""

    empty_weight: float
    empty_arm: float
    front: float
    rear: float
    hold_a: float
    fuel: float
    trip: float

    @cached_property
    def aircraft(self):
        """The student's aircraft: the demo aircraft with a weighing of its own."""
        base = _base()
        empty = base.empty.model_copy(update={"weight": self.empty_weight, "arm": self.empty_arm})
        return base.model_copy(update={"empty": empty})

    @cached_property
    def stations(self):
        """Station loads by name."""
        return {"front seats": self.front, "rear seats": self.rear, "hold A": self.hold_a}

    @cached_property
    def table(self):
        """Rows of the table that a student is given."""
        tank_arm = _tank_arm()
        return (
            ("item", "weight", "arm"),
            ("empty aircraft", f"{self.empty_weight:,.0f} lb", f"{self.empty_arm:.1f} in"),
            *((n, f"{w:,.0f} lb", f"{_arm(n):.1f} in") for n, w in self.stations.items()),
            (f"fuel, {self.fuel:.0f} US gal", "to work out", f"{tank_arm:.1f} in"),
            (f"of it used in flight, {self.trip:.0f} US gal", "to work out", f"{tank_arm:.1f} in"),
        )

    @cached_property
    def items(self):
        """Weights in lb of everything aboard at take-off, and their arms: empty aircraft, stations, fuel."""
        weights = [self.empty_weight, *self.stations.values(), self.fuel * _fuel_density()]
        return weights, [self.empty_arm, *map(_arm, self.stations), _tank_arm()]

    @property
    def tanks(self):
        """Fuel in each tank by name: half of it in each."""
        return {"left tank": self.fuel / 2, "right tank": self.fuel / 2}


def write(variant):
    """Write one student's paper (`questions.Paper`) from their draws."""
    return _write(variant, whole=True)


def draft(variant):
    """Write one student's paper, or only its first question that these draws make unclear."""
    return _write(variant, whole=False)


def _write(v, whole):
    g = Givens(
        empty_weight=v.number("empty weight", 1515, 1575, 5),
        empty_arm=v.number("empty arm", 100.8, 101.8, 0.1),
        front=v.number("front seats", 290, 380, 5),
        rear=v.number("rear seats", 110, 230, 5),
        hold_a=v.number("hold A", 30, 85, 5),
        fuel=v.number("fuel", 24, 36, 2),
        trip=v.number("trip fuel", 12, 19, 1),
    )
    # First the questions that numbers can make unclear, the quickest first.
    unclear = {}
    for name, ask in (("go", lambda: _go(v, g)), ("again", lambda: _rearrange(v, g))):
        unclear[name] = ask()
        if not whole and unsound(unclear[name]):
            return Paper(NAME, TITLE, v.student, v.course, (unclear[name],))
    off = loading.balance(*g.items)
    questions = (
        _moment(g),
        _fuel_weight(g),
        _take_off_weight(g, float(off.weight)),
        _take_off_cg(g, off),
        _landing_moment(v, g),
        _scales(v, g),
        _steps(v),
        _moves(v, g),
        _shift(v),
        unclear["go"],
        unclear["again"],
    )
    pilot = v.pick("pilot", PILOTS)
    scene = (
        f"{pilot} will fly your Morrowlark Four out of Quillmoor. It has been weighed, and these are its numbers and "
        "today's load; every one of them is invented. Taxi fuel is left out. Fuel weighs 6 lb per US gallon."
    )
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, g.table, g)


@cache
def _aft_limit(envelope):
    return float(envelope.limits_at(2300)[1])


@cache
def _limits_table(envelope):
    rows = [("weight, lb", "forward limit, in", "aft limit, in")]
    for weight in (envelope.least_weight, 2110, 2300, envelope.greatest_weight):
        forward, aft = envelope.limits_at(weight)
        rows.append((f"{weight:,.0f}", f"{forward:.1f}", f"{aft:.1f}"))
    return tuple(rows)


def _moment(g):
    arm = _arm("hold A")
    answer = g.hold_a * arm
    return Question(
        key="moment", kind=NUMBER, title="The moment of one item", points=2, unit="lb-in", tolerance=20,
        text=f"A bag of {g.hold_a:.0f} lb goes into hold A, at {arm:.1f} in. What moment does it make about the datum?",
        answer=answer,
        hint="A moment is how strongly a weight turns the aircraft about the datum: weight times arm.",
        worked=Later(lambda: (f"moment = weight × arm = {g.hold_a:.0f} lb × {arm:.1f} in = {answer:,.0f} lb-in",)),
        wrong_turns=(
            WrongTurn(g.hold_a + arm, "added weight and arm", "You added weight and arm. A moment is their product."),
            WrongTurn(arm / g.hold_a, "divided arm by weight", "You divided. A moment is weight times arm."),
            WrongTurn(g.hold_a / arm, "divided weight by arm", "You divided. A moment is weight times arm."),
            WrongTurn(g.hold_a * _arm("rear seats"), "arm of the wrong station",
                      "That is the arm of the rear seats; the bag lies in hold A."),
            WrongTurn(g.hold_a * _arm("hold B"), "arm of the wrong station",
                      "That is the arm of hold B; the bag lies in hold A."),
            WrongTurn(g.hold_a, "weight for moment", "That is the weight. The moment is weight times arm."),
        ),
    )  # fmt: skip


def _fuel_weight(g):
    density = _fuel_density()
    answer = g.fuel * density
    return Question(
        key="fuel weight", kind=NUMBER, title="What the fuel weighs", points=2, unit="lb", tolerance=2,
        text=f"The tanks hold {g.fuel:.0f} US gallons of aviation gasoline. What does it weigh?",
        answer=answer,
        hint="Aviation gasoline weighs 6 lb per US gallon.",
        worked=Later(lambda: (f"weight = volume × density = {g.fuel:.0f} US gal × {density:.0f} lb/US gal = {answer:.0f} lb",)),
        wrong_turns=(
            WrongTurn(g.fuel, "gallons taken as pounds", "That is the number of gallons. Each gallon weighs 6 lb."),
            WrongTurn(g.fuel * JET_LB_PER_GAL, "jet fuel's density", "That is the weight of jet fuel (6.8 lb per gallon)."),
            WrongTurn(g.fuel / density, "divided by the density", "You divided by 6. Each gallon weighs 6 lb: multiply."),
            WrongTurn(g.fuel * US_GALLON_L, "litres taken as kilograms",
                      "That is the volume in litres. A litre is not a kilogram, and pounds are asked for."),
            WrongTurn(answer * POUND_KG, "kilograms for pounds", "That is the weight in kilograms; pounds are asked for."),
        ),
    )  # fmt: skip


def _take_off_weight(g, answer):
    fuel = g.fuel * _fuel_density()
    load = g.front + g.rear + g.hold_a
    return Question(
        key="take-off weight", kind=NUMBER, title="Take-off weight", points=2, unit="lb", tolerance=3,
        text="What does the aircraft weigh at take-off, with everything in the table aboard?",
        answer=answer, table=g.table,
        hint="Empty aircraft, people, baggage and all the fuel, in pounds.",
        worked=Later(lambda: (
            f"fuel: {g.fuel:.0f} × 6 = {fuel:.0f} lb",
            f"{g.empty_weight:,.0f} + {g.front:.0f} + {g.rear:.0f} + {g.hold_a:.0f} + {fuel:.0f} = {answer:,.0f} lb",
        )),
        wrong_turns=(
            WrongTurn(load + fuel, "forgot the empty aircraft", "That is the load alone: the empty aircraft weighs too."),
            WrongTurn(g.empty_weight + load + g.fuel, "gallons taken as pounds",
                      "You added gallons to pounds. Turn the fuel into pounds first."),
            WrongTurn(g.empty_weight + load, "forgot the fuel", "That is the weight without fuel."),
            WrongTurn(answer - g.trip * _fuel_density(), "landing for take-off",
                      "That is the weight at landing: at take-off the trip fuel is still aboard."),
        ),
    )  # fmt: skip


def _take_off_cg(g, off):
    fuel = g.fuel * _fuel_density()
    cg, moment, weight = float(off.cg), float(off.moment), float(off.weight)
    items, arms = g.items
    empty_moment = g.empty_weight * g.empty_arm
    in_gallons = (moment - (fuel - g.fuel) * arms[-1]) / weight
    return Question(
        key="take-off cg", kind=NUMBER, title="Centre of gravity at take-off", points=4, unit="in", tolerance=0.15,
        text="Where is the centre of gravity at take-off, in inches aft of the datum?",
        answer=cg, table=g.table,
        hint="Work out each moment, add them up, and divide by the total weight.",
        worked=Later(lambda: (
            *(f"{w:,.0f} lb × {x:.1f} in = {w * x:,.0f} lb-in" for w, x in zip(items, arms, strict=True)),
            f"total moment {moment:,.0f} lb-in, total weight {weight:,.0f} lb",
            f"CG = {moment:,.0f} ÷ {weight:,.0f} = {cg:.1f} in",
        )),
        wrong_turns=(
            WrongTurn(moment, "moment for CG", "That is the total moment. Divide it by the total weight to get the CG."),
            WrongTurn((moment - empty_moment) / (weight - g.empty_weight), "forgot the empty aircraft",
                      "You left out the empty aircraft: it has the largest moment of all."),
            WrongTurn((moment - empty_moment) / weight, "forgot the empty aircraft's moment",
                      "You counted the empty weight but left out the moment of the empty aircraft."),
            WrongTurn(sum(arms) / len(arms), "average of the arms",
                      "You averaged the arms. A heavy item counts for more: weigh each arm with its weight."),
            WrongTurn(in_gallons, "gallons taken as pounds",
                      "The fuel's moment was worked out with gallons. Turn the fuel into pounds first."),
        ),
    )  # fmt: skip


def _landing_moment(v, g):
    """The moment left at landing, of a flight of its own, so that no other question's answer stands in the text."""
    arm, gallons = _tank_arm(), v.number("burnt", 12, 22, 1)
    weight, start_cg = (
        v.number("landing flight weight", 2250, 2550, 10),
        v.number("landing flight cg", 103.5, 110.5, 0.5),
    )
    moment, burnt = round(weight * start_cg), gallons * _fuel_density()
    after = loading.balance([weight, -burnt], [moment / weight, arm])
    answer, cg = float(after.moment), float(after.cg)
    return Question(
        key="landing moment", kind=NUMBER, title="The moment left at landing", points=3, unit="lb-in", tolerance=150,
        text=(
            f"Another flight: at take-off the total moment is {moment:,.0f} lb-in and the weight {weight:,.0f} lb. The flight uses "
            f"{gallons:.0f} US gallons from tanks at {arm:.1f} in. What is the total moment at landing?"
        ),
        answer=answer,
        hint="Fuel that is burnt takes its weight away, and its moment with it.",
        worked=Later(lambda: (
            f"fuel burnt: {gallons:.0f} × 6 = {burnt:.0f} lb, its moment {burnt:.0f} × {arm:.1f} = {burnt * arm:,.0f} lb-in",
            f"{moment:,.0f} − {burnt * arm:,.0f} = {answer:,.0f} lb-in",
            f"so the CG at landing is {answer:,.0f} ÷ {weight - burnt:,.0f} = {cg:.1f} in",
        )),
        wrong_turns=(
            WrongTurn(moment + burnt * arm, "fuel added instead of taken off", "You added the fuel's moment: it has been burnt."),
            WrongTurn(moment - gallons * arm, "gallons taken as pounds",
                      "You used gallons as if they were pounds. Turn the fuel into pounds first."),
            WrongTurn(moment - burnt, "weight for moment",
                      "You took the fuel's weight off the moment. Its moment is weight times arm."),
            WrongTurn(cg, "CG for moment", "That is the CG at landing; the moment is asked for."),
            WrongTurn(burnt * arm, "only the part burnt", "That is the moment of the fuel burnt: take it off the total."),
        ),
    )  # fmt: skip


def _scales(v, g):
    nose_arm, main_arm = 38.0, 117.0
    nose, main = v.number("nose scale", 300, 380, 5), v.number("main scales", 590, 640, 5)
    weighed = loading.weighed([nose, main, main], [nose_arm, main_arm, main_arm])
    total, cg = float(weighed.weight), float(weighed.cg)
    return Question(
        key="scales", kind=NUMBER, title="From three scales to the empty CG", points=3, unit="in", tolerance=0.15,
        text=(
            f"Another Morrowlark stands level on three scales. Nose wheel, at {nose_arm:.0f} in: {nose:.0f} lb. Each main "
            f"wheel, at {main_arm:.0f} in: {main:.0f} lb. Where is its empty centre of gravity?"
        ),
        answer=cg,
        hint="Each wheel is an item with a weight and an arm. There are two main wheels.",
        worked=Later(lambda: (
            f"weight {nose:.0f} + {main:.0f} + {main:.0f} = {total:,.0f} lb",
            f"moment {nose:.0f} × {nose_arm:.0f} + 2 × {main:.0f} × {main_arm:.0f} = {float(weighed.moment):,.0f} lb-in",
            f"CG = {float(weighed.moment):,.0f} ÷ {total:,.0f} = {cg:.1f} in",
        )),
        wrong_turns=(
            WrongTurn((nose * nose_arm + main * main_arm) / (nose + main), "one main wheel left out",
                      "You counted one main wheel. Two stand on scales."),
            WrongTurn(float(weighed.moment), "moment for CG", "That is the moment. Divide it by the weight."),
            WrongTurn((nose_arm + 2 * main_arm) / 3, "average of the arms",
                      "You averaged the arms. Weigh each arm with the reading on its scale."),
            WrongTurn(main_arm - cg, "measured from the main wheels", "That is the distance ahead of the main wheels, not from the datum."),
        ),
    )  # fmt: skip


def _steps(v):
    steps = (
        ("read", "Gather the numbers: this aircraft's weighing report, people, bags, fuel in the tanks"),
        ("pounds", "Turn fuel volumes into weights"),
        ("moments", "Multiply each weight by its arm"),
        ("sums", "Add up the weights, and add up the moments"),
        ("divide", "Divide the total moment by the total weight"),
        ("compare", "Compare weight and CG with the limits, at take-off and at landing"),
    )
    right = tuple(k for k, _ in steps)
    swapped = ("read", "pounds", "sums", "moments", "divide", "compare")
    return Question(
        key="steps", kind=ORDER, title="The steps in order", points=2,
        text="Put the steps of the computation in the order in which you can do them.",
        answer=right, options=tuple(v.shuffled("steps", steps)),
        hint="You can't add moments before you have them, and you can't compare what you have not worked out.",
        worked=Later(lambda: tuple(f"{i}. {text}" for i, (_, text) in enumerate(steps, 1))),
        wrong_turns=(
            WrongTurn(swapped, "summed before multiplying",
                      "You add up before you multiply: the moments have to be there before their sum."),
        ),
    )  # fmt: skip


def _moves(v, g):
    weight = v.number("moves weight", 2200, 2550, 10)
    # Ahead of the tanks or behind them, ahead of the front seats or behind: never so near that it can't be told.
    cg = v.pick("moves cg", (102.4, 102.9, 104.7, 105.2, 107.2, 107.9, 108.6, 109.3))
    more, off_rear, bag = (
        v.number("more in front", 20, 60, 5),
        v.number("off the rear", 60, 100, 5),
        v.number("bag", 15, 25, 5),
    )
    rear, hold, front = map(_arm, ("rear seats", "hold A", "front seats"))
    tank = _tank_arm()
    changed = loading.cg_after_change(weight, cg, [more, -off_rear, bag, -60], [front, rear, hold, tank]).tolist()
    after = {
        "front": (f"{more:.0f} lb more on the front seats (at {front:.1f} in)", changed[0]),
        "rear": (f"{off_rear:.0f} lb fewer on the rear seats (at {rear:.1f} in)", changed[1]),
        "bag forward": (f"a bag of {bag:.0f} lb moved from hold A to the rear seats", loading.cg_after_shift(weight, cg, bag, hold, rear)),
        "bag added": (f"{bag:.0f} lb more in hold A (at {hold:.1f} in)", changed[2]),
        "fuel burnt": (f"60 lb of fuel burnt from tanks at {tank:.1f} in", changed[3]),
    }  # fmt: skip
    forward = frozenset(k for k, (_, new) in after.items() if new < cg)
    return Question(
        key="moves", kind=CHOICES, title="What moves the CG forward", points=3,
        text=f"Another flight, with the CG at {cg:.1f} in and {weight:,.0f} lb in all: which of these move the CG forward? Choose all that do.",
        answer=forward, options=tuple(v.shuffled("moves", [(k, text) for k, (text, _) in after.items()])),
        hint="Adding ahead of the CG moves it forward. Taking away from behind the CG moves it forward too.",
        worked=Later(lambda: tuple(f"{text}: CG {new:.2f} in, {'forward' if new < cg else 'aft'}" for text, new in after.values())),
        wrong_turns=(
            WrongTurn(frozenset(after) - forward, "every direction turned round",
                      "Those are the ones that move it aft: you have every direction turned round."),
        ),
    )  # fmt: skip


def _shift(v):
    weight, aft = v.number("shift weight", 2380, 2540, 10), 112.0
    beyond = v.number("beyond the limit", 0.2, 0.6, 0.1)
    cg, from_arm, to_arm = aft + beyond, 163.0, 140.5
    answer = float(loading.weight_to_shift(weight, cg, aft, from_arm, to_arm))
    return Question(
        key="shift", kind=NUMBER, title="Weight to shift", points=3, unit="lb", tolerance=0.8,
        text=(
            f"A Morrowlark at {weight:,.0f} lb has its CG at {cg:.1f} in; the aft limit is {aft:.1f} in. How much baggage has to "
            f"move from hold A ({from_arm:.0f} in) to an empty rear seat ({to_arm:.1f} in), strapped down, to bring the CG to the limit?"
        ),
        answer=answer,
        hint="Weight to move ÷ total weight = distance the CG must move ÷ distance the weight moves.",
        worked=Later(lambda: (
            f"CG has to move {beyond:.1f} in; the weight moves {from_arm:.0f} − {to_arm:.1f} = {from_arm - to_arm:.1f} in",
            f"{weight:,.0f} × {beyond:.1f} ÷ {from_arm - to_arm:.1f} = {answer:.1f} lb; to be inside, round up",
        )),
        wrong_turns=(
            WrongTurn(-answer, "wrong sign of a shift", "The amount is right, its sign is not: this much moves forward."),
            WrongTurn(weight * beyond / from_arm, "arm for distance moved",
                      "You divided by the arm of hold A. What counts is how far the weight moves: from one arm to the other."),
            WrongTurn(weight * beyond / (from_arm - cg), "taken off instead of moved",
                      "That is roughly what to leave behind. Moving a weight changes its arm, not the total."),
            WrongTurn(beyond * (from_arm - to_arm), "forgot the aircraft's weight",
                      "The heavier the aircraft, the more it takes: the total weight has to come in."),
        ),
    )  # fmt: skip


CASES = {
    "go": ("Go: weight and CG are inside the limits", (300, 360), (100, 160), (20, 50), (0, 0), (24, 32)),
    "heavy": ("No-go: too heavy at take-off", (455, 490), (290, 320), (35, 50), (0, 0), (46, 48)),
    "forward": ("No-go: the CG is ahead of the forward limit", (470, 500), (0, 0), (0, 0), (0, 0), (46, 48)),
    "aft": ("No-go: the CG is behind the aft limit", (160, 190), (400, 430), (80, 90), (55, 60), (24, 32)),
}
HOLDS_AND_SEATS = ("front seats", "rear seats", "hold A", "hold B")


def _go(v, g):
    case = v.pick("case", tuple(CASES))
    _, *ranges, fuel_range = CASES[case]
    loads = {n: v.number(f"go {n}", *r, 5) for n, r in zip(HOLDS_AND_SEATS, ranges, strict=True)}
    gallons = v.number("go fuel", *fuel_range, 2)
    # The forward limit is reached by an aircraft with a forward empty CG: the question brings its own.
    arm = 97.9 if case == "forward" else g.empty_arm
    items = [
        (g.empty_weight, arm),
        *((w, _arm(n)) for n, w in loads.items() if w),
        (gallons * _fuel_density(), _tank_arm()),
    ]
    off = loading.balance(*zip(*items, strict=True))
    envelope, weight, cg = _base().envelope(), float(off.weight), float(off.cg)
    forward, aft = (float(x) for x in envelope.limits_at(weight))
    found = {
        "heavy": weight > envelope.greatest_weight,
        "forward": cg < forward and weight <= envelope.greatest_weight,
        "aft": cg > aft and weight <= envelope.greatest_weight,
    }
    answer = next((k for k, is_so in found.items() if is_so), "go")
    # A load within a whisker of a limit would be a question about rounding.
    clear = min(abs(weight - envelope.greatest_weight) / 20, abs(cg - forward) / 0.2, abs(cg - aft) / 0.2) >= 1
    options = tuple(v.shuffled("go options", [(k, text) for k, (text, *_) in CASES.items()]))
    aboard = ", ".join(
        f"{w:.0f} lb {'in' if n in ('hold A', 'hold B') else 'on the'} {n}" for n, w in loads.items() if w
    )
    return Question(
        key="go", kind=CHOICE, title="Go or no-go, and why", points=3,
        text=(
            f"Another load, in a Morrowlark of {g.empty_weight:,.0f} lb at {arm:.1f} in: {aboard}, {gallons:.0f} US gal of fuel. "
            "May it take off? The table gives the limits; between its lines they run straight."
        ),
        answer=answer if clear else "unclear", options=options, table=_limits_table(envelope),
        hint="Work out weight and CG at take-off, then find the forward and aft limit at that weight.",
        worked=Later(lambda: (
            f"weight: {g.empty_weight:,.0f} + " + " + ".join(f"{w:.0f}" for w in loads.values() if w) + f" + {gallons:.0f} × 6 = {weight:,.0f} lb",
            "moment: " + " + ".join(f"{w:,.0f} × {x:.1f}" for w, x in items) + f" = {float(off.moment):,.0f} lb-in",
            f"CG = {float(off.moment):,.0f} ÷ {weight:,.0f} = {cg:.1f} in",
            f"limits there: {forward:.1f} to {aft:.1f} in, at most {envelope.greatest_weight:,.0f} lb",
            dict(options)[answer],
        )),
        wrong_turns=tuple(
            WrongTurn(k, slip, says)
            for k, slip, says in (
                ("heavy", "weight limit misjudged", "Add up the weights once more and compare them with the top of the table."),
                ("forward", "forward and aft mixed up" if answer == "aft" else "forward limit misjudged",
                 "Ahead of the forward limit means a smaller arm than the limit. Compare the CG with the forward limit at this weight."),
                ("aft", "forward and aft mixed up" if answer == "forward" else "aft limit misjudged",
                 "Behind the aft limit means a larger arm than the limit. Compare the CG with the aft limit."),
                ("go", "unsafe load accepted", "One of the limits is passed: work out weight and CG, and compare both."),
            )
            if k != answer
        ),
    )  # fmt: skip


def _rearrange(v, g):
    front, rear = v.number("again front", 160, 185, 5), v.number("again rear", 415, 435, 5)
    side, bags, gallons, few = (v.number("again hold A", 80, 90, 5), v.number("again hold B", 56, 60, 1), 30.0, 15.0)
    # Name: what is done, loads of the four stations, gallons left out.
    helps = {
        "change": ("One rear passenger, half of that weight, changes to the free front seat",
                   (front + rear / 2, rear / 2, side, bags), 0.0),
        "to the front": ("All that is in hold B is strapped onto the free front seat", (front + bags, rear, side, 0.0), 0.0),
        "leave": ("All that is in hold B stays behind", (front, rear, side, 0.0), 0.0),
    }  # fmt: skip
    does_not = {
        "as it is": ("Nothing: the handbook's limits keep a reserve", (front, rear, side, bags), 0.0),
        "bags": (f"{few:.0f} lb move from hold B to hold A", (front, rear, side + few, bags - few), 0.0),
        "fuel": ("5 US gal less fuel is taken", (front, rear, side, bags), 5.0),
    }
    helping = v.pick("helping", tuple(helps))
    plans = {helping: helps[helping], **does_not}
    arms = [g.empty_arm, *map(_arm, HOLDS_AND_SEATS), _tank_arm()]

    # At take-off and at landing, a row of plans each.
    balanced = loading.balance(
        [
            [(g.empty_weight, *loads, (left - less) * _fuel_density()) for _, loads, less in plans.values()]
            for left in (gallons, gallons - 12)
        ],
        arms,
    )
    off, on = balanced.cg.tolist()
    # The same verdict as the whole load sheet's: every other limit is far away, which a test asks of many students.
    aft = _aft_limit(_base().envelope())
    good = [k for k, o, n in zip(plans, off, on, strict=True) if max(o, n) <= aft]
    clear = min(abs(cg - aft) for cg in (*off, *on)) > 0.1
    answer = good[0] if len(good) == 1 and clear else "unclear"
    return Question(
        key="rearrange", kind=CHOICE, title="A load that must be rearranged", points=4,
        text=(
            f"In your own aircraft ({g.empty_weight:,.0f} lb at {g.empty_arm:.1f} in): the pilot alone in front, {front:.0f} lb; two passengers in the rear, "
            f"{rear:.0f} lb together; {side:.0f} lb in hold A, {bags:.0f} lb in hold B; {gallons:.0f} US gal of fuel, 12 of them used in flight. Its weight is no "
            f"problem; the aft limit is {aft:.1f} in. Which one change makes the flight loadable, from take-off to landing?"
        ),
        answer=answer, options=tuple(v.shuffled("plans", [(k, text) for k, (text, _, _) in plans.items()])),
        hint="How far does each weight move, and how heavy is it? Remember what burning fuel does when the CG is behind the tanks.",
        worked=Later(lambda: tuple(
            f"{text}: CG {o:.1f} in at take-off, {n:.1f} in at landing"
            for (text, _, _), o, n in zip(plans.values(), off, on, strict=True)
        )),
        wrong_turns=tuple(
            WrongTurn(k, slip, says)
            for k, slip, says in (
                ("as it is", "unsafe load accepted", "The CG is behind the aft limit, and no reserve covers that."),
                ("bags", "shift too small", "It helps, but the bags move a short way only: the CG stays behind the aft limit."),
                ("fuel", "fuel ahead of the CG taken off", "The tanks are ahead of the CG: less fuel moves the CG further aft."),
            )
        ),
    )  # fmt: skip


def quick(variant):
    """Questions asked on the spot in the lesson (a tuple of `Question`), with the handbook's example and the demo aircraft."""
    base = write(variant)
    return tuple(base.question(k) for k in ("moment", "fuel weight", "moves", "shift"))
