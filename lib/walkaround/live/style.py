"""One look for every figure: colours that stay apart for colour-blind readers and in grey, large type, no legends.

The colours are Okabe and Ito's set for colour-blind readers (M. Okabe, K. Ito, "Color Universal Design", 2008);
beside each goes a line style or a marker, never the colour alone.
"""

from contextlib import contextmanager

import matplotlib
from matplotlib.figure import Figure

INK = "#1a1a1a"
FAINT = "#8a8a8a"
PALE = "#e9edf0"
BLUE = "#0072b2"
ORANGE = "#e69f00"
VERMILION = "#d55e00"
GREEN = "#009e73"
SKY = "#56b4e9"
PURPLE = "#cc79a7"

PIXELS_PER_INCH = 100

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
    """Apply the shared look to figures made inside the block."""
    with matplotlib.rc_context(RULES):
        yield


def new_figure(width_px, height_px):
    """Return an empty figure of a size in pixels, outside pyplot so that nothing keeps or shows it unasked."""
    return Figure(figsize=(width_px / PIXELS_PER_INCH, height_px / PIXELS_PER_INCH), dpi=PIXELS_PER_INCH)
