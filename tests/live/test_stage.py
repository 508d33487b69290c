"""The stage: one redraw a change, errors as sentences, a still picture where nothing runs, and what goes to a screen."""

import base64
import io
import json

import numpy as np
import pytest
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
    assert len(buffers[0]) == 300 * 200 * 4
    assert first["page"]["title"] == "A dot"
    hand(made, set={"x": 6})
    second, buffers = made.sent[-1]
    assert 0 < sum(map(len, buffers)) < 300 * 200 * 4 / 3
    assert "page" not in second
    assert (second["values"]["x"], second["words"], second["verdict"]) == (6, "The dot is at 6 m.", OK)
    hand(made, set={"x": 6})
    assert made.sent[-1][1] == []
    json.dumps([content for content, _ in made.sent])


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


def test_a_control_whose_name_begins_with_an_underscore_is_shown_and_not_watched():
    moment, picture = slider("moment", "s", 0, 9, 1, 1), Dot()
    play = player(moment, 2, 50)
    made = Stage("n", {"_play": play, "x": moment}, picture, worked, lambda said: (NOTE, "So it is."))
    assert list(made.values) == ["x"]
    rows = dict(made.get_state()["page"]["controls"])
    assert rows["_play"]["moves"] == "x"
    assert rows["_play"]["step"] == 2
