"""The demonstration of cooling: words, verdict and picture agree with temperatures found by another route."""

import random

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from walkaround import aircraft
from walkaround.lessons import table
from walkaround.lessons.cooling import demos
from walkaround.live.controls import Slider
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.cooling import LEFT, RIGHT

NAMES = aircraft.demo_names()
STAGES = {name: demos.demo(name) for name in NAMES}


def stepped(craft, v):
    """Minutes of climb and temperatures of left heads, right heads and oil, by scipy, as an engineer would step them."""
    section = craft.cooling
    engine = section.engine(craft.engine, craft.speeds.climb)
    plan = demos.plan_of(v)
    flown = [
        (v["taxi"], section.taxi_power, 5.0),
        (1.0, section.run_up_power, 0.0),
        (v["change"], plan.power, plan.speed_kt),
        (20.0 - v["change"], plan.then_power, plan.then_kt),
    ]
    times, found, rise, begin = [], [], np.zeros(4), -(v["taxi"] + 1.0)
    for minutes, power, speed in flown:
        if minutes <= 0:
            continue
        setting = section.setting(power, speed, v["left"] / 100, v["right"] / 100, v["kit"])
        heat, loss = engine.heat_w(setting), engine.losses_w_per_k(setting)
        links, capacities = engine.links_w_per_k[3, :3], engine.capacities_j_per_k

        def slope(_, r, heat=heat, loss=loss, links=links, capacities=capacities):
            through = links * (r[:3] - r[3])
            return (heat - loss * r - np.append(through, -through.sum())) / capacities

        ends = np.linspace(0, 60 * minutes, 80)
        done = solve_ivp(slope, (0, ends[-1]), rise, t_eval=ends, rtol=1e-8, atol=1e-8)
        times.append(begin + ends / 60)
        found.append(done.y[:3].T + v["outside"])
        rise, begin = done.y[:, -1], begin + minutes
    return np.concatenate(times), np.concatenate(found)


def shaken(stage, dice):
    """Some other setting of the controls, as a hand might leave them, with much less of it blocked than not."""
    values = {}
    for name, control in stage.controls.items():
        if isinstance(control, Slider):
            steps = round((control.max - control.min) / control.step)
            values[name] = type(control.value)(control.min + dice.randint(0, steps) * control.step)
    clear = dice.random() < 0.4
    values |= {side: 0 if clear else dice.choice([0, 50, 75, 100]) for side in (LEFT, RIGHT)}
    return values | {"kit": dice.random() < 0.3, "pilot": False}


@pytest.mark.parametrize("name", NAMES)
def test_verdict_words_and_picture_agree_with_temperatures_found_by_steps(name):
    stage, craft, dice = STAGES[name], aircraft.demo(name), random.Random(name)
    limits = np.array([craft.cooling.head_limit_c] * 2 + [craft.engine.oil_limit_c])
    for setting in [*stage.presets.values(), *(None for _ in range(25))]:
        stage.set(**({**setting, "pilot": False} if setting else shaken(stage, dice)))
        v = stage.values
        times, temperatures = stepped(craft, v)
        over = temperatures - limits
        curves = stage.live.picture.curves
        if np.abs(over.max(axis=0)).min() < 0.3:
            continue  # a question of a degree
        if over.max() > 0:
            part = over[np.argmax((over > 0).any(axis=1))]
            at = times[np.argmax((over > 0).any(axis=1))]
            assert stage.verdict == STOP
            shown = float(curves.cross.get_xdata()[0])
            assert shown == pytest.approx(at, abs=0.3)
            assert ("oil reaches its limit" in stage.words) == (part.argmax() == 2)
            where = "before take-off" if shown < 0 else "into the climb"
            assert where in stage.words
            said = abs(shown)
            assert (f"{said:.1f} min" if said >= 0.995 else f"{60 * said:.0f} s") in stage.words
        else:
            assert stage.verdict in (OK, NOTE)
            assert not len(curves.cross.get_xdata())
            assert (stage.verdict == OK) == (
                not (v["left"] or v["right"])
                and not (v["kit"] and v["outside"] > craft.cooling.kit.off_above_c)
                and temperatures[-1, 2] >= craft.cooling.oil_green_c
            )
        # The gauges stand where the temperatures are at that minute.
        seen = 0 if craft.cooling.gauge_on == LEFT else 1
        now = temperatures[np.argmin(np.abs(times - v["minute"]))] if v["minute"] > times[0] else [v["outside"]] * 3
        for gauge, expected in ((stage.live.picture.heads, now[seen]), (stage.live.picture.oil, now[2])):
            x, y = (row[1] for row in gauge.needle.get_data())
            shown = gauge.low + (1 - np.degrees(np.arctan2(y, x)) / 180) * (gauge.high - gauge.low)
            assert shown == pytest.approx(np.clip(expected, gauge.low, gauge.high), abs=4.0)


@pytest.mark.parametrize("name", NAMES)
def test_every_preset_says_what_it_is_called(name):
    stage, craft = STAGES[name], aircraft.demo(name)
    seen = craft.cooling.gauge_on
    found = {}
    for preset in stage.presets:
        stage.take_preset(preset)
        found[preset] = (stage.verdict, stage.words)
    verdicts = [verdict for verdict, _ in found.values()]
    assert verdicts == [OK, STOP, STOP, NOTE, STOP, STOP, NOTE, STOP, NOTE, OK, STOP]
    assert f"The gauge, on the {seen}, shows" in found["a plug on the side the gauge can't see"][1]
    assert "and the gauge shows it" in found["a plug on the gauge's side"][1]
    for alike in ("a nest in both", "both plugs left in"):
        assert found[alike][1].startswith("The heads reach their limit")
        assert found[alike][1].endswith(", and the gauge shows it.")
    assert found["the winter kit left on in spring"][1].startswith("The oil reaches its limit")
    assert found["−20 °C without the kit"][1].startswith("Too cold")
    stage.take_preset("−20 °C with the kit")
    assert f"After 5.0 min: 65 % of power at {craft.speeds.cruise:.0f} kt." in stage.more
    assert {w.get_text() for w in stage.live.picture.cowl._words.values()} == {"left: kit", "right: kit"}


def test_it_opens_with_both_intakes_clear():
    stage = demos.demo()
    opened = stage.values
    stage.take_preset("both intakes clear")
    assert stage.values == opened
    assert stage.verdict == OK


def test_the_cautions_and_the_rules_of_thumb_are_said():
    stage = STAGES["morrowlark_four"]
    for word in ("propeller as live", "ignition off", "hot engine", "own handbook", "invented"):
        assert word in stage.caution.replace("A hot", "a hot"), word
    assert "Rules of thumb" in stage.said


def test_what_a_change_gains_is_the_difference_of_two_climbs():
    stage = STAGES["morrowlark_four"]
    stage.take_preset("a nest in both")
    before = float(stage.live.picture.curves.cross.get_xdata()[0])
    stage.set(change=1, then_power=85, then_speed=80)
    after = float(stage.live.picture.curves.cross.get_xdata()[0])
    assert f"Without the change, the limit comes {before:.1f} min into the climb" in stage.said
    gained = after - before
    assert f"the change gains {gained:.1f} min" in stage.said or f"the change gains {60 * gained:.0f} s" in stage.said
    stage.set(then_power=100, then_speed=stage.controls["then_speed"].min)
    cost = before - float(stage.live.picture.curves.cross.get_xdata()[0])
    assert cost > 0
    assert f"the change costs {60 * cost:.0f} s" in stage.said
    stage.set(change=3, then_power=50)
    assert "Without the change" not in stage.said  # too late


def test_the_pilot_sees_the_gauges_and_nothing_else():
    stage = STAGES["morrowlark_four"]
    stage.take_preset("only the gauges, after the run-up")
    curves, cowl = stage.live.picture.curves, stage.live.picture.cowl
    said = stage.said
    assert (stage.verdict, "Would you go on?" in said) == (NOTE, True)
    assert not any(word in said for word in ("right", "intake clear", "limit,"))
    assert [label.get_text() for label in curves._labels] == ["", "oil", "left heads,\nwith the gauge"]
    assert all(words.get_text().endswith("?") for words in cowl._words.values())
    stage.set(minute=8.0)
    assert stage.verdict == NOTE  # the right heads are past their limit, which nobody sees
    plugged = stage.pixels.copy()
    stage.set(left=100, right=0)
    assert (stage.pixels != plugged).any()  # the gauge's side is hotter
    assert (stage.verdict, "Past the red line" in stage.said) == (STOP, True)


def test_a_minute_that_moves_moves_the_gauges():
    stage = STAGES["tansy_two"]
    stage.take_preset("a plug on the gauge's side")
    shown = []
    for minute in (-12, -3, 0, 2, 10):
        stage.set(minute=minute)
        shown.append(stage.live.picture.heads.reading.get_text())
    assert shown[0] == "15 °C"
    hot = [float(text.removesuffix(" °C")) for text in shown]
    assert hot == sorted(set(hot))
    assert hot[-1] > aircraft.demo("tansy_two").cooling.head_limit_c


def test_banks_that_are_alike_have_one_name_and_names_stand_apart():
    stage = STAGES["morrowlark_four"]
    stage.take_preset("both intakes clear")
    labels = stage.live.picture.curves._labels
    assert [label.get_text() for label in labels] == ["", "oil", "heads, both\nsides"]
    stage.take_preset("a plug on the side the gauge can't see")
    assert [label.get_text() for label in labels] == ["right heads", "oil", "left heads,\nwith the gauge"]
    heights = sorted(label.get_position()[1] for label in labels)
    assert np.diff(heights).min() >= 32.9


def test_what_is_in_an_intake_fills_it_and_left_is_on_the_right():
    stage = STAGES["morrowlark_four"]
    stage.take_preset("both intakes clear")
    stage.set(left=50, kit=True)
    cowl = stage.live.picture.cowl
    (stuffed,) = (path.vertices for path in cowl.stuffed.get_paths())
    assert stuffed[:, 0].min() > 0
    assert np.ptp(stuffed[:, 1]) == pytest.approx(1.15 / 2)
    assert len(cowl.plates.get_paths()) == 3
    assert [w.get_text() for w in cowl._words.values()] == ["left: 50 %", "right: kit"]


def test_the_kit_is_drawn_as_large_as_the_file_has_it(tmp_path):
    text = (aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8")
    path = tmp_path / "own.toml"
    kit = "covers_intakes = 0.25, covers_cooler = 0.48"
    assert kit in text
    path.write_text(text.replace(kit, "covers_intakes = 0.4, covers_cooler = 0.9"), encoding="utf-8")
    stage = demos.demo(str(path))
    stage.set(kit=True)
    cooler, *intakes = (np.ptp(plate.vertices, axis=0) for plate in stage.live.picture.cowl.plates.get_paths())
    assert cooler[0] == pytest.approx(0.9 * 1.35)
    assert [tall for _, tall in intakes] == pytest.approx([0.4 * 1.15] * 2)


def test_a_red_line_is_on_its_gauge_whatever_the_limit(tmp_path):
    text = (aircraft.DEMO_FOLDER / "morrowlark_four.toml").read_text(encoding="utf-8")
    path = tmp_path / "own.toml"
    path.write_text(text.replace("oil_limit_c = 118", "oil_limit_c = 155"), encoding="utf-8")
    for name, heads, oil in (("morrowlark_four", 300, 150), ("tansy_two", 300, 150), (str(path), 300, 200)):
        picture = demos.demo(name).live.picture
        assert (picture.heads.low, picture.heads.high, picture.oil.low, picture.oil.high) == (0, heads, 0, oil)


def test_an_aircraft_without_the_section_is_refused_in_words(tmp_path):
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    begin = text.index("[cooling]")
    path = tmp_path / "own.toml"
    path.write_text(text[:begin] + text[text.index("kit = {", begin) :].partition("\n")[2], encoding="utf-8")
    with pytest.raises(ValueError, match=r"Tansy Two has no section \[cooling\]; this needs it"):
        demos.demo(str(path))


def test_the_table_names_the_demonstration():
    assert {name for name, _ in table.find("cooling").demonstrations} == {"demo"}
