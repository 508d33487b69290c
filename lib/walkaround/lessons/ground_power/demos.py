"""Live demonstration of a cold start: oil, battery, cables and ground power, and how fast the engine turns."""

from typing import NamedTuple

from walkaround import aircraft, checks
from walkaround.aircraft.carts import demo_carts
from walkaround.lessons.ground_power.picture import Shown, StartingPicture
from walkaround.lessons.ground_power.wires import GAUGES, wire
from walkaround.live.controls import choice, slider, switch
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.electrical import (
    Cranking,
    electrolyte_freezes_c,
    in_parallel,
    resistance_ohm,
    specific_gravity,
    tries,
)
from walkaround.physics.oil import viscosity_mm2_s
from walkaround.units import KELVIN_AT_0C

CAUTION = (
    "The propeller turns when the starter does: chocks in, brake on, people clear, and call before you press. A "
    "battery holds acid and gives off hydrogen: no sparks, no flame, eyes protected. Plug in with everything off, or "
    "it arcs. Never crank, charge or connect a frozen battery. The aircraft's own handbook and the placard at its "
    "socket come first; this is a training aid with invented numbers."
)
RULES = "Rules of thumb: the cold battery, what large currents take, and the oil's drag."
NO_CART = "none"
USUAL = {"outside": -15, "oil": -15, "state": 100, "seconds": 10, "cart": NO_CART, "reversed": False}
USUAL |= {"gauge": 2, "metres": 4}


class Said(NamedTuple):
    """What the sentence is made of: the controls' values, volts with nobody cranking, and what cranking does."""

    values: dict
    freezes_c: float
    battery_v: float
    inner_ohm: float
    bus_v: float
    cart_v: float  # 0 without a cart
    runs: list[Cranking]
    states: list
    warmed: Cranking | None
    alone: Cranking | None  # with a cart there: what the battery does without it

    def battery_a(self, terminals_v):
        """Amperes out of the battery with some volts at its terminals."""
        return (self.battery_v - terminals_v) / self.inner_ohm


@in_chosen_units
def demo(name="morrowlark_four"):
    """Return the live demonstration for a demo aircraft's name, or for the path of an aircraft file."""
    craft = aircraft.with_sections(name, "engine", "starting")
    section, carts = craft.starting, demo_carts()
    controls = {
        "_morning": "The morning",
        "outside": slider("outside", "°C", -23, 30, -15, 1, "outside, battery and cables, °C"),
        "oil": slider("oil", "°C", -23, 60, -15, 1),
        "_battery": "Battery and starter",
        "state": slider("charge", "%", 0, 100, 100, 5),
        "seconds": slider("each try", "s", 2, 30, 10, 1),
        "_power": "Ground power",
        "cart": choice("cart", [NO_CART, *(cart.name for cart in carts.carts)]),
        "gauge": choice("its lead", [(wire(gauge), gauge) for gauge in GAUGES], 2),
        "metres": slider("lead", "m", 1, 15, 4, 1),
        "reversed": switch("positive and negative swapped"),
    }

    def work(values):
        said = _worked(craft, carts, values)
        return Worked(_shown(section, carts, said), said)

    def say(said):
        return *_verdict(craft, said), *_more(craft, said)

    title = f"{craft.name}: a cold start"
    return Stage(title, controls, StartingPicture(section.fires_rpm, section.cells), work, say, presets(carts), CAUTION)


def presets(carts):
    """Ready-made mornings by name."""
    right, wrong = (cart.name for cart in carts.carts)
    rows = {
        "a mild morning": {"outside": 15, "oil": 15},
        "−15 °C, and nobody has warmed the oil": {},
        "−15 °C, and the oil warmed to 10 °C": {"oil": 10},
        "−15 °C, a cart, but cold oil": {"cart": right},
        "the same cart on long, thin leads": {"cart": right, "gauge": 8, "metres": 10},
        "left flat, then a hard frost": {"outside": -18, "oil": -18, "state": 20},
        "28 V into a 14 V socket": {"outside": 0, "oil": 0, "cart": wrong},
        "positive on negative": {"outside": 0, "oil": 0, "cart": right, "reversed": True},
    }
    return {text: {**USUAL, **row} for text, row in rows.items()}


def _worked(craft, carts, v):
    """What the controls' values come to, a `Said`."""
    section, oil = craft.starting, craft.engine.oil
    state = v["state"] / 100
    battery_v, inside = (float(x) for x in section.battery.at(state, v["outside"]))
    freezes = float(electrolyte_freezes_c(specific_gravity(state)))
    cart, bus_v, cart_v = None, battery_v, 0.0
    if v["cart"] != NO_CART:
        kind = carts.cart(v["cart"])
        cart_v = kind.volts
        lead_ohm = float(resistance_ohm(v["gauge"], 2 * v["metres"], v["outside"]))
        cart = (-kind.volts if v["reversed"] else kind.volts, kind.ohm + lead_ohm)
        bus_v = float(in_parallel([battery_v, cart[0]], [inside, cart[1]])[0])
    quiet = Said(v, freezes, battery_v, inside, bus_v, cart_v, [], [state], None, None)
    if _frozen(quiet) or (v["reversed"] and cart) or not checks.at_most(cart_v, section.most_v):
        return quiet
    at = (oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s)
    ready_c = craft.engine.ready_oil_c
    nu, warm_nu = (float(n) for n in viscosity_mm2_s([v["oil"], ready_c], *at))
    circuit = (state, v["outside"], float(section.cable_ohm(v["outside"])), section.starter, section.drag)
    runs, states = tries(section.battery, *circuit, nu, v["seconds"], cart=cart)
    warmed = tries(section.battery, *circuit, warm_nu, v["seconds"], 1, cart)[0][0] if v["oil"] < ready_c else None
    alone = tries(section.battery, *circuit, nu, v["seconds"], 1)[0][0] if cart else None
    return quiet._replace(runs=runs, states=states, warmed=warmed, alone=alone)


def _frozen(said):
    return not checks.at_least(said.values["outside"], said.freezes_c, KELVIN_AT_0C)


def _shown(section, carts, said):
    """The same as the picture takes it."""
    v, cart_on = said.values, said.values["cart"] != NO_CART
    battery = "frozen" if _frozen(said) else f"battery\n{said.battery_v:.1f} V\nat rest"
    cart = v["cart"].replace(" cart", "\ncart") if cart_on else None
    common = {"battery": battery, "cart": cart, "reversed": v["reversed"], "states": tuple(said.states)}
    if said.runs:
        run = said.runs[0]
        inside = "in battery and cart" if cart_on else "inside the battery"
        volts = [float(x) for x in (run.source_v, run.terminals_v, run.starter_v, run.back_v, 0.0)]
        parts = (inside, "cable and contacts", "inside the starter", "turns the engine")
        steps = tuple(zip(parts, volts, volts[1:], strict=False))
        return Shown(
            terminals_v=volts[1],
            starter_v=volts[2],
            current_a=float(run.current_a),
            cart_a=float(run.current_a) - said.battery_a(volts[1]),
            rpm=float(run.rpm),
            steps=steps,
            **common,
        )
    steps = ()
    if cart_on:
        cart_v = carts.cart(v["cart"]).volts * (-1 if v["reversed"] else 1)
        ends = sorted((cart_v, said.bus_v)), sorted((said.battery_v, said.bus_v))
        parts = ("in cart and lead", "inside the battery")
        steps = tuple((what, high, low) for what, (low, high) in zip(parts, ends, strict=True))
    cart_a = abs(said.battery_a(said.bus_v))
    return Shown(terminals_v=said.bus_v, starter_v=None, current_a=0.0, cart_a=cart_a, rpm=None, steps=steps, **common)


def _verdict(craft, said):
    """The verdict, and the sentence: what matters most first."""
    section, v = craft.starting, said.values
    amperes = f"{abs(said.battery_a(said.bus_v)):,.0f} A"
    if _frozen(said):
        state = f"{v['state']:.0f} %"
        freezes = _degrees(said.freezes_c)
        return STOP, f"The battery is ice: at {state} charge it freezes at {freezes}. Cranked or charged, it can burst."
    if not said.runs and v["reversed"]:
        return (
            STOP,
            f"Positive on negative: {amperes} at the first touch. Plug and cables burn, and the battery can burst.",
        )
    if not said.runs and checks.at_most(said.bus_v, section.most_v):
        return STOP, (
            f"Too many volts: the cart has {said.cart_v:.1f} V. Only the battery holds them to {said.bus_v:.1f} V, "
            f"and {amperes} are forced into it."
        )
    if not said.runs:
        return STOP, (
            f"Too many volts: {said.bus_v:.1f} V at the battery, and {section.most_v:.0f} V is the most. "
            f"{amperes} are forced into it; radios burn out."
        )
    first, last = float(said.runs[0].rpm), float(said.runs[-1].rpm)
    draws = f"the starter draws {float(said.runs[0].current_a):.0f} A"
    if v["state"] == 0 and v["cart"] == NO_CART:
        return STOP, "Nothing turns: the battery has nothing left to give."
    if first == 0:
        return STOP, f"Nothing turns, and {draws}, all of it heat: let go."
    speed, fires = f"{first:.0f} rpm", f"needs {section.fires_rpm:.0f} to fire"
    if not checks.at_least(first, section.fires_rpm):
        again = "Every further try leaves less." if said.states[-1] < said.states[0] else "Trying again won't help."
        return STOP, f"Too slow: {speed}, and it {fires}; {draws}. {again}"
    if v["oil"] < craft.engine.preheat_below_c:
        return STOP, f"It turns at {speed}, but oil at {_degrees(v['oil'])} hardly flows: preheat, then start."
    if said.alone and not checks.at_least(float(said.alone.rpm), section.fires_rpm):
        return NOTE, (
            f"It turns at {speed}, but only with the cart: don't fly on a battery that could not start it. "
            "Find out why, and charge it."
        )
    if v["seconds"] > section.try_s:
        return (
            NOTE,
            f"It turns at {speed}, but {section.try_s:.0f} s is the longest try, then {section.rest_s:.0f} s of rest.",
        )
    if not checks.at_least(last, section.fires_rpm):
        return NOTE, f"It turns at {speed} now, but the third try only at {last:.0f}, and it {fires}."
    return OK, f"It turns at {speed}, and {fires}; {draws}."


def _more(craft, said):
    """What more there is to say, the most important first: warm oil, three tries, rules of thumb, volts and power."""
    section, v = craft.starting, said.values
    if not said.runs:
        again = "Thaw it in a warm room and have it looked at." if _frozen(said) else "Nobody should press the starter."
        return again, f"The socket's placard says {section.external_v:.0f} V.", RULES
    run = said.runs[0]
    watts = {name: float(w) for name, w in run.watts.items()}
    whole = sum(watts.values())
    parts = []
    if said.warmed is not None:
        parts.append(f"With the oil at {_degrees(craft.engine.ready_oil_c)}: {float(said.warmed.rpm):.0f} rpm.")
    parts += [f"Three tries of {v['seconds']:.0f} s leave {100 * said.states[-1]:.0f} %.", RULES]
    if v["cart"] != NO_CART:
        parts.append("Ground power turns the engine; it warms neither oil nor bearings.")
    if v["oil"] < craft.engine.oil.pour_point_c:
        parts.append("Below its pour point this oil does not flow.")
    parts.append(
        f"{float(run.source_v):.1f} V at rest, {float(run.terminals_v):.1f} V at the battery, "
        f"{float(run.starter_v):.1f} V at the starter."
    )
    if whole:
        parts.append(f"{100 * watts['engine'] / whole:.0f} % of {whole:,.0f} W turns the engine.")
    return parts


def _degrees(temperature_c):
    return f"{temperature_c:.0f} °C".replace("-", "−")
