"""The ramp from above: hangar and obstacles, the towed aircraft, the ground that it sweeps, and its nearest miss."""

from dataclasses import dataclass

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Rectangle

from walkaround import measures
from walkaround.lessons.towing.tow import outlines
from walkaround.live.colours import BLUE, FAINT, GREEN, INK, ORANGE, PALE, PURPLE, VERMILION
from walkaround.live.style import CENTRED, new_figure, styled
from walkaround.physics.towing import Pose, place

SWEPT = "#cfe3f1"
SOLID = "#6b6f73"
WEST, SOUTH, FEET_WIDE, FEET_HIGH = -2.0, -6.0, 147.0, 85.4
BAR_FT = 4.0
_TRACKS = (("--", ORANGE), (":", PURPLE), ("-", BLUE))  # left wing tip, right wing tip, tail


@dataclass(frozen=True)
class Shown:
    """What the picture shows: the pose and the nose wheel's angle now, the whole `trail`, the nearest miss (`Near`).

    `near_is` says in a few words how near; `bad`, whether that is too near.
    """

    pose: Pose
    angle_deg: float
    trail: Pose
    near: object
    near_is: str
    bad: bool


class RampPicture:
    """The plan; `show` takes a `Shown` and moves the moving artists only."""

    def __init__(self, airframe, ramp, width_px=860, height_px=500):
        self._airframe, self._trail = airframe, None
        with styled():
            self.figure = new_figure(width_px, height_px)
            axes = self.figure.add_axes((0, 0, 1, 1))
            axes.set(xlim=(WEST, WEST + FEET_WIDE), ylim=(SOUTH, SOUTH + FEET_HIGH))
            axes.axis("off")
            (west, east), (south, north) = ramp.hangar_x, ramp.hangar_y
            axes.add_patch(Rectangle((west, south), east - west, north - south, facecolor=PALE, edgecolor="none"))
            bar = measures.step(20, "ft")
            long = measures.entered(bar, "ft")
            axes.plot([0, long], [SOUTH + 3.0] * 2, color=INK, lw=3, solid_capstyle="butt")
            axes.text(long / 2, SOUTH + 4.6, f"{bar} {measures.unit('ft')}", fontsize=11, **CENTRED)
            lines = ("left wing tip", "right wing tip", "tail")
            for i, (words, (style, colour)) in enumerate(zip(lines, _TRACKS, strict=True)):
                x = 32 + 27 * i
                axes.plot([x - 1, x + 5], [SOUTH + 3.0] * 2, color=colour, linestyle=style, lw=2.6)
                axes.text(x + 6, SOUTH + 3.0, words, ha="left", va="center", fontsize=11)
            door = measures.words(ramp.door_y[1] - ramp.door_y[0], "ft", metric=1)
            hangar = axes.text((west + east) / 2, north + 3.2, f"hangar, door {door}", **CENTRED)
            self.swept = PolyCollection([], facecolor=SWEPT, edgecolor="none", antialiased=False)
            self.discs = PolyCollection([], facecolor=SWEPT, edgecolor="none", antialiased=False)
            self.solid = PolyCollection(
                [thing.corners for thing in ramp.everything], facecolor=SOLID, edgecolor=INK, linewidth=1.0
            )
            self.tracks = LineCollection(
                [], colors=[c for _, c in _TRACKS], linestyles=[s for s, _ in _TRACKS], linewidths=2.2
            )
            self.aircraft = PolyCollection([], facecolor="white", edgecolor=INK, linewidth=1.8)
            self.wheels = LineCollection([], colors=INK, linewidths=[4, 4, 4, 2], capstyle="butt")
            self.gap = LineCollection([], linewidths=3)
            for collection in (self.swept, self.discs, self.solid, self.tracks, self.aircraft, self.wheels, self.gap):
                axes.add_collection(collection, autolim=False)
            self.near = axes.plot([0], [0], marker="o", markersize=13, fillstyle="none", markeredgewidth=2.6)[0]
            ground = {"facecolor": "white", "edgecolor": "none"}
            self.names = [hangar, *(_label(axes, thing) for thing in ramp.obstacles)]
            self.near_is = axes.text(0, 0, "", fontweight="bold", fontsize=13.5, bbox=ground, **CENTRED)

    @property
    def moving(self):
        """Artists that `show` changes, and what is drawn over them, in drawing order."""
        over = [self.solid, *self.names]
        aircraft = [self.aircraft, self.wheels]
        return [self.swept, self.discs, *over, self.tracks, self.gap, *aircraft, self.near, self.near_is]

    def show(self, shown):
        """Move the artists to a `Shown`."""
        frame = self._airframe
        if shown.trail is not self._trail:
            self._trail = shown.trail
            every = outlines(frame, shown.trail)
            # The propeller's disc is thin: what it sweeps between two outlines is filled in.
            discs = np.stack([every[:-1, -1], every[:-1, 0], every[1:, 0], every[1:, -1]], axis=1)
            self.swept.set_verts(every)
            self.discs.set_verts(discs)
            ends = (*frame.tips, (frame.tail, 0.0))
            self.tracks.set_segments([np.column_stack(place(shown.trail, *end)) for end in ends])
            self._show_near(shown)
        self.aircraft.set_verts(outlines(frame, Pose(*([value] for value in shown.pose))))
        self.wheels.set_segments(self._wheels(shown.pose, shown.angle_deg))

    def _show_near(self, shown):
        near, colour = shown.near, VERMILION if shown.bad else GREEN
        self.gap.set(segments=[[near.ours, near.theirs]], color=colour)
        self.near.set_data([near.theirs[0]], [near.theirs[1]])
        self.near.set_color(colour)
        x, y = near.theirs
        self.near_is.set(text=shown.near_is, color=colour)
        # Beside the place, since names stand above and below; an aircraft that touches comes from the west.
        east = x < WEST + 30 or not near.feet
        self.near_is.set_position((min(x + (10 if east else -10), WEST + FEET_WIDE - 9), np.clip(y, SOUTH + 12, 76)))

    def _wheels(self, pose, angle_deg):
        frame = self._airframe
        half = frame.track / 2
        angle = np.radians(angle_deg)
        ahead, right = np.cos(angle), np.sin(angle)
        nose = frame.wheelbase
        rows = [[(-0.8, side), (0.8, side)] for side in (-half, half)]
        rows.append([(nose - 0.8 * ahead, -0.8 * right), (nose + 0.8 * ahead, 0.8 * right)])
        long = frame.nose - nose + BAR_FT
        rows.append([(nose, 0.0), (nose + long * ahead, long * right)])
        return [[tuple(map(float, place(pose, *end))) for end in row] for row in rows]


def _label(axes, thing):
    """The name of an obstacle beside it, without its article."""
    south, north = thing.y
    middle, words = sum(thing.x) / 2, thing.name.removeprefix("the ")
    low = south < 30
    place_y = south - 2.2 if low else north + 2.2
    name = axes.text(max(middle, WEST + 9), place_y, words, fontsize=11, color=FAINT, **CENTRED)
    if low:  # clear of the aircraft that waits east of it
        name.set(x=thing.x[1], ha="right")
    return name
