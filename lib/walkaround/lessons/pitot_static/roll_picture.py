"""A take-off roll with the cover on: the two indicators over the distance, and where a rejected roll stops."""

from dataclasses import dataclass

import numpy as np
from matplotlib.patches import Rectangle

from walkaround import measures
from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, PALE, VERMILION
from walkaround.live.style import new_figure, styled
from walkaround.physics.air.takeoff import airspeed_at_kt, distance_at_ft

# The distances that the picture may end at.
_SCALES = {
    "ft": (1500, 2500, 3500, 5000, 7000, 10000, 15000, 20000),
    "m": (500, 750, 1000, 1500, 2000, 3000, 4500, 6000),
}


@dataclass(frozen=True)
class Ending:
    """Where a rejected roll ends, in whole feet or metres as said and drawn, so that words, picture and verdict agree.

    `when` in words it was rejected, and `decided` where; `stop` from brakes off to standstill; `left` of the runway
    beyond it, negative if the aircraft runs off the end; `past_lift_off`, rejected at lift-off speed or above.

    >>> from walkaround.physics.air.takeoff import alive_s, rejected, takeoff_roll
    >>> roll = takeoff_roll(900.0, 55.0)
    >>> ending = Ending.of("at the call", rejected(roll, alive_s(roll, 40.0), 1050.0, 4.0, 2.0), 1050)
    >>> ending.stop, ending.fits, ending.words
    (1061, False, 'runs 11 ft off the end')
    """

    when: str
    decided: int
    stop: int
    left: int
    past_lift_off: bool

    @classmethod
    def of(cls, when, stop, runway):
        """Return the ending of a `takeoff.Stop` on a runway, whose length is in the unit that is shown."""
        decided, stands = whole(stop.decided_ft), whole(stop.stop_ft)
        return cls(when, decided, stands, runway - stands, bool(stop.past_lift_off))

    @property
    def fits(self):
        """Whether the aircraft stops on the runway."""
        return self.left >= 0

    @property
    def words(self):
        """What the aircraft does in the end."""
        how_far = f"{abs(self.left):,} {measures.unit('ft')}"
        return f"stops with {how_far} of runway left" if self.fits else f"runs {how_far} off the end"


def whole(distance_ft):
    """A distance in whole units as it is shown: feet, or metres.

    >>> whole(1060.7)
    1061
    """
    return round(float(measures.value(distance_ft, "ft")))


class RollPicture:
    """Above, what a clear and a covered indicator show over the distance; below, rejected rolls along the runway.

    `fastest_kt` ends the scale of airspeed; that of distance ends where everything fits. `show` takes (roll, covered,
    runway, first_mark_kt, call_s, endings): the `takeoff.TakeoffRoll`; (times in s, readings in kt) of the covered
    indicator; the runway in the unit that is shown; the first mark and when a clear needle reaches it; two `Ending`s.
    """

    def __init__(self, fastest_kt, width_px=980, height_px=560):
        with styled():
            self.figure = new_figure(width_px, height_px)
            self.speed = self.figure.add_axes((0.085, 0.52, 0.87, 0.41))
            self.runway = self.figure.add_axes((0.085, 0.11, 0.87, 0.3))
            self.speed.set(ylim=(-0.03 * fastest_kt, fastest_kt), ylabel="airspeed, kt")
            self.speed.set_title("What the needle shows on the roll")
            self.speed.tick_params(labelbottom=False)
            self.runway.set(xlabel=f"distance from brakes off, {measures.unit('ft')}", yticks=[], ylim=(0, 2.8))
            self.runway.grid(axis="y", visible=False)
            self.runway.spines["left"].set_visible(False)
            self._scales = _SCALES[measures.unit("ft")]
            self._scale_to(self._scales[0])
            self._speed_artists()
            self._runway_artists()

    def _speed_artists(self):
        axes = self.speed
        self.mark = axes.axhline(0, color=FAINT, linestyle=":", linewidth=2)
        self.mark_words = axes.text(0, 0, "", ha="right", va="bottom", color=INK, fontsize=11.5)
        self.clear = axes.plot([], [], color=BLUE, linestyle=(0, (4, 1.5)), linewidth=3)[0]
        self.covered = axes.plot([], [], color=VERMILION, linewidth=4, solid_capstyle="butt")[0]
        self.drop = axes.plot([], [], color=BLUE, linewidth=1.6)[0]
        self.alive = axes.plot([], [], marker="o", markersize=13, color=BLUE, markeredgecolor=INK)[0]
        self.lift_off = axes.plot([], [], marker="^", markersize=14, color=GREEN, markeredgecolor=INK)[0]
        ground = {"facecolor": "white", "edgecolor": "none", "pad": 1.5}
        looks = {"clear": (BLUE, "center"), "covered": (VERMILION, "center"), "lift-off": (INK, "bottom")}
        self.words = {
            name: axes.text(0, 0, "", color=colour, va=va, fontweight="bold", bbox=ground)
            for name, (colour, va) in looks.items()
        }

    def _runway_artists(self):
        axes = self.runway
        self.heading = axes.text(0, 2.95, "", va="bottom", fontsize=13.5)
        self.bars = []
        for y in (1.42, 0.08):
            # Each on a strip of runway of its own; the words stand between the strips, where no runway ends.
            tarmac = axes.add_patch(Rectangle((0, y), 1, 0.7, facecolor=PALE, edgecolor=INK, linewidth=1.4))
            rolling = axes.add_patch(Rectangle((0, y + 0.1), 0, 0.5, facecolor=BLUE, edgecolor=INK))
            stopping = axes.add_patch(Rectangle((0, y + 0.1), 0, 0.5, facecolor=ORANGE, edgecolor=INK, hatch="///"))
            words = axes.text(0, y + 0.75, "", va="bottom", fontsize=12)
            stands = axes.plot([], [], marker="s", markersize=11, color=GREEN, markeredgecolor=INK, zorder=5)[0]
            self.bars.append((tarmac, rolling, stopping, stands, words))

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        lines = [self.mark, self.clear, self.covered, self.drop, self.alive, self.lift_off]
        bars = [artist for bar in self.bars for artist in bar]
        return [*lines, *bars, self.mark_words, *self.words.values(), self.heading]

    def still(self, result):
        """Return what the still parts depend on: the end of the scale of distance."""
        roll, _, runway, _, _, endings = result
        farthest = max(measures.value(float(roll.ground_roll_ft), "ft"), runway, *(ending.stop for ending in endings))
        return next((end for end in self._scales if end >= farthest), self._scales[-1])

    def _scale_to(self, longest):
        self.longest = longest
        for axes in (self.speed, self.runway):
            axes.set_xlim(0, longest)

    def show(self, result):
        """Move the artists to (roll, covered, runway, first_mark_kt, call_s, endings)."""
        roll, (times, readings), runway, first_mark_kt, call_s, endings = result
        if self.still(result) != self.longest:
            self._scale_to(self.still(result))
        until = np.linspace(0.0, float(roll.lift_off_s), 120)
        self.clear.set_data(_distance(roll, until), airspeed_at_kt(roll, until))
        rolled = times <= float(roll.lift_off_s)
        self.covered.set_data(_distance(roll, times[rolled]), readings[rolled])
        call, unit = float(_distance(roll, call_s)), measures.unit("ft")
        lifts_off = measures.value(float(roll.ground_roll_ft), "ft")
        low, high = self.speed.get_ylim()
        self.drop.set_data([call, call], [first_mark_kt, 0.9 * high])
        self.alive.set_data([call], [first_mark_kt])
        self.lift_off.set_data([lifts_off], [float(roll.lift_off_cas_kt)])
        self.mark.set_ydata([first_mark_kt] * 2)
        self._write("clear", call, 0.9 * high, f"clear: alive after {call_s:.0f} s and {call:,.0f} {unit}")
        # The covered needle's words stand at the end of its line, clear of the axis and of the words at lift-off.
        ends_kt = float(readings[rolled][-1])
        words_kt = np.clip(ends_kt, 0.07 * (high - low), float(roll.lift_off_cas_kt) - 0.09 * (high - low))
        self._write("covered", lifts_off, words_kt, f"this needle: {ends_kt:.0f} kt at lift-off")
        self._write("lift-off", lifts_off, float(roll.lift_off_cas_kt), f"lift-off, {lifts_off:,.0f} {unit}")
        at_end = 0.995 * self.longest, first_mark_kt
        self.mark_words.set(position=at_end, text=f"first mark, {first_mark_kt:.0f} kt")
        looks = "plain while rolling, striped while reacting and braking"
        self.heading.set_text(f"If the roll is rejected, runway {runway:,.0f} {unit}: {looks}")
        for bar, ending in zip(self.bars, endings, strict=True):
            self._show_ending(bar, ending, runway)

    def _write(self, name, x, y, text):
        """Write words after a place on the distance, or before it where there is no room."""
        words, step = self.words[name], 0.015 * self.longest
        before = x > 0.68 * self.longest
        words.set(text=text, ha="right" if before else "left", position=(x - step if before else x + step, y))

    def _show_ending(self, bar, ending, runway):
        tarmac, rolling, stopping, stands, words = bar
        tarmac.set_width(runway)
        rolling.set_width(ending.decided)
        stopping.set_x(ending.decided)
        stopping.set_width(ending.stop - ending.decided)
        stands.set_data([ending.stop], [rolling.get_y() + 0.25])
        stands.set(marker="s" if ending.fits else "X", color=GREEN if ending.fits else VERMILION, markeredgecolor=INK)
        unit = measures.unit("ft")
        end = f"{ending.left:,} {unit} left" if ending.fits else f"{-ending.left:,} {unit} past the end"
        words.set_text(f"{ending.when}: stops in {ending.stop:,} {unit}, {end}")
        words.set(color=INK if ending.fits else VERMILION, fontweight="normal" if ending.fits else "bold")


def _distance(roll, at_s):
    """Distance from brakes off, in the unit that is shown."""
    return measures.value(distance_at_ft(roll, at_s), "ft")
