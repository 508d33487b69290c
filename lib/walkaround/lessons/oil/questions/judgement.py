"""Questions on what a log means: what to do today, and what a line with its interval says."""

from walkaround import measures
from walkaround.assessment.builders import choice, choices
from walkaround.lessons.oil.check import ADD, AGAIN, CHANGED, ENOUGH
from walkaround.lessons.oil.questions.givens import USUAL_MINUTES, rate
from walkaround.lessons.oil.questions.sums import line_says, log_table
from walkaround.lessons.oil.words import sentence
from walkaround.physics.oil import hours_until, trend


def questions(v, g, section):
    """Questions on what a log means, for a student's draws `v`, `Givens` `g` and the engine's section of oil."""
    return _which(v, g), _statements(v, section)


def _which(v, g):
    check, flight = g.check, f"{g.check.flight_h:g} h"
    slope = f"{check.nose_up_deg:.0f}° nose up" if check.nose_up_deg else "level"
    options = (
        (ENOUGH, "Go: there is enough, and the trend is steady"),
        (ADD, "Add oil first: this flight needs more"),
        (AGAIN, "Read the stick again before you decide"),
        (CHANGED, "Show a mechanic before you fly: it burns more than it did"),
    )
    # A log that comes to something else than it was made for is drawn again, and so is one that is nearly that.
    right = g.expected if check.verdict == g.expected and not _nearly(check) else "unclear"
    read_first = "Look at how the last reading was taken: it can't tell you that yet."
    look_back = "Each reading is above the least. But compare what ten hours cost at first and what they cost now."
    says = {
        ENOUGH: (ADD, "not needed", "There is more than the flight burns, and the least on top of it."),
        ADD: (ENOUGH, "flight not counted", "Take what this flight burns off the reading. What is left?"),
        AGAIN: (CHANGED, "a bad reading taken for a trend", read_first),
        CHANGED: (ENOUGH, "trend not seen", look_back),
    }
    return choice(
        "which",
        "What today's reading means",
        f"Today's flight takes {flight}. The last reading of the log was taken {check.minutes:.0f} minutes after "
        f"shut-down, with the aircraft {slope}; all others {USUAL_MINUTES} minutes after shut-down, on level ground. "
        "What do you do?",
        answer=right,
        options=v.shuffled("which", options),
        points=3,
        table=log_table(check.log.hours, check.log.quantities, check.log.added),
        hint="First: can the last reading be trusted? Then: is there enough? Then: is the fall as steep as ever?",
        worked=sentence(check),
        wrong=[says[g.expected]],
    )


def _nearly(check):
    """Whether a careful person with pencil and paper might come to something else."""
    first, last = (trend(*(column[part] for column in check.log)) for part in (slice(0, 5), slice(4, None)))
    more = float(last.per_hour - first.per_hour)
    return {
        CHANGED: more < 0.12,
        AGAIN: False,
        ADD: abs(more) > 0.08 or check.needed - check.shown < 0.15,
        ENOUGH: abs(more) > 0.08 or check.shown - check.needed_at_worst < 0.3,
    }[check.verdict]


def _statements(v, section):
    have, line = v.number("line says", 6.5, 7.3, 0.1), v.number("line's rate", 0.1, 0.18, 0.02)
    within, hours = v.number("line within", 0.03, 0.06, 0.01), v.number("trip", 3, 12)
    refill = section.sump.refill_at
    low, high = round(line - within, 2), round(line + within, 2)
    asked = v.pick("asked rate", (round(high - 0.01, 2), round(high + 0.02, 2)))
    earliest, latest = (float(hours_until(have, refill, r)) for r in (high, low))
    qt, per_hour, quart = measures.unit("qt"), measures.unit("qt/h"), measures.name("qt").removesuffix("s")
    is_so = {
        "may": (f"The engine may well burn {rate(asked):g} {per_hour}", asked <= high),
        "due": (f"The next {quart} may be due within {hours:.0f} hours", hours >= earliest),
        "sure": (f"Even at the slowest rate of the interval, it is due within {hours:.0f} hours", hours >= latest),
        "narrow": ("As many readings again, as carefully taken, would make the interval narrower", True),
        "none": ("That no reading was below the least shows that nothing is wrong", False),
    }
    right = frozenset(k for k, (_, so) in is_so.items() if so)
    if min(abs(hours - earliest), abs(hours - latest)) < 0.4:
        right = frozenset()  # a question of rounding
    have, refill, low, line, within, high = line_says(have, refill, line, within)
    earliest, latest = (float(hours_until(have, refill, r)) for r in (high, low))
    return choices(
        "statements",
        "What the line says",
        f"A line through six readings: {line:g} ± {within:g} {per_hour} with 95 % confidence. The stick shows {have:g} "
        f"{qt}, and you refill at {refill:g} {qt}. Choose everything that is true.",
        answer=right,
        options=v.shuffled("statements", [(k, text) for k, (text, _) in is_so.items()]),
        points=3,
        hint="Compute the hours with the fastest rate, and again with the slowest.",
        worked=(
            f"at most {high:g} {per_hour}, at least {low:g}",
            f"due after ({have:g} − {refill:g}) ÷ {high:g} = {earliest:.1f} h at the earliest, "
            f"({have:g} − {refill:g}) ÷ {low:g} = {latest:.1f} h at the latest",
            *(f"{text}: {'yes' if so else 'no'}" for text, so in is_so.values()),
        ),
        wrong=[
            (right - {"narrow"}, "more readings thought useless", "More readings do help: what would they change?")
            if len(right) > 1
            else None,
            (right | {"none"}, "levels without trend", "A trend shows long before a reading is below the least."),
        ],
    )
