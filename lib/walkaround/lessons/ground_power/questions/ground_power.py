"""Questions on ground power: the wrong voltage, the wrong way round, and the order of connecting."""

from walkaround.assessment.builders import choice, number, order
from walkaround.physics.electrical import in_parallel

STEPS = (
    ("book", "Read the aircraft's handbook and the placard at the socket: which voltage, and which pole"),
    ("chocks", "The cart is the right one: chocks in, parking brake on, people away from the propeller"),
    ("off", "The wheels can't move: all switches off in the aircraft, and the cart off"),
    ("plug", "Push the plug in fully"),
    ("on", "Cart on, and read its volts on the aircraft's voltmeter before you start"),
    ("start", "Call, look, and start the engine"),
    ("unplug", "Cart off, then pull the plug, walking well clear of the propeller"),
    ("radios", "Alternator on, and last of all the radios"),
)


def questions(v, g):
    """Questions on ground power for a student's draws `v` and `Givens` `g`."""
    return _bus(v), _reverse(v, g), _minus(v), _steps(v)


def _bus(v):
    rest, cart = v.number("bus rest", 12.2, 12.7, 0.1), v.number("bus cart", 27.5, 28.5, 0.1)
    battery_mohm, cart_mohm = v.number("bus battery", 9, 16), v.number("bus lead", 8, 20)
    amperes = 1e3 * (cart - rest) / (battery_mohm + cart_mohm)
    answer = float(in_parallel([rest, cart], [battery_mohm, cart_mohm])[0])
    average = "You took the middle. The side with less resistance pulls harder."
    whole = f"{round(amperes):,}"
    return number(
        "bus",
        "28 volts into 14",
        f"Someone plugs a cart of {cart:.1f} V into an aircraft whose battery rests at {rest:.1f} V. Cart and lead "
        f"together have {cart_mohm:.0f} mΩ, the battery has {battery_mohm:.0f} mΩ inside. Nothing else is on. How many "
        "volts are there at the battery's terminals, which feed the radios too?",
        answer=answer,
        unit="V",
        tolerance=0.2,
        points=3,
        hint="The difference in volts drives a current through both resistances. What does it add inside the battery?",
        worked=(
            f"({cart:.1f} − {rest:.1f}) ÷ ({battery_mohm:.0f} + {cart_mohm:.0f}) × 1,000 = {amperes:,.0f} A into the "
            "battery",
            f"{rest:.1f} + {whole} × {battery_mohm:.0f} ÷ 1,000 = "
            f"{rest + round(amperes) * battery_mohm / 1e3:.1f} V; equipment for 14 V burns out",
        ),
        wrong=[
            (cart, "cart without its lead", "Those are the cart's volts. Its lead and its inside lose some of them."),
            (rest, "battery at rest", "Those are the battery's volts at rest. A large current flows into it."),
            ((cart + rest) / 2, "middle of the two", average) if abs(battery_mohm - cart_mohm) > 1 else None,
            (
                cart - rest,
                "difference for the volts there",
                "That difference drives the current. How many volts are at the battery?",
            ),
        ],
    )


def _reverse(v, g):
    cart, whole = v.number("reverse cart", 13.8, 14.4, 0.1), v.number("reverse mohm", 18, 32)
    answer = 1e3 * (cart + g.source_v) / whole
    against = "You took the difference, which is for the right way round. Reversed, both push the same way."
    return number(
        "reverse",
        "Positive on negative",
        f"A cart of {cart:.1f} V is connected the wrong way round to the battery of {g.source_v:.1f} V. Battery, cart "
        f"and leads have {whole:.0f} mΩ together. How many amperes flow in the first moment?",
        answer=answer,
        unit="A",
        tolerance=15,
        points=2,
        hint="Follow the circle: do the two push against each other or the same way?",
        worked=f"({cart:.1f} + {g.source_v:.1f}) ÷ {whole:.0f} × 1,000 = {answer:,.0f} A, with nothing to stop them",
        wrong=[
            (1e3 * (cart - g.source_v) / whole, "difference for sum", against),
            (1e3 * cart / whole, "forgot the battery", "The battery pushes too, and the same way round."),
            (1e3 * g.source_v / whole, "forgot the cart", "The cart pushes too, and the same way round."),
            (answer / 1e3, "mΩ for Ω", "The resistance is in mΩ; 1,000 mΩ are 1 Ω."),
        ],
    )


def _minus(v):
    off = v.pick("minus", (True, False))
    when = "taken out: which cable comes off first" if off else "put back: which cable goes on last"
    return choice(
        "minus",
        "Positive or negative",
        f"A battery whose negative terminal is wired to the airframe is {when}, and why?",
        answer="minus",
        options=v.shuffled(
            "terminals",
            [
                ("minus", "negative: a spanner on positive that touches the airframe then does nothing"),
                ("plus", "positive: it carries the charge, so the battery is harmless without it"),
                ("either", "either: as long as every switch is off, no current can flow through your spanner"),
            ],
        ),
        points=1,
        hint="Your spanner is on one terminal and slips against the airframe. When does that close a circuit?",
        worked="with negative on the airframe, a spanner from positive to it is a short circuit of 1,000 A",
        wrong=[
            (
                "plus",
                "positive first",
                "With negative on the airframe, a spanner on positive that touches the airframe makes an arc.",
            ),
            ("either", "trusted the switches", "A spanner from positive to the airframe needs no switch."),
        ],
    )


def _steps(v):
    def swapped(one, other):
        keys = [key for key, _ in STEPS]
        i, j = keys.index(one), keys.index(other)
        keys[i], keys[j] = keys[j], keys[i]
        return tuple(keys)

    live = "You push a live plug in: it arcs, and beside a battery there may be hydrogen."
    radios = "The radios are on while the starter's surges and the plug's arc are still to come."
    people = "The propeller turns when the starter does. Chocks, brake and people come before any power."
    return order(
        "steps",
        "From the placard to the radios",
        "Put the steps of a start with ground power in the order in which they are safe. It is common practice; the "
        "aircraft's handbook has its own.",
        steps=STEPS,
        shown=v.shuffled("steps", STEPS),
        points=3,
        hint="What must you know first, what must be safe before there is power, and what suffers from surges?",
        wrong=[
            (swapped("plug", "on"), "plugged in live", live),
            (("book", "off", "plug", "on", "chocks", "start", "unplug", "radios"), "chocks too late", people),
            (("book", "chocks", "off", "plug", "on", "radios", "start", "unplug"), "radios too early", radios),
        ],
    )
