"""Water out of the air and past the cap, as two bars on a scale on which each line is ten times the one before."""

from matplotlib.patches import Rectangle

from walkaround.lessons.fuel.picture import millilitres
from walkaround.live.colours import INK, SKY, VERMILION
from walkaround.live.style import new_figure, styled

_LEAST_ML, _MOST_ML = 0.1, 20000.0
_FAMILIAR = {"ten drops": 0.5, "a teaspoon": 5.0, "a cupful": 250.0}  # kitchen measures
_FACES = {"out of the air": (SKY, ""), "past the cap": ("#0b3c66", "//")}


class NightPicture:
    """Two bars in mL; `show` takes (litres out of the air, litres past the cap).

    `reaches_l` is the water that just covers the engine's outlet in the climb.
    """

    def __init__(self, reaches_l, width_px=860, height_px=360):
        with styled():
            self.figure = new_figure(width_px, height_px)
            axes = self.figure.add_axes((0.04, 0.18, 0.92, 0.66))
            axes.set(xscale="log", xlim=(_LEAST_ML, _MOST_ML), ylim=(-0.15, 2.35), yticks=[])
            axes.set_xticks([0.1, 1, 10, 100, 1000, 10000], ["0.1 mL", "1 mL", "10 mL", "100 mL", "1 L", "10 L"])
            axes.minorticks_off()
            axes.set_xlabel("water in one tank; each line is ten times the one before")
            axes.grid(axis="y", visible=False)
            axes.spines["left"].set_visible(False)
            for name, ml in _FAMILIAR.items():
                axes.plot([ml], [2.3], marker="v", color=INK, markersize=7, clip_on=False)
                axes.text(ml, 2.42, name, ha="center", va="bottom", fontsize=11.5)
            axes.axvline(1000 * reaches_l, color=VERMILION, linestyle="--")
            beyond = f"covers the outlet\nin the climb: {millilitres(reaches_l)}"
            axes.text(1100 * reaches_l, 2.1, beyond, color=VERMILION, va="top", linespacing=1.2)
            self._bars, self._words = {}, {}
            for place, (name, (face, hatch)) in enumerate(reversed(_FACES.items())):
                bar = Rectangle((_LEAST_ML, place), 0, 0.55, facecolor=face, hatch=hatch, edgecolor=INK, linewidth=1.2)
                self._bars[name] = axes.add_patch(bar)
                self._words[name] = axes.text(_LEAST_ML * 1.1, place + 0.6, "", va="bottom", fontweight="bold")

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        return [*self._bars.values(), *self._words.values()]

    def show(self, litres):
        """Set the bars to litres out of the air and past the cap."""
        for (name, bar), amount in zip(self._bars.items(), reversed(litres), strict=True):
            bar.set_width(max(min(1000 * amount, _MOST_ML) - _LEAST_ML, 0.0))
            bar.set_visible(bar.get_width() > 0)
            self._words[name].set_text(f"{name}: {millilitres(amount) if amount else 'nothing'}")
