"""What looks wrong and is right, how sure to be, and what to do with a fault."""

from walkaround.assessment.builders import choice, choices, number, order
from walkaround.lessons.round.rounds import places
from walkaround.lessons.round.score import points
from walkaround.lessons.round.things import Place

_EACH = 3  # alarms and faults among which the alarms are to be found


def questions(v, played):
    """The questions on alarms, on being sure, and on what comes after a fault."""
    return _alarms(v, played), _points(v), _worth(v), _then(v)


def _alarms(v, played):
    place = Place(played.craft, played.day, 2, v, played.written)
    faulty = {found.thing.name for found in played.faults}  # asked at its stop already
    names = [thing.name for _, thing in places() if thing.name not in faulty]
    order_of = v.shuffled("alarms and faults", names)
    every = {thing.name: thing for _, thing in places()}
    right, wrong = {}, {}
    for name in order_of:
        thing = every[name]
        if len(right) < _EACH and thing.alarms and (seen := thing.alarms[0].draws(place)) is not None:
            right[name] = thing.sees(seen), thing.alarms[0].why
        elif len(wrong) < _EACH and (seen := (kind := v.pick(f"fault {name}", thing.kinds)).draws(place)) is not None:
            wrong[name] = thing.sees(seen), kind
    texts = {name: row[0] for name, row in (right | wrong).items()}
    answer = set(right)
    return choices(
        "alarms",
        "It looks wrong, and is right",
        f"The aircraft is about to be towed, for a flight that needs {played.day.fuel_needed:.1f} "
        f"{played.craft.units.volume} of fuel and lands by night. Which of these are as they should be?",
        answer=answer,
        options=v.shuffled("alarm options", texts.items()),
        points=3,
        hint="Compare each with what it has to be, and not with how it usually looks.",
        worked=[f"{text} Right: {why}." for text, why in right.values()],
        wrong=[
            *(
                (answer | {name}, f"missed: {kind.name}", "One of those that you chose is a fault.")
                for name, (_, kind) in wrong.items()
            ),
            *(
                (
                    answer - {name},
                    f"imagined: something at {every[name].title}",
                    "One that you left out is as it should be.",
                )
                for name in right
            ),
        ],
    )


def _points(v):
    high, low = v.number("sure and right", 60, 90, 10), v.number("sure and wrong", 30, 50, 10)
    answer = points(True, high) + points(False, low)
    c, d = high / 100, low / 100
    return number(
        "points",
        "What two findings are worth",
        "A finding that is right earns 2 × c − c², and one that is wrong costs c², where c is how sure you said you "
        f"are, as a share of 1. You were {high:.0f} % sure of one that was right, and {low:.0f} % sure of one that "
        "was wrong. How many points do you get for the two together?",
        answer=answer,
        unit="points",
        tolerance=0.015,
        points=2,
        hint="Work out each by itself, and mind the sign.",
        worked=f"2 × {c:g} − {c:g}² − {d:g}² = {answer:.2f}",
        wrong=[
            (c - d, "shares added up", "It is the squares that count: a little doubt costs little."),
            (points(True, high) + d * d, "the cost added", "A finding that is wrong costs points."),
        ],
    )


def _worth(v):
    options = [
        ("believe", "70 %, what you believe"),
        ("all", "100 %: whoever says less gives points away"),
        ("half", "50 %, so that little can be lost"),
        ("nothing", "0 %, since you don't know"),
    ]
    return choice(
        "worth",
        "How sure to say you are",
        "Of ten stops that look like this one to you, seven would have the fault. How sure do you say you are, to "
        "get most points on average?",
        answer="believe",
        options=v.shuffled("worth", options),
        points=1,
        hint="Ten findings at each: seven earn 2c − c², three cost c².",
        worked=(
            "Seven times 2 × 0.7 − 0.49, less three times 0.49: 4.9 of 10. With 100 % it is 4.0, with 50 % 4.5, with "
            "0 % 0."
        ),
        wrong=[
            ("all", "always certain", "Three times in ten it costs a whole point."),
            ("half", "never certain", "What you know and don't say earns nothing."),
        ],
    )


def _then(v):
    steps = [
        ("stop", "Leave it as it is, and keep everybody away from switches and propeller"),
        ("look", "Look closer, and read what can be read"),
        ("compare", "Compare it with what the aircraft's handbook or the placard asks for"),
        ("tell", "Tell whoever flies the aircraft and whoever looks after it, and write it down"),
        ("mend", "Have it put right by somebody who may"),
        ("again", "Look at it again yourself, and go on with the round where you left it"),
    ]
    return order(
        "then",
        "You have found something",
        "What do you do, in which order? (Common practice, no source.)",
        steps=steps,
        shown=v.shuffled("then", steps),
        points=2,
        hint="First make sure that it gets no worse; last, make sure that it is gone.",
        wrong=[
            (
                ("stop", "look", "compare", "mend", "tell", "again"),
                "put right before anybody is told",
                "Whoever may put it right has to be told of it first.",
            ),
            (
                ("look", "stop", "compare", "tell", "mend", "again"),
                "handled before it was made safe",
                "Nobody touches anything before it is safe.",
            ),
        ],
    )
