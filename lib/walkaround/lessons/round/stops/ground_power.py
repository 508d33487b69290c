"""The battery, the socket for ground power, and the lights."""

from walkaround.aircraft.carts import demo_carts
from walkaround.lessons.round.things import Alarm, Kind, Thing, number_of
from walkaround.physics.electrical import (
    crank,
    electrolyte_freezes_c,
    in_parallel,
    open_circuit_volts,
    resistance_ohm,
    specific_gravity,
)
from walkaround.physics.oil import viscosity_mm2_s

LAMPS = ("left wing tip", "right wing tip", "tail", "landing light", "beacon")
GREEN_SHARE = 0.6  # of a full charge: from here on the voltmeter of this lesson is marked green
LEAD_AWG, LEAD_M = 2, 8  # there and back
SEEN_NM = 3.0


def _volts(place, percent):
    cells = place.craft.starting.cells
    volts = [float(open_circuit_volts(s, cells)) for s in (percent / 100, GREEN_SHARE)]
    return {"volts": round(volts[0], 1), "green": round(volts[1], 1), "charge": percent}


def _turns_slowly(craft, day, seen):
    section, oil = craft.starting, craft.engine.oil
    state, cold = seen["charge"] / 100, float(min(max(day.outside_c, -20), 40))
    nu = float(viscosity_mm2_s(max(cold, craft.engine.ready_oil_c), oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s))
    turns, full = (
        float(crank(*section.battery.at(s, cold), section.cable_ohm(cold), section.starter, section.drag, nu).rpm)
        for s in (state, 1.0)
    )
    freezes = float(electrolyte_freezes_c(specific_gravity(state)))
    return (
        f"{seen['charge']} % charged, it turns the engine at {turns:.0f} rpm instead of {full:.0f} "
        f"({section.fires_rpm:.0f} are needed to fire), and freezes at {number_of(freezes)} °C instead of "
        f"{number_of(float(electrolyte_freezes_c(1.28)))} °C."
    )


def _socket(place, cart=None):
    return {"cart": cart.volts if cart else 0.0, "placard": place.craft.starting.external_v}


def _too_many_volts(craft, day, seen):
    section, cold = craft.starting, float(min(max(day.outside_c, -20), 40))
    cart = next(c for c in demo_carts().carts if c.volts == seen["cart"])
    volts, inside = (float(v) for v in section.battery.at(1.0, cold))
    lead = float(resistance_ohm(LEAD_AWG, LEAD_M, cold))
    bus = float(in_parallel([volts, cart.volts], [inside, cart.ohm + lead])[0])
    return f"Plugged in, the bus stands at {bus:.1f} V where {section.most_v:.0f} V is the most, and the battery boils."


def _wrong_cart(place):
    return _socket(place, max(demo_carts().carts, key=lambda c: c.volts))


def _lights(place, out=""):
    return {"out": out}


def _unseen(craft, day, seen):
    seconds = SEEN_NM * 3600 / (2 * craft.speeds.cruise)
    return (
        f"Two aircraft at {craft.speeds.cruise:.0f} kt close {SEEN_NM:.0f} nautical miles in {seconds:.0f} s. What "
        "does not shine is not seen for that long."
    )


THINGS = (
    Thing(
        "battery",
        "the voltmeter, on the battery alone",
        lambda place: _volts(place, place.number("charge", 80, 100, 5)),
        lambda s: f"The voltmeter shows {s['volts']:.1f} V; its green begins at {s['green']:.1f} V.",
        (
            Kind(
                "battery nearly flat",
                lambda p: _volts(p, p.size(10, 25, 40)),
                lambda s: f"{s['volts']:.1f} V, below the green",
                _turns_slowly,
            ),
        ),
        (Alarm(lambda p: _volts(p, 70), "just inside the green"),),
    ),
    Thing(
        "socket",
        "the socket for ground power",
        _socket,
        lambda s: (
            f"A placard at the socket: {s['placard']:.0f} V. "
            + (f"Plugged in: a cart marked {s['cart']:.0f} V." if s["cart"] else "Nothing is plugged in.")
        ),
        (
            Kind(
                "wrong cart plugged in",
                _wrong_cart,
                lambda s: f"a cart of {s['cart']:.0f} V, a placard of {s['placard']:.0f} V",
                _too_many_volts,
            ),
        ),
    ),
    Thing(
        "lights",
        "the lights, all switched on for a landing by night",
        _lights,
        lambda s: (
            "Shining: "
            + ", ".join(lamp for lamp in LAMPS if lamp != s["out"])
            + (f"; dark: {s['out']}." if s["out"] else ".")
        ),
        (
            Kind(
                "a light that is out",
                lambda p: _lights(p, p.pick("lamp", LAMPS)),
                lambda s: f"{s['out']} stays dark",
                _unseen,
            ),
        ),
    ),
)
