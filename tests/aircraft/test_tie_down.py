"""The [tie_down] section: what is read, what the physics gets of it, and every mistake named."""

import copy
import tomllib

import pytest
from walkaround import aircraft
from walkaround.aircraft import tie_down
from walkaround.aircraft.airfield import airfield

FOUR = tomllib.loads((aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_demo_sections_say_that_they_are_invented(name):
    assert "invented" in aircraft.demo(name).tie_down.note.lower()
    assert airfield().stake_lb < tie_down.ANCHOR_LB


def test_what_the_physics_gets():
    air = tie_down.airframe(aircraft.demo("morrowlark_four"))
    # 428 in by the mean of 63 and 47 in; a quarter of 63 behind 88 in.
    assert air.wing_area_m2 == pytest.approx(428 * 55 * 0.0254**2)
    assert air.wing_arm_m == pytest.approx((88 + 63 / 4) * 0.0254)
    assert air.drag_height_m == pytest.approx(50 * 0.0254)
    assert 0.6 < air.elevator_effect < 0.8


def test_ropes_and_their_places():
    left, right, tail = tie_down.ropes(aircraft.demo("morrowlark_four"), "nylon 3/8 in", 30.0, (0.1, 0.0, 0.0))
    assert left.ring_m[1] == -right.ring_m[1] == pytest.approx(-126 * 0.0254)
    assert left.anchor_m[0] < left.ring_m[0]
    assert tail.anchor_m[0] > tail.ring_m[0]
    assert (left.slack_m, right.slack_m) == (0.1, 0.0)
    # Half of 3,340 lb in the knot, and a stake that holds less.
    assert left.holds_n == pytest.approx(1670 * 0.45359237 * 9.80665)
    (staked, *_) = tie_down.ropes(aircraft.demo("morrowlark_four"), "nylon 3/8 in", anchor_lb=500)
    assert staked.holds_n == pytest.approx(500 * 0.45359237 * 9.80665)


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_fuel_makes_it_heavier_by_what_the_tanks_hold(name):
    craft = aircraft.demo(name)
    usable = sum(tank.usable for tank in craft.fuel.tanks) * craft.fuel.density
    empty, full = (tie_down.parked(craft, fuel_share=share) for share in (0.0, 1.0))
    assert (full.weight_n - empty.weight_n) / tie_down.newton(craft.units) == pytest.approx(usable)
    # It stands on all three wheels.
    assert empty.wheels_m[0][0] < min(empty.cg_m, full.cg_m) < max(empty.cg_m, full.cg_m) < empty.wheels_m[1][0]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda s: s.pop("drag_height"), "tie_down.drag_height is missing; allowed: a number"),
        (lambda s: s.update(most_lift=0), "tie_down.most_lift is 0; allowed: more than 0"),
        (lambda s: s.update(zero_lift_deg=20), "tie_down: zero_lift_deg 20; allowed: more than 0, up to 15"),
        (lambda s: s.update(rope="manila"), "tie_down.rope is 'manila'; allowed: no such key here"),
        (lambda s: s["wing_ring"].update(out=300), "tie_down.wing_ring.out is 300.0; allowed: up to half the span, 214"),
        (lambda s: s["tail_ring"].update(arm=100), "tie_down.tail_ring.arm is 100.0; allowed: behind the main wheels, 119"),
    ],
)  # fmt: skip
def test_each_mistake_in_the_section_is_named(change, says):
    data = copy.deepcopy(FOUR)
    change(data["tie_down"])
    with pytest.raises(aircraft.AircraftFileError) as caught:
        aircraft.check(data, "four.toml")
    (problem,) = caught.value.problems
    assert says in problem
