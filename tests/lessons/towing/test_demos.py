"""The demonstrations of towing say and show what is there, by routes of their own."""

import re
from itertools import product

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from scipy.integrate import solve_ivp
from walkaround import aircraft, measures
from walkaround.aircraft.airfield import airfield
from walkaround.lessons.towing import demos, force_demo, hangar_demo
from walkaround.lessons.towing.airframe import Airframe
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.towing import SURFACES

NAMES = aircraft.demo_names()
RAMP = airfield().ramp


@pytest.fixture(scope="module", params=NAMES)
def made(request):
    return demos.demo(request.param), Airframe(aircraft.demo(request.param))


def driven(frame, begin, angle, stop=None, steps=1500):
    """Poses (way, x, y, heading in radians) of the same tow by scipy: straight, a right turn to the east, straight in."""
    length = frame.wheelbase
    turn = np.radians(90) * length / np.sin(np.radians(angle))
    x, y = RAMP.waits_at

    def change(s, now):
        held = np.radians(angle) if begin < s <= begin + turn else 0.0
        return np.cos(held) * np.sin(now[2]), np.cos(held) * np.cos(now[2]), np.sin(held) / length

    end = stop or begin + turn + 120.0
    ways = np.linspace(0, end, steps)
    found = solve_ivp(change, (0, end), [x, y, 0.0], t_eval=ways, max_step=0.25, rtol=1e-7, atol=1e-7)
    return ways, *found.y


def gap(frame, x, y, heading, obstacle):
    """Distance of the outline at many poses from a rectangle, by points along both: an upper limit, close to it."""
    outline = np.array(frame.outline)
    fine = np.concatenate([np.linspace(a, b, 25) for a, b in zip(outline, np.roll(outline, -1, axis=0), strict=True)])
    ahead, right = fine.T
    sin, cos = np.sin(heading)[:, None], np.cos(heading)[:, None]
    px, py = x[:, None] + ahead * sin + right * cos, y[:, None] + ahead * cos - right * sin
    (west, east), (south, north) = obstacle.x, obstacle.y
    return np.hypot(px - np.clip(px, west, east), py - np.clip(py, south, north)).min(axis=1)


@pytest.mark.parametrize(("begin", "angle"), [(20, 28), (7, 13), (30, 30), (0, 30), (13, 20)])
def test_the_nearest_miss_is_that_of_scipys_path(made, begin, angle):
    stage, frame = made
    stage.set(begin=begin, angle=angle, moment=0)
    tow = demos.into_hangar(frame, RAMP, begin, angle)
    ways, *pose = driven(frame, begin, angle, stop=tow.length)
    gaps = {thing.name: gap(frame, *pose, thing) for thing in RAMP.everything}
    nearest = min(g.min() for g in gaps.values())
    if "touches" in stage.words:
        assert nearest < 0.2
        first = min(ways[np.argmax(g < 0.2)] for g in gaps.values() if g.min() < 0.2)
        assert float(re.search(r"([\d.]+) ft into the tow", stage.words)[1]) == pytest.approx(first, abs=2.0)
    else:
        said = float(re.search(r"at ([\d.]+) ft", stage.words)[1])
        assert said == pytest.approx(nearest, abs=0.15)
        (where,) = [name for name in gaps if name in stage.words]
        assert gaps[where].min() == pytest.approx(nearest, abs=0.05)


def test_a_sweep_verdict_words_and_picture_agree(made):
    stage, frame = made
    seen = set()
    for begin, angle in product(range(0, 41, 8), range(10, 61, 5)):
        stage.set(begin=begin, angle=angle, moment=0)
        near, picture = demos.into_hangar(frame, RAMP, begin, angle).nearest, stage.live.picture
        past = angle > frame.limit_deg
        expected = STOP if past or not near.feet else OK if near.feet >= RAMP.keep_clear else NOTE
        assert stage.verdict == expected, (begin, angle, stage.words)
        start = {True: "Past the marks", False: {OK: "It fits", NOTE: "Too near", STOP: "It touches"}[expected]}[past]
        assert stage.words.startswith(start)
        assert picture.near_is.get_text() == ("touches" if not near.feet else demos.feet(near.feet))
        (line,) = picture.gap.get_segments()
        assert float(np.hypot(*(line[0] - line[1]))) == pytest.approx(near.feet, abs=1e-6)
        seen.add((expected, past))
    assert {verdict for verdict, _ in seen} == {OK, NOTE, STOP}
    assert {past for _, past in seen} == {True, False}


def test_the_tow_plays_and_stops_where_it_touches(made):
    stage, frame = made

    def stands():
        return stage.live.picture.aircraft.get_paths()[0].vertices[: len(frame.outline)].copy()

    stage.set(begin=10, angle=30, moment=0)
    first = stands()
    x, y = RAMP.waits_at
    assert first[0] == pytest.approx((x + frame.corners[0].right, y + frame.nose))
    stage.set(moment=10)
    assert stands() == pytest.approx(first + np.array([0, 10]))
    stage.set(moment=demos.LONGEST_FT)
    last = stands()
    assert stage.words.startswith("It touches")
    stage.set(moment=demos.LONGEST_FT - 5)
    assert stands() == pytest.approx(last)


@pytest.mark.parametrize("name", NAMES)
def test_presets_are_what_they_are_called(name):
    stage, found = demos.demo(name), {}
    for preset in stage.presets:
        stage.take_preset(preset)
        found[preset] = stage.verdict, stage.words
    assert found["a good tow"][0] == found["a wide turn"][0] == OK
    assert found["the turn begun too early"][0] == STOP
    assert found["the turn begun too late"][0] in (STOP, NOTE)
    assert found["past the marks"][1].startswith("Past the marks")
    # A post is met by the wing's front edge, which begins at the tip and is not the tip.
    assert re.search(r"the left wing (meets|passes) the north post", found["the turn begun too late"][1])
    assert found["turned at once"][0] == STOP


def test_distances_beside_a_limit():
    frame = Airframe(aircraft.demo("morrowlark_four"))
    tow = demos.into_hangar(frame, RAMP, 20, 28)
    for feet, near in ((3.0, False), (np.nextafter(3.0, 0), False), (3.0 - 1e-5, True), (3.1, False)):
        tow._nears = [tow._nears[0]._replace(feet=feet)]
        assert demos.too_near(tow) is near
    limit = frame.limit_deg
    for angle, past in ((limit, False), (np.nextafter(limit, 90), False), (limit + 0.01, True)):
        tow.legs = [tow.legs[0]._replace(angle_deg=angle)]
        assert demos.past_marks(tow) is past


@pytest.mark.parametrize("name", NAMES)
def test_the_pull_that_is_said_is_the_pull_of_statics(name):
    stage, craft = force_demo.force(name), aircraft.demo(name)
    unit, scale = force_demo.force_unit(craft)
    limit = craft.towing.nose_leg_limit * scale
    where, seen = craft.dimensions, set()
    for slope, surface, brake in product((-8.0, -2.5, 0.0, 4.0, 8.0), SURFACES, (False, True)):
        stage.set(slope=slope, surface=surface.name, brake=brake)
        w, angle = stage.values["weight"] * scale, np.arctan(slope / 100)
        k, h = surface.locked if brake else surface.rolling, craft.dimensions.cg_height
        x, base = craft.empty.cg - where.nose_wheel, where.wheelbase
        # Pull, nose, mains: along, across, moments about the CG.
        pull, nose, _ = np.linalg.solve(
            [
                [1, -surface.rolling, -k],
                [0, 1, 1],
                [h - where.nose_wheel_radius, x - surface.rolling * h, -(base - x) - k * h],
            ],
            [w * np.sin(angle), w * np.cos(angle), 0],
        )
        said = float(re.search(r"([\d,]+) (?:lb|N)", stage.words)[1].replace(",", ""))
        assert said == pytest.approx(abs(pull), abs=5.01 if unit == "N" else 0.51)
        case = "too much" if pull > limit else "by itself" if pull < 0 else "moves"
        assert ("by itself" in stage.words) == (case == "by itself")
        assert (stage.verdict == STOP) == (case != "moves"), stage.words
        seen.add((case, brake))
        assert f"{force_demo.written(nose, unit)} under the nose wheel" in stage.said
        slopes, rolls, brakes = (path.get_extents() for path in stage.live.picture.bars.get_paths())
        # Bars without gaps; to the left of 0 what pushes along; the diamond at their sum.
        assert (slopes.x1, rolls.x1) == pytest.approx((rolls.x0, brakes.x0))
        assert min(slopes.x0, 0) == pytest.approx(min(w * np.sin(angle), 0))
        assert brakes.x1 + min(slopes.x0, 0) == pytest.approx(pull, abs=1e-6)
        assert stage.live.picture.net.get_xdata()[0] == pytest.approx(pull)
    assert {("too much", True), ("by itself", False), ("moves", False), ("moves", True)} <= seen


@pytest.mark.parametrize("name", NAMES)
def test_where_the_slope_just_does_not_move_it_no_last_bit_decides(name):
    stage = force_demo.force(name)
    low, high = stage.controls["weight"].min, stage.controls["weight"].max
    for weight in range(low, high, 60):
        stage.set(slope=-2.0, weight=weight)
        assert stage.words.startswith("It just stands"), weight
    stage.set(slope=-2.5)
    assert stage.words.startswith("It rolls off by itself")
    stage.set(slope=-1.5)
    assert stage.words.startswith("It takes")


def test_force_presets_are_what_they_are_called():
    stage, found = force_demo.force(), {}
    for preset in stage.presets:
        stage.take_preset(preset)
        found[preset] = stage.verdict, stage.words
    assert found["level tarmac, brake off"][0] == OK
    assert "it breaks first" in found["level tarmac, brake on"][1]
    assert found["brake on, on ice"][0] == NOTE
    assert found["up a slope of 4 %"][0] == NOTE
    assert found["down a slope of 4 %"][1].startswith("It rolls off by itself")


def play(game, *legs):
    """Steer: each leg is an angle and where the nose wheel has rolled to at its end."""
    game.set(angle=0, towed=0)
    for angle, to in legs:
        game.set(angle=angle)
        game.set(towed=to)


def hangar_y(game):
    """How far north the end of the nose is, off the picture; the aircraft points to the east."""
    return game.live.picture.aircraft.get_paths()[0].vertices[[0, -2], 1].mean()


def solved(game, frame, round_number):
    """Legs of a drive that gets in, found by trying: a turn, straight on, another turn, straight in."""
    pose = hangar_demo.start(frame, RAMP, round_number)
    for angle in (25, 20, 15, 10):
        turn = int(np.radians(90 - pose.heading_deg) * frame.wheelbase / np.sin(np.radians(angle)))
        for first in range(0, 26, 2):
            legs = [(0, first), (angle, first + turn), (0, first + turn + 200)]
            tow = hangar_demo.Tow(frame, RAMP, pose)
            for (held, to), (_, before) in zip(legs, [(0, 0), *legs], strict=False):
                tow.add(held, float(to - before))
            if tow.nearest.obstacle == "the rear wall":
                return [*legs[:2], (0, int(tow.nearest.towed) - 5)]
    return None


@pytest.mark.parametrize("name", NAMES)
def test_the_game_can_be_won_and_gives_its_mark(name):
    game, frame = hangar_demo.hangar(name), Airframe(aircraft.demo(name))
    legs = solved(game, frame, 1)
    play(game, *legs)
    assert game.verdict in (OK, NOTE)
    total = int(re.match(r"In the hangar: (\d+) of 10", game.words)[1])
    four, near, straight, middle = (
        int(n) for n in re.search(r"time (\d), (\d) of 3, (\d) of 2 and (\d) of 1", game.said).groups()
    )
    assert total == four + near + straight + middle
    assert (four, straight) == (4, 2)
    assert middle == (abs(hangar_y(game) - sum(RAMP.hangar_y) / 2) <= 3)
    feet = float(re.search(r"nearest miss was ([\d.]+) ft", game.words)[1])
    assert near == min(3, int(feet))
    # Pushed back along its own track and in again, it stands where it stood.
    words = game.words
    game.set(towed=legs[-1][1] - 6)
    game.set(towed=legs[-1][1])
    assert game.words == words


def test_in_the_game_touching_and_passing_the_marks_cost_everything():
    game = hangar_demo.hangar()
    play(game, (0, 60))
    assert (game.verdict, "0 of 10" in game.words) == (STOP, True)
    stuck = game.pixels.copy()
    game.set(towed=80)
    assert (game.pixels == stuck).all()
    back = float(re.match(r"Move towed back to less than (\d+) ft", game.more)[1])
    game.set(towed=back)  # what it touches is reached there, rounded to whole feet
    game.set(towed=back - 1)
    assert game.verdict == NOTE
    play(game, (45, 3))
    assert game.words.startswith("Past the marks: the nose wheel was turned 45°")
    game.set(towed=0)
    assert game.verdict == STOP
    assert "past its marks" in game.more
    game.set(angle=0)
    assert game.verdict == NOTE


@pytest.mark.parametrize("name", NAMES)
def test_no_name_is_hidden_by_the_aircraft_that_waits(name):
    picture = demos.demo(name).live.picture
    renderer = FigureCanvasAgg(picture.figure).get_renderer()
    to_pixels = picture.aircraft.axes.transData
    shapes = [to_pixels.transform_path(path) for path in picture.aircraft.get_paths()]
    for text in picture.names:
        box = text.get_window_extent(renderer).padded(5)
        assert not any(shape.intersects_bbox(box) for shape in shapes), text.get_text()


def test_the_pull_is_named_clear_of_the_propeller():
    stage = force_demo.force()
    picture = stage.live.picture
    renderer = FigureCanvasAgg(picture.figure).get_renderer()
    for setting in ({"slope": -8}, {"slope": 8}, {"slope": 0, "brake": True}):
        stage.set(**setting)
        named = picture.words[0].get_window_extent(renderer)
        path = picture.body.axes.transData.transform_path(picture.body.get_paths()[-1])
        assert named.x0 > path.vertices[:, 0].max(), setting


def test_pushed_back_it_stands_where_it_stood_and_a_round_is_another_start():
    game = hangar_demo.hangar()
    picture = game.live.picture

    def stands():
        return picture.aircraft.get_paths()[0].vertices.copy()

    play(game, (10, 4))
    early = stands()
    play(game, (10, 4), (-20, 9))
    game.set(towed=4)
    assert stands() == pytest.approx(early, abs=1e-9)
    game.set(towed=0)
    first = stands()
    game.set(round=2)
    assert not np.allclose(stands(), first)
    game.set(round=1)
    assert stands() == pytest.approx(first)


def test_a_step_that_was_worked_out_ahead_and_not_taken_leaves_nothing_behind():
    ahead, plain = hangar_demo.hangar(), hangar_demo.hangar()
    for game in (ahead, plain):
        game.send = lambda content, buffers=None: None
    hand = [("towed", 3, 4), ("towed", 4, 5), ("angle", 25, 30), ("towed", 5, 6), ("towed", 4, 3), ("angle", -10, -15)]
    for name, value, then in [*hand, ("towed", 6, 7), ("towed", 7, 8), ("angle", 20, 25), ("towed", 9, 10)]:
        ahead._take(ahead, {"set": {name: value}, "next": {name: then}}, [])
        plain._take(plain, {"set": {name: value}}, [])
        assert ahead.said == plain.said
        assert np.array_equal(ahead.pixels, plain.pixels)


@pytest.mark.parametrize("name", NAMES)
def test_rounds_begin_clear_of_everything_and_pointing_to_the_ramp(name):
    frame = Airframe(aircraft.demo(name))
    starts = {hangar_demo.start(frame, RAMP, n) for n in range(1, 13)}
    assert len(starts) > 8
    for pose in starts:
        assert hangar_demo.Tow(frame, RAMP, pose).nearest.feet >= hangar_demo.STARTS_CLEAR_FT
        assert hangar_demo.start(frame, RAMP, 1) in starts


def test_an_aircraft_without_the_sections_is_told_so(tmp_path):
    text = (aircraft.DEMO_FOLDER / "tansy_two.toml").read_text(encoding="utf-8")
    path = tmp_path / "own.toml"
    path.write_text(re.sub(r"\[towing\][^\[]*", "", text), encoding="utf-8")
    for make in (demos.demo, force_demo.force, hangar_demo.hangar):
        with pytest.raises(ValueError, match=r"no section \[towing\]; this needs it"):
            make(path)


@pytest.mark.parametrize("name", NAMES)
def test_the_outline_is_the_aircraft_of_its_file(name):
    craft = aircraft.demo(name)
    here, frame = craft.dimensions.metres(craft.units), Airframe(craft)
    ahead, right = (np.array(side) * 0.3048 for side in zip(*frame.outline, strict=True))
    assert np.ptp(ahead) == pytest.approx(here.tail - here.nose)
    assert np.ptp(right) == pytest.approx(here.span)
    assert sorted(zip(ahead.round(6), right.round(6), strict=True)) == sorted(
        zip(ahead.round(6), (-right).round(6), strict=True)
    )
    for corner in frame.corners:
        assert corner.part.startswith("the")
        if "right" in corner.part:
            assert corner.right > 0
        if "left" in corner.part:
            assert corner.right < 0


def in_both(build, *args):
    """A demonstration in US and in metric units."""
    for system in measures.SYSTEMS:
        with measures.shown_in(system):
            yield build(*args)


@pytest.mark.parametrize("name", NAMES)
def test_in_metric_units_it_is_the_same_tow(name):
    frame = Airframe(aircraft.demo(name))
    us, metric = in_both(demos.demo, name)
    seen = set()
    for begin, angle in product((0, 7, 14, 21, 28), (13, 20, 28, 41)):
        us.set(begin=begin, angle=angle)
        metric.set(begin=0.3048 * begin, angle=angle)
        near = demos.into_hangar(frame, RAMP, begin, angle).nearest.feet
        if near == 0 or min(near, abs(near - RAMP.keep_clear)) > 0.1:
            assert metric.verdict == us.verdict, (begin, angle, us.words, metric.words)
            seen.add(us.verdict)
        (said,) = re.findall(r"(?:at ([\d.]+) m\b|[\d.]+ m into)", metric.words)[:1] or [""]
        if said:
            assert float(said) == pytest.approx(0.3048 * near, abs=0.08)
    assert seen >= {OK, STOP}


@pytest.mark.parametrize("name", NAMES)
def test_in_metric_units_it_is_the_same_pull(name):
    us, metric = in_both(force_demo.force, name)
    for slope, surface, brake in product((-8.0, -2.5, 4.0, 8.0), ("dry tarmac", "soft ground", "ice"), (False, True)):
        us.set(slope=slope, surface=surface, brake=brake)
        metric.set(slope=slope, surface=surface, brake=brake, weight=0.45359237 * us.values["weight"])
        pull = float(us.live.picture.net.get_xdata()[0])
        assert metric.verdict == us.verdict, (us.words, metric.words)
        # N in a pound: NIST SP 811; the weights are whole kilograms.
        assert float(metric.live.picture.net.get_xdata()[0]) == pytest.approx(4.448222 * pull, rel=0.002, abs=5.0)


def test_a_tow_goes_on_where_it_stands_when_other_units_are_chosen():
    game = hangar_demo.hangar()

    def stands():
        return game.live.picture.aircraft.get_paths()[0].vertices.copy()

    game.set(round=2)
    play(game, (20, 12), (-15, 30))
    there = stands()
    for system in (measures.METRIC, measures.US, measures.METRIC):
        game.show_units(system)
        assert (game.values["round"], game.values["angle"]) == (2, -15)
        assert stands() == pytest.approx(there, abs=0.7)  # a step of the slider
    assert game.values["towed"] == pytest.approx(9.2, abs=0.3)
    # It turns on from there, and another round begins anew.
    before = stands()
    game.set(towed=9.4)
    assert 0 < np.abs(stands() - before).max() < 2.0
    game.set(round=3)
    assert (game.values["angle"], game.values["towed"]) == (0, 0)
    game.set(round=2)
    assert not np.allclose(stands(), before)


def test_marks_are_given_for_the_metres_that_are_told():
    frame = Airframe(aircraft.demo("morrowlark_four"))
    tow = hangar_demo.Tow(frame, RAMP, hangar_demo.Pose(RAMP.inside_x[0] + 25, 48.0, 90.0))
    assert hangar_demo.inside(tow)
    for metres, in_feet, in_metres in ((0.31, 1, 1), (0.302, 0, 1), (0.605, 1, 2), (0.95, 3, 3), (0.29, 0, 0)):
        tow._nears = [tow.nearest._replace(feet=metres / 0.3048)]
        assert hangar_demo.marks(tow)[1] == in_feet
        with measures.shown_in(measures.METRIC):
            assert hangar_demo.marks(tow)[1] == in_metres
