"""Round dials: airspeed indicator, altimeter and vertical speed indicator, each beside what would be right.

A dial draws its still parts once, on the axes given. `moving` lists the artists that `update` changes, so that a live
picture can redraw only these. The needle shows the reading; an open triangle outside the rim points to the right value,
and a heavy broken ring round the face says that the two differ.
"""

import numpy as np
from matplotlib.patches import Circle, Polygon, Wedge

from walkaround.live.colours import BLUE, GREEN, INK, VERMILION
from walkaround.live.style import CENTRED
from walkaround.physics.pitot_static.words import AIRSPEED, ALTIMETER, VERTICAL_SPEED

YELLOW = "#f0e442"  # of Okabe and Ito's set
_SLENDER = np.array([(-0.022, -0.2), (-0.03, 0.45), (0.0, 0.8), (0.03, 0.45), (0.022, -0.2)])
_STOUT = np.array([(-0.045, -0.12), (-0.075, 0.3), (0.0, 0.5), (0.075, 0.3), (0.045, -0.12)])
_POINTER = np.array([(-0.065, 1.19), (0.065, 1.19), (0.0, 1.05)])


class Dial:
    """A face with a title over it, a needle, and the reading in figures under it; the three dials build on it."""

    instrument = None  # which of `words.INSTRUMENTS`

    def __init__(self, axes, title):
        self.axes = axes
        axes.set(xlim=(-1.5, 1.5), ylim=(-1.77, 1.57), aspect="equal")
        axes.axis("off")
        axes.add_patch(Circle((0, 0), 1.0, facecolor=INK, edgecolor=INK))
        axes.text(0, 1.4, title, **CENTRED, fontweight="bold")
        broken = {"fill": False, "edgecolor": VERMILION, "linewidth": 5, "linestyle": (0, (2.5, 0.7))}
        self.ring = axes.add_patch(Circle((0, 0), 1.03, **broken))
        self.right_mark = axes.add_patch(Polygon(_POINTER, facecolor="white", edgecolor=BLUE, linewidth=2.2))
        self.needle = axes.add_patch(Polygon(_SLENDER, facecolor="white", edgecolor=INK, zorder=5))
        self.hub = axes.add_patch(Circle((0, 0), 0.09, facecolor="white", edgecolor=INK, zorder=6))
        self.reading = axes.text(0, -1.36, "", **CENTRED, fontweight="bold", fontsize=14)
        self.right = axes.text(0, -1.62, "", **CENTRED, color=BLUE)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self.ring, self.right_mark, self.needle, self.hub, self.reading, self.right]

    def update(self, shown, right=None, on_stop=False):
        """Point to the reading `shown`; `right` is what a sound instrument would show, None to keep it secret."""
        turn(self.needle, _SLENDER, self.angle(shown))
        off = "off the scale" if self.instrument.off_scale(shown) else f"shows {self.instrument.written(shown)}"
        self.reading.set_text("on its stop at 0" if on_stop else off)
        known = right is not None
        self.right_mark.set_visible(known)
        self.ring.set_visible(known and self.instrument.wrong(shown, right))
        self.right.set_text(f"right: {self.instrument.written(right)}" if known else "")
        if known:
            turn(self.right_mark, _POINTER, self.angle(right))

    def angle(self, value):
        """Return the angle of a value in degrees, clockwise from the top."""
        raise NotImplementedError

    def graduate(self, values, inner, width, labels=None):
        """Draw a tick at each value, from the rim inward, and its label if there are any."""
        for i, value in enumerate(values):
            x, y = on_circle(self.angle(value), np.array([0.97, inner]))
            self.axes.plot(x, y, color="white", linewidth=width, solid_capstyle="butt", zorder=3)
            if labels is not None:
                x, y = on_circle(self.angle(value), 0.62)
                self.axes.text(x, y, labels[i], color="white", **CENTRED, fontsize=13, zorder=3)


class AirspeedDial(Dial):
    """Airspeed indicator with the markings of 14 CFR 23.1545(b), as before the 2017 rewrite of Part 23 (recalled).

    White arc, the flap range: from VS0 (stall in the landing configuration, maximum weight) to VFE (flaps extended).
    Green arc, the normal range: from VS1 (stall with flaps and gear up, maximum weight) to VNO (greatest structural
    cruising speed). Yellow arc, the caution range: from VNO to VNE. Red radial line: VNE (never exceed). The white arc
    has a track of its own and the yellow one is striped, for readers who don't see the colours. `first_mark` is the
    first graduation: below it the needle is not to be trusted.
    """

    def __init__(self, axes, vs1, vno, vne, vs0=None, vfe=None, first_mark=40):
        super().__init__(axes, "airspeed")
        self.top = 20 * np.ceil(1.15 * vne / 20)
        self.instrument = AIRSPEED.with_scale_to(self.top)
        self._arc(vs1, vno, 0.97, 0.1, GREEN)
        self._arc(vno, vne, 0.97, 0.1, YELLOW, hatch="////")
        if vs0 is not None and vfe is not None:
            self._arc(vs0, vfe, 0.86, 0.055, "white")
        marks = np.arange(np.ceil(first_mark / 10) * 10, self.top + 1, 10)
        self.graduate(marks, 0.86, 1.2)
        tens = [0.0, *marks[marks % 20 == 0]]
        self.graduate(tens, 0.78, 2.4, [f"{v:.0f}" for v in tens])
        x, y = on_circle(self.angle(vne), np.array([1.0, 0.72]))
        axes.plot(x, y, color="white", linewidth=6, zorder=4, solid_capstyle="butt")
        axes.plot(x, y, color=VERMILION, linewidth=4, zorder=4, solid_capstyle="butt")
        # The peg that stops the needle on its way below zero.
        axes.add_patch(Circle(on_circle(-7.0, 0.75), 0.045, facecolor="#bbbbbb", edgecolor=INK, zorder=3))
        named = {"VS1": vs1, "VNO": vno, "VNE": vne, "VS0": vs0, "VFE": vfe}
        for name, value in named.items():
            if value is not None:
                self._name_speed(name, self.angle(value))
        axes.text(0, -0.3, "kt", color="white", **CENTRED, fontsize=11)

    def angle(self, value):
        """Return the angle of a speed: 0 at the top, the scale's end at 330°, a faster one a little beyond it."""
        return 330.0 * np.clip(value / self.top, 0.0, 1.03)

    def _name_speed(self, name, angle):
        # VS0 and VS1 lie close together: the names are set a little apart.
        angle += {"VS0": -4.0, "VS1": 4.0}.get(name, 0.0)
        x, y = on_circle(angle, 1.24)  # outside the triangle that points to what is right
        across = "left" if x > 0.3 else "right" if x < -0.3 else "center"
        self.axes.text(x, y, f"$V_{{{name[1:]}}}$", ha=across, va="center", fontsize=10.5)

    def _arc(self, low, high, radius, width, colour, hatch=None):
        # matplotlib's angles run counter-clockwise from the right.
        begin, end = 90.0 - self.angle(high), 90.0 - self.angle(low)
        look = {"facecolor": colour, "edgecolor": INK, "hatch": hatch, "zorder": 2}
        self.axes.add_patch(Wedge((0, 0), radius, begin, end, width=width, **look))


class AltimeterDial(Dial):
    """Altimeter with two hands: the long one goes round once in 1,000 ft, the short one in 10,000 ft."""

    instrument = ALTIMETER

    def __init__(self, axes):
        super().__init__(axes, "altitude")
        self.graduate(np.arange(0, 1000, 20), 0.9, 1.0)
        self.graduate(np.arange(0, 1000, 100), 0.8, 2.4, [str(n) for n in range(10)])
        axes.text(0, 0.3, "100 ft", color="white", **CENTRED, fontsize=10)
        self.short = axes.add_patch(Polygon(_STOUT, facecolor="white", edgecolor=INK, zorder=4))

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [*super().moving[:2], self.short, *super().moving[2:]]

    def update(self, shown, right=None, on_stop=False):
        """Point to an altitude in ft; the triangle stands where the long hand should be."""
        super().update(shown, right, on_stop)
        turn(self.short, _STOUT, shown * 0.036)

    def angle(self, value):
        """Return the angle of the long hand."""
        return value % 1000.0 * 0.36


class VerticalSpeedDial(Dial):
    """Vertical speed indicator: zero on the left, climb upwards, descent downwards."""

    def __init__(self, axes, top_fpm=2000):
        super().__init__(axes, "vertical speed")
        self.top_fpm = top_fpm
        self.instrument = VERTICAL_SPEED.with_scale_to(top_fpm)
        fine = np.arange(0, top_fpm + 1, top_fpm / 20)
        coarse = np.arange(0, top_fpm + 1, top_fpm / 4)
        self.graduate(np.unique([*-fine, *fine]), 0.88, 1.0)
        both = np.unique([*-coarse, *coarse])
        self.graduate(both, 0.8, 2.4, [f"{abs(v) / 100:.0f}" for v in both])
        for words, x, y in (("up", -0.42, 0.2), ("down", -0.42, -0.2), ("100 ft/min", 0.04, 0.32)):
            axes.text(x, y, words, color="white", **CENTRED, fontsize=10)

    def angle(self, value):
        """Return the angle of a rate: 0 on the left, the ends of the scale just short of the right."""
        return 270.0 + 168.0 * np.clip(value / self.top_fpm, -1.02, 1.02)


def turn(patch, shape, angle):
    """Turn a polygon that points to the top clockwise by an angle in degrees.

    >>> hand = Polygon([(0, 0), (0, 1)], closed=False)
    >>> turn(hand, np.array([(0.0, 0.0), (0.0, 1.0)]), 90.0)
    >>> hand.get_xy()[1].round(6)
    array([1., 0.])
    """
    a = np.radians(angle)
    patch.set_xy(shape @ np.array([[np.cos(a), -np.sin(a)], [np.sin(a), np.cos(a)]]))


def on_circle(angle, radius):
    """Return the place at an angle in degrees, clockwise from the top, and a distance from the middle.

    >>> [round(float(x), 6) for x in on_circle(90.0, 2.0)]
    [2.0, 0.0]
    """
    return radius * np.sin(np.radians(angle)), radius * np.cos(np.radians(angle))
