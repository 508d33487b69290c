"""What carries the decision, the decision itself, and what makes a no-go a go."""

from walkaround.assessment.builders import choice, choices, order
from walkaround.lessons.decision.drawn import RANKED
from walkaround.lessons.decision.flight import checked, reasons
from walkaround.lessons.decision.mends import MECHANIC, NONE
from walkaround.lessons.decision.words import beside, limits, name_of, number_of

GO, MEND, NO = "go", "mend first", "not today"


def decision(drawn):
    """The decision on a `Drawn` flight: GO, MEND or NO."""
    return GO if drawn.works == {NONE} else NO if drawn.works == {MECHANIC} else MEND


def questions(v, drawn):
    """Questions on a student's draws `v` and `Drawn` flight."""
    return _carries(v, drawn.flight), _decide(drawn), _mend(v, drawn)


def _carries(v, f):
    ranked = sorted((check for check in checked(f) if check.key in RANKED), key=lambda check: check.share)
    steps = [(check.key, name_of(check.key)) for check in ranked]
    backwards = [key for key, _ in steps[::-1]]
    return order(
        "carries",
        "What carries the decision",
        "Which number has the least room to its limit, as a share of that limit? Begin with it. One that is past its "
        "limit has less than no room, and the further past it is, the less. For fuel and oil the limit is what the "
        "flight needs.",
        steps=steps,
        shown=v.shuffled("carries", steps),
        points=2,
        table=limits(),
        hint="Divide what is left to the limit by the limit, for each.",
        worked=[f"{name_of(c.key)}: {beside(c)}: {number_of(100 * c.share)} %" for c in ranked],
        wrong=[(backwards, "most room first", "That is the other way round: begin with the least room.")],
    )


def _decide(drawn):
    answer, failing = decision(drawn), reasons(drawn.flight)
    why = f"What stops it: {', '.join(failing)}." if failing else "Every limit is met."
    mechanic = "A mechanic has to look at it first. That is not done on the apron."
    says = {
        GO: f"{why} Something that looks bad is not a reason; a limit is.",
        MEND: f"{why} All of that can be put right here.",
        NO: f"{drawn.flight.found.why} {mechanic}",
    }[answer]
    slips = {
        (GO, MEND): "imagined a reason",
        (GO, NO): "gave up a flight that is fine",
        (MEND, GO): "missed a reason",
        (MEND, NO): "gave up what can be mended",
        (NO, GO): "missed a reason",
        (NO, MEND): "mended what needs a mechanic",
    }
    options = [
        (GO, "go: as it stands"),
        (MEND, "no-go as it stands: one thing is done here first, and then it goes"),
        (NO, "no-go today: a mechanic first"),
    ]
    return choice(
        "decide",
        "Go or no-go?",
        "Your decision on this flight? You have two tries, at the most.",
        answer=answer,
        options=options,
        points=3,
        most_tries=2,
        table=limits(),
        hint="One limit that is not met is enough for a no-go. Can it be met with what is at hand?",
        worked=says,
        wrong=[(key, slips[answer, key], says) for key, _ in options if key != answer],
    )


def _mend(v, drawn):
    f = drawn.flight
    options = [(mend.key, mend.words) for mend in drawn.offered]
    shown = [
        *v.shuffled("mends", options),
        (NONE, "nothing has to be done: it is a go as it stands"),
        (MECHANIC, "none of these: a mechanic first"),
    ]
    said = dict(shown)
    worked = [f"it works: {said[key]}" for key, _ in shown if key in drawn.works]
    for mend in drawn.offered:
        left = reasons(mend.done(f))
        if left and mend.key not in drawn.works:
            worked.append(f"not enough: {mend.words}: {', '.join(left)}")
    everything = {key for key, _ in options}
    return choices(
        "mend",
        "What makes it a go?",
        "Each of these is done by itself, and nothing else. Tick all after which every limit is met. If the flight is "
        "a go as it stands, tick only that; if it needs a mechanic, only that.",
        answer=drawn.works,
        options=shown,
        points=3,
        table=limits(),
        hint="A change moves several numbers: less fuel is less weight, and the flight still needs its fuel.",
        worked=worked,
        wrong=[
            (everything, "all of them", "Work each one through: some change nothing that matters, some break a limit.")
            if everything != drawn.works
            else None,
            ({NONE}, "missed a reason", f"As it stands, this stops it: {', '.join(reasons(f))}.")
            if drawn.works != {NONE}
            else None,
            ({MECHANIC}, "gave up too early", "Everything can be put right here, or is fine already.")
            if drawn.works != {MECHANIC}
            else None,
        ],
    )
