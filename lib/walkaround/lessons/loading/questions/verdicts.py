"""May it take off, and if not, what would help: two loads to be judged against the limits."""

from walkaround import measures
from walkaround.assessment.builders import choice
from walkaround.lessons.loading.questions.givens import (
    STATIONS,
    arms,
    cg_sum,
    figures,
    four,
    fuel_words,
    moment_figures,
    settled,
    told,
    told_arm,
    told_volume,
    words,
)
from walkaround.physics.loading import balance

# What is found, and the loads that lead there: lb on the front seats, the rear seats, in hold A and hold B, US gal.
CASES = {
    "go": ("Go: weight and CG are inside the limits", (300, 360), (100, 160), (20, 50), (0, 0), (24, 32)),
    "heavy": ("No-go: too heavy at take-off", (455, 490), (290, 320), (35, 50), (0, 0), (46, 48)),
    "forward": ("No-go: the CG is ahead of the forward limit", (470, 500), (0, 0), (0, 0), (0, 0), (46, 48)),
    "aft": ("No-go: the CG is behind the aft limit", (160, 190), (400, 430), (80, 90), (55, 60), (24, 32)),
}


def _limits_table():
    """The limits of the aircraft: rows of a table, in the units shown."""
    envelope, inches = four().envelope(), measures.unit("arm")
    at = (envelope.least_weight, told(2110), told(2300), envelope.greatest_weight)
    limits = ((w, *map(float, envelope.limits_at(w))) for w in at)
    return (
        (f"weight, {measures.unit('lb')}", f"forward limit, {inches}", f"aft limit, {inches}"),
        *((figures(w, "lb"), figures(forward, "arm"), figures(aft, "arm")) for w, forward, aft in limits),
    )


def go(v, g):
    """Ask whether a load may take off."""
    case = v.pick("case", tuple(CASES))
    _, *ranges, fuel_range = CASES[case]
    loads = {name: v.number(f"go {name}", *r, 5) for name, r in zip(STATIONS, ranges, strict=True)}
    loads = {name: told(weight) for name, weight in loads.items() if weight}
    gallons = told_volume(v.number("go fuel", *fuel_range, 2))
    # The forward limit is reached by an aircraft with a forward empty CG: the question brings its own.
    arm = told_arm(97.9) if case == "forward" else g.empty_arm
    at, density, envelope = arms(), four().fuel.density, four().envelope()
    fuel = round(gallons * density, 1)
    items = [(g.empty_weight, arm), *((w, at[n]) for n, w in loads.items()), (fuel, at["tanks"])]
    weight, moment, cg = (float(x) for x in balance(*zip(*items, strict=True)))
    forward, aft = (float(x) for x in envelope.limits_at(weight))
    most = envelope.greatest_weight
    found = "heavy" if weight > most else "forward" if cg < forward else "aft" if cg > aft else "go"
    # A load within a whisker of a limit would be a question about rounding.
    clear = min(abs(weight - most) / 20, abs(cg - forward) / 0.2, abs(cg - aft) / 0.2) >= 1
    texts = {key: text for key, (text, *_) in CASES.items()}
    aboard = ", ".join(f"{words(w, 'lb')} {'in' if n.startswith('hold') else 'on the'} {n}" for n, w in loads.items())
    loads_sum = " + ".join(figures(w, "lb") for w in loads.values())
    products = [f"{figures(w, 'lb')} × {figures(x, 'arm')}" for w, x in items]
    inches = measures.unit("arm")
    behind = "Behind the aft limit means a larger arm than the limit. Compare the CG with the aft limit."
    slips = [
        ("heavy", "weight limit misjudged", "Add up the weights once more and compare them with the top of the table."),
        (
            "forward",
            "forward and aft mixed up" if found == "aft" else "forward limit misjudged",
            "Ahead of the forward limit means a smaller arm than the limit. "
            "Compare the CG with the forward limit at this weight.",
        ),
        ("aft", "forward and aft mixed up" if found == "forward" else "aft limit misjudged", behind),
        ("go", "unsafe load accepted", "One of the limits is passed: work out weight and CG, and compare both."),
    ]
    return choice(
        "go",
        "Go or no-go, and why",
        f"Another load, in a Morrowlark of {words(g.empty_weight, 'lb')} at {words(arm, 'arm')}: {aboard}, "
        f"{fuel_words(gallons)} of fuel. May it take off? The table gives the limits; between its lines they run "
        "straight.",
        answer=settled(found, clear),
        options=v.shuffled("go options", texts.items()),
        points=3,
        table=_limits_table(),
        hint="Work out weight and CG at take-off, then find the forward and aft limit at that weight.",
        worked=(
            f"weight: {figures(g.empty_weight, 'lb')} + {loads_sum} + {gallons:.0f} × {density:g} = "
            f"{words(weight, 'lb')}",
            f"moment: {' + '.join(products)} = {moment_figures(moment)} {measures.unit('lb-in')}",
            cg_sum(moment, weight),
            f"limits there: {figures(forward, 'arm')} to {figures(aft, 'arm')} {inches}, at most {words(most, 'lb')}",
            texts[found],
        ),
        wrong=[row for row in slips if row[0] != found],
    )


def rearrange(v, g):
    """Ask which one change brings a tail-heavy load inside, from take-off to landing."""
    front, rear = told(v.number("again front", 160, 185, 5)), told(v.number("again rear", 415, 435, 5))
    side, bags = told(v.number("again hold A", 80, 90, 5)), told(v.number("again hold B", 56, 60, 1))
    gallons, trip, less, few = told_volume(30.0), told_volume(12.0), told_volume(5.0), told(15.0)
    helps = {
        "change": "One rear passenger, half of that weight, changes to the free front seat",
        "to the front": "All that is in hold B is strapped onto the free front seat",
        "leave": "All that is in hold B stays behind",
    }
    helping = v.pick("helping", tuple(helps))
    plans = {
        helping: helps[helping],
        "as it is": "Nothing: the limits in the aircraft's handbook keep a reserve",
        "bags": f"{words(few, 'lb')} move from hold B to hold A",
        "fuel": f"{fuel_words(less)} less fuel is taken",
    }
    loads = {  # of the four stations, when it has been done
        "change": (front + rear / 2, rear / 2, side, bags),
        "to the front": (front + bags, rear, side, 0.0),
        "leave": (front, rear, side, 0.0),
        "as it is": (front, rear, side, bags),
        "bags": (front, rear, side + few, bags - few),
        "fuel": (front, rear, side, bags),
    }
    at, density = arms(), four().fuel.density
    every = [g.empty_arm, *(at[name] for name in STATIONS), at["tanks"]]

    def cg(key, burnt):
        left = gallons - burnt - (less if key == "fuel" else 0)
        return float(balance([g.empty_weight, *loads[key], left * density], every).cg)

    cgs = {key: (cg(key, 0.0), cg(key, trip)) for key in plans}  # at take-off and at landing
    # The same verdict as the whole load sheet's: every other limit is far away, which a test asks of many students.
    aft = float(four().envelope().limits_at(told(2300))[1])
    good = [key for key, both in cgs.items() if max(both) <= aft]
    clear = min(abs(x - aft) for both in cgs.values() for x in both) > 0.1
    short_way = "It helps, but the bags move a short way only: the CG stays behind the aft limit."
    tanks_ahead = "The tanks are ahead of the CG: less fuel moves the CG further aft."
    return choice(
        "rearrange",
        "A load that must be rearranged",
        f"In your own aircraft ({words(g.empty_weight, 'lb')} at {words(g.empty_arm, 'arm')}): the pilot alone in "
        f"front, {words(front, 'lb')}; two passengers in the rear, {words(rear, 'lb')} together; {words(side, 'lb')} "
        f"in hold A, {words(bags, 'lb')} in hold B; {fuel_words(gallons)} of fuel, {trip:.0f} of them used in flight. "
        f"Its weight is no problem; the aft limit is {words(aft, 'arm')}. Which one change makes the flight loadable, "
        "from take-off to landing?",
        answer=settled(good[0], clear) if len(good) == 1 else "unclear",
        options=v.shuffled("plans", plans.items()),
        points=4,
        hint="How far does each weight move, and how heavy is it? "
        "Remember what burning fuel does when the CG is behind the tanks.",
        worked=[
            f"{plans[k]}: CG {words(off, 'arm')} at take-off, {words(on, 'arm')} at landing"
            for k, (off, on) in cgs.items()
        ],
        wrong=[
            ("as it is", "unsafe load accepted", "The CG is behind the aft limit, and no reserve covers that."),
            ("bags", "shift too small", short_way),
            ("fuel", "fuel ahead of the CG taken off", tanks_ahead),
        ],
    )
