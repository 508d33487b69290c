"""The stage: one redraw a change, errors as sentences, a still picture where nothing runs, and what goes to a screen."""

import base64
import io
import json

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from walkaround.live.controls import choice, player, slider, switch
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.style import new_figure


class Dot:
    """A picture with one moving dot."""

    def __init__(self):
        self.figure = new_figure(300, 200)
        axes = self.figure.subplots()
        axes.set_xlim(0, 10)
        axes.set_ylim(0, 10)
        self.dot = axes.plot([5], [5], "o", markersize=20, color="red")[0]
        self.text = axes.text(1, 9, "", va="top")
        self.moving = [self.dot, self.text]
        self.shown = []

    def show(self, result):
        self.shown.append(result)
        self.dot.set_data([result], [5])
        self.text.set_text(f"at {result}")


def worked(values):
    """The picture takes the number, the sentence the number and its unit: each gets its own."""
    return Worked(values["x"], (values["x"], "m"))


def say(said):
    return OK if said[0] < 8 else STOP, f"The dot is at {said[0]} {said[1]}.", "It is red."


def stage(work=worked, picture=None):
    picture = picture or Dot()
    controls = {
        "_h": "Where",
        "x": slider("place", "m", 0, 10, 5, 1),
        "on": switch("on"),
        "c": choice("kind", ["p", "q"]),
    }
    made = Stage("A dot", controls, picture, work, say, {"far": {"x": 9, "on": True}}, "Mind the dot.")
    made.sent = []
    made.send = lambda content, buffers=None: made.sent.append((content, buffers or []))
    return made, picture


def pixels(made):
    return made.pixels[:, :, :3].astype(int)


def hand(made, **content):
    """What a screen sends."""
    made._take(made, content, [])


def test_a_change_is_drawn_once_and_said():
    made, picture = stage()
    before = pixels(made)
    assert picture.shown == [5]
    made.controls["x"].value = 6
    assert picture.shown == [5, 6]
    assert made.words == "The dot is at 6 m."
    assert np.abs(pixels(made) - before).sum() > 1000


def test_what_more_there_is_fills_the_second_line_and_then_the_details():
    made, _ = stage()
    made._say_now(OK, "So it is.", "a" * 100, "", "b" * 100, "c" * 30, "d")
    assert (made.more, made.details) == (f"{'a' * 100} {'b' * 100}", f"{'c' * 30} d")
    assert made.said == f"So it is. {'a' * 100} {'b' * 100} {'c' * 30} d"
    made._say_now(OK, "So it is.", "e" * 300)
    assert (made.more, made.details) == ("e" * 300, "")


def test_what_did_not_move_is_the_same_to_the_pixel():
    made, _ = stage()
    before = pixels(made)
    made.controls["x"].value = 6
    differs = (pixels(made) != before).any(axis=2)
    assert differs.any()
    assert not differs[:, :40].any()


def test_a_screen_gets_only_what_it_lacks():
    made, _ = stage()
    hand(made, all=True)
    first, buffers = made.sent[-1]
    assert first["bands"] == [(0, 0, 300, 200)]
    assert len(buffers) == 1
    assert first["page"]["title"] == "A dot"
    hand(made, set={"x": 6})
    second, buffers = made.sent[-1]
    assert 0 < sum(width * height for _, _, width, height in second["bands"]) < 300 * 200 / 3
    assert "page" not in second
    assert (second["values"]["x"], second["words"], second["verdict"]) == (6, "The dot is at 6 m.", OK)
    hand(made, set={"x": 6})
    assert made.sent[-1][1] == []
    json.dumps([content for content, _ in made.sent])


class Screen:
    """What stage.js does with the messages, in Python, and a count of the forecasts that came true.

    `away` has the messages whose answers have not come, `posted` those that the kernel has not taken, `shows` the
    number of a forecast that is shown before it is confirmed.
    """

    def __init__(self, made):
        self.pixels, self.forecasts, self.came, self.taken = np.zeros((200, 300, 4), np.uint8), [], 0, 0
        self.made, self.away, self.posted, self.shows = made, [], [], None
        hand(made, all=True)
        self.take()

    def paint(self, content, buffers):
        for (left, top, width, height), data in zip(content["bands"], buffers, strict=True):
            colours, lengths = np.frombuffer(data, np.uint32).reshape(2, -1)
            pixels = np.repeat(colours, lengths).view(np.uint8).reshape(height, width, 4)
            self.pixels[top : top + height, left : left + width] = pixels

    def take(self):
        """Take all that has been sent: then it shows what is so, or a forecast, or has asked for everything."""
        while self.taken < len(self.made.sent):
            content, buffers = self.made.sent[self.taken]
            self.taken += 1
            own = len(content.get("bands", ()))
            if "values" in content:
                self.take_answer(content, buffers[:own])
            for ahead in content.get("ahead", ()):
                self.forecasts.append((ahead, buffers[own : (own := own + len(ahead["bands"]))]))
            if "ahead" in content and self.away:
                self.show(**self.away[0].get("set", {}))
        if self.shows is None and {"all": True} not in self.posted:
            assert np.array_equal(self.pixels, self.made.pixels)

    def take_answer(self, content, buffers):
        came = content.get("came")
        self.came += came is not None
        ahead = next((f for f in self.forecasts if f[0]["forecast"] == came), None)
        self.forecasts, shows, self.shows = [], self.shows, None
        if ahead:
            self.paint(*ahead)
        elif came != shows:
            self.post({"all": True})
        self.paint(content, buffers)
        del self.away[:1]

    def post(self, content):
        self.away.append(content)
        self.posted.append(content)

    def kernel_takes(self, messages):
        for content in self.posted[:messages]:
            hand(self.made, **content)
        del self.posted[:messages]

    def show(self, **asked):
        """Show at once what was sent ahead for some values, if there is such a thing; its number."""
        found = next((f for f in self.forecasts if f[0]["asked"] == asked), None)
        if found:
            self.paint(*found)
            self.forecasts, self.shows = [], found[0]["forecast"]
        return self.shows


def test_what_comes_next_is_worked_out_ahead_and_nothing_else_changes():
    made, picture = stage()
    screen = Screen(made)
    hand(made, set={"x": 6}, next={"x": 7})
    screen.take()
    assert (made.values["x"], made.words, picture.shown[-1]) == (6, "The dot is at 6 m.", 7)
    hand(made, set={"x": 7}, next={"x": 8})
    screen.take()
    assert (made.words, made.verdict, picture.shown) == ("The dot is at 7 m.", OK, [5, 6, 7, 8])
    assert [content["bands"] for content, _ in made.sent if "came" in content] == [[]]
    hand(made, set={"x": 8})
    screen.take()
    assert (made.words, made.verdict, screen.came) == ("The dot is at 8 m.", STOP, 2)
    afresh, _ = stage()
    afresh.set(x=8)
    assert np.array_equal(made.pixels, afresh.pixels)


def test_a_hand_that_does_something_else_gets_what_it_asks():
    made, _ = stage()
    screen = Screen(made)
    for content in (
        {"set": {"x": 6}, "next": {"x": 7}},
        {"set": {"x": 5}, "next": {"x": 4}},
        {"set": {"x": 4, "on": True}, "next": {"x": 3}},
        {"set": {"on": False}},
        {"set": {"x": 3}, "next": {"x": 2}},
        {"preset": 0},
        {"set": {"x": 2}, "next": {"x": 1}},
        {"set": {"x": 0}},
    ):
        hand(made, **content)
        screen.take()
    made.controls["x"].value = 6
    screen.take()
    assert screen.came == 1  # the step back, from 6 to 5
    assert made.values["x"] == 6


def test_a_forecast_on_the_screen_that_is_no_longer_so_gives_way_to_the_whole_picture():
    made, _ = stage()
    screen = Screen(made)
    hand(made, set={"x": 6}, next={"x": 7})
    screen.take()
    shows = screen.show(x=7)
    made.set(on=True)  # by a line of Python, while the hand goes on
    hand(made, set={"x": 7}, shows=shows)
    assert made.sent[-1][0]["bands"] == [(0, 0, 300, 200)]
    screen.taken = len(made.sent) - 1
    screen.take()
    hand(made, set={"x": 8}, next={"x": 9})
    screen.take()
    shows = screen.show(x=9)
    hand(made, set={"x": 9}, shows=shows)
    screen.take()
    assert screen.came == 1


def test_a_turn_back_is_on_the_screen_at_once_and_costs_no_pixels():
    made, picture = stage()
    screen = Screen(made)
    hand(made, set={"x": 6}, next={"x": 7})
    screen.take()
    shows = screen.show(x=5)
    hand(made, set={"x": 5}, next={"x": 4}, shows=shows)
    screen.take()
    assert (made.words, picture.shown) == ("The dot is at 5 m.", [5, 6, 7, 5, 4])
    shows = screen.show(x=6)
    answer = len(made.sent)
    hand(made, set={"x": 6}, shows=shows)
    screen.take()
    assert (made.words, made.sent[answer][1], screen.came) == ("The dot is at 6 m.", [], 2)


def test_a_turn_back_shows_what_is_so_where_it_depends_on_how_the_hand_came_there():
    been = []
    made, _ = stage(lambda v: worked({"x": v["x"] if v["x"] > 5 or not been else 0}))
    screen = Screen(made)
    hand(made, set={"x": 6}, next={"x": 7})
    been.append(6)
    screen.take()
    shows = screen.show(x=5)
    hand(made, set={"x": 5}, next={"x": 4}, shows=shows)
    screen.take()
    assert made.words == "The dot is at 0 m."


def test_a_forecast_on_the_screen_is_not_taken_for_a_later_one_that_asks_for_the_same():
    made, _ = stage(lambda v: worked({"x": 10 - v["x"] if v["on"] else v["x"]}))
    screen = Screen(made)
    hand(made, set={"x": 6}, next={"x": 7})
    screen.take()
    shows = screen.show(x=7)
    hand(made, set={"on": True})  # on another screen, while the hand goes on here
    hand(made, set={"x": 6}, next={"x": 7})
    hand(made, set={"x": 7}, shows=shows)
    screen.take()


def test_a_forecast_that_is_shown_when_it_comes_and_is_no_longer_so_gives_way_too():
    made, _ = stage(lambda v: worked({"x": 10 - v["x"] if v["on"] else v["x"]}))
    screen = Screen(made)
    screen.take()
    screen.post({"set": {"x": 6}, "next": {"x": 7}})
    screen.post({"set": {"x": 7}})
    screen.kernel_takes(1)
    screen.take()
    assert screen.shows
    made.set(on=True)  # by a line of Python, before the kernel hears of the second step
    screen.take()
    screen.kernel_takes(2)
    screen.take()
    assert (made.words, screen.shows) == ("The dot is at 3 m.", None)


WAYS = st.sampled_from(["on", "on", "on", "back", "switch", "python"])
STEPS = st.tuples(WAYS, st.booleans(), st.integers(0, 3), st.booleans())


@given(st.lists(STEPS, max_size=25))
@settings(max_examples=100, deadline=None)
def test_whatever_a_hand_does_the_screen_ends_with_what_is_so(steps):
    def mirrored(v):
        return worked({"x": 10 - v["x"] if v["on"] else v["x"]})

    made, _ = stage(mirrored)
    screen = Screen(made)
    x, way = 5, 1
    for what, asks, messages, takes in steps:
        if what == "python":
            made.set(on=asks)
        elif what == "switch":
            screen.post({"set": {"on": asks}})
        else:
            way *= -1 if what == "back" or not 0 <= x + way <= 10 else 1
            x += way
            content = {"set": {"x": x}}
            if asks and len(screen.away) < 2 and 0 <= x + way <= 10:
                content["next"] = {"x": x + way}
            if not screen.away and screen.show(x=x) is not None:
                content["shows"] = screen.shows
            screen.post(content)
        screen.kernel_takes(messages)
        if takes:
            screen.take()
    for _ in range(3):
        screen.kernel_takes(len(screen.posted))
        screen.take()
    assert (screen.shows, screen.posted) == (None, [])
    afresh, _ = stage(mirrored)
    afresh.set(**made.values)
    assert np.array_equal(screen.pixels, afresh.pixels)
    assert made.values["x"] == x


def test_a_picture_that_fails_ahead_leaves_the_controls_as_they_are():
    made, picture = stage()
    show = picture.show
    picture.show = lambda x: show([5, 6][x - 5])
    screen = Screen(made)
    with pytest.raises(IndexError):
        hand(made, set={"x": 6}, next={"x": 7})
    screen.take()
    assert (made.values["x"], made.words) == (6, "The dot is at 6 m.")
    hand(made, set={"x": 5})
    screen.take()


def test_an_error_ahead_is_said_only_when_it_comes():
    made, _ = stage()
    screen = Screen(made)

    def work(v):
        if v["x"] == 7:
            raise ValueError("there is no place 7")
        return worked(v)

    made._work = work
    hand(made, set={"x": 6}, next={"x": 7})
    screen.take()
    assert made.verdict == OK
    hand(made, set={"x": 7}, next={"x": 8})
    screen.take()
    assert (made.verdict, made.words) == (STOP, "This can't be worked out: there is no place 7.")
    hand(made, set={"x": 8}, next={"x": 9})
    screen.take()
    assert (made.words, screen.came) == ("The dot is at 8 m.", 2)


def test_a_step_that_gives_a_control_other_ends_is_taken_ahead_with_them():
    made, _ = stage()

    def fit(v):
        made.controls["x"].set_ends(0, 10 if v["x"] < 7 else 8, v["x"])

    def longest(content):
        return dict(content["page"]["controls"])["x"]["max"]

    made._fit = fit
    screen = Screen(made)
    made.refresh()
    hand(made, set={"x": 6}, next={"x": 7})
    screen.take()
    ahead, back = (content for content, _ in screen.forecasts)
    assert (longest(ahead), "page" in back, made.controls["x"].max) == (8, False, 10)
    hand(made, set={"x": 7}, next={"x": 8}, shows=screen.show(x=7))
    screen.take()
    assert (made.values["x"], made.controls["x"].max, screen.came) == (7, 8, 1)
    ahead, back = (content for content, _ in screen.forecasts)
    assert ("page" in ahead, longest(back)) == (False, 10)
    hand(made, set={"x": 6}, shows=screen.show(x=6))
    assert (made.controls["x"].max, "page" in made.sent[-1][0]) == (10, False)


def test_a_screen_may_send_several_values_and_they_are_drawn_once():
    made, picture = stage()
    hand(made, set={"x": 9, "on": True, "c": 1, "unknown": 3})
    assert made.values == {"x": 9, "on": True, "c": "q"}
    assert picture.shown == [5, 9]


def test_a_preset_sets_several_controls_and_draws_once():
    made, picture = stage()
    hand(made, preset=0)
    assert picture.shown == [5, 9]
    assert made.controls["on"].value is True
    assert made.verdict == STOP


def test_an_error_is_a_sentence_and_the_picture_stays():
    def work(values):
        if values["x"] > 8:
            raise ValueError("place is 9 m; allowed: up to 8 m")
        return worked(values)

    made, picture = stage(work)
    before = pixels(made)
    made.controls["x"].value = 9
    assert "place is 9 m; allowed: up to 8 m" in made.words
    assert (made.verdict, made.more) == (STOP, "")
    paler = pixels(made)
    assert (paler >= before).all()
    assert paler.mean() > before.mean()
    made.controls["x"].value = 3
    assert picture.shown[-1] == 3
    assert made.verdict == OK


def test_a_fault_of_the_workbook_is_a_sentence_too_and_the_controls_go_on():
    made, _ = stage(lambda v: worked({"x": [5, 6, 7, 8][v["x"] - 5]}))
    hand(made, set={"x": 9})
    assert made.words == "This can't be worked out, by a fault of the workbook (IndexError): list index out of range."
    assert made.sent[-1][0]["verdict"] == STOP
    hand(made, set={"x": 6})
    assert made.words == "The dot is at 6 m."


def test_controls_may_follow_others_before_anything_is_worked_out():
    x, y, picture = slider("x", "", 1, 9, 4, 1), slider("y", "", 0, 8, 8, 1), Dot()

    def fit(values):
        y.set_ends(0, 2 * values["x"], values["y"])

    made = Stage("n", {"x": x, "y": y}, picture, lambda v: Worked(v["y"], 0), lambda said: (NOTE, "So it is."), fit=fit)
    made.set(x=2)
    assert (y.max, y.value) == (4, 4)
    assert picture.shown == [8, 4]


def test_a_larger_picture_is_drawn_larger():
    made, _ = stage()
    small = pixels(made).shape
    hand(made, scale=1.6)
    assert pixels(made).shape[0] == pytest.approx(1.6 * small[0], abs=2)
    assert made.sent[-1][0]["size"] == [480, 320]
    hand(made, scale=1)
    assert pixels(made).shape == small


def test_the_still_has_picture_and_sentence_and_the_text_is_the_sentence():
    made, _ = stage()
    bundle, _ = made._repr_mimebundle_()
    assert bundle["text/plain"] == "The dot is at 5 m. It is red."
    still = Image.open(io.BytesIO(base64.b64decode(bundle["image/png"])))
    assert still.height > 200
    below = np.asarray(still.convert("L"))[205:]
    assert (below < 100).any()
    assert any("widget-view" in kind for kind in bundle)


def test_a_page_that_opens_now_gets_the_state_of_now():
    made, _ = stage()
    hand(made, set={"x": 7})
    state = made.get_state()
    assert state["now"]["values"]["x"] == 7
    assert state["now"]["words"] == "The dot is at 7 m."
    kinds = [control["kind"] for _, control in state["page"]["controls"]]
    assert kinds == ["heading", "slider", "switch", "choice"]


def test_a_stage_begins_with_the_picture_that_stands_where_nothing_runs():
    made, _ = stage()
    told = []
    made.send_state = told.append
    data, _ = made._repr_mimebundle_()
    assert told == ["now"]
    assert made.get_state("now")["now"]["picture"] == f"data:image/png;base64,{data['image/png']}"
    made.set(x=6)
    assert made.get_state("now")["now"]["picture"] == ""


def test_a_control_whose_name_begins_with_an_underscore_is_shown_and_not_watched():
    moment, picture = slider("moment", "s", 0, 9, 1, 1), Dot()
    play = player(moment, 2, 50)
    made = Stage("n", {"_play": play, "x": moment}, picture, worked, lambda said: (NOTE, "So it is."))
    assert list(made.values) == ["x"]
    rows = dict(made.get_state()["page"]["controls"])
    assert rows["_play"]["moves"] == "x"
    assert rows["_play"]["step"] == 2
