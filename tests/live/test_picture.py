"""A live picture: what is kept as pixels is never stale, and its letters are Pillow's."""

import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from walkaround.live import picture as live
from walkaround.live.picture import LivePicture, small_png
from walkaround.live.style import new_figure


class Layers:
    """Three lines that lie over each other and a text; `show` moves those that it is told to."""

    def __init__(self):
        self.figure = new_figure(200, 120)
        axes = self.figure.add_axes((0, 0, 1, 1))
        axes.set(xlim=(0, 10), ylim=(0, 10))
        self.lines = [axes.plot([0, 10], [5, 5], color=c, linewidth=9)[0] for c in ("red", "green", "blue")]
        self.words = axes.text(5, 5, "here", bbox={"facecolor": "white"})
        self.moving = [*self.lines, self.words]
        self.places = [5, 5, 5, 5]

    def show(self, result):
        for i, place in result.items():
            self.places[i] = place
            if i < 3:
                self.lines[i].set_ydata([0, place])
            else:
                self.words.set_position((place, 5))


@settings(max_examples=15, deadline=None)
@given(st.lists(st.dictionaries(st.integers(0, 3), st.integers(0, 10)), min_size=1, max_size=8))
def test_whatever_moves_the_picture_is_that_of_a_fresh_one(moves):
    used, all_moves = LivePicture(Layers()), {}
    for move in moves:
        all_moves |= move
        fresh = LivePicture(Layers())
        assert np.array_equal(used.draw(move), fresh.draw(all_moves))


def test_artists_that_take_each_others_place_are_drawn():
    used = LivePicture(Layers())
    for there in ([0, 1, 3], [0, 1, 3], [0, 2, 3], [0, 2, 3], [0, 2], [0, 2, 3], [0, 1, 2, 3], [0, 1, 2, 3], [1]):
        fresh = LivePicture(Layers())
        for layers in (used.picture, fresh.picture):
            layers.moving = [[*layers.lines, layers.words][i] for i in there]
        assert np.array_equal(used.draw({}), fresh.draw({})), there


def test_what_comes_before_the_first_that_moved_is_not_drawn_again(monkeypatch):
    used, drawn = LivePicture(Layers()), []
    draw = LivePicture._draw
    monkeypatch.setattr(LivePicture, "_draw", lambda self, artist: (drawn.append(artist), draw(self, artist)))
    used.draw({0: 1, 1: 2, 2: 3, 3: 4})
    used.draw({2: 4})  # from here on the first two are kept
    drawn.clear()
    used.draw({2: 6})
    assert drawn == used.picture.moving[2:]
    drawn.clear()
    used.draw({0: 6})
    assert drawn == used.picture.moving


def text_on(words="Qwerty 12", where=(0.5, 0.5), **style):
    figure = new_figure(160, 60)
    return figure.text(*where, words, color="black", **style)


def test_letters_are_those_that_pillow_draws():
    text = text_on(ha="left", va="baseline")
    pixels = np.full((60, 160, 4), 255, np.uint8)
    live.write(pixels, text)
    font = live._font(text.get_fontfamily()[0], "normal", "normal", round(2 * text.get_fontsize() * 100 / 72) / 2)
    image = Image.new("RGB", (160, 60), "white")
    ImageDraw.Draw(image).text((80, 30), "Qwerty 12", fill="black", font=font, anchor="ls")
    assert np.abs(pixels[:, :, :3].astype(int) - np.asarray(image)).max() <= 1
    assert pixels[:, :, :3].min() == 0


@pytest.mark.parametrize(
    "where", [(-0.2, 0.5), (0.9, 0.5), (0.4, 1.02), (0.4, -0.1), (-3, 0.5), (3, 0.5), (0.5, 4), (0.5, -4)]
)
@pytest.mark.parametrize("words", ["Qwerty 12", "two\nlines"])
@pytest.mark.parametrize("ground", [None, {"facecolor": "yellow"}])
def test_what_stands_outside_is_cut_off(where, words, ground):
    wide = np.full((300, 800, 4), 255, np.uint8)
    small = np.full((60, 160, 4), 255, np.uint8)
    text = text_on(words, where, bbox=ground)
    live.write(small, text)
    text = text_on(words, where, bbox=ground)
    text.set_transform(text.get_transform().frozen().translate(320, 120))
    live.write(wide, text)
    assert np.array_equal(small, wide[120:180, 320:480])


def test_the_small_png_looks_the_same():
    pixels = np.full((50, 80, 3), 255, np.uint8)
    pixels[10:20, 10:60] = (213, 94, 0)
    data = small_png(Image.fromarray(pixels))
    assert np.array_equal(np.asarray(Image.open(io.BytesIO(data)).convert("RGB")), pixels)
    assert len(data) < 400
