"""How long a frame of the preheat demonstration takes in the kernel: python tests/benchmarks/preheat_demo.py

Prints times and asserts nothing. Aim: 16 ms or less.
"""

import io
import sys
import time
from pathlib import Path

from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters
from walkaround.lessons.preheat import demos as preheat
from walkaround.lessons.preheat.picture import PreheatPicture
from walkaround.live.bands import Bands
from walkaround.live.picture import LivePicture
from walkaround.physics.preheat.plans import plan

sys.path.insert(0, str(Path(__file__).resolve().parent))


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

    live, stream = LivePicture(picture()), Bands()
    print(f"{'of a setting, drawing':<32}{times_ms(lambda i: live.draw(plans[i % 29]))}")
    print(f"{'  drawing and what changed':<32}{times_ms(lambda i: stream.changed(live.draw(plans[i % 29])))}")
    print(f"{'the figure made anew':<32}{times_ms(anew, 8)}")


if __name__ == "__main__":
    frames()
