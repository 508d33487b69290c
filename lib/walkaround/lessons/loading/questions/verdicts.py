"""May it take off, and if not, what would help: two loads to be judged against the limits."""

from walkaround.assessment.builders import choice
from walkaround.lessons.loading.questions.givens import ARMS, LB_PER_GAL, MORROWLARK, STATIONS, TANK_ARM
from walkaround.physics.loading import balance

ENVELOPE = MORROWLARK.envelope()
LIMITS = {float(w): ENVELOPE.limits_at(w) for w in (ENVELOPE.least_weight, 2110, 2300, ENVELOPE.greatest_weight)}
LIMITS_TABLE = (
    ("weight, lb", "forward limit, in", "aft limit, in"),
    *((f"{weight:,.0f}", f"{forward:.1f}", f"{aft:.1f}") for weight, (forward, aft) in LIMITS.items()),
)
# What is found, and the loads that lead there: lb on the front seats, the rear seats, in hold A and hold B, US gal.
CASES = {
    "go": ("Go: weight and CG are inside the limits", (300, 360), (100, 160), (20, 50), (0, 0), (24, 32)),
    "heavy": ("No-go: too heavy at take-off", (455, 490), (290, 320), (35, 50), (0, 0), (46, 48)),
    "forward": ("No-go: the CG is ahead of the forward limit", (470, 500), (0, 0), (0, 0), (0, 0), (46, 48)),
    "aft": ("No-go: the CG is behind the aft limit", (160, 190), (400, 430), (80, 90), (55, 60), (24, 32)),
}


def go(v, g):
    """Ask whether a load may take off."""
    case = v.pick("case", tuple(CASES))
    _, *ranges, fuel_range = CASES[case]
    loads = {name: v.number(f"go {name}", *r, 5) for name, r in zip(STATIONS, ranges, strict=True)}
    loads = {name: weight for name, weight in loads.items() if weight}
    gallons = v.number("go fuel", *fuel_range, 2)
    # The forward limit is reached by an aircraft with a forward empty CG: the question brings its own.
    arm = 97.9 if case == "forward" else g.empty_arm
    fuel = gallons * LB_PER_GAL
    items = [(g.empty_weight, arm), *((w, ARMS[n]) for n, w in loads.items()), (fuel, TANK_ARM)]
    weight, moment, cg = (float(x) for x in balance(*zip(*items, strict=True)))
    forward, aft = (float(x) for x in ENVELOPE.limits_at(weight))
    most = ENVELOPE.greatest_weight
    found = "heavy" if weight > most else "forward" if cg < forward else "aft" if cg > aft else "go"
    # A load within a whisker of a limit would be a question about rounding.
    clear = min(abs(weight - most) / 20, abs(cg - forward) / 0.2, abs(cg - aft) / 0.2) >= 1
    texts = {key: text for key, (text, *_) in CASES.items()}
    aboard = ", ".join(f"{w:.0f} lb {'in' if n.startswith('hold') else 'on the'} {n}" for n, w in loads.items())
    loads_sum = " + ".join(f"{w:.0f}" for w in loads.values())
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
        f"Another load, in a Morrowlark of {g.empty_weight:,.0f} lb at {arm:.1f} in: {aboard}, {gallons:.0f} US gal of "
        "fuel. May it take off? The table gives the limits; between its lines they run straight.",
        answer=found if clear else "unclear",
        options=v.shuffled("go options", texts.items()),
        points=3,
        table=LIMITS_TABLE,
        hint="Work out weight and CG at take-off, then find the forward and aft limit at that weight.",
        worked=(
            f"weight: {g.empty_weight:,.0f} + {loads_sum} + {gallons:.0f} × 6 = {weight:,.0f} lb",
            "moment: " + " + ".join(f"{w:,.0f} × {x:.1f}" for w, x in items) + f" = {moment:,.10g} lb-in",
            f"CG = {moment:,.10g} ÷ {weight:,.0f} = {cg:.1f} in",
            f"limits there: {forward:.1f} to {aft:.1f} in, at most {most:,.0f} lb",
            texts[found],
        ),
        wrong=[row for row in slips if row[0] != found],
    )


def rearrange(v, g):
    """Ask which one change brings a tail-heavy load inside, from take-off to landing."""
    front, rear = v.number("again front", 160, 185, 5), v.number("again rear", 415, 435, 5)
    side, bags = v.number("again hold A", 80, 90, 5), v.number("again hold B", 56, 60, 1)
    gallons, trip, few = 30.0, 12.0, 15.0
    helps = {
        "change": "One rear passenger, half of that weight, changes to the free front seat",
        "to the front": "All that is in hold B is strapped onto the free front seat",
        "leave": "All that is in hold B stays behind",
    }
    helping = v.pick("helping", tuple(helps))
    plans = {
        helping: helps[helping],
        "as it is": "Nothing: the limits in the aircraft's handbook keep a reserve",
        "bags": f"{few:.0f} lb move from hold B to hold A",
        "fuel": "5 US gal less fuel is taken",
    }
    loads = {  # of the four stations, when it has been done
        "change": (front + rear / 2, rear / 2, side, bags),
        "to the front": (front + bags, rear, side, 0.0),
        "leave": (front, rear, side, 0.0),
        "as it is": (front, rear, side, bags),
        "bags": (front, rear, side + few, bags - few),
        "fuel": (front, rear, side, bags),
    }
    arms = [g.empty_arm, *(ARMS[name] for name in STATIONS), TANK_ARM]

    def cg(key, burnt):
        left = gallons - burnt - (5 if key == "fuel" else 0)
        return float(balance([g.empty_weight, *loads[key], left * LB_PER_GAL], arms).cg)

    cgs = {key: (cg(key, 0.0), cg(key, trip)) for key in plans}  # at take-off and at landing
    # The same verdict as the whole load sheet's: every other limit is far away, which a test asks of many students.
    aft = float(LIMITS[2300][1])
    good = [key for key, both in cgs.items() if max(both) <= aft]
    clear = min(abs(x - aft) for both in cgs.values() for x in both) > 0.1
    short_way = "It helps, but the bags move a short way only: the CG stays behind the aft limit."
    tanks_ahead = "The tanks are ahead of the CG: less fuel moves the CG further aft."
    return choice(
        "rearrange",
        "A load that must be rearranged",
        f"In your own aircraft ({g.empty_weight:,.0f} lb at {g.empty_arm:.1f} in): the pilot alone in front, "
        f"{front:.0f} lb; two passengers in the rear, {rear:.0f} lb together; {side:.0f} lb in hold A, {bags:.0f} lb "
        f"in hold B; {gallons:.0f} US gal of fuel, {trip:.0f} of them used in flight. Its weight is no problem; the "
        f"aft limit is {aft:.1f} in. Which one change makes the flight loadable, from take-off to landing?",
        answer=good[0] if len(good) == 1 and clear else "unclear",
        options=v.shuffled("plans", plans.items()),
        points=4,
        hint="How far does each weight move, and how heavy is it? "
        "Remember what burning fuel does when the CG is behind the tanks.",
        worked=[f"{plans[k]}: CG {off:.1f} in at take-off, {on:.1f} in at landing" for k, (off, on) in cgs.items()],
        wrong=[
            ("as it is", "unsafe load accepted", "The CG is behind the aft limit, and no reserve covers that."),
            ("bags", "shift too small", short_way),
            ("fuel", "fuel ahead of the CG taken off", tanks_ahead),
        ],
    )
