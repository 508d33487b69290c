"""Speed of the pitot and static lesson: a frame of each picture, and a flight of 10,000 points.

Run it by itself: python tests/benchmarks/pitot_static.py. It prints times and ratios and asserts nothing.
"""

from math import exp, inf
from time import perf_counter

import numpy as np
from walkaround.figures.live import LivePicture, png
from walkaround.figures.pitot_static import InstrumentsPicture
from walkaround.figures.pitot_static_flight import FlightPicture
from walkaround.figures.takeoff_roll import RollPicture
from walkaround.flight import Flight, from_calibrated
from walkaround.flight_indications import Blockage, indications_over
from walkaround.line_lag import follow
from walkaround.pitot_static import Openings, indications
from walkaround.takeoff_roll import alive_s, as_flight, rejected, takeoff_roll

SPEEDS = {"vs1": 50, "vno": 120, "vne": 150, "vs0": 44, "vfe": 85}  # invented


def milliseconds(work, times=30):
    """Shortest time of a call in ms, after one to warm up: other work on the machine only adds to it."""
    work(0)
    taken = []
    for i in range(times):
        begin = perf_counter()
        work(i)
        taken.append(1e3 * (perf_counter() - begin))
    return min(taken)


def long_flight(points=10_000):
    """A flight of many points that goes up and down and changes speed all the way."""
    times = np.linspace(0.0, 3 * 3600.0, points)
    return from_calibrated(times, 4000.0 + 3000.0 * np.sin(times / 900.0), 95.0 + 15.0 * np.sin(times / 70.0))


def loop(times, outside, tau_s):
    """The lag worked out step by step in plain Python."""
    held = [outside[0]]
    for i in range(1, len(times)):
        step = (times[i] - times[i - 1]) / tau_s
        change = outside[i] - outside[i - 1]
        held.append(outside[i] + (held[-1] - outside[i - 1]) * exp(-step) - change * (1 - exp(-step)) / step)
    return held


def flights():
    flight = long_flight()
    print(f"flight of {flight.time_s.size:,} points (aim: under 5 ms)")
    kinds = {
        "all clear": (),
        "inlet and drain blocked": Blockage(3000.0, inf, inf),
        "static port blocked": Blockage(3000.0, static_lag_s=inf),
        "everything half blocked": Blockage(3000.0, 5.0, 40.0, 12.0),
    }
    making = milliseconds(lambda i: Flight(flight.time_s, flight.altitude_ft, flight.tas_kt))
    print(f"  make the flight           {making:6.2f} ms")
    for name, blockage in kinds.items():
        print(f"  {name:24}  {milliseconds(lambda i, b=blockage: indications_over(flight, b)):6.2f} ms")
    plain = flight.time_s.tolist(), flight.static_hpa.tolist(), 12.0
    slow = milliseconds(lambda i: loop(*plain), 10)
    quick = milliseconds(lambda i: follow(flight.time_s, flight.static_hpa, 12.0))
    print(f"  one lag: {quick:.2f} ms, a plain loop {slow:.2f} ms, {slow / quick:.0f} times as long")


def frames():
    print("a frame (aim: 60 a second in the kernel, under 16.7 ms)")
    iced = Openings(False, False, True)

    def moment(i):
        altitude_ft = 2000.0 + 20.0 * i
        right = indications(altitude_ft, 90.0, Openings(), climb_fpm=500.0)
        return iced, indications(altitude_ft, 90.0, iced, 2500.0, 80.0, 500.0), right, False

    _report("dials and lines", lambda: InstrumentsPicture(SPEEDS), moment)

    flight = long_flight()
    shown, right = indications_over(flight, Blockage(3000.0, inf, inf)), indications_over(flight)
    _report(
        "flight of 10,000 points",
        lambda: FlightPicture(flight, SPEEDS),
        lambda i: (shown, right, 6000.0 + 60.0 * i, [3000.0], True),
    )

    def on_the_roll(i):
        roll = takeoff_roll(900.0, 55.0, 50.0 * i, 25.0)
        along, call = as_flight(roll), float(alive_s(roll, 40.0))
        covered = indications_over(along, Blockage(0.0, inf)).airspeed_kt
        stops = [
            ("at the call", rejected(roll, call, 2000.0, 4.0, 2.0)),
            ("10 s later", rejected(roll, call + 10, 2000.0, 4.0, 2.0)),
        ]
        return roll, (along.time_s, covered), 2000.0, 40.0, call, stops

    _report("take-off roll", lambda: RollPicture(4000.0, 80.0), on_the_roll)


def _report(name, make, result):
    live = LivePicture(make())
    working = milliseconds(result)
    moving = milliseconds(lambda i: live.draw(result(i))) - working
    frame = live.draw(result(1))
    encoding = milliseconds(lambda i: png(frame))
    whole = LivePicture(make())
    canvas = whole.picture.figure.canvas
    for artist in whole.picture.moving:
        artist.set_animated(False)

    def redraw(i):
        whole.picture.show(result(i))
        canvas.draw()

    full = milliseconds(redraw, 10) - working
    print(
        f"  {name:24}  work {working:5.2f} + what moved {moving:5.1f} + PNG {encoding:4.1f} "
        f"= {working + moving + encoding:5.1f} ms; whole figure {full:5.1f} ms, {full / moving:.0f} times as long"
    )


if __name__ == "__main__":
    flights()
    frames()
