"""What the lesson says in words: its cautions, whose handbook is meant, and numbers that the library gives."""

import re

import pytest
from lesson_texts import cells, texts_of
from walkaround import aircraft
from walkaround.assessment.questions import paper
from walkaround.lessons.fuel import questions
from walkaround.lessons.fuel.demos import CAUTION
from walkaround.physics import fuel
from walkaround.units import US_GALLON_L

FOUR = aircraft.demo("morrowlark_four")
TANK = FOUR.fuel_system.tanks[0]


LESSON = cells("notebooks/06-fuel.ipynb")
WHOLE = " ".join(LESSON).replace("*", "")


def texts():
    """Everything that the lesson and its exercise say."""
    yield from (*LESSON, *cells("solutions/06-fuel.ipynb"), CAUTION)
    yield from texts_of(paper(questions, f"Student {i}") for i in range(10))


def test_the_handbook_is_always_named():
    named = r"(?:Pilot's|ASHRAE|aircraft's)(?: own)? Handbook"
    for text in texts():
        assert "handbook" not in re.sub(named, "", text.replace("*", ""), flags=re.IGNORECASE).casefold(), text


@pytest.mark.parametrize(
    "caution",
    [
        r"vapour burns.{0,40}no flame",
        r"extinguisher at hand",
        r"never refuel with the engine running",
        r"bonding cable to bare metal before a cap comes off",
        r"skin",
        r"wrong fuel stops an engine",
        r"aircraft's own handbook comes first",
    ],
)
def test_cautions_stand_at_the_top_of_the_lesson(caution):
    assert re.search(caution, LESSON[0].replace("*", ""), re.IGNORECASE)


def test_vapour_sparks_and_skin_stand_over_the_demonstrations():
    for caution in (
        r"vapour burns",
        r"no switches",
        r"bond the aircraft before a cap comes off",
        r"skin",
        r"own handbook",
    ):
        assert re.search(caution, CAUTION, re.IGNORECASE), caution


def test_the_dyes_are_the_standards():
    # ASTM D910 and FAA-H-8083-25 (recalled): 100LL blue, 100 green, 80 red, jet fuel colourless or straw.
    for row in (
        r"\| blue \| 100LL",
        r"\| green \| 100 ",
        r"\| red \| 80 ",
        r"\| no colour, or straw; [^|]*\| jet fuel",
    ):
        assert re.search(row, WHOLE), row


def test_the_steps_at_the_pump_are_in_the_same_order_everywhere():
    steps = [key for key, _ in questions.pump.STEPS]
    assert steps.index("off") < steps.index("bond") < steps.index("open") < steps.index("close") < steps.index("unclip")
    take_out = next(text for text in LESSON if text.startswith("## Take this out")).replace("*", "")
    refuelling = take_out[take_out.index("Refuelling:") :]
    words = ["switches off", "bond first", "placard and pump", "cap closed", "cable off last", "sample"]
    places = [refuelling.index(word) for word in words]
    assert places == sorted(places)


def test_numbers_in_the_text_are_the_librarys():
    said = re.search(r"holds ([\d.]+) g of water at 28 °C and ([\d.]+) g at 14 °C", WHOLE)
    assert [float(n) for n in said.groups()] == pytest.approx(fuel.vapour_g_m3([28.0, 14.0]), abs=0.05)
    assert "there are 49 L of it" in WHOLE
    assert fuel.capacity_l(TANK.solid) / 2 == pytest.approx(49.0, abs=0.5)
    assert (
        f"has a mark at {TANK.dipstick.marks_cm[0]:g} cm for 5 US gallons and one at {TANK.dipstick.marks_cm[1]:g} cm for 10"
        in WHOLE
    )
    assert f"the dihedral, {TANK.dihedral_deg:g}°" in WHOLE
    assert f"the rain of {TANK.cap.catches_m2:g} m² to this cap" in WHOLE
    # A seal with the demonstration's widest gap lets in all of it.
    assert float(fuel.leaked_l(12.0, 8.0, TANK.cap.catches_m2, 1.0, TANK.cap.standing_mm)) == pytest.approx(1.44)


def test_what_the_text_says_of_a_slope_is_so():
    # With the left wing 2° low the stick shows more than there is; with the nose high it shows less.
    place, litres = (TANK.dipstick.aft, TANK.dipstick.out), 12 * US_GALLON_L
    level, low, high = fuel.depth_on_stick_cm(TANK.solid, litres, *place, [0.0, 0.0, 3.0], [0.0, 2.0, 0.0])
    assert low > level > high
    assert "left wing 2° low the same fuel runs towards the stick, which shows more" in WHOLE


def test_the_old_warning_is_called_the_smaller_danger():
    assert "is true and names the smaller danger" in WHOLE
    assert "What lets in water by the litre is a cap that leaks, with rain on it" in WHOLE
