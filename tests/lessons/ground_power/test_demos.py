"""The demonstration of a cold start says and shows what the library computes."""

import re
from itertools import pairwise, product

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.aircraft.carts import demo_carts
from walkaround.lessons.ground_power import demos
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.electrical import crank, in_parallel, resistance_ohm, tries
from walkaround.physics.oil import viscosity_mm2_s

FOUR = aircraft.demo("morrowlark_four")


@pytest.fixture(scope="module")
def one():
    return demos.demo()


@pytest.fixture
def stage(one):
    """The demonstration as it opens; made once."""
    one.set(**demos.USUAL)
    return one


def rpm(stage):
    return float(re.search(r"([\d,]+) rpm", stage.words)[1])


def by_the_library(values, craft=FOUR):
    """Tries with the battery by itself."""
    section, oil = craft.starting, craft.engine.oil
    nu = viscosity_mm2_s(values["oil"], oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s)
    circuit = section.cable_ohm(values["outside"]), section.starter, section.drag
    return tries(section.battery, values["state"] / 100, values["outside"], *circuit, nu, values["seconds"])


def test_warm_the_oil_and_the_needle_jumps(stage):
    slow, needle = rpm(stage), stage.live.picture.needle.hand.get_xdata()[1]
    assert stage.verdict == STOP
    stage.set(oil=10)
    assert stage.verdict == OK
    assert rpm(stage) > 1.8 * slow
    assert stage.live.picture.needle.hand.get_xdata()[1] > needle
    stage.set(oil=-15)
    assert "With the oil at 10 °C: 109 rpm." in stage.more


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_what_is_said_is_what_is_computed(name):
    stage, craft = demos.demo(name), aircraft.demo(name)
    for oil, state in product([-23, -15, 0, 20, 60], [50, 100]):
        stage.set(outside=-10, oil=oil, state=state)
        check(stage, craft)


def check(stage, craft):
    """What a demonstration says and shows against the library."""
    runs, states = by_the_library(stage.values, craft)
    run = runs[0]
    assert rpm(stage) == round(float(run.rpm))
    volts = [float(x) for x in re.findall(r"([\d.]+) V", stage.said)[:3]]
    assert volts == pytest.approx([float(v) for v in (run.source_v, run.terminals_v, run.starter_v)], abs=0.051)
    assert f"leave {100 * states[-1]:.0f} %." in stage.said
    picture = stage.live.picture
    assert picture.circuit.current.get_text() == f"{float(run.current_a):,.0f} A →"
    assert picture.circuit.starter.get_text() == f"{float(run.starter_v):.1f} V"
    bars = [path.vertices[:, 0] for path in picture.volts.bars.get_paths()]
    # The bars run from the volts at rest down to the airframe without a gap.
    assert bars[0].max() == pytest.approx(float(run.source_v))
    assert bars[-1].min() == pytest.approx(0.0)
    assert all(a.min() == pytest.approx(b.max()) for a, b in pairwise(bars))
    heights = [path.vertices[:, 1].max() for path in picture.charge.bars.get_paths()]
    assert heights == pytest.approx([100 * s for s in states])


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_presets_are_what_they_are_called(name):
    stage = demos.demo(name)
    found = {}
    for preset, values in stage.presets.items():
        stage.take_preset(preset)
        assert {key: stage.values[key] for key in values} == values
        found[preset] = stage.verdict, stage.words
    assert found["a mild morning"][0] == OK
    assert found["−15 °C, and the oil warmed to 10 °C"][0] == OK
    assert "preheat, then start" in found["−15 °C, a cart, but cold oil"][1]
    assert "is ice" in found["left flat, then a hard frost"][1]
    assert "Too many volts" in found["28 V into a 14 V socket"][1]
    assert "Positive on negative" in found["positive on negative"][1]
    assert {verdict for verdict, _ in list(found.values())[3:]} == {STOP}


def test_a_cart_helps_and_a_thin_lead_takes_it_back(stage):
    alone = rpm(stage)
    stage.set(cart="14 V cart")
    helped = rpm(stage)
    stage.set(gauge=8, metres=15)
    assert alone < rpm(stage) < helped
    cart = demo_carts().cart("14 V cart")
    section = FOUR.starting
    battery_v, inside = section.battery.at(1.0, -15.0)
    lead = cart.ohm + float(resistance_ohm(8, 30.0, -15.0))
    both = in_parallel([battery_v, cart.volts], [inside, lead])
    nu = viscosity_mm2_s(-15.0, 150.0, 15.5)
    run = crank(*both, section.cable_ohm(-15.0), section.starter, section.drag, nu)
    assert rpm(stage) == round(float(run.rpm))
    # Kirchhoff at the battery's positive terminal: what the cart gives is the rest of what the starter draws.
    amperes = (cart.volts - float(run.terminals_v)) / lead
    assert stage.live.picture.circuit.from_cart.get_text() == f"{amperes:,.0f} A"


def test_the_wrong_cart_by_hand(stage):
    stage.take_preset("28 V into a 14 V socket")
    battery_v, inside = (float(x) for x in FOUR.starting.battery.at(1.0, 0.0))
    outer = 0.006 + float(resistance_ohm(2, 8.0, 0.0))
    amperes = (28.5 - battery_v) / (inside + outer)
    assert f"{amperes:,.0f} A are forced into it" in stage.words
    assert f"{battery_v + amperes * inside:.1f} V at the battery" in stage.words
    assert stage.live.picture.needle.reading.get_text() == "not cranked"
    stage.take_preset("positive on negative")
    outer = 0.004 + float(resistance_ohm(2, 8.0, 0.0))
    assert f"{(14.2 + battery_v) / (inside + outer):,.0f} A at the first touch" in stage.words
    assert stage.live.picture.circuit.leads.get_linestyle()[0][1] is not None  # broken, not only in another colour


def test_ice_stands_before_everything(stage):
    stage.set(state=0, outside=-11, oil=20, cart="28 V cart")
    assert stage.verdict == STOP
    assert "The battery is ice" in stage.words
    stage.set(outside=-10, cart="none")
    assert "ice" not in stage.words


def test_the_starter_is_not_held_too_long_and_the_third_try_counts(stage):
    stage.set(outside=0, oil=0, seconds=20)
    assert stage.verdict == NOTE
    assert "10 s is the longest try" in stage.words
    stage.set(seconds=10, outside=-16, oil=-7, state=60)
    assert stage.verdict == NOTE
    assert re.search(r"\d+ rpm now, but the third try only at 5\d", stage.words)


def test_a_battery_with_nothing_left_turns_nothing(stage):
    stage.set(state=0, outside=0, oil=20)
    assert (stage.verdict, stage.words) == (STOP, "Nothing turns: the battery has nothing left to give.")
    assert stage.live.picture.needle.reading.get_text() == "does not turn"
    stage.set(cart="14 V cart")
    assert rpm(stage) > 60


def test_an_engine_that_is_stuck_makes_heat_of_it_all(tmp_path):
    path = tmp_path / "own.toml"
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    path.write_text(text.replace("dry_nm = 18", "dry_nm = 1800"), encoding="utf-8")
    stage = demos.demo(path)
    assert stage.verdict == STOP
    assert re.search(r"Nothing turns, and the starter draws \d{3} A, all of it heat", stage.words)
    assert ". 0 % of " in stage.said


def test_rules_of_thumb_say_so_whatever_is_shown(stage):
    for preset in stage.presets:
        stage.take_preset(preset)
        assert "Rules of thumb" in stage.more


def test_warmer_oil_never_moves_the_needle_back(stage):
    speeds = []
    for oil in range(-23, 61, 3):
        stage.set(oil=oil)
        speeds.append(rpm(stage))
    assert np.all(np.diff(speeds) >= 0)


def test_a_file_without_the_section_says_so(tmp_path):
    path = tmp_path / "own.toml"
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    path.write_text(text.split("[starting]")[0], encoding="utf-8")
    with pytest.raises(ValueError, match=r"no section \[starting\]"):
        demos.demo(path)


def test_a_battery_that_could_not_start_it_is_not_flown_on():
    stage = demos.demo()
    stage.set(outside=10, oil=10, state=0, cart="14 V cart")
    assert stage.verdict == NOTE
    assert "only with the cart" in stage.words
    stage.set(outside=10, oil=10, state=100, cart="14 V cart")
    assert stage.verdict == OK


def test_a_further_try_takes_nothing_that_is_not_there():
    stage = demos.demo()
    stage.set(outside=-5, oil=-23, state=0, cart="14 V cart", gauge=8, metres=15)
    assert "Too slow" in stage.words
    assert "leaves less" not in stage.words


def test_a_thin_lead_does_not_make_the_wrong_cart_right():
    stage = demos.demo()
    stage.set(outside=20, oil=20, cart="28 V cart", gauge=8, metres=15)
    assert stage.verdict == STOP
    assert "28.5 V" in stage.words
