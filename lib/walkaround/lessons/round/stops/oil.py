"""The engine's oil: the stick, and the ground under the engine."""

from walkaround import checks
from walkaround.lessons.round.things import Alarm, Kind, Thing, number_of
from walkaround.physics.oil import hours_until
from walkaround.units import US_QUART_L

DROP_ML = 0.05  # twenty drops to the millilitre: a pharmacist's rule, recalled
SHUT_DOWN_H = 12  # a night: all the oil is back in the sump


def _rounded(place, quantity):
    step = max(place.craft.engine.oil.sump.read_to, 0.1)  # what is shown has one decimal
    return round(round(quantity / step) * step, 3)


def _stick(place, shows):
    oil = place.craft.engine.oil
    return {"shows": _rounded(place, shows), "hours": SHUT_DOWN_H, "needed": place.day.oil_needed,
            "full": oil.full, "unit": oil.unit}  # fmt: skip


def _enough(place):
    oil, needed = place.craft.engine.oil, place.day.oil_needed
    return _stick(place, needed + (oil.full - needed) * place.number("oil", 25, 75, 5) / 100)


def _low(place):
    oil = place.craft.engine.oil
    return _stick(place, place.day.oil_needed - (oil.full - oil.minimum) * place.size(0.5, 0.3, 0.14))


def _too_much(place):
    oil = place.craft.engine.oil
    return _stick(place, oil.full + (oil.full - oil.minimum) * place.size(0.4, 0.3, 0.2))


def _lasts(craft, day, seen):
    oil = craft.engine.oil
    left = float(hours_until(seen["shows"], oil.minimum, day.oil_per_hour))
    if not left:
        return (
            f"It is {oil.minimum - seen['shows']:.1f} {oil.unit} below the least, {oil.minimum:g} {oil.unit}, before "
            "the engine runs."
        )
    if checks.at_least(left, day.hours):
        lands, planned = (seen[name] - day.oil_per_hour * day.hours for name in ("shows", "needed"))
        return (
            f"It lands after {day.hours:g} h with {lands:.1f} {oil.unit}, where {planned:.1f} were planned: only "
            f"{abs(lands - oil.minimum):.1f} {oil.unit} above the least."
        )
    return (
        f"At {day.oil_per_hour:g} {oil.unit} an hour it is down to the least, {oil.minimum:g} {oil.unit}, after "
        f"{left:.1f} h of a flight of {day.hours:g} h."
    )


def _thrown_out(craft, day, seen):
    over = seen["shows"] - seen["full"]
    return (
        f"{over:.1f} {seen['unit']} over full: the crankshaft whips it up, and it leaves by the breather, over the "
        "belly."
    )


def _ground(place, drops=0, stain=False):
    return {"drops": drops, "stain": stain}


def _patch(seen):
    if seen["stain"]:
        return "an old, dull stain, dry to the finger"
    return "a wet, shining patch" if seen["drops"] else "dry ground"


def _leaks(craft, day, seen):
    oil = craft.engine.oil
    per_hour = 60 * seen["drops"] * DROP_ML / 1000 / (US_QUART_L if oil.unit == "qt" else 1.0)
    left = float(hours_until(oil.usual, oil.minimum, per_hour))
    return (
        f"{seen['drops']} drops a minute are {per_hour:.2f} {oil.unit} an hour with nothing pressing: {left:.0f} h "
        f"from {round(oil.usual, 1):g} {oil.unit} to the least. Under pressure it is far more."
    )


THINGS = (
    Thing(
        "oil",
        "the oil dipstick",
        _enough,
        lambda s: (
            f"The stick shows {number_of(s['shows'], 1)} {s['unit']}, {s['hours']} h after shut-down; the "
            f"flight needs {number_of(s['needed'], 1)}, full is {s['full']:g}."
        ),
        (
            Kind(
                "oil low",
                _low,
                lambda s: f"{s['shows']:.1f} {s['unit']}, and the flight needs {s['needed']:.1f}",
                _lasts,
            ),
            Kind(
                "too much oil",
                _too_much,
                lambda s: f"{s['shows']:.1f} {s['unit']}, and full is {s['full']:g}",
                _thrown_out,
            ),
        ),
        (
            Alarm(
                lambda p: _stick(p, p.day.oil_needed),
                "it is far from full, and just what the flight needs, which is what counts",
            ),
        ),
    ),
    Thing(
        "ground",
        "the ground under the engine",
        _ground,
        lambda s: f"Under the engine: {_patch(s)}; {s['drops']} drops fall in a minute.",
        (
            Kind(
                "oil leak under the engine",
                lambda p: _ground(p, p.size(30, 12, 4)),
                lambda s: f"a wet patch, and {s['drops']} drops a minute",
                _leaks,
            ),
        ),
        (Alarm(lambda p: _ground(p, stain=True), "the stain is old and dry, and nothing drips"),),
    ),
)
