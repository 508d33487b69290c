"""Redrawing only what moved: the still parts of a figure are kept as pixels, the moving ones drawn over them."""

import io
import textwrap
from functools import cache, lru_cache
from math import ceil

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_hex, to_rgba
from matplotlib.font_manager import FontProperties, findfont
from matplotlib.text import Text
from PIL import Image, ImageDraw, ImageFont

from walkaround.live.colours import INK, for_letters
from walkaround.live.style import PIXELS_PER_INCH, new_figure, styled

_PAD = 2  # pixels of ground around a text that has one


class LivePicture:
    """A figure whose moving artists are drawn over a saved background.

    `picture` has `figure`, `moving` (the artists that change, in drawing order) and `show(result)` (which changes
    them, or takes others in their place). Artists before the first one that a frame changes are kept as pixels too, so
    those that change most often should stand last. `picture` may have `still(result)`, which returns what the still
    parts depend on: when that changes, they are drawn anew.
    """

    def __init__(self, picture, scale=1.0):
        self.picture = picture
        FigureCanvasAgg(picture.figure)
        for artist in picture.moving:
            artist.set_animated(True)
        self._still = None
        self.set_scale(scale)

    def set_scale(self, scale):
        """Draw everything larger or smaller from now on, lines and letters with it."""
        self.scale = scale
        self.picture.figure.set_dpi(PIXELS_PER_INCH * scale)
        self._draw_still()

    def _draw_still(self):
        canvas = self.picture.figure.canvas
        for text in self.picture.figure.findobj(Text):
            text.set_color(for_letters(text.get_color()))
        canvas.draw()  # leaves the animated artists out
        self._pixels = np.asarray(canvas.buffer_rgba())
        self._renderer = canvas.get_renderer()
        self._background = self._pixels.copy()
        self._kept = 0, self._background  # how many of the moving artists are in these pixels
        self._last = []  # the moving artists of the last drawing

    def draw(self, result):
        """Show a result; returns the picture's pixels, red, green, blue and alpha in bytes of shape (height, width, 4).

        The next drawing writes into the same array.
        """
        self.picture.show(result)
        still = self.picture.still(result) if hasattr(self.picture, "still") else None
        if still != self._still:
            self._still = still
            self._draw_still()
        moving, last = list(self.picture.moving), self._last
        self._last = moving
        other = (i for i, (now, was) in enumerate(zip(moving, last, strict=False)) if now is not was or now.stale)
        same = next(other, min(len(moving), len(last)))
        drawn, kept = self._kept if self._kept[0] <= same else (0, self._background)
        self._pixels[:] = kept
        for artist in moving[drawn:same]:
            self._draw(artist)
        self._kept = (same, self._pixels.copy()) if same > drawn else (drawn, kept)
        for artist in moving[same:]:
            self._draw(artist)
        return self._pixels

    def _draw(self, artist):
        if isinstance(artist, Text):
            artist.set_color(for_letters(artist.get_color()))
        if isinstance(artist, Text) and not artist.get_rotation():
            write(self._pixels, artist)
        else:
            artist.draw(self._renderer)
        artist.stale = False


def write(pixels, text):
    """Draw a matplotlib text into pixels with Pillow's letters, which takes 0.05 ms where matplotlib takes several.

    Parameters: `pixels`, bytes of shape (height, width, 4); `text`, level, in a figure of that size. What stands
    outside the picture is cut off.

    >>> figure, pixels = new_figure(100, 40), np.full((40, 100, 4), 255, np.uint8)
    >>> write(pixels, figure.text(0.1, 0.5, "ready"))
    >>> bool((pixels < 100).any())
    True
    """
    words = text.get_text()
    if not words or not text.get_visible():
        return
    x, y = text.get_transform().transform(text.get_unitless_position())
    size = text.get_fontsize() * text.figure.dpi / 72
    font = _font(text.get_fontfamily()[0], text.get_fontweight(), text.get_fontstyle(), round(size * 2) / 2)
    align = text.get_ha()
    keep, add, (left, top), (width, height), ascent = _letters(words, font, align, to_hex(text.get_color()))
    down = {"top": 0, "center": height / 2, "center_baseline": height / 2, "bottom": height}.get(
        text.get_va(), 0 if "\n" in words else ascent
    )
    x -= {"left": 0, "center": width / 2, "right": width}[align]
    y = pixels.shape[0] - y - down
    patch = text.get_bbox_patch()
    if patch is not None:
        edges = (round(v) for v in (x - _PAD, y - _PAD, x + width + _PAD, y + height + _PAD))
        across, upper, right, lower = (max(edge, 0) for edge in edges)
        pixels[upper:lower, across:right] = _bytes(to_hex(patch.get_facecolor()))
    across, upper = round(x + left), round(y + top)
    first, before = max(-upper, 0), 4 * max(-across, 0)
    # Rows of bytes rather than of pixels: NumPy is slow where the last axis is short.
    rows = pixels.reshape(pixels.shape[0], -1)[max(upper, 0) :, 4 * max(across, 0) :]
    under = rows[: max(keep.shape[0] - first, 0), : max(keep.shape[1] - before, 0)]
    inside = slice(first, first + under.shape[0]), slice(before, before + under.shape[1])
    under[:] = (under * keep[inside] + add[inside]) // 255


@cache
def _bytes(colour):
    return np.array([round(255 * part) for part in to_rgba(colour)], np.uint8)


@lru_cache(maxsize=4096)
def _letters(words, font, align, colour):
    """Letters as two arrays of bytes: how much of the ground stays (0 to 255), and 255 times what is added to it.

    With them: where they start, the size of the text's box, and the ascent. They are kept, since most texts come again
    and again.
    """
    ascent, descent = font.getmetrics()
    if "\n" not in words:
        (left, top), (width, height) = (-2, 0), (font.getlength(words), ascent + descent)
        mask = Image.new("L", (ceil(width) + 4, height))
        ImageDraw.Draw(mask).text((2, ascent), words, fill=255, font=font, anchor="ls")
    else:
        set_as = {"font": font, "spacing": 0.2 * font.size, "align": align}
        pen = ImageDraw.Draw(Image.new("L", (1, 1)))
        left, top, width, height = pen.multiline_textbbox((0, 0), words, **set_as)
        mask = Image.new("L", (ceil(width - left), ceil(height - top)))
        ImageDraw.Draw(mask).multiline_text((-left, -top), words, fill=255, **set_as)
    share = np.asarray(mask).astype(np.uint16).repeat(4, axis=1)
    return (255 - share, np.tile(_bytes(colour), mask.width) * share + 127, (left, top), (width, height), ascent)


@cache
def _font(family, weight, style, size):
    path = findfont(FontProperties(family=family, weight=weight, style=style))
    return ImageFont.truetype(path, size, layout_engine=ImageFont.Layout.BASIC)


def with_sentence(pixels, sentence):
    """Return the pixels as an image with a sentence under it, for a page or a print where nothing runs.

    >>> with_sentence(np.full((80, 500, 4), 255, np.uint8), "Ready to start.").size
    (500, 126)
    """
    width = pixels.shape[1]
    lines = textwrap.wrap(sentence, max(40, width // 9))
    with styled():
        strip = new_figure(width, 24 + 22 * len(lines))
        FigureCanvasAgg(strip)
        strip.text(0.02, 0.5, "\n".join(lines), va="center", fontsize=12.5, color=INK, linespacing=1.25)
        strip.canvas.draw()
    return Image.fromarray(np.concatenate([pixels, np.asarray(strip.canvas.buffer_rgba())])[:, :, :3])


def figure_png(figure):
    """Return a whole figure as a PNG of few bytes, as `small_png` does for an image.

    >>> Image.open(io.BytesIO(figure_png(new_figure(300, 200)))).size
    (300, 200)
    """
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    return small_png(Image.fromarray(np.asarray(canvas.buffer_rgba())[:, :, :3]))


def small_png(image):
    """Return an image as a PNG of few bytes, for a stored notebook: 128 colours are enough for lines and letters.

    >>> len(small_png(Image.new("RGB", (400, 300), "white"))) < 1000
    True
    """
    out = io.BytesIO()
    image.quantize(128, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()
