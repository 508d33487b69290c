"""What is looked at from the seat: papers, hold, altimeter, brake, voltmeter, oil temperature."""

from walkaround.lessons.cooling.gauges import Gauge
from walkaround.lessons.pitot_static.dial_faces import AltimeterDial
from walkaround.lessons.round.drawings.pen import METAL, SKIN, arc
from walkaround.lessons.round.stops.pitot_static import MOST_FT
from walkaround.live.colours import GREEN, INK, PALE, VERMILION

DRAWS = ("papers", "hold", "altimeter", "brake", "battery", "temperature")
_CANVAS, _NET = "#b9c7a5", "#6b6b6b"


def papers(pen, seen, craft):
    """The pocket with its papers spread out above it."""
    old = ["old weighing report"] * seen["superseded"]
    for i, paper in enumerate([*seen["papers"], *old]):
        x, y = 5 + 48 * (i % 2), 62 - 24 * (i // 2)
        pen.box(x, y, 42, 20, face="white")
        for line in range(2):
            pen.line([(x + 5, y + 8 - 3.5 * line), (x + 37 - 9 * line, y + 8 - 3.5 * line)], METAL, 2)
        pen.write(x + 21, y + 14, paper, 11.5)
        if paper in old:
            pen.line([(x + 2, y + 1.5), (x + 40, y + 18.5)], INK, 2)
            pen.line([(x + 2, y + 18.5), (x + 40, y + 1.5)], INK, 2)
    pen.shape([(10, 1), (90, 1), (94, 10), (6, 10)], face=METAL)
    pen.write(50, 5.5, "pocket in the door", 11)


def hold(pen, seen, craft):
    """Bags on the floor of a hold, with tags, a placard, and a net."""
    pen.box(4, 4, 92, 76, face=PALE)
    pen.plate(50, 72, f"{seen['hold']}: at most {seen['limit']:g} {seen['unit']}")
    pen.line([(4, 14), (96, 14)], INK, 2)
    high = 42 if seen["large"] else 28
    for i, weight in enumerate(seen["bags"]):
        x, tall = 9 + 29 * i, high - 4 * i
        pen.box(x, 14, 25, tall, face=_CANVAS)
        pen.line(arc(x + 12.5, 14 + tall, 5, 0, 180), INK, 2.4)
        pen.plate(x + 12.5, 14 + 0.45 * tall, f"{weight} {seen['unit']}")
    if seen["net"]:
        top = 14 + high + 3
        for i in range(12):
            pen.line([(6 + 8 * i, 14), (6 + 8 * i, top)], _NET, 1.2)
        for i in range(int((top - 14) / 7) + 1):
            pen.line([(6, 14 + 7 * i), (94, 14 + 7 * i)], _NET, 1.2)
        for x in (6, 94):
            pen.disc(x, 14, 1.8, face=METAL)
    else:
        pen.oval(88, 18, 14, 8, face=METAL, hatch="xx")
        for x in (6, 94):
            pen.disc(x, 14, 1.8, face=METAL)


def altimeter(pen, seen, craft):
    """The altimeter, with the elevation of the field on a plate."""
    pen.inside(AltimeterDial, 12, 10, 76, 78).update(float(seen["shows"]))
    pen.plate(50, 4.5, f"field {seen['field']:,.0f} ft; {MOST_FT:.0f} ft either way allowed")


def brake(pen, seen, craft):
    """The handle of the parking brake below the panel."""
    pen.box(4, 46, 92, 38, face=METAL)
    for x in (22, 50, 78):
        pen.disc(x, 66, 11, face=INK)
        pen.disc(x, 66, 9, face="#2c2c2c", edge="white", width=1)
    pen.box(40, 42, 20, 9, face=SKIN)
    pen.write(50, 46.5, "BRAKE", 11)
    out = 20 if seen["brake"] else 2
    pen.box(47, 42 - out, 6, out, face="white")
    if seen["brake"]:
        pen.box(47, 31, 6, 5, face=VERMILION, hatch="//")
    pen.shape([(38, 42 - out), (62, 42 - out), (60, 34 - out), (40, 34 - out)], face=INK)
    pen.write(50, 4, "pull: set     push: off", 11.5)


def battery(pen, seen, craft):
    """A voltmeter with its green arc."""
    low, high = 10, 15

    def place(volts, radius):
        return arc(50, 26, radius, *[180 - 180 * (volts - low) / (high - low)] * 2, n=1)[0]

    def band(begin, end, radius):
        ends = [180 - 180 * (v - low) / (high - low) for v in (begin, end)]
        return [*arc(50, 26, radius, *ends), *arc(50, 26, radius - 6, *ends[::-1])]

    pen.box(6, 10, 88, 68, face=METAL)
    pen.shape([*arc(50, 26, 38, 0, 180), (12, 18), (88, 18)], face="white")
    pen.shape(band(seen["green"], 14.5, 35), face=GREEN, width=1)
    for tenths in range(10 * low, 10 * high + 1, 5):
        whole = tenths % 10 == 0
        pen.line([place(tenths / 10, 35), place(tenths / 10, 29 if whole else 32)], INK, 2 if whole else 1)
        if whole:
            pen.write(*place(tenths / 10, 24.5), f"{tenths // 10}", 12)
    pen.write(50, 20.6, "volts", 10.5)
    pen.line([(50, 26), place(seen["volts"], 33)], INK, 3.5)
    pen.disc(50, 26, 3, face=INK)
    pen.write(50, 13.6, f"{seen['volts']:.1f} V", 14, fontweight="bold")


def temperature(pen, seen, craft):
    """The oil's temperature gauge, and what a start needs."""
    limit, green = craft.engine.oil_limit_c, craft.cooling.oil_green_c
    gauge = pen.inside(Gauge, 4, 14, 92, 70, "oil temperature, °C", -20, 130, 25, green, limit)
    gauge.update(float(seen["oil"]))
    pen.plate(50, 6, f"for a start: {seen['least']:.0f} °C or more")
