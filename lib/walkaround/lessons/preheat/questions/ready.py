"""Questions on when an engine is ready, how long it stays so, and the order in which a preheat is safe."""

import numpy as np

from walkaround.assessment.builders import choices, number, order
from walkaround.lessons.preheat.questions.scenario import OUTSIDE_C, PAD_MINUTES, WAIT_MINUTES, celsius_text, in_frost

PARTS = ("metal", "oil", "cylinders")


def questions(v, g):
    """Questions on readiness for a student's draws `v` and what they are told, `g`."""
    return _ready(g), _statements(v, g), _wait(v), _steps(v)


def _pad_table(i):
    rows = zip(PAD_MINUTES, in_frost().pad_c[i].tolist(), strict=True)
    return (("minutes", *PARTS), *((f"{m}", *(celsius_text(t, 1) for t in row)) for m, row in rows))


def _ready(g):
    i, found = OUTSIDE_C.index(g.outside_c), in_frost()
    by_part = {part: float(m[i]) for part, m in found.pad_ready.items()}
    last = max(by_part, key=by_part.get)
    answer = by_part[last]
    only_oil = "That is when the oil is ready. The pad warms it first; metal and cylinders are still cold and tight."
    # A slip is read off the table, so it is what going straight between the table's lines gives.
    metal = _crossing(PAD_MINUTES, -found.pad_c[i, :, 0], -g.ready_c["metal"])
    oil = _crossing(PAD_MINUTES, -found.pad_c[i, :, 1], -g.ready_c["oil"])
    return number(
        "ready",
        "When the engine is ready",
        f"Only the pad of {g.pad_w:.0f} W on the sump is on, with the cover. The table shows how warm each part gets. "
        f"Ready means: oil at {celsius_text(g.ready_c['oil'])}, metal and cylinders at "
        f"{celsius_text(g.ready_c['metal'])}. After how many minutes is the engine ready? Between two lines go "
        "straight.",
        answer=answer,
        unit="min",
        tolerance=4,
        points=3,
        table=_pad_table(i),
        hint="Every part has to be warm enough: look for the one that is last.",
        worked=(
            *(f"{part} ready after {m:.0f} min" for part, m in by_part.items()),
            f"the {last} last: {answer:.0f} min",
        ),
        wrong=[
            (oil, "oil ready taken for engine ready", only_oil),
            (metal, "cylinders forgotten", "That is when the metal is ready; the cylinders are behind it."),
            ((metal + oil + answer) / 3, "average of the parts", "You averaged. The slowest part decides."),
        ],
    )


def _statements(v, g):
    i, at = OUTSIDE_C.index(g.outside_c), v.pick("statements at", (60, 80, 100, 120))
    warm = dict(zip(PARTS, in_frost().pad_c[i, PAD_MINUTES.index(at)].tolist(), strict=True))
    margins = {part: warm[part] - g.ready_c[part] for part in PARTS}
    gap = warm["oil"] - warm["cylinders"]
    limits = {part: celsius_text(g.ready_c[part]) for part in PARTS}
    is_so = {
        "oil": (f"The oil has reached its {limits['oil']}", margins["oil"] >= 0),
        "metal": (f"The metal has reached its {limits['metal']}", margins["metal"] >= 0),
        "cylinders": (f"The cylinders have reached their {limits['cylinders']}", margins["cylinders"] >= 0),
        "start": ("By these temperatures the engine may be started", min(margins.values()) >= 0),
        "gap": ("The oil is more than 10 °C warmer than the cylinders", gap > 10),
    }
    right = frozenset(k for k, (_, so) in is_so.items() if so)
    # Within a whisker of a limit it would be a question of rounding, and with nothing right no question at all.
    if min(*(abs(m) for m in margins.values()), abs(gap - 10)) < 0.15:
        right = frozenset()
    too_many = "All right but one: warm oil does not make an engine ready by itself."
    too_few = "All right, but every part is as warm as it has to be: what follows?"
    return choices(
        "statements",
        "What is true by then",
        f"The same morning, the same pad and cover: {at} minutes have gone by. Choose everything that is true.",
        answer=right,
        options=v.shuffled("statements", [(k, text) for k, (text, _) in is_so.items()]),
        points=3,
        table=_pad_table(i),
        hint="Read the line, and compare each part with its own ready temperature.",
        worked=(
            f"after {at} min: " + ", ".join(f"{part} {celsius_text(t, 1)}" for part, t in warm.items()),
            *(f"{text}: {'yes' if so else 'no'}" for text, so in is_so.values()),
        ),
        wrong=[
            (right | {"start"}, "oil ready taken for engine ready", too_many)
            if right and "start" not in right
            else None,
            (right - {"start"}, "ready engine not seen", too_few) if "start" in right else None,
        ],
    )


def _wait(v):
    outside, found = v.pick("wait outside", OUTSIDE_C), in_frost()
    i = OUTSIDE_C.index(outside)
    without, with_cover = found.wait_minutes[:, i].tolist()
    off, on = found.wait_c[:, i]
    covered = "That is with the cover on. It has been put away."
    too_late = "By then the oil has long been too cold: the first part that is too cold counts."
    rows = zip(WAIT_MINUTES, off[:, 1].tolist(), off[:, 0].tolist(), on[:, 1].tolist(), strict=True)
    return number(
        "wait",
        "The longest wait",
        f"After a long preheat the heater is off and put away, and so is the cover. It is {celsius_text(outside)} and "
        "calm. How long can the start wait before a part falls below its ready temperature (oil 10 °C, metal 0 °C)? "
        "Between two rows take a straight line.",
        answer=without,
        unit="min",
        tolerance=3,
        points=3,
        table=(
            ("minutes", "oil, no cover", "metal, no cover", "oil, cover on"),
            *((f"{m}", *(celsius_text(t, 1) for t in row)) for m, *row in rows),
        ),
        hint="Find where the oil passes 10 °C and the metal 0 °C without the cover. The earlier of the two counts.",
        worked=(
            f"without the cover the oil is down to 10 °C after {without:.0f} min, and the metal is still warmer than "
            "0 °C",
            f"with the cover on it would have been {with_cover:.0f} min",
        ),
        wrong=[
            (_crossing(WAIT_MINUTES, on[:, 1], 10.0), "column with the cover", covered),
            (_crossing(WAIT_MINUTES, off[:, 0], 0.0), "metal's ready temperature for the oil's", too_late),
        ],
    )


def _crossing(minutes, falling, level):
    """Where a falling column passes a level, going straight between its lines; the last line where it does not."""
    return float(np.interp(-level, -np.round(falling, 1), minutes))


def _steps(v):
    steps = (
        ("book", "Read in the aircraft's handbook whether and how to preheat"),
        ("live", "Ignition off, and treat the propeller as live all the same"),
        ("clear", "Look for dripping fuel, and set the heater up in the open air, an extinguisher beside it"),
        ("heat", "Heat, and stay with it, until oil and metal are both ready"),
        ("away", "Switch off, and take heater, duct and cover away"),
        ("start", "Start without a long wait, and watch the oil pressure: none means stop"),
    )
    after_lighting = "Look for fuel before anything is hot, not after."
    propeller_last = "You work about the cowl before the ignition is off: the propeller comes first."
    return order(
        "steps",
        "From the book to the start",
        "Put the steps of a preheat in the order in which they are safe.",
        steps=steps,
        shown=v.shuffled("steps", steps),
        points=2,
        hint="What must you know before you touch anything, and what must be made safe before anything is hot?",
        wrong=[
            (("book", "clear", "live", "heat", "away", "start"), "propeller last", propeller_last),
            (("book", "live", "heat", "clear", "away", "start"), "looked for fuel too late", after_lighting),
        ],
    )
