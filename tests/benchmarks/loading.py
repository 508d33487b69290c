"""How long weight and balance takes: a million loads, a frame of the demonstration, a key to its pixels.

    python tests/benchmarks/loading.py           all three
    python tests/benchmarks/loading.py --quick   without the browser

Prints times and ratios and asserts nothing. Aims: a million loads in under 0.3 s; a frame in the kernel in 10 ms or less;
from key to pixels a third of plain `interact` or better.
"""

import sys
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent))

SLIDER = 1  # the rear seats


def best(call, times=7):
    found = []
    for _ in range(times):
        start = time.perf_counter()
        call()
        found.append(time.perf_counter() - start)
    return min(found)


def million_loads():
    from walkaround import aircraft
    from walkaround.physics.loading.loadsheet import load_sheet

    craft, n = aircraft.demo("morrowlark_four"), 1_000_000
    rng = np.random.default_rng(1)
    stations = {s.name: rng.uniform(0, s.maximum, n) for s in craft.stations}
    fuel = {t.name: rng.uniform(12, t.usable, n) for t in craft.fuel.tanks}
    together = best(lambda: load_sheet(craft, stations, fuel, 1, 20).loadable)

    names, arms = list(stations), [s.arm for s in craft.stations]
    some = 20_000
    columns = [stations[k].tolist()[:some] for k in names] + [fuel[k].tolist()[:some] for k in fuel]

    def plain_loop():
        # The same verdict by plain Python on floats, one load at a time.
        good = 0
        for front, rear, a, b, left, right in zip(*columns, strict=True):
            weight, moment = 1540.0, 1540.0 * 101.2
            for w, x in zip((front, rear, a, b), arms, strict=True):
                weight += w
                moment += w * x
            fine = weight <= 2430 and weight + 6 * (left + right) <= 2622 and a + b <= 150
            for gallons in (left + right - 1, left + right - 21):
                total, cg = weight + 6 * gallons, (moment + 6 * gallons * 106.0) / (weight + 6 * gallons)
                forward = 99.0 if total <= 2110 else 99.0 + (total - 2110) * 5 / 500
                fine = fine and 1500 <= total <= 2610 and forward <= cg <= 112.0
            good += fine and weight + 6 * (left + right - 21) <= 2500
        return good

    loop = best(plain_loop, 3) * n / some
    print(
        f"a million loads: one call {together:.3f} s, a plain loop {loop:.2f} s (scaled from {some:,}), ratio {together / loop:.2f}"
    )


def frames():
    from walkaround import aircraft
    from walkaround.lessons.loading import demos as loading
    from walkaround.lessons.loading.picture import LoadingPicture
    from walkaround.physics.loading.loadsheet import load_sheet

    made = loading.demo()
    slider = made.controls["rear seats"]
    step = iter(range(10_000))

    def live():
        slider.value = 5 * (next(step) % 80)

    craft = aircraft.demo("morrowlark_four")

    def anew():
        import io

        stations, fuel = (
            {"front seats": 340, "rear seats": 5 * (next(step) % 80)},
            {"left tank": 19.5, "right tank": 19.5},
        )
        picture = LoadingPicture(craft)
        picture.show((load_sheet(craft, stations, fuel, 0, 24.5), stations, fuel))
        picture.figure.savefig(io.BytesIO(), format="png")

    def median(call, times):
        found = []
        for _ in range(times):
            start = time.perf_counter()
            call()
            found.append(time.perf_counter() - start)
        return 1000 * sorted(found)[times // 2]

    median(live, 5), median(anew, 2)
    moved, whole = median(live, 60), median(anew, 15)
    print(f"a frame in the kernel: live {moved:.1f} ms, the figure made anew {whole:.1f} ms, ratio {moved / whole:.2f}")


if __name__ == "__main__":
    million_loads()
    frames()
