"""A take-off roll with the cover on: the two indicators over the distance, and where a rejected roll stops."""

import numpy as np
from matplotlib.patches import Rectangle

from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, PALE, VERMILION
from walkaround.live.style import new_figure, styled
from walkaround.physics.air.takeoff import airspeed_at_kt, distance_at_ft


class RollPicture:
    """Above, what a clear and a covered indicator show over the distance; below, the runway with rejected rolls.

    `longest_ft` and `fastest_kt` fix the scales. `show` takes (roll, covered, runway_ft, first_mark_kt, call_s,
    stops): the `takeoff_roll.TakeoffRoll`; (times in s, readings in kt) of the covered indicator; the runway; the
    first mark and when a clear needle reaches it; and up to two pairs of a name and a `takeoff_roll.Stop`.
    """

    def __init__(self, longest_ft, fastest_kt, width_px=980, height_px=560):
        with styled():
            self.figure = new_figure(width_px, height_px)
            self.speed = self.figure.add_axes((0.085, 0.52, 0.87, 0.41))
            self.runway = self.figure.add_axes((0.085, 0.11, 0.87, 0.3))
            for axes in (self.speed, self.runway):
                axes.set_xlim(0, longest_ft)
            self.speed.set_ylim(-0.03 * fastest_kt, fastest_kt)
            self.speed.set_ylabel("airspeed, kt")
            self.speed.set_title("What the needle shows on the roll")
            self.speed.tick_params(labelbottom=False)
            self.runway.set_xlabel("distance from brakes off, ft")
            self.runway.set_title("If the roll is rejected: plain while rolling, striped while reacting and braking")
            self.runway.set_yticks([])
            self.runway.set_ylim(0, 3.15)
            self.runway.grid(axis="y", visible=False)
            self.runway.spines["left"].set_visible(False)
            self._speed_artists()
            self._runway_artists()

    def _speed_artists(self):
        axes = self.speed
        self.mark = axes.axhline(0, color=FAINT, linestyle=":", linewidth=2)
        self.mark_words = axes.text(0, 0, "", va="bottom", color=INK, fontsize=11.5)
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
        self.tarmac = axes.add_patch(Rectangle((0, 0), 1, 3.05, facecolor=PALE, edgecolor=INK, linewidth=1.4))
        self.end_words = axes.text(0, 2.85, "", ha="right", va="center", fontsize=12)
        self.bars = []
        for y in (1.42, 0.2):
            rolling = axes.add_patch(Rectangle((0, y), 0, 0.5, facecolor=BLUE, edgecolor=INK))
            stopping = axes.add_patch(Rectangle((0, y), 0, 0.5, facecolor=ORANGE, edgecolor=INK, hatch="///"))
            words = axes.text(0, y + 0.55, "", va="bottom", fontsize=12)
            stands = axes.plot([], [], marker="s", markersize=11, color=GREEN, markeredgecolor=INK, zorder=5)[0]
            self.bars.append((rolling, stopping, stands, words))

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        lines = [self.mark, self.clear, self.covered, self.drop, self.alive, self.lift_off]
        bars = [artist for bar in self.bars for artist in bar]
        return [*lines, self.tarmac, *bars, self.mark_words, *self.words.values(), self.end_words]

    def show(self, result):
        """Move the artists to (roll, covered, runway_ft, first_mark_kt, call_s, stops)."""
        roll, (times, readings), runway_ft, first_mark_kt, call_s, stops = result
        until = np.linspace(0.0, float(roll.lift_off_s), 120)
        self.clear.set_data(distance_at_ft(roll, until), airspeed_at_kt(roll, until))
        rolled = times <= float(roll.lift_off_s)
        self.covered.set_data(distance_at_ft(roll, times[rolled]), readings[rolled])
        call_ft, roll_ft = float(distance_at_ft(roll, call_s)), float(roll.ground_roll_ft)
        low, high = self.speed.get_ylim()
        self.drop.set_data([call_ft, call_ft], [first_mark_kt, 0.9 * high])
        self.alive.set_data([call_ft], [first_mark_kt])
        self.lift_off.set_data([roll_ft], [float(roll.lift_off_cas_kt)])
        self.mark.set_ydata([first_mark_kt] * 2)
        _, longest = self.speed.get_xlim()
        step = 0.015 * longest
        self._write("clear", call_ft + step, 0.9 * high, f"clear: alive after {call_s:.0f} s and {call_ft:,.0f} ft")
        # The covered needle's words stand at the end of its line, clear of the axis and of the words at lift-off.
        ends_kt = float(readings[rolled][-1])
        words_kt = np.clip(ends_kt, 0.07 * (high - low), float(roll.lift_off_cas_kt) - 0.09 * (high - low))
        self._write("covered", roll_ft + step, words_kt, f"this needle: {ends_kt:.0f} kt at lift-off")
        self._write("lift-off", roll_ft + step, float(roll.lift_off_cas_kt), f"lift-off, {roll_ft:,.0f} ft")
        self.mark_words.set_position((longest * 0.995, first_mark_kt))
        self.mark_words.set_ha("right")
        self.mark_words.set_text(f"first mark, {first_mark_kt:.0f} kt")
        self.tarmac.set_width(runway_ft)
        self.end_words.set_position((min(runway_ft, longest) - step, 2.8))
        self.end_words.set_text(f"runway {runway_ft:,.0f} ft")
        for bar, stop in zip(self.bars, [*stops, None, None], strict=False):
            self._show_stop(bar, stop, longest)

    def _write(self, name, x, y, text):
        words, longest = self.words[name], self.speed.get_xlim()[1]
        beyond = x > 0.72 * longest  # no room to the right of the point: the words end before it
        words.set_ha("right" if beyond else "left")
        words.set_position((min(x, longest) - (0.035 * longest if beyond else 0.0), y))
        words.set_text(text)

    def _show_stop(self, bar, named, longest):
        rolling, stopping, stands, words = bar
        for artist in bar:
            artist.set_visible(named is not None)
        if named is None:
            return
        name, stop = named
        decided_ft, stop_ft = float(stop.decided_ft), float(stop.stop_ft)
        rolling.set_width(decided_ft)
        stopping.set_x(decided_ft)
        stopping.set_width(stop_ft - decided_ft)
        fits = bool(stop.fits)
        stands.set_data([min(stop_ft, longest)], [rolling.get_y() + 0.25])
        stands.set_marker("s" if fits else "X")
        stands.set_color(GREEN if fits else VERMILION)
        stands.set_markeredgecolor(INK)
        left_ft = float(stop.runway_left_ft)
        ends = f"{left_ft:,.0f} ft left" if fits else f"{-left_ft:,.0f} ft past the end"
        words.set_text(f" {name}: stops in {stop_ft:,.0f} ft, {ends}")
        words.set_color(INK if fits else VERMILION)
        words.set_fontweight("normal" if fits else "bold")
