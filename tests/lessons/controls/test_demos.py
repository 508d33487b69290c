"""The demonstration of the control check says and shows what the library computes, and keeps its secret until asked."""

import re

import numpy as np
import pint
import pytest
from walkaround import aircraft, measures
from walkaround.lessons import controls as lesson
from walkaround.lessons.controls import words
from walkaround.lessons.controls.demos import HIDDEN, UNDECIDED
from walkaround.lessons.controls.faults import fault_of, hidden
from walkaround.lessons.controls.tail import Tail
from walkaround.lessons.controls.words import NAMES, written
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.controls import FAULTS, Fault, Hands, linkage, positions

UNITS = pint.UnitRegistry()


@pytest.fixture(scope="module")
def made():
    return {name: lesson.demo(name) for name in aircraft.demo_names()}


@pytest.fixture
def stage(made):
    """The demonstration as it opens; made once."""
    made["morrowlark_four"].take_preset("find the fault: aircraft 1")
    return made["morrowlark_four"]


def there(stage, name, fault):
    v = stage.values
    hands = Hands(v["roll"] / 100, v["pitch"] / 100, v["yaw"] / 100, v["trim"] / 100, v["flap"])
    return positions(aircraft.demo(name).control_surfaces.rigging, hands, fault)


def labels(stage):
    return {name: label.get_text() for name, label in stage.live.picture._labels.items()}


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_every_preset_says_what_the_library_says(made, name):
    stage, held = made[name], aircraft.demo(name).control_surfaces.held
    verdicts = []
    for preset, values in stage.presets.items():
        stage.take_preset(preset)
        kind = values["fault"]
        fault = hidden(1) if kind == HIDDEN else fault_of(kind)
        if kind != HIDDEN:
            assert stage.words == words.fault_words(fault, held)
            assert ("nothing shows it" in stage.said.replace("half back, nothing shows it", "")) == (
                "half back" in preset
            )
        s = there(stage, name, fault)
        assert labels(stage) == {n: f"{NAMES[n]} {written(n, getattr(s, n))}" for n in NAMES}
        verdicts.append(stage.verdict)
    assert verdicts == [NOTE, OK, *[STOP] * 9]
    assert {values["fault"] for values in stage.presets.values()} == {HIDDEN, *FAULTS}


@pytest.mark.parametrize("name", aircraft.demo_names())
@pytest.mark.parametrize("kind", FAULTS)
def test_words_and_picture_agree_wherever_the_controls_stand(made, name, kind):
    stage = made[name]
    stage.set(fault=kind, reveal=False, finding=UNDECIDED)
    for roll, pitch, yaw, trim, flap in (
        (0, 0, 0, 0, 0), (100, 100, 100, 100, -1), (-100, -100, -100, -100, 1), (-30, 60, 0, -50, 1), (0, 90, -100, 10, 0)
    ):  # fmt: skip
        flaps = aircraft.demo(name).control_surfaces.flap.settings_deg[flap]
        stage.set(roll=roll, pitch=pitch, yaw=yaw, trim=trim, flap=flaps)
        s = there(stage, name, fault_of(kind))
        assert labels(stage) == {n: f"{NAMES[n]} {written(n, getattr(s, n))}" for n in NAMES}
        assert stage.verdict == (OK if kind == linkage.NOTHING else STOP)
        right = there(stage, name, Fault())
        moves = stage.values["roll"] or stage.values["pitch"]
        shows = any(abs(float(getattr(s, n)) - float(getattr(right, n))) > 1 for n in NAMES) or (
            kind == linkage.LOCKED and moves
        )
        assert ("As the controls stand, nothing shows it." in stage.said) == (not shows and kind != linkage.NOTHING)


def test_a_secret_stays_one_until_it_is_shown(stage):
    for number in range(1, 19):
        stage.controls["number"].value = number
        stage.set(roll=100, pitch=100, yaw=100, trim=100, flap=30.0)
        assert stage.verdict == NOTE
        assert not any(kind in stage.said for kind in FAULTS)
        fault = hidden(number)
        assert ("The wheel does not move." in stage.said) == (fault.kind == linkage.LOCKED)
        stage.set(finding=linkage.NOTHING, reveal=True)
        assert stage.words == words.fault_words(fault, "wheel")
        right = fault.kind == linkage.NOTHING
        assert f"You {'found it' if right else 'said'}: nothing wrong." in stage.said
        assert stage.verdict == (OK if right else STOP)
        stage.controls["number"].value = number + 1
        assert not stage.values["reveal"]
        assert stage.values["finding"] == UNDECIDED
        assert stage.verdict == NOTE


def test_nine_numbers_in_a_row_hide_every_fault_once():
    for turn in range(30):
        assert {hidden(9 * turn + i).kind for i in range(1, 10)} == set(FAULTS)
    sides = {hidden(n).on_left for n in range(1, 400) if hidden(n).kind == linkage.FLAP_LAGS}
    assert sides == {True, False}
    missing = {hidden(n).missing_deg for n in range(1, 400) if hidden(n).kind == linkage.ELEVATOR_SHORT}
    assert missing == {3.0, 4.0, 5.0, 6.0}


def test_it_says_what_is_to_be_seen(stage):
    stage.set(fault=linkage.AILERONS_CROSSED, roll=100, reveal=False)
    assert "Left aileron 20° up, right 15° down" in stage.said
    stage.set(fault=linkage.NOTHING, roll=100)
    assert "Left aileron 15° down, right 20° up" in stage.said


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_tape_says_whether_the_elevator_is_within_its_limits(made, name):
    stage, section = made[name], aircraft.demo(name).control_surfaces
    for kind, within in ((linkage.NOTHING, True), (linkage.ELEVATOR_SHORT, False)):
        stage.set(fault=kind, pitch=100, roll=0, yaw=0, trim=0, flap=0.0)
        reads, low, high = map(
            float, re.search(r"elevator: ([\d.]+) \w+ from.* is ([\d.]+) to ([\d.]*\d)", stage.said).groups()
        )
        assert (low <= reads <= high) == within
        scale = 1 if section.elevator.chord > 1 else 1000
        angle = section.elevator.up_deg - (0 if within else 3)
        assert reads == pytest.approx(
            2 * scale * section.elevator.chord * np.sin(np.radians(angle / 2)), abs=0.5 * scale / 1000 + 0.05
        )


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_what_missing_travel_costs_by_hand_and_with_units(name):
    craft = aircraft.demo(name)
    d, unit = craft.dimensions, UNITS.inch if craft.units.arm == "in" else UNITS.meter
    weight = craft.limits.take_off * (
        UNITS.force_pound if craft.units.weight == "lb" else UNITS.kilogram * UNITS.gravity
    )
    speed = craft.speeds.vs0 * UNITS.knot
    pressure = 0.5 * 1.225 * UNITS.kilogram / UNITS.meter**3 * speed**2
    share = craft.control_surfaces.elevator.chord / d.tailplane_chord
    tau = 2 / np.pi * (np.sqrt(share * (1 - share)) + np.arcsin(np.sqrt(share)))
    ratio = d.tailplane_span / d.tailplane_chord
    slope = 2 * np.pi / (2 / ratio + np.sqrt(1 + (2 / ratio) ** 2))
    force = pressure * d.tailplane_span * d.tailplane_chord * unit**2 * slope * tau * 3 * np.pi / 180
    tail = Tail(craft)
    cost = tail.cost(3.0)
    in_force = UNITS.force_pound if tail.force_unit == "lb" else UNITS.newton
    assert cost.force == pytest.approx(force.to(in_force).magnitude, rel=0.005)
    arm = (d.tailplane_arm - tail.forward_limit) * unit
    shift = (force * arm / weight).to(UNITS.inch if tail.cg_unit == "in" else UNITS.millimeter).magnitude
    assert cost.cg == pytest.approx(shift, rel=0.005)
    # Moments about the CG with the neutral point: a lift that is less by W (V0²/V² − 1) at its arm, margin × chord.
    moment_lost = force.to("newton") / pressure.to("pascal") * arm.to("meter")
    wing = d.metres(craft.units)
    lost = moment_lost.magnitude / (wing.wing_area * tail.mean_chord * (wing.span / d.span) * tail.margin)
    lift = (weight / pressure).to("meter**2").magnitude / wing.wing_area
    assert cost.slowest_kt == pytest.approx(craft.speeds.vs0 * np.sqrt(lift / (lift - lost)), rel=0.003)
    assert tail.forward_limit == {"in": 104.0, "mm": 0.33}[tail.cg_unit]


def test_the_cost_is_said(stage):
    stage.take_preset(linkage.ELEVATOR_SHORT)
    assert "34 lb are missing at the tail, as if the CG stood 2.5 in further forward" in stage.more
    assert "above 50 kt" in stage.more


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_both_systems_of_units_tell_of_the_same_elevator(name):
    stages = []
    for system in measures.SYSTEMS:
        with measures.shown_in(system):
            stages.append(lesson.demo(name))
    tells = re.compile(r"([\d.]+) (lb|N) are missing .* ([\d.]+) (in|mm) further .* Tape at the elevator: ([\d.]+)")
    for preset in stages[0].presets:
        for stage in stages:
            stage.take_preset(preset)
        us, metric = stages
        assert (us.verdict, us.words) == (metric.verdict, metric.words)
        assert labels(us) == labels(metric)
        if preset == linkage.ELEVATOR_SHORT:
            (pull, _, shift, _, tape), (newtons, n, shift_mm, mm, tape_mm) = (
                tells.search(s.said).groups() for s in stages
            )
            assert (n, mm) == ("N", "mm")
            # Each is rounded as it is said: to a pound, and to a tenth of an inch.
            assert float(newtons) == pytest.approx((float(pull) * UNITS.force_pound).to("newton").magnitude, abs=3.5)
            assert float(shift_mm) == pytest.approx((float(shift) * UNITS.inch).to("mm").magnitude, abs=2.5)
            assert float(tape_mm) == pytest.approx((float(tape) * UNITS.inch).to("mm").magnitude, abs=2.5)


def test_the_cautions_stand_at_the_top(made):
    for stage in (*made.values(), lesson.drill()):
        for word in (
            "invented",
            "own handbook",
            "crushes fingers",
            "Never force",
            "don't fly",
            "only a mechanic adjusts",
        ):
            assert word in stage.caution, word


def test_a_file_without_the_sections_is_refused_in_words(tmp_path):
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    begin, end = text.index("[control_surfaces]"), text.index("[speeds]")
    path = tmp_path / "two.toml"
    path.write_text(text[:begin] + text[end:], encoding="utf-8")
    for function in (lesson.demo, lesson.drill):
        with pytest.raises(ValueError, match=r"Tansy Two has no section \[control_surfaces\]; this needs it"):
            function(str(path))
