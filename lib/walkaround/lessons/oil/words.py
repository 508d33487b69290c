"""What an oil check says: one sentence for the verdict, and what more there is to know."""

from walkaround import checks, measures
from walkaround.lessons.oil.check import ADD, AGAIN, CHANGED, DUE, GROWS, TIGHT, TOO_MUCH, amount, due_words
from walkaround.physics.oil import hours_until

CAUTION = (
    "Hot oil and a hot engine burn: mind the exhaust when you reach for the stick. Ignition off, key out, and treat "
    "the propeller as live. The aircraft's own handbook says how much oil, of which kind, and how to read the stick; "
    "a mechanic judges an engine. This is a training aid with invented numbers."
)


def sentence(check):
    """Say what the check comes to, in one sentence."""
    section, sump, unit, verdict = check.section, check.sump, check.section.unit, check.verdict
    shown, needed, refill = (amount(q, unit, sump.read_to) for q in (check.shown, check.needed, sump.refill_at))
    flight, mechanic = f"a flight of {check.flight_h:g} h", "Show a mechanic before you fly: "
    if verdict == AGAIN:
        return f"Read it again: the stick shows {shown}, {_off(check)} than there is."
    if verdict == GROWS:
        return f"{mechanic}by this log the oil level rises by itself. Fuel or water may be in it."
    if verdict == CHANGED:
        before, after = (rate(check, max(0.0, float(r))) for r in (check.change.before, check.change.after))
        return f"{mechanic}since hour {check.change.at_h:.0f} it burns {after}, and before that {before}."
    if verdict == TOO_MUCH:
        most = rate(check, check.engine.greatest_oil_per_hour)
        return f"{mechanic}it burns {rate(check, check.rate)}; a rule of thumb accepts up to {most}."
    if verdict == ADD:
        return f"Add oil first: the stick shows {shown}, and {flight} at {rate(check, check.rate)} needs {needed}."
    if verdict == DUE:
        due = f"Oil is due now: the stick shows {shown}, and you refill at {refill}."
        return f"{due} {flight.capitalize()} needs {needed}."
    if verdict == TIGHT:
        more = amount(check.needed_at_worst, section.unit, sump.read_to)
        worst = f"If it burns {rate(check, check.worst)}, {flight} needs {more}."
        return f"Just enough by the line, {shown} for {needed}. {worst}"
    return f"Enough: the stick shows {shown}, and {flight} needs {needed}. Oil is {due_words(check.due_in)}."


def rate(check, per_hour):
    """Write a rate in the unit of the check's oil."""
    if check.section.unit == "qt":
        return measures.words(per_hour, "qt/h", _decimals(check), 3)
    return f"{per_hour:.3f} {check.section.unit}/h"


def _decimals(check):
    return 2 if check.section.unit == "qt" and check.sump.read_to >= 0.1 else 3


def notes(check):
    """Say what more there is to know, the most important first."""
    unit, change = check.section.unit, check.change if _changed(check) else None
    found = []
    if check.verdict == AGAIN:
        found.append(f"Taken properly: {due_words(check.taken_properly())}; by this reading {due_words(check.due_in)}.")
        found += [*_why_off(check), "The rate seems to have changed: a proper reading will tell." if change else ""]
    elif check.verdict == CHANGED:
        if not checks.at_least(check.shown, check.section.minimum):
            return [_too_low(check)]
        hours = float(hours_until(check.shown, check.section.minimum, change.after))
        return [
            f"At that rate it is down to {check.section.minimum:g} {unit}, the least there may be, in {hours:.1f} h."
        ]
    elif not checks.at_least(check.shown, check.section.minimum):
        found.append(_too_low(check))
    elif change and change.after < change.before:
        found.append(f"Since hour {change.at_h:.0f} it burns less than it did: ask a mechanic why.")
    within = f"± {check.within:.{_decimals(check)}f} "
    burns = rate(check, max(0.0, float(check.trend.per_hour))).replace(" ", f" {within}")
    found.append(f"It burns {burns} by {check.trend.readings} readings, with 95 % confidence.")
    found.append(f"Oil is {due_words(check.due_in)}." * (check.verdict == TIGHT))
    found.append("With five readings or more, a change would show." * (check.change is None))
    return [note for note in found if note]


def _too_low(check):
    least = f"{check.section.minimum:g} {check.section.unit}"
    return f"{least} is the least there may be: ask a mechanic whether the engine has come to harm."


def _changed(check):
    return check.change is not None and bool(check.change.found)


def _off(check):
    off = check.shown - check.there
    return f"{amount(abs(off), check.section.unit, check.sump.read_to)} {'more' if off > 0 else 'less'}"


def _why_off(check):
    unit, step = check.section.unit, check.sump.read_to
    if check.up >= step:
        wait = f"wait until {check.wait_minutes:.0f} min after shut-down"
        yield f"By a rule of thumb {amount(check.up, unit, step)} is still up in the engine: {wait}."
    if abs(check.tilt) >= step:
        more = "more" if check.tilt > 0 else "less"
        yield f"The slope makes it {amount(abs(check.tilt), unit, step)} {more}: stand level."
