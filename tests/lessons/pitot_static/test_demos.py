"""The demonstrations of pitot and static say and draw what the library says; secrets stay secret."""

import pkgutil
from itertools import product
from math import inf

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.aircraft.airfield import airfield, planned_flight
from walkaround.lessons import pitot_static
from walkaround.lessons.pitot_static import flight_demos
from walkaround.lessons.pitot_static.flight_demos import CAUSES, COMBINATIONS, secret
from walkaround.physics.air import takeoff as takeoff_roll
from walkaround.physics.pitot_static import words as symptoms
from walkaround.physics.pitot_static.instruments import EVERY_COMBINATION, Openings, indications
from walkaround.physics.pitot_static.over_flight import Blockage, indications_over

SHOWN = {"airspeed": "airspeed_kt", "altitude": "altitude_ft", "vertical_speed": "vertical_speed_fpm"}


@pytest.fixture(scope="module")
def dials():
    return pitot_static.dials()


@pytest.fixture(scope="module")
def flight():
    return flight_demos.flight()


@pytest.fixture
def guess():
    return flight_demos.guess()


@pytest.fixture(scope="module")
def roll():
    return pitot_static.takeoff_roll()


def readings(stage):
    """The figures under the three dials."""
    picture = stage.live.picture
    dials = getattr(picture, "dials", None) or [getattr(picture, name) for name in SHOWN]
    return [dial.reading.get_text() for dial in dials]


@pytest.mark.parametrize("clear", list(product((True, False), repeat=3)), ids=str)
def test_dials_show_and_say_every_combination(dials, clear):
    inlet, drain, static = (not is_clear for is_clear in clear)
    for alternate in (False, True):
        dials.set(
            altitude=4300,
            speed=88,
            climb=-350,
            inlet=inlet,
            drain=drain,
            static=static,
            alternate=alternate,
            blocked_ft=3900,
            blocked_kt=95,
            setting=29.92,
            cabin=2.0,
        )
        shown = indications(
            4300.0, 88.0, Openings(*clear), 3900.0, 95.0, -350.0, alternate_open=alternate, cabin_below_hpa=2.0
        )
        right = indications(4300.0, 88.0, Openings(), climb_fpm=-350.0)
        scales = dials.live.picture.instruments
        action = symptoms.action_words(Openings(*clear), alternate_open=alternate)
        notes = symptoms.notes(action, symptoms.cause_words(Openings(*clear), alternate), shown, right, scales)
        assert dials.said.endswith(" ".join(notes))
        speed = "on its stop at 0" if shown.on_stop else f"shows {shown.airspeed_kt:.0f} kt"
        assert readings(dials)[:2] == [speed, f"shows {10 * round(shown.altitude_ft / 10):,} ft"]


def test_a_higher_setting_makes_the_altimeter_read_higher_and_nothing_else(dials):
    dials.set(altitude=3000, speed=80, climb=0, inlet=False, drain=False, static=False, alternate=False)
    dials.set(setting=29.92)
    before = readings(dials)
    dials.set(setting=30.50)
    # 531 ft: 14 CFR Part 43 Appendix E, Table IV.
    assert readings(dials) == [before[0], "shows 3,530 ft", before[2]]
    assert dials.said.startswith(symptoms.ALL_RIGHT)
    dials.set(setting=29.92)


def test_each_ready_made_situation_is_another_one(dials):
    said = []
    for values in dials.presets.values():
        dials.set(**values)
        assert {k: dials.values[k] for k in values} == values
        said.append(dials.said)
    assert len(set(said)) == len(said)
    assert said[0].startswith(symptoms.ALL_RIGHT)


def test_no_module_hides_a_demonstration_of_its_name():
    # A module that is imported becomes an attribute of the lesson: the cell would fail when it is run again.
    modules = {module.name for module in pkgutil.iter_modules(pitot_static.__path__)}
    assert modules.isdisjoint({"dials", "flight", "guess", "takeoff_roll"})


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_every_demonstration_takes_every_demo_aircraft(name):
    for demo in (pitot_static.dials, pitot_static.flight, pitot_static.guess, pitot_static.takeoff_roll):
        made = demo(name)
        assert aircraft.demo(name).name in made.title
        assert made.pixels.any()
        assert made.said.endswith(".")


def test_an_aircraft_file_without_speeds_is_refused_in_words(tmp_path):
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    path = tmp_path / "mine.toml"
    path.write_text(text[: text.index("[speeds]")], encoding="utf-8")
    with pytest.raises(ValueError, match=r"the file of Tansy Two has no section \[speeds\]; this needs it"):
        pitot_static.dials(path)


def test_the_flight_has_every_combination():
    found = {(o.pitot_clear, o.drain_clear, o.static_clear) for o in COMBINATIONS.values()}
    assert found == {(o.pitot_clear, o.drain_clear, o.static_clear) for o in EVERY_COMBINATION}


@pytest.mark.parametrize("blocked", COMBINATIONS)
def test_a_flight_shows_what_the_library_says(flight, blocked):
    plan, openings = planned_flight(aircraft.demo("morrowlark_four")), COMBINATIONS[blocked]
    lags = [0.0 if c else inf for c in (openings.pitot_clear, openings.drain_clear, openings.static_clear)]
    shown = indications_over(plan.flight, Blockage(200.0, *lags))
    for at_s in (100, 260, 420, 700, 900):
        flight.set(blocked=blocked, at_s=200, pinhole=0.0, then="nothing more", moment=at_s)
        i = np.searchsorted(plan.flight.time_s, at_s, side="right") - 1
        speed = "on its stop at 0" if shown.on_stop[i] else f"shows {shown.airspeed_kt[i]:,.0f} kt"
        speed = "off the scale" if shown.airspeed_kt[i] > 180 else speed
        assert readings(flight)[:2] == [speed, f"shows {10 * round(shown.altitude_ft[i] / 10):,} ft"]
        assert plan.part(at_s) in flight.said
        if at_s < 200:
            assert symptoms.ALL_RIGHT in flight.said
        else:
            assert symptoms.cause_words(openings).lower() in flight.said.lower()


def test_what_is_done_a_minute_later(flight):
    flight.set(blocked="static port (tape, ice)", at_s=150, pinhole=0.0, then="nothing more", moment=400)
    closed = flight.said
    flight.set(then="alternate source opened")
    assert "cabin air" in flight.said
    assert "the altimeter 4,050 ft where 4,000 ft is right" in flight.said
    flight.set(moment=200)  # not yet
    assert "cabin air" not in flight.said
    flight.set(moment=400, then="the opening comes clear")
    assert symptoms.ALL_RIGHT in flight.said
    assert "altimeter" in closed


def test_a_pinhole_lags_and_a_wide_one_does_not(flight):
    wrong = []
    for pinhole in (0.0, 0.04, 0.12):
        flight.set(blocked="static port (tape, ice)", at_s=150, pinhole=pinhole, then="nothing more", moment=300)
        dial = flight.live.picture.dials[1]
        wrong.append(
            float(dial.right.get_text().split()[1].replace(",", ""))
            - float(dial.reading.get_text().split()[1].replace(",", ""))
        )
    assert wrong[0] > wrong[1] > wrong[2] >= 0
    assert wrong[2] < 60
    assert "small hole" in flight.said


def test_every_moment_and_fault_of_the_flight_can_be_told(flight):
    last = flight.controls["moment"].max
    for blocked, pinhole in product(COMBINATIONS, (0.0, 0.06)):
        for at_s in (0, last):
            for then in ("nothing more", "alternate source opened", "the opening comes clear"):
                flight.set(blocked=blocked, pinhole=pinhole, at_s=at_s, then=then, moment=last)
                assert "can't be worked out" not in flight.said


def test_the_play_button_is_linked_to_the_moment_and_is_no_control_of_its_own(flight):
    assert "_play" not in flight.controls
    rows = dict(flight.get_state()["page"]["controls"])
    assert rows["_play"]["kind"] == "player"
    assert rows["_play"]["moves"] == "moment"


def test_a_secret_stays_one_until_it_is_shown(guess):
    causes = set()
    plan = planned_flight(aircraft.demo("morrowlark_four"))
    for number in range(1, 30):
        cause, at_s = secret(number, plan)
        causes.add(cause)
        assert plan.airborne_s < at_s < plan.begins_s[4]
        guess.controls["round"].value = number
        guess.set(moment=600)
        assert "because" not in guess.said
        assert "right" not in guess.said
        assert cause not in guess.said
        assert not any(dial.ring.get_visible() for dial in guess.live.picture.dials)
        assert not any(u.get_visible() for chart in guess.live.picture.charts for u in chart.uprights)
        guess.set(
            **{
                cause: 5,
                "reveal": True,
                ("nothing is blocked" if cause != "nothing is blocked" else "all three blocked"): 2,
            }
        )
        assert f"Round {number}: {cause}" in guess.said
        assert "5 of 7 votes were right" in guess.said
    assert causes == set(CAUSES)


def test_a_new_round_hides_the_cause_and_forgets_the_votes_before_it_is_drawn(guess):
    seen = []
    guess.set(moment=600, reveal=True, **{"static port blocked": 4})
    draw = guess.live.draw

    def watched(result):
        seen.append(result[-1])
        return draw(result)

    guess.live.draw = watched
    guess.controls["round"].value = 2
    assert seen
    assert not any(seen)
    assert "Votes so far: none" in guess.said
    assert guess.values["moment"] == flight_demos.ROUND_BEGINS_S


def test_votes_are_counted_in_the_sentence(guess):
    guess.set(reveal=True)
    assert "Nobody has voted." in guess.said
    guess.set(reveal=False)
    guess.set(**{"all three blocked": 2, "static port blocked": 1})
    assert "Votes so far: static port blocked 1, all three blocked 2." in guess.said


def test_a_round_is_the_same_for_every_class():
    plan = planned_flight(aircraft.demo("morrowlark_four"))
    assert secret(7, plan) == secret(7, plan)
    assert len({secret(n, plan) for n in range(1, 50)}) > 40


def test_the_roll_says_where_it_gives_itself_away(roll):
    craft, field = aircraft.demo("morrowlark_four"), airfield()
    roll.set(cover="solid cover over the inlet", field_ft=3000, outside_c=25, headwind_kt=5, runway=2200, later_s=10)
    made = takeoff_roll.takeoff_roll(craft.take_off.ground_roll, craft.speeds.lift_off, 3000.0, 25.0, 5.0)
    call_s = float(takeoff_roll.alive_s(made, craft.speeds.first_mark))
    now, later = (
        takeoff_roll.rejected(made, t, 2200.0, craft.take_off.deceleration_kt_s, craft.take_off.reaction_s)
        for t in (call_s, call_s + 10)
    )
    assert f"{call_s:.0f} s and {float(takeoff_roll.distance_at_ft(made, call_s)):,.0f} ft" in roll.said
    assert "this one shows 0 kt" in roll.said
    assert f"stops with {now.runway_left_ft:,.0f} ft of runway left" in roll.said
    assert f"runs {-later.runway_left_ft:,.0f} ft off the end" in roll.said
    assert later.past_lift_off
    assert "past lift-off speed" in roll.said
    assert field.name in roll.title


def test_covers(roll):
    roll.set(field_ft=600, outside_c=14, headwind_kt=0, runway=2200, later_s=10, cover="no cover")
    assert roll.said.startswith("Airspeed alive")
    crept = []
    for hole in (0.02, 0.08, 0.2):
        roll.set(cover="porous sleeve over the pitot tube", holes_mm=hole)
        crept.append(float(roll.said.split("this one shows ")[1].split()[0]) if "this one" in roll.said else 40.0)
    assert crept[0] < 5 < crept[1] < crept[2]
    roll.set(cover="solid cover over the inlet", runway=1000, field_ft=6000)
    assert "no take-off here today" in roll.said
