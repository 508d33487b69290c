"""Heads and oil over taxi, run-up and climb as curves, the gauges as the pilot sees them, the cowl from the front."""

from typing import NamedTuple

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Circle, Ellipse, FancyBboxPatch, Rectangle

from walkaround.lessons.cooling.climb import CLIMB_MIN, RUN_UP_MIN, Climb
from walkaround.lessons.cooling.gauges import Gauge
from walkaround.lessons.cooling.words import duration
from walkaround.live.colours import BLUE, FAINT, INK, ORANGE, PALE, SKY, VERMILION
from walkaround.live.labels import apart
from walkaround.live.style import CENTRED, new_figure, styled
from walkaround.physics.cooling import LEFT, OIL, PARTS, RIGHT

_EARLIEST, _LOWEST, _HIGHEST = -12.0, -30.0, 320.0
_MOMENTS = 140
_NOTHING = np.full((2, 2), np.nan)
_STUFFED = "#6b4f2a"
_BOTH = "heads, both\nsides"


class Shown(NamedTuple):
    """What the picture shows: a climb, the minute of it that is now, and whether only what the pilot sees."""

    climb: Climb
    minute: float
    pilot: bool = False


class CoolingPicture:
    """Curves on the left; on the right both gauges and, below them, the cowl. `show` takes a `Shown`."""

    def __init__(self, craft, width_px=880, height_px=500):
        section, oil_limit_c = craft.cooling, craft.engine.oil_limit_c
        with styled():
            self.figure = new_figure(width_px, height_px)
            self.curves = Curves(self.figure.add_axes((0.062, 0.115, 0.49, 0.80)), section, oil_limit_c)
            heads, oil = ((0.715, bottom, 0.28, 0.33) for bottom in (0.665, 0.335))
            # Each scale ends a step or two beyond its red line.
            head_end, oil_end = (s * np.ceil(c / s + 0.9) for s, c in ((50, section.head_limit_c), (25, oil_limit_c)))
            marks = section.head_green_c, section.head_limit_c
            self.heads = Gauge(self.figure.add_axes(heads), f"{section.gauge_on} heads, °C", 0, head_end, 50, *marks)
            self.oil = Gauge(self.figure.add_axes(oil), "oil, °C", 0, oil_end, 25, section.oil_green_c, oil_limit_c)
            self.cowl = Cowl(self.figure.add_axes((0.715, 0.0, 0.28, 0.325)), section.kit)

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        return [*self.cowl.moving, *self.curves.moving, *self.heads.moving, *self.oil.moving]

    def show(self, shown):
        """Move the artists to a `Shown`."""
        there = shown.climb.at(shown.minute)
        self.cowl.update(None if shown.pilot else shown.climb.plan)
        self.curves.update(shown)
        self.heads.update(there[shown.climb.gauge])
        self.oil.update(there[OIL])


class Curves:
    """Temperatures from the engine's start to the end of the climb; what is still to come is thin and pale."""

    def __init__(self, axes, section, oil_limit_c):
        self.axes, self.gauge = axes, section.gauge_on
        other = RIGHT if self.gauge == LEFT else LEFT
        axes.set(xlim=(_EARLIEST, CLIMB_MIN), ylim=(_LOWEST, _HIGHEST), xlabel="minutes of climb")
        axes.set_title("Temperature, °C", pad=9)
        axes.set_xticks([0, 5, 10, 15, 20])
        axes.axvspan(_EARLIEST, 0, color=PALE, zorder=0)
        axes.axvline(0, color=FAINT, linewidth=1.2)
        for x, words in ((-0.4, "on the ground"), (0.4, "climb")):
            axes.text(x, 306, words, ha="right" if x < 0 else "left", va="center", fontsize=12)
        for level, words, style in (
            (section.head_limit_c, f"heads' limit {section.head_limit_c:.0f}", (0, (6, 2))),
            (oil_limit_c, f"oil's limit {oil_limit_c:.0f}", (0, (1.5, 1.5))),
        ):
            axes.axhline(level, color=VERMILION, linestyle=style, linewidth=1.7)
            axes.text(_EARLIEST + 0.3, level - 3, words, color=VERMILION, va="top", fontsize=11.5)
        # Thin and pale first, then what has been: the other bank, the oil, the gauge's bank.
        colours = (VERMILION, ORANGE, BLUE)
        styles = ((0, (4, 1.4)), (0, (6, 1.5, 1.2, 1.5)), "-")
        self._rows = [PARTS.index(part) for part in (other, OIL, self.gauge)]
        self._ahead = LineCollection([_NOTHING] * 3, colors=colours, linestyles=styles, linewidths=1.0)
        self._past = LineCollection([_NOTHING] * 3, colors=colours, linestyles=styles, linewidths=3.2)
        self._drawn_ahead = None
        for collection in (self._ahead, self._past):
            axes.add_collection(collection, autolim=False)
        self.now = axes.axvline(0, color=INK, linewidth=1.4, linestyle=(0, (1, 1.5)))
        self.cross = axes.plot([], [], marker="X", markersize=13, color=VERMILION, markeredgecolor=INK, ls="none")[0]
        ground = {"facecolor": "white", "edgecolor": "none", "pad": 1.0}
        self.reached = axes.text(0, 0, "", fontweight="bold", ha="right", va="bottom", bbox=ground)
        self._names = (f"{other} heads", "oil", f"{self.gauge} heads,\nwith the gauge")
        self._labels = [
            axes.text(CLIMB_MIN + 0.4, 0, "", color=c, fontweight="bold", va="center", fontsize=12, linespacing=1.1)
            for c in colours
        ]

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self._ahead, *self._labels, self._past, self.now, self.cross, self.reached]

    def update(self, shown):
        """Show a `Shown`."""
        climb, minute = shown.climb, shown.minute
        begin = climb.begins_min
        moments = np.linspace(begin, CLIMB_MIN, _MOMENTS)
        bends = [-RUN_UP_MIN, 0.0, min(climb.plan.change_min, CLIMB_MIN), min(max(minute, begin), CLIMB_MIN)]
        moments = np.union1d(moments, bends)
        temperatures = climb.temperatures_c(moments)
        lines = [np.column_stack([moments, temperatures[:, row]]) for row in self._rows]
        past = [line[moments <= minute + 1e-9] for line in lines]
        seen = [_NOTHING, *past[1:]] if shown.pilot else past
        self._past.set_segments([line if len(line) else _NOTHING for line in seen])
        ahead = None if shown.pilot else climb.plan
        if ahead != self._drawn_ahead:
            self._drawn_ahead = ahead
            self._ahead.set_segments([_NOTHING] * 3 if shown.pilot else lines)
        self.now.set_xdata([minute, minute])
        # What is ahead is hidden from the pilot, so the names stand beside what the gauges show now.
        at = [line[-1, 1] if len(line) else climb.plan.outside_c for line in (past if shown.pilot else lines)]
        self._name_curves([float(y) for y in at], shown.pilot)
        self._show_reached(climb, shown.pilot)

    def _name_curves(self, ends, hidden):
        # Banks that are alike have one name.
        alike = abs(ends[0] - ends[2]) < 1.0 and not hidden
        texts = ["" if alike or hidden else self._names[0], self._names[1], _BOTH if alike else self._names[2]]
        named = sorted((i for i in range(3) if texts[i]), key=lambda i: -ends[i])
        heights = apart([min(ends[i], _HIGHEST - 14) for i in named], 33.0, _LOWEST + 8)
        places = dict(zip(named, heights, strict=True))
        for i, label in enumerate(self._labels):
            label.set(text=texts[i] if i in places else "", y=places.get(i, 0))

    def _show_reached(self, climb, hidden):
        first = None if hidden else climb.first
        if first is None:
            self.cross.set_data([], [])
            self.reached.set_text("")
            return
        limit = climb.limits_c[first.part]
        self.cross.set_data([first.minutes], [limit])
        self.reached.set_text(duration(first.minutes))
        self.reached.set_position((first.minutes - 0.5, limit + 8))


class Cowl:
    """The cowl from the front: what is in each intake, and the winter kit."""

    def __init__(self, axes, kit):
        self._kit = kit
        axes.set(xlim=(-5.2, 5.2), ylim=(-3.1, 3.0), aspect="equal")
        axes.axis("off")
        shape = FancyBboxPatch((-3.6, -1.7), 7.2, 2.9, boxstyle="round,pad=0.4,rounding_size=1.3", facecolor=PALE,
                               edgecolor=INK, linewidth=1.8)  # fmt: skip
        axes.add_patch(shape)
        # From the front the left side of the aircraft is on the right.
        self._places = {LEFT: (1.15, 2.1), RIGHT: (-3.25, 2.1)}
        for x, width in self._places.values():
            axes.add_patch(Rectangle((x, -0.35), width, 1.15, facecolor=INK, edgecolor=INK, linewidth=1.6))
        axes.add_patch(Rectangle((-0.8, -1.75), 1.35, 0.62, facecolor=INK, edgecolor=INK))
        axes.add_patch(Ellipse((0, 0.1), 0.45, 5.0, angle=-12, facecolor="#d0d4d8", edgecolor=INK, linewidth=1.2))
        axes.add_patch(Circle((0, 0.1), 0.62, facecolor="white", edgecolor=INK, linewidth=1.6))
        axes.text(0.68, -1.44, "oil cooler", va="center", fontsize=10.5)
        self.plates = PolyCollection([_NOTHING], facecolors=SKY, edgecolors=INK, hatch="xx", linewidths=1.2)
        self.stuffed = PolyCollection([_NOTHING], facecolors=_STUFFED, edgecolors="white", hatch="///", linewidths=1.0)
        for collection in (self.plates, self.stuffed):
            axes.add_collection(collection, autolim=False)
        self._words = {s: axes.text(x, 2.0, "", **CENTRED, fontsize=11.5) for s, x in ((LEFT, 3.1), (RIGHT, -2.8))}
        self.below = axes.text(0, -2.8, "", **CENTRED, fontsize=11.5)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self.plates, self.stuffed, *self._words.values(), self.below]

    def update(self, plan):
        """Show what a `Plan` has in the intakes, or nothing without one."""
        if plan is None:
            self.plates.set_verts([_NOTHING])
            self.stuffed.set_verts([_NOTHING])
            for side, words in self._words.items():
                words.set_text(f"{side}: ?")
            self.below.set_text("from the front: nobody looked")
            return
        stuffed, plates = [], [_box(-0.8, -1.75, 1.35 * self._kit.covers_cooler, 0.62)] if plan.kit else []
        for side, blocked in ((LEFT, plan.left), (RIGHT, plan.right)):
            x, width = self._places[side]
            if plan.kit:
                covered = 1.15 * self._kit.covers_intakes
                plates.append(_box(x, 0.8 - covered, width, covered))
            if blocked:
                stuffed.append(_box(x, -0.35, width, 1.15 * blocked))
            free = "kit" if plan.kit else "clear"
            self._words[side].set_text(f"{side}: {100 * blocked:.0f} %" if blocked else f"{side}: {free}")
        self.plates.set_verts(plates or [_NOTHING])
        self.stuffed.set_verts(stuffed or [_NOTHING])
        self.below.set_text("from the front, winter kit on" if plan.kit else "from the front")


def _box(x, y, width, height):
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
