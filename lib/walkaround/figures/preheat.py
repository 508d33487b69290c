"""A preheat as a picture: curves of every part with the moment they are ready, the engine itself, and its oil."""

import numpy as np
from matplotlib.colors import LinearSegmentedColormap
from matplotlib.patches import FancyBboxPatch, Polygon, Rectangle

from walkaround.figures.style import BLUE, FAINT, GREEN, INK, ORANGE, PALE, VERMILION, new_figure, styled
from walkaround.units import fahrenheit
from walkaround.viscosity import times_thicker, viscosity_mm2_s

# A line style beside every colour, and a marker for the moment at which the part is ready.
PART_LOOKS = {
    "metal": (BLUE, "-", "s"),
    "oil": (ORANGE, (0, (5, 1.6)), "o"),
    "cylinders": (GREEN, (0, (6, 1.5, 1.2, 1.5)), "^"),
}
SPANS_MIN = (15, 30, 45, 60, 90, 120, 180, 240, 360, 480, 720, 1440, 2880)
# From light to dark as it gets warmer, so that it reads in grey too.
SHADES = LinearSegmentedColormap.from_list("warmth", ["#eaf4fb", "#f7d9a8", "#e8853d", "#a33a00", "#5c1a00"])
COLDEST_C, HOTTEST_C = -40.0, 90.0
CELSIUS, FAHRENHEIT = "°C", "°F"
_MOST_ZIGZAGS = 120
_ROOM = 1.4  # of the time axis, for names behind the curves


def shade(temperature_c):
    """Colour of a part at a temperature in °C; the warmer the darker.

    >>> shade(-40.0) == shade(-60.0), shade(0.0) == shade(40.0)
    (True, False)
    """
    return SHADES(float(np.clip((temperature_c - COLDEST_C) / (HOTTEST_C - COLDEST_C), 0.0, 1.0)))


class PreheatPicture:
    """Curves on the left; the engine and its oil on the right. `show` moves the moving artists only.

    `oil` has `viscosity_40_mm2_s`, `viscosity_100_mm2_s` and `pour_point_c`, as the oil of an aircraft file has.
    `show` takes (plan, now_minutes, scale): a `preheat_plan.Plan` of one setting, the moment to show the engine at, and
    "°C" or "°F" for the words (°C if left out; the axis of the curves has both).
    """

    def __init__(self, parts, ready_c, oil, width_px=980, height_px=560):
        with styled():
            self.figure = new_figure(width_px, height_px)
            self.curves = WarmingCurves(self.figure.add_axes((0.06, 0.115, 0.525, 0.8)), parts)
            self.engine = EngineSketch(self.figure.add_axes((0.635, 0.46, 0.36, 0.53)), parts)
            self.thickness = OilThickness(
                self.figure.add_axes((0.715, 0.115, 0.255, 0.27)), oil, ready_c["oil"]
            )

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        return [*self.curves.moving, *self.engine.moving, *self.thickness.moving]

    def still(self, result):
        """What the still parts depend on: the span of the axes."""
        return self.curves.spans

    def show(self, result):
        """Move the artists to (plan, now_minutes, scale)."""
        plan, now_minutes, scale = (*result, CELSIUS)[:3]
        self.curves.update(plan, now_minutes, scale)
        temperatures = dict(zip((*plan.warming.parts, "air"), plan.temperatures_c(now_minutes), strict=True))
        heating = bool(now_minutes <= plan.heat_minutes)
        self.engine.update(
            temperatures,
            plan.ready_c,
            air_on=heating and plan.warming.cycle is not None,
            pad_on=heating and bool(plan.warming.pad_w > 0),
            cover_on=bool(plan.cover if heating else plan.cover_while_waiting),
            scale=scale,
        )
        self.thickness.update(temperatures["oil"])


class WarmingCurves:
    """Temperature of each part over heating and wait, what each has to reach, and when all have."""

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
        self._heating = axes.add_patch(Rectangle((0, 0), 1, 1, facecolor=PALE, edgecolor="none", zorder=0.5))
        self._heating_words = axes.text(0, 0, "", va="bottom", fontsize=12)
        self._waiting_words = axes.text(0, 0, "", va="bottom", fontsize=12)
        self._air = axes.plot([], [], color=FAINT, linewidth=1.0, zorder=1.5)[0]
        self._air_words = axes.text(0, 0, "heater's air", color=INK, fontsize=12, va="top")
        self._now = axes.axvline(0, color=INK, linewidth=1.4, linestyle=(0, (1, 1.5)), zorder=2)
        self._ready_moment = axes.axvline(0, color=VERMILION, linewidth=2.0, zorder=2)
        self._ready_words = axes.text(
            0, 0, "", color=VERMILION, fontweight="bold", bbox=ground, zorder=6, va="top"
        )
        self._curves, self._wanted, self._reached, self._names, self._needs = {}, {}, {}, {}, {}
        self._shown = None
        for part in parts:
            colour, line, marker = PART_LOOKS[part]
            self._wanted[part] = axes.plot(
                [], [], color=colour, linewidth=1.3, linestyle=(0, (1, 2)), zorder=2
            )[0]
            self._curves[part] = axes.plot([], [], color=colour, linestyle=line, linewidth=2.8, zorder=3)[0]
            self._reached[part] = axes.plot(
                [],
                [],
                linestyle="none",
                marker=marker,
                markersize=11,
                color=colour,
                markeredgecolor=INK,
                zorder=5,
            )[0]
            self._names[part] = axes.text(
                0, 0, part, color=INK, fontweight="bold", va="center", bbox=ground, zorder=6
            )
            self._needs[part] = axes.text(0, 0, "", color=INK, va="center", fontsize=11.5, zorder=6)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [
            self._heating, self._air, self._now, self._ready_moment, *self._wanted.values(), *self._curves.values(),
            *self._reached.values(), *self._names.values(), *self._needs.values(), self._ready_words, self._air_words, self._heating_words,
            self._waiting_words,
        ]  # fmt: skip

    def update(self, plan, now_minutes, scale=CELSIUS):
        """Show a `preheat_plan.Plan` of one setting, and a moment; the same plan again moves the moment only."""
        self._now.set_xdata([now_minutes, now_minutes])
        if self._shown is not None and plan is self._shown[0] and scale == self._shown[1]:
            return
        self._shown = plan, scale
        heat, wait = float(plan.heat_minutes), float(plan.wait_minutes)
        minutes = np.unique(np.append(np.linspace(0.0, heat + wait, 160), heat))
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
            self._curves[part].set_data(minutes, temperatures[:, i])
            wanted, reached = float(plan.ready_c[part]), float(plan.reached_minutes[part])
            self._wanted[part].set_data([0, heat + wait], [wanted, wanted])
            self._reached[part].set_data([reached], [wanted])
            self._reached[part].set_visible(reached <= heat)
            labels.append((float(temperatures[-1, i]), self._names[part]))
            # Cylinders that need what the metal needs share its line and its label.
            shared = part == "cylinders" and wanted == plan.ready_c["metal"]
            self._needs[part].set_text("" if shared else f"{part} ready {_degrees(wanted, scale)}")
            if not shared:
                labels.append((wanted, self._needs[part]))
        heights = _apart([y for y, _ in labels], 0.058 * height, low + 0.09 * height)
        for y, (_, text) in zip(heights, labels, strict=True):
            text.set_position((heat + wait + 0.012 * right, y))

    def _span(self, minutes, temperatures, outside_c):
        """Axes that hold the curves: rounded, so that they stay still while a slider moves a little."""
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
        self._air.set_visible(on)
        self._air_words.set_visible(on)
        if not on:
            return
        # At every switching the air turns round; straight lines between those moments are within the pen's width.
        turns = plan.warming.switchings_minutes(heat)
        turns = turns[:: 1 + 2 * (turns.size // (2 * _MOST_ZIGZAGS))]
        between = np.linspace(0.0, heat, 80) if turns.size < 40 else np.linspace(0.0, turns[0], 20)
        minutes = np.unique(np.concatenate([between, turns, [heat]]))
        air = plan.warming.temperature_c("air", minutes)
        self._air.set_data(minutes, air)
        # Under the curve, clear of the words at the top of the axes.
        settled = air[minutes >= 0.3 * heat].min()
        self._air_words.set_position((0.04 * right, settled - 0.008 * height))

    def _show_ready(self, plan, heat, right, low, high):
        ready = float(plan.ready_minutes)
        seen = ready <= heat
        self._ready_moment.set_visible(seen)
        if seen:
            self._ready_moment.set_xdata([ready, ready])
            text = f"ready: {_whole(ready)} min"
        else:
            text = "never ready like this" if np.isinf(ready) else f"not ready: takes {_whole(ready)} min"
        self._ready_words.set_text(text)
        place = ready if seen else 0.35 * right
        late = place > 0.6 * right
        self._ready_words.set_ha("right" if late else "left")
        self._ready_words.set_position(
            (place + (-0.015 if late else 0.015) * right, high - 0.015 * (high - low))
        )


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


class EngineSketch:
    """A flat engine seen from the front, each part in the shade of its temperature, with warm air, pad and cover."""

    def __init__(self, axes, parts):
        self.parts = parts
        axes.set(xlim=(-4.6, 4.6), ylim=(-3.75, 3.55))
        axes.set_aspect("equal")
        axes.axis("off")
        edge = {"edgecolor": INK, "linewidth": 1.8}
        self._shapes = {part: [] for part in parts}
        cylinders = "cylinders" if "cylinders" in parts else "metal"
        for side in (-1, 1):
            barrel = Rectangle((1.3 if side > 0 else -3.4, -0.5), 2.1, 1.4, **edge)
            head = Rectangle((3.4 if side > 0 else -4.0, -0.7), 0.6, 1.8, **edge)
            self._shapes[cylinders] += [axes.add_patch(barrel), axes.add_patch(head)]
        case = Polygon([(-1.3, -1.0), (1.3, -1.0), (1.3, 1.2), (0.7, 1.8), (-0.7, 1.8), (-1.3, 1.2)], **edge)
        self._shapes["metal"].append(axes.add_patch(case))
        sump = Polygon([(-1.75, -1.0), (1.75, -1.0), (1.4, -2.5), (-1.4, -2.5)], **edge)
        self._shapes["oil"].append(axes.add_patch(sump))
        # Cooling fins, one broken line over all barrels.
        at = [side * x for side in (-1, 1) for x in np.linspace(1.65, 3.1, 6)]
        fins = axes.plot(
            np.repeat(at, 3), [-0.72, 1.12, np.nan] * len(at), color=INK, linewidth=1.2, zorder=3
        )[0]
        self._pad = axes.add_patch(
            Rectangle((-1.4, -2.72), 2.8, 0.22, facecolor=VERMILION, hatch="//", **edge)
        )
        self._cover = axes.add_patch(
            FancyBboxPatch(
                (-4.35, -2.95), 8.7, 5.15, boxstyle="round,pad=0,rounding_size=0.6", facecolor="none", edgecolor=INK,
                linewidth=3.5, linestyle=(0, (2.2, 1.1)),
            )
        )  # fmt: skip
        self._arrow = axes.add_patch(
            Polygon(
                [(3.05, 3.1), (3.05, 2.0), (2.7, 2.0), (3.3, 1.3), (3.9, 2.0), (3.55, 2.0), (3.55, 3.1)],
                edgecolor=INK, linewidth=1.2, zorder=4,
            )
        )  # fmt: skip
        places = {"metal": (0, 0.35), "oil": (0, -1.7), "cylinders": (-2.35, 1.7)}
        self._degrees = {
            p: axes.text(*places[p], "", ha="center", va="center", fontsize=12, zorder=5, linespacing=1.1)
            for p in parts
        }
        self._states = axes.text(0, -3.4, "", ha="center", va="center", fontweight="bold")
        self._doing = axes.text(-4.5, 3.1, "", va="center", fontsize=12)
        self._fins = fins

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        shapes = [shape for part in self.parts for shape in self._shapes[part]]
        return [
            *shapes, self._fins, self._pad, self._cover, self._arrow, *self._degrees.values(), self._states, self._doing,
        ]  # fmt: skip

    def update(self, temperatures, ready_c, air_on=False, pad_on=False, cover_on=False, scale=CELSIUS):
        """Shade the parts: `temperatures` and `ready_c` by part in °C, the heater's air under "air"."""
        cold = []
        for part in self.parts:
            temperature = float(temperatures[part])
            colour = shade(temperature)
            for shape in self._shapes[part]:
                shape.set_facecolor(colour)
            self._degrees[part].set_text(f"{part}\n{_degrees(temperature, scale)}")
            dark = part != "cylinders" and np.dot(colour[:3], (0.299, 0.587, 0.114)) < 0.5
            self._degrees[part].set_color("white" if dark else INK)
            if temperature < ready_c[part] - 1e-6:
                cold.append(part)
        self._arrow.set_visible(air_on)
        self._pad.set_visible(pad_on)
        self._cover.set_visible(cover_on)
        doing = [f"warm air {_degrees(temperatures['air'], scale)}"] if air_on else []
        doing += ["pad on"] if pad_on else []
        doing += ["cover on"] if cover_on else []
        if air_on:
            self._arrow.set_facecolor(shade(float(temperatures["air"])))
        self._doing.set_text(", ".join(doing) if doing else "heat off, cover off")
        self._states.set_text(f"not ready: {', '.join(cold)}" if cold else "all parts ready")
        self._states.set_color(VERMILION if cold else INK)


def _degrees(temperature_c, scale=CELSIUS):
    temperature = fahrenheit(temperature_c) if scale == FAHRENHEIT else temperature_c
    return f"{round(float(temperature)):d} {scale}".replace("-", "−")


def _whole(minutes):
    """Minutes rounded up: what is said has to be long enough."""
    return int(np.ceil(float(minutes) - 1e-9))


class OilThickness:
    """How thick the oil is against its temperature, and where it stands now."""

    def __init__(self, axes, oil, ready_c):
        self._oil = (oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s)
        self._ready_c = ready_c
        axes.set_title("How thick the oil is")
        axes.set_xlabel("oil, °C")
        axes.set_ylabel("mm²/s")
        cold, hot = -40.0, 100.0
        temperatures = np.linspace(cold, hot, 120)
        thickness = viscosity_mm2_s(temperatures, *self._oil)
        axes.set_xlim(cold, hot)
        axes.set_xticks([-40, 0, 40, 80])
        axes.set_yscale("log")
        axes.set_ylim(thickness.min() / 2, thickness.max() * 2)
        axes.minorticks_off()
        flows = temperatures >= oil.pour_point_c
        axes.plot(temperatures[flows], thickness[flows], color=ORANGE)
        axes.axvspan(cold, oil.pour_point_c, facecolor="#d0d4d8", edgecolor="none")
        bottom = thickness.min()
        if oil.pour_point_c - cold > 12:
            axes.text(
                (cold + oil.pour_point_c) / 2,
                bottom,
                "does not flow",
                rotation=90,
                ha="center",
                va="bottom",
                fontsize=11.5,
            )
        thick = viscosity_mm2_s(ready_c, *self._oil)
        axes.plot(ready_c, thick, marker="o", markersize=9, markerfacecolor="white", color=INK)
        axes.annotate(
            "ready",
            (ready_c, thick),
            (-7, -4),
            textcoords="offset points",
            ha="right",
            va="top",
            fontsize=11.5,
        )
        self._pour_c = oil.pour_point_c
        self._now = axes.plot(
            [], [], marker="o", markersize=11, color=ORANGE, markeredgecolor=INK, linestyle="none"
        )[0]
        self._words = axes.text(
            0.985, 0.97, "", ha="right", va="top", transform=axes.transAxes, fontsize=12, linespacing=1.15
        )

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self._now, self._words]

    def update(self, oil_c):
        """Show oil at a temperature in °C."""
        oil_c = float(oil_c)
        shown = np.clip(oil_c, -60.0, 200.0)
        self._now.set_data([shown], [viscosity_mm2_s(shown, *self._oil)])
        self._now.set_visible(oil_c >= self._pour_c)
        times = float(times_thicker(shown, self._ready_c, *self._oil))
        if oil_c < self._pour_c:
            text = "stiff: below\nits pour point"
        elif times >= 1.05:
            text = (
                f"{times:.2g} times thicker\nthan when ready"
                if times < 9.5
                else f"{times:,.0f} times thicker\nthan when ready"
            )
        else:
            text = "as thin as\nwhen ready" if times > 0.95 else "thinner than\nwhen ready"
        self._words.set_text(text)


def hangar_table(outside_c, columns, minutes, title, notes=(), width_px=1169, height_px=827):
    """Return a figure to print for the hangar wall: minutes to ready, a row for each temperature outside.

    Parameters: `outside_c`, shape (rows,); `columns`, a heading for each column; `minutes`, shape (rows,
    columns), infinite where the engine never gets ready; `title`, and `notes` to stand under the table. The
    size is a sheet of A4 across.
    """
    minutes = np.asarray(minutes, dtype=float)
    rows, count = minutes.shape
    with styled():
        figure = new_figure(width_px, height_px)
        axes = figure.add_axes((0.05, 0.03, 0.9, 0.94))
    axes.axis("off")
    axes.set(xlim=(0, 1), ylim=(0, 1))
    # Letters as large as both a row and a column have room for: this is read from across a hangar.
    widest = max(len(line) for heading in columns for line in heading.split("\n"))
    row_px, column_px = 0.94 * height_px / (rows + 5), 0.72 * 0.9 * width_px / count
    size = float(np.clip(min(0.46 * row_px, 0.9 * column_px / max(widest, 7) / 0.7 * 0.72), 8, 24))
    small = float(min(0.72 * size, 0.9 * width_px * 0.72 / max([len(n) for n in notes] + [1]) / 0.6))
    line = 1.0 / (rows + 4 + 0.7 * len(notes))
    axes.text(0, 1 - 0.6 * line, title, fontsize=1.15 * size, fontweight="bold", va="center")
    left = 0.28
    across = [left + (1 - left) * (i + 0.5) / count for i in range(count)]
    head = 1 - 2.0 * line
    axes.text(0.14, head, "outside", fontsize=size, fontweight="bold", ha="center", va="center")
    for x, heading in zip(across, columns, strict=True):
        axes.text(
            x,
            head,
            heading,
            fontsize=0.9 * size,
            fontweight="bold",
            ha="center",
            va="center",
            linespacing=1.1,
        )
    for i, (outside, row) in enumerate(zip(outside_c, minutes, strict=True)):
        y = head - (i + 1.35) * line
        if i % 2 == 0:
            axes.add_patch(Rectangle((0, y - line / 2), 1, line, facecolor=PALE, edgecolor="none"))
        fahrenheit_text = f"{round(float(fahrenheit(outside))):d} °F".replace("-", "−")
        for x, text in ((0.115, _degrees(outside)), (0.24, fahrenheit_text)):
            axes.text(x, y, text, fontsize=size, ha="right", va="center")
        for x, value in zip(across, row, strict=True):
            never = not np.isfinite(value)
            text = "never" if never else f"{_whole(value)} min"
            axes.text(
                x, y, text, fontsize=size, ha="center", va="center", style="italic" if never else "normal"
            )
    axes.plot([0, 1], [head - 0.8 * line] * 2, color=INK, linewidth=1.6)
    for i, note in enumerate(reversed(notes)):
        axes.text(0, (0.3 + 0.7 * i) * line, note, fontsize=small, va="center")
    return figure
