"""One look for every figure: the workbook's colours, large type, no legends."""

from contextlib import contextmanager

import matplotlib
from matplotlib.figure import Figure

from walkaround.live.colours import FAINT, INK, PALE

PIXELS_PER_INCH = 100
CENTRED = {"ha": "center", "va": "center"}  # of a text about its place

RULES = {
    "font.family": "DejaVu Sans",
    "font.size": 12.5,
    "axes.titlesize": 13.5,
    "axes.titlelocation": "left",
    "axes.labelsize": 12.5,
    "axes.edgecolor": FAINT,
    "axes.labelcolor": INK,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "grid.color": PALE,
    "text.color": INK,
    "xtick.color": INK,
    "ytick.color": INK,
    "lines.linewidth": 2.2,
    "figure.facecolor": "white",
    "figure.dpi": PIXELS_PER_INCH,
}


@contextmanager
def styled():
    """Apply the shared look to figures made inside the block.

    >>> with styled():
    ...     new_figure(300, 200).add_subplot().spines["top"].get_visible()
    False
    """
    with matplotlib.rc_context(RULES):
        yield


def new_figure(width_px, height_px):
    """Return an empty figure of a size in pixels, outside pyplot so that nothing keeps it or shows it unasked.

    >>> [float(inches) for inches in new_figure(300, 200).get_size_inches()]
    [3.0, 2.0]
    """
    return Figure(figsize=(width_px / PIXELS_PER_INCH, height_px / PIXELS_PER_INCH), dpi=PIXELS_PER_INCH)
