"""The starting circuit with its volts, the speed as a needle, where the volts go, and what the tries leave."""

from dataclasses import dataclass

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Circle, Ellipse, Rectangle, Wedge

from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, PALE, SKY, VERMILION
from walkaround.live.style import new_figure, styled

ROWS = 4
TURNED_BACK = "#d0d4d8"


@dataclass(frozen=True)
class Shown:
    """What the picture shows.

    `current_a` runs to the starter and `cart_a` out of the cart. `steps` has (what it is, volts before it, volts after
    it) for each part of the circuit; `cart` is None, or what stands on it; `states` are shares left, before the first
    try and after each; `rpm` is None while nobody cranks.
    """

    battery: str
    terminals_v: float
    starter_v: float | None
    current_a: float
    cart_a: float
    rpm: float | None
    steps: tuple
    states: tuple
    cart: str | None = None
    reversed: bool = False


class StartingPicture:
    """Circuit and needle above, volts and charge below; `show` takes a `Shown` and moves the moving artists only."""

    def __init__(self, fires_rpm, cells, width_px=860, height_px=500):
        self._top_v = 2.2 * cells
        with styled():
            self.figure = new_figure(width_px, height_px)
            self.circuit = Circuit(self.figure.add_axes((0.005, 0.43, 0.645, 0.565)))
            self.needle = Needle(self.figure.add_axes((0.66, 0.44, 0.335, 0.55)), fires_rpm)
            self.volts = VoltSteps(self.figure.add_axes((0.285, 0.115, 0.375, 0.255)))
            self.charge = Charge(self.figure.add_axes((0.735, 0.115, 0.255, 0.255)))

    @property
    def moving(self):
        """Artists that `show` changes, in drawing order."""
        return [*self.circuit.moving, *self.charge.moving, *self.volts.moving, *self.needle.moving]

    def still(self, shown):
        """What the still parts depend on: the span of the volts."""
        return self.volts.axes.get_xlim()

    def show(self, shown):
        """Move the artists to a `Shown`."""
        every = [v for _, *both in shown.steps for v in both]
        self.volts.update(shown.steps, (min([0.0, *every]), max([self._top_v, *every])))
        self.circuit.update(shown)
        self.needle.update(shown.rpm)
        self.charge.update(shown.states)


class Circuit:
    """Cart, battery, cable and starter with its propeller; the volts against the airframe stand at each point."""

    def __init__(self, axes):
        axes.set(xlim=(0, 11.1), ylim=(0, 5.5))
        axes.axis("off")
        wire = {"color": INK, "lw": 2.6, "solid_capstyle": "round"}
        for x, y in (([3.9, 3.9, 9.0, 9.0], [3.3, 4.2, 4.2, 3.2]), ([3.9, 3.9, 9.0, 9.0], [1.7, 0.8, 0.8, 1.8])):
            axes.plot(x, y, **wire)
        axes.add_patch(Rectangle((2.9, 1.7), 2.0, 1.6, facecolor=PALE, edgecolor=INK, linewidth=2))
        for y, sign in ((3.55, "+"), (1.45, "−")):
            axes.text(3.6, y, sign, ha="center", va="center", fontweight="bold")
        axes.add_patch(Ellipse((10.35, 2.5), 0.42, 3.5, facecolor=TURNED_BACK, edgecolor=INK, linewidth=1.6))
        axes.plot([9.7, 10.35], [2.5, 2.5], **{**wire, "lw": 5})
        axes.add_patch(Circle((9.0, 2.5), 0.72, facecolor=PALE, edgecolor=INK, linewidth=2))
        axes.text(9.0, 2.5, "starter", ha="center", va="center", fontsize=11.5)
        axes.text(10.35, 0.5, "propeller", ha="center", va="center", fontsize=11)
        axes.text(6.45, 0.4, "airframe, 0 V", ha="center", va="center", fontsize=11.5)
        for x, y in ((3.9, 4.2), (9.0, 4.2)):
            axes.plot([x], [y], marker="o", markersize=9, color=INK)
        axes.text(3.75, 5.15, "at the battery", ha="center", va="center", fontsize=11.5)
        axes.text(9.0, 5.15, "at the starter", ha="center", va="center", fontsize=11.5)
        self.cart = axes.add_patch(Rectangle((0.25, 1.7), 1.7, 1.6, facecolor="white", edgecolor=INK, linewidth=2))
        straight = [[(1.1, 3.3), (1.1, 4.2), (3.9, 4.2)], [(1.1, 1.7), (1.1, 0.8), (3.9, 0.8)]]
        self._leads = straight, [[(1.1, 3.3), (1.1, 4.2), (2.0, 4.2), (2.6, 0.8), (3.9, 0.8)],
                                 [(1.1, 1.7), (1.1, 0.8), (2.0, 0.8), (2.6, 4.2), (3.9, 4.2)]]  # fmt: skip
        self.leads = LineCollection(straight, linewidths=2.6, colors=INK)
        axes.add_collection(self.leads, autolim=False)
        middle = {"ha": "center", "va": "center"}
        self.on_cart = axes.text(1.1, 2.5, "", fontsize=11.5, linespacing=1.2, **middle)
        self.inside = axes.text(3.9, 2.5, "", fontsize=11.5, linespacing=1.15, **middle)
        self.current = axes.text(6.45, 3.72, "", fontweight="bold", **middle)
        self.from_cart = axes.text(1.5, 4.6, "", fontweight="bold", **middle)
        self.terminals = axes.text(3.75, 4.68, "", fontweight="bold", fontsize=14, **middle)
        self.starter = axes.text(9.0, 4.68, "", fontweight="bold", fontsize=14, **middle)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        texts = [self.inside, self.from_cart, self.current, self.terminals, self.starter]
        return [self.cart, self.leads, self.on_cart, *texts]

    def update(self, shown):
        """Show who is connected, and the volts and amperes of a `Shown`."""
        with_cart = shown.cart is not None
        if self.cart.get_visible() != with_cart:
            self.cart.set_visible(with_cart)
            self.leads.set_visible(with_cart)
        if with_cart:
            self.leads.set_segments(self._leads[shown.reversed])
            self.leads.set(color=VERMILION if shown.reversed else INK, linestyle="--" if shown.reversed else "-")
        self.on_cart.set_text(f"+\n{shown.cart}\n−" if with_cart else "")
        self.inside.set_text(shown.battery)
        self.from_cart.set_text(f"{shown.cart_a:,.0f} A".replace("-", "−") if with_cart else "")
        cranking = shown.starter_v is not None
        self.current.set_text(f"{shown.current_a:,.0f} A →" if cranking else "starter not pressed")
        self.terminals.set_text(f"{shown.terminals_v:.1f} V".replace("-", "−"))
        self.starter.set_text(f"{shown.starter_v:.1f} V" if cranking else "")


class Needle:
    """Cranking speed on a half circle, with the speed from which the engine fires."""

    def __init__(self, axes, fires_rpm):
        self._top = 20 * np.ceil(3 * fires_rpm / 20)
        axes.set(xlim=(-1.5, 1.5), ylim=(-0.75, 1.52), aspect="equal")
        axes.axis("off")
        axes.text(0, 1.42, "cranking speed, rpm", ha="center", va="center", fontweight="bold")
        fires = self._angle(fires_rpm)
        axes.add_patch(Wedge((0, 0), 1.0, 0, fires, width=0.13, facecolor=GREEN, edgecolor=INK))
        axes.add_patch(Wedge((0, 0), 1.0, fires, 180, width=0.13, facecolor="white", edgecolor=INK, hatch="////"))
        step = 20 if self._top <= 200 else 40
        for rpm in np.arange(0, self._top + 1, step):
            x, y = self._place(rpm, 1.1)
            across = "left" if x > 0.3 else "right" if x < -0.3 else "center"
            axes.text(x, y, f"{rpm:.0f}", ha=across, va="center", fontsize=10.5)
        x, y = self._place(fires_rpm, np.array([0.76, 1.0]))
        axes.plot(x, y, color=INK, lw=3)
        axes.text(0, -0.62, f"fires from {fires_rpm:.0f}", ha="center", va="center", fontsize=11.5)
        self.hand = axes.plot([0, 0], [0, 0], color=INK, lw=4.5, solid_capstyle="round")[0]
        axes.add_patch(Circle((0, 0), 0.07, facecolor=INK))
        self.reading = axes.text(0, -0.3, "", ha="center", va="center", fontweight="bold", fontsize=17)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self.reading, self.hand]

    def update(self, rpm):
        """Point to a speed; None is a starter that nobody has pressed."""
        x, y = self._place(min(rpm or 0.0, 1.03 * self._top), 0.83)
        self.hand.set_data([0, x], [0, y])
        self.reading.set_text("not cranked" if rpm is None else f"{rpm:.0f} rpm" if rpm > 0 else "does not turn")

    def _angle(self, rpm):
        return 180.0 * (1 - rpm / self._top)

    def _place(self, rpm, radius):
        a = np.radians(self._angle(rpm))
        return radius * np.cos(a), radius * np.sin(a)


class VoltSteps:
    """Where the volts go, a bar for each part of the circuit, each beginning where the one above ends."""

    colours = (ORANGE, SKY, TURNED_BACK, GREEN)

    def __init__(self, axes):
        self.axes = axes
        axes.set(ylim=(ROWS - 0.4, -0.6), yticks=[], xlabel="volts", title="Where the volts go")
        axes.grid(axis="y", visible=False)
        self.bars = PolyCollection([], facecolors=self.colours, edgecolor=INK, linewidth=1.2)
        axes.add_collection(self.bars, autolim=False)
        place = {"transform": axes.get_yaxis_transform(), "ha": "right", "va": "center", "fontsize": 11.5}
        self.words = [axes.text(-0.02, row, "", **place) for row in range(ROWS)]

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [*self.words, self.bars]

    def update(self, steps, span):
        """Show (what it is, volts before, volts after) for up to four parts, on an axis of that span."""
        low, high = np.floor(span[0] / 2) * 2, np.ceil(span[1] / 2) * 2
        if self.axes.get_xlim() != (low, high):
            self.axes.set_xlim(low, high)
        rows = [(before, after, row) for row, (_, before, after) in enumerate(steps)]
        self.bars.set_verts([[(a, r - 0.36), (b, r - 0.36), (b, r + 0.36), (a, r + 0.36)] for a, b, r in rows])
        texts = [f"{what}: {before - after:.1f} V" for what, before, after in steps]
        for text, words in zip(self.words, [*texts, *[""] * ROWS], strict=False):
            text.set_text(words)


class Charge:
    """What the battery can still give this morning, before the first try and after each."""

    def __init__(self, axes):
        axes.set(xlim=(-0.6, 3.6), ylim=(0, 118), yticks=[0, 50, 100], title="What is left, %")
        axes.set_xticks(range(4), ["now", "1 try", "2", "3 tries"])
        axes.grid(axis="x", visible=False)
        self.bars = PolyCollection([], facecolor=BLUE, edgecolor=INK, linewidth=1.2)
        axes.add_collection(self.bars, autolim=False)
        self.words = [axes.text(x, 0, "", ha="center", va="bottom", fontsize=11.5) for x in range(4)]
        axes.tick_params(axis="x", length=0, colors=INK)
        axes.spines["bottom"].set_color(FAINT)

    @property
    def moving(self):
        """Artists that `update` changes, in drawing order."""
        return [self.bars, *self.words]

    def update(self, states):
        """Show the shares left."""
        heights = [100 * share for share in states]
        self.bars.set_verts(
            [[(x - 0.36, 0), (x + 0.36, 0), (x + 0.36, h), (x - 0.36, h)] for x, h in enumerate(heights)]
        )
        for x, text in enumerate(self.words):
            there = x < len(heights)
            text.set(text=f"{heights[x]:.0f}" if there else "", y=heights[x] + 1 if there else 0)
