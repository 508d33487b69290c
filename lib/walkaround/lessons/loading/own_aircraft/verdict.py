"""Go or no-go: another load of the same aircraft, judged against its limits."""

from itertools import pairwise

from walkaround.assessment.builders import choice
from walkaround.lessons.loading.own_aircraft.givens import down
from walkaround.physics.loading import load_sheet

# How full the stations ahead of the middle of the cabin are, how full those behind it, and the tanks.
MIXES = {
    "usual": ((0.4, 0.8), (0.1, 0.5), 0.6),
    "all full": ((0.85, 1.0), (0.6, 1.0), 1.0),
    "front full": ((0.8, 1.0), (0.0, 0.1), 0.9),
    "back full": ((0.25, 0.4), (0.7, 1.0), 0.4),
}
OPTIONS = (
    ("go", "Go: weight and CG are inside the limits"),
    ("heavy", "No-go: too heavy at take-off"),
    ("forward", "No-go: the CG is ahead of the forward limit"),
    ("aft", "No-go: the CG is behind the aft limit"),
)
SLIPS = {
    "go": "unsafe load accepted",
    "heavy": "weight limit misjudged",
    "forward": "forward limit misjudged",
    "aft": "aft limit misjudged",
}


def go(v, g):
    """Ask whether a load may take off."""
    a, u, fine = g.aircraft, g.aircraft.units, g.fine
    loads, tanks = _another_load(v, g.drawn.aircraft, g.drawn.fine)
    found, is_clear = _judged(load_sheet(g.drawn.aircraft, loads, tanks), g.drawn.fine)
    loads = {name: g.weight(load) for name, load in loads.items()}
    tanks = {name: g.fuel(x) for name, x in tanks.items()}
    sheet = load_sheet(a, loads, tanks)
    weight, cg, most, forward, aft = _held(sheet)
    limits = sheet.envelope.limit_table(most)
    mixed_up = {"forward": {"aft": "forward and aft mixed up"}, "aft": {"forward": "forward and aft mixed up"}}
    slips = SLIPS | mixed_up.get(found, {})
    compare = "Compare the weight with its limit, and the CG with both limits at that weight."
    twice = " Where a weight stands twice, the first line holds up to it and the second above it."
    at_a_step = twice if _steps(limits) else ""
    head = (f"weight, {u.weight}", f"forward limit, {u.arm}", f"aft limit, {u.arm}")
    d, at = fine.decimals, {s.name: g.arm_text(s.arm) for s in a.stations}
    aboard = ", ".join(f"{g.figures(w)} {u.weight} at “{name}” ({at[name]})" for name, w in loads.items())
    filled = ", ".join(f"{x:g} {u.volume} in “{name}”" for name, x in tanks.items())
    return choice(
        "go",
        "Go or no-go, and why",
        f"Another load in the same aircraft: {aboard}; fuel {filled}. At most {g.figures(most)} {u.weight} are allowed "
        "at take-off. May it take off? Between the table's lines the limits run straight." + at_a_step,
        answer=found if is_clear else "unclear",
        options=v.shuffled("go options", OPTIONS),
        points=3,
        table=[head, *((g.figures(w), f"{fore:.{d}f}", f"{back:.{d}f}") for w, fore, back in limits)],
        hint="Work out weight and CG at take-off, then find the forward and aft limit at that weight.",
        worked=(
            f"take-off weight {weight:,.1f} {u.weight}, at most {g.figures(most)}; "
            f"CG {cg:.{d}f} {u.arm}, limits {forward:.{d}f} to {aft:.{d}f}",
            dict(OPTIONS)[found],
        ),
        wrong=[(key, slip, compare) for key, slip in slips.items() if key != found],
    )


def _held(sheet):
    """Weight, CG, the weight limit, and the CG limits at that weight, at take-off."""
    off = sheet.condition("take-off")
    weight, cg, most = float(off.weight), float(off.cg), float(off.weight_limit)
    forward, aft = (float(x) for x in sheet.envelope.limits_at(weight))
    return weight, cg, most, forward, aft


def _steps(limits):
    """The weights at which the limits make a step."""
    return [one[0] for one, next_one in pairwise(limits) if one[0] == next_one[0]]


def _judged(sheet, fine):
    """What is found of a load as it was drawn, and whether that is clear."""
    weight, cg, most, forward, aft = _held(sheet)
    found = "heavy" if weight > most else "forward" if cg < forward else "aft" if cg > aft else "go"
    # A load within a whisker of a limit would be a question about rounding. One over a station's maximum, or over a
    # limit that the question does not speak of, has not one answer.
    edges = [abs(weight - edge) / (2 * fine.weight) for edge in (most, *_steps(sheet.envelope.limit_table(most)))]
    whisker = min(*edges, abs(cg - forward) / fine.cg, abs(cg - aft) / fine.cg) < 1
    other = any(float(over) > 0 for over in sheet.station_over.values()) or (found == "go" and not sheet.loadable)
    return found, not (whisker or other)


def _another_load(v, a, fine):
    fore, rear, share = MIXES[v.pick("mix", tuple(MIXES))]
    arms = [s.arm for s in a.stations]
    middle, loads = (min(arms) + max(arms)) / 2, {}
    for s in a.stations:
        low, high = (down(x * s.maximum, fine.weight_step) for x in (fore if s.arm <= middle else rear))
        loads[s.name] = v.number(f"go {s.name}", low, high, fine.weight_step)
    return loads, {t.name: down(share * t.usable, fine.volume_step) for t in a.fuel.tanks}
