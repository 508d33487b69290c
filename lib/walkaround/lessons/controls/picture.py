"""The aircraft from behind, its wings and tail cut from the side, and what the hands and feet do."""

from dataclasses import dataclass

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Ellipse, Polygon, Rectangle

from walkaround.lessons.controls.words import NAMES, written
from walkaround.live.colours import BLUE, FAINT, INK, PALE, SKY, VERMILION
from walkaround.live.style import CENTRED, new_figure, styled

WIDTH, HEIGHT = 860, 540
TIMES = 3.0  # how much larger than they are movements are drawn from behind
SKIN = "#f6f8f9"
_GROUND_Y, _MIDDLE_X = 262.0, 430.0
_HELD_X, _HELD_Y = 104.0, 149.0  # wheel or stick in the middle
# Of the half span: where ailerons and flaps begin and end. A sketch: the aircraft file has no such lengths.
_AILERON, _FLAP = (0.62, 0.97), (0.15, 0.58)
_TAB = (0.25, 0.75)  # of the right half of the tailplane
# Hinges of the sections in pixels, with length of the fixed and of the moving part and half the thickness there.
SECTIONS = {
    "left_aileron": (318.0, 186.0, 60.0, 58.0, 8.0),
    "right_aileron": (500.0, 186.0, 60.0, 58.0, 8.0),
    "left_flap": (318.0, 88.0, 60.0, 58.0, 8.0),
    "right_flap": (500.0, 88.0, 60.0, 58.0, 8.0),
    "elevator": (720.0, 124.0, 80.0, 90.0, 11.0),
}
_TAB_LENGTH = 36.0


@dataclass(frozen=True)
class Shown:
    """What the picture shows: `surfaces` (`physics.controls.Surfaces`), pedals and trim in shares of travel.

    With `asked`, a surface, its place has a question mark and no angles are written. `told` stands in the corner.
    """

    surfaces: object
    yaw: float = 0.0
    trim: float = 0.0
    asked: str = ""
    told: str = ""
    angles: bool = True


class ControlsPicture:
    """The aircraft; `show` takes a `Shown`. `craft` is an aircraft file with its dimensions and control surfaces."""

    def __init__(self, craft):
        self._section, self._d = craft.control_surfaces, craft.dimensions.metres(craft.units)
        d, section = self._d, self._section
        to_m = d.span / craft.dimensions.span
        self._chords = {n: getattr(section, n).chord * to_m for n in ("aileron", "elevator", "rudder", "tab", "flap")}
        self._px = 0.94 * WIDTH / d.span
        self._high = d.wing == "high"
        self._half, self._tail_half = d.span / 2 * self._px, d.tailplane_span / 2 * self._px
        self._wing_y = _GROUND_Y + d.wing_height * self._px
        # A sketch: the file has no heights of tail and fuselage.
        self._tail_y = _GROUND_Y + (0.145 if self._high else 0.155) * d.span * self._px
        self._fin_y = self._tail_y + 0.13 * d.span * self._px
        with styled():
            self.figure = new_figure(WIDTH, HEIGHT)
            self.axes = self.figure.add_axes((0, 0, 1, 1))
            self.axes.set(xlim=(0, WIDTH), ylim=(0, HEIGHT))
            self.axes.axis("off")
            self._draw_from_behind()
            self._draw_sections()
            self._draw_cockpit()
            look = {"edgecolors": INK, "linewidths": 1.5, "closed": True}
            self._behind = PolyCollection([], facecolors=[*[SKY] * 4, *[PALE] * 2, *[SKY] * 3], **look)
            self._cut = PolyCollection([], facecolors=[SKY], **look)
            self._hands = PolyCollection([], facecolors=[INK], **look)
            for bodies in (self._behind, self._cut, self._hands):
                self.axes.add_collection(bodies, autolim=False)
            self._frame = self.axes.add_patch(
                Polygon([(0, 0)] * 4, closed=True, fill=False, edgecolor=VERMILION, linewidth=2.6, linestyle="--")
            )
            self._write_labels()

    # ---- what does not move

    def _draw_from_behind(self):
        axes, px, y = self.axes, self._px, self._wing_y
        body = 0.115 * self._d.span * px
        middle = y - 0.045 * self._d.span * px if self._high else y + 0.03 * self._d.span * px
        wheel, out = self._d.main_wheel_radius * px, self._d.track / 2 * px
        for side in (-1, 1):
            axes.plot([_MIDDLE_X, _MIDDLE_X + side * out], [middle - 0.3 * body, _GROUND_Y + wheel], color=FAINT, lw=3)
            at = (_MIDDLE_X + side * out - 0.3 * wheel, _GROUND_Y)
            axes.add_patch(Rectangle(at, 0.6 * wheel, 2 * wheel, facecolor=INK))
        root, thick = y - 0.012 * self._d.span * px, 6.0
        for side in (-1, 1):
            ends = [(0, root - thick), (side * self._half, y - 2), (side * self._half, y + 3), (0, root + thick)]
            axes.add_patch(Polygon([(_MIDDLE_X + a, b) for a, b in ends], facecolor=PALE, edgecolor=INK, lw=1.4))
        axes.add_patch(Ellipse((_MIDDLE_X, middle), 0.8 * body, body, facecolor=SKIN, edgecolor=INK, lw=1.6))
        axes.plot([20, WIDTH - 20], [_GROUND_Y] * 2, color=FAINT, lw=1.2)
        axes.text(14, HEIGHT - 12, f"from behind; movements\n{TIMES:.0f} times as large", va="top", fontsize=12)

    def _draw_sections(self):
        limits = self._limits()
        marks = []
        for name, (x, y, fixed, moving, thick) in SECTIONS.items():
            nose = np.linspace(np.pi / 2, 3 * np.pi / 2, 14)
            outline = [(x - fixed + 1.6 * thick + 1.6 * thick * np.cos(a), y + thick * np.sin(a)) for a in nose]
            outline = [(x, y + thick), *outline, (x, y - thick)]
            self.axes.add_patch(Polygon(outline, facecolor=PALE, edgecolor=INK, lw=1.4))
            for degrees in limits[name]:
                turn = np.array([np.cos(np.radians(degrees)), np.sin(np.radians(degrees))])
                marks.append([(x, y) + turn * (moving + 5), (x, y) + turn * (moving + 25)])
                if degrees:
                    at = (x, y) + turn * (moving + (31 if name != "elevator" else 29))
                    self.axes.text(*at, f"{abs(degrees):g}°", fontsize=10, va="center")
            title, up = ("elevator and trim tab", 104) if name == "elevator" else (NAMES[name], 34)
            self.axes.text(x - fixed, y + up, title, fontsize=12)
        self.axes.add_collection(LineCollection(marks, colors=INK, linewidths=2.0), autolim=False)
        self.axes.text(258, 8, "cut, from the left; true angles; lines: limits and settings", fontsize=11)

    def _limits(self):
        r = self._section.rigging
        aileron, flap = (r.aileron_up, -r.aileron_down), tuple(-s for s in self._section.flap.settings_deg)
        return {
            **dict.fromkeys(("left_aileron", "right_aileron"), aileron),
            **dict.fromkeys(("left_flap", "right_flap"), flap),
            "elevator": (r.elevator_up, -r.elevator_down),
        }

    def _draw_cockpit(self):
        axes, held = self.axes, self._section.held
        axes.text(14, 238, f"{held}, pedals, trim", fontsize=12, va="center")
        axes.plot([_HELD_X] * 2, [88, 210], color=FAINT, lw=1.2, ls=":")
        axes.plot([_HELD_X - 62, _HELD_X + 62], [_HELD_Y] * 2, color=FAINT, lw=1.2, ls=":")
        axes.add_patch(Rectangle((206, 58), 10, 126, facecolor="white", edgecolor=INK, lw=1.4))
        for y, words in ((188, "nose\ndown"), (54, "nose\nup")):
            axes.text(211, y, words, fontsize=10.5, ha="center", va="bottom" if y > 100 else "top", color=INK)
        for x, y, words in ((8, 206, "forward"), (8, 90, "back")):
            axes.text(x, y, words, fontsize=10.5, color=FAINT, va="center")
        for x, words in ((_HELD_X - 36, "left"), (_HELD_X + 36, "right")):
            axes.text(x, 13, words, fontsize=10.5, color=FAINT, **CENTRED)

    def _write_labels(self):
        write = {"fontsize": 12, "ha": "center", "va": "center"}
        above, below = self._wing_y + 42, self._wing_y - 64
        outer, inner = 0.8 * self._half, 0.52 * self._half
        tail = _MIDDLE_X + self._tail_half + 12
        up = _GROUND_Y + 34 if self._high else self._tail_y + 62
        places = {
            "left_aileron": (_MIDDLE_X - outer, above),
            "right_aileron": (_MIDDLE_X + outer, above),
            "left_flap": (_MIDDLE_X - inner, below),
            "right_flap": (_MIDDLE_X + inner, below),
            "rudder": (_MIDDLE_X, self._fin_y + 16),
        }
        self._labels = {name: self.axes.text(*at, "", **write) for name, at in places.items()}
        left = {**write, "ha": "left"}
        self._labels["elevator"] = self.axes.text(tail, up + 10, "", **left)
        self._labels["tab"] = self.axes.text(tail, up - 9, "", **left)
        self._told = self.axes.text(WIDTH - 14, HEIGHT - 12, "", ha="right", va="top", fontsize=15, fontweight="bold")

    # ---- what moves

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        return [self._behind, self._cut, self._hands, self._frame, *self._labels.values(), self._told]

    def show(self, shown):
        """Show what a `Shown` says."""
        s = shown.surfaces
        degrees = {name: float(getattr(s, name)) for name in NAMES}
        behind = self._from_behind(degrees)
        self._behind.set_verts(list(behind.values()))
        self._cut.set_verts(self._sections(degrees))
        self._hands.set_verts(self._cockpit(float(s.roll), float(s.pitch), shown.yaw, shown.trim))
        around = np.array(behind[shown.asked]) if shown.asked in behind else np.full((1, 2), -90.0)
        (x0, y0), (x1, y1) = around.min(axis=0) - 12, around.max(axis=0) + 12
        self._frame.set_xy([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
        for name, label in self._labels.items():
            label.set_text(self._label(name, degrees[name], shown))
            label.set_fontweight("bold" if name == shown.asked else "normal")
            label.set_color(VERMILION if name == shown.asked else BLUE if round(degrees[name]) else INK)
        self._told.set_text(shown.told)

    def _label(self, name, degrees, shown):
        if not shown.angles:
            return f"{NAMES[name]}?" if name == shown.asked else ""
        return f"{NAMES[name]} {written(name, degrees)}"

    def _rise(self, chord, degrees):
        return TIMES * self._chords[chord] * self._px * np.sin(np.radians(degrees))

    def _from_behind(self, degrees):
        """Outline of each surface from behind, by name: between its hinge and its trailing edge."""
        found = {}
        for name, side in (("left", -1), ("right", 1)):
            for what, (start, end) in (("aileron", _AILERON), ("flap", _FLAP)):
                angle = degrees[f"{name}_{what}"] * (1 if what == "aileron" else -1)
                x0, x1 = (_MIDDLE_X + side * share * self._half for share in (start, end))
                slope = 0.012 * self._d.span * self._px
                y0, y1 = (self._wing_y - slope * (1 - share) for share in (start, end))
                found[f"{name}_{what}"] = _band(x0, y0, x1, y1, 0.0, self._rise(what, angle))
        half, y = self._tail_half, self._tail_y
        # The tail is nearer than the wing, and hides what is behind it.
        found["tailplane"] = _box(_MIDDLE_X, y, half, 3)
        found["fin"] = _box(_MIDDLE_X, (y + self._fin_y) / 2, 3, (self._fin_y - y) / 2)
        up = self._rise("elevator", degrees["elevator"])
        found["elevator"] = _band(_MIDDLE_X - half, y, _MIDDLE_X + half, y, 0.0, up)
        out = self._rise("rudder", degrees["rudder"])
        found["rudder"] = _band(_MIDDLE_X, y, _MIDDLE_X, self._fin_y, out, 0.0)
        x0, x1 = (_MIDDLE_X + share * half for share in _TAB)
        # The tab turns with the elevator that carries it.
        tab = self._rise("tab", degrees["tab"] + degrees["elevator"]) - self._rise("tab", degrees["elevator"])
        found["tab"] = _band(x0, y + up, x1, y + up, 0.0, tab)
        return found

    def _sections(self, degrees):
        """Outlines of the moving parts, cut and seen from the left."""
        found = []
        for name, (x, y, _, length, thick) in SECTIONS.items():
            angle = -degrees[name] if name.endswith("flap") else degrees[name]
            if name != "elevator":
                found.append(_wedge(x, y, angle, length, thick, 0.0))
                continue
            main, end = length - _TAB_LENGTH, thick * _TAB_LENGTH / length
            found.append(_wedge(x, y, angle, main, thick, end))
            turn = np.radians(angle)
            at = x + main * np.cos(turn), y + main * np.sin(turn)
            found.append(_wedge(*at, angle + degrees["tab"], _TAB_LENGTH, end, 0.0))
        return found

    def _cockpit(self, roll, pitch, yaw, trim):
        """Outlines of wheel or stick, pedals and the trim's mark."""
        x, y = _HELD_X, _HELD_Y - 26 * pitch
        if self._section.held == "wheel":
            held = [_turned(_WHEEL, -np.radians(70 * roll), (x, y))]
        else:
            knob = np.array([x + 40 * roll, y])
            lean = knob - (_HELD_X, _HELD_Y)
            across = 4 * np.array([-lean[1], lean[0]]) / (np.hypot(*lean) or 1.0)
            foot = np.array([_HELD_X, _HELD_Y])
            held = [[foot + across, knob + across, knob - across, foot - across], knob + 12 * _RING]
        pedals = [_box(_HELD_X + side, 46 + 11 * way, 15, 10) for side, way in ((-36, -yaw), (36, yaw))]
        return [*held, *pedals, _box(211, 121 - 58 * trim, 13, 4)]


_TURN = np.linspace(0, 2 * np.pi, 20)
_RING = np.column_stack([np.cos(_TURN), np.sin(_TURN)])
_WHEEL = 0.8 * np.array(
    [(-46, 24), (-38, 26), (-34, 0), (-12, -6), (12, -6), (34, 0), (38, 26), (46, 24), (42, -10), (14, -16), (-14, -16),
     (-42, -10)],
)  # fmt: skip


def _band(x0, y0, x1, y1, dx, dy):
    return [(x0, y0), (x1, y1), (x1 + dx, y1 + dy), (x0 + dx, y0 + dy)]


def _box(x, y, wide, tall):
    return [(x - wide, y - tall), (x + wide, y - tall), (x + wide, y + tall), (x - wide, y + tall)]


def _turned(points, turn, at):
    c, s = np.cos(turn), np.sin(turn)
    return [(at[0] + a * c - b * s, at[1] + a * s + b * c) for a, b in points]


def _wedge(x, y, degrees, length, thick, end):
    """A part that tapers from its hinge to its end, turned about the hinge."""
    points = [(0, thick), (-0.7 * thick, 0), (0, -thick), (length, -end), (length, end)]
    return _turned(points, np.radians(degrees), (x, y))
