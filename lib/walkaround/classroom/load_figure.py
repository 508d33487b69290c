"""The envelope to plot a load on by hand: limits, a fine grid, and the flight if there is one; in SVG."""

import numpy as np
from matplotlib.ticker import AutoMinorLocator, MaxNLocator

from walkaround.classroom.marks_figure import same_letters, svg_of
from walkaround.live.colours import FAINT, INK
from walkaround.live.labels import apart
from walkaround.live.style import new_figure

MARKS = {"zero fuel": "s", "take-off": "o", "landing": "^"}
GROUND = {"facecolor": "white", "edgecolor": "none", "pad": 1}
STYLES = ("-", "--", "-.", ":")


def envelope_svg(aircraft, sheet=None):
    """Return the envelope of an aircraft as an SVG text, with the flight of a load sheet if one is given."""
    with same_letters():
        figure = new_figure(720, 440)
        axes = figure.add_axes((0.115, 0.12, 0.87, 0.86))
        every = [corners.envelope for corners in aircraft.envelopes]
        cgs, weights = (np.concatenate([getattr(e, name) for e in every]) for name in ("cgs", "weights"))
        wide, high = np.ptp(cgs), np.ptp(weights)
        axes.set(xlim=(min(cgs) - 0.1 * wide, max(cgs) + 0.24 * wide))
        axes.set(ylim=(min(weights) - 0.1 * high, max(weights) + 0.12 * high))
        unit = aircraft.units
        axes.set(xlabel=f"centre of gravity, {unit.arm} aft of datum", ylabel=f"weight, {unit.weight}")
        for axis, steps in ((axes.xaxis, 10), (axes.yaxis, 8)):
            axis.set_major_locator(MaxNLocator(steps))
            axis.set_minor_locator(AutoMinorLocator(5))
        axes.grid(which="major", color=FAINT, linewidth=0.7)
        axes.grid(which="minor", color=FAINT, linewidth=0.25)
        for e, style in zip(every, STYLES, strict=False):
            axes.plot(np.append(e.cgs, e.cgs[0]), np.append(e.weights, e.weights[0]), color=INK, linestyle=style)
            at = max(zip(e.cgs, e.weights, strict=True), key=lambda corner: (-corner[1], corner[0]))
            axes.text(at[0], at[1] - 0.02 * high, e.name, ha="right", va="top", fontweight="bold", bbox=GROUND)
        for name in ("landing", "zero_fuel"):
            limit = getattr(aircraft.limits, name)
            if limit is not None:
                axes.axhline(limit, color=INK, linewidth=0.9, linestyle=":")
                what = f"{name.replace('_', ' ')} limit"
                place = {"ha": "right", "va": "center", "transform": axes.get_yaxis_transform()}
                axes.text(1, limit, what, fontsize=9.5, bbox=GROUND, **place)
        if sheet is not None:
            _plot(axes, sheet, [max(e.weights) for e in every])
        return svg_of(figure)


def _plot(axes, sheet, tops):
    axes.plot(sheet.path_moments / sheet.path_weights, sheet.path_weights, color=INK)
    found = {name: sheet.condition(name) for name in MARKS}
    names = sorted(MARKS, key=lambda name: -float(found[name].weight))
    room, (left, right) = 0.06 * np.ptp(axes.get_ylim()), axes.get_xlim()
    beside = [_clear_of(tops, float(found[name].weight), 0.75 * room) for name in names]
    heights = apart(beside, room, axes.get_ylim()[0] + room)
    for name, height in zip(names, heights, strict=True):
        cg = float(found[name].cg)
        axes.plot([cg], [float(found[name].weight)], marker=MARKS[name], color=INK, markersize=9)
        axes.text(cg + 0.02 * (right - left), height, name, va="center", bbox=GROUND)


def _clear_of(tops, height, room):
    """A label's height, moved off the upper limit of an envelope that would run through it."""
    near = min(tops, key=lambda top: abs(top - height))
    return height if abs(near - height) >= room else near - room if height <= near else near + room
