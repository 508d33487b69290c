"""A class's marks as pictures: how many students have how many percent, and how hard each question was; in SVG."""

import io

import matplotlib
import numpy as np

from walkaround.live.colours import BLUE, INK, ORANGE
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
    with _quiet():
        figure = new_figure(760, 300)
        axes = figure.add_axes((0.08, 0.2, 0.9, 0.68))
        heights = counts(percents)
        bars = axes.bar(STEPS[:-1] + 5, heights, width=9, color=BLUE, edgecolor=INK)
        axes.bar_label(bars, [str(h) if h else "" for h in heights], padding=2)
        axes.set(xlim=(0, 100), xticks=STEPS, xlabel="marks, % of full marks", ylim=(0, max(heights.max() * 1.2, 1)))
        axes.set_title("How many students have how many marks")
        axes.set_yticks([])
        axes.grid(False)
        return _svg(figure)


def right_shares(titles, shares):
    """Return bars of how many percent of the class earned each question's points, as an SVG text."""
    with _quiet():
        figure = new_figure(760, 90 + 30 * len(titles))
        height = 90 + 30 * len(titles)
        axes = figure.add_axes((0.44, 48 / height, 0.53, 1 - 92 / height))
        places = np.arange(len(titles))[::-1]
        percents = 100 * np.asarray(shares, float)
        axes.barh(places, percents, color=ORANGE, edgecolor=INK, height=0.7)
        for place, percent in zip(places, percents, strict=True):
            inside = percent > 85
            at, side = (percent - 1, "right") if inside else (percent + 1, "left")
            axes.text(at, place, f"{percent:.0f} %", va="center", ha=side)
        axes.set(xlim=(0, 100), yticks=places, yticklabels=titles, xlabel="earned the points, % of those who handed in")
        axes.set_title("How hard each question was")
        axes.tick_params(axis="y", length=0)
        axes.grid(False)
        return _svg(figure)


def _quiet():
    # Letters stay letters, and every run makes the same bytes.
    return matplotlib.rc_context({**RULES, "svg.fonttype": "none", "svg.hashsalt": "walkaround"})


def _svg(figure):
    out = io.StringIO()
    figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    text = out.getvalue()
    return text[text.index("<svg") :]
