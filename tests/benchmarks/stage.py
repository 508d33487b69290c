"""From a key pressed on a slider to changed pixels, in a real browser: every demonstration beside the usual ways to draw one.

    python tests/benchmarks/stage.py [presses] [names, such as bqplot,loading.demo]

All are measured in one run, on one page at a time, at 1366 by 768: the demonstrations on their stage; the loading picture made anew
by plain `interact`; the same figure on ipympl's canvas; and the same picture in bqplot, which the browser draws. Printed
for each: the median and the longest of the presses, how many frames a burst of sixty keys drew, and how long after the
last key the last one came. Needs bqplot and ipympl: pip install bqplot ipympl
"""

import re
import statistics
import sys
import tempfile
import time
from pathlib import Path

import nbformat
from nbformat.v4 import new_code_cell, new_notebook
from walkaround.lessons.table import LESSONS

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "browser"))
from lab_in_chromium import FLAGS, KERNEL, Lab, chromium, open_notebook, run_all_cells

DEMONSTRATIONS = {
    f"{lesson.name}.{function}": f"from walkaround.lessons import {lesson.name}; {lesson.name}.{function}()"
    for lesson in LESSONS
    for function, _ in lesson.demonstrations
}
FIGURE = """
import ipywidgets as widgets
from walkaround import aircraft
from walkaround.lessons.loading.picture import LoadingPicture
from walkaround.physics.loading import load_sheet
craft = aircraft.demo("morrowlark_four")
loads = {"front seats": 340, "rear seats": 0, "hold A": 60, "hold B": 0}
fuel = {"left tank": 15, "right tank": 15}
def sheet_for(front):
    stations = {**loads, "front seats": front}
    return load_sheet(craft, stations, fuel, 0.0, 20.0), stations, fuel
"""
OTHERS = {
    "plain interact": FIGURE
    + """
from IPython.display import display
def draw(front):
    picture = LoadingPicture(craft)
    picture.show(sheet_for(front))
    display(picture.figure)
widgets.interact(draw, front=widgets.IntSlider(340, 0, 470, 5));
""",
    "ipympl": "%matplotlib widget\n"
    + FIGURE
    + """
import matplotlib.pyplot as plt
import walkaround.lessons.loading.picture as module
plt.ioff()
module.new_figure = lambda width, height: plt.figure(figsize=(width / 100, height / 100), dpi=100)
picture = LoadingPicture(craft)
slider = widgets.IntSlider(340, 0, 470, 5)
def draw(change=None):
    picture.show(sheet_for(slider.value))
    picture.figure.canvas.draw_idle()
slider.observe(draw, "value")
draw()
widgets.VBox([slider, picture.figure.canvas])
""",
    "bqplot": FIGURE
    + """
import bqplot, numpy as np
from walkaround.physics.loading import cg_shifts
from walkaround.physics.loading import words
x, y = bqplot.LinearScale(min=96, max=116), bqplot.LinearScale(min=1450, max=3100)
shape = np.array([(99, 1500), (99, 2110), (104, 2610), (112, 2610), (112, 1500), (99, 1500)]).T
limits = bqplot.Lines(x=shape[0], y=shape[1], scales={"x": x, "y": y}, colors=["#009e73"], fill="inside", fill_opacities=[0.1])
points = bqplot.Scatter(x=[104, 104, 104], y=[2000, 2000, 2000], scales={"x": x, "y": y}, default_size=120)
path = bqplot.Lines(x=[104, 104], y=[2000, 2000], scales={"x": x, "y": y}, colors=["black"])
labels = bqplot.Label(x=[104, 104, 104], y=[2000, 2000, 2000], text=["take-off", "landing", "zero fuel"], scales={"x": x, "y": y}, x_offset=12)
axes = [bqplot.Axis(scale=x, label="centre of gravity, in aft of datum"), bqplot.Axis(scale=y, orientation="vertical", label="weight, lb")]
left = bqplot.Figure(marks=[limits, path, points, labels], axes=axes, layout={"width": "500px", "height": "480px"})
names = [*loads, *fuel]
bx, by = bqplot.OrdinalScale(), bqplot.LinearScale(min=-8, max=8)
bars = bqplot.Bars(x=names, y=[0] * len(names), scales={"x": bx, "y": by}, orientation="horizontal")
right = bqplot.Figure(marks=[bars], axes=[bqplot.Axis(scale=by), bqplot.Axis(scale=bx, orientation="vertical")], layout={"width": "320px", "height": "480px"})
slider, said = widgets.IntSlider(340, 0, 470, 5), widgets.HTML()
def draw(change=None):
    sheet, stations, tanks = sheet_for(slider.value)
    cgs = [float(c.cg) for c in sheet.conditions]
    weights = [float(c.weight) for c in sheet.conditions]
    with points.hold_sync(), labels.hold_sync(), path.hold_sync():
        points.x, points.y = cgs, weights
        labels.x, labels.y = cgs, weights
        path.x, path.y = cgs, weights
    bars.y = [shift for _, _, shift in cg_shifts(sheet, stations, tanks)]
    said.value = f"<p>{words.sentence(sheet)}</p>"
slider.observe(draw, "value")
draw()
widgets.VBox([slider, said, widgets.HBox([left, right])])
""",
}

# Notes the time of every change that draws: of an image, of a drawing in the page, or of a canvas.
WATCH = """
(output) => {
    const state = window.watching = {frames: 0, last: null, first: null, pressed: null};
    const drawn = () => {
        if (state.pressed === null || state.drawn) return;
        state.drawn = true; // until the screen's next frame, which shows all that has changed by then
        requestAnimationFrame(() => {
            state.drawn = false;
            requestAnimationFrame(() => {
                const now = performance.now();
                state.frames += 1; state.last = now; state.first = state.first ?? now;
            });
        });
    };
    for (const name of ['putImageData', 'drawImage']) {
        const proto = CanvasRenderingContext2D.prototype;
        const plain = proto['plain_' + name] ??= proto[name];
        proto[name] = function (...given) { plain.apply(this, given); if (output.contains(this.canvas)) drawn(); };
    }
    window.watcher?.disconnect();
    window.watcher = new MutationObserver((changes) => {
        const seen = changes.some(c => { const e = c.target.nodeType === 1 ? c.target : c.target.parentElement;
            return e && (e.closest('svg') || e.tagName === 'IMG' || [...c.addedNodes].some(n => n.querySelector?.('img') || n.tagName === 'IMG')) && !e.closest('.noUi-base'); });
        if (seen) drawn();
    });
    window.watcher.observe(output, {subtree: true, childList: true, attributes: true});
    window.addEventListener('keydown', () => { state.pressed ??= performance.now(); state.lastKey = performance.now(); }, {capture: true});
}
"""


FRESH = "() => Object.assign(window.watching, {frames: 0, first: null, last: null, pressed: null})"
HANDLES = "input[type=range], .noUi-handle"


def take_hold(page, output):
    """Give the keyboard to the first slider whose next steps change the picture, and stand it in the middle."""
    for handle in output.locator(HANDLES).all():
        if not handle.is_visible():
            continue
        handle.focus()
        steps = handle.evaluate("h => h.type === 'range' ? Math.round((h.max - h.min) / h.step) : 0")
        if steps:
            page.keyboard.press("Home")
            for _ in range(steps // 2):
                page.keyboard.press("ArrowRight")
        page.wait_for_timeout(1200)
        page.evaluate(FRESH)
        for _ in range(3):
            page.keyboard.press("ArrowRight")
            page.wait_for_timeout(120)
        page.wait_for_timeout(600)
        if page.evaluate("() => window.watching.frames") >= 3:
            for _ in range(3):
                page.keyboard.press("ArrowLeft")
            return min(15, steps // 2 - 1) if steps else 15
    raise AssertionError("no slider changes the picture")


def measure(page, output, presses):
    """Milliseconds from key to pixels for each press; frames of a burst of sixty keys, and the last one's delay."""
    page.evaluate(WATCH, output.element_handle())
    room = take_hold(page, output)
    page.wait_for_timeout(700)
    times = []
    for i in range(presses + 3):
        page.evaluate(FRESH)
        page.keyboard.press("ArrowRight" if i % (2 * room) < room else "ArrowLeft")
        page.wait_for_function("() => window.watching.first !== null", timeout=8000)
        took = page.evaluate("() => window.watching.first - window.watching.pressed")
        if i >= 3:
            times.append(took)
        page.wait_for_timeout(150)
    page.wait_for_timeout(1000)
    page.evaluate(FRESH)
    for i in range(60):
        began = time.perf_counter()
        page.keyboard.press("ArrowLeft" if i % (2 * room) < room else "ArrowRight")
        time.sleep(max(0.0, 0.033 - (time.perf_counter() - began)))
    page.wait_for_timeout(1500)
    frames, late = page.evaluate("() => [window.watching.frames, window.watching.last - window.watching.lastKey]")
    return times, frames, late


def main(presses=50, only=()):
    from playwright.sync_api import sync_playwright

    lab = Lab(Path(tempfile.mkdtemp()))
    found = {}
    try:
        with sync_playwright() as play:
            browser = play.chromium.launch(executable_path=chromium(), args=FLAGS)
            for name, source in {**OTHERS, **DEMONSTRATIONS}.items():
                if only and name not in only:
                    continue
                file = f"notebooks/measure-{re.sub('[ .]', '-', name)}.ipynb"
                cells = [new_code_cell(source)]
                nbformat.write(new_notebook(cells=cells, metadata=KERNEL), lab.folder / file)
                page = browser.new_context(viewport={"width": 1366, "height": 768}).new_page()
                open_notebook(page, lab, file)
                run_all_cells(page)
                output = page.locator(".jp-Cell-outputArea").first
                output.locator(HANDLES).first.wait_for(timeout=60_000, state="attached")
                try:
                    found[name] = measure(page, output, presses)
                except AssertionError as why:  # such as a drill, whose slider takes one answer after another
                    print(f"{name:22s} not measured: {why}", flush=True)
                    page.context.close()
                    continue
                times, frames, late = found[name]
                print(
                    f"{name:22s} key to pixels {statistics.median(times):6.1f} ms, longest of {len(times)} "
                    f"{max(times):6.1f} ms; a burst of 60 keys: {frames:3d} frames, the last after {late:5.0f} ms",
                    flush=True,
                )
                page.context.close()
            browser.close()
    finally:
        lab.stop()
    if "bqplot" in found:
        base = statistics.median(found["bqplot"][0])
        for name in DEMONSTRATIONS:
            if name in found:
                print(f"{name:22s} {statistics.median(found[name][0]) / base:.2f} of bqplot's (aim: 0.9 or less)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 50, sys.argv[2].split(",") if len(sys.argv) > 2 else ())
