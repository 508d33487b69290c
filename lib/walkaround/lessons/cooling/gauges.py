"""A temperature gauge as the pilot sees it: a half circle with its green arc, its red line and a needle."""

import numpy as np
from matplotlib.patches import Circle, Wedge

from walkaround.live.colours import GREEN, INK, VERMILION
from walkaround.live.style import CENTRED

_PAPER = "white"


class Gauge:
    """A temperature in °C from `low` to `high`; green from `green_c` to the red radial line at `limit_c`.

    Green arc and red line are the markings of 14 CFR 23.1549, as before the 2017 rewrite of Part 23 (recalled). Below
    its scale the needle lies on its stop, above it too.
    """

    def __init__(self, axes, title, low, high, step, green_c, limit_c):
        self.low, self.high = low, high
        axes.set(xlim=(-1.75, 1.75), ylim=(-0.6, 1.62), aspect="equal")
        axes.axis("off")
        axes.text(0, 1.5, title, **CENTRED, fontweight="bold")
        axes.add_patch(Wedge((0, 0), 1.0, 0, 180, width=0.14, facecolor=_PAPER, edgecolor=INK, linewidth=1.2))
        arc = self.angle(limit_c), self.angle(green_c)
        axes.add_patch(Wedge((0, 0), 1.0, *arc, width=0.14, facecolor=GREEN, edgecolor=INK, linewidth=1.2))
        axes.plot(*self.place(limit_c, [0.8, 1.12]), color=VERMILION, linewidth=5, solid_capstyle="butt", zorder=4)
        for mark in np.arange(low, high + 1, step):
            x, y = self.place(mark, 1.19)
            axes.plot(*self.place(mark, [0.86, 1.0]), color=INK, linewidth=1.4)
            axes.text(x, y, f"{mark:.0f}", ha="left" if x > 0.4 else "right" if x < -0.4 else "center", va="center",
                      fontsize=11)  # fmt: skip
        self.needle = axes.plot([0, 0], [0, 0], color=INK, linewidth=4.5, solid_capstyle="round")[0]
        axes.add_patch(Circle((0, 0), 0.08, facecolor=INK))
        self.reading = axes.text(0, -0.38, "", **CENTRED, fontweight="bold", fontsize=15)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self.reading, self.needle]

    def update(self, temperature_c):
        """Point to a temperature in °C."""
        on_scale = min(max(temperature_c, self.low), self.high)
        x, y = self.place(on_scale, 0.84)
        self.needle.set_data([0, x], [0, y])
        text = f"{temperature_c:.0f} °C" if self.low <= temperature_c <= self.high else None
        self.reading.set_text(text or ("above the scale" if temperature_c > self.high else "below the scale"))

    def angle(self, temperature_c):
        """Angle of a temperature in degrees, anticlockwise from the right."""
        return 180.0 * (1 - (temperature_c - self.low) / (self.high - self.low))

    def place(self, temperature_c, radius):
        """Where a temperature stands, at one radius or several."""
        a = np.radians(self.angle(temperature_c))
        return np.asarray(radius) * np.cos(a), np.asarray(radius) * np.sin(a)
