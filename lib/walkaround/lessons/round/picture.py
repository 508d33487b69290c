"""The round as a picture: the aircraft from above with its stops on the left, what is looked at on the right."""

from typing import NamedTuple

from matplotlib.patches import Polygon

from walkaround.lessons.round.drawings import DRAWN
from walkaround.lessons.round.drawings.pen import HIGH, WIDE, Pen
from walkaround.lessons.towing.airframe import Airframe
from walkaround.live.colours import FAINT, INK, PALE
from walkaround.live.labels import apart
from walkaround.live.style import CENTRED, new_figure, styled

WIDTH, HEIGHT = 860, 520
_MAP = 0.385  # of the width


class Shown(NamedTuple):
    """What the picture shows: the stop's place, the thing's name and title, what is seen, the day, marks at stops."""

    stop: int
    name: str
    title: str
    seen: dict
    day: str
    marks: tuple[str, ...]


class RoundPicture:
    """`show` takes a `Shown`. `craft` is an aircraft file, `stops` the rows of the table of lessons that are stops."""

    def __init__(self, craft, stops):
        self._craft, self._stops = craft, stops
        self._sheets = {}  # of each thing: what is seen there, and the drawing of it
        with styled():
            self.figure = new_figure(WIDTH, HEIGHT)
            self._map = self._axes((0.0, 0.36, _MAP, 0.64))
            self._view = self._axes((_MAP + 0.015, 0.01, 0.985 - _MAP, 0.86))
            self._view.set(xlim=(0, WIDE), ylim=(0, HIGH), aspect="equal")
            self._draw_map(Airframe(craft))
            self._head = self.figure.text(_MAP + 0.02, 0.955, "", fontsize=14, fontweight="bold", va="center")
            self._title = self.figure.text(_MAP + 0.02, 0.9, "", fontsize=12.5, va="center")
            self._day = self.figure.text(0.02, 0.34, "", fontsize=12, va="top", linespacing=1.35)
        self._pen = Pen(self._view)

    def _axes(self, place):
        axes = self.figure.add_axes(place)
        axes.axis("off")
        return axes

    def _draw_map(self, frame):
        axes, half, room = self._map, frame.span / 2, 6.5
        length = frame.nose - frame.tail
        axes.set(xlim=(-half - room, half + room), ylim=(frame.tail - 3, frame.nose + 4), aspect="equal")
        outline = [(right, ahead) for ahead, right in frame.outline]
        axes.add_patch(Polygon(outline, closed=True, facecolor=PALE, edgecolor=INK, linewidth=1.4))
        at = [(s.place[1] * half, frame.nose - s.place[0] * length) for s in self._stops]
        spots = [None] * len(at)
        for sign in (-1, 1):
            side = [i for i, (x, _) in enumerate(at) if (x > 0) == (sign > 0)]
            heights = apart([at[i][1] for i in side], 4.6, frame.tail)
            over = max([0.0, *(h - frame.nose - 2 for h in heights)])
            for i, y in zip(side, heights, strict=True):
                spots[i] = sign * (half + 3.6), y - over
        self._numbers, self._marks = [], []
        for (x, y), (px, py), stop in zip(spots, at, self._stops, strict=True):
            axes.plot([x, px], [y, py], color=FAINT, linewidth=1.1, zorder=1)
            axes.plot(px, py, "o", color=INK, markersize=4, zorder=2)
            axes.plot(x, y, "o", markersize=19, markerfacecolor="white", markeredgecolor=INK, zorder=3)
            self._numbers.append(axes.text(x, y, f"{stop.number}", fontsize=11.5, zorder=5, **CENTRED))
            side = 1 if x > 0 else -1
            self._marks.append(
                axes.text(x - side * 3.4, y + 1.5, "", fontsize=12, fontweight="bold", zorder=6, **CENTRED)
            )
        self._spots = spots
        self._here = axes.plot([], [], "o", markersize=21, color=INK, zorder=4)[0]

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        return [*_parts(self._pen), self._day, self._here, *self._numbers, *self._marks, self._head, self._title]

    def _sheet(self, shown):
        """The drawing of what is seen, made anew only where something else was seen there last."""
        seen, sheet = self._sheets.get(shown.name, ("", Pen(self._view)))
        if seen == repr(shown.seen):
            return sheet
        anew = Pen(self._view)
        with styled():
            DRAWN[shown.name](anew, shown.seen, self._craft)
        for artist in sheet.made:
            artist.remove()
        for artist in _parts(anew):
            artist.set_animated(True)
        self._sheets[shown.name] = repr(shown.seen), anew
        return anew

    def show(self, shown):
        """Show what a `Shown` says."""
        self._pen = self._sheet(shown)
        self._here.set_data(*([v] for v in self._spots[shown.stop]))
        for i, (number, mark) in enumerate(zip(self._numbers, self._marks, strict=True)):
            number.set(color="white" if i == shown.stop else INK, fontweight="bold" if i == shown.stop else "normal")
            mark.set_text(shown.marks[i])
        stop = self._stops[shown.stop]
        self._head.set_text(f"Stop {stop.number} · {stop.title}")
        self._title.set_text(shown.title)
        self._day.set_text(shown.day)


def _parts(pen):
    """What was drawn, one thing after the other, the parts of a dial by their own order."""
    found = []
    for artist in pen.made:
        if hasattr(artist, "get_lines"):
            shapes = [*artist.patches, *artist.get_lines(), *artist.texts]
            found += sorted(shapes, key=lambda a: a.get_zorder())
        else:
            found.append(artist)
    return found
