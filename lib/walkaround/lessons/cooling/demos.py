"""Live demonstration of cooling: block an intake, climb, and watch what the gauge shows and what it doesn't."""

from functools import lru_cache
from math import ceil

from walkaround import aircraft
from walkaround.lessons.cooling import words
from walkaround.lessons.cooling.climb import CLIMB_MIN, Climb, Plan
from walkaround.lessons.cooling.picture import CoolingPicture, Shown
from walkaround.live.controls import player, slider, switch
from walkaround.live.stage import Stage, Worked
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.cooling import LEFT

_LONGEST_TAXI = 12


@in_chosen_units
def demo(name="morrowlark_four"):
    """Return the live demonstration for a demo aircraft's name, or for the path of an aircraft file."""
    craft = aircraft.with_sections(name, "engine", "speeds", "cooling")
    speeds, usual = craft.speeds, usual_values(craft)
    slowest, fastest = ceil(1.2 * speeds.vs1), int(speeds.vno)
    moment = slider("minute", "min", -_LONGEST_TAXI, CLIMB_MIN, usual["minute"], 0.2, "minute of the climb, min")
    controls = {
        "_play": player(moment, 0.2),
        "minute": moment,
        "_intakes": "Intakes",
        "left": slider("left blocked", "%", 0, 100, 0, 5, "left intake blocked, %"),
        "right": slider("right blocked", "%", 0, 100, 0, 5, "right intake blocked, %"),
        "kit": switch("winter kit on"),
        "_day": "The day",
        "outside": slider("outside", "°C", -30, craft.cooling.most_outside_c, usual["outside"], 1),
        "taxi": slider("taxi", "min", 2, _LONGEST_TAXI - 1, usual["taxi"], 1),
        "_climb": "The climb",
        "power": slider("power", "%", 50, 100, usual["power"], 5),
        "speed": slider("speed", "kt", slowest, fastest, usual["speed"], 1),
        "change": slider("change after", "min", 1, CLIMB_MIN, usual["change"], 0.5),
        "then_power": slider("then power", "%", 50, 100, usual["then_power"], 5),
        "then_speed": slider("then speed", "kt", slowest, fastest, usual["then_speed"], 1),
        "pilot": switch("only what the pilot sees"),
    }

    # While the minute moves, the climb stays as it is.
    climb_of = lru_cache(maxsize=2)(lambda plan: Climb(craft, plan))

    def work(values):
        climb = climb_of(plan_of(values))
        return Worked(Shown(climb, values["minute"], values["pilot"]), (climb, values))

    def say(said):
        climb, values = said
        if values["pilot"]:
            return *words.as_the_pilot(climb, values["minute"]), words.RULES
        return *words.say(climb), *words.notes(climb)

    title = f"{craft.name}: cooling in a climb"
    return Stage(title, controls, CoolingPicture(craft), work, say, presets(craft), words.CAUTION)


def plan_of(values):
    """The `Plan` that the controls' values ask for."""
    v = values
    return Plan(
        outside_c=v["outside"],
        power=v["power"] / 100,
        speed_kt=v["speed"],
        left=v["left"] / 100,
        right=v["right"] / 100,
        kit=v["kit"],
        taxi_min=v["taxi"],
        change_min=v["change"],
        then_power=v["then_power"] / 100,
        then_kt=v["then_speed"],
    )


def usual_values(craft):
    """The controls' values at first: a mild day, both intakes clear."""
    climb = round(craft.speeds.climb)
    values = {"left": 0, "right": 0, "kit": False, "outside": 15, "taxi": 6, "power": 100, "speed": climb}
    values |= {"change": CLIMB_MIN, "then_power": 75, "then_speed": climb + 15}
    return values | {"minute": CLIMB_MIN, "pilot": False}


def presets(craft):
    """Ready-made flights by name."""
    seen = craft.cooling.gauge_on
    unseen = "right" if seen == LEFT else LEFT
    cold = {"outside": -20, "change": 5, "then_power": 65, "then_speed": round(craft.speeds.cruise)}
    rows = {
        "both intakes clear": {},
        "a plug on the side the gauge can't see": {unseen: 100},
        "a plug on the gauge's side": {seen: 100},
        "the same, and a shallow climb after 2 minutes": {seen: 100, "change": 2},
        "a nest in both": {"left": 75, "right": 75},
        "both plugs left in": {"left": 100, "right": 100},
        "only the gauges, after the run-up": {unseen: 100, "minute": 0, "pilot": True},
        "the winter kit left on in spring": {"kit": True},
        "−20 °C without the kit": cold,
        "−20 °C with the kit": {**cold, "kit": True},
        "a hot day, a steep climb": {"outside": craft.cooling.most_outside_c, "speed": ceil(1.2 * craft.speeds.vs1)},
    }
    return {text: {**usual_values(craft), **row} for text, row in rows.items()}
