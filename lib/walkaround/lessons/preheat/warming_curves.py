"""How warm each part of an engine gets during a preheat and the wait after it, as curves."""

import numpy as np
from matplotlib.collections import LineCollection, PathCollection
from matplotlib.markers import MarkerStyle
from matplotlib.patches import Rectangle
from matplotlib.transforms import IdentityTransform

from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, PALE, VERMILION
from walkaround.physics.preheat.words import on_scale, whole_minutes
from walkaround.units import fahrenheit

# A line style beside every colour, and a marker for the moment at which the part is ready.
PART_LOOKS = {
    "metal": (BLUE, "-", "s"),
    "oil": (ORANGE, (0, (5, 1.6)), "o"),
    "cylinders": (GREEN, (0, (6, 1.5, 1.2, 1.5)), "^"),
}
SPANS_MIN = (15, 30, 45, 60, 90, 120, 180, 240, 360, 480, 720, 1440, 2880)
_MOST_ZIGZAGS = 120
_ROOM = 1.48  # of the time axis, for names behind the curves
_NOTHING = np.full((1, 2), np.nan)
_MOMENTS = 60  # of a curve: straight lines between them stay within the pen's width
_MARKER = 11  # size in points


class WarmingCurves:
    """Temperature of each part over heating and wait, what each has to reach, and when all have.

    All lines are one artist, and so are all marks: a dozen separate ones take twice as long to draw. `lines` and
    `marks` hold what is shown by name, as corners of shape (n, 2) in minutes and °C; what is hidden is NaN.
    """

    def __init__(self, axes, parts):
        self.axes, self.parts, self.spans = axes, parts, None
        axes.set_title("How warm the engine gets", pad=9)
        axes.set_xlabel("minutes from switching on")
        self.in_fahrenheit = axes.twinx()
        axes.text(-0.015, 1.03, "°C", ha="right", transform=axes.transAxes)
        axes.text(1.015, 1.03, "°F", ha="left", transform=axes.transAxes)
        self.in_fahrenheit.grid(False)
        self.in_fahrenheit.spines["right"].set_visible(True)
        # Names of the curves stand at their ends, over the paper of the axes.
        ground = {"facecolor": "white", "edgecolor": "none", "pad": 1.0}
        self._heating = axes.add_patch(Rectangle((0, 0), 1, 1, facecolor=PALE, edgecolor="none"))
        self._heating_words = axes.text(0, 0, "", va="bottom", fontsize=12)
        self._waiting_words = axes.text(0, 0, "", va="bottom", fontsize=12)
        self._air_words = axes.text(0, 0, "heater's air", color=INK, fontsize=12, va="top")
        # Stays below the words at the top of the axes.
        self.now = axes.axvline(0, 0, 0.92, color=INK, linewidth=1.4, linestyle=(0, (1, 1.5)))
        self.ready_words = axes.text(0, 0, "", color=VERMILION, fontweight="bold", bbox=ground, va="top")
        self._names = {p: axes.text(0, 0, p, fontweight="bold", va="center", bbox=ground) for p in parts}
        self._needs = {p: axes.text(0, 0, "", va="center", fontsize=11.5) for p in parts}
        looks = {"heater's air": (FAINT, "-", 1.0), "ready": (VERMILION, "-", 2.0)}
        looks |= {f"{p} needs": (PART_LOOKS[p][0], (0, (1, 2)), 1.3) for p in parts}
        looks |= {p: (*PART_LOOKS[p][:2], 2.8) for p in parts}
        self.lines, self.marks = dict.fromkeys(looks, _NOTHING), dict.fromkeys(parts, _NOTHING)
        colours, styles, widths = zip(*looks.values(), strict=True)
        self._lines = LineCollection(
            [_NOTHING] * len(looks), colors=colours, linestyles=styles, linewidths=widths, joinstyle="round"
        )
        shapes = [MarkerStyle(PART_LOOKS[p][2]) for p in parts]
        self._marks = PathCollection(
            [s.get_path().transformed(s.get_transform()) for s in shapes],
            sizes=[_MARKER**2],
            facecolors=[PART_LOOKS[p][0] for p in parts],
            edgecolors=INK,
            linewidths=1.0,
            offsets=[(np.nan, np.nan)] * len(parts),
            offset_transform=axes.transData,
        )
        self._marks.set_transform(IdentityTransform())  # sizes in points, not in minutes and degrees
        for collection in (self._lines, self._marks):
            axes.add_collection(collection, autolim=False)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order, but for `now`."""
        words = (self.ready_words, self._air_words, self._heating_words, self._waiting_words)
        return [self._heating, self._lines, self._marks, *self._names.values(), *self._needs.values(), *words]

    def update(self, plan, now_minutes, scale="°C"):
        """Show a `physics.preheat.Plan` of one setting, and a moment in minutes."""
        self.now.set_xdata([now_minutes, now_minutes])
        heat, wait = float(plan.heat_minutes), float(plan.wait_minutes)
        minutes = np.append(np.linspace(0.0, heat, _MOMENTS), heat + np.linspace(0.0, wait, _MOMENTS)[1:])
        minutes = minutes if heat and wait else minutes[minutes.size // 2 :] if wait else minutes[:_MOMENTS]
        temperatures = plan.temperatures_c(minutes)
        self._span(heat + wait, temperatures, float(plan.warming.outside_c))
        right, (low, high) = self.axes.get_xlim()[1], self.axes.get_ylim()
        height = high - low
        self._heating.set_bounds(0, low, heat, 0.055 * height)
        self._heating_words.set_position((0.01 * right, low + 0.008 * height))
        self._heating_words.set_text(_fitting("heat on", heat, right))
        self._waiting_words.set_position((heat + 0.01 * right, low + 0.008 * height))
        self._waiting_words.set_text(_fitting("heat off", wait, right))
        self._show_air(plan, heat, right, height)
        self._show_ready(plan, heat, right, low, high)
        labels = []
        for i, part in enumerate(self.parts):
            self.lines[part] = np.column_stack([minutes, temperatures[:, i]])
            wanted, reached = float(plan.ready_c[part]), float(plan.reached_minutes[part])
            self.lines[f"{part} needs"] = np.array([(0.0, wanted), (heat + wait, wanted)])
            self.marks[part] = np.array([(reached, wanted)]) if reached <= heat else _NOTHING
            labels.append((float(temperatures[-1, i]), self._names[part]))
            # Cylinders that need what the metal needs share its line and its label.
            shared = part == "cylinders" and wanted == plan.ready_c["metal"]
            self._needs[part].set_text("" if shared else f"{part} ready {on_scale(wanted, scale)}")
            if not shared:
                labels.append((wanted, self._needs[part]))
        heights = _apart([y for y, _ in labels], 0.058 * height, low + 0.09 * height)
        for y, (_, text) in zip(heights, labels, strict=True):
            text.set_position((heat + wait + 0.012 * right, y))
        self._lines.set_segments(list(self.lines.values()))
        self._marks.set_offsets(np.concatenate(list(self.marks.values())))

    def _span(self, minutes, temperatures, outside_c):
        """Axes that hold the curves, rounded so that they stay still while a slider moves a little."""
        low = 10 * np.floor((min(outside_c, temperatures.min()) - 4) / 10)
        high = 10 * np.ceil((max(temperatures.max(), 20.0) + 6) / 10)
        span = next((s for s in SPANS_MIN if s >= minutes), minutes)
        spans = (span, low, high)
        if spans != self.spans:
            self.spans = spans
            self.axes.set_xlim(0, _ROOM * span)
            self.axes.set_ylim(low, high)
            steps = next((n for n in (4, 3) if span / n % 5 == 0), 4)
            self.axes.set_xticks(np.linspace(0, span, steps + 1))
            self.in_fahrenheit.set_ylim(float(fahrenheit(low)), float(fahrenheit(high)))

    def _show_air(self, plan, heat, right, height):
        on = plan.warming.cycle is not None and heat > 0
        self._air_words.set_visible(on)
        if not on:
            self.lines["heater's air"] = _NOTHING
            return
        # At every switching the air turns round; straight lines between those moments are within the pen's width.
        turns = plan.warming.switchings_minutes(heat)
        turns = turns[:: 1 + 2 * (turns.size // (2 * _MOST_ZIGZAGS))]
        between = np.linspace(0.0, heat, 80) if turns.size < 40 else np.linspace(0.0, turns[0], 20)
        minutes = np.unique(np.concatenate([between, turns, [heat]]))
        air = plan.warming.temperature_c("air", minutes)
        self.lines["heater's air"] = np.column_stack([minutes, air])
        # Under the curve, clear of the words at the top of the axes.
        settled = air[minutes >= 0.3 * heat].min()
        self._air_words.set_position((0.04 * right, settled - 0.008 * height))

    def _show_ready(self, plan, heat, right, low, high):
        ready = float(plan.ready_minutes)
        seen = ready <= heat
        self.lines["ready"] = np.array([(ready, low), (ready, high)]) if seen else _NOTHING
        if seen:
            text = f"ready: {whole_minutes(ready)} min"
        else:
            text = "never ready like this" if np.isinf(ready) else f"not ready: takes {whole_minutes(ready)} min"
        self.ready_words.set_text(text)
        place = ready if seen else 0.35 * right
        late = place > 0.6 * right
        self.ready_words.set_ha("right" if late else "left")
        self.ready_words.set_position((place + (-0.015 if late else 0.015) * right, high - 0.015 * (high - low)))


def _apart(heights, least, low):
    """The heights moved so that no two are closer than `least` and none is below `low`, in their old order.

    >>> _apart([5.0, 4.9, 0.0], 1.0, 0.0)
    [5.0, 4.0, 0.0]
    """
    order = sorted(range(len(heights)), key=lambda i: -heights[i])
    moved, last = list(heights), np.inf
    for i in order:
        moved[i] = last = min(heights[i], last - least)
    lowest = low
    for i in reversed(order):
        moved[i] = max(moved[i], lowest)
        lowest = moved[i] + least
    return [float(m) for m in moved]


def _fitting(words, minutes, right):
    """The words where there is room for them on the time axis, nothing otherwise."""
    return words if minutes > 0.15 * right else ""
