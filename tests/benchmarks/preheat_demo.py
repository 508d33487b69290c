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
from walkaround.demos import preheat
from walkaround.figures.live import png
from walkaround.figures.preheat import PreheatPicture
from walkaround.preheat_plan import plan

sys.path.insert(0, str(Path(__file__).resolve().parent))

SLIDER = 2  # wind: after the moment and the outside temperature
CELLS = {
    "live demonstration": "from walkaround.demos import preheat; preheat.demo()",
    "plain interact, same figure": (
        "from walkaround import aircraft\n"
        "from walkaround.aircraft.heaters import demo_heaters\n"
        "from walkaround.figures.preheat import PreheatPicture\n"
        "from walkaround.preheat_plan import plan\n"
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
    """Shortest and middle time of a call in ms, after a few to warm up."""
    found = []
    for i in range(times + 3):
        start = time.perf_counter()
        call(i)
        found.append(1e3 * (time.perf_counter() - start))
    found = sorted(found[3:])
    return f"{found[0]:5.1f} ms at best, {found[times // 2]:5.1f} ms in the middle"


def frames():
    made = preheat.demo()
    values, frame = made.values, made._frame

    def work(i):
        made._work_out.cache_clear()
        made._at({**values, "wind": i % 30})

    moving = iter(range(10_000))
    settings = [made._at({**values, "wind": wind}) for wind in range(30)]
    print(f"work out a setting      {times_ms(work)}")
    print(f"draw a setting          {times_ms(lambda i: made.live.draw(settings[i % 30]))}")
    print(f"PNG                     {times_ms(lambda i: png(frame))}")
    made._work_out.cache_clear()
    print(f"whole frame, a setting  {times_ms(lambda i: _to(made, 'wind', i % 30), 27)}")
    print(f"whole frame, a moment   {times_ms(lambda i: _to(made, 'moment', next(moving) % 45))}")
    section = aircraft.demo("morrowlark_four").engine
    heater = demo_heaters().air_heaters[0].set_to("high")

    def anew(i):
        picture = PreheatPicture(section.engine().parts, section.ready_c, section.oil)
        picture.show((plan(section.engine(), section.ready_c, -15, 45, heater, None, True, i % 30), 45))
        picture.figure.savefig(io.BytesIO(), format="png")

    print(f"the figure made anew    {times_ms(anew, 8)}")


def _to(made, name, value):
    made.controls[name].value = value


if __name__ == "__main__":
    frames()
    if "--quick" not in sys.argv:
        from key_to_pixels import report

        report(CELLS, SLIDER)
