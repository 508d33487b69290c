"""Questions on what is done at the pump: the order of a refuelling, and samples that stop a flight."""

from walkaround.assessment.builders import choices, order

STEPS = (
    ("off", "Engine and switches off, everyone out, an extinguisher at hand"),
    ("bond", "Clip the bonding cable to bare metal while every cap is still on"),
    ("open", "Compare the grade on the placard with the one on the pump, then open the cap"),
    ("fill", "Touch the nozzle to the rim of the filler, and fill"),
    ("close", "Look at the seal, and close the cap"),
    ("unclip", "Take the bonding cable off"),
    ("sample", "Let water settle, then sample every low point"),
)
# Dyes of ASTM D910 and FAA-H-8083-25 (recalled): 100LL blue, 100 green, 80 red; jet fuel colourless or straw.
SAMPLES = {
    "blue": ("Blue and clear, and smells of gasoline", False),
    "blue again": ("Blue and clear; an earlier cup had a drop of water, and three cups since had none", False),
    "layer": ("Blue above, a clear layer at the bottom", True),
    "colourless": ("Clear, no colour, and no line anywhere in the cup", True),
    "straw": ("Straw-coloured, and it leaves an oily ring on paper", True),
    "cloudy": ("Blue and cloudy, and still cloudy after some minutes", True),
    "pale": ("Much paler blue than usual, and smells of kerosene", True),
    "specks": ("Blue, with rust at the bottom of every cup", True),
}


def questions(v):
    """Questions on refuelling and samples for a student's draws `v`."""
    return _steps(v), _samples(v)


def _steps(v):
    spark = "The vapour is there as soon as the cap is off. The cable goes on first."
    undone = "While the cap is off, the cable stays on."
    return order(
        "steps",
        "At the pump",
        "Put the steps of a refuelling in the order in which they are safe.",
        steps=STEPS,
        shown=v.shuffled("steps", STEPS),
        points=2,
        hint="A spark needs a difference of charge, and vapour. When is there vapour?",
        wrong=[
            (("off", "open", "bond", "fill", "close", "unclip", "sample"), "bonded after opening", spark),
            (("off", "bond", "open", "fill", "unclip", "close", "sample"), "cable off too soon", undone),
        ],
    )


def _samples(v):
    good = v.pick("good sample", ("blue", "blue again"))
    bad = v.shuffled("bad samples", [key for key, (_, stops) in SAMPLES.items() if stops])[:4]
    shown = v.shuffled("samples", [(key, SAMPLES[key][0]) for key in (good, *bad)])
    no_line = "A cup with nothing but water has no line either, and no colour: put a drop of water into it and look."
    return choices(
        "samples",
        "Which samples stop you",
        "The Morrowlark is approved for 100LL, which is dyed blue, and for nothing else. Which of these samples, from "
        "five tanks, stop the flight for now?",
        answer=bad,
        options=shown,
        points=3,
        hint="Colour, smell, one liquid, nothing in it. What would a cup look like that has only water in it?",
        worked=[f"{text}: {'stops' if key in bad else 'fine'}" for key, text in shown],
        wrong=[
            (set(bad) - {"colourless"}, "a cup full of water taken for clean", no_line)
            if "colourless" in bad
            else None,
            (set(bad) - {"pale"}, "mixed fuel not seen", "Jet fuel makes the blue paler, and smells of kerosene.")
            if "pale" in bad
            else None,
            ({key for key, _ in shown}, "clean sample refused", "One of them is as it should be."),
        ],
    )
