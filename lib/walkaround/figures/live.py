"""Redrawing only what moved: the still parts of a figure are kept as pixels, the moving ones drawn over them."""

import io
import struct
import textwrap
import zlib
from functools import cache

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_hex
from matplotlib.font_manager import FontProperties, findfont
from matplotlib.text import Text
from PIL import Image, ImageDraw, ImageFont

from walkaround.figures.style import INK, PIXELS_PER_INCH, new_figure, styled


class LivePicture:
    """A figure whose moving artists are drawn over a saved background.

    `picture` has `figure`, `moving` (the artists that change) and `show(result)` (which changes them).
    """

    def __init__(self, picture, scale=1.0):
        self.picture = picture
        FigureCanvasAgg(picture.figure)
        for artist in picture.moving:
            artist.set_animated(True)
        self.set_scale(scale)

    def set_scale(self, scale):
        """Draw everything larger or smaller from now on, lines and letters with it."""
        figure = self.picture.figure
        figure.set_dpi(PIXELS_PER_INCH * scale)
        figure.canvas.draw()  # leaves the animated artists out
        self._background = figure.canvas.copy_from_bbox(figure.bbox)

    def draw(self, result):
        """Show a result; returns the picture as an RGB image."""
        self.picture.show(result)
        canvas = self.picture.figure.canvas
        canvas.restore_region(self._background)
        texts = [a for a in self.picture.moving if isinstance(a, Text) and not a.get_rotation()]
        for artist in sorted(self.picture.moving, key=lambda a: a.get_zorder()):
            if artist not in texts:
                artist.draw(canvas.get_renderer())
        image = _pixels(canvas)
        pen = ImageDraw.Draw(image)
        for text in texts:
            _write(pen, text)
        return image


def _pixels(canvas):
    size = canvas.get_width_height()
    return Image.frombuffer("RGBA", size, canvas.buffer_rgba(), "raw", "RGBA", 0, 1).convert("RGB")


def png(image, level=1):
    """Return an RGB image as PNG bytes; level 1 is quick, for a picture sent to a browser on this machine and looked at once.

    Written here because Pillow tries five filters on every row (10 ms for a picture that takes 4 ms without them).
    Format: W3C, Portable Network Graphics (PNG) Specification, third edition.
    """
    rows = np.empty((image.height, 1 + 3 * image.width), np.uint8)
    rows[:, 0] = 0  # filter type "none"
    rows[:, 1:] = np.asarray(image).reshape(image.height, -1)

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = struct.pack(">IIBBBBB", image.width, image.height, 8, 2, 0, 0, 0)  # 8 bits, RGB, not interlaced
    data = chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(rows, level)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + data


def small_png(image):
    """Return an image as a PNG of few bytes, for a stored notebook: 128 colours are enough for lines and letters."""
    out = io.BytesIO()
    image.quantize(128, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()


def _write(pen, text):
    """Draw a matplotlib text with Pillow, which takes a tenth of a millisecond where matplotlib takes several."""
    if not text.get_visible() or not text.get_text():
        return
    x, y = text.get_transform().transform(text.get_unitless_position())
    size = text.get_fontsize() * text.figure.dpi / 72
    font = _font(text.get_fontfamily()[0], text.get_fontweight(), text.get_fontstyle(), round(size * 2) / 2)
    several = "\n" in text.get_text()
    anchor = {"left": "l", "center": "m", "right": "r"}[text.get_ha()]
    anchor += {"top": "a", "center": "m", "center_baseline": "m", "bottom": "d"}.get(
        text.get_va(), "a" if several else "s"
    )
    place = (x, text.figure.bbox.height - y)
    options = {"font": font, "anchor": anchor, "spacing": 0.2 * size, "align": text.get_ha()}
    patch = text.get_bbox_patch()
    if patch is not None:
        pad = 2
        left, top, right, bottom = pen.textbbox(place, text.get_text(), **options)
        pen.rectangle((left - pad, top - pad, right + pad, bottom + pad), fill=to_hex(patch.get_facecolor()))
    pen.text(place, text.get_text(), fill=to_hex(text.get_color()), **options)


@cache
def _font(family, weight, style, size):
    path = findfont(FontProperties(family=family, weight=weight, style=style))
    return ImageFont.truetype(path, size, layout_engine=ImageFont.Layout.BASIC)


def with_sentence(image, sentence):
    """Return the image with a sentence under it, for a page or a print where nothing runs."""
    lines = textwrap.wrap(sentence, max(40, image.width // 9))
    strip_height = 24 + 22 * len(lines)
    with styled():
        strip = new_figure(image.width, strip_height)
        FigureCanvasAgg(strip)
        strip.text(0.02, 0.5, "\n".join(lines), va="center", fontsize=12.5, color=INK, linespacing=1.25)
        strip.canvas.draw()
    text = _pixels(strip.canvas)
    whole = Image.new("RGB", (image.width, image.height + text.height), "white")
    whole.paste(image, (0, 0))
    whole.paste(text, (0, image.height))
    return whole
