"""Redrawing only what moved: the still parts of a figure are kept as pixels, the moving ones drawn over them."""

import io
import struct
import textwrap
import zlib
from functools import cache, lru_cache
from math import ceil

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_hex
from matplotlib.font_manager import FontProperties, findfont
from matplotlib.text import Text
from PIL import Image, ImageDraw, ImageFont

from walkaround.figures.style import INK, PIXELS_PER_INCH, new_figure, styled


class LivePicture:
    """A figure whose moving artists are drawn over a saved background.

    `picture` has `figure`, `moving` (the artists that change) and `show(result)` (which changes them). It may have
    `still(result)`: what the still parts depend on; when that changes, they are drawn anew.
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
        self.picture.figure.set_dpi(PIXELS_PER_INCH * scale)
        self._draw_still()

    def _draw_still(self):
        figure = self.picture.figure
        figure.canvas.draw()  # leaves the animated artists out
        self._background = figure.canvas.copy_from_bbox(figure.bbox)

    def draw(self, result):
        """Show a result; returns the picture as an RGB image."""
        self.picture.show(result)
        still = self.picture.still(result) if hasattr(self.picture, "still") else None
        if still != self._still:
            self._still = still
            self._draw_still()
        canvas = self.picture.figure.canvas
        canvas.restore_region(self._background)
        texts = [a for a in self.picture.moving if isinstance(a, Text) and not a.get_rotation()]
        for artist in sorted(self.picture.moving, key=lambda a: a.get_zorder()):
            if artist not in texts:
                artist.draw(canvas.get_renderer())
        image = _pixels(canvas)
        for text in texts:
            _write(image, text)
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


def _write(image, text):
    """Draw a matplotlib text with Pillow, which takes a tenth of a millisecond where matplotlib takes several."""
    if not text.get_visible() or not text.get_text():
        return
    x, y = text.get_transform().transform(text.get_unitless_position())
    size = text.get_fontsize() * text.figure.dpi / 72
    font = _font(text.get_fontfamily()[0], text.get_fontweight(), text.get_fontstyle(), round(size * 2) / 2)
    several = "\n" in text.get_text()
    mask, (left, top), (width, height) = _letters(text.get_text(), font, text.get_ha(), several)
    down = {"top": 0, "center": height / 2, "center_baseline": height / 2, "bottom": height}.get(
        text.get_va(), 0 if several else font.getmetrics()[0]
    )
    x -= {"left": 0, "center": width / 2, "right": width}[text.get_ha()]
    y = text.figure.bbox.height - y - down
    patch = text.get_bbox_patch()
    if patch is not None:
        pad = 2
        image.paste(
            to_hex(patch.get_facecolor()),
            tuple(round(v) for v in (x - pad, y - pad, x + width + pad, y + height + pad)),
        )
    image.paste(to_hex(text.get_color()), (round(x + left), round(y + top)), mask)


@lru_cache(maxsize=4096)
def _letters(text, font, align, several):
    """Letters as a mask, where the mask starts, and the size of the text's box; most texts come again and again."""
    ascent, descent = font.getmetrics()
    if not several:
        mask = Image.new("L", (ceil(font.getlength(text)) + 4, ascent + descent))
        ImageDraw.Draw(mask).text((2, ascent), text, fill=255, font=font, anchor="ls")
        return mask, (-2, 0), (font.getlength(text), ascent + descent)
    spacing = 0.2 * font.size
    pen = ImageDraw.Draw(Image.new("L", (1, 1)))
    left, top, right, bottom = pen.multiline_textbbox((0, 0), text, font=font, spacing=spacing, align=align)
    mask = Image.new("L", (ceil(right - left), ceil(bottom - top)))
    ImageDraw.Draw(mask).multiline_text(
        (-left, -top), text, fill=255, font=font, spacing=spacing, align=align
    )
    return mask, (left, top), (right, bottom)


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
