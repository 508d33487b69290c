"""Pictures as PNG: written fast for a screen that shows them once, and small for a notebook that keeps them.

Format: W3C, Portable Network Graphics (PNG) Specification, third edition; its data are a zlib stream (RFC 1950) of
deflate blocks (RFC 1951).
"""

import io
import struct
import zlib

import numpy as np
from PIL import Image

BAND = 32  # rows that are compressed together
_ADLER = 65521  # largest prime below 2^16, RFC 1950


class PngStream:
    """Writes the frames of one live picture; rows that have not changed since the last frame are not compressed again.

    Pillow tries five filters on every row and compresses every row of every frame: 10 ms where this takes 1 to 3.

    >>> stream, pixels = PngStream(), np.full((40, 30, 4), 255, np.uint8)
    >>> Image.open(io.BytesIO(stream.png(pixels))).size
    (30, 40)
    """

    def __init__(self):
        self._size = None

    def png(self, pixels):
        """Return pixels, bytes of shape (height, width, 4), as PNG; the alpha in the last byte is left out."""
        if pixels.shape[:2] != self._size:
            self._begin(*pixels.shape[:2])
        height, width = self._size
        for band, top in enumerate(range(0, height, BAND)):
            part = slice(top, top + BAND)
            seen = pixels[part].tobytes()
            if seen == self._seen[band]:
                continue
            self._seen[band] = seen
            # A channel at a time: NumPy copies a long row of single bytes much faster than many triples.
            for channel in range(3):
                self._colours[part, :, channel] = pixels[part, :, channel]
            rows = self._rows[part]
            # After a full flush what follows refers to nothing before it, so every band can be kept by itself.
            self._packed[band] = self._deflate.compress(rows) + self._deflate.flush(zlib.Z_FULL_FLUSH)
            self._sums[band] = zlib.adler32(rows), rows.size
        stream = b"".join([b"\x78\x01", *self._packed, b"\x03\x00", struct.pack(">I", _joined(self._sums))])
        return _file(width, height, stream)

    def _begin(self, height, width):
        self._size, bands = (height, width), -(-height // BAND)
        self._deflate = zlib.compressobj(1, zlib.DEFLATED, -15)
        self._seen, self._packed, self._sums = [b""] * bands, [b""] * bands, [(1, 0)] * bands
        # Every row begins with its filter type: 0, none.
        self._rows = np.zeros((height, 1 + 3 * width), np.uint8)
        self._colours = np.lib.stride_tricks.as_strided(
            self._rows[:, 1:], (height, width, 3), (self._rows.strides[0], 3, 1)
        )


def _joined(sums):
    """Adler-32 of bytes from the sums and lengths of their parts (RFC 1950: A = 1 + sum of bytes, B = sum of all A).

    >>> parts = b"walk", b"around"
    >>> _joined([(zlib.adler32(p), len(p)) for p in parts]) == zlib.adler32(b"walkaround")
    True
    """
    a, b = 1, 0
    for part, length in sums:
        # Each A within a part is greater by what came before it, less the 1 that the part started from.
        b = (b + (part >> 16) + length * (a - 1)) % _ADLER
        a = (a + (part & 0xFFFF) - 1) % _ADLER
    return b << 16 | a


def _file(width, height, stream):
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)  # 8 bits, RGB, not interlaced
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", stream) + chunk(b"IEND", b"")


def small_png(image):
    """Return an image as a PNG of few bytes, for a stored notebook: 128 colours are enough for lines and letters.

    >>> len(small_png(Image.new("RGB", (400, 300), "white"))) < 1000
    True
    """
    out = io.BytesIO()
    image.quantize(128, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()
