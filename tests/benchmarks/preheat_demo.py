"""How long the demonstration of preheating takes: a frame in the kernel, and a key to its pixels.

    python tests/benchmarks/preheat_demo.py           both
    python tests/benchmarks/preheat_demo.py --quick   without the browser

Prints times and ratios and asserts nothing. Aims: a frame in the kernel in 16 ms or less; from key to pixels a third of
plain `interact`, or better.
"""

import io
import sys
import time
from pathlib import Path

from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.lessons.preheat import demos as preheat
from walkaround.lessons.preheat.picture import PreheatPicture
from walkaround.live.picture import LivePicture
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
    """Shortest and middle time in ms of a call, after a few to warm up."""
    found = []
    for i in range(times + 3):
        start = time.perf_counter()
        call(i)
        found.append(1e3 * (time.perf_counter() - start))
    found = sorted(found[3:])
    return f"{found[0]:5.1f} ms at best, {found[times // 2]:5.1f} ms in the middle"


def frames():
    stage = preheat.demo()
    values = stage.values

    def to(name, value):
        stage.controls[name].value = value

    weak = {"fast": True, "power": 1200}  # both fans are computed, to say which is better
    for what, setting in (("a setting", {}), ("  with a weak heater", weak), ("  with a long wait", {"wait": 60})):
        stage.set(**{**values, **setting})
        print(f"{what:<32}{times_ms(lambda i: to('wind', i % 29))}")
    stage.set(**values)
    print(f"{'a moment':<32}{times_ms(lambda i: to('moment', i % 45))}")
    section = aircraft.demo("morrowlark_four").engine
    engine, heater = section.engine(), demo_heaters().air_heaters[0].set_to("high")
    plans = [(plan(engine, section.ready_c, -15, 45, heater, None, True, wind), 45) for wind in range(29)]

    def picture():
        return PreheatPicture(engine.parts, section.ready_c, section.oil)

    def anew(i):
        made = picture()
        made.show(plans[i])
        made.figure.savefig(io.BytesIO(), format="png")

    live, stream = LivePicture(picture()), PngStream()
    print(f"{'of a setting, drawing':<32}{times_ms(lambda i: live.draw(plans[i % 29]))}")
    print(f"{'  drawing and PNG':<32}{times_ms(lambda i: stream.png(live.draw(plans[i % 29])))}")
    print(f"{'the figure made anew':<32}{times_ms(anew, 8)}")


if __name__ == "__main__":
    frames()
    if "--quick" not in sys.argv:
        from key_to_pixels import report

        report(CELLS, SLIDER)
