"""The stage: one redraw a change, errors as sentences, a still picture where nothing runs."""

import base64
import io

import ipywidgets as widgets
import numpy as np
import pytest
from PIL import Image
from walkaround.live.stage import Stage, Worked, choice, count, player, slider, switch
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


def stage(work=worked, picture=None):
    picture = picture or Dot()
    place = {"_h": "Where", "x": slider("place", "m", 0, 10, 5, 1)}
    controls = {**place, "on": switch("on"), "c": choice("kind", ["p", "q"])}

    def say(said):
        return OK if said[0] < 8 else STOP, f"The dot is at {said[0]} {said[1]}."

    return Stage("A dot", controls, picture, work, say, {"far": {"x": 9, "on": True}}, "Mind the dot."), picture


def pixels(made):
    return np.asarray(Image.open(io.BytesIO(made.image.value)).convert("RGB")).astype(int)


def test_a_change_is_drawn_once_and_said():
    made, picture = stage()
    before = pixels(made)
    assert picture.shown == [5]
    made.controls["x"].value = 6
    assert picture.shown == [5, 6]
    assert "The dot is at 6 m." in made.sentence.value
    assert "role='status'" in made.sentence.value
    assert np.abs(pixels(made) - before).sum() > 1000


def test_what_did_not_move_is_the_same_to_the_pixel():
    made, _ = stage()
    before = pixels(made)
    made.controls["x"].value = 6
    changed = np.abs(pixels(made) - before).any(axis=2)
    rows, columns = np.nonzero(changed)
    assert changed.mean() < 0.05
    # The axes' labels and frame lie outside of what moved.
    assert rows.max() < 150
    assert columns.min() > 30


def test_the_live_picture_is_what_the_whole_figure_would_be():
    made, picture = stage()
    made.controls["x"].value = 7
    live = pixels(made)
    for artist in picture.moving:
        artist.set_animated(False)
    picture.text.set_visible(False)  # letters are drawn by another library, a little differently
    picture.figure.canvas.draw()
    whole = np.asarray(picture.figure.canvas.buffer_rgba())[..., :3].astype(int)
    differs = np.abs(live - whole).max(axis=2) > 40
    assert differs.mean() < 0.02
    assert not differs[60:].any()


def test_a_preset_sets_several_controls_and_draws_once():
    made, picture = stage()
    made.preset.value = made.preset.options[1][1]
    assert picture.shown == [5, 9]
    assert made.controls["on"].value is True
    assert made.preset.value == ""
    assert made.verdict == STOP
    assert "✕" in made.sentence.value


def test_an_error_is_a_sentence_and_the_picture_stays():
    def work(values):
        if values["x"] > 8:
            raise ValueError("place is 9 m; allowed: up to 8 m")
        return worked(values)

    made, picture = stage(work)
    before = pixels(made)
    made.controls["x"].value = 9
    assert "place is 9 m; allowed: up to 8 m" in made.sentence.value
    paler = pixels(made)
    assert (paler >= before).all()
    assert paler.mean() > before.mean()
    made.controls["x"].value = 3
    assert picture.shown[-1] == 3


def test_larger_for_a_projector():
    made, _ = stage()
    small = pixels(made).shape
    made.larger.value = True
    assert pixels(made).shape[0] == pytest.approx(1.6 * small[0], abs=2)
    assert "170%" in made.sentence.value
    made.larger.value = False
    assert pixels(made).shape == small


def test_the_still_has_picture_and_sentence_and_the_text_is_the_sentence():
    made, _ = stage()
    bundle = made._repr_mimebundle_()
    assert bundle["text/plain"] == "The dot is at 5 m."
    still = Image.open(io.BytesIO(base64.b64decode(bundle["image/png"])))
    assert still.height > 200
    below = np.asarray(still.convert("L"))[205:]
    assert (below < 100).any()
    assert any("widget-view" in kind for kind in bundle)


def test_whole_steps_make_whole_numbers():
    assert isinstance(slider("a", "", 0, 10, 5, 1), widgets.IntSlider)
    fine = slider("a", "m", 0, 1, 0.5, 0.05)
    assert fine.readout_format == ".2f"
    assert fine.description == "a, m"


def test_a_note_is_neither_good_nor_bad():
    made = Stage("n", {"x": slider("x", "", 0, 9, 1, 1)}, Dot(), worked, lambda said: (NOTE, "So it is."))
    assert "dashed" in made.sentence.value


def test_a_widget_whose_name_begins_with_an_underscore_is_shown_and_not_watched():
    moment, picture = slider("moment", "s", 0, 9, 1, 1), Dot()
    play = player(moment, 2, 50)
    made = Stage("n", {"_play": play, "x": moment}, picture, worked, lambda said: (NOTE, "So it is."))
    assert list(made.values) == ["x"]
    assert play in made._column.children
    assert (play.min, play.max, play.step, play.interval, play.value) == (0, 9, 2, 50, 1)
    play.value = 5  # the browser moves the slider; here nothing is drawn for the play button itself
    assert picture.shown == [1]


def test_a_count_stays_within_its_bounds():
    votes = count("votes", high=30)
    votes.value = 31
    assert votes.value == 30


def dependent(as_shown=dict):
    """A stage on which "end" says how far "x" may go."""
    controls, picture = {"x": slider("x", "m", 0, 5, 1, 1), "end": slider("end", "m", 0, 9, 5, 1)}, Dot()

    def fit(values):
        controls["x"].max = values["end"]

    return Stage(
        "n", controls, picture, worked, lambda said: (NOTE, "So it is."), {"far": {"x": 8, "end": 9}}, "", fit, as_shown
    ), picture


def test_a_control_gets_its_ends_from_another_before_anything_is_drawn():
    made, picture = dependent()
    made.controls["x"].value = 4
    made.controls["end"].value = 3
    assert picture.shown == [1, 4, 3]


@pytest.mark.parametrize("names", [("x", "end"), ("end", "x")])
def test_values_set_together_have_room_whatever_their_order(names):
    made, picture = dependent()
    made.set(**{name: {"x": 8, "end": 9}[name] for name in names})
    assert made.values == {"x": 8, "end": 9}
    assert picture.shown == [1, 8]


def test_values_to_set_are_turned_into_what_the_controls_show():
    made, picture = dependent(lambda values: {name: value // 2 for name, value in values.items()})
    made.preset.value = made.preset.options[1][1]
    assert made.values == {"x": 4, "end": 4}
    made.set(x=6)
    assert picture.shown == [1, 4, 3]
