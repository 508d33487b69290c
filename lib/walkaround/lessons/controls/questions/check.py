"""Questions on the check itself: what it shows, and in which order."""

from walkaround.assessment.builders import choices, order

# Common practice, no source.
TRUE = {
    "pedal": "The right pedal must move the rudder's trailing edge to the right",
    "stop": "An elevator that stops too early shows only with the wheel all the way back",
    "again": "Free and full is checked once more just before the take-off",
    "work": "After work on the controls someone checks them who did not do the work",
    "papers": "How far each surface must go, and its tolerance, is in the aircraft's papers",
}
FALSE = {
    "force": ("A control that is stiff comes free with a firm pull", "force used", "Stop and look for what holds it."),
    "taxi": (
        "Taxiing straight shows that the ailerons go the right way",
        "ground taken for flight",
        "On the ground the wheels steer: crossed ailerons show in the air.",
    ),
    "feel": (
        "It is enough to feel that the wheel moves from stop to stop",
        "hands for eyes",
        "Crossed cables feel free. Only eyes on the surface see the way.",
    ),
    "flap": (
        "A flap that lags does no harm as long as both come out in the end",
        "lag thought harmless",
        "While one is ahead, the aircraft rolls.",
    ),
    "more": (
        "More travel than the limit is no fault: only too little counts",
        "too far thought good",
        "Too far is out of limits, too: something may touch, or bend.",
    ),
}
STEPS = (
    ("lock", "Take the control lock out and stow it"),
    ("look", "Look around: nobody near a surface"),
    ("move", "Move each control to both stops, with your eyes on its surface"),
    ("set", "Run trim and flaps both ways, and leave them set for take-off"),
    ("again", "Taxi out, and at the runway: free and full once more"),
)


def questions(v, _section):
    """Questions on the check for a student's draws `v`."""
    return _statements(v), _order(v)


def _statements(v):
    true = v.shuffled("true ones", TRUE)[: v.pick("how many true", (2, 3))]
    false = v.shuffled("false ones", FALSE)[: 5 - len(true)]
    texts = {**{k: TRUE[k] for k in true}, **{k: FALSE[k][0] for k in false}}
    return choices(
        "statements",
        "What the check shows",
        "Choose everything that is true.",
        answer=true,
        options=v.shuffled("statements", list(texts.items())),
        points=2,
        hint="For each one: what would you see, feel or hear, and where would you have to look?",
        worked=[f"{text}: {'yes' if key in true else 'no'}" for key, text in texts.items()],
        wrong=[({*true, key}, *FALSE[key][1:]) for key in false],
    )


def _order(v):
    keys = [key for key, _ in STEPS]
    early = ["look", "lock", *keys[2:]]
    return order(
        "order",
        "In which order?",
        "Put the check in order. Look around at the last moment before something moves.",
        steps=STEPS,
        shown=v.shuffled("order", STEPS),
        points=2,
        hint="What has to be out before anything can move? What comes last before the take-off?",
        wrong=[
            (early, "looked around too early", "Someone may have come near since: look just before something moves."),
            (
                [*keys[:2], "set", "move", "again"],
                "surfaces after trim",
                "First see that the controls move the right way.",
            ),
        ],
    )
