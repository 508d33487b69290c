"""A tilted tank from above, from behind and from the left: fuel and water as they lie, and what each drain gives."""

from dataclasses import dataclass
from itertools import product

import numpy as np
from matplotlib.collections import PolyCollection

from walkaround.live.colours import BLUE, INK, SKY, VERMILION
from walkaround.live.style import new_figure, styled
from walkaround.physics import fuel

FUEL_COLOUR, WATER_COLOUR = "#dbeefa", "#0b3c66"
DRY, WET = ("white", INK), (SKY, "white")  # face and edge of a drain
_ROOM_CM = 15.0  # above and below the tank from above, for the drains' labels
_STEEPEST_CM = 42.0  # height of the two side views: as far as the controls can tilt a tank of this kind


@dataclass(frozen=True)
class Lying:
    """What lies in a tank as it stands: litres, degrees, levels in cm above its lowest point, litres by drain."""

    water_l: float
    fuel_l: float
    nose_up_deg: float
    wing_low_deg: float
    water_cm: float
    surface_cm: float
    gives_l: tuple
    outlet_covered: bool


def polygon_below(corners, heights, level):
    """Part of a polygon that is not above a level, as rows of (x, y); `heights` has the height at each corner.

    >>> polygon_below([(0, 0), (4, 0), (4, 2), (0, 2)], [0, 4, 4, 0], 1.0)
    [(0.0, 0.0), (1.0, 0.0), (1.0, 2.0), (0.0, 2.0)]
    """
    kept = []
    for (x, y), (to_x, to_y), h, to_h in zip(
        corners, [*corners[1:], corners[0]], heights, [*heights[1:], heights[0]], strict=True
    ):
        if h <= level:
            kept.append((float(x), float(y)))
        if (h <= level) != (to_h <= level):
            share = (level - h) / (to_h - h)
            kept.append((float(x + share * (to_x - x)), float(y + share * (to_y - y))))
    return kept


def outline(points):
    """Convex outline of points in a plane, in order round it (Andrew's monotone chain).

    >>> outline([(0, 0), (1, 1), (2, 0), (1, 0.5), (2, 2), (0, 2)])
    [(0, 0), (2, 0), (2, 2), (0, 2)]
    """
    ordered, chains = sorted(map(tuple, points)), []
    for row in (ordered, ordered[::-1]):
        chain = []
        for x, y in row:
            while len(chain) > 1:
                (x1, y1), (x2, y2) = chain[-2:]
                if (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1) > 1e-9:
                    break
                chain.pop()
            chain.append((x, y))
        chains += chain[:-1]
    return chains


class TankPicture:
    """The tank; `show` takes a `Lying`. `shape` is a tank of the section [fuel_system] of an aircraft file."""

    def __init__(self, shape, unit, litres, width_px=820, height_px=530):
        self._shape, self._solid, self._unit, self._litres = shape, shape.solid, unit, litres
        self._aft, self._out = (np.array([getattr(d, name) for d in shape.drains]) for name in ("aft", "out"))
        length, width = shape.length_cm, shape.width_cm
        across = width + 10.0
        with styled():
            self.figure = new_figure(width_px, height_px)
            side_px = 0.335 * height_px
            left_px = min(0.63 * width_px, (height_px - side_px) * across / (length + 2 * _ROOM_CM))
            cm_px = left_px / across
            tall_cm = max(_STEEPEST_CM, side_px / cm_px)
            left, high = left_px / width_px, tall_cm * cm_px / height_px
            self.above = self._axes((0.01, high + 0.005, left, 0.99 - high), across, length + 2 * _ROOM_CM)
            self.behind = self._axes((0.01, 0.0, left, high), across, tall_cm)
            beside = 0.97 - left
            self.beside = self._axes((left + 0.02, 0.0, beside, high), beside * width_px / cm_px, tall_cm)
            self._draw_above()
            titles = "from above, nose up the page", "from behind", "from the left, nose to the left"
            for axes, title in zip((self.above, self.behind, self.beside), titles, strict=True):
                low, top = axes.get_ylim()
                axes.text(axes.get_xlim()[0] + 1, top - 0.02 * (top - low), title, va="top", fontsize=11.5)
            look = {"edgecolors": INK, "linewidths": 1.4, "facecolors": ["white", FUEL_COLOUR, WATER_COLOUR]}
            self._bodies = {axes: PolyCollection([], **look) for axes in (self.above, self.behind, self.beside)}
            self._drains = {}
            for axes, bodies in self._bodies.items():
                axes.add_collection(bodies, autolim=False)
                many = np.zeros(len(self._aft))
                self._drains[axes] = axes.scatter(
                    many, many, s=70 if axes is self.above else 34, edgecolors=INK, zorder=5
                )
            self._outlets = {
                axes: axes.plot([], [], marker="s", markersize=8, color=VERMILION, markeredgecolor=INK, zorder=6)[0]
                for axes in self._bodies
            }
            self._write_labels(left, high)

    def _axes(self, place, across_cm, tall_cm):
        axes = self.figure.add_axes(place)
        axes.set(xlim=(-across_cm / 2, across_cm / 2), ylim=(-tall_cm / 2, tall_cm / 2))
        axes.axis("off")
        return axes

    def _draw_above(self):
        # From above the tank does not move.
        self._floor = [self._from_above(aft, out) for aft, out in ((0, 0), (1, 0), (1, 1), (0, 1))]

    def _from_above(self, aft, out):
        return (0.5 - out) * self._shape.width_cm, (0.5 - aft) * self._shape.length_cm

    def _write_labels(self, left, high):
        self._labels = []
        for drain in self._shape.drains:
            x, y = self._from_above(drain.aft, drain.out)
            ends = "left" if drain.out > 0.8 else "right" if drain.out < 0.2 else "center"
            edge = {"left": -0.5, "right": 0.5, "center": 0.0}[ends] * self._shape.width_cm
            below, half = drain.aft > 0.5, self._shape.length_cm / 2
            self._labels.append(
                self.above.text(
                    edge if ends != "center" else x,
                    -half - 2 if below else half + 2,
                    "",
                    ha=ends,
                    va="top" if below else "bottom",
                    fontsize=12,
                )
            )
        x, y = self._from_above(self._shape.outlet.aft, self._shape.outlet.out)
        self._outlet_words = self.above.text(x - 3.5, y, "", ha="right", va="center", fontsize=11.5)
        self._outlets[self.above].set_data([x], [y])
        at = {"va": "top", "fontsize": 13}
        self._facts = self.figure.text(left + 0.05, 0.93, "", linespacing=1.5, **at)
        self._names = {
            name: self.figure.text(left + 0.1, y, name, va="center", fontsize=12)
            for name, y in (("fuel", high + 0.23), ("water", high + 0.16), ("the engine's outlet", high + 0.09))
        }
        key = self.figure.add_axes((left + 0.05, high + 0.06, 0.04, 0.2))
        key.set(xlim=(0, 1), ylim=(0.06, 0.26))
        key.axis("off")
        for colour, y in ((FUEL_COLOUR, 0.23), (WATER_COLOUR, 0.16)):
            key.fill([0.1, 0.9, 0.9, 0.1], [y - 0.02, y - 0.02, y + 0.02, y + 0.02], facecolor=colour, edgecolor=INK)
        key.plot(0.5, 0.09, marker="s", markersize=9, color=VERMILION, markeredgecolor=INK)

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        shapes = [*self._bodies.values(), *self._drains.values(), *self._outlets.values()]
        return [*shapes, self._outlet_words, *self._labels, self._facts]

    def show(self, lying):
        """Show what lies in the tank (`Lying`)."""
        tilt = lying.nose_up_deg, lying.wing_low_deg
        levels = [np.inf, lying.surface_cm, lying.water_cm if lying.water_l > 0 else -1.0]
        floor = fuel.height_cm(self._solid, [0, 1, 1, 0], [0, 0, 1, 1], 0.0, *tilt).tolist()
        self._lie(self.above, self._floor, floor, levels)
        # Drains that give water are drawn last, over the others.
        order = np.argsort(lying.gives_l)
        aft, out = self._aft[order], self._out[order]
        middle = float(fuel.height_cm(self._solid, 0.5, 0.5, self._shape.depth_cm / 2, *tilt))
        corners = np.array(list(product((0.0, 1.0), (0.0, 1.0), (0.0, self._shape.depth_cm)))).T
        outlet = self._shape.outlet
        for axes, seen in ((self.behind, self._from_behind), (self.beside, self._from_beside)):
            hull = outline(seen(*corners, tilt, middle))
            heights = [y + middle for _, y in hull]
            self._lie(axes, hull, heights, levels)
            self._drains[axes].set_offsets(seen(aft, out, 0.0 * aft, tilt, middle))
            self._outlets[axes].set_data(*seen(*([v] for v in (outlet.aft, outlet.out, outlet.up_cm)), tilt, middle).T)
        self._drains[self.above].set_offsets(np.transpose(self._from_above(aft, out)))
        faces, edges = zip(*(WET if gives > 0 else DRY for gives in np.sort(lying.gives_l)), strict=True)
        for drains in self._drains.values():
            drains.set(facecolors=faces, edgecolors=edges)
        for label, drain, gives in zip(self._labels, self._shape.drains, lying.gives_l, strict=True):
            label.set_text(f"{drain.name}\n{f'water: {millilitres(gives)}' if gives > 0 else 'fuel at once'}")
            label.set_fontweight("bold" if gives > 0 else "normal")
            label.set_color(BLUE if gives > 0 else INK)
        self._outlet_words.set_text("outlet in water" if lying.outlet_covered else "outlet")
        self._outlet_words.set_color("white" if self._outlet_on_water(lying, floor) else INK)
        caught = max(lying.gives_l)
        leaves = f"the lowest drain leaves {millilitres(lying.water_l - caught)}" if caught else "no drain gives water"
        self._facts.set_text(
            f"water {millilitres(lying.water_l)}\nfuel {lying.fuel_l / self._litres:.1f} {self._unit}\n"
            f"nose {_tilted(lying.nose_up_deg, 'up', 'down')}\nthis wing {_tilted(lying.wing_low_deg, 'low', 'high')}\n"
            f"{leaves}"
        )

    def _lie(self, axes, corners, heights, levels):
        """Show tank, fuel and water as seen in a view; what is not there is left out at the end."""
        bodies = (polygon_below(corners, heights, level) for level in levels)
        self._bodies[axes].set_verts([body for body in bodies if body])

    def _outlet_on_water(self, lying, floor):
        """Whether the words beside the outlet stand on water."""
        at = self._shape.outlet.aft, min(self._shape.outlet.out + 0.12, 1.0)
        return float(fuel.height_cm(self._solid, *at, 0.0, lying.nose_up_deg, lying.wing_low_deg)) <= lying.water_cm

    def _turned(self, aft, out, up, tilt):
        """Lengths from the tank's middle: aft along its floor, across and upright after the wing's tilt alone."""
        roll = np.radians(tilt[1] - self._shape.dihedral_deg)
        y, z = (np.asarray(out) - 0.5) * self._shape.width_cm, np.asarray(up) - self._shape.depth_cm / 2
        x = (np.asarray(aft) - 0.5) * self._shape.length_cm
        return x, y * np.cos(roll) + z * np.sin(roll), z * np.cos(roll) - y * np.sin(roll)

    def _from_behind(self, aft, out, up, tilt, middle):
        _, across, _ = self._turned(aft, out, up, tilt)
        return np.column_stack([-across, fuel.height_cm(self._solid, aft, out, up, *tilt) - middle])

    def _from_beside(self, aft, out, up, tilt, middle):
        along, _, upright = self._turned(aft, out, up, tilt)
        pitch = np.radians(tilt[0] + self._shape.floor_falls_aft_deg)
        level = along * np.cos(pitch) + upright * np.sin(pitch)
        return np.column_stack([level, fuel.height_cm(self._solid, aft, out, up, *tilt) - middle])


def millilitres(litres):
    """Write a volume in mL, with a decimal below ten, or in litres from one on.

    >>> millilitres(0.2504), millilitres(1.254), millilitres(0.00047), millilitres(2e-5)
    ('250 mL', '1.25 L', '0.5 mL', 'less than 0.1 mL')
    """
    if litres >= 0.9995:
        return f"{litres:.2f} L"
    if litres >= 0.00995 or not litres:
        return f"{1000 * litres:.0f} mL"
    return "less than 0.1 mL" if litres < 5e-5 else f"{1000 * litres:.1f} mL"


def _tilted(degrees, one, other):
    return f"{abs(degrees):g}° {one if degrees > 0 else other}" if degrees else "level"
