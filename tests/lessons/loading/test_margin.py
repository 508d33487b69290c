"""The margin in a few words: each limit that can be passed has its own."""

import pytest
from walkaround import aircraft
from walkaround.lessons.loading.margin import margin
from walkaround.physics.loading import load_sheet

FOUR, TWO = aircraft.demo("morrowlark_four"), aircraft.demo("tansy_two")


@pytest.mark.parametrize(
    ("craft", "stations", "tanks", "says"),
    [
        # Empty: 1,540 lb at 101.2 in, the forward limit there is 99.0 in.
        (FOUR, {}, {}, "2.2 in to the forward limit"),
        # (155848 + 180·104 + 420·140.5 + 85·163 + 55·182) / 2280 = 112.90 in without fuel, the aft limit 112.0 in.
        (FOUR, {"front seats": 180, "rear seats": 420, "hold A": 85, "hold B": 55}, {}, "0.9 in beyond the aft limit"),
        # 1540 + 500 + 440 + 147 = 2,627 lb: 17 over for take-off, 127 for landing; 50 over without the fuel.
        (FOUR, {"front seats": 500, "rear seats": 440}, {"left tank": 24.5}, "127 lb over the landing limit"),
        (FOUR, {"front seats": 510, "hold A": 20}, {}, "10 lb too much: front seats"),
        (FOUR, {"front seats": 400, "hold A": 110, "hold B": 50}, {}, "10 lb too much: hold A and hold B together"),
        # 392 kg empty, 3.2 L of oil at 0.90 and 2 L of unusable fuel at 0.72 kg/L: 396.3 kg of at least 400.
        (TWO, {}, {}, "3.7 kg below the lightest weight"),
    ],
)
def test_words_of_a_margin(craft, stations, tanks, says):
    sheet = load_sheet(craft, stations, tanks)
    found = margin(sheet)
    assert found.says == says
    assert found.inside == bool(sheet.loadable) == (" to the " in says)


def test_the_margin_ends_at_the_limit():
    sheet = load_sheet(FOUR, {"front seats": 340, "hold A": 60}, {"left tank": 15, "right tank": 15}, 0, 20)
    found = margin(sheet)
    assert found.limit == pytest.approx(float(sheet.envelope.limits_at(found.weight)[0]))
    assert found.says.startswith(f"{found.cg - found.limit:.1f} in")
