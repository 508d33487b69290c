"""The aircraft from the side on its slope, the forces along the ground to scale, and the nose leg's limit."""

import numpy as np
from matplotlib.collections import PolyCollection
from matplotlib.patches import Rectangle

from walkaround.aircraft.dimensions import metre
from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, PALE, VERMILION
from walkaround.live.style import CENTRED, new_figure, styled
from walkaround.units import FOOT_M

LIMIT_FT = 9.0  # an arrow as long as this is the nose leg's limit
PARTS = (("slope", BLUE, ""), ("rolling wheels", ORANGE, "//"), ("brake", VERMILION, "xx"))


class ForcePicture:
    """Side view above, the pull and what it is for below; `show` takes (loads, slope in percent, brake on)."""

    def __init__(self, craft, unit, limit, width_px=860, height_px=440):
        self._unit, self._limit = unit, limit
        here = craft.dimensions.metres(craft.units)
        feet = {k: v / FOOT_M for k, v in here if isinstance(v, float)}
        cg_ft = feet["cg_height"]
        self._cg = feet["main_wheels"] - craft.empty.cg * metre(craft.units) / FOOT_M, cg_ft
        self._nose = feet["main_wheels"] - feet["nose_wheel"], feet["nose_wheel_radius"]
        self._shapes, self._wheels = _side_view(feet, here.wing, cg_ft)
        with styled():
            self.figure = new_figure(width_px, height_px)
            axes = self.figure.add_axes((0, 0.34, 1, 0.66))
            axes.set(xlim=(-21, 25), ylim=(-4.2, -4.2 + 46 * 0.66 * height_px / width_px))
            axes.axis("off")
            self.ground = PolyCollection([], facecolor=PALE, edgecolor=INK, linewidth=1.5)
            self.body = PolyCollection([], facecolor="white", edgecolor=INK, linewidth=1.8)
            self.tyres = PolyCollection([], facecolor=FAINT, edgecolor=INK, linewidth=1.5)
            self.arrows = PolyCollection([], edgecolor=INK, linewidth=1.0)
            for collection in (self.ground, self.body, self.tyres, self.arrows):
                axes.add_collection(collection, autolim=False)
            self.words = [axes.text(0, 0, "", fontweight="bold", fontsize=12.5, **CENTRED) for _ in range(3)]
            self.words[0].set_ha("left")  # clear of the propeller, however long
            self.slope = axes.text(-20.3, -3.3, "", ha="left", va="center")
            bar = self.figure.add_axes((0.04, 0.13, 0.92, 0.11))
            bar.set(
                ylim=(-1, 1), yticks=[], xlim=(-0.45 * limit, 2.05 * limit), xlabel=f"pull along the aircraft, {unit}"
            )
            bar.grid(axis="y", visible=False)
            bar.axvline(0, color=INK, lw=1.5)
            self.bars = PolyCollection([], edgecolor=INK, linewidth=1.2)
            self.bars_hatched = [
                PolyCollection([], facecolor="none", edgecolor=INK, hatch=hatch, linewidth=0.8)
                for _, _, hatch in PARTS
                if hatch
            ]
            for collection in (self.bars, *self.bars_hatched):
                bar.add_collection(collection, autolim=False)
            self.net = bar.plot([0], [0], marker="D", markersize=11, color=INK, markeredgecolor="white")[0]
            self.limit = bar.plot([limit] * 2, [-1, 1], color=VERMILION, linestyle="--", lw=3)[0]
            bar.text(limit, 1.15, f"nose leg: {written(limit, unit)}", color=VERMILION, ha="center", va="bottom")
            for left, (words, colour, hatch) in zip((0.0, 0.12, 0.31), PARTS, strict=True):
                at = {"transform": bar.transAxes, "clip_on": False}
                bar.add_patch(Rectangle((left, 1.16), 0.022, 0.26, facecolor=colour, edgecolor=INK, hatch=hatch, **at))
                bar.text(left + 0.03, 1.28, words, transform=bar.transAxes, va="center", fontsize=11.5)

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        side = [self.ground, self.body, self.tyres, self.arrows, *self.words, self.slope]
        return [*side, self.bars, *self.bars_hatched, self.limit, self.net]

    def show(self, shown):
        """Move the artists to what is to be shown."""
        loads, percent, brake = shown
        tilt = np.arctan(percent / 100)

        def turned(points):
            x, y = np.asarray(points, float).T
            return np.column_stack([x * np.cos(tilt) - y * np.sin(tilt), x * np.sin(tilt) + y * np.cos(tilt)])

        self.ground.set_verts([turned([(-40, 0), (45, 0), (45, -30), (-40, -30)])])
        self.body.set_verts([turned(shape) for shape in self._shapes])
        self.tyres.set_verts([turned(_circle(*wheel)) for wheel in self._wheels])
        self.slope.set_text(
            "level" if not percent else f"slope {abs(percent):g} %, nose {'uphill' if percent > 0 else 'downhill'}"
        )
        scale = LIMIT_FT / self._limit
        pull, slope, drag = float(loads.pull), float(loads.slope), float(loads.rolling + loads.brake)
        nose_x, over = self._shapes[-1][2][0], max(y for shape in self._shapes for _, y in shape) + 0.9
        bad = pull > self._limit or pull < 0
        rows = (
            (self._nose, pull, "pull" if pull >= 0 else "hold back", VERMILION if bad else GREEN),
            (self._cg, -slope, "weight down the slope", BLUE),
            ((0.0, 0.0), -drag, "wheels, brake on" if brake else "rolling wheels", VERMILION if brake else ORANGE),
        )
        places = (nose_x + 1.2, 1.6), (self._cg[0] - 3.0, over), (-4.0, -1.3)
        shafts, colours = [], []
        for text, ((x, y), amount, what, colour), at in zip(self.words, rows, places, strict=True):
            long = float(np.clip(amount * scale, -15, 15))
            text.set_text(f"{what} {written(abs(amount), self._unit)}" if abs(amount) >= 0.5 else "")
            text.set_position(turned([at])[0])
            if abs(long) > 0.02:
                shafts.append(turned(_arrow(x, y, long)))
                colours.append(colour)
        self.arrows.set_verts(shafts)
        self.arrows.set_facecolor(colours)
        self._show_bars(loads)

    def _show_bars(self, loads):
        """Stack what the pull is for from 0, and what pushes the same way to the left; the diamond is what is left."""
        self.net.set_xdata([float(loads.pull)])
        amounts = [float(loads.slope), float(loads.rolling), float(loads.brake)]
        at = min(amounts[0], 0.0)
        rectangles = []
        for amount in amounts:
            wide = abs(amount)
            rectangles.append([(at, -0.8), (at + wide, -0.8), (at + wide, 0.8), (at, 0.8)])
            at += wide
        self.bars.set_verts(rectangles)
        self.bars.set_facecolor([colour for _, colour, _ in PARTS])
        for collection, rectangle in zip(self.bars_hatched, rectangles[1:], strict=True):
            collection.set_verts([rectangle])


def _arrow(x, y, long, half=0.22):
    head = np.sign(long) * min(1.2, abs(long))
    neck = x + long - head
    return [(x, y - half), (neck, y - half), (neck, y - 3 * half), (x + long, y), (neck, y + 3 * half),
            (neck, y + half), (x, y + half)]  # fmt: skip


def _circle(x, radius):
    a = np.linspace(0, 2 * np.pi, 24)
    return np.column_stack([x + radius * np.cos(a), radius + radius * np.sin(a)])


def _side_view(feet, wing, cg_ft):
    """Outlines from the side in feet, ahead of the main wheels and above the ground; a sketch by the dimensions."""

    def ahead(arm):
        return feet["main_wheels"] - arm

    nose, tail, root = ahead(feet["nose"]), ahead(feet["tail"]), ahead(feet["wing_leading_edge"])
    chord, q = feet["wing_root_chord"], cg_ft
    top = feet["wing_height"] if wing == "high" else 1.75 * q
    low = 0.5 * q
    body = [
        (nose, q), (nose - 0.6, 1.2 * q), (root + 1.6, 1.3 * q), (root - 0.2, top), (root - chord, top),
        (root - chord - 2.5, 1.3 * q), (tail + 2.8, 1.2 * q), (tail + 0.6, 2.1 * q), (tail, 2.1 * q), (tail, 1.0 * q),
        (root - chord - 1.0, low), (nose - 1.0, low), (nose - 0.3, 0.75 * q),
    ]  # fmt: skip
    at = feet["wing_height"] if wing == "high" else 0.62 * q
    thick = 0.1 * chord
    flat = [(root, at + thick / 2), (root - 0.3 * chord, at + thick), (root - chord, at), (root - 0.2 * chord, at)]
    blade = feet["propeller_diameter"] / 2
    propeller = [(nose + 0.1, q - blade), (nose + 0.35, q - blade), (nose + 0.35, q + blade), (nose + 0.1, q + blade)]
    base = ahead(feet["nose_wheel"])
    legs = [
        [(x - 0.12, radius), (x + 0.12, radius), (x + 0.12, 0.6 * q), (x - 0.12, 0.6 * q)]
        for x, radius in ((base, feet["nose_wheel_radius"]), (0.0, feet["main_wheel_radius"]))
    ]
    wheels = [(base, feet["nose_wheel_radius"]), (0.0, feet["main_wheel_radius"])]
    return [*legs, body, flat, propeller], wheels


def written(amount, unit):
    """Write a force to three digits or so.

    >>> written(1033.4, "lb"), written(-40.0, "lb"), written(1863.3, "N")
    ('1,033 lb', '−40 lb', '1,860 N')
    """
    step = 10 if unit == "N" else 1
    return f"{step * round(amount / step):,.0f} {unit}".replace("-", "−")
