"""A flat engine seen from the front, each part shaded by its temperature, with warm air, pad and cover."""

import numpy as np
from matplotlib.collections import PolyCollection
from matplotlib.colors import LinearSegmentedColormap
from matplotlib.patches import FancyBboxPatch, PathPatch, Rectangle

from walkaround.live.colours import INK, VERMILION
from walkaround.live.style import CENTRED
from walkaround.physics.preheat.history import warm_enough
from walkaround.physics.preheat.words import CELSIUS, on_scale

# From light to dark as it gets warmer, so that it reads in grey too.
_SHADES = LinearSegmentedColormap.from_list("warmth", ["#eaf4fb", "#f7d9a8", "#e8853d", "#a33a00", "#5c1a00"])
_TABLE = [tuple(colour) for colour in _SHADES(np.linspace(0.0, 1.0, 256)).tolist()]
COLDEST_C, HOTTEST_C = -40.0, 90.0
_NONE = (0.0, 0.0, 0.0, 0.0)
_EDGE = 1.8


def shade(temperature_c):
    """Colour of a part at a temperature in °C; the warmer the darker.

    >>> shade(-40.0) == shade(-60.0), shade(0.0) == shade(40.0)
    (True, False)
    """
    share = (temperature_c - COLDEST_C) / (HOTTEST_C - COLDEST_C)
    return _TABLE[round(255 * min(max(share, 0.0), 1.0))]


class EngineSketch:
    """The sketch. The engine's shapes and the arrow of warm air are one artist, drawn in a third of the time of many.

    `shades` holds the colour of each part and of the "air": None while there is no arrow.
    """

    def __init__(self, axes, parts):
        self.parts, self.shades = parts, dict.fromkeys((*parts, "air"))
        axes.set(xlim=(-4.6, 4.6), ylim=(-3.85, 3.75), aspect="equal")
        axes.axis("off")
        cylinders = "cylinders" if "cylinders" in parts else "metal"
        shapes = []
        for left, head in ((1.3, 3.4), (-3.4, -4.0)):
            shapes.append((cylinders, _box(left, -0.5, 2.1, 1.4), _EDGE))
            shapes.append((cylinders, _box(head, -0.7, 0.6, 1.8), _EDGE))
        case = [(-1.3, -1.0), (1.3, -1.0), (1.3, 1.2), (0.7, 1.8), (-0.7, 1.8), (-1.3, 1.2)]
        shapes.append(("metal", case, _EDGE))
        shapes.append(("oil", [(-1.75, -1.0), (1.75, -1.0), (1.4, -2.5), (-1.4, -2.5)], _EDGE))
        # Cooling fins: shapes without width.
        fins = [side * x for side in (-1, 1) for x in np.linspace(1.65, 3.1, 6)]
        shapes += [(None, [(x, -0.72), (x, 1.12)], 1.2) for x in fins]
        arrow = [(3.05, 3.7), (3.05, 2.1), (2.7, 2.1), (3.3, 1.3), (3.9, 2.1), (3.55, 2.1), (3.55, 3.7)]
        shapes.append(("air", arrow, 1.2))
        self._names, corners, self._widths = zip(*shapes, strict=True)
        self._shapes = PolyCollection(corners, edgecolors=INK, linewidths=self._widths)
        axes.add_collection(self._shapes, autolim=False)
        edge = {"edgecolor": INK, "linewidth": _EDGE}
        self.pad = axes.add_patch(Rectangle((-1.4, -2.72), 2.8, 0.22, facecolor=VERMILION, hatch="//", **edge))
        cover = FancyBboxPatch((-4.35, -2.95), 8.7, 5.55, boxstyle="round,pad=0,rounding_size=0.6")
        broken = {"edgecolor": INK, "linewidth": 3.5, "linestyle": (0, (2.2, 1.1))}
        self.cover = axes.add_patch(PathPatch(cover.get_path(), facecolor="none", **broken))
        places = {"metal": (0, 0.35), "oil": (0, -1.7), "cylinders": (-2.45, 1.83)}
        self._degrees = {p: axes.text(*places[p], "", **CENTRED, fontsize=11.5, linespacing=1.1) for p in parts}
        self.states = axes.text(0, -3.4, "", **CENTRED, fontweight="bold")
        self._doing = axes.text(-4.5, 3.3, "", va="center", fontsize=11)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self._shapes, self.pad, self.cover, *self._degrees.values(), self.states, self._doing]

    def update(self, temperatures, ready_c, air_on=False, pad_on=False, cover_on=False, scale=CELSIUS):
        """Shade the parts: `temperatures` and `ready_c` by part in °C, the heater's air under "air"."""
        self.shades = {part: shade(float(temperatures[part])) for part in (*self.parts, "air")}
        if not air_on:
            self.shades["air"] = None
        for part in self.parts:
            shown = on_scale(temperatures[part], scale, below=ready_c[part])
            dark = part != "cylinders" and np.dot(self.shades[part][:3], (0.299, 0.587, 0.114)) < 0.5
            self._degrees[part].set(text=f"{part}\n{shown}", color="white" if dark else INK)
        self._shapes.set_facecolor([self.shades.get(name) or _NONE for name in self._names])
        self._shapes.set_linewidth([*self._widths[:-1], self._widths[-1] if air_on else 0.0])
        self.pad.set_visible(pad_on)
        self.cover.set_visible(cover_on)
        doing = [f"air {on_scale(temperatures['air'], scale)}"] if air_on else []
        doing += ["pad on"] if pad_on else []
        doing += ["cover on"] if cover_on else []
        self._doing.set_text(", ".join(doing) if doing else "heat off, cover off")
        cold = [part for part in self.parts if not warm_enough(temperatures[part], ready_c[part])]
        states = f"not ready: {', '.join(cold)}" if cold else "all parts ready"
        self.states.set(text=states, color=VERMILION if cold else INK)


def _box(left, bottom, width, height):
    right, top = left + width, bottom + height
    return [(left, bottom), (right, bottom), (right, top), (left, top)]
