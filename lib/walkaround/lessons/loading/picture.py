"""The envelope with the flight in it, and what each item does to the CG."""

import numpy as np
from matplotlib.collections import PolyCollection
from matplotlib.ticker import MaxNLocator

from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, VERMILION
from walkaround.live.style import new_figure, styled
from walkaround.physics.loading.envelope import closest_approach
from walkaround.physics.loading.loadsheet import cg_shifts
from walkaround.physics.loading.words import say

GROUND = {"facecolor": "white", "edgecolor": "none", "pad": 1.5}
MARKERS = {"zero fuel": ("s", FAINT), "take-off": ("o", BLUE), "landing": ("^", ORANGE)}


class LoadingPicture:
    """Envelope on the left, bars of CG shift on the right; `show` moves the moving artists, nothing is drawn anew.

    `moving` lists the artists that `show` changes; all others stay as they are.
    """

    def __init__(self, aircraft, width_px=820, height_px=470):
        self.aircraft = aircraft
        with styled():
            self.figure = new_figure(width_px, height_px)
            limits, bars = self.figure.subplots(1, 2, width_ratios=(1.4, 1))
            self._draw_envelopes(limits)
            self._draw_bars(bars)
            self.figure.subplots_adjust(left=0.1, right=0.985, top=0.92, bottom=0.125, wspace=0.1)

    def _draw_envelopes(self, axes):
        unit = self.aircraft.units
        every = [corners.envelope for corners in self.aircraft.envelopes]
        cgs = np.concatenate([e.cgs for e in every])
        a = self.aircraft
        # As heavy as the controls can make it, so that no point ever leaves the picture.
        top = a.empty.weight + sum(s.maximum for s in a.stations) + sum(t.usable for t in a.fuel.tanks) * a.fuel.density
        low = min(min(e.weights) for e in every)
        width = np.ptp(cgs)
        axes.set_xlim(cgs.min() - 0.22 * width, cgs.max() + 0.3 * width)
        axes.set_ylim(low - 0.03 * (top - low), top + 0.12 * (top - low))
        axes.set_title("Weight and CG against the limits")
        axes.set_xlabel(f"centre of gravity, {unit.arm} aft of datum")
        axes.set_ylabel(f"weight, {unit.weight}")
        axes.xaxis.set_major_locator(MaxNLocator(6))
        for name, limit, side in (("landing", a.limits.landing, "bottom"), ("zero fuel", a.limits.zero_fuel, "top")):
            if limit is not None:
                axes.axhline(limit, color=FAINT, lw=1, linestyle=":", zorder=1)
                # At the left edge, where no flight goes.
                place = axes.get_yaxis_transform()
                axes.text(0.01, limit, f"{name} limit", color=INK, fontsize=9.5, va=side, transform=place)
        self.outlines, self.names = {}, {}
        for e in every:
            x, y = np.append(e.cgs, e.cgs[0]), np.append(e.weights, e.weights[0])
            at = max(range(len(e.cgs)), key=lambda i: (-e.weights[i], e.cgs[i]))
            name = axes.text(e.cgs[at] - 0.015 * width, e.weights[at] + 0.015 * (top - low), e.name, ha="right")
            self.outlines[e.name] = (axes.plot(x, y)[0], axes.fill(x, y, color=GREEN, alpha=0.07, lw=0)[0])
            self.names[e.name] = name
        self.path = axes.plot([], [], color=INK, lw=2, linestyle="-")[0]
        self.reach = axes.plot([], [], color=VERMILION, lw=2, linestyle=":")[0]
        self.points, self.labels = {}, {}
        for name, (marker, colour) in MARKERS.items():
            self.points[name] = axes.plot(
                [], [], marker=marker, color=colour, markeredgecolor=INK, markersize=12, linestyle="none"
            )[0]
            self.labels[name] = axes.text(0, 0, name, va="center", bbox=GROUND)
        self.distance = axes.text(
            0.03, 0.97, "", color=VERMILION, va="top", fontweight="bold", transform=axes.transAxes
        )
        self.limits = axes

    def _draw_bars(self, axes):
        unit = self.aircraft.units
        names = [s.name for s in self.aircraft.stations] + [t.name for t in self.aircraft.fuel.tanks]
        span = self._widest_shift()
        axes.set_title("How each item moves the CG")
        axes.set_xlabel(f"← forward     {unit.arm}     aft →")
        axes.set_xlim(-span, span)
        axes.set_ylim(len(names) - 0.45, -0.75)
        axes.set_yticks([])
        axes.grid(axis="y", visible=False)
        axes.axvline(0, color=INK, lw=1.2)
        places = range(len(names))
        # All bars as one artist: drawing six by themselves takes three times as long.
        self.bars = PolyCollection([], facecolor=BLUE, edgecolor=INK, linewidth=1.0)
        axes.add_collection(self.bars)
        self.bar_texts = [
            axes.text(-span * 0.98, i - 0.3, "", va="bottom", fontsize=11.5, bbox=GROUND, zorder=4) for i in places
        ]
        axes.xaxis.set_major_locator(MaxNLocator(5))

    def _widest_shift(self):
        # Scale fixed by the file: the most that a full station could move the lightest aircraft it is loaded into.
        e = self.aircraft.envelope()
        middle = (min(e.cgs) + max(e.cgs)) / 2
        widest = max(
            abs(s.maximum * (s.arm - middle) / (self.aircraft.empty.weight + s.maximum)) for s in self.aircraft.stations
        )
        return widest * 1.1

    @property
    def moving(self):
        """Artists that change with the load, in drawing order."""
        return [
            self.path, self.reach, *self.points.values(), *self.labels.values(), self.distance, self.bars, *self.bar_texts,
        ]  # fmt: skip

    def still(self, result):
        """What the still parts depend on: the category whose limits count."""
        return result[0].envelope.name

    def show(self, result):
        """Move the artists to a result: (load sheet, station loads, fuel loads)."""
        sheet, stations, fuel = result
        unit = self.aircraft.units
        for name, (line, area) in self.outlines.items():
            chosen = name == sheet.envelope.name
            line.set(
                color=GREEN if chosen else FAINT, linestyle="-" if chosen else "--", linewidth=2.6 if chosen else 1.6
            )
            area.set_visible(chosen)
            self.names[name].set(color=INK if chosen else FAINT, fontweight="bold" if chosen else "normal")
        steps = np.linspace(0, len(sheet.path_weights) - 1, 12 * len(sheet.path_weights))
        weights = np.interp(steps, range(len(sheet.path_weights)), sheet.path_weights)
        moments = np.interp(steps, range(len(sheet.path_weights)), sheet.path_moments)
        self.path.set_data(moments / weights, weights)
        height = np.diff(self.limits.get_ylim())[0]
        places = {name: (float(sheet.condition(name).cg), float(sheet.condition(name).weight)) for name in MARKERS}
        left, right = self.limits.get_xlim()
        room, last = 0.055 * height, None
        for name, (cg, weight) in sorted(places.items(), key=lambda p: -p[1][1]):
            self.points[name].set_data([np.clip(cg, left, right)], [weight])
            # Labels stand beside their points, pushed apart when two points come close.
            y = weight if last is None else min(weight, last - room)
            far_right = cg > left + 0.74 * (right - left)
            self.labels[name].set_position(
                (np.clip(cg, left, right) + (right - left) * (-0.03 if far_right else 0.03), y)
            )
            self.labels[name].set_ha("right" if far_right else "left")
            last = y
        self._show_nearest(sheet, unit)
        shifts = cg_shifts(sheet, stations, fuel)
        self.bars.set_verts([_bar(i, shift) for i, (_, _, shift) in enumerate(shifts)])
        for text, (name, weight, shift) in zip(self.bar_texts, shifts, strict=True):
            moved = say(abs(shift), unit.arm)
            seen = any(digit in "123456789" for digit in moved)
            text.set_text(
                f"{name}: {say(weight, unit.weight)}"
                + (f", {moved} {'aft' if shift > 0 else 'forward'}" if seen else "")
            )

    def _show_nearest(self, sheet, unit):
        which, distance, weight, cg = closest_approach(sheet.envelope, sheet.path_weights, sheet.path_moments)
        limit = cg - distance if which == "forward" else cg + distance
        self.reach.set_data([cg, limit], [weight, weight])
        heaviest = max((c for c in sheet.conditions if c.weight_limit is not None), key=lambda c: float(c.over))
        bad = distance < 0 or heaviest.over > 1e-6
        if distance < 0 or not bad:
            text = f"{say(abs(distance), unit.arm)} {'beyond' if bad else 'to'} the {which} limit"
        else:
            text = f"{say(heaviest.over, unit.weight)} over the {heaviest.name} limit"
        self.distance.set(text=text, color=VERMILION if bad else INK)


def _bar(place, length):
    return [(0.0, place - 0.21), (length, place - 0.21), (length, place + 0.21), (0.0, place + 0.21)]
