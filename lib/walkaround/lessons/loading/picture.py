"""The envelope with the flight in it, and what each item does to the CG."""

import numpy as np
from matplotlib.collections import PolyCollection
from matplotlib.ticker import MaxNLocator

from walkaround.lessons.loading.margin import margin
from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, VERMILION, for_letters
from walkaround.live.labels import apart
from walkaround.live.style import new_figure, styled
from walkaround.physics.loading import basic_weight_and_moment, cg_shifts
from walkaround.physics.loading.words import say

GROUND = {"facecolor": "white", "edgecolor": "none", "pad": 1.5}
MARKERS = {"zero fuel": ("s", FAINT), "take-off": ("o", BLUE), "landing": ("^", ORANGE)}
BAR_LETTERS = 36  # that fit above a bar at their usual size
LABEL_WIDTH, LABEL_HEIGHT = 0.21, 0.055  # room for a point's label, as shares of the axes


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
        a, unit = self.aircraft, self.aircraft.units
        every = [corners.envelope for corners in a.envelopes]
        cgs = np.concatenate([e.cgs for e in every])
        # As light, as heavy and as far forward and aft as the controls can make it: no point ever leaves the picture.
        empty, _ = basic_weight_and_moment(a)
        top = empty + sum(most for _, most in _items(a))
        low = min(empty, *(min(e.weights) for e in every))
        first, last = _cg_range(a)
        width, height = np.ptp(cgs), top - low
        axes.set_xlim(min(cgs.min() - 0.22 * width, first), max(cgs.max() + 0.3 * width, last))
        axes.set_ylim(low - 0.075 * height, top + 0.12 * height)
        axes.set(xlabel=f"centre of gravity, {unit.arm} aft of datum", ylabel=f"weight, {unit.weight}")
        axes.set_title("Weight and CG against the limits")
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
            self.outlines[e.name] = (axes.plot(x, y)[0], axes.fill(x, y, color=GREEN, alpha=0.07, lw=0)[0])
            # Under the lower right corner, where few flights go.
            cg, weight = max(zip(e.cgs, e.weights, strict=True), key=lambda corner: (-corner[1], corner[0]))
            self.names[e.name] = axes.text(cg, weight - 0.012 * height, e.name, ha="right", va="top")
        self.path = axes.plot([], [], color=INK, lw=2, linestyle="-")[0]
        self.reach = axes.plot([], [], color=VERMILION, lw=2, linestyle=":")[0]
        self.points, self.labels = {}, {}
        for name, (marker, colour) in MARKERS.items():
            look = {"marker": marker, "color": colour, "markeredgecolor": INK, "markersize": 12, "linestyle": "none"}
            self.points[name] = axes.plot([], [], **look)[0]
            # Without a ground, which would hide a limit just where the flight comes near it.
            self.labels[name] = axes.text(0, 0, name, va="center")
        at_top = {"va": "top", "fontweight": "bold", "transform": axes.transAxes}
        self.distance = axes.text(0.03, 0.97, "", color=VERMILION, **at_top)
        self.limits = axes

    def _draw_bars(self, axes):
        unit = self.aircraft.units
        names = [s.name for s in self.aircraft.stations] + [t.name for t in self.aircraft.fuel.tanks]
        span = self._widest_shift()
        axes.set_title("How each item moves the CG")
        axes.set(xlabel=f"← forward     {unit.arm}     aft →", xlim=(-span, span))
        axes.set(ylim=(len(names) - 0.45, -0.75), yticks=[])
        axes.grid(axis="y", visible=False)
        axes.axvline(0, color=INK, lw=1.2)
        # All bars as one artist: drawing six by themselves takes three times as long.
        self.bars = PolyCollection([], facecolor=BLUE, edgecolor=INK, linewidth=1.0)
        axes.add_collection(self.bars)
        weights = [s.maximum for s in self.aircraft.stations]
        weights += [t.usable * self.aircraft.fuel.density for t in self.aircraft.fuel.tanks]
        longest = max(len(_moves(*item, -1.0, unit)) for item in zip(names, weights, strict=True))
        look = {"va": "bottom", "fontsize": min(11.5, 11.5 * BAR_LETTERS / longest), "bbox": GROUND, "zorder": 4}
        self.bar_texts = [axes.text(-0.98 * span, place - 0.3, "", **look) for place in range(len(names))]
        axes.xaxis.set_major_locator(MaxNLocator(5))

    def _widest_shift(self):
        # The most that any item could move the lightest aircraft it is loaded into, wherever its CG, and some room.
        empty, _ = basic_weight_and_moment(self.aircraft)
        ends = _cg_range(self.aircraft)
        return 1.15 * max(most * abs(arm - end) / (empty + most) for arm, most in _items(self.aircraft) for end in ends)

    @property
    def moving(self):
        """Artists that change with the load, in drawing order."""
        flight = [self.path, self.reach, *self.points.values(), *self.labels.values(), self.distance]
        return [*flight, self.bars, *self.bar_texts]

    def still(self, result):
        """What the still parts depend on: the category whose limits count."""
        return result[0].envelope.name

    def show(self, result):
        """Move the artists to a result: (load sheet, station loads, fuel loads)."""
        sheet, stations, fuel = result
        self._show_limits(sheet.envelope)
        self._show_flight(sheet)
        found = margin(sheet)
        self.reach.set_data([found.cg, found.limit], [found.weight, found.weight])
        self.distance.set(text=found.says, color=INK if found.inside else VERMILION)
        self._show_shifts(cg_shifts(sheet, stations, fuel))

    def _show_limits(self, envelope):
        for name, (line, area) in self.outlines.items():
            chosen = name == envelope.name
            look = {"color": GREEN, "linestyle": "-", "linewidth": 2.6}
            line.set(**(look if chosen else {"color": FAINT, "linestyle": "--", "linewidth": 1.6}))
            area.set_visible(chosen)
            self.names[name].set(color=INK if chosen else for_letters(FAINT), fontweight="bold" if chosen else "normal")

    def _show_flight(self, sheet):
        nodes = len(sheet.path_weights)
        steps = np.linspace(0, nodes - 1, 12 * nodes)
        weights, moments = (np.interp(steps, range(nodes), x) for x in (sheet.path_weights, sheet.path_moments))
        self.path.set_data(moments / weights, weights)
        left, right = self.limits.get_xlim()
        room = LABEL_HEIGHT * np.ptp(self.limits.get_ylim())
        places = {name: (float(sheet.condition(name).cg), float(sheet.condition(name).weight)) for name in MARKERS}
        names = sorted(("take-off", "landing", "zero fuel"), key=lambda name: -places[name][1])
        # None lower than the envelope, under which its name stands.
        heights = apart([places[name][1] for name in names], room, sheet.envelope.least_weight + room / 2)
        for name, y in zip(names, heights, strict=True):
            cg, weight = places[name]
            self.points[name].set_data([cg], [weight])
            # To the right of its point, unless the label would run over the aft limit or into the bars.
            end = cg + LABEL_WIDTH * (right - left)
            _, aft = sheet.envelope.limits_at(weight)
            to_left = cg <= aft < end or end > right + 0.08 * (right - left)
            self.labels[name].set_position((cg + (-0.03 if to_left else 0.03) * (right - left), y))
            self.labels[name].set_ha("right" if to_left else "left")

    def _show_shifts(self, shifts):
        unit = self.aircraft.units
        ends = [(place - 0.21, place + 0.21, shift) for place, (_, _, shift) in enumerate(shifts)]
        self.bars.set_verts([[(0.0, top), (shift, top), (shift, foot), (0.0, foot)] for top, foot, shift in ends])
        for text, (name, weight, shift) in zip(self.bar_texts, shifts, strict=True):
            text.set_text(_moves(name, weight, shift, unit))


def _moves(name, weight, shift, unit):
    """What an item weighs and how it moves the CG, in words."""
    moved = say(abs(shift), unit.arm)
    way = f", {moved} {'aft' if shift > 0 else 'forward'}" if any(c in "123456789" for c in moved) else ""
    return f"{name}: {say(weight, unit.weight)}{way}"


def _items(aircraft):
    """Arm and greatest weight of all that can be loaded."""
    stations = [(s.arm, s.maximum) for s in aircraft.stations]
    return stations + [(t.arm, t.usable * aircraft.fuel.density) for t in aircraft.fuel.tanks]


def _cg_range(aircraft):
    """Least and greatest CG of any load: the outermost items come aboard for as long as they move the CG outwards."""
    ends = []
    for outwards in (-1, 1):
        weight, moment = basic_weight_and_moment(aircraft)
        for arm, most in sorted(_items(aircraft), key=lambda item: -outwards * item[0]):
            if outwards * (arm - moment / weight) > 0:
                weight, moment = weight + most, moment + most * arm
        ends.append(moment / weight)
    return ends
