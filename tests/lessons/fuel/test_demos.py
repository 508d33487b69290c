"""The demonstrations of fuel say what the library computes, and show the water where it lies."""

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.lessons import fuel as lesson
from walkaround.lessons.fuel.night_demo import PRESETS
from walkaround.lessons.fuel.picture import millilitres
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics import fuel

FOUR = aircraft.demo("morrowlark_four").fuel_system
SHAPE = FOUR.tanks[0]
SOLID = SHAPE.solid


@pytest.fixture(scope="module")
def tilted():
    return lesson.demo()


@pytest.fixture(scope="module")
def night():
    return lesson.night()


def gives(values):
    aft, out = ([getattr(drain, way) for drain in SHAPE.drains] for way in ("aft", "out"))
    return fuel.drain_gives_l(SOLID, values["water"] / 1000, aft, out, values["nose"], values["wing"])


def covered(water_l, nose, wing):
    outlet = SHAPE.outlet
    surface = fuel.level_cm(SOLID, water_l, nose, wing)
    return bool(surface > fuel.height_cm(SOLID, outlet.aft, outlet.out, outlet.up_cm, nose, wing))


def test_every_preset_says_what_the_library_says(tilted):
    verdicts = set()
    for values in tilted.presets.values():
        tilted.set(**values)
        litres = gives(values)
        best = SHAPE.drains[int(np.argmax(litres))].name
        if covered(values["water"] / 1000, values["nose"], values["wing"]):
            assert tilted.words.startswith("Water covers the outlet")
            assert tilted.verdict == STOP
        elif litres.max() < 1e-4:
            assert "all 4 samples look clean" in tilted.words
            assert tilted.verdict == STOP
        else:
            assert f"{best} drain gives {millilitres(litres.max())}" in tilted.words
            assert f"{sum(litres < 1e-4)} of 4 give clean fuel" in tilted.words
            assert tilted.verdict == NOTE
            in_climb = covered(values["water"] / 1000, FOUR.climb_nose_up_deg, 0.0)
            assert ("covers the outlet: the engine gets water" in tilted.more) == in_climb
        verdicts.add(tilted.verdict)
    assert verdicts == {STOP, NOTE}
    tilted.set(water=0, nose=0, wing=0)
    assert tilted.verdict == OK


@pytest.mark.parametrize(
    ("nose", "wing", "where"),
    [(0, 0, "inboard rear"), (-3, 0, "inboard front"), (0, 3, "outboard rear"), (-3, 3, "outboard front")],
)
def test_water_lies_in_the_corner_that_the_picture_shows(tilted, nose, wing, where):
    tilted.set(water=250, nose=nose, wing=wing)
    assert where in tilted.said
    grey, picture = np.asarray(tilted.image().convert("L")).astype(float), tilted.live.picture
    length, width = SHAPE.length_cm, SHAPE.width_cm
    shades = {}
    for corner in ("inboard rear", "inboard front", "outboard rear", "outboard front"):
        # From above, nose up the page and outboard to the left: a spot 4 cm by 8 cm into each corner.
        at = (0.5 if "inboard" in corner else -0.5) * (width - 16), (0.5 if "front" in corner else -0.5) * (length - 8)
        x, y = picture.above.transData.transform(at)
        shades[corner] = grey[grey.shape[0] - round(y), round(x)]
    assert min(shades, key=shades.get) == where
    assert sorted(shades.values())[0] < 100 < sorted(shades.values())[1]


def test_the_left_in_cupful_is_what_stops_the_engine(tilted):
    # What the lesson is about: a cupful that no drain catches lies below the outlet on the ground and above it in the climb.
    tilted.take_preset("nose low and wing low")
    assert "all 4 samples look clean" in tilted.words
    assert "in the climb, 8° nose up, and covers the outlet: the engine gets water" in tilted.more
    assert not covered(0.25, 0.0, 0.0)
    assert covered(0.25, 8.0, 0.0)


@pytest.mark.parametrize("tank", ["left tank", "right tank"])
def test_two_tanks_of_one_shape_are_shown_by_the_first_of_them(tilted, tank):
    told = "Morrowlark Four, left tank: tilt it and watch the water run (the right tank is its mirror image)"
    assert lesson.demo("morrowlark_four", tank).title == tilted.title == told
    assert "mirror" not in lesson.demo("tansy_two", "rear tank").title


def test_the_other_aircraft_and_its_tanks():
    for tank in ("wing tank", "rear tank"):
        made = lesson.demo("tansy_two", tank)
        for preset in made.presets:
            made.take_preset(preset)
            assert made.verdict in (NOTE, STOP)
    with pytest.raises(ValueError, match="tank 'nose tank' is not in"):
        lesson.demo("tansy_two", "nose tank")


def test_the_cautions_stand_at_the_top(tilted, night):
    for stage in (tilted, night):
        for word in ("aircraft's own handbook", "vapour burns", "no flame", "bond the aircraft", "skin"):
            assert word in stage.caution


def test_the_air_brings_drops_and_the_cap_litres(night):
    night.take_preset("one humid night, half empty, a tight cap")
    grams = float(fuel.condensed_water_g(fuel.capacity_l(SOLID) / 2, 28.0, 0.8, 14.0))
    assert millilitres(grams / 1000) in night.words
    assert night.verdict == NOTE
    assert "vent" in night.more
    assert "upper limit" not in night.more
    night.take_preset("a month of such nights, nearly empty")
    assert "upper limit" in night.more
    night.take_preset("one night of rain, a cracked seal")
    litres = float(fuel.leaked_l(12.0, 8.0, SHAPE.cap.catches_m2, 1.0, SHAPE.cap.standing_mm))
    assert millilitres(litres) in night.words
    assert f"about {float(f'{1000 * litres / grams:.2g}'):,.0f} times as much" in night.words
    assert 1000 * litres / grams > 1000
    assert night.verdict == STOP


def test_filling_up_helps_against_the_air_and_not_against_the_rain(night):
    night.take_preset("the same rain on a full tank")
    assert "there is no air above the fuel" in night.words
    assert night.verdict == STOP
    night.set(gap=0.0)
    assert night.verdict == OK


def test_even_a_month_of_humid_nights_is_less_than_one_night_of_rain(night):
    night.take_preset("a month of such nights, nearly empty")
    assert "too little to cover the outlet" in night.words
    grams = 30 * float(fuel.condensed_water_g(0.9 * fuel.capacity_l(SOLID), 28.0, 0.8, 14.0))
    litres = float(fuel.leaked_l(12.0, 8.0, SHAPE.cap.catches_m2, 1.0, SHAPE.cap.standing_mm))
    assert grams < 50 < 1000 * litres
    assert set(PRESETS) == set(night.presets)


def test_a_month_of_the_worst_nights_is_still_too_little(night):
    night.set(full=0, evening=40, humid=100, dawn=-10, nights=30, gap=0.0)
    assert "too little to cover the outlet" in night.words


def test_when_the_air_brings_more_it_is_named_first(night):
    night.set(full=0, evening=40, humid=100, dawn=0, nights=30, rain=1, gap=0.05)
    assert night.words.startswith("The air leaves")
    assert "in 30 nights" in night.words
