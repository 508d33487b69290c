"""Fuel and oil: the sample, the stick in the tanks, the cap, the oil's stick and the ground under the engine."""

from walkaround.lessons.round.drawings.pen import METAL, SKIN, arc, marks, turned
from walkaround.lessons.round.stops.fuel import BLUE, JAR_ML, NO_COLOUR, RING, STRAW
from walkaround.live.colours import FAINT, INK, VERMILION
from walkaround.physics.oil import on_dipstick

DRAWS = ("jar", "tanks", "cap", "oil", "ground")
_COLOUR = {BLUE: "#8fc3e6", STRAW: "#ead9a0", NO_COLOUR: "#f4f6f7"}
_WATER, _OIL = "#f4f6f7", "#b98a3c"


def jar(pen, seen, craft):
    """The sampler with what the drain gave, and a drop of it on paper."""
    x, wide, low, high = 14, 34, 12, 74
    level = low + 0.86 * (high - low)
    water = low + (level - low) * seen["water_ml"] / JAR_ML
    pen.box(x, low, wide, high - low, face="white")
    pen.box(x, low, wide, level - low, face=_COLOUR[seen["fuel"]], width=1.2)
    if 0 < seen["water_ml"] < JAR_ML:
        pen.box(x, low, wide, water - low, face=_WATER, width=2.2)
        for i in range(3):
            pen.line(arc(x + 8 + 9 * i, (low + water) / 2 - 2, 2.4, 200, 340), FAINT, 1.4)
    if seen["fuel"] == NO_COLOUR:
        for i in range(6):
            pen.line(arc(x + 8 + 9 * (i % 3), low + 12 + 20 * (i // 3), 2.4, 200, 340), FAINT, 1.4)
    for i in range(1, 5):
        y = low + (level - low) * i / 5
        pen.line([(x + wide - 8, y), (x + wide, y)], INK, 1.4)
        pen.write(x + wide + 2, y, f"{JAR_ML * i / 5:.0f}", 11, ha="left")
    pen.write(x + wide + 2, level, f"{JAR_ML:.0f} mL", 11, ha="left")
    if seen["dew"]:
        for i in range(12):
            pen.oval(
                x + (-2.4 if i % 2 else wide + 0.6) * (i < 8) + (4 + 7 * (i - 8)) * (i >= 8),
                20 + 6 * (i % 8),
                1.8,
                2.6,
                face="white",
                width=1.2,
            )
    pen.box(66, 26, 30, 34, face="white")
    pen.write(81, 64, "a drop on paper", 11.5)
    if seen["fuel"] == NO_COLOUR:
        for dx, dy in ((0, 0), (5, -6), (-6, -5)):
            pen.oval(81 + dx, 45 + dy, 5, 4.4, face=_WATER, width=1.6)
    elif seen["paper"] == RING:
        pen.disc(81, 43, 9, face="#efe6cc", edge="#8d7a45", width=2.5)
    else:
        pen.disc(81, 43, 8, face="white", edge="#e3e3e3", width=1)
    pen.write(81, 21, "after a minute", 11)
    pen.write(31, 6, "from the lowest drain", 11.5)


def tanks(pen, seen, craft):
    """The stick as it comes out of either tank, and what the flight needs."""
    stick = craft.fuel_system.tanks[0].dipstick
    heights, quantities = stick.marks_cm, stick.quantities
    bottom, scale = 12.0, 62.0 / heights[-1]
    wet = _at(seen["each"], quantities, heights) * scale
    for x, name in ((22, "left tank"), (58, "right tank")):
        pen.box(x, bottom, 8, 70, face="#f3e7c9")
        pen.box(x, bottom, 8, wet, face="#7f9fb3")
        pen.line([(x - 1, bottom + wet), (x + 9, bottom + wet)], INK, 2.6)
        for quantity in marks(quantities):
            y = bottom + _at(quantity, quantities, heights) * scale
            pen.line([(x, y), (x + 5, y)], INK, 1.6)
            pen.write(x + 10, y, f"{quantity:g}", 11.5, ha="left")
        pen.write(x + 4, 6, f"{name}: {seen['each']:.1f}", 12)
    pen.plate(88, 76, f"needs\n{seen['needed']:.1f}\n{seen['unit']}", 12)
    pen.plate(88, 46, f"can't be\nused, each:\n{seen['unusable']:g} {seen['unit']}", 11)


def _at(value, xs, ys):
    """A value between given ones, by straight lines; below the first, in proportion."""
    if value <= xs[0]:
        return ys[0] * value / xs[0]
    for x0, x1, y0, y1 in zip(xs, xs[1:], ys, ys[1:], strict=False):
        if value <= x1 or x1 == xs[-1]:
            return y0 + (value - x0) * (y1 - y0) / (x1 - x0)
    return ys[-1]


def cap(pen, seen, craft):
    """The filler cap from above, its arrow, the mark on the wing, and its lever from the side."""
    pen.box(2, 4, 96, 80, face=SKIN)
    pen.disc(40, 44, 30, face=METAL)
    pen.disc(40, 44, 23, face="white")
    pen.shape([(37, 78), (43, 78), (40, 72)], face=INK)
    pen.write(40, 81, "mark", 11)
    pen.shape(
        turned([(-2.2, -14), (2.2, -14), (2.2, 10), (6, 10), (0, 19), (-6, 10), (-2.2, 10)], -seen["turned"], (40, 44)),
        face=VERMILION,
        hatch="//",
    )
    pen.line([(76, 30), (96, 30)], INK, 2)
    pen.box(79, 30, 14, 3.4, face=METAL)
    lever = [(86, 34), (86, 50)] if seen["lever"] else [(80, 35.4), (93, 35.4)]
    pen.line(lever, INK, 4.5)
    pen.write(86, 23, "from the side", 11)


def oil(pen, seen, craft):
    """The engine's dipstick, wiped, put in and read."""
    section = craft.engine.oil
    low, high = section.dipstick_quantities[0], section.dipstick_quantities[-1]
    bottom, per_mark = 14.0, 46.0 / (section.dipstick_marks[-1] - section.dipstick_marks[0])

    def y(quantity):
        within = min(max(quantity, low), high)
        past = (quantity - within) * 46.0 / (high - low)
        mark = float(on_dipstick(within, section.dipstick_marks, section.dipstick_quantities))
        return bottom + 8 + (mark - section.dipstick_marks[0]) * per_mark + past

    pen.box(38, bottom, 9, 70, face="#eef1f3")
    pen.box(38, bottom, 9, y(seen["shows"]) - bottom, face=_OIL)
    pen.line([(36.5, y(seen["shows"])), (48.5, y(seen["shows"]))], INK, 2.6)
    far = (high - low) / 8  # from the mark for full
    below = [q for q in marks(section.dipstick_quantities) if abs(q - section.full) > far]
    for quantity in (*below, section.full):
        pen.line([(38, y(quantity)), (43, y(quantity))], INK, 1.8)
        full = ", full" if quantity == section.full else ""
        pen.write(50, y(quantity), f"{quantity:g} {section.unit}{full}", 11.5, ha="left")
    pen.write(42, 6, f"reads {seen['shows']:.1f} {section.unit}", 13, fontweight="bold")
    pen.disc(15, 60, 12, face="white")
    pen.line([(15, 60), (15, 69)], INK, 2)
    pen.line([(15, 60), (21, 57)], INK, 3)
    pen.write(15, 42, f"shut down\n{seen['hours']} h ago", 11.5)
    pen.plate(84, 20, f"needs\n{seen['needed']:.1f} {section.unit}", 12)


def ground(pen, seen, craft):
    """The belly of the cowl and the ground below it."""
    pen.ground(24)
    pen.shape([(10, 58), (88, 62), (96, 84), (4, 84)], face=SKIN)
    pen.write(50, 74, "cowl", 12)
    if seen["stain"]:
        pen.oval(50, 13, 44, 12, face="#bdbab4", edge="#aaa69f", width=1, linestyle=":")
    if seen["drops"]:
        size = 16 + 0.9 * seen["drops"]
        pen.oval(50, 13, size, 0.28 * size, face="#3b2a12", width=1)
        pen.oval(47, 13.8, 0.3 * size, 0.05 * size, face="#e8d9bd", edge="none")
        for i in range(1 + (seen["drops"] > 6) + (seen["drops"] > 20)):
            pen.oval(50, 54 - 11 * i, 1.8, 3.2, face="#3b2a12", width=1)
        pen.oval(50, 59.6, 5, 2, face="#3b2a12", width=1)
    pen.write(50, 3.6, f"in one minute by the watch: {seen['drops']} drops", 11.5)
