"""Under the left wing: what held the aircraft down, and the wheel that it stands on."""

from math import atan, cos, degrees, radians

from walkaround import measures
from walkaround.aircraft.airfield import airfield
from walkaround.aircraft.dimensions import metre
from walkaround.lessons.round.things import Alarm, Kind, Thing, number_of, pull
from walkaround.physics.fuel import depth_on_stick_cm
from walkaround.physics.securing import ROPES, chock_force, line_strength
from walkaround.units import FOOT_M, US_GALLON_L

ROPE, ROPE_DEG = "polypropylene 3/8 in", 45.0
TIED, LYING, NONE = "from the ring to the stake", "on the grass, tied to the stake only", "coiled beside the stake"
CHOCK_SHARE = 0.42  # of the wheel's radius
ON_ONE_WHEEL = 0.42  # of the weight, on each main wheel; the nose wheel has the rest: usual, recalled
CHOCKED, BESIDE, AWAY = (
    "against the wheel, front and rear",
    "on the grass, two steps from the wheel",
    "nowhere to be seen",
)
HALF_FILLED = 0.5


def _held_by_rope(craft, day, seen):
    breaking, _ = ROPES[ROPE]
    holds = float(line_strength(breaking, airfield().stake_lb))
    arm_ft = craft.tie_down.wing_ring.out * metre(craft.units) / FOOT_M
    turns = holds * cos(radians(ROPE_DEG)) * arm_ft
    return (
        f"It holds until the stake gives, {measures.words(holds, 'lbf')} in wet grass. With take-off power that swings "
        f"the aircraft round its left wing with up to {measures.words(turns, 'lb-ft')}."
    )


def _against_chock(craft, day, seen):
    d = craft.dimensions
    on_wheel = ON_ONE_WHEEL * craft.limits.take_off
    force = float(chock_force(on_wheel, d.main_wheel_radius, CHOCK_SHARE * d.main_wheel_radius))
    return (
        f"The wheel carries {on_wheel:,.0f} {craft.units.weight} and needs {pull(force, '').strip()} to climb this "
        "chock, more than the propeller can pull: at full throttle the aircraft swings round this wheel."
    )


def _wheel(place, missing=0.0, chock=AWAY):
    full = place.craft.dimensions.main_wheel_radius
    metric = place.craft.units.arm == "m"
    least, unit = (round(1000 * 0.95 * full), "mm") if metric else (round(0.95 * full, 1), "in")
    high = (full - missing) * (1000 if metric else 1)
    return {"chock": chock, "axle": round(high, 0 if metric else 1), "least": least, "unit": unit,
            "full": full * (1000 if metric else 1)}  # fmt: skip


def _soft(place):
    return _wheel(place, place.craft.dimensions.main_wheel_radius * place.size(0.34, 0.2, 0.12))


def _low_wing(craft, day, seen):
    lower = (seen["full"] - seen["axle"]) / (1000 if seen["unit"] == "mm" else 1)
    low_deg = degrees(atan(lower / craft.dimensions.track))
    shape = craft.fuel_system.tanks[0]
    litres = HALF_FILLED * craft.fuel.tanks[0].capacity * (US_GALLON_L if craft.units.volume == "US gal" else 1.0)
    where = shape.solid, litres, shape.dipstick.aft, shape.dipstick.out
    moved = float(depth_on_stick_cm(*where, wing_low_deg=low_deg) - depth_on_stick_cm(*where))
    return (
        f"The left wing sits {low_deg:.1f}° low: its half-full tank wets the stick {abs(moved):.1f} cm "
        f"{'higher' if moved > 0 else 'lower'} than it should, and the wheel drags on the take-off roll."
    )


THINGS = (
    Thing(
        "rope",
        "the ring under the left wing",
        lambda place: {"rope": NONE},
        lambda seen: f"A ring under the wing, a stake in the grass, and a rope {seen['rope']}.",
        (
            Kind(
                "rope still tied",
                lambda place: {"rope": TIED},
                lambda seen: "the rope runs up to the ring",
                _held_by_rope,
            ),
        ),
        (Alarm(lambda place: {"rope": LYING}, "the rope is off the ring, and stays with its stake"),),
    ),
    Thing(
        "wheel",
        "the left main wheel",
        _wheel,
        lambda seen: (
            f"The axle is {number_of(seen['axle'], 0 if seen['unit'] == 'mm' else 1)} {seen['unit']} above the "
            f"ground; least by the placard: {seen['least']} {seen['unit']}. Chocks: {seen['chock']}."
        ),
        (
            Kind(
                "chock still there",
                lambda place: _wheel(place, chock=CHOCKED),
                lambda seen: "the chocks stand against the wheel",
                _against_chock,
            ),
            Kind(
                "tyre soft",
                _soft,
                lambda seen: f"the axle is at {seen['axle']:g} {seen['unit']}, less than {seen['least']:g}",
                _low_wing,
            ),
        ),
        (Alarm(lambda place: _wheel(place, chock=BESIDE), "the chocks lie out of the wheel's way"),),
    ),
)
