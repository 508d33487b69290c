"""What is looked at round the engine: intakes, winter kit, cowl, and the socket for ground power."""

from walkaround.lessons.round.drawings.pen import METAL, SKIN
from walkaround.lessons.round.stops.cooling import OPEN, PLUG, STRAW
from walkaround.lessons.round.stops.preheat import CORD_COILED, HOSE
from walkaround.live.colours import INK, ORANGE, PALE, VERMILION

DRAWS = ("intakes", "kit", "cowl", "socket")
_STRAW = "#b08d3a"


def intakes(pen, seen, craft):
    """The cowl from ahead with its two intakes; the aircraft's left is on the right."""
    pen.oval(50, 46, 92, 70, face=SKIN)
    pen.disc(50, 48, 11, face=METAL)
    for end in (87, 3):
        pen.shape([(47, 48), (53, 48), (51.5, end), (48.5, end)], face=INK)
    for side, x in (("left", 74), ("right", 26)):
        pen.oval(x, 50, 28, 22, face="#20262b")
        what = seen[side]
        if what in (OPEN, STRAW):
            for i in range(5):
                pen.line([(x - 9, 43 + 3.4 * i), (x + 9, 43 + 3.4 * i)], "#8793a0", 1.6)
        if what == PLUG:
            pen.oval(x, 50, 26, 20, face=ORANGE, hatch="..")
            pen.box(x - 3, 47, 6, 6, face=VERMILION)
        if what == STRAW:
            for i in range(seen["straws"]):
                dx, dy = 7 * ((i * 37) % 10) / 10 - 8, 4 * ((i * 53) % 10) / 10
                pen.line([(x + dx - 2, 42.5 + dy), (x + dx + 5, 44 + dy + 2 * (i % 3))], _STRAW, 2.2)
        pen.write(x, 33, f"{side} intake", 11.5)


def kit(pen, seen, craft):
    """The oil cooler under the nose, with a plate over it or not, and a thermometer."""
    pen.shape([(4, 62), (96, 62), (88, 20), (12, 20)], face=SKIN)
    pen.box(22, 26, 56, 30, face="#20262b")
    for i in range(9):
        pen.line([(26 + 6 * i, 28), (26 + 6 * i, 54)], "#8793a0", 1.6)
    if seen["on"]:
        pen.box(20, 24, 60, 16, face=METAL)
        for x in (23.5, 76.5):
            pen.disc(x, 32, 1.5, face=INK)
        pen.write(50, 32, "WINTER KIT", 11)
    pen.write(50, 12, "oil cooler, from ahead", 11.5)
    pen.plate(14, 78, f"outside\n{seen['outside']:.0f} °C".replace("-", "−"), 12)
    pen.plate(72, 78, f"winter kit: {seen['off_above']:.0f} °C\nand colder".replace("-", "−"), 12)


def cowl(pen, seen, craft):
    """The cowl from the left with its flap, and what leads into it."""
    pen.ground(12)
    pen.shape([(14, 40), (20, 34), (92, 28), (100, 30), (100, 72), (40, 70), (18, 60)], face=SKIN)
    pen.line([(14, 20), (14, 82)], INK, 5)
    pen.shape([(60, 31), (84, 29), (86, 24), (62, 25)], face=METAL)
    pen.write(60, 52, "cowl, seen from the left", 11.5)
    if seen["what"] == HOSE:
        pen.line([(73, 27), (70, 18), (56, 12), (40, 14)], ORANGE, 11)
        pen.line([(73, 27), (70, 18), (56, 12), (40, 14)], INK, 1.2, linestyle=":")
        pen.box(18, 7, 24, 15, face=METAL)
        pen.line([(18, 10), (4, 4)], INK, 2.4)
        for i in range(4):
            pen.line([(22 + 5 * i, 10), (22 + 5 * i, 19)], INK, 1.2)
    if seen["what"] == CORD_COILED:
        pen.line([(92, 26), (92, 23)], INK, 3)
        for i in range(3):
            pen.oval(92, 18, 6 + 2 * i, 9 + 2 * i, face="none", edge=ORANGE, width=2.4)


def socket(pen, seen, craft):
    """The socket behind its door, the placard, and a cart if there is one."""
    pen.box(4, 34, 92, 50, face=SKIN)
    pen.box(20, 46, 30, 26, face=PALE)
    for i in range(3):
        pen.disc(27 + 8 * i, 59, 2.8, face=INK)
    pen.plate(72, 62, f"external power\n{seen['placard']:.0f} V DC", 12)
    if seen["cart"]:
        pen.box(22, 54, 26, 10, face=INK)
        pen.line([(35, 54), (35, 30), (50, 18), (62, 16)], INK, 5)
        pen.box(60, 6, 34, 22, face=METAL)
        pen.plate(77, 18, f"{seen['cart']:.0f} V", 14)
        for x in (66, 88):
            pen.disc(x, 5, 4, face=INK)
    else:
        pen.shape([(20, 72), (50, 72), (54, 82), (24, 82)], face=METAL)
