"""Speed of the pitot and static lesson: a flight of 10,000 points, a frame of each picture and of each demonstration.

    python tests/benchmarks/pitot_static.py           and from a key to its pixels in a browser, beside plain `interact`
    python tests/benchmarks/pitot_static.py --quick   without the browser

Prints times and ratios and asserts nothing. Aims: a flight in under 5 ms; a frame of the dials in the kernel, from a
control's new value to the what changed, in under 16.7 ms (60 a second); from key to pixels a third of plain `interact` or better.
"""

import sys
from math import exp, inf
from pathlib import Path
from time import perf_counter

import numpy as np
from walkaround.lessons.pitot_static.flight_picture import FlightPicture
from walkaround.lessons.pitot_static.picture import InstrumentsPicture
from walkaround.lessons.pitot_static.roll_picture import Ending, RollPicture
from walkaround.live.bands import Bands
from walkaround.live.picture import LivePicture
from walkaround.physics.air.flight import Flight, from_calibrated
from walkaround.physics.air.takeoff import alive_s, as_flight, rejected, takeoff_roll
from walkaround.physics.pitot_static.instruments import Openings, indications
from walkaround.physics.pitot_static.line_lag import follow
from walkaround.physics.pitot_static.over_flight import Blockage, indications_over

sys.path.insert(0, str(Path(__file__).resolve().parent))

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
            Ending.of("at the call", rejected(roll, call, 2000.0, 4.0, 2.0), 2000),
            Ending.of("10 s later", rejected(roll, call + 10, 2000.0, 4.0, 2.0), 2000),
        ]
        return roll, (along.time_s, covered), 2000, 40.0, call, stops

    _report("take-off roll", lambda: RollPicture(80.0), on_the_roll)


def _report(name, make, result):
    live = LivePicture(make())
    working = milliseconds(result)
    moving = milliseconds(lambda i: live.draw(result(i))) - working
    stream = Bands()
    encoding = milliseconds(lambda i: stream.changed(live.draw(result(i)))) - moving - working
    whole = LivePicture(make())
    canvas = whole.picture.figure.canvas
    for artist in whole.picture.moving:
        artist.set_animated(False)

    def redraw(i):
        whole.picture.show(result(i))
        canvas.draw()

    full = milliseconds(redraw, 10) - working
    print(
        f"  {name:24}  work {working:5.2f} + what moved {moving:5.1f} + what changed {encoding:4.1f} "
        f"= {working + moving + encoding:5.1f} ms; whole figure {full:5.1f} ms, {full / moving:.0f} times as long"
    )


def demonstrations():
    """A frame by the stage: a control gets a new value, the sentence and the what changed are made."""
    from walkaround.lessons import pitot_static

    print("a frame of a demonstration, from a control's value to the what changed (aim for the dials: under 16.7 ms)")
    moves = {
        "dials": ("altitude", lambda i: 2000 + 100 * (i % 50)),
        "flight": ("moment", lambda i: 200 + 2 * i),
        "guess": ("moment", lambda i: 200 + 2 * i),
        "takeoff_roll": ("field_ft", lambda i: 100 * (i % 50)),
    }
    for name, (control, value) in moves.items():
        made = getattr(pitot_static, name)()
        if name == "dials":
            made.set(inlet=True, drain=True)

        def move(i, made=made, control=control, value=value):
            made.controls[control].value = value(i)

        taken = []
        for i in range(60):
            begin = perf_counter()
            move(i)
            taken.append(1e3 * (perf_counter() - begin))
        print(f"  {name:14} median {sorted(taken)[30]:5.1f} ms, shortest {min(taken):5.1f} ms")


def papers():
    """Writing a student's exercise, which marking a course does for every sheet."""
    from walkaround.assessment.variant import Variant
    from walkaround.lessons.pitot_static import questions as pitot_static

    variants = [Variant("course", f"Student {i}", "pitot_static") for i in range(100)]
    each = milliseconds(lambda i: [pitot_static.write(v) for v in variants], 3) / len(variants)
    print(f"a student's paper: {each:.2f} ms")


if __name__ == "__main__":
    flights()
    frames()
    demonstrations()
    papers()
