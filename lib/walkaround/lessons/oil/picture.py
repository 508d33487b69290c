"""An oil log as a picture: the readings with their line and its limits, the dipstick, and the sump on its slope."""

import re
from math import cos, radians, sin, tan

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection

from walkaround.lessons.oil.check import CHANGED, amount, due_words
from walkaround.lessons.oil.logs import HOURS, POURED_AFTER
from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, PALE, VERMILION
from walkaround.live.style import new_figure, styled

END_H = 50.0
_MOMENTS = 60
_NOTHING = np.full((2, 2), np.nan)
_OIL, _BAND = "#e8c27a", "#dbe8f1"


class OilPicture:
    """Readings on the left, the dipstick beside them on the same scale, the sump on the right.

    `engine` is the section of an aircraft file. `show` takes (check, there): a `lessons.oil.check.Check`, and what was
    in the sump at every reading of the whole log, those not taken yet too.
    """

    def __init__(self, engine, width_px=860, height_px=490):
        self._oil, section = engine.oil, engine.oil
        low, high = section.dipstick_quantities[0], section.dipstick_quantities[-1]
        self._scale, room = high - low, 0.06 * (high - low)
        with styled():
            self.figure = new_figure(width_px, height_px)
            self.axes = axes = self.figure.add_axes((0.06, 0.115, 0.545, 0.795))
            axes.set(xlim=(-1, END_H), ylim=(low - room, high + room), xlabel="engine hours since the first reading")
            axes.set_title(f"Oil in the sump, {section.unit}", pad=9)
            stick = self.figure.add_axes((0.63, 0.115, 0.10, 0.795), sharey=axes)
            stick.set(xlim=(-1, 3), xticks=[])
            stick.axis("off")
            self.sump_axes = self.figure.add_axes((0.745, 0.115, 0.25, 0.36))
            self._levels(axes, stick, section)
            self._log_artists(axes)
            self._stick_artists(stick, section)
            self._sump_artists(self.sump_axes, section)
        self.words = self.figure.text(0.766, 0.905, "", va="top", fontsize=11.5, linespacing=1.35)

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        log = [self._band, self._lines, *self._level_words, self.not_yet, self.readings, self.real]
        stick = [self._film, self._stick_lines, self._needs_words, self._real_words]
        return [*log, self.due_words, self.flight_words, *stick, self._sump, self.words]

    def _levels(self, axes, stick, section):
        refill, least, self._level_words = section.sump.refill_at, section.minimum, []
        for level, colour, style, words in (
            (refill, GREEN, (0, (6, 2)), f"refill at {refill:g}"),
            (least, VERMILION, (0, (2, 1.5)), f"least {least:g}"),
        ):
            axes.axhline(level, color=colour, linestyle=style, linewidth=1.8)
            place = END_H - 0.4, level - 0.012 * self._scale
            self._level_words.append(axes.text(*place, words, color=colour, ha="right", va="top"))
        # The stick itself, with its marks.
        low, high = section.dipstick_quantities[0], section.dipstick_quantities[-1]
        over = 0.06 * (high - low)
        stick.fill([0, 0.8, 0.8, 0], [low - over, low - over, high + over, high + over], color=PALE, linewidth=0)
        stick.plot([0, 0, np.nan, 0.8, 0.8], [low - over, high + over, np.nan, low - over, high + over], INK, lw=1.2)
        for quantity in section.dipstick_quantities:
            stick.plot([0, 0.8], [quantity, quantity], color=INK, linewidth=1.6)
            stick.text(-0.2, quantity, f"{quantity:g}", ha="right", va="center", fontsize=11.5)

    def _log_artists(self, axes):
        self._band = PolyCollection([_NOTHING, _NOTHING], facecolors=_BAND, edgecolors="none")
        # The line through the readings, then when oil is due, and what this flight takes.
        self._lines = LineCollection(
            [_NOTHING] * 4,
            colors=[BLUE, BLUE, INK, ORANGE],
            linewidths=[2.4, 2.4, 5.0, 5.0],
            linestyles=["-", "-", "-", "-"],
            capstyle="butt",
        )
        for collection in (self._band, self._lines):
            axes.add_collection(collection, autolim=False)
        dots = {"linestyle": "none", "markersize": 9}
        self.not_yet = axes.plot([], [], marker="o", markerfacecolor="white", color=FAINT, **dots)[0]
        self.readings = axes.plot([], [], marker="o", color=BLUE, markeredgecolor=INK, **dots)[0]
        self.real = axes.plot([], [], marker="D", markerfacecolor="none", color=VERMILION, markeredgewidth=2, **dots)[0]
        ground = {"facecolor": "white", "edgecolor": "none", "pad": 1.0}
        self.due_words = axes.text(0, 0, "", fontweight="bold", va="top", bbox=ground)
        self.flight_words = axes.text(0, 0, "this flight", fontsize=11.5, va="center")

    def _stick_artists(self, stick, section):
        self._film = PolyCollection([_NOTHING], facecolors=_OIL, edgecolors=INK, linewidths=1.0)
        self._stick_lines = LineCollection(
            [_NOTHING] * 2, colors=[ORANGE, VERMILION], linewidths=3.0, linestyles=["-", (0, (1, 1))]
        )
        for collection in (self._film, self._stick_lines):
            stick.add_collection(collection, autolim=False)
        beside = {"va": "center", "fontsize": 11.5, "linespacing": 1.1}
        self._needs_words, self._real_words = (stick.text(1.75, 0, "", **beside) for _ in range(2))

    def _sump_artists(self, axes, section):
        sump = section.sump
        self._height = 1.35 * sump.depth(section.litres(section.full))
        reach = 0.56 * np.hypot(sump.length, self._height)
        axes.set(xlim=(-1.12 * reach, 1.12 * reach), ylim=(-0.7 * reach, 1.1 * reach))
        axes.set_aspect("equal")
        axes.axis("off")
        self._reach = reach
        self._sump = PolyCollection(
            [_NOTHING] * 4,
            facecolors=["white", _OIL, INK, INK],
            edgecolors=[INK, INK, INK, INK],
            linewidths=[2.0, 1.0, 3.0, 1.2],
        )
        axes.add_collection(self._sump, autolim=False)
        axes.text(-1.1 * reach, -0.66 * reach, "nose", fontsize=11)
        axes.text(1.1 * reach, -0.66 * reach, "tail", fontsize=11, ha="right")

    def show(self, result):
        """Move the artists to (check, there)."""
        check, there = result
        self._show_log(check, there)
        self._show_stick(check)
        self._show_sump(check)
        unit, step, deg = self._oil.unit, self._oil.sump.read_to, check.nose_up_deg
        slope = f"nose {'up' if deg > 0 else 'down'} {abs(deg):g}°" if deg else "on level ground"
        stick, sump, up = (amount(q, unit, step) for q in (check.shown, check.drained, check.up))
        self.words.set_text(
            f"Last reading\n{check.minutes:.0f} min after shut-down,\n{slope}\n\nthe stick shows {stick}\n"
            f"in the sump {sump}\nstill up {up}"
        )

    def _show_log(self, check, there):
        trend, count = check.trend, check.trend.readings
        poured_h = HOURS[POURED_AFTER] if sum(check.log.added) else 0.0
        bands, lines = [], []
        # Before oil was added there was less of it than the line has, which counts it all along.
        for begin, end, less in ((0.0, poured_h, sum(check.log.added)), (poured_h, END_H, 0.0)):
            hours = np.linspace(begin, end, _MOMENTS)
            oil, within = trend.quantity(hours) - less, trend.within(hours)
            bands.append(
                np.column_stack([np.append(hours, hours[::-1]), np.append(oil - within, (oil + within)[::-1])])
            )
            lines.append(np.column_stack([hours, oil]))
        last, refill, end = float(trend.last_h), self._oil.sump.refill_at, END_H
        early, late = (last + h for h in check.due_in[1:])
        bar = np.array([(early, refill), (min(late, end), refill)]) if early < end else _NOTHING
        flight = np.array([(last, check.needed), (min(last + check.flight_h, end), self._oil.minimum)])
        self.flight_words.set_position((flight[1, 0] + 0.6, flight.mean(axis=0)[1]))
        drop = 0.02 * self._scale
        if check.verdict == CHANGED:
            # One line through all of it would hide the bend, and so would its limits.
            bands, bar, lines = [_NOTHING], _NOTHING, _bent(check, poured_h)
            at = float(check.change.at_h)
            oil = float(check.change.at_quantity) - (sum(check.log.added) if at <= poured_h else 0.0)
            self._say_due("burns more from here", at + 1.0, oil + 4 * drop, "left")
        else:
            words, left = re.split(",|:| after", due_words(check.due_in))[0], check.due_in[0] > 0 and early > 18
            # Left of the bar the line has not come down yet, so there is room below it.
            place = min(early, END_H) - 0.8 if left else min(max(late, last) + 0.8, 23)
            self._say_due(words, place, refill - drop, "right" if left else "left")
        self._band.set_verts(bands)
        self._lines.set_segments([*lines, bar, flight])
        self.not_yet.set_data(HOURS[count:], there[count:])
        self.readings.set_data(HOURS[:count], check.log.quantities)
        self.real.set_data([last] if check.misleads else [], [check.there] if check.misleads else [])

    def _say_due(self, words, x, y, align):
        self.due_words.set_text(words)
        self.due_words.set_ha(align)
        self.due_words.set_position((x, y))

    def _show_stick(self, check):
        low = self._oil.dipstick_quantities[0]
        bottom = low - 0.06 * (self._oil.dipstick_quantities[-1] - low)
        self._film.set_verts([[(0, bottom), (0.8, bottom), (0.8, check.shown), (0, check.shown)]])
        real = [(0, check.there), (1.6, check.there)] if check.misleads else _NOTHING
        self._stick_lines.set_segments([np.array([(0, check.needed), (1.6, check.needed)]), np.asarray(real)])
        needed, really = (amount(q, "", self._oil.sump.read_to).strip() for q in (check.needed, check.there))
        self._needs_words.set_text(f"needs\n{needed}")
        self._needs_words.set_y(check.needed)
        room = abs(check.there - check.needed) > 0.1 * self._scale
        self._real_words.set_text(f"really\n{really}" if check.misleads and room else "")
        self._real_words.set_y(check.there)

    def _show_sump(self, check):
        sump, pitch = self._oil.sump, radians(check.nose_up_deg)
        half, height = sump.length / 2, self._height
        depth = sump.depth(self._oil.litres(check.drained))
        stick = sump.stick_forward
        nose, tail = depth - half * tan(pitch), depth + half * tan(pitch)
        # Seen from the left: the nose is on the left, and nose up turns it clockwise.
        shapes = (
            [(half, 0), (half, height), (-half, height), (-half, 0)],
            [(half, 0), (half, nose), (-half, tail), (-half, 0)],
            [(stick, 0.06 * height), (stick, 1.45 * height)],
            [(1.25 * half, 0), (-1.25 * half, 0)],
        )
        middle = height / 2
        turned = []
        for shape in shapes:
            forward, up = np.asarray(shape, dtype=float).T
            up = up - middle
            x = -(forward * cos(pitch) - up * sin(pitch))
            turned.append(np.column_stack([x, forward * sin(pitch) + up * cos(pitch)]))
        self._sump.set_verts(turned)


def _bent(check, poured_h):
    """The line that bends, in two pieces: before oil was added, and after it."""
    change, added = check.change, sum(check.log.added)
    at, oil = float(change.at_h), float(change.at_quantity)
    pieces = []
    for begin, end, less in ((0.0, poured_h, added), (poured_h, END_H, 0.0)):
        hours = np.array([begin, min(max(at, begin), end), end])
        burnt = np.where(hours < at, change.before, change.after) * (hours - at)
        pieces.append(np.column_stack([hours, oil - burnt - less]))
    return pieces
