"""A parked aircraft in the wind, from ahead and from its left: forces to scale, ropes, and what goes at which wind."""

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection

from walkaround.aircraft.dimensions import metre
from walkaround.aircraft.tie_down import newton
from walkaround.lessons.securing.ladder import Ladder
from walkaround.lessons.securing.sketch import from_ahead, from_the_left
from walkaround.lessons.securing.words import PLACES, breaks_if_jerked
from walkaround.live.colours import GREEN, INK, SKY, VERMILION
from walkaround.live.style import new_figure, styled
from walkaround.physics.securing import HALF_WING

SHARE = 0.62  # of the width for the two views
METRES_PER_WEIGHT = 0.85  # length of an arrow for a force as large as the empty weight
LOW_M = -1.55  # lower edge of a view
WEIGHT, GROUND = "#c9ced3", "#eef0e6"
SKETCH = {"facecolors": "white", "edgecolors": INK, "linewidths": 1.1}


def arrow(x, y, along, up, width=0.09):
    """Corners of an arrow from (x, y) by (along, up); a point if it is too short to be seen.

    >>> arrow(0.0, 0.0, 0.0, 1.0)[3]
    (0.0, 1.0)
    """
    length = float(np.hypot(along, up))
    if length < 0.02:
        return [(x, y)] * 7
    neck, half, ex, ey = length - min(3.0 * width, length), width / 2, along / length, up / length
    corners = (0, half), (neck, half), (neck, 3 * half), (length, 0), (neck, -3 * half), (neck, -half), (0, -half)
    return [(float(x + a * ex - b * ey), float(y + a * ey + b * ex)) for a, b in corners]


def rope_line(ring, anchor, loose, gone):
    """A rope as points: straight, hanging if it is loose, frayed and torn if it has gone.

    >>> rope_line((0.0, 1.0), (1.0, 0.0), False, False)[-1].tolist()
    [1.0, 0.0]
    """
    (x0, y0), (x1, y1) = ring, anchor
    t = np.linspace(0, 1, 13)
    x, y = x0 + (x1 - x0) * t, y0 + (y1 - y0) * t
    if gone:
        aside = 0.09 * np.array([0, 1, -1, 1, -1, 1, np.nan, 1, -1, 1, -1, 1, 0])
        x, y = x + aside, y + 0.4 * aside
    elif loose:
        x, y = x - 0.5 * (x1 - x0) * t * (1 - t), np.maximum(y - 1.3 * t * (1 - t) * y0, 0.0)
    return np.column_stack([x, y])


def rope_words(held, place):
    """What stands at a rope's anchor, and whether the rope gives."""
    name, rope = PLACES[place], held.parked.ropes[place]
    if rope is None:
        return f"{name}: no rope", False
    if not held.there.held:
        return f"{name}: can't hold it", True
    tension, used = float(held.there.ropes_n[place]), float(held.there.used[place])
    if held.there.broken[place]:
        gives = "PULLS OUT" if held.staked else "BREAKS"
        return f"{name} {gives}\n{held.pull(tension)} of {held.pull(rope.holds_n)}", True
    if not tension > 0:
        return f"{name}: {'slack' if rope.slack_m else 'no load'}", False
    if breaks_if_jerked(held, place):
        return f"{name} {held.pull(tension)}\na jerk {'PULLS IT OUT' if held.staked else 'BREAKS it'}", True
    return f"{name} {held.pull(tension)}\n{100 * used:.0f} % of its strength", False


def words_of(held, name, newtons):
    """A force with its name, or nothing if it would be told as 0."""
    pull = held.pull(newtons)
    return "" if pull.startswith("0 ") else f"{name} {pull}".replace("-", "−")


class View:
    """One of the two views: an axes in metres with the ground, ropes and arrows."""

    def __init__(self, figure, low, centre, across, title):
        width, height = figure.get_size_inches()
        self.top = LOW_M + across * height / (2 * SHARE * width)
        self.left, self.right = centre - across / 2, centre + across / 2
        self.axes = axes = figure.add_axes((0, low, SHARE, 0.5))
        axes.set(xlim=(self.left, self.right), ylim=(LOW_M, self.top))
        axes.axis("off")
        axes.fill_between(axes.get_xlim(), LOW_M, 0, facecolor=GROUND)
        axes.plot(axes.get_xlim(), [0, 0], color=INK, lw=1.2)
        self.text(self.left + 0.15, self.top - 0.12, title, va="top", fontsize=11.5)
        self.ropes = LineCollection([], linewidths=2.4, colors=INK, zorder=4)
        self.arrows = PolyCollection([], edgecolors=INK, linewidths=0.9, zorder=5)
        self._shown = None

    def text(self, x, y, words="", **look):
        """A text in the view."""
        return self.axes.text(x, y, words, **{"fontsize": 11, "linespacing": 1.2, **look})

    def add_moving(self):
        """Ropes and arrows, over what has been drawn so far."""
        for made in (self.ropes, self.arrows):
            self.axes.add_collection(made, autolim=False)

    def show(self, held, lines, arrows):
        """Show ropes, (place, ring, anchor) each, and arrows, (corners, colour) each."""
        corners, colours = zip(*arrows, strict=True)
        self.arrows.set_verts(corners)
        self.arrows.set_facecolors(colours)
        looks = []
        for place, _, _ in lines:
            loose = held.parked.ropes[place].slack_m > 0 and not held.there.ropes_n[place] > 0
            looks.append((bool(held.there.broken[place]), loose))
        if (lines, looks) == self._shown:  # as most often, while only the wind changes
            return
        self._shown = lines, looks
        drawn = [rope_line(ring, anchor, *look[::-1]) for (_, ring, anchor), look in zip(lines, looks, strict=True)]
        self.ropes.set_segments(drawn)
        styles = [(VERMILION, "--", 4.0) if gone else (INK, "-", 2.4) for gone, _ in looks] or [(INK, "-", 2.4)]
        colours, dashes, widths = map(list, zip(*styles, strict=True))
        self.ropes.set(colors=colours, linestyles=dashes, linewidths=widths)


class ParkedPicture:
    """The parked aircraft in the gusts, and the ladder of winds; `show` takes a `words.Held`."""

    def __init__(self, craft, width_px=860, height_px=560):
        self._size, self._front, self._left = (
            craft.dimensions.metres(craft.units),
            from_ahead(craft),
            from_the_left(craft),
        )
        self._scale = METRES_PER_WEIGHT / (craft.empty.weight * newton(craft.units))
        tied, m = craft.tie_down, metre(craft.units)
        self._side_m, self._tail_m = tied.side_height * m, self._size.cg_height + 0.4
        across = max(self._size.span, 2 * tied.wing_ring.out * m + 3.0) + 1.2
        with styled():
            self.figure = new_figure(width_px, height_px)
            self.ahead = View(self.figure, 0.5, 0.0, across, "from ahead")
            self.side = View(self.figure, 0.0, (self._size.nose + self._size.tail) / 2, across, "from its left")
            self.ahead.axes.add_collection(PolyCollection(self._front.shapes, **SKETCH), autolim=False)
            self._body, self._stood = PolyCollection([], **SKETCH), None
            self.side.axes.add_collection(self._body, autolim=False)
            for view in (self.ahead, self.side):
                view.add_moving()
            self._write()
            self.figure.text(SHARE + 0.02, 0.98, "What goes at which wind", va="top", fontweight="bold")
            self.ladder = Ladder(self.figure.add_axes((SHARE + 0.075, 0.03, 0.925 - SHARE, 0.88)))

    def _write(self):
        ahead, side, over = self.ahead, self.side, {"bbox": {"facecolor": "white", "edgecolor": "none", "pad": 1}}
        self._lifts = [ahead.text(0, 0, ha="center", va="bottom", **over) for _ in range(2)]
        self._aside = ahead.text(0, ahead.top - 0.12, ha="center", va="top", fontsize=11.5)
        self._mains = [ahead.text(0, -1.08, ha=ha, va="top") for ha in ("left", "right")]
        self._wind = side.text(side.left + 0.15, side.top - 0.6, va="top", fontsize=11.5)
        self._lift = side.text(0, 0, va="bottom", **over)
        self._tail = side.text(self._size.tail + 0.3, 0, va="center")
        self._stands = [side.text(x, -1.08, va="top") for x in (side.left + 0.15, self._size.main_wheels + 0.3)]
        tied = {"va": "top", "fontsize": 11.5}
        self._tied = [
            ahead.text(x, -0.18, ha=ha, **tied) for x, ha in ((ahead.right - 0.1, "right"), (ahead.left + 0.1, "left"))
        ]
        self._tied.append(side.text(side.right - 0.1, -0.18, ha="right", **tied))

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        still = [self._body, self.ahead.ropes, self.side.ropes, *self.ladder.moving]
        words = [*self._tied, *self._lifts, *self._mains, *self._stands, self._aside, self._lift, self._tail]
        return [*still, self.ahead.arrows, self.side.arrows, *words, self._wind]

    def show(self, held):
        """Show what happens in the gusts (`words.Held`)."""
        self._show_ahead(held, held.there)
        self._show_side(held, held.there)
        for place, text in enumerate(self._tied):
            words, gone = rope_words(held, place)
            text.set(text=words, fontweight="bold" if gone else "normal", color=VERMILION if gone else INK)
        self.ladder.update(held)

    def _show_ahead(self, held, there):
        half, track = HALF_WING * self._size.span / 2, self._size.track / 2
        wing, scale, arrows = self._front.wing_m + 0.2, self._scale, []
        # Its left is on the right of someone who stands in front of it.
        for text, x, lift in zip(self._lifts, (half, -half), (there.wind.left_n, there.wind.right_n), strict=True):
            arrows.append((arrow(x, wing, 0.0, scale * float(lift)), SKY))
            text.set_position((x, wing + max(scale * float(lift), 0.0) + 0.06))
            text.set_text(words_of(held, "lift", float(lift)))
        for text, x, load in zip(self._mains, (track, -track), there.wheels_n[1:].tolist(), strict=True):
            arrows.append((arrow(x, -scale * load, 0.0, scale * load), GREEN))
            text.set_x(1.1 * x)
            text.set_text(held.pull(load) if load > 0 else "off the ground" if there.held else "")
        aside = float(there.wind.side_n)
        end = 0.75 if aside > 0 else -0.75
        arrows.append((arrow(end + scale * aside, self._side_m, -scale * aside, 0.0), SKY))
        way = "left" if aside > 0 else "right"
        self._aside.set_text(f"wind from its {way}, {held.pull(abs(aside))} sideways" if abs(aside) > 1 else "")
        ropes = [
            (i, (-rope.ring_m[1], rope.ring_m[2]), (-rope.anchor_m[1], 0.0))
            for i, rope in enumerate(held.parked.ropes[:2])
            if rope
        ]
        self.ahead.show(held, ropes, arrows)

    def _turned(self, points, nose_up_deg):
        """Points of the side view, the nose raised about the main wheels' axle."""
        turn, axle = np.radians(nose_up_deg), np.array([self._size.main_wheels, self._size.main_wheel_radius])
        x, y = (np.asarray(points, float) - axle).T
        return axle + np.column_stack([x * np.cos(turn) + y * np.sin(turn), y * np.cos(turn) - x * np.sin(turn)])

    def _show_side(self, held, there):
        parked, air, scale, nose = held.parked, held.parked.airframe, self._scale, held.parked.nose_up_deg
        stands = nose, float(there.elevator_deg), parked.chock_m
        if stands != self._stood:
            self._stood = stands
            self._body.set_verts(self._shapes(parked, float(there.elevator_deg)))
        lift, tail, drag = (
            float(there.wind.left_n + there.wind.right_n),
            float(there.wind.tail_n),
            float(there.wind.drag_n),
        )
        places = (
            (air.wing_arm_m, self._left.wing_m + 0.2),
            (air.tail_arm_m, self._tail_m),
            (parked.cg_m, parked.cg_height_m),
        )
        (wx, wy), (tx, ty), (gx, gy) = self._turned(places, nose).tolist()
        arrows = [
            (arrow(wx, wy, 0.0, scale * lift), SKY),
            (arrow(tx, ty, 0.0, scale * tail), SKY),
            (arrow(gx, gy, 0.0, -scale * parked.weight_n), WEIGHT),
            (arrow(self._size.nose - 0.25 - scale * drag, air.drag_height_m, scale * drag, 0.0), SKY),
        ]
        self._lift.set_position((wx + 0.2, wy + max(scale * lift - 0.35, 0.02)))
        self._lift.set_text(words_of(held, "lift", lift))
        self._tail.set_y(ty)
        self._tail.set_text(
            words_of(held, f"tail {'down' if tail < 0 else 'up'}", abs(tail))
            .replace(" ", "\n", 2)
            .replace("\n", " ", 1)
        )
        loads = float(there.wheels_n[0]), float(there.wheels_n[1:].sum())
        wheels = self._size.nose_wheel, self._size.main_wheels
        for text, x, load, name in zip(self._stands, wheels, loads, ("nose", "mains"), strict=True):
            arrows.append((arrow(x, -scale * load, 0.0, scale * load), GREEN))
            text.set_text(words_of(held, name, load) if load > 0 else f"{name} off the ground" if there.held else "")
        self._wind.set_text(f"gusts {held.gust_kt:.0f} kt\ndrag {held.pull(drag)}\nweight {held.pull(parked.weight_n)}")
        ropes = [
            (i, tuple(self._turned([(rope.ring_m[0], rope.ring_m[2])], nose)[0].tolist()), (rope.anchor_m[0], 0.0))
            for i, rope in enumerate(parked.ropes)
            if rope and (i != 1 or not parked.ropes[0])
        ]
        self.side.show(held, ropes, arrows)

    def _shapes(self, parked, elevator_deg):
        """The side view's shapes: the nose raised about the axle, the elevator turned, and chocks at the wheel."""
        nose_leg, leg, nose_wheel, wheel, *others, elevator = self._left.shapes
        turn, hinge = np.radians(elevator_deg), elevator[[0, 2]].mean(axis=0)
        x, y = (elevator - hinge).T
        moved = hinge + np.column_stack([x * np.cos(turn) + y * np.sin(turn), y * np.cos(turn) - x * np.sin(turn)])
        turned = [self._turned(shape, parked.nose_up_deg) for shape in (nose_leg, leg, nose_wheel, *others, moved)]
        if parked.chock_m:
            x, r = self._size.main_wheels, self._size.main_wheel_radius
            high = min(parked.chock_m, r)
            away = np.sqrt(r**2 - (r - high) ** 2)
            turned += [[(x + s * away, 0), (x + s * away, high), (x + s * (away + 0.2), 0)] for s in (-1, 1)]
        return [wheel, *turned]
