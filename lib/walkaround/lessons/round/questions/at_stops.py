"""A question for each stop: what is seen there, and what, if anything, is wrong."""

from walkaround.assessment.builders import choice
from walkaround.lessons.round.things import AS_IT_SHOULD_BE


def questions(played):
    """A question for each stop of a round with one fault at a stop at the most."""
    return tuple(_at_stop(played, at) for at in range(len(played.stops)))


def _at_stop(played, at):
    stop, there = played.stops[at], played.at(at)
    kinds = [kind for found in there for kind in found.thing.kinds]
    faulty = next((found for found in there if found.kind), None)
    right = faulty.kind.name if faulty else AS_IT_SHOULD_BE
    two_tries = len(kinds) < 3  # with three tries the points could be clicked for
    rows = [("what you see",), *((f"{_capital(f.thing.title)}. {f.thing.sees(f.seen)}",) for f in there)]
    return choice(
        stop.name,
        f"Stop {stop.number}: {stop.title}",
        "What do you find at this stop?" + " You have two tries, at the most." * two_tries,
        answer=right,
        options=[(AS_IT_SHOULD_BE, AS_IT_SHOULD_BE), *((kind.name, kind.name) for kind in kinds)],
        points=2,
        most_tries=2 * two_tries,
        hint="Take each thing by itself, and compare what it shows with what it has to be.",
        worked=_worked(played, there, faulty),
        wrong=[_wrong(name, right) for name in (AS_IT_SHOULD_BE, *(k.name for k in kinds)) if name != right],
        table=rows,
    )


def _capital(words):
    return words[0].upper() + words[1:]


def _worked(played, there, faulty):
    if faulty:
        kind = faulty.kind
        return (f"{_capital(kind.name)}: {kind.told(faulty.seen)}.", kind.would(played.craft, played.day, faulty.seen))
    alarms = [f"{_capital(f.thing.title)}: {f.alarm.why}." for f in there if f.alarm]
    return ("Everything here is as it should be.", *alarms)


def _wrong(given, right):
    """A wrong turn: a fault that was missed, imagined, or taken for another."""
    if given == AS_IT_SHOULD_BE:
        return (
            given,
            f"missed: {right}",
            "Something here is not as it should be. Go through it once more, thing by thing.",
        )
    if right == AS_IT_SHOULD_BE:
        return given, f"imagined: {given}", "What you name does not show here. What would you see if it were so?"
    return (
        given,
        f"{right}, taken for: {given}",
        "Something is wrong here, but not that. What would you see if it were?",
    )
