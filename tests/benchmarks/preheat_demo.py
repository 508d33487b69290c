"""How long the demonstration of preheating takes: a frame in the kernel, and a key to its pixels.

    python tests/benchmarks/preheat_demo.py           both
    python tests/benchmarks/preheat_demo.py --quick   without the browser

Prints times and ratios and asserts nothing. Aims: a frame in the kernel in 10 ms or less; from key to pixels a third of
plain `interact` or better.
"""

import io
import sys
import time
from pathlib import Path

from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.lessons.preheat import demos as preheat
from walkaround.lessons.preheat.picture import PreheatPicture
from walkaround.live.png import PngStream
from walkaround.physics.preheat.plans import plan

sys.path.insert(0, str(Path(__file__).resolve().parent))

SLIDER = 2  # wind: after the moment and the outside temperature
CELLS = {
    "live demonstration": "from walkaround.lessons import preheat; preheat.demo()",
    "plain interact, same figure": (
        "from walkaround import aircraft\n"
        "from walkaround.aircraft.heaters import demo_heaters\n"
        "from walkaround.lessons.preheat.picture import PreheatPicture\n"
        "from walkaround.physics.preheat.plans import plan\n"
        "import ipywidgets as w\n"
        "from IPython.display import display\n"
        "def draw(moment=45, outside=-15, wind=5, heat=45):\n"
        "    section = aircraft.demo('morrowlark_four').engine\n"
        "    heater = demo_heaters().air_heaters[0].set_to('high')\n"
        "    picture = PreheatPicture(section.engine().parts, section.ready_c, section.oil)\n"
        "    picture.show((plan(section.engine(), section.ready_c, outside, heat, heater, None, True, wind), moment))\n"
        "    display(picture.figure)\n"
        "w.interact(draw, moment=(0, 45), outside=(-35, 10), wind=(0, 30), heat=(0, 240, 5));"
    ),
}


def times_ms(call, times=40):
    """Shortest and middle time in ms of a call, or of what it says it took, after a few to warm up."""
    found = []
    for i in range(times + 3):
        start = time.perf_counter()
        took = call(i)
        found.append(1e3 * (took if isinstance(took, float) else time.perf_counter() - start))
    found = sorted(found[3:])
    return f"{found[0]:5.1f} ms at best, {found[times // 2]:5.1f} ms in the middle"


def frames():
    made = preheat.demo()
    moments = iter(range(10_000))
    stream = PngStream()

    def to(name, value):
        made.controls[name].value = value

    outsides = iter([(c, fast) for c in range(-30, 1) for fast in (True, False)] * 2)

    def taken_hold_of(rested):
        # Another morning in between, so that no row of it is known but those worked out while the hand rests.
        outside, fast = next(outsides)
        made._rows._known.clear()
        made.set(outside=outside, fast=fast)
        if rested:
            made.work_ahead()
        start = time.perf_counter()
        to("wind", 1 + made.values["wind"] % 29)
        return time.perf_counter() - start

    print(f"a setting, its slider taken hold of   {times_ms(lambda i: taken_hold_of(True), 50)}")
    print(f"  before the hand has rested          {times_ms(lambda i: taken_hold_of(False), 50)}")
    print(f"a setting, its slider moved on        {times_ms(lambda i: _on(made, 'wind', i % 29))}")
    print(f"a moment                              {times_ms(lambda i: to('moment', next(moments) % 45))}")
    settings = [made._at({**made.values, "wind": wind}) for wind in range(29)]
    print(f"  of it drawing                       {times_ms(lambda i: made.live.draw(settings[i % 29]))}")
    print(f"  drawing and PNG                     {times_ms(lambda i: stream.png(made.live.draw(settings[i % 29])))}")
    section = aircraft.demo("morrowlark_four").engine
    heater = demo_heaters().air_heaters[0].set_to("high")

    def anew(i):
        picture = PreheatPicture(section.engine().parts, section.ready_c, section.oil)
        picture.show((plan(section.engine(), section.ready_c, -15, 45, heater, None, True, i % 30), 45))
        picture.figure.savefig(io.BytesIO(), format="png")

    print(f"the figure made anew                  {times_ms(anew, 8)}")


def _on(made, name, value):
    """Move a slider on to a place that was not shown before, though its row is known."""
    made._shown.cache_clear()
    made.controls[name].value = value


if __name__ == "__main__":
    frames()
    if "--quick" not in sys.argv:
        from key_to_pixels import report

        report(CELLS, SLIDER)
