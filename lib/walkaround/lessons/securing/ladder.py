"""The winds at which things go, one above the other, beside the steady wind and its gusts."""

from matplotlib.collections import LineCollection, PolyCollection

from walkaround.lessons.securing.words import DESIGN_KT, goes, lifts, moves
from walkaround.live.colours import BLUE, INK, VERMILION
from walkaround.live.labels import apart
from walkaround.physics.securing import FAILURES

TOP_KT = 120.0
ROWS = 7


class Ladder:
    """A scale of wind with a hatched band from the steady wind to its gusts, and a line for each thing that happens."""

    def __init__(self, axes):
        axes.set(xlim=(0, 1), ylim=(0, TOP_KT), xticks=[], yticks=range(0, int(TOP_KT) + 1, 20), ylabel="wind, kt")
        axes.spines["bottom"].set_visible(False)
        self.band = PolyCollection([], facecolors="none", edgecolors=BLUE, hatch="////", linewidths=1.5)
        self.marks = LineCollection([], linewidths=1.6)
        for made in (self.band, self.marks):
            axes.add_collection(made, autolim=False)
        self._rows = None
        self.words = [axes.text(0.2, 0, "", va="center", fontsize=10.5) for _ in range(ROWS)]

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self.marks, *self.words, self.band]

    def update(self, held):
        """Show the winds of a `words.Held`."""
        low, high = held.wind_kt, held.gust_kt
        self.band.set_verts([[(0.02, low), (0.13, low), (0.13, high), (0.02, high)]])
        rows = events(held)
        if rows == self._rows:
            return
        self._rows, places = rows, apart([kt for kt, _, _ in rows], 5.4, 2.5)
        self.marks.set_segments(
            [[(0.0, kt), (0.14, kt), (0.185, place)] for (kt, _, _), place in zip(rows, places, strict=True)]
        )
        looks = [(VERMILION, "-", "bold") if grave else (INK, ":", "normal") for _, _, grave in rows]
        self.marks.set(colors=[colour for colour, _, _ in looks], linestyles=[line for _, line, _ in looks])
        for text in self.words[len(rows) :]:
            text.set_text("")
        for text, (kt, words, grave), look, place in zip(self.words, rows, looks, places, strict=False):
            text.set(text=f"{'✕ ' if grave else ''}{kt:.0f}  {words}", y=place, color=look[0], fontweight=look[2])


def events(held):
    """What happens up to the ladder's top: (wind in kt, what, whether it ends the holding), from low to high."""
    fails, rows, ropes = held.fails, [(DESIGN_KT, "rings made for this", False)], {}
    for name in FAILURES[:3]:
        ropes.setdefault(round(fails[name], 1), []).append(name)
    for kt, names in ropes.items():
        rows.append((kt, _short(goes(held, names)), True))
    if fails["tips"] <= TOP_KT:
        rows.append((fails["tips"], _short(goes(held, ["tips"])), True))
    # What happens as it tips need not be told as well.
    if fails["moves"] < min(fails["tips"] - 0.06, TOP_KT):
        rows.append((fails["moves"], _short(moves(held.parked)), not held.parked.caught))
    if fails["wheel lifts"] < min(fails["tips"] - 0.06, TOP_KT):
        rows.append((fails["wheel lifts"], _short(lifts(held.parked)), False))
    return sorted((row for row in rows if row[0] <= TOP_KT), key=lambda row: row[0])


def _short(words):
    """The same with fewer letters, for a line of the ladder."""
    words = words.split(",")[0]
    for prefix in ("it ", "the ", "both "):
        words = words.removeprefix(prefix)
    for long, short in (
        ("wing's ", ""), ("'s ", " "), ("pulls out", "gives"), ("pull out", "give"), (" its ", " "),
    ):  # fmt: skip
        words = words.replace(long, short)
    return words
