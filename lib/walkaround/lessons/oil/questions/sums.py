"""Questions on a log: what was burnt, how fast, when oil is due, and whether the rate has changed."""

from walkaround import measures
from walkaround.assessment.builders import number
from walkaround.lessons.oil.questions.givens import lasting, quantity, rate
from walkaround.physics import oil


def questions(v, g, section):
    """Questions on logs for a student's draws `v` and `Givens` `g`, and an engine's section of oil."""
    return _burnt(g), _rate(g), _due(v, section), _earliest(v, section), _more(v)


def log_table(hours, stick, added):
    """A log in quarts as rows of a table."""
    rows, qt = zip(hours, stick, added, strict=True), measures.unit("qt")
    return (
        ("engine hours", "stick", "added after it"),
        *((f"{h:g}", measures.words(q, "qt", 1, 2), f"{quantity(a):g} {qt}" if a else "–") for h, q, a in rows),
    )


def _burnt(g):
    first, last, added = (quantity(q) for q in (g.stick[0], g.stick[-1], g.added))
    digits, qt = measures.places("qt", 1, 2), measures.unit("qt")
    answer = first + added - last
    return number(
        "burnt",
        "What the engine has burnt",
        "The table is this month's log; the stick was read before each flight. How much oil has the engine burnt from "
        "the first reading to the last?",
        answer=answer,
        unit=qt,
        tolerance=measures.given(0.04, "qt", metric=3),
        points=2,
        table=log_table(g.hours, g.stick, (0, 0, g.added, 0, 0)),
        hint="What went in on the way has been burnt as well, or is still there.",
        worked=f"{first:.{digits}f} + {added:g} − {last:.{digits}f} = {answer:.{digits}f} {qt}",
        wrong=[
            (first - last, "oil added not counted", "That is what the stick has fallen. A bottle went in on the way."),
            (
                first - last - added,
                "oil added taken off",
                "You took the bottle off. What went in was burnt too: add it.",
            ),
            (added, "oil added taken for oil burnt", "That is what went in. The level has changed as well."),
        ],
    )


def _rate(g):
    first, last, added = (quantity(q) for q in (g.stick[0], g.stick[-1], g.added))
    digits, qt, quarts = measures.places("qt", 1, 2), measures.unit("qt"), measures.name("qt")
    burnt, hours = first + added - last, g.hours[-1] - g.hours[0]
    answer = float(oil.consumption_per_hour(burnt, hours))
    return number(
        "rate",
        "How much in an hour",
        "From the same log: how much oil does the engine burn in an hour, from the first reading to the last?",
        answer=answer,
        unit=measures.unit("qt/h"),
        tolerance=measures.given(0.006, "qt/h", metric=4),
        points=2,
        table=log_table(g.hours, g.stick, (0, 0, g.added, 0, 0)),
        hint="What was burnt, with the bottle counted, divided by the hours between the two readings.",
        worked=(
            f"burnt: {first:.{digits}f} + {added:g} − {last:.{digits}f} = {burnt:.{digits}f} {qt}",
            f"hours: {g.hours[-1]:g} − {g.hours[0]:g} = {hours:g} h",
            f"{burnt:.{digits}f} ÷ {hours:g} = {answer:.3f} {qt}/h",
        ),
        wrong=[
            ((burnt - added) / hours, "oil added not counted", "You left out the bottle that went in."),
            (burnt / (len(g.hours) - 1), "per flight", "That is for each flight. The hours differ: divide by them."),
            (
                hours / burnt,
                "turned round",
                f"That is hours for each {quarts.removesuffix('s')}. The question is {quarts} for each hour.",
            ),
        ],
    )


def _due(v, section):
    drawn = v.number("have", 6.5, 7.2, 0.1), v.number("known rate", 0.08, 0.2, 0.01)
    have, refill, burns = lasting(drawn[0], section.sump.refill_at, drawn[1])
    least, digits, qt = quantity(section.minimum), measures.places("qt", 1, 2), measures.unit("qt")
    answer, quart = float(oil.hours_until(have, refill, burns)), measures.name("qt").removesuffix("s")
    return number(
        "due",
        f"When the next {quart} is due",
        f"The stick shows {have:g} {qt}, and the engine burns {burns:g} {qt} an hour. You refill when it is down "
        f"to {refill:g} {qt}. After how many hours is that?",
        answer=answer,
        unit="h",
        tolerance=0.15,
        points=2,
        hint="How much may still be burnt? Then: how many hours does that last?",
        worked=(
            f"{have:g} − {refill:g} = {have - refill:.{digits}f} {qt}",
            f"{have - refill:.{digits}f} ÷ {burns:g} = {answer:.1f} h",
        ),
        wrong=[
            ((have - least) / burns, "down to the least", f"That is down to {least:g} {qt}. You refill before that."),
            (have / burns, "down to nothing", "That is until the sump is dry."),
            (
                burns * (have - refill),
                "multiplied",
                "You multiplied. Divide what may be burnt by what it burns in an hour.",
            ),
        ],
    )


def _earliest(v, section):
    have, line = v.number("have, unsure", 6.6, 7.4, 0.1), v.number("fitted rate", 0.1, 0.18, 0.02)
    within, refill, qt = v.number("within", 0.03, 0.06, 0.01), section.sump.refill_at, measures.unit("qt")
    have, refill, low, line, within, high = line_says(have, refill, line, within)
    answer = float(oil.hours_until(have, refill, high))
    return number(
        "earliest",
        "The earliest it may be due",
        f"A line through a few readings gives {line:g} ± {within:g} {qt}/h: with 95 % confidence the true rate lies "
        f"within that. The stick shows {have:g} {qt}, and you trust it. How many hours until it is down to "
        f"{refill:g} {qt}, at the earliest?",
        answer=answer,
        unit="h",
        tolerance=0.15,
        points=3,
        hint="At the earliest means: at the fastest that the engine may burn.",
        worked=(
            f"{line:g} + {within:g} = {high:g} {qt}/h at most",
            f"({have:g} − {refill:g}) ÷ {high:g} = {answer:.1f} h",
        ),
        wrong=[
            ((have - refill) / low, "the slow end", "That is the latest. The earliest comes from the fastest rate."),
            ((have - refill) / line, "the middle", "That is the likeliest. What if it burns a little more?"),
            (
                (have - quantity(section.minimum)) / high,
                "down to the least",
                "That is down to the least, not to where you refill.",
            ),
        ],
    )


def line_says(have, refill, line, within):
    """What there is, where to refill, and the slowest rate, the line's, what it is within, the fastest: as shown."""
    digits, fastest = measures.places("qt/h", 2, 3), line + within
    line, within = rate(line), rate(within)
    low, high = round(line - within, digits), round(line + within, digits)
    if measures.chosen() == measures.METRIC:
        left = (have - refill) / fastest * high
        refill = quantity(refill)
        have = round(refill + left, 2)
    return have, refill, low, line, within, high


def _more(v):
    before, after = v.number("rate before", 0.06, 0.12, 0.02), v.number("rate after", 0.2, 0.35, 0.05)
    hours_before, hours_after = v.number("hours before", 20, 30, 5), v.number("hours after", 8, 12, 2)
    burnt_before, burnt_after = (quantity(round(r * h, 1)) for r, h in ((before, hours_before), (after, hours_after)))
    rates = burnt_before / hours_before, burnt_after / hours_after
    answer, apart = rates[1] - rates[0], round(rates[1], 3) - round(rates[0], 3)
    qt, per_hour, quarts = measures.unit("qt"), measures.unit("qt/h"), measures.name("qt")
    ratio = "That is how many times as much. The question is how much more an hour."
    return number(
        "more",
        "How much more than it used to",
        f"Over {hours_before:.0f} hours the engine burnt {burnt_before:g} {qt}, and over the {hours_after:.0f} hours "
        f"since then {burnt_after:g} {qt}. How much more does it burn in an hour than it did?",
        answer=answer,
        unit=per_hour,
        tolerance=measures.given(0.006, "qt/h", metric=4),
        points=2,
        hint="Each stretch has a rate of its own. Subtract one from the other.",
        worked=(
            f"{burnt_before:g} ÷ {hours_before:.0f} = {rates[0]:.3f} {per_hour} before",
            f"{burnt_after:g} ÷ {hours_after:.0f} = {rates[1]:.3f} {per_hour} after",
            f"{rates[1]:.3f} − {rates[0]:.3f} = {apart:.3f} {per_hour}: worth showing a mechanic",
        ),
        wrong=[
            (rates[1], "the new rate", "That is what it burns now. How much more is it than before?"),
            (rates[1] / rates[0], "how many times", ratio),
            (
                burnt_after - burnt_before,
                f"{quarts} for {quarts} an hour",
                "The stretches differ: divide each by its hours.",
            ),
        ],
    )
