"""A table for the hangar wall, to print: minutes until the engine is ready, by outside temperature."""

import numpy as np
from matplotlib.patches import Rectangle

from walkaround.live.colours import INK, PALE
from walkaround.live.style import CENTRED, new_figure, styled
from walkaround.physics.preheat.words import CELSIUS, FAHRENHEIT, on_scale, whole_minutes


def hangar_table(
    outside_c, columns, minutes, title, notes=(), width_px=1169, height_px=827, scales=(CELSIUS, FAHRENHEIT)
):
    """Return a figure to print for the hangar wall: minutes until ready, a row for each temperature outside.

    Parameters: `outside_c` in °C, shape (rows,); `columns`, a heading for each column; `minutes`, shape (rows,
    columns), infinite where the engine never gets ready; `title`, `notes` to stand under the table, and one or two
    `scales` for the temperatures outside. The size is a sheet of A4 across.

    >>> figure = hangar_table([-20.0], ["low fan", "high fan"], [[float("inf"), 44.2]], "Minutes until ready")
    >>> [text.get_text() for text in figure.axes[0].texts][-2:]
    ['never', '45 min']
    """
    minutes = np.asarray(minutes, dtype=float)
    rows, count = minutes.shape
    with styled():
        figure = new_figure(width_px, height_px)
        axes = figure.add_axes((0.05, 0.03, 0.9, 0.94))
    axes.axis("off")
    axes.set(xlim=(0, 1), ylim=(0, 1))
    # Letters as large as rows and columns have room for: this is read from across a hangar.
    widest = max(len(line) for heading in columns for line in heading.split("\n"))
    row_px, column_px = 0.94 * height_px / (rows + 5), 0.72 * 0.9 * width_px / count
    size = float(np.clip(min(0.46 * row_px, 0.9 * column_px / max(widest, 7) / 0.7 * 0.72), 8, 24))
    small = float(min(0.72 * size, 0.9 * width_px * 0.72 / max([len(n) for n in notes] + [1]) / 0.54))
    line = 1.0 / (rows + 4 + 0.7 * len(notes))
    axes.text(0, 1 - 0.6 * line, title, fontsize=1.15 * size, fontweight="bold", va="center")
    left = 0.28
    across = [left + (1 - left) * (i + 0.5) / count for i in range(count)]
    head = 1 - 2.0 * line
    axes.text(0.14, head, "outside", fontsize=size, fontweight="bold", **CENTRED)
    for x, heading in zip(across, columns, strict=True):
        axes.text(x, head, heading, fontsize=0.9 * size, fontweight="bold", **CENTRED, linespacing=1.1)
    for i, (outside, row) in enumerate(zip(outside_c, minutes, strict=True)):
        y = head - (i + 1.35) * line
        if i % 2 == 0:
            axes.add_patch(Rectangle((0, y - line / 2), 1, line, facecolor=PALE, edgecolor="none"))
        for x, scale in zip((0.115, 0.24) if len(scales) > 1 else (0.18,), scales, strict=True):
            axes.text(x, y, on_scale(outside, scale), fontsize=size, ha="right", va="center")
        for x, value in zip(across, row, strict=True):
            never = not np.isfinite(value)
            text = "never" if never else f"{whole_minutes(value)} min"
            axes.text(x, y, text, fontsize=size, **CENTRED, style="italic" if never else "normal")
    axes.plot([0, 1], [head - 0.8 * line] * 2, color=INK, linewidth=1.6)
    for i, note in enumerate(reversed(notes)):
        axes.text(0, (0.3 + 0.7 * i) * line, note, fontsize=small, va="center")
    return figure
