"""A preheat as a picture: curves of every part with the moment they are ready, the engine itself, and its oil."""

import numpy as np

from walkaround.lessons.preheat.engine_sketch import EngineSketch
from walkaround.lessons.preheat.warming_curves import WarmingCurves
from walkaround.live.colours import INK, ORANGE
from walkaround.live.style import new_figure, styled
from walkaround.physics.oil.viscosity import viscosity_mm2_s
from walkaround.physics.preheat.words import CELSIUS, FAHRENHEIT, thickness_words
from walkaround.units import celsius


class PreheatPicture:
    """Curves on the left; the engine and its oil on the right. `show` moves the moving artists only.

    `oil` has `viscosity_40_mm2_s`, `viscosity_100_mm2_s` and `pour_point_c`, as the oil in an aircraft file does.
    `show` takes (plan, now_minutes, scale): a `physics.preheat.Plan` of one setting, the moment at which to show the
    engine, and a scale of `physics.preheat.words`, °C if left out. The curves have an axis for each scale, or without
    `both_scales` only one in °C.
    """

    def __init__(self, parts, ready_c, oil, width_px=860, height_px=490, both_scales=True):
        with styled():
            self.figure = new_figure(width_px, height_px)
            self.curves = WarmingCurves(
                self.figure.add_axes((0.06, 0.115, 0.515 if both_scales else 0.55, 0.8)), parts, both_scales
            )
            self.engine = EngineSketch(self.figure.add_axes((0.635, 0.46, 0.36, 0.53)), parts)
            self.thickness = OilThickness(self.figure.add_axes((0.715, 0.115, 0.255, 0.27)), oil, ready_c["oil"])

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        return [*self.curves.moving, self.curves.now, *self.engine.moving, *self.thickness.moving]

    def still(self, result):
        """What the still parts depend on: the span of the axes, and which scale leads."""
        return self.curves.spans

    def show(self, result):
        """Move the artists to (plan, now_minutes, scale)."""
        plan, now_minutes, scale = (*result, CELSIUS)[:3]
        self.curves.update(plan, now_minutes, scale)
        temperatures = dict(zip((*plan.warming.parts, "air"), plan.temperatures_c(now_minutes), strict=True))
        heating = bool(0 < plan.heat_minutes >= now_minutes)
        self.engine.update(
            temperatures,
            plan.ready_c,
            air_on=heating and plan.warming.cycle is not None,
            pad_on=heating and bool(plan.warming.pad_w > 0),
            cover_on=bool(plan.cover if heating else plan.cover_while_waiting),
            scale=scale,
        )
        self.thickness.update(temperatures["oil"], scale)


class OilThickness:
    """How thick the oil is against its temperature, and where it stands now."""

    def __init__(self, axes, oil, ready_c):
        self._oil = (oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s)
        axes.set_title("How thick the oil is")
        cold, hot = -40.0, 100.0
        temperatures = np.linspace(cold, hot, 120)
        thickness = viscosity_mm2_s(temperatures, *self._oil)
        axes.set(xlim=(cold, hot), yscale="log", ylim=(thickness.min() / 2, thickness.max() * 2), ylabel="mm²/s")
        axes.minorticks_off()
        flows = temperatures >= oil.pour_point_c
        axes.plot(temperatures[flows], thickness[flows], color=ORANGE)
        axes.axvspan(cold, oil.pour_point_c, facecolor="#d0d4d8", edgecolor="none")
        bottom = thickness.min()
        if oil.pour_point_c - cold > 12:
            middle, style = (cold + oil.pour_point_c) / 2, {"ha": "center", "va": "bottom", "fontsize": 11.5}
            axes.text(middle, bottom, "does not flow", rotation=90, **style)
        self._ready_mm2_s = float(viscosity_mm2_s(ready_c, *self._oil))
        axes.plot(ready_c, self._ready_mm2_s, marker="o", markersize=9, markerfacecolor="white", color=INK)
        beside = {"textcoords": "offset points", "ha": "right", "va": "top", "fontsize": 11.5}
        axes.annotate("ready", (ready_c, self._ready_mm2_s), (-7, -4), **beside)
        self.axes, self._scale, self._pour_c = axes, None, oil.pour_point_c
        self.now = axes.plot([], [], marker="o", markersize=11, color=ORANGE, markeredgecolor=INK, linestyle="none")[0]
        corner = {"ha": "right", "va": "top", "transform": axes.transAxes}
        self.words = axes.text(0.985, 0.97, "", **corner, fontsize=12, linespacing=1.15)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self.now, self.words]

    def update(self, oil_c, scale=CELSIUS):
        """Show oil at a temperature in °C, on an axis in °C or °F."""
        oil_c = float(oil_c)
        if scale != self._scale:
            self._scale = scale
            self.axes.set_xlabel(f"oil, {FAHRENHEIT if scale == FAHRENHEIT else CELSIUS}")
            ticks = (-40, 0, 40, 80) if scale != FAHRENHEIT else (-40, 40, 120, 200)
            labels = [f"{t}".replace("-", "−") for t in ticks]
            self.axes.set_xticks(ticks if scale != FAHRENHEIT else celsius(ticks), labels)
        shown = np.clip(oil_c, -60.0, 200.0)
        now_mm2_s = float(viscosity_mm2_s(shown, *self._oil))
        self.now.set_data([shown], [now_mm2_s])
        self.now.set_visible(oil_c >= self._pour_c)
        thickness = thickness_words(now_mm2_s / self._ready_mm2_s).replace("thicker than", "thicker\nthan")
        thickness += " when ready" if "\n" in thickness else "\nwhen ready"
        self.words.set_text("stiff: below\nits pour point" if oil_c < self._pour_c else thickness)
