"""Questions on weight and balance for any aircraft file: the school's own aircraft, with loads drawn for each student.

The aircraft's numbers are the file's; people, baggage and fuel are drawn within its stations and tanks.
"""

from dataclasses import dataclass

from walkaround.assessment.questions import CHOICE, NUMBER, Paper, Question, WrongTurn
from walkaround.physics.loading import moments as loading
from walkaround.physics.loading.loadsheet import basic_weight_and_moment, load_sheet
from walkaround.units import POUND_KG


@dataclass(frozen=True)
class Fineness:
    """Steps of the draws, and tolerances that a person with a pocket calculator can meet, in one set of units."""

    weight_step: float
    volume_step: float
    item_moment: float
    fuel: float
    weight: float
    cg: float
    shift: float
    decimals: int


FINENESS = {
    "lb": Fineness(5, 1, item_moment=20, fuel=2, weight=3, cg=0.15, shift=0.05, decimals=1),
    "kg": Fineness(2, 2, item_moment=0.3, fuel=1, weight=1.5, cg=0.005, shift=0.002, decimals=3),
}


@dataclass(frozen=True)
class Load:
    """What is drawn for a student: weights by station, volumes by tank, the volume used in flight."""

    stations: dict
    tanks: dict
    trip: float


class OwnAircraft:
    """An exercise on one aircraft: `NAME`, `TITLE` and `write(variant)` as every exercise has."""

    def __init__(self, aircraft, name):
        self.aircraft, self.NAME = aircraft, name
        self.TITLE = f"Weight and balance of the {aircraft.name}"

    def write(self, variant):
        """Write one student's paper (`questions.Paper`) from their draws."""
        v, a = variant, self.aircraft
        fine = FINENESS[a.units.weight]
        load = _drawn(v, a, fine)
        sheet = load_sheet(a, load.stations, load.tanks, 0.0, load.trip)
        questions = [
            _moment(v, a, fine, load),
            _fuel(a, fine, load),
            _weight(a, fine, load, sheet),
            _cg(a, fine, load, sheet),
            _landing(a, fine, load, sheet),
            _burn(sheet, fine),
            _go(v, a, fine),
        ]
        if len(a.stations) > 1:
            questions.insert(-1, _shift(v, a, fine, sheet))
        scene = (
            f"You are to fly the {a.name}. Its empty weight, with oil and the fuel that can't be used, and today's load stand in the "
            f"table. Fuel weighs {a.fuel.density:g} {a.units.weight} per {a.units.volume}. Taxi fuel is left out. For a real flight take "
            "the numbers from the aircraft's own papers."
        )
        return Paper(self.NAME, self.TITLE, v.student, v.course, tuple(questions), scene, _table(a, fine, load), load)


def _drawn(v, a, fine):
    stations = {}
    for i, s in enumerate(a.stations):
        low, high = (0.45, 0.85) if s.kind == "seat" and i == 0 else (0.2, 0.6)
        stations[s.name] = _between(v, s.name, low * s.maximum, high * s.maximum, fine.weight_step, s.maximum)
    tanks, share = {}, v.pick("fuel", (0.5, 0.6, 0.7, 0.8, 0.9))
    for t in a.fuel.tanks:
        tanks[t.name] = min(t.usable, max(fine.volume_step, _down(share * t.usable, fine.volume_step)))
    total = sum(tanks.values())
    return Load(stations, tanks, _between(v, "trip", 0.3 * total, 0.7 * total, fine.volume_step, total))


def _between(v, label, low, high, step, most):
    # Whole steps, at least one of them, never above the most there may be.
    low = max(step, _down(low, step))
    return min(v.number(label, low, max(low, _down(high, step)), step), most)


def _down(value, step):
    return step * (value // step)


def _table(a, fine, load):
    u, d = a.units, fine.decimals
    weight, moment = basic_weight_and_moment(a)
    rows = [
        ("item", "weight", "arm"),
        ("empty aircraft", f"{weight:,.1f} {u.weight}", f"{moment / weight:.{d}f} {u.arm}"),
    ]
    rows += [(s.name, f"{load.stations[s.name]:,.0f} {u.weight}", f"{s.arm:.{d}f} {u.arm}") for s in a.stations]
    rows += [
        (f"{t.name}, {load.tanks[t.name]:g} {u.volume}", "to work out", f"{t.arm:.{d}f} {u.arm}") for t in a.fuel.tanks
    ]
    return (*rows, (f"used in flight, {load.trip:g} {u.volume}", "to work out", ""))


def _turns(answer, tolerance, *turns):
    # A slip that this aircraft makes too small to tell from the answer is left out.
    return tuple(WrongTurn(a, slip, says) for a, slip, says in turns if abs(a - answer) > 2 * tolerance)


def _moment(v, a, fine, load):
    u, station = a.units, v.pick("item", a.stations)
    weight, arm = load.stations[station.name], station.arm
    answer, tolerance = weight * arm, fine.item_moment
    return Question(
        key="moment", kind=NUMBER, title="The moment of one item", points=2, unit=u.moment, tolerance=tolerance, answer=answer,
        text=f"What moment do the {weight:,.0f} {u.weight} at the station “{station.name}” make about the datum?",
        hint="A moment is how strongly a weight turns the aircraft about the datum: weight times arm.",
        worked=(f"moment = weight × arm = {weight:,.0f} × {arm:.{fine.decimals}f} = {answer:,.1f} {u.moment}",),
        wrong_turns=_turns(
            answer, tolerance,
            (weight + arm, "added weight and arm", "You added weight and arm. A moment is their product."),
            (weight, "weight for moment", "That is the weight. The moment is weight times arm."),
            *((weight * s.arm, "arm of the wrong station", f"That is the arm of “{s.name}”.") for s in a.stations if s.arm != arm),
        ),
    )  # fmt: skip


def _fuel(a, fine, load):
    u, volume, density = a.units, sum(load.tanks.values()), a.fuel.density
    answer = volume * density
    to_other = POUND_KG if u.weight == "lb" else 1 / POUND_KG
    return Question(
        key="fuel weight", kind=NUMBER, title="What the fuel weighs", points=2, unit=u.weight, tolerance=fine.fuel, answer=answer,
        text=f"The tanks hold {volume:g} {u.volume} together. What does the fuel weigh?",
        hint=f"Fuel weighs {density:g} {u.weight} per {u.volume}.",
        worked=(f"weight = volume × density = {volume:g} × {density:g} = {answer:,.1f} {u.weight}",),
        wrong_turns=_turns(
            answer, fine.fuel,
            (volume, "volume taken as weight", "That is the volume. Multiply it by the density."),
            (volume / density, "divided by the density", "You divided by the density: multiply."),
            (answer * to_other, "weight in the other unit", f"That is the weight in another unit; {u.weight} is asked for."),
        ),
    )  # fmt: skip


def _weight(a, fine, load, sheet):
    u, (empty, _) = a.units, basic_weight_and_moment(a)
    answer, aboard = float(sheet.condition("take-off").weight), sum(load.stations.values())
    volume = sum(load.tanks.values())
    return Question(
        key="take-off weight", kind=NUMBER, title="Take-off weight", points=2, unit=u.weight, tolerance=fine.weight, answer=answer,
        text="What does the aircraft weigh at take-off, with everything in the table aboard?", table=_table(a, fine, load),
        hint="Empty aircraft, people, baggage and all the fuel, in one unit.",
        worked=(f"{empty:,.1f} + {aboard:,.0f} + {volume * a.fuel.density:,.1f} = {answer:,.1f} {u.weight}",),
        wrong_turns=_turns(
            answer, fine.weight,
            (answer - empty, "forgot the empty aircraft", "That is the load alone: the empty aircraft weighs too."),
            (empty + aboard, "forgot the fuel", "That is the weight without fuel."),
            (empty + aboard + volume, "volume taken as weight", "You added a volume to weights. Turn the fuel into a weight first."),
            (answer - load.trip * a.fuel.density, "landing for take-off", "That is the weight at landing."),
        ),
    )  # fmt: skip


def _cg(a, fine, load, sheet):
    u, d, off = a.units, fine.decimals, sheet.condition("take-off")
    weight, moment, answer = float(off.weight), float(off.moment), float(off.cg)
    empty, empty_moment = basic_weight_and_moment(a)
    arms = [empty_moment / empty, *(s.arm for s in a.stations), *(t.arm for t in a.fuel.tanks)]
    return Question(
        key="take-off cg", kind=NUMBER, title="Centre of gravity at take-off", points=4, unit=u.arm, tolerance=fine.cg,
        text="Where is the centre of gravity at take-off, measured from the datum?", answer=answer, table=_table(a, fine, load),
        hint="Work out each moment, add them up, and divide by the total weight.",
        worked=(
            f"total moment {moment:,.1f} {u.moment}, total weight {weight:,.1f} {u.weight}",
            f"CG = {moment:,.1f} ÷ {weight:,.1f} = {answer:.{d}f} {u.arm}",
        ),
        wrong_turns=_turns(
            answer, fine.cg,
            (moment, "moment for CG", "That is the total moment. Divide it by the total weight to get the CG."),
            ((moment - empty_moment) / (weight - empty), "forgot the empty aircraft", "You left out the empty aircraft."),
            ((moment - empty_moment) / weight, "forgot the empty aircraft's moment", "The empty aircraft has a moment too."),
            (sum(arms) / len(arms), "average of the arms", "You averaged the arms: weigh each arm with its weight."),
        ),
    )  # fmt: skip


def _landing(a, fine, load, sheet):
    off, on = float(sheet.condition("take-off").weight), float(sheet.condition("landing").weight)
    u, burnt = a.units, load.trip * a.fuel.density
    return Question(
        key="landing weight", kind=NUMBER, title="Weight at landing", points=2, unit=u.weight, tolerance=fine.weight, answer=on,
        text=f"The take-off weight is {off:,.1f} {u.weight}, and the flight uses {load.trip:g} {u.volume}. What is the weight at landing?",
        hint="Fuel that is burnt takes its weight away.",
        worked=(f"{off:,.1f} − {load.trip:g} × {a.fuel.density:g} = {on:,.1f} {u.weight}",),
        wrong_turns=_turns(
            on, fine.weight,
            (off + burnt, "fuel added instead of taken off", "You added the fuel's weight: it has been burnt."),
            (off - load.trip, "volume taken as weight", "You took a volume off a weight. Turn the fuel into a weight first."),
            (burnt, "only the part burnt", "That is the weight of the fuel burnt: take it off the total."),
        ),
    )  # fmt: skip


def _burn(sheet, fine):
    off, on = float(sheet.condition("take-off").cg), float(sheet.condition("landing").cg)
    options = (
        ("forward", "It moves forward"),
        ("aft", "It moves aft"),
        ("still", "It stays where it is, for all that matters"),
    )
    moved = on - off
    # Between “it moves” and “it stays” lies a gap in which the question would be about rounding.
    answer = (
        "still"
        if abs(moved) < fine.shift / 2
        else "unclear"
        if abs(moved) < fine.shift
        else "aft"
        if moved > 0
        else "forward"
    )
    return Question(
        key="burn", kind=CHOICE, title="What burning fuel does", points=2, answer=answer, options=options,
        text="From take-off to landing of this flight, which way does the centre of gravity move?",
        hint="Compare the tanks' arm with the centre of gravity: what is taken away ahead of it moves it aft.",
        worked=(f"CG {off:.{fine.decimals}f} at take-off, {on:.{fine.decimals}f} at landing",),
        wrong_turns=tuple(
            WrongTurn(key, "direction turned round", "It is the other way: taking weight away ahead of the CG moves the CG aft.")
            for key in ("forward", "aft") if answer in ("forward", "aft") and key != answer
        ),
    )  # fmt: skip


def _shift(v, a, fine, sheet):
    u, weight = a.units, float(sheet.condition("take-off").weight)
    pairs = [(s, t) for s in a.stations for t in a.stations if s.arm != t.arm] or [(a.stations[0], a.stations[-1])]
    start, end = v.pick("from and to", pairs)
    moved = v.number("moved", 4 * fine.weight_step, 12 * fine.weight_step, fine.weight_step)
    answer = float(loading.cg_after_shift(weight, 0.0, moved, start.arm, end.arm))
    size, d = abs(answer), fine.decimals + 1
    tolerance = max(fine.shift, 0.03 * size)
    return Question(
        key="shift", kind=NUMBER, title="How far a shifted weight moves the CG", points=3, unit=u.arm, tolerance=tolerance, answer=size,
        text=(
            f"At {weight:,.0f} {u.weight}, {moved:.0f} {u.weight} are moved from {start.arm:.{fine.decimals}f} to "
            f"{end.arm:.{fine.decimals}f} {u.arm}. How far does the centre of gravity move?"
        ),
        hint="Weight moved ÷ total weight = distance the CG moves ÷ distance the weight moves.",
        worked=(f"{moved:.0f} × {abs(end.arm - start.arm):.{fine.decimals}f} ÷ {weight:,.0f} = {size:.{d}f} {u.arm}",),
        wrong_turns=_turns(
            size, tolerance,
            (moved * abs(end.arm) / weight, "arm for distance moved", "What counts is how far the weight moves: from one arm to the other."),
            (moved * abs(end.arm - start.arm), "forgot the aircraft's weight", "Divide by the total weight."),
        ),
    )  # fmt: skip


# How full the stations ahead of the empty centre of gravity are, how full those behind it, and the tanks.
MIXES = {
    "usual": ((0.4, 0.8), (0.1, 0.5), 0.6),
    "all full": ((0.85, 1.0), (0.6, 1.0), 1.0),
    "front full": ((0.8, 1.0), (0.0, 0.1), 0.9),
    "back full": ((0.25, 0.4), (0.7, 1.0), 0.4),
}


def _go(v, a, fine):
    mix = v.pick("mix", tuple(MIXES))
    fore, rear, share = MIXES[mix]
    arms = sorted(s.arm for s in a.stations)
    middle = (arms[0] + arms[-1]) / 2
    loads = {}
    for s in a.stations:
        low, high = fore if s.arm <= middle else rear
        low, high = (_down(x * s.maximum, fine.weight_step) for x in (low, high))
        loads[s.name] = v.number(f"go {s.name}", low, high, fine.weight_step)
    tanks = {t.name: _down(share * t.usable, fine.volume_step) for t in a.fuel.tanks}
    sheet = load_sheet(a, loads, tanks)
    off, envelope, u, d = sheet.condition("take-off"), sheet.envelope, a.units, fine.decimals
    weight, cg, most = float(off.weight), float(off.cg), float(off.weight_limit)
    forward, aft = (float(x) for x in envelope.limits_at(weight))
    heavy = weight > most
    found = "heavy" if heavy else "forward" if cg < forward else "aft" if cg > aft else "go"
    whisker = min(abs(weight - most) / (2 * fine.weight), abs(cg - forward) / fine.cg, abs(cg - aft) / fine.cg) < 1
    # Over a station's maximum, or a limit that the question does not speak of: not one answer.
    other = any(float(o) > 0 for o in sheet.station_over.values()) or (found == "go" and not bool(sheet.loadable))
    options = (
        ("go", "Go: weight and CG are inside the limits"), ("heavy", "No-go: too heavy at take-off"),
        ("forward", "No-go: the CG is ahead of the forward limit"), ("aft", "No-go: the CG is behind the aft limit"),
    )  # fmt: skip
    rows = [(f"weight, {u.weight}", f"forward limit, {u.arm}", f"aft limit, {u.arm}")]
    levels = sorted({*envelope.weights, most})
    rows += [(f"{w:,.0f}", *(f"{float(x):.{d}f}" for x in envelope.limits_at(w))) for w in levels]
    slips = {"go": "unsafe load accepted", "heavy": "weight limit misjudged",
             "forward": "forward limit misjudged", "aft": "aft limit misjudged"}  # fmt: skip
    if found in ("forward", "aft"):
        slips["aft" if found == "forward" else "forward"] = "forward and aft mixed up"
    aboard = ", ".join(f"{w:.0f} {u.weight} at “{n}” ({a.station(n).arm:.{d}f} {u.arm})" for n, w in loads.items())
    filled = ", ".join(f"{x:g} {u.volume} in “{n}”" for n, x in tanks.items())
    return Question(
        key="go", kind=CHOICE, title="Go or no-go, and why", points=3, table=tuple(rows),
        answer="unclear" if whisker or other else found, options=tuple(v.shuffled("go options", options)),
        text=(
            f"Another load in the same aircraft: {aboard}; fuel {filled}. At most {most:,.0f} {u.weight} are allowed at take-off. May it "
            "take off? Between the table's lines the limits run straight."
        ),
        hint="Work out weight and CG at take-off, then find the forward and aft limit at that weight.",
        worked=(
            f"take-off weight {weight:,.1f} {u.weight}, at most {most:,.0f}; CG {cg:.{d}f} {u.arm}, limits {forward:.{d}f} to {aft:.{d}f}",
            dict(options)[found],
        ),
        wrong_turns=tuple(
            WrongTurn(key, slips[key], "Compare the weight with its limit, and the CG with both limits at that weight.")
            for key in slips if key != found
        ),
    )  # fmt: skip
