"""A whole flight on three instruments: the dials now, and under each what it has shown so far."""

import numpy as np

from walkaround.lessons.pitot_static.dial_faces import AirspeedDial, AltimeterDial, VerticalSpeedDial
from walkaround.live.colours import BLUE, FAINT, INK, VERMILION
from walkaround.live.style import new_figure, styled

MOST_POINTS = 700  # more than a screen shows; a flight of 10,000 samples is thinned to these for drawing
_ROOM = 1.3  # how much longer than the flight the time axis is, for the words after the lines


class FlightPicture:
    """Airspeed, altitude and vertical speed: the dial now, and under it the flight so far.

    The flight fixes the scales; make a new picture for a new flight. `speeds` are the arguments of
    `dial_faces.AirspeedDial`. `show` takes (shown, right, at_s, changes_s, reveal): indications over the flight, those
    with everything clear, the moment now, the moments at which openings changed, and whether to draw what is
    right and the changes, or to keep them secret.
    """

    def __init__(self, flight, speeds, width_px=980, height_px=640):
        self.time_s = flight.time_s
        self.thin = np.unique(np.linspace(0, flight.time_s.size - 1, MOST_POINTS).astype(int))
        self.minutes = (flight.time_s - flight.time_s[0]) / 60.0
        low_ft, high_ft = flight.altitude_ft.min(), flight.altitude_ft.max()
        room_ft = max(0.12 * (high_ft - low_ft), 100.0)
        with styled():
            self.figure = new_figure(width_px, height_px)
            self.dials, self.charts = [], []
            kinds = (lambda a: AirspeedDial(a, **speeds), AltimeterDial, VerticalSpeedDial)
            for i, (kind, unit) in enumerate(zip(kinds, ("kt", "ft", "ft/min"), strict=True)):
                self.dials.append(kind(self.figure.add_axes((i / 3, 0.445, 1 / 3, 0.555))))
                axes = self.figure.add_axes((0.075 + i / 3, 0.1, 0.245, 0.3))
                axes.set(xlim=(0, self.minutes[-1] * _ROOM), xlabel="minutes")
                axes.set_title(unit, fontsize=11.5, loc="right")  # where no line runs into it
                self.charts.append(_Chart(axes, self.dials[i].instrument))
            airspeed, altitude, vertical_speed = (chart.axes for chart in self.charts)
            airspeed.set_ylim(0, self.dials[0].top)
            altitude.set_ylim(low_ft - room_ft, high_ft + room_ft)
            vertical_speed.set(ylim=(-2000, 2000), yticks=[-2000, -1000, 0, 1000, 2000])

    @property
    def instruments(self):
        """The three instruments with the scales that they have here, as `words` takes them."""
        return tuple(dial.instrument for dial in self.dials)

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        return [artist for part in (*self.charts, *self.dials) for artist in part.moving]

    def show(self, result):
        """Move the artists to (shown, right, at_s, changes_s, reveal)."""
        shown, right, at_s, changes_s, reveal = result
        now = int(np.clip(np.searchsorted(self.time_s, at_s, side="right") - 1, 0, self.time_s.size - 1))
        so_far = np.append(self.thin[: np.searchsorted(self.thin, now)], now)
        minutes = self.minutes[so_far]
        changes = [(t - self.time_s[0]) / 60.0 for t in changes_s if t <= at_s]
        names = ("airspeed_kt", "altitude_ft", "vertical_speed_fpm")
        for name, chart, dial in zip(names, self.charts, self.dials, strict=True):
            seen, true = getattr(shown, name), getattr(right, name)
            chart.update(minutes, seen[so_far], true[so_far] if reveal else None, changes if reveal else [])
            on_stop = name == "airspeed_kt" and bool(shown.on_stop[now])
            dial.update(seen[now], true[now] if reveal else None, on_stop)


class _Chart:
    """One chart: the reading as a solid line, what is right as a broken one, and the changes as uprights.

    A reading off the scale runs along the chart's edge, and words say so.
    """

    most_changes = 4

    def __init__(self, axes, instrument):
        self.axes, self.instrument = axes, instrument
        self.right = axes.plot([], [], color=BLUE, linestyle=(0, (4, 1.5)), linewidth=2.6)[0]
        self.shown = axes.plot([], [], color=VERMILION, linewidth=2.4)[0]
        self.now = axes.plot([], [], marker="o", markersize=9, color=VERMILION, markeredgecolor=INK, zorder=5)[0]
        self.now.set_clip_on(False)
        look = {"color": FAINT, "linestyle": ":", "linewidth": 2, "visible": False}
        self.uprights = [axes.axvline(0, **look) for _ in range(self.most_changes)]
        self.words = {
            "shows": axes.text(0, 0, "", color=VERMILION, fontweight="bold", va="center"),
            "right": axes.text(0, 0, "", color=BLUE, va="center"),
        }

    @property
    def moving(self):
        return [*self.uprights, self.right, self.shown, self.now, *self.words.values()]

    def update(self, minutes, shown, right, changes):
        low, high = self.axes.get_ylim()
        off_scale = self.instrument.off_scale(shown[-1])
        shown = np.clip(shown, low, high)
        self.shown.set_data(minutes, shown)
        self.now.set_data(minutes[-1:], shown[-1:])
        secret = right is None
        right = shown if secret else np.clip(right, low, high)
        self.right.set_data(minutes, right)
        self.right.set_visible(not secret)
        apart = not secret and abs(right[-1] - shown[-1]) > 0.12 * (high - low)
        self._put("shows", "off the\nscale" if off_scale else "shows" if apart else "", minutes[-1], shown[-1])
        self._put("right", "right" if apart else "", minutes[-1], right[-1])
        for i, upright in enumerate(self.uprights):
            upright.set_visible(i < len(changes))
            if i < len(changes):
                upright.set_xdata([changes[i]] * 2)

    def _put(self, name, words, minutes, value):
        """Write words after the end of a line, inside the axes."""
        low, high = self.axes.get_ylim()
        room = (0.15 if "\n" in words else 0.08) * (high - low)
        place = minutes + 0.04 * self.axes.get_xlim()[1], np.clip(value, low + room, high - room)
        self.words[name].set(text=words, position=place)
