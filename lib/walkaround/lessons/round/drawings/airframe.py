"""What is looked at outside: ring and wheel, openings for air, control surfaces, nose leg, lights."""

from walkaround.lessons.round.drawings.pen import GRASS, METAL, RUBBER, SKIN, arc, turned
from walkaround.lessons.round.stops.ground_power import LAMPS
from walkaround.lessons.round.stops.pitot_static import BARE, COVER, DROP, INLET_FULL, TAPED
from walkaround.lessons.round.stops.securing import BESIDE, CHOCKED, LYING, TIED
from walkaround.lessons.round.stops.towing import BAR_ON
from walkaround.live.colours import FAINT, INK, PALE, SKY, VERMILION

DRAWS = ("rope", "wheel", "pitot", "static", "ailerons", "elevator", "flaps", "nose", "lights")
_ROPE, _CHOCK, _MUD = "#b07d2b", "#e0b13c", "#7a5230"


def rope(pen, seen, craft):
    """The wing from ahead, the ring under it, and a stake in the grass."""
    pen.ground(16, GRASS)
    pen.shape([(0, 72), (92, 76), (97, 78), (92, 81), (0, 82)], face=SKIN)
    pen.line([(70, 71), (70, 75)], INK, 3)
    pen.line(arc(70, 68.5, 3, 0, 360), INK, 3)
    pen.line([(22, 10), (26, 22)], INK, 5)
    pen.line(arc(26.6, 24, 2.4, 0, 360), INK, 2.4)
    if seen["rope"] == TIED:
        pen.line([(27, 25), (69, 66)], _ROPE, 3.4)
        pen.line([(68, 66), (72, 62), (69, 60), (73, 58)], _ROPE, 3)
    elif seen["rope"] == LYING:
        pen.line([(27, 23), (34, 14), (46, 11), (58, 13), (68, 9), (78, 11)], _ROPE, 3.4)
    else:
        for i in range(3):
            pen.oval(42, 12 + 1.6 * i, 20 - 3 * i, 5, face="none", edge=_ROPE, width=3)


def wheel(pen, seen, craft):
    """The wheel from the left, a ruler beside it, and chocks."""
    pen.ground(14)
    per = 32.0 / seen["full"]
    axle, r = 14 + seen["axle"] * per, 32.0
    sunk = seen["full"] - seen["axle"]
    half = (r**2 - (axle - 14) ** 2) ** 0.5 if axle - 14 < r else 2.0
    begin = 270 - 57.3 * half / r if sunk > 0 else 268
    around = [p for p in arc(48, axle, r, -90 + (270 - begin), begin, 80) if p[1] >= 13.9]
    pen.shape([*around, (48 - half - 0.15 * sunk * per, 14), (48 + half + 0.15 * sunk * per, 14)], face=RUBBER)
    pen.disc(48, axle, 15, face=METAL)
    pen.disc(48, axle, 4, face=INK)
    pen.shape([(44, axle + 2), (52, axle + 2), (60, 88), (50, 88)], face=SKIN)
    for x in (30, 66) if seen["chock"] == CHOCKED else ():
        side = -1 if x < 48 else 1
        pen.shape([(x - 9, 14), (x + 9, 14), (x - side * 2, 26)], face=_CHOCK, hatch="//")
    if seen["chock"] == BESIDE:
        pen.shape([(1, 4), (13, 4), (7, 12)], face=_CHOCK, hatch="//")
        pen.shape([(13, 3), (25, 3), (19, 11)], face=_CHOCK, hatch="//")
    pen.box(86, 14, 7, 44, face="white")
    step = seen["full"] / 8
    for i in range(11):
        y = 14 + i * step * per
        pen.line([(86, y), (90 if i % 2 else 93, y)], INK, 1.2)
    pen.line([(52, axle), (86, axle)], INK, 1.6, linestyle="--")
    digits = 0 if seen["unit"] == "mm" else 1
    pen.write(89.5, 62, f"{seen['axle']:.{digits}f} {seen['unit']}", 12.5, fontweight="bold")
    pen.plate(80, 80, f"axle, least:\n{seen['least']} {seen['unit']}", 11.5)


def pitot(pen, seen, craft):
    """The tube from the side, and its front from ahead."""
    pen.shape([(0, 70), (100, 70), (100, 84), (0, 84)], face=SKIN)
    pen.shape([(56, 70), (66, 70), (62, 50), (54, 50)], face=METAL)
    pen.box(24, 44, 40, 7, face=METAL)
    pen.disc(48, 44, 0.9, face=INK)
    covered = seen["tube"] == COVER
    if covered:
        pen.shape([(19, 40), (44, 40), (44, 55), (19, 55)], face=VERMILION, hatch="..")
        if seen.get("streamer"):
            pen.shape([(22, 40), (27, 40), (30, 14), (26, 17), (22, 13)], face=VERMILION)
    if seen["tube"] == DROP:
        pen.oval(48, 40.2, 3.2, 5.4, face="white", edge=INK, width=1.4)
    pen.write(52, 34, "from the left", 11.5)
    pen.disc(82, 24, 14, face=VERMILION if covered else METAL, hatch=".." if covered else None)
    if not covered:
        filled = seen["tube"] == INLET_FULL
        pen.disc(82, 24, 8, face=_MUD if filled else INK)
        if filled:
            pen.line([(77, 22), (80, 26), (84, 21), (87, 26)], "#c49a6c", 2)
    pen.write(82, 5, "from ahead", 11.5)


def static(pen, seen, craft):
    """The plate with the static port's holes."""
    pen.box(2, 4, 96, 80, face=SKIN)
    for y in (22, 64):
        for x in range(8, 96, 9):
            pen.disc(x, y, 0.8, face=METAL, width=1)
    if seen["port"] == BARE:
        pen.disc(50, 43, 19, face="#aeb8bf", edge=FAINT, width=1)
    pen.disc(50, 43, 13, face=METAL)
    if seen["port"] == TAPED:
        pen.shape([(33, 33), (66, 31), (68, 54), (34, 55)], face="#e9ecd9", edge="#8b8b7a", width=1.2)
    else:
        for dx, dy in ((0, 4.5), (-4.5, -3), (4.5, -3)):
            pen.disc(50 + dx, 43 + dy, 1.7, face=INK)
    pen.write(50, 12, "left side of the fuselage", 11.5)


def _limits(pen, x, y, length, degrees):
    for angle in degrees:
        (end,) = turned([(length + 14, 0)], angle, (x, y))
        pen.line([turned([(length + 2, 0)], angle, (x, y))[0], turned([(length + 9, 0)], angle, (x, y))[0]], INK, 2)
        pen.write(*end, f"{abs(angle):.0f}°", 10.5)


def _section(pen, x, y, angle, front=20.0, length=22.0, thick=4.2):
    """A wing or tail cut from the left, with a surface hinged to it: trailing edge up positive, to the right."""
    nose = [(x - front + thick * (1 + a), y + thick * b) for a, b in arc(0, 0, 1, 90, 270)]
    pen.shape([(x, y + thick), *nose, (x, y - thick)], face=PALE)
    pen.shape(
        turned([(0, thick), (-0.7 * thick, 0), (0, -thick), (length, -0.4), (length, 0.4)], angle, (x, y)), face=SKY
    )


def ailerons(pen, seen, craft):
    """Both ailerons, cut from the left, and the wheel or stick as it is held."""
    r = craft.control_surfaces.rigging
    for side, y in (("left", 71), ("right", 39)):
        _section(pen, 56, y, seen[side])
        _limits(pen, 56, y, 22, (r.aileron_up, 0, -r.aileron_down))
        pen.write(29, y + 9, f"{side} aileron", 12)
    _held(pen, seen, 18, 14)
    way = "right" if seen["asked"] > 0 else "left"
    pen.write(64, 8, f"hands push hard to the {way}", 12)


def _held(pen, seen, x, y):
    turn = -55 * seen["moved"]
    if seen["held"] == "wheel":
        pen.line(turned(arc(0, 0, 10, 150, 390), turn, (x, y)), INK, 5)
        pen.line(turned([(-9.6, 0), (9.6, 0)], turn, (x, y)), INK, 4)
    else:
        pen.line(turned([(0, -8), (0, 12)], 0.5 * turn, (x, y)), INK, 6)
    if not seen["moved"]:
        pen.line([(x - 4, y - 12), (x + 4, y + 4)], VERMILION, 5)
        pen.disc(x + 5, y + 6, 3.4, face=VERMILION, hatch="//")
    pen.disc(x, y, 2, face=METAL)


def elevator(pen, seen, craft):
    """The elevator with its tab, cut from the left, and the trim wheel."""
    x, y, length = 30, 48, 34
    pen.shape([*arc(x - 16, y, 6, 90, 270), (x, y - 6), (x, y + 6)], face=PALE)
    angle = seen["elevator"]
    pen.shape(turned([(0, 6), (-4, 0), (0, -6), (length, -1.6), (length, 1.6)], angle, (x, y)), face=SKY)
    hinge = turned([(length, 0)], angle, (x, y))[0]
    pen.shape(
        turned([(0, 1.6), (-1, 0), (0, -1.6), (14, -0.4), (14, 0.4)], angle + seen["tab"], hinge),
        face=VERMILION,
        hatch="//",
    )
    for limit in (seen["up"], 0, -seen["down"]):
        begin, end, words = (turned([(n, 0)], limit, (x, y))[0] for n in (53, 58, 63))
        pen.line([begin, end], INK, 2.2)
        pen.write(*words, f"{limit:.0f}°" if limit >= 0 else f"{-limit:.0f}°", 11)
    pen.write(22, 76, "elevator, and its tab", 12)
    pen.box(6, 4, 12, 22, face="white")
    pen.box(4, 12.5 - 8 * seen["trim"], 16, 5, face=INK)
    pen.write(26, 23, "nose down", 10.5, ha="left")
    pen.write(26, 7, "nose up", 10.5, ha="left")
    pen.write(70, 5, f"{seen['held']} hard back", 12)


def flaps(pen, seen, craft):
    """Both flaps, cut from the left, with the marks of their settings."""
    settings = [-s for s in craft.control_surfaces.flap.settings_deg]
    for side, y in (("left", 70), ("right", 34)):
        _section(pen, 44, y, -seen[side], length=26)
        _limits(pen, 44, y, 26, settings)
        pen.write(18, y + 10, f"{side} flap", 12)
    pen.plate(83, 80, f"lever: {seen['selected']:.0f}°", 12)


def nose(pen, seen, craft):
    """The nose wheel from ahead with the pointer of its leg; and from the left, with whatever is hooked to it."""
    pen.ground(14)
    pen.disc(74, 24, 10, face=RUBBER)
    pen.disc(74, 24, 4, face=METAL)
    cradle = [(88, 16), (91, 14), (85, 24), (83, 19), (65, 19), (63, 24), (60, 19), (26, 19)]
    pen.shape([(2, 16), *cradle, (26, 30), (2, 30)])
    pen.write(14, 24, "tractor", 11)
    for x in (8, 20):
        pen.disc(x, 16, 4, face=RUBBER)
    pen.shape([(71, 26), (77, 26), (80, 60), (74, 60)], face=METAL)
    pen.shape([(60, 58), (100, 58), (100, 84), (64, 84)], face=SKIN)
    if seen["bar"] == BAR_ON:
        pen.line([(73, 24), (30, 14.8)], VERMILION, 5)
        pen.line([(30, 9), (30, 20)], VERMILION, 5)
        pen.disc(73, 24, 2, face=INK)
    else:
        pen.box(82, 66, 17, 12, face="white")
        pen.line([(85, 72), (96, 72)], VERMILION, 5)
        pen.line([(96, 69), (96, 75)], VERMILION, 4)
        pen.write(82, 81, "in the hold", 11)
    x, y, r = 30, 52, 26
    pen.disc(x, y, 5, face=METAL)
    for angle in range(-50, 51, 10):
        pen.line([arc(x, y, r, 90 - angle, 90 - angle, 1)[0], arc(x, y, r - 4, 90 - angle, 90 - angle, 1)[0]], INK, 1.4)
    for angle in (-seen["limit"], seen["limit"]):
        pen.line(
            [arc(x, y, r + 3, 90 - angle, 90 - angle, 1)[0], arc(x, y, r - 8, 90 - angle, 90 - angle, 1)[0]],
            VERMILION,
            5,
        )
        pen.write(*arc(x, y, r + 7, 90 - angle, 90 - angle, 1)[0], f"{abs(angle):.0f}", 11)
    pen.line([(x, y), arc(x, y, r - 5, 90 - seen["pointer"], 90 - seen["pointer"], 1)[0]], INK, 4)
    pen.write(x, 43, "pointer on the leg", 11.5)


def lights(pen, seen, craft):
    """Every lamp, shining or dark, with its switch."""
    places = ((14, 60), (86, 60), (50, 30), (38, 76), (62, 76))
    for lamp, (x, y) in zip(LAMPS, places, strict=True):
        on = lamp != seen["out"]
        if on:
            for angle in range(0, 360, 45):
                pen.line([arc(x, y, 7, angle, angle, 1)[0], arc(x, y, 10, angle, angle, 1)[0]], "#b8860b", 2.4)
        pen.disc(x, y, 5, face="#ffe680" if on else "#5c5c5c")
        pen.write(x, y - 12.5, lamp, 11)
    for i in range(len(LAMPS)):
        pen.box(12 + 16 * i, 5, 12, 8, face=METAL)
        pen.box(13 + 16 * i, 9, 10, 3.4, face="white")
    pen.write(50, 1.6, "five switches, all up", 10.5)
