"""How warm each part of an engine gets during a preheat and the wait after it, as curves."""

import numpy as np
from matplotlib.collections import LineCollection, PathCollection
from matplotlib.markers import MarkerStyle
from matplotlib.patches import Rectangle
from matplotlib.transforms import IdentityTransform

from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, PALE, VERMILION
from walkaround.live.labels import apart
from walkaround.physics.preheat.words import CELSIUS, duration, heats, on_scale
from walkaround.units import fahrenheit

# A line style beside every colour, and a marker for the moment at which the part is ready.
PART_LOOKS = {
    "metal": (BLUE, "-", "s"),
    "oil": (ORANGE, (0, (5, 1.6)), "o"),
    "cylinders": (GREEN, (0, (6, 1.5, 1.2, 1.5)), "^"),
}
SPANS_MIN = (15, 30, 45, 60, 90, 120, 180, 240, 360, 480, 720, 1440, 2880)
_MOST_TEETH = 60  # of the heater's air across the time axis: more of them can't be told apart
_ROOM = 1.54  # of the time axis, for names behind the curves
_NOTHING = np.full((1, 2), np.nan)
_MOMENTS = 60  # of a curve: straight lines between them stay within the pen's width
_MARKER = 11  # size in points


class WarmingCurves:
    """Temperature of each part over heating and wait, what each has to reach, and when all have.

    All lines are one artist, and so are all marks: a dozen separate ones take twice as long to draw. `lines` and
    `marks` hold what is shown by name, as corners of shape (n, 2) in minutes and °C; what is hidden is NaN.
    Without `both_scales` there is no axis in °F.
    """

    def __init__(self, axes, parts, both_scales=True):
        self.axes, self.parts, self.spans = axes, parts, None
        axes.set_title("How warm the engine gets", pad=9)
        axes.set_xlabel("minutes from switching on")
        self.in_fahrenheit = axes.twinx() if both_scales else None
        axes.spines["right"].set_visible(both_scales)
        self.left = axes.text(-0.015, 1.03, "", ha="right", transform=axes.transAxes)
        self.right = axes.text(1.015, 1.03, "", ha="left", transform=axes.transAxes)
        # Names of the curves stand at their ends, over the paper of the axes.
        ground = {"facecolor": "white", "edgecolor": "none", "pad": 1.0}
        self._heating = axes.add_patch(Rectangle((0, 0), 1, 1, facecolor=PALE, edgecolor="none"))
        # The heater's air where it goes up and down too fast to be drawn as a line.
        self.band = axes.add_patch(Rectangle((0, 0), 1, 1, facecolor="#d5d5d5", edgecolor=FAINT, linewidth=1.0))
        strip = {**ground, "facecolor": PALE}
        self._heating_words = axes.text(0, 0, "heat on", va="center", fontsize=12, bbox=strip)
        self._waiting_words = axes.text(0, 0, "", va="center", fontsize=12)
        self._air_words = axes.text(0, 0, "heater's air", color=INK, fontsize=12, va="center")
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
        drawn = (self._heating, self.band, self._lines, self._marks)
        return [*drawn, *self._names.values(), *self._needs.values(), *words]

    def update(self, plan, now_minutes, scale=CELSIUS):
        """Show a `physics.preheat.Plan` of one setting, and a moment in minutes."""
        self.now.set_xdata([now_minutes, now_minutes])
        heat, wait = float(plan.heat_minutes), float(plan.wait_minutes)
        minutes = np.append(np.linspace(0.0, heat, _MOMENTS), heat + np.linspace(0.0, wait, _MOMENTS)[1:])
        minutes = minutes if heat and wait else minutes[minutes.size // 2 :] if wait else minutes[:_MOMENTS]
        temperatures = plan.temperatures_c(minutes)
        self._span(heat + wait, [*temperatures.flat, *plan.ready_c.values(), float(plan.warming.outside_c)], scale)
        right, (low, high) = self.axes.get_xlim()[1], self.axes.get_ylim()
        height = high - low
        on = heat if heats(plan) else 0.0
        self._heating.set_bounds(0, low, on, 0.07 * height)
        self._heating_words.set_visible(on > 0.15 * right)
        self._heating_words.set_position((0.012 * right, low + 0.033 * height))
        self._waiting_words.set_visible(heat + wait - on > 0.15 * right)
        self._waiting_words.set_position((on + 0.012 * right, low + 0.033 * height))
        self._waiting_words.set_text("heat off" if on else "no heat")
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
        air, gap = self._show_air(plan.warming, heat, right), 0.058 * height
        if air is not None:
            self._air_words.set_position((heat + 0.012 * right, air))
            # At the end of its curve, or in line with the others where it would run into one of them.
            if wait < 0.25 * right and any(abs(air - y) < 2 * gap for y, _ in labels):
                labels.append((air, self._air_words))
        heights = apart([y for y, _ in labels], gap, low + 0.1 * height)
        for y, (_, text) in zip(heights, labels, strict=True):
            text.set_position((heat + wait + 0.012 * right, y))
        self._lines.set_segments(list(self.lines.values()))
        self._marks.set_offsets(np.concatenate(list(self.marks.values())))

    def _span(self, minutes, temperatures_c, scale):
        """Axes that hold the curves, rounded so that they stay still while a slider moves a little."""
        low = 10 * np.floor((min(temperatures_c) - 4) / 10)
        high = 10 * np.ceil((max(*temperatures_c, 20.0) + 8) / 10)
        span = next((s for s in SPANS_MIN if s >= minutes), minutes)
        spans = (span, low, high, scale)
        if spans != self.spans:
            self.spans = spans
            self.axes.set(xlim=(0, _ROOM * span), ylim=(low, high))
            steps = next((n for n in (4, 3) if span / n % 5 == 0), 4)
            self.axes.set_xticks(np.linspace(0, span, steps + 1))
            self._lead_with(scale, low, high)

    def _lead_with(self, scale, low, high):
        if self.in_fahrenheit is None:
            self.left.set_text(CELSIUS)
            return
        self.in_fahrenheit.set_ylim(float(fahrenheit(low)), float(fahrenheit(high)))
        sides = (self.axes, self.in_fahrenheit)
        first, second = sides if scale == CELSIUS else sides[::-1]
        self.left.set_text(scale)
        self.right.set_text("°F" if scale == CELSIUS else CELSIUS)
        first.yaxis.tick_left()
        second.yaxis.tick_right()
        # Lines across the paper at the round numbers of the scale that leads.
        self.axes.yaxis.grid(first is self.axes)
        self.in_fahrenheit.grid(False)
        self.in_fahrenheit.yaxis.grid(first is not self.axes)

    def _show_air(self, warming, heat, right):
        """Show the heater's air while it is on; returns its temperature in °C at the end, None without a heater."""
        cycle = warming.cycle
        on = cycle is not None and heat > 0
        self._air_words.set_visible(on)
        self.band.set_visible(False)
        self.lines["heater's air"] = _NOTHING
        if not on:
            return None
        first, period = float(cycle.first_off_s) / 60, float(cycle.period_s) / 60
        until, end = heat, float(warming.temperature_c("air", heat))
        if first < heat and period * _MOST_TEETH < right / _ROOM:
            low, high = (float(rise + warming.outside_c) for rise in (cycle.on_at, cycle.off_at))
            self.band.set_bounds(first, low, heat - first, high - low)
            self.band.set_visible(True)
            until, end = first, (low + high) / 2
        # At every switching the air turns round.
        turns = [*warming.switchings_minutes(until), *([first] if first < until else [])]
        minutes = np.unique([*np.linspace(0.0, until, 4 * _MOMENTS), *turns])
        self.lines["heater's air"] = np.column_stack([minutes, warming.temperature_c("air", minutes)])
        return end

    def _show_ready(self, plan, heat, right, low, high):
        ready = float(plan.ready_minutes)
        seen = ready <= heat
        self.lines["ready"] = np.array([(ready, low), (ready, high)]) if seen else _NOTHING
        if seen:
            text = f"ready: {duration(ready)}" if ready > 0 else "ready from the start"
        else:
            text = "never ready like this" if np.isinf(ready) else f"not ready: takes {duration(ready)}"
        place = ready if seen else 0.35 * right
        late = place > 0.6 * right
        corner = place + (-0.015 if late else 0.015) * right, high - 0.015 * (high - low)
        self.ready_words.set(text=text, ha="right" if late else "left", position=corner)
