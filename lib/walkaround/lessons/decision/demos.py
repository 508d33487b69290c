"""Live demonstration: one flight on a board, and what happens to every number when one thing is mended."""

from dataclasses import replace

from walkaround import measures
from walkaround.aircraft.heaters import demo_heaters
from walkaround.assessment.variant import Variant
from walkaround.lessons.decision import told
from walkaround.lessons.decision.drawn import draw
from walkaround.lessons.decision.findings import NOTHING, kit
from walkaround.lessons.decision.flight import ENGINE, FUEL, OIL, ROUND, checked, craft, most_fuel, oil_quarts
from walkaround.lessons.decision.picture import Board, Shown
from walkaround.lessons.decision.words import beside, name_of, number_of
from walkaround.live.controls import count, slider, switch
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.preheat import warming

CAUTION = (
    "A training aid with an invented aircraft and invented numbers. A board decides nothing: before a real flight the "
    "aircraft's own handbook, local rules and licensed people come first, and you may always stay on the ground."
)
AS_IT_STANDS = {
    "fuel": 0.0, "bags": 0, "forward": 0, "oil": 0, "heat": 0, "warmer": 0, "other_way": False, "put_right": False,
}  # fmt: skip
HEAVY, BEHIND = 52, 10  # numbers of flights


def flight_of(number):
    """The flight of a number, the same for everybody, as it was drawn."""
    return draw(Variant("the flights", str(number), "decision"))


@in_chosen_units
def demo():
    """Return the live demonstration.

    >>> made = demo()
    >>> made.take_preset("it looks bad")
    >>> made.verdict
    'ok'
    """
    controls = {
        "_flight": "The flight",
        "number": count("flight number", 9, 1, 9999),
        "_mend": "What you change",
        "fuel": _slider("fuel", "US gal", -20, 20, 0.5, "fuel added, or taken out"),
        "bags": _slider("bags left", "lb", 0, 150, 10, "bags that stay behind"),
        "forward": _slider("moved forward", "lb", 0, 150, 10, "moved from the rear to the front seats"),
        "oil": _slider("oil added", "qt", 0, 3, 1),
        "heat": slider("heater on for", "min", 0, 120, 0, 5),
        "warmer": slider("you wait: warmer", "°C", -15, 15, 0, 1, "warmer, or colder, when you have waited, °C"),
        "other_way": switch("other direction"),
        "put_right": switch("take off what was found"),
    }

    def work(values):
        before = told.flight(flight_of(values.pop("number")).flight)
        now = changed(before, **values)
        return Worked(Shown(now, checked(now), checked(before)), (now, checked(now), checked(before), before != now))

    sorts = {
        "a plain go": (9, {}),
        "it looks bad": (28, {}),
        "too heavy": (HEAVY, {}),
        "too heavy, and a bag stays behind": (HEAVY, {"bags": _on_step(100, "lb", 10)}),
        "wind from behind": (BEHIND, {}),
        "wind from behind, the other way": (BEHIND, {"other_way": True}),
        "a mechanic first": (13, {}),
    }
    presets = {name: {"number": number, **AS_IT_STANDS, **more} for name, (number, more) in sorts.items()}
    return Stage("Go or no-go: the flight on one board", controls, Board(), work, _say, presets, CAUTION)


def _slider(label, of, low, high, step, tooltip=""):
    ends = (_on_step(end, of, step) for end in (low, high))
    name = f"{tooltip}, {measures.unit(of)}" if tooltip else ""
    return slider(label, measures.unit(of), *ends, 0, measures.step(step, of), name)


def _on_step(number, of, step):
    """A number of US units as a slider has it that moves by steps of the unit shown."""
    shown = measures.step(step, of)
    return number if measures.unit(of) == of else shown * round(measures.value(number, of) / shown)


def changed(f, fuel, bags, forward, oil, heat, warmer, other_way, put_right):
    """The flight after what is changed, as far as there is something to change: no more bags go than there are."""
    four = craft()
    engine = four.engine
    from_a = min(bags, f.hold_a)
    room = four.station("front seats").maximum - f.front
    forward = min(forward, f.rear, room)
    least = four.fuel_system.taxi + f.hours * four.fuel_system.per_hour  # less can't be flown
    f = replace(
        f,
        hold_a=f.hold_a - from_a,
        hold_b=f.hold_b - min(bags - from_a, f.hold_b),
        rear=f.rear - forward,
        front=f.front + forward,
        fuel=float(min(max(f.fuel + fuel, min(least, f.fuel)), most_fuel())),
        oil_added=float(min(oil, engine.oil.full - oil_quarts(f))),
        outside_c=f.outside_c + warmer,
        headwind_kt=-f.headwind_kt if other_way else f.headwind_kt,
    )
    if f.found.words == kit(0).words:
        f = replace(f, found=kit(f.outside_c))
    if put_right and f.found.on_the_spot:
        f = replace(f, found=NOTHING)
    return _heated(f, heat) if heat else f


def _heated(f, minutes):
    """The flight after `minutes` of the electric air heater, started from what the thermometers show."""
    engine = craft().engine.engine(oil_quarts(f))
    start = {part: f.oil_c if part == "oil" else f.metal_c for part in engine.parts}
    heater = demo_heaters().air_heater("electric air heater").set_to()
    after = warming(engine, f.outside_c, heater, start_c=start).at(float(minutes))
    return replace(f, oil_c=round(float(after["oil"])), metal_c=round(float(after["metal"])))


def _say(said):
    f, now, before, touched = said
    failing = [check for check in now if not check.met]
    if failing:
        first, *rest = failing
        words = f"No-go as it stands: {_told(f, first)}."
        more = [f"And {_told(f, check)}." for check in rest]
        more += [f.found.why] if f.found.stops else []
    else:
        tight = min((c for c in now if c.limit is not None), key=lambda check: check.share)
        words = f"Go: every limit is met. The nearest: {_told(f, tight)}."
        more = [f"The round found: {f.found.words}. {f.found.why}"] if f.found is not NOTHING else []
    was = [name_of(check.key) for check in before if not check.met]
    if touched:
        more.append(f"Before you changed anything: {'no-go by ' + ', '.join(was) if was else 'a go'}.")
    return STOP if failing else OK, words, *more


def _told(f, check):
    called, beyond = name_of(check.key), number_of(abs(check.room), check.digits)
    if check.key == ROUND:
        return f"the round found: {f.found.words}"
    if check.key == ENGINE:
        return f"{called} {number_of(check.value)} °C, at least {number_of(check.limit)}"
    past = "short" if check.key in (FUEL, OIL) else "past it"
    return f"{called} {beside(check)}, {beyond} {'to spare' if check.met else past}"
