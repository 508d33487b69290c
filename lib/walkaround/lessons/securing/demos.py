"""The live demonstration of a parked aircraft in the wind: what goes first, and at which wind."""

from functools import lru_cache

from walkaround import aircraft, measures
from walkaround.aircraft import tie_down
from walkaround.aircraft.airfield import airfield
from walkaround.lessons.securing.picture import ParkedPicture
from walkaround.lessons.securing.words import Held, say
from walkaround.live.controls import choice, slider
from walkaround.live.stage import Stage, Worked
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.securing import ROPES, line_strength, standing
from walkaround.units import FOOT_M

CAUTION = (
    "A training aid with an invented aircraft; the aircraft's own handbook and the field's rules come first. In a wind "
    "that can move an aircraft, don't hold on to it and don't stand under a wing, behind the tail or in line with a "
    "rope. Treat the propeller as live. Anchors, rings and ropes are judged by the people who look after them."
)
SLACK_M = 0.15
# What each choice of ropes means: places that are missing, places that are slack.
TIED = {
    "all three tight": ((), ()),
    "left wing slack": ((), (0,)),
    "all three slack": ((), (0, 1, 2)),
    "left wing missing": ((0,), ()),
    "right wing missing": ((1,), ()),
    "tail missing": ((2,), ()),
    "no ropes": ((0, 1, 2), ()),
}
# Grip of a tyre on dry and wet asphalt and on ice: rules of thumb (recalled).
GROUND = {"dry": 0.7, "wet": 0.5, "ice": 0.1}
# The controls that say how it stands, in the order in which `stands` takes them.
STANDS = ("rope", "angle", "tied", "anchor", "wheels", "ground", "slope", "from", "nose", "elevator", "fuel")
USUAL = {
    "wind": 20, "gust": 15, "from": 0, "nose": 0.0, "elevator": "locked", "fuel": 0, "rope": "nylon 3/8 in",
    "angle": 45, "tied": "all three tight", "anchor": "anchor", "wheels": "high chocks", "ground": "dry", "slope": 0,
}  # fmt: skip


@in_chosen_units
def demo(name="morrowlark_four"):
    """Return the demonstration for a demo aircraft's name or an aircraft file's path.

    >>> made = demo()
    >>> made.set(wind=60, gust=20, tied="no ropes")
    >>> made.verdict, made.words
    ('stop', 'It sits on its tail at 61 kt; the gusts reach 80 kt.')
    """
    craft = aircraft.with_sections(name, "dimensions", "control_surfaces", "tie_down")
    inch, elevator = craft.units.arm == "in", craft.control_surfaces.elevator
    low_m, high_m = (2 * FOOT_M / 12, 4 * FOOT_M / 12) if inch else (0.05, 0.10)
    low, high = ("2 in", "4 in") if inch else ("5 cm", "10 cm")
    controls = {
        "_wind": "The wind",
        "wind": slider("steady", "kt", 0, 60, 20, 1, "steady wind, kt"),
        "gust": slider("gusts add", "kt", 0, 20, 15, 1),
        "from": slider("from the left", "°", -90, 90, 0, 5, "wind from the left, degrees; below 0 from the right"),
        "_stands": "How it stands",
        "nose": slider("nose up", "°", -3.0, 7.0, 0.0, 0.5, "nose up, degrees"),
        "elevator": choice("elevator", ["locked", "free"]),
        "fuel": slider("fuel", "%", 0, 100, 0, 5, "fuel, % of full tanks"),
        "_ropes": "What holds it",
        "rope": choice("kind of rope", [(tie_down.rope_words(rope), rope) for rope in ROPES], "nylon 3/8 in"),
        "tied": choice("ropes", list(TIED)),
        "angle": slider("angle to the ground", "°", 20, 80, 45, 5, "ropes' angle to the ground, degrees"),
        "anchor": choice("tied to", [("anchors", "anchor"), ("stakes in wet grass", "stake")]),
        "wheels": choice(
            "wheels",
            [(f"chocks, {high}", "high chocks"), (f"chocks, {low}", "low chocks"), ("brake only", "brake"),
             ("neither", "neither")],
        ),
        "ground": choice("ground", list(GROUND)),
        "slope": slider("uphill to the nose", "°", -4, 4, 0, 1, "ground uphill to the nose, degrees"),
    }  # fmt: skip
    chocks = {"high chocks": high_m, "low chocks": low_m}
    holds = {"anchor": tie_down.ANCHOR_LB, "stake": airfield().stake_lb}
    metric = measures.chosen() == measures.METRIC
    force, unit = (1.0, "N") if metric else (tie_down.newton(craft.units), craft.units.weight)

    @lru_cache(maxsize=64)
    def stands(rope, angle, tied, anchor, wheels, ground, slope, side, nose, elevator_is, fuel):
        missing, slack = TIED[tied]
        slacks = tuple(SLACK_M if i in slack else 0.0 for i in range(3))
        free = (-elevator.up_deg, 0.0, elevator.down_deg)
        return tie_down.parked(
            craft,
            tie_down.ropes(craft, rope, angle, slacks, missing, anchor_lb=holds[anchor]),
            fuel / 100,
            chock_m=chocks.get(wheels, 0.0),
            braked=wheels == "brake",
            friction=GROUND[ground],
            nose_up_deg=nose,
            slope_deg=float(slope),
            from_deg=float(side),
            elevators_deg=free if elevator_is == "free" else (0.0,),
        )

    def work(v):
        parked = stands(*(v[name] for name in STANDS))
        gust = float(v["wind"] + v["gust"])
        staked = v["anchor"] == "stake" and holds["stake"] < float(line_strength(ROPES[v["rope"]][0], holds["anchor"]))
        held = Held(parked, float(v["wind"]), gust, standing(parked, gust), staked, force, unit)
        return Worked(held, held)

    return Stage(
        f"{craft.name}, parked: what goes first?", controls, ParkedPicture(craft), work, say, presets(), CAUTION
    )


def presets():
    """Ready-made situations."""
    storm = {"wind": 50, "gust": 15}
    rows = {
        "a breezy day, all as it should be": {},
        "a storm, all as it should be": storm,
        "the storm, and the elevator free": {**storm, "elevator": "free"},
        "the storm, and thin manila rope": {**storm, "elevator": "free", "rope": "manila 3/8 in"},
        "the storm, and chocks only": {**storm, "tied": "no ropes", "nose": 3.0},
        "from the left, and no left rope": {"wind": 55, "gust": 20, "from": 45, "tied": "left wing missing"},
        "nose high, and stakes in wet grass": {**storm, "nose": 6.0, "anchor": "stake"},
        "nose high, and the left rope slack": {**storm, "nose": 6.0, "tied": "left wing slack"},
        "ice, brake only, no ropes": {"wheels": "brake", "ground": "ice", "tied": "no ropes"},
    }
    return {text: {**USUAL, **row} for text, row in rows.items()}
