"""How long a curve and a table of preheats take, beside what is wanted; `preheat_demo.py` has the time of a frame.

Prints times and asserts nothing.
"""

from time import perf_counter

import numpy as np
from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.physics.preheat.engine import warming

SECTION = aircraft.demo("morrowlark_four").engine
ENGINE, READY = SECTION.engine(), SECTION.ready_c
BURNER = demo_heaters().air_heaters[1]
MINUTES = np.linspace(0.0, 180.0, 200)


def milliseconds(call, repeats=40):
    """Least time of a call: what else the machine does meanwhile does not count."""
    call()
    times = []
    for _ in range(repeats):
        begin = perf_counter()
        call()
        times.append(perf_counter() - begin)
    return 1e3 * min(times)


def report(what, took, wanted):
    print(f"{what:<58} {took:8.2f} ms   wanted {wanted:6.1f} ms   ratio {took / wanted:5.2f}")


def main():
    high = BURNER.set_to("high")
    report(
        "one curve: solve, 200 moments, thermostat cycling",
        milliseconds(lambda: warming(ENGINE, -15.0, high).temperatures_c(MINUTES)),
        1.0,
    )
    history = warming(ENGINE, -15.0, high)
    report("moment at which every part is ready", milliseconds(lambda: history.ready_minutes(READY)), 4.0)

    outside, settings = np.linspace(-35.0, 10.0, 50)[:, np.newaxis], np.linspace(25.0, 75.0, 50)

    def table():
        return warming(ENGINE, outside, BURNER.set_to("high", thermostat_c=settings)).ready_minutes(READY)

    report("table of 50 outside temperatures by 50 thermostat settings", milliseconds(table, 8), 100.0)


if __name__ == "__main__":
    main()
