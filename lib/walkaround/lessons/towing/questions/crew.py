"""Questions on people: who stands where, and in which order an aircraft is towed. Common practice, no source."""

from walkaround.assessment.builders import choices, order

STEPS = (
    ("look", "Walk the way to the hangar, and look at the marks on the nose leg"),
    ("off", "Ignition off, key out, and any lock off the rudder"),
    ("bar", "Tow bar on, and a wing walker at each tip"),
    ("brake", "Someone on the brakes; chocks out, parking brake off"),
    ("tow", "Tow at a walk, and stop when anyone calls"),
    ("chock", "Chocks in, parking brake as the hangar's rule has it"),
    ("unbar", "Tow bar off, and put away"),
)

# Key: what is said, and a few words for it.
TRUE = {
    "prop": ("Nobody pushes or pulls on the propeller: treat it as live.", "the propeller"),
    "stop": ("Anyone may call stop, and then it stops.", "who may call stop"),
    "bar": ("The tow bar comes off before anyone thinks of starting.", "the tow bar"),
    "marks": ("Past its marks the nose leg's stops bend or break, and it may not show.", "the marks"),
    "tail": ("Nobody stands behind the tail or under a wing while it moves.", "who stands where"),
    "inner": ("In a tight turn the inner wing tip may run backwards.", "the inner tip"),
}
# Key: what is said, the slip of who believes it, and what to say.
FALSE = {
    "one": (
        "One person on the tow bar sees both wing tips and the tail.",
        "one pair of eyes",
        "The one on the bar looks ahead: tips and tail go out behind them. Put a wing walker at each tip.",
    ),
    "pull": (
        "The propeller, near its hub, is a good place to pull.",
        "pulled on the propeller",
        "An engine can fire with the key out, by a broken wire to a magneto. Keep off the propeller.",
    ),
    "wing": (
        "A high wing passes over a pump, so the pump does not count.",
        "trusted the high wing",
        "Struts, flaps and tail are lower, and a slope tilts the wing. Keep the distance as seen from above.",
    ),
    "felt": (
        "A brake left on is felt at once, and does no harm.",
        "trusted the feel",
        "With a tractor nobody feels it, and the nose leg may give way before the wheels slide.",
    ),
    "stays": (
        "On tarmac an aircraft stays where it is without brake or chocks.",
        "left it unchocked",
        "Rolling takes about 2 % of the weight: a slope of 3 % is enough to move it by itself.",
    ),
    "lift": (
        "Pressing on the tailplane to lift the nose is always allowed.",
        "pressed on the tail",
        "Many handbooks forbid it: the tailplane is not made for it. Ask this aircraft's own handbook.",
    ),
}


def questions(v):
    """Questions on people for a student's draws `v`."""
    return _crew(v), _steps(v)


def _crew(v):
    hold = v.pick("how many hold", (2, 3, 4))
    true = v.shuffled("true", TRUE)[:hold]
    false = v.shuffled("false", FALSE)[: 5 - hold]
    options = [(key, (TRUE.get(key) or FALSE[key])[0]) for key in v.shuffled("crew order", (*true, *false))]
    left_out = [([k for k in true if k != key], f"left out {TRUE[key][1]}", TRUE[key][0]) for key in true]
    return choices(
        "crew",
        "Who stands where",
        "Which of these hold? Choose every one that does. They are common practice; the aircraft's handbook and local "
        "rules come first.",
        answer=true,
        options=options,
        points=2,
        hint="Think of what swings, what turns, and what rolls by itself.",
        worked=[text for key, text in options if key in TRUE],
        wrong=[*(((*true, key), *FALSE[key][1:]) for key in false), *left_out],
    )


def _steps(v):
    def moved(one, before):
        keys = [key for key, _ in STEPS if key != one]
        keys.insert(keys.index(before), one)
        return tuple(keys)

    rolls = "With brake and chocks off, nothing holds it. First the bar, the walkers and someone on the brakes."
    stays = "A bar that comes off before the chocks are in lets go of an aircraft that can roll."
    live = "Hands go to the nose beside the propeller: the ignition comes first."
    return order(
        "steps",
        "From the ramp into the hangar",
        "Put the steps of a tow in the order in which they are safe. It is common practice; the aircraft's handbook "
        "and local rules have their own.",
        steps=STEPS,
        shown=v.shuffled("steps", STEPS),
        points=3,
        hint="What must be safe before a hand goes near the propeller, and what holds the aircraft at each moment?",
        wrong=[
            (moved("brake", "bar"), "brake off too early", rolls),
            (moved("unbar", "chock"), "bar off too early", stays),
            (moved("bar", "off"), "ignition too late", live),
        ],
    )
