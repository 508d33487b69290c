"""From a key pressed on a slider to changed pixels in a real browser: a live demonstration beside plain `interact`.

Both are measured in the same run, on the same page, with the same figure. Used by the lessons' benchmarks; by itself:

    python tests/benchmarks/key_to_pixels.py
"""

import statistics
import sys
import tempfile
from pathlib import Path

import nbformat
from nbformat.v4 import new_code_cell, new_notebook

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "browser"))
from lab_in_chromium import FLAGS, Lab, chromium, open_notebook, run_all_cells

KERNEL = {"kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}}

# Waits for a picture whose pixels differ from those before the key, painted; answers the time since the key.
WATCH = """
(output) => new Promise((resolve, reject) => {
    const small = image => {
        const canvas = document.createElement('canvas');
        canvas.width = 410; canvas.height = 240;
        const pen = canvas.getContext('2d', {willReadFrequently: true});
        pen.drawImage(image, 0, 0, 410, 240);
        return pen.getImageData(0, 0, 410, 240).data;
    };
    const before = small(output.querySelector('img'));
    let start = null;
    const pressed = () => { if (start === null) start = performance.now(); };
    window.addEventListener('keydown', pressed, {capture: true});
    const done = value => { window.removeEventListener('keydown', pressed, {capture: true}); watch.disconnect(); resolve(value); };
    const look = async () => {
        const image = output.querySelector('img');
        if (!image || start === null) return;
        try { await image.decode(); } catch { return; }
        const now = small(image);
        let differs = false;
        for (let i = 0; i < now.length && !differs; i += 4) differs = Math.abs(now[i] - before[i]) > 8;
        if (differs) requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - start)));
    };
    const watch = new MutationObserver(look);
    watch.observe(output, {subtree: true, childList: true, attributes: true, attributeFilter: ['src']});
    setTimeout(() => done(null), 8000);
    window.readyForKey = true;
})
"""


def measure(cells, slider, presses=25):
    """Median milliseconds from key to pixels for each of the named code cells (a dict), by the slider of that number."""
    from playwright.sync_api import sync_playwright

    lab = Lab(Path(tempfile.mkdtemp()))
    try:
        book = new_notebook(cells=[new_code_cell(source) for source in cells.values()], metadata=KERNEL)
        nbformat.write(book, lab.folder / "notebooks" / "measure.ipynb")
        with sync_playwright() as play:
            browser = play.chromium.launch(executable_path=chromium(), args=FLAGS)
            page = browser.new_context(viewport={"width": 1366, "height": 768}).new_page()
            open_notebook(page, lab, "notebooks/measure.ipynb")
            run_all_cells(page)
            page.wait_for_timeout(1500)
            outputs = page.locator(".jp-Cell-outputArea")
            found = {name: [] for name in cells}
            for round_ in range(presses):
                for i, name in enumerate(cells):
                    output = outputs.nth(i)
                    handle = output.locator(".noUi-handle").nth(slider)
                    handle.focus()
                    page.wait_for_timeout(120)
                    page.evaluate("() => { window.readyForKey = false; }")
                    element = output.element_handle()
                    page.evaluate(f"output => {{ window.found = ({WATCH})(output); }}", element)
                    page.keyboard.press("ArrowRight" if round_ % 10 < 7 else "ArrowLeft")
                    took = page.evaluate("() => window.found")
                    if took is not None and round_ >= 3:
                        found[name].append(took)
            browser.close()
    finally:
        lab.stop()
    return {name: statistics.median(times) for name, times in found.items()}


def report(cells, slider):
    """Print the medians and the ratio of the first cell to the last."""
    times = measure(cells, slider)
    for name, ms in times.items():
        print(f"  key to pixels, {name:32s} {ms:7.1f} ms")
    names = list(times)
    print(f"  ratio {times[names[0]] / times[names[-1]]:.2f} (aim: a third or better)")


if __name__ == "__main__":
    from loading import CELLS, SLIDER

    report(CELLS, SLIDER)
