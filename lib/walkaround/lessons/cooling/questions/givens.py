"""What the questions on cooling share: the aircraft's facts, and a student's own flights."""

from typing import NamedTuple

from walkaround.lessons.cooling.climb import Climb, Plan
from walkaround.lessons.cooling.words import degrees
from walkaround.physics.cooling import LEFT, OIL, RIGHT
from walkaround.units import HORSEPOWER_W

WELL, PLUG, KIT, PROBE = "well", "plug", "kit", "probe"
MINUTES = (0, 2, 4, 6, 8)
BOTH_SIDES_MINUTES = (0, 1, 2, 3, 4, 6, 8)


class Givens(NamedTuple):
    """A student's numbers.

    `shaft_kw`, the aircraft's power. `kind` of what is wrong in a climb, whose `before` and `today` have (heads, oil)
    in °C for each of `MINUTES`. `both_sides`, a climb with something in the intake on the side that the gauge can't see
    (`unseen`), and its `rows`: (gauge's side, unseen side, oil) in °C for each of `BOTH_SIDES_MINUTES`.
    """

    craft: object
    shaft_kw: int
    kind: str
    before: tuple
    today: tuple
    both_sides: Climb
    unseen: str
    rows: tuple

    @property
    def section(self):
        """The section [cooling] of the aircraft's file."""
        return self.craft.cooling


def givens(v, craft):
    """Draw a student's flights: `Givens`."""
    section, speed = craft.cooling, craft.speeds.climb
    seen = section.gauge_on
    unseen = RIGHT if seen == LEFT else LEFT

    kind = v.pick("kind", (WELL, PLUG, KIT, PROBE))
    usual = Climb(craft, Plan(v.number("day", 8, 24), 1.0, speed))
    wrong = {PLUG: {seen: v.number("plug", 70, 100, 10) / 100}, KIT: {"kit": True}}.get(kind, {})
    climb = Climb(craft, usual.plan._replace(**wrong))
    before, today = [], []
    for minute in MINUTES:
        for rows, flown in ((before, usual), (today, climb)):
            there = flown.at(minute)
            label = "before" if rows is before else "today"
            off = [v.number(f"{label} {minute} {part}", -1, 1) for part in ("heads", "oil")]
            rows.append((round(there[seen] + off[0]), round(there[OIL] + off[1])))
    if kind == PROBE:
        today = [(round(usual.plan.outside_c) + v.number(f"probe {m}", -1, 1), oil) for m, (_, oil) in
                 zip(MINUTES, today, strict=True)]  # fmt: skip

    stuffed = {unseen: v.number("stuffed", 80, 100, 10) / 100}
    both_sides = Climb(craft, Plan(v.number("other day", 16, 34), 1.0, speed, **stuffed))
    rows = tuple(tuple(round(both_sides.at(m)[p]) for p in (seen, unseen, OIL)) for m in BOTH_SIDES_MINUTES)
    shaft_kw = round(craft.engine.horsepower * HORSEPOWER_W / 1e3)
    return Givens(craft, shaft_kw, kind, tuple(before), tuple(today), both_sides, unseen, rows)


def facts(craft):
    """The engine's limits and gauges: rows of a table."""
    section = craft.cooling
    return (
        (f"the {craft.name}", "value"),
        ("cylinder heads, limit", degrees(section.head_limit_c)),
        ("oil, limit", degrees(craft.engine.oil_limit_c)),
        ("probe of the heads' gauge", f"on the {section.gauge_on} side"),
        ("winter kit off above", degrees(section.kit.off_above_c)),
        ("heads of both sides take up", f"{section.heads_kj_per_k:g} kJ for each °C"),
    )
