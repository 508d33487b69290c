"""PNG as any reader of the format reads it: Pillow, which is independent of the writer."""

import io

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from walkaround.live.png import BAND, PngStream, small_png

SIZES = st.tuples(st.integers(1, 3 * BAND + 5), st.integers(1, 90))


def read(data):
    return np.asarray(Image.open(io.BytesIO(data)))


@given(SIZES, st.lists(st.tuples(st.integers(0, 200), st.integers(0, 200), st.integers(0, 255)), max_size=6))
def test_every_frame_is_read_back_to_the_pixel(size, changes):
    rng = np.random.default_rng(size[0] * 1000 + size[1])
    pixels = rng.integers(0, 256, (*size, 4), dtype=np.uint8)
    stream = PngStream()
    assert np.array_equal(read(stream.png(pixels)), pixels[:, :, :3])
    for row, column, value in changes:
        pixels[row % size[0], column % size[1]] = value  # in the same array, as a live picture draws
        assert np.array_equal(read(stream.png(pixels)), pixels[:, :, :3])


def test_a_picture_that_changes_its_size_begins_anew():
    stream = PngStream()
    for size in ((40, 60), (80, 60), (40, 60)):
        pixels = np.full((*size, 4), size[0], np.uint8)
        assert np.array_equal(read(stream.png(pixels)), pixels[:, :, :3])


def test_rows_that_stay_are_not_compressed_again():
    pixels = np.random.default_rng(1).integers(0, 256, (4 * BAND, 50, 4), dtype=np.uint8)
    stream = PngStream()
    stream.png(pixels)
    before = list(stream._packed)
    pixels[2 * BAND + 3, 7] ^= 1
    stream.png(pixels)
    assert [new is old for new, old in zip(stream._packed, before, strict=True)] == [True, True, False, True]


def test_the_small_one_looks_the_same():
    pixels = np.full((50, 80, 3), 255, np.uint8)
    pixels[10:20, 10:60] = (213, 94, 0)
    data = small_png(Image.fromarray(pixels))
    assert np.array_equal(np.asarray(Image.open(io.BytesIO(data)).convert("RGB")), pixels)
    assert len(data) < 400
