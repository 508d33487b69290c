"""Questions on the battery itself: when it freezes, and what that means on the ramp."""

import numpy as np

from walkaround.assessment.builders import choices, number
from walkaround.lessons.ground_power.questions.scenario import celsius_text
from walkaround.physics.electrical import electrolyte_freezes_c, open_circuit_volts
from walkaround.physics.electrical.battery import FULL_GRAVITY, GRAVITY_TO_VOLTS

GRAVITIES = (1.10, 1.15, 1.20, 1.25, 1.28)
FREEZES_C = np.round(electrolyte_freezes_c(GRAVITIES))
TABLE = (
    ("specific gravity", "freezes at"),
    *((f"{gravity:.2f}", celsius_text(c)) for gravity, c in zip(GRAVITIES, FREEZES_C, strict=True)),
)
HALF_CHARGED, CELLS = 1.20, 6


def questions(v):
    """Questions on the battery for a student's draws `v`."""
    return _freezes(v), _frozen(v)


def _freezes(v):
    gravity = v.pick("gravity", (1.12, 1.13, 1.17, 1.18, 1.22, 1.23))
    i = int(np.searchsorted(GRAVITIES, gravity)) - 1
    (low, high), (above, below) = GRAVITIES[i : i + 2], FREEZES_C[i : i + 2]
    read = above + (below - above) * (gravity - low) / (high - low)
    answer = float(electrolyte_freezes_c(gravity))
    steps = (
        f"({gravity:.2f} − {low:.2f}) ÷ ({high:.2f} − {low:.2f}) = {(gravity - low) / (high - low):.1f} of the way",
        f"{above:.0f} − ({above:.0f} − ({below:.0f})) × {(gravity - low) / (high - low):.1f} = {read:.1f} °C",
    )
    return number(
        "freezes",
        "When it freezes",
        f"A hydrometer shows a specific gravity of {gravity:.2f} in every cell. At what temperature does this battery "
        "freeze? Between two rows, take a straight line.",
        answer=answer,
        unit="°C",
        tolerance=1,
        points=2,
        table=TABLE,
        hint="Between which two rows does it lie, and how far along?",
        worked=[step.replace("-", "−") for step in steps],
        wrong=[
            (float(above), "the row above", "That is for a weaker electrolyte: read between the rows."),
            (float(below), "the row below", "That is for a stronger electrolyte: read between the rows."),
            (-answer, "minus sign lost", "It freezes below zero: mind the minus sign."),
        ],
    )


def _frozen(v):
    gravity, outside = v.pick("frozen gravity", (1.13, 1.14, 1.16, 1.17, 1.22, 1.24)), v.number("night", -25, -10)
    freezes, volts = float(electrolyte_freezes_c(gravity)), CELLS * (gravity + GRAVITY_TO_VOLTS)
    full_v = float(open_circuit_volts(1.0, CELLS))
    said_v = v.pick("said volts", (volts, full_v))
    frozen = outside < freezes
    is_so = {
        "ice": ("Its electrolyte has frozen", frozen),
        "burst": ("It has to be thawed before anyone cranks with it or charges it", frozen),
        "full": ("A full battery would have stayed liquid", outside > float(electrolyte_freezes_c(FULL_GRAVITY))),
        "half": ("It was more than half charged", gravity > HALF_CHARGED),
        "volts": (f"Before the night, at rest, it had about {said_v:.1f} V", said_v == volts),
    }
    right = frozenset(key for key, (_, so) in is_so.items() if so)
    if abs(outside - freezes) < 1.5:  # a question of rounding: drawn again
        right = frozenset()
    only_cold = "It has not frozen: its electrolyte is strong enough for this night."
    not_seen = f"It freezes at {celsius_text(freezes)}, and the night was colder: treat it as ice."
    return choices(
        "frozen",
        "After a night outside",
        f"Before the night another battery of {CELLS} cells showed a specific gravity of {gravity:.2f}. Since then it "
        f"has stood at {celsius_text(outside)}. Half charged is {HALF_CHARGED:.2f}, and a cell at rest has its gravity "
        f"+ {GRAVITY_TO_VOLTS} V (a rule of thumb). Choose everything that is true.",
        answer=right,
        options=v.shuffled("frozen", [(key, text) for key, (text, _) in is_so.items()]),
        points=3,
        table=TABLE,
        hint="Compare the night with the temperature at which this electrolyte freezes.",
        worked=(
            f"gravity {gravity:.2f} freezes at {celsius_text(freezes)}; the night was {celsius_text(outside)}",
            f"{CELLS} × ({gravity:.2f} + {GRAVITY_TO_VOLTS}) = {volts:.1f} V",
            *(f"{text}: {'yes' if so else 'no'}" for text, so in is_so.values()),
        ),
        wrong=[
            (right - {"ice", "burst"}, "ice not seen", not_seen) if frozen else None,
            (right | {"ice", "burst"}, "ice where there is none", only_cold) if not frozen else None,
        ],
    )
