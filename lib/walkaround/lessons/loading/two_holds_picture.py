"""Every pair of loads of two holds that stays inside, as an area, with the loads of now as a point in it."""

import numpy as np

from walkaround.live.colours import BLUE, GREEN, INK, VERMILION
from walkaround.live.style import new_figure, styled


class TwoHoldsPicture:
    """The area and the point; `show` moves them. `moving` lists the artists that change."""

    def __init__(self, aircraft, first, second, width_px=640, height_px=470):
        one, two = aircraft.station(first), aircraft.station(second)
        unit = aircraft.units.weight
        with styled():
            self.figure = new_figure(width_px, height_px)
            axes = self.figure.subplots()
            axes.set_title("Loads of the two holds that stay inside all the way")
            axes.set(xlabel=f"{first}, {unit}", xlim=(0, 1.06 * one.maximum))
            axes.set(ylabel=f"{second}, {unit}", ylim=(0, 1.12 * two.maximum))
            self.area = axes.fill([0], [0], facecolor=GREEN, alpha=0.16, edgecolor="none")[0]
            self.edge = axes.plot([], [], color=GREEN)[0]
            self.point = axes.plot([], [], "o", markersize=14, markeredgecolor=INK, clip_on=False, zorder=5)[0]
            self.label = axes.text(0, 0, "", fontweight="bold", va="bottom", zorder=6)
            self.figure.subplots_adjust(left=0.12, right=0.97, top=0.91, bottom=0.13)
        self._limits = one.maximum, two.maximum

    @property
    def moving(self):
        """Artists that change with the load, in drawing order."""
        return [self.area, self.edge, self.point, self.label]

    def show(self, result):
        """Move the artists to a result: (`TwoHolds`, first load, second load, whether these are inside)."""
        found, first, second, inside = result
        outline = np.array(found.outline() or [(np.nan, np.nan)])
        self.area.set_xy(outline)
        self.edge.set_data(*np.vstack([outline, outline[:1]]).T)
        self.point.set_data([first], [second])
        self.point.set(marker="o" if inside else "X", color=BLUE if inside else VERMILION)
        across, up = self._limits
        right = first > 0.6 * across
        place = first + (-0.03 if right else 0.03) * across, second + 0.03 * up
        says, side = "now: inside" if inside else "now: outside", "right" if right else "left"
        self.label.set(text=says, ha=side, position=place)
