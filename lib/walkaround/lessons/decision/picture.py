"""The flight on one board: each number as a bar from its limit, to the right with room, to the left past it."""

from typing import NamedTuple

from matplotlib.collections import LineCollection
from matplotlib.patches import Rectangle

from walkaround import measures
from walkaround.lessons.decision.flight import CHECKS, ENGINE, ROUND
from walkaround.lessons.decision.words import beside, length, name_of, number_of, weight, wind
from walkaround.live.colours import BLUE, FAINT, INK, PALE, VERMILION
from walkaround.live.style import CENTRED, new_figure, styled

_MOST = 15.0  # per cent of room that the board shows
_HALF = 0.27  # of a bar's height
_BESIDE = 25  # bold letters that fit beside a bar
_LONG = 42  # characters that fit on one line


class Shown(NamedTuple):
    """What the picture shows: the flight as it would go, its checks, and the checks of the flight as it stands."""

    flight: object
    now: tuple
    before: tuple


class Board:
    """`show` takes a `Shown`."""

    def __init__(self, width_px=880, height_px=540):
        rows = len(CHECKS)
        with styled():
            self.figure = new_figure(width_px, height_px)
            axes = self.figure.add_axes((0.18, 0.11, 0.51, 0.64))
            axes.set(xlim=(-_MOST, _MOST), ylim=(rows - 0.5, -0.5), yticks=[])
            axes.set_axisbelow(True)
            axes.set_xlabel("room, % of the limit (CG: of its range; engine: 1 °C is 1 %)", fontsize=12)
            axes.set_xticks([-10, -5, 0, 5, 10], ["−10", "−5", "limit", "5", "10"])
            axes.add_patch(Rectangle((-_MOST, -0.5), _MOST, rows - 1, facecolor=PALE, edgecolor="none", zorder=0))
            axes.plot([0, 0], [-0.5, rows - 1.5], color=INK, linewidth=1.8)
            for x, words in ((-_MOST / 2, "past the limit"), (_MOST / 2, "room")):
                axes.text(x, -0.72, words, ha="center", va="bottom", fontsize=12)
            self._facts = [self.figure.text(0.012, y, "", va="center", fontsize=12.5) for y in (0.96, 0.915, 0.87)]
            self._bars, self._values = [], []
            for row, key in enumerate(CHECKS):
                axes.text(-1.06 * _MOST, row, name_of(key), ha="right", va="center", fontsize=12.5)
                bar = Rectangle((0, row - _HALF), 0, 2 * _HALF, facecolor=BLUE, edgecolor=INK, linewidth=1.0)
                self._bars.append(axes.add_patch(bar))
                self._values.append(axes.text(1.04 * _MOST, row, "", va="center", fontsize=12.5))
            self._was = LineCollection([], colors=INK, linewidths=2.4, linestyles=[(0, (2, 1))])
            axes.add_collection(self._was, autolim=False)
            axes.plot([-_MOST, _MOST], [rows - 1.5] * 2, color=FAINT, linewidth=0.8)
            axes.add_patch(Rectangle((-_MOST, rows - 1.5), 2 * _MOST, 1, facecolor="white", edgecolor="none", zorder=1))
            self._round = axes.text(0, rows - 1, "", **CENTRED, fontsize=12, zorder=5)

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        return [*self._facts, *self._bars, self._was, *self._values, self._round]

    def show(self, shown):
        """Show what a `Shown` says."""
        for line, words in zip(self._facts, _facts(shown.flight), strict=True):
            line.set_text(words)
        dashes = []
        for row, (now, was) in enumerate(zip(shown.now, shown.before, strict=True)):
            bar = self._bars[row]
            plain = now.key == ROUND or (now.key == ENGINE and now.limit is None)
            width = 0.0 if plain else _seen(now.share)
            bar.set_width(width)
            bar.set_visible(not plain)
            bar.set(facecolor=BLUE if now.met else VERMILION, hatch=None if now.met else "///")
            if not plain and now != was and was.limit is not None:
                dashes.append([(_seen(was.share), row - 0.42), (_seen(was.share), row + 0.42)])
            text, weight = ("✓ " if now.met else "✕ ") + beside(now), "normal" if now.met else "bold"
            # In kilograms with a decimal it is longer than in pounds.
            size = 12.5 if now.met or len(text) <= _BESIDE else 11.0
            self._values[row].set(text=text, color=INK if now.met else VERMILION, fontweight=weight, fontsize=size)
        self._was.set_segments(dashes)
        words = shown.flight.found.words
        self._round.set_text(words if len(words) <= _LONG else _broken(words))


def _broken(words):
    at = words.rfind(" ", 0, len(words) // 2 + 6)
    return f"{words[:at]}\n{words[at + 1 :]}"


def _seen(share):
    return max(-_MOST, min(_MOST, 100 * share))


def _facts(f):
    """The flight's own numbers, three lines."""
    pounds, gallons, inches, quarts = (measures.unit(of) for of in ("lb", "US gal", "in", "qt"))
    added = f" and {f.oil_added:g} {quarts} added" if f.oil_added else ""
    return (
        f"seats {weight(f.front)} + {weight(f.rear)} {pounds}, holds {weight(f.hold_a)} + {weight(f.hold_b)} {pounds}"
        f" · {f.fuel:.1f} {gallons} · {f.hours:g} h by {'night' if f.night else 'day'}",
        f"oil {length(f.stick)} {inches} on the stick{added}, burns {f.oil_per_hour:g} {quarts}/h · "
        f"oil {number_of(f.oil_c)} °C, metal {number_of(f.metal_c)} °C",
        f"outside {number_of(f.outside_c)} °C · wind {wind(f)} · runway {measures.words(f.runway_ft, 'ft')}",
    )
