"""The demonstration of the oil log says what the library computes, and every control does what it says."""

import pytest
from walkaround import aircraft
from walkaround.lessons.oil import demos, logs, words
from walkaround.lessons.oil.check import Check, Log
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics import oil

FOUR = aircraft.demo("morrowlark_four").engine
POURED = (0, 0, 0, 1.0, 0, 0, 0, 0)


@pytest.fixture(scope="module")
def one():
    return demos.demo()


@pytest.fixture
def made(one):
    """The demonstration as it opens; made once."""
    one.take_preset("steady")
    return one


def of(values, engine=FOUR):
    """The check that the controls ask for."""
    count = values["count"]
    added = [values["added"] if p and count > 4 else 0.0 for p in POURED]
    there = [values[f"at_{h}"] for h in logs.HOURS]
    log = Log(logs.HOURS[:count], tuple(there[:count]), tuple(added[:count]))
    return Check(engine, log, values["flight"], values["minutes"], values["nose_up"])


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_every_preset_says_what_the_library_says(name):
    stage, engine, verdicts = demos.demo(name), aircraft.demo(name).engine, []
    for preset, values in stage.presets.items():
        stage.take_preset(preset)
        assert {k: stage.values[k] for k in values} == values
        check = of(stage.values, engine)
        assert stage.words == words.sentence(check)
        verdicts.append(stage.verdict)
    assert verdicts == [OK, OK, OK, STOP, NOTE, NOTE, STOP]


def test_it_opens_as_steady(made):
    assert demos.demo().values == made.values
    line = oil.trend(logs.HOURS, logs.STEADY[0], POURED, step=0.1)
    due, early, late = (float(h) - 21.0 for h in line.due_h(6.0))
    assert (round(due), int(early), int(late) + 1) == (6, 4, 9)
    assert "Oil is due in 6 h, between 4 and 9." in made.words


def test_the_cautions_stand_at_the_top(made):
    for word in ("Hot oil", "hot engine", "Ignition off", "propeller as live", "own handbook", "mechanic", "invented"):
        assert word in made.caution, word


def test_a_reading_moves_the_date_and_its_uncertainty(made):
    before, words_before = made.pixels.copy(), made.words
    made.set(at_18=7.3)
    assert made.words != words_before
    assert (made.pixels != before).any()
    wide = oil.trend(logs.HOURS, [*logs.STEADY[0][:6], 7.3, logs.STEADY[0][7]], POURED, step=0.1).due_h(6.0)
    assert f"between {int(float(wide[1]) - 21)} and" in made.words


def test_fewer_readings_tell_less(made):
    widths = []
    for count in (8, 6, 4):
        made.set(count=count)
        _, early, late = of(made.values).due_in
        widths.append(late - early)
    assert widths == sorted(widths)
    made.set(count=3)
    assert "or now, or much later" in made.words


def test_a_longer_flight_needs_more(made):
    made.take_preset("a thirsty engine")
    for hours, needed in ((2.0, 5.5), (6.0, 6.3)):
        made.set(flight=hours)
        assert of(made.values).needed == needed
        assert f"{needed} qt" in made.words
    assert made.verdict == STOP


def test_oil_added_counts(made):
    made.set(added=0.0)
    assert of(made.values).rate < 0.05
    made.set(added=2.0)
    assert of(made.values).rate > 0.1


def test_an_engine_without_a_sump_is_refused_in_words(tmp_path):
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    begin, end = text.index("[engine.oil.sump]"), text.index("[engine.cowl]")
    path = tmp_path / "two.toml"
    path.write_text(text[:begin] + text[end:], encoding="utf-8")
    with pytest.raises(ValueError, match=r"Tansy Two has no section \[engine.oil.sump\]; this needs it"):
        demos.demo(str(path))


def test_below_the_least_a_mechanic_is_asked():
    stage = demos.demo()
    stage.take_preset("a thirsty engine")
    assert "mechanic" not in stage.more
    stage.set(at_18=5.4, at_21=4.6, added=1.8)
    assert "ask a mechanic" in f"{stage.words} {stage.more}"


def test_a_log_by_which_oil_is_never_due_is_drawn():
    stage = demos.demo()
    stage.set(at_0=5.2, at_3=6.8, at_5=8.0, count=3, minutes=5, nose_up=5.0)
    assert stage.verdict == STOP
    assert "the oil level rises by itself" in stage.words
