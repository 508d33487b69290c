"""What happens to weight and balance on the way: fuel is burnt, a weight is moved."""

from walkaround.assessment.builders import choice, number
from walkaround.lessons.loading.own_aircraft.givens import apart
from walkaround.physics.loading import cg_after_shift


def landing_weight(g):
    """Ask for the weight at landing."""
    u, density = g.aircraft.units, g.aircraft.fuel.density
    off, on = (float(g.sheet.condition(name).weight) for name in ("take-off", "landing"))
    burnt = g.trip * density
    rows = [
        (off + burnt, "fuel added instead of taken off", "You added the fuel's weight: it has been burnt."),
        (off - g.trip, "volume taken as weight", "You took a volume off a weight. Turn the fuel into a weight first."),
        (burnt, "only the part burnt", "That is the weight of the fuel burnt: take it off the total."),
    ]
    return number(
        "landing weight",
        "Weight at landing",
        f"The take-off weight is {off:,.1f} {u.weight}, and the flight uses {g.trip:g} {u.volume}. "
        "What is the weight at landing?",
        answer=on,
        unit=u.weight,
        tolerance=g.fine.weight,
        points=2,
        hint="Fuel that is burnt takes its weight away.",
        worked=f"{off:,.1f} − {g.trip:g} × {density:g} = {round(off, 1) - burnt:,.1f} {u.weight}",
        wrong=apart(on, g.fine.weight, rows),
    )


def burn(g):
    """Ask which way burning fuel moves the centre of gravity."""
    off, on = (float(g.sheet.condition(name).cg) for name in ("take-off", "landing"))
    drawn_off, drawn_on = (float(g.drawn.sheet.condition(name).cg) for name in ("take-off", "landing"))
    way, moved, d = "aft" if drawn_on > drawn_off else "forward", abs(drawn_on - drawn_off), g.fine.decimals
    # Between “it moves” and “it stays” lies a gap in which the question would be about rounding.
    gap = g.drawn.fine.shift
    answer = "still" if moved < gap / 2 else "unclear" if moved < gap else way
    turned = {"forward": "aft", "aft": "forward"}
    other_way = "It is the other way: taking weight away ahead of the CG moves the CG aft."
    return choice(
        "burn",
        "What burning fuel does",
        "From take-off to landing of this flight, which way does the centre of gravity move?",
        answer=answer,
        options=[
            ("forward", "It moves forward"),
            ("aft", "It moves aft"),
            ("still", "It stays where it is, for all that matters"),
        ],
        points=2,
        hint="Compare the tanks' arm with the centre of gravity: what is taken away ahead of it moves it aft.",
        worked=f"CG {off:.{d}f} at take-off, {on:.{d}f} at landing",
        wrong=[(turned[answer], "direction turned round", other_way)] if answer in turned else [],
    )


def shift(v, g):
    """Ask how far a weight that is moved moves the centre of gravity."""
    a, u, fine = g.aircraft, g.aircraft.units, g.fine
    weight = float(g.sheet.condition("take-off").weight)
    places = g.drawn.aircraft.stations
    pairs = [(s, t) for s in places for t in places if s.arm != t.arm] or [(places[0], places[-1])]
    start, end = (a.station(s.name) for s in v.pick("from and to", pairs))
    moved = g.weight(v.number("moved", 4 * fine.weight_step, 12 * fine.weight_step, fine.weight_step))
    size, way = abs(float(cg_after_shift(weight, 0.0, moved, start.arm, end.arm))), abs(end.arm - start.arm)
    tolerance, d = max(fine.shift, 0.03 * size), fine.decimals
    moves = f"{g.figures(moved)} × {way:.{d}f} ÷ {weight:,.0f}"
    how_far = "What counts is how far the weight moves: from one arm to the other."
    rows = [
        (moved * abs(end.arm) / weight, "arm for distance moved", how_far),
        (moved * way, "forgot the aircraft's weight", "Divide by the total weight."),
    ]
    return number(
        "shift",
        "How far a shifted weight moves the CG",
        f"At {weight:,.0f} {u.weight}, {g.figures(moved)} {u.weight} are moved from {start.arm:.{d}f} to "
        f"{g.arm_text(end.arm)}. How far does the centre of gravity move?",
        answer=size,
        unit=u.arm,
        tolerance=tolerance,
        points=3,
        hint="Weight moved ÷ total weight = distance the CG moves ÷ distance the weight moves.",
        worked=f"{moves} = {moved * round(way, d) / round(weight):.{d + 1}f} {u.arm}",
        wrong=apart(size, tolerance, rows),
    )
