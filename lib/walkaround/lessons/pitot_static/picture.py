"""The three instruments over the lines that feed them, with the openings clear or blocked."""

from matplotlib.patches import FancyBboxPatch

from walkaround.lessons.pitot_static.dial_faces import AirspeedDial, AltimeterDial, VerticalSpeedDial
from walkaround.live.colours import BLUE, GREEN, INK, PALE, VERMILION
from walkaround.live.style import CENTRED, new_figure, styled


class InstrumentsPicture:
    """Three dials, and under them the pitot line and the static line with their openings.

    `speeds` are the arguments of `dial_faces.AirspeedDial`. `show` takes (openings, shown, right, alternate_open):
    which openings are clear, the indications, and those with everything clear.
    """

    def __init__(self, speeds, width_px=980, height_px=560):
        with styled():
            self.figure = new_figure(width_px, height_px)
            share = 0.68
            axes = [self.figure.add_axes((i / 3, 1 - share, 1 / 3, share)) for i in range(3)]
            self.airspeed = AirspeedDial(axes[0], **speeds)
            self.altitude = AltimeterDial(axes[1])
            self.vertical_speed = VerticalSpeedDial(axes[2])
            self.lines = LinesSketch(self.figure.add_axes((0, 0, 1, 1 - share)))

    @property
    def instruments(self):
        """The three instruments with the scales that they have here, as `words` takes them."""
        return tuple(dial.instrument for dial in (self.airspeed, self.altitude, self.vertical_speed))

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        parts = (self.airspeed, self.altitude, self.vertical_speed, self.lines)
        return [artist for part in parts for artist in part.moving]

    def show(self, result):
        """Move the artists to (openings, shown, right, alternate_open)."""
        openings, shown, right, alternate_open = result
        self.airspeed.update(shown.airspeed_kt, right.airspeed_kt, bool(shown.on_stop))
        self.altitude.update(shown.altitude_ft, right.altitude_ft)
        self.vertical_speed.update(shown.vertical_speed_fpm, right.vertical_speed_fpm)
        self.lines.update(openings, shown, right, alternate_open)


class LinesSketch:
    """Pitot tube, static port and the two lines; a plug stands in each opening that is blocked."""

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(0, 9.8), ylim=(-0.04, 1.76))
        axes.axis("off")
        tube = {"boxstyle": "round,pad=0,rounding_size=0.12", "facecolor": PALE, "edgecolor": INK, "linewidth": 1.6}
        axes.add_patch(FancyBboxPatch((0.62, 0.72), 0.85, 0.26, **tube))
        axes.add_patch(FancyBboxPatch((8.78, 0.62), 0.16, 0.5, **tube))
        # Solid and broken lines, so that the two lines are told apart without their colours.
        axes.plot([1.42, 1.64, 1.64], [0.85, 0.85, 1.62], color=BLUE, linewidth=5, solid_joinstyle="round")
        static = {"color": GREEN, "linewidth": 4, "linestyle": (0, (2.4, 0.7))}
        axes.plot([8.78, 8.6, 8.6, 2.05, 2.05], [0.85, 0.85, 1.18, 1.18, 1.62], **static)
        for x in (4.9, 8.17):
            axes.plot([x, x], [1.18, 1.62], **static)
        for x, colour in ((1.64, BLUE), (2.05, GREEN), (4.9, GREEN), (8.17, GREEN)):
            axes.plot(x, 1.66, marker="^", markersize=10, color=colour)
        axes.annotate("", (0.6, 0.85), (0.1, 0.85), arrowprops={"arrowstyle": "-|>", "color": INK, "linewidth": 1.8})
        axes.text(0.1, 1.05, "wind", fontsize=12)
        self._cabin = axes.plot([6.5, 6.5], [0.98, 1.18], color=GREEN, linewidth=4)[0]
        self._cabin_words = axes.text(6.5, 0.83, "alternate source open to the cabin", **CENTRED, color=VERMILION)
        self._openings = {
            "pitot_clear": self._opening(0.62, 0.85, "inlet", 0.62, 0.46, "center"),
            "drain_clear": self._opening(1.3, 0.72, "drain", 1.42, 0.46, "left"),
            "static_clear": self._opening(8.94, 0.85, "static port", 9.7, 0.46, "right"),
        }
        self._pitot = axes.text(2.45, 0.5, "", va="center", color=BLUE, fontweight="bold")
        self._static = axes.text(2.45, 0.18, "", va="center", color=GREEN, fontweight="bold")

    def _opening(self, x, y, name, words_x, words_y, across):
        look = {"markersize": 10, "markerfacecolor": "white", "markeredgecolor": INK, "markeredgewidth": 1.8}
        hole = self.axes.plot(x, y, marker="o", **look)[0]
        plug = self.axes.plot(x, y, marker="X", markersize=19, color=VERMILION, markeredgecolor=INK, zorder=6)[0]
        self.axes.text(words_x, words_y, name, ha=across, va="center", fontsize=12)
        state = self.axes.text(words_x, words_y - 0.29, "", ha=across, va="center", fontweight="bold", fontsize=12)
        return hole, plug, state

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        each = [artist for opening in self._openings.values() for artist in opening]
        return [self._cabin, self._cabin_words, *each, self._pitot, self._static]

    def update(self, openings, shown, right, alternate_open=False):
        """Show which openings are blocked, and the pressures."""
        for name, (_, plug, state) in self._openings.items():
            clear = bool(getattr(openings, name))
            plug.set_visible(not clear)
            state.set(text="clear" if clear else "blocked", color=INK if clear else VERMILION)
        self._cabin.set_visible(bool(alternate_open))
        self._cabin_words.set_visible(bool(alternate_open))
        self._pitot.set_text(_line_words("pitot", shown.pitot_line_hpa, right.pitot_line_hpa, "total"))
        self._static.set_text(_line_words("static", shown.static_line_hpa, right.static_line_hpa, "static"))


def _line_words(line, inside_hpa, outside_hpa, kind):
    return f"{line} line {inside_hpa:,.1f} hPa; outside, {kind} {outside_hpa:,.1f} hPa"
