"""What changed is sent, all of it and little more: a screen that takes only the parts shows the frame, to the pixel."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from walkaround.live.bands import changed

HEIGHT, WIDTH = 90, 60


def put(screen, changed):
    """Put the parts on a screen, as the page does."""
    for (left, top, width, height), data in changed:
        screen[top : top + height, left : left + width] = spread(data).reshape(height, width, 4)


def spread(data):
    """The pixels of runs, as `spread` of logic.js gives them."""
    colours, lengths = np.frombuffer(data, np.uint32).reshape(2, -1)
    return np.repeat(colours, lengths).view(np.uint8)


boxes = st.tuples(
    st.integers(0, HEIGHT - 1), st.integers(0, WIDTH - 1), st.integers(1, 30), st.integers(1, 30), st.integers(0, 255)
)


@given(st.lists(st.lists(boxes, max_size=4), min_size=1, max_size=5))
def test_the_screen_shows_every_frame(frames):
    screen, pixels = np.zeros((HEIGHT, WIDTH, 4), np.uint8), np.zeros((HEIGHT, WIDTH, 4), np.uint8)
    for frame in frames:
        seen = pixels.copy()
        for top, left, height, width, value in frame:
            pixels[top : top + height, left : left + width] = value
        put(screen, changed(pixels, seen))
        assert (screen == pixels).all()
        assert changed(pixels, pixels.copy()) == []


def test_only_what_changed_goes():
    seen = np.zeros((HEIGHT, WIDTH, 4), np.uint8)
    pixels = seen.copy()
    pixels[3:5, 10:20] = 9
    pixels[70, 50] = 9
    assert [place for place, _ in changed(pixels, seen)] == [(10, 3, 10, 2), (50, 70, 1, 1)]


def test_wide_areas_of_one_colour_take_few_bytes():
    pixels = np.zeros((HEIGHT, WIDTH, 4), np.uint8)
    pixels[20:30] = 9
    assert [len(data) for _, data in changed(pixels)] == [3 * 8]


def test_a_new_size_or_a_new_screen_gets_all():
    pixels = np.zeros((2 * HEIGHT, WIDTH, 4), np.uint8)
    for seen in (None, pixels[:HEIGHT]):
        assert [place for place, _ in changed(pixels, seen)] == [(0, 0, WIDTH, 2 * HEIGHT)]
