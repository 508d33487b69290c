"""What the drawings of the round are made with: shapes on a sheet 100 wide and 88 high, from the bottom left."""

from math import ceil, floor

import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import Circle, Ellipse, Polygon, Rectangle

from walkaround.live.colours import FAINT, INK
from walkaround.live.style import CENTRED
from walkaround.measures import nice

WIDE, HIGH = 100.0, 88.0
SKIN, METAL, GRASS, TARMAC, RUBBER = "#f6f8f9", "#c9d2d8", "#dfe9d2", "#d5d5d5", "#4a4a4a"


class Pen:
    """Draws on axes; every artist that it makes is in `made`."""

    def __init__(self, axes):
        self.axes, self.made = axes, []

    def _add(self, patch):
        self.made.append(self.axes.add_artist(patch))  # `add_patch` looks at its limits, which takes ten times as long

    def shape(self, points, face=SKIN, edge=INK, width=1.6, **look):
        """A closed outline."""
        self._add(Polygon(points, closed=True, facecolor=face, edgecolor=edge, linewidth=width, **look))

    def box(self, x, y, wide, high, face=SKIN, edge=INK, width=1.6, **look):
        """A box from its corner at the bottom left."""
        self._add(Rectangle((x, y), wide, high, facecolor=face, edgecolor=edge, linewidth=width, **look))

    def disc(self, x, y, radius, face=SKIN, edge=INK, width=1.6, **look):
        """A disc about its middle."""
        self._add(Circle((x, y), radius, facecolor=face, edgecolor=edge, linewidth=width, **look))

    def oval(self, x, y, wide, high, face=SKIN, edge=INK, width=1.6, **look):
        """An oval about its middle."""
        self._add(Ellipse((x, y), wide, high, facecolor=face, edgecolor=edge, linewidth=width, **look))

    def line(self, points, colour=INK, width=2.0, **look):
        """A line through points."""
        self._add(Line2D(*np.transpose(points), color=colour, linewidth=width, **look))

    def write(self, x, y, words, size=12.5, colour=INK, **look):
        """Words about a place."""
        self.made.append(self.axes.text(x, y, words, fontsize=size, color=colour, **{**CENTRED, **look}))

    def plate(self, x, y, words, size=12.0, **look):
        """Words on a white plate."""
        lines = words.split("\n")
        wide, high = 0.168 * size * max(map(len, lines)) + 2.5, 0.31 * size * len(lines) + 2.2
        self.box(x - wide / 2, y - high / 2, wide, high, face="white", width=1.1)
        self.write(x, y, words, size, **look)

    def ground(self, y, face=TARMAC):
        """The ground, up to a height."""
        self.box(0, 0, WIDE, y, face=face, edge="none")
        self.line([(0, y), (WIDE, y)], FAINT, 1.4)

    def inside(self, dial, x, y, wide, high, *args, **named):
        """A dial of a lesson on a part of the sheet; returns it. `dial` makes it from axes."""
        axes = self.axes.inset_axes((x / WIDE, y / HIGH, wide / WIDE, high / HIGH))
        shown = dial(axes, *args, **named)
        # The axes themselves are never drawn, only what is on them, so nobody else sees to their shape.
        axes.apply_aspect(axes.get_axes_locator()(axes, None))
        self.made.append(axes)
        return shown


def arc(x, y, radius, begin_deg, end_deg, n=30):
    """Points on a circle, degrees counted anticlockwise from the right."""
    turn = np.radians(np.linspace(begin_deg, end_deg, n))
    return list(zip(x + radius * np.cos(turn), y + radius * np.sin(turn), strict=True))


def turned(points, degrees, at):
    """Points turned anticlockwise about the origin, and then moved."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return [(at[0] + a * c - b * s, at[1] + a * s + b * c) for a, b in points]


def marks(quantities):
    """The quantities that a stick is marked at: those of its file, or round ones between them in other units.

    >>> marks([5, 10, 15]), marks([18.9, 37.9, 56.8, 75.7])
    ([5, 10, 15], [20, 40, 60])
    """
    low, high, each = quantities[0], quantities[-1], (quantities[-1] - quantities[0]) / (len(quantities) - 1)
    step = nice(each)
    if abs(each - step) < 1e-6 or all(q == round(q) for q in quantities):
        return quantities
    return [round(n * step, 6) for n in range(ceil(low / step), floor(high / step) + 1)]
