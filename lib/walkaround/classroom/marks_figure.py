"""A class's marks as a picture: how many students have how many percent; in SVG."""

import io

import matplotlib
import numpy as np

from walkaround.live.colours import BLUE, INK
from walkaround.live.style import RULES, new_figure

STEPS = np.arange(0, 101, 10)


def counts(percents):
    """Return how many percentages lie in each ten percent from 0 to 100; 100 belongs to the last.

    >>> counts([0, 9.9, 10, 100]).tolist()
    [2, 1, 0, 0, 0, 0, 0, 0, 0, 1]
    """
    return np.histogram(np.clip(percents, 0, 100), STEPS)[0]


def histogram(percents):
    """Return the histogram of marks in percent as an SVG text."""
    with same_letters():
        figure = new_figure(760, 270)
        axes = figure.add_axes((0.02, 0.22, 0.95, 0.76))
        heights = counts(percents)
        bars = axes.bar(STEPS[:-1] + 5, heights, width=9, color=BLUE, edgecolor=INK)
        axes.bar_label(bars, [str(h) if h else "" for h in heights], padding=2)
        axes.set(xlim=(0, 100), xticks=STEPS, xlabel="marks, % of full marks", ylim=(0, max(heights.max() * 1.2, 1)))
        axes.set_yticks([])
        axes.grid(False)
        return svg_of(figure)


def same_letters():
    """Settings in which letters stay letters, and every run makes the same bytes."""
    return matplotlib.rc_context({**RULES, "svg.fonttype": "none", "svg.hashsalt": "walkaround"})


def svg_of(figure):
    """Return a figure as an SVG text to stand in a page."""
    out = io.StringIO()
    figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    text = out.getvalue()
    return text[text.index("<svg") :]
